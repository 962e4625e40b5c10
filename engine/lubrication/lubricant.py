"""What a lubricant is: an oil, or a grease by its base oil and thickener."""

from dataclasses import dataclass

FORMS = ("oil", "grease")


@dataclass(frozen=True)
class Lubricant:
    """One oil or grease; of a grease, viscosity, density and base are those of its base oil.

    nu40, nu100 [mm2/s] at 40 and 100 deg C, `two_points` where those follow from viscosities at two other temperatures;
    VG and VI as stated, None where two viscosities were given; rho15 [kg/m3]; T_least, T_greatest [deg C] in lasting
    service; nlgi, thickener and bleed of greases only, "" or None for oils.
    """

    name: str
    form: str
    base: str
    nu40: float
    nu100: float
    rho15: float
    ep: bool
    T_least: float
    T_greatest: float
    VG: float | None = None
    VI: float | None = None
    nlgi: float | None = None
    thickener: str = ""
    bleed: str = ""
    note: str = ""
    two_points: bool = False
