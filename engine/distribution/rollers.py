"""One row of tapered rollers as the load distribution sees it: count, sizes, angles, profile, ratings."""

from dataclasses import dataclass

import numpy as np

from engine.numerics import Floats

#: Laminae that each roller is cut into; ISO/TS 16281 asks for at least 30.
LAMINAE = 30
PLAIN = "plain"
LOG = "log"
PROFILES = (PLAIN, LOG)


@dataclass(frozen=True)
class RollerSet:
    """The rollers of one bearing, the places that matter along its axis, and its ratings.

    `a` is the distance from the cone back face to the effective load centre and `inset` that from the reference plane
    to the cone back face, both as in engine.pair.arrangement; `nu` is the half angle of the roller's own cone. From the
    cone back face, positive into the bearing, are also counted `middle`, the middle of the cup contact, and `T`, the
    cup back face.
    """

    Z: int
    Dpw: float  # pitch diameter of the roller set [mm]
    Dwe: float  # roller mean diameter [mm]
    Lwe: float  # effective contact length [mm]
    alpha: float  # contact angle, that of the cup [rad]
    nu: float  # half angle of the roller's cone [rad]
    profile: str  # "log" (that of ISO/TS 16281) or "plain" [-]
    a: float  # [mm]
    inset: float  # [mm]
    middle: float  # [mm]
    T: float  # [mm]
    Cr: float  # basic dynamic radial load rating [N]
    Cu: float  # fatigue load limit [N]

    def __post_init__(self) -> None:
        if self.profile not in PROFILES:
            raise ValueError(f"profile is {self.profile!r}, accepted are {', '.join(PROFILES)}")
        sizes = (self.Z, self.Dpw, self.Dwe, self.Lwe, self.alpha, self.Cr)
        if not all(np.isfinite(size) and size > 0 for size in sizes):
            raise ValueError("Z, Dpw, Dwe, Lwe, alpha and Cr of a roller set are positive numbers")

    @property
    def alpha_i(self) -> float:
        """Contact angle at the cone: smaller than that of the cup by the whole cone angle of the roller [rad]."""
        return self.alpha - 2 * self.nu

    @property
    def cup_diameter(self) -> float:
        """Diameter of the circle on which the roller middles touch the cup [mm]."""
        return float(self.Dpw + self.Dwe * np.cos(self.alpha - self.nu))

    @property
    def cone_diameter(self) -> float:
        """Diameter of the circle on which the roller middles touch the cone [mm]."""
        return float(self.Dpw - self.Dwe * np.cos(self.alpha - self.nu))

    @property
    def places(self) -> Floats:
        """Angle of every roller around the circle, from the y direction towards z; shape (Z,) [rad]."""
        return 2 * np.pi * np.arange(self.Z) / self.Z
