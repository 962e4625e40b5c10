"""What lies where in the section of a bearing: cup, roller or cone at a point along the axis and a radius."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


@dataclass(frozen=True)
class Sizes:
    """What is drawn: boundary dimensions, roller set and load centre of one assembly [mm, rad].

    `estimated` names those of them that the file of the catalogue does not state.
    """

    d: float
    D: float
    T: float
    B: float
    C: float
    alpha: float
    Dwe: float
    Lwe: float
    Dpw: float
    a: float
    estimated: frozenset[str] = frozenset()

    @classmethod
    def of(cls, catalogue: Catalogue, row: int) -> Sizes:
        """Return the sizes of a row of the catalogue."""
        from engine.catalogue.columns import estimated_bit

        names = [name for name in cls.__dataclass_fields__ if name != "estimated"]
        guessed = frozenset(name for name in names if catalogue.estimated[row] & estimated_bit(name))
        return cls(**{name: float(getattr(catalogue, name)[row]) for name in names}, estimated=guessed)

    @property
    def drawable(self) -> bool:
        """Whether every size is known and they can belong to one section."""
        known = all(math.isfinite(value) for value in vars(self).values() if isinstance(value, float))
        return (
            known
            and 0 < self.d < self.Dpw < self.D
            and 0 < self.Dwe < (self.D - self.d) / 2
            and min(self.T, self.B, self.C, self.Lwe) > 0
            and 0 < self.alpha < math.pi / 4
        )


@dataclass(frozen=True)
class Profile:
    """Where cup, roller and cone lie in the plane of z (along the axis) and r (radius); slopes [rad], lengths [mm].

    The ribs are cylinders about the axis of the bearing, their tops at `large_rib` and `small_rib`.
    """

    sizes: Sizes
    roller_z: float
    slope: float
    nu: float
    half_length: float
    cup_r: float
    large_rib: float
    small_rib: float

    @classmethod
    def of(cls, s: Sizes, least_rib: float) -> Profile:
        """Return the profile of the sizes by the geometry of the catalogue; the big rib stands out at least so far."""
        from engine.catalogue.section.raceways import cup_contact_radius, roller_half_angle_nu
        from engine.catalogue.section.ribs import LARGE_RIB_HEIGHT, SMALL_RIB_HEIGHT
        from engine.catalogue.section.rollers import roller_corner

        nu = float(roller_half_angle_nu(s.Dwe, s.Dpw, s.alpha))
        slope, inner = s.alpha - nu, s.alpha - 2 * nu
        half = s.Lwe / 2 + float(roller_corner(s.Dwe))
        middle = s.Dpw / 2 - s.Dwe / 2 * math.cos(slope)
        drop = half * math.sin(inner)
        return cls(
            sizes=s,
            roller_z=s.T - s.C / 2 - s.Dwe / 2 * math.sin(slope),
            slope=slope,
            nu=nu,
            half_length=half,
            cup_r=float(cup_contact_radius(s.Dwe, s.Dpw, s.alpha)),
            large_rib=middle + drop + max(LARGE_RIB_HEIGHT * s.Dwe, least_rib),
            small_rib=middle - drop + SMALL_RIB_HEIGHT * s.Dwe,
        )

    def part(self, z: float, r: float) -> str:
        """Return what lies at a point: "cup", "roller", "cone" or ""."""
        s = self.sizes
        along, off = self._from_roller(z, r)
        if abs(along) <= self.half_length and abs(off) <= s.Dwe / 2 - along * math.tan(self.nu):
            return "roller"
        raceway = self.cup_r - (z - s.T + s.C / 2) * math.tan(s.alpha)
        if s.T - s.C <= z <= s.T and raceway <= r <= s.D / 2:
            return "cup"
        top = math.inf
        if abs(along) > self.half_length:
            top = self.large_rib if along < 0 else self.small_rib
        return "cone" if 0 <= z <= s.B and s.d / 2 <= r <= top and off < 0 else ""

    def _from_roller(self, z: float, r: float) -> tuple[float, float]:
        """Return a point in the roller's own directions: along its axis to the small end, and off it, outward."""
        dz, dr = z - self.roller_z, r - self.sizes.Dpw / 2
        cos, sin = math.cos(self.slope), math.sin(self.slope)
        return dz * cos - dr * sin, dz * sin + dr * cos
