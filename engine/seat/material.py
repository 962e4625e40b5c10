"""Elastic constants of rings, shafts and housings."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Material:
    """Young's modulus [MPa], Poisson's ratio [-], thermal expansion [1/K], density [kg/m3]; the same in any steel."""

    name: str
    E: float
    nu: float
    alpha: float
    rho: float


# values of handbooks, recalled; grades of one kind differ by a few percent
STEEL = Material("steel", 206_000.0, 0.30, 12.0e-6, 7850.0)
GREY_IRON = Material("grey cast iron", 110_000.0, 0.25, 10.5e-6, 7200.0)
DUCTILE_IRON = Material("ductile cast iron", 169_000.0, 0.275, 12.5e-6, 7100.0)
ALUMINIUM = Material("aluminium", 70_000.0, 0.33, 23.5e-6, 2700.0)
MATERIALS = {"steel": STEEL, "grey_iron": GREY_IRON, "ductile_iron": DUCTILE_IRON, "aluminium": ALUMINIUM}
