"""The outline of the cone: a raceway between two ribs that are cylinders about the axis."""

from dataclasses import dataclass

import numpy as np

from engine.catalogue.section.raceways import roller_half_angle_nu
from engine.catalogue.section.rollers import roller_corner
from engine.catalogue.section.sizes import Envelope, Rollers
from engine.numerics import Floats
from engine.sources import COMMON_PRACTICE, cited

#: Heights of the two ribs of the cone over its raceway, per roller diameter; common practice, no source.
LARGE_RIB_HEIGHT = 0.20
SMALL_RIB_HEIGHT = 0.10


@dataclass(frozen=True)
class ConeRing:
    """Outline of a cone: widths of the ribs and of the track between them, radii [mm], slope of the track [rad]."""

    large_rib: Floats
    track: Floats
    small_rib: Floats
    large_radius: Floats
    middle_radius: Floats
    small_radius: Floats
    slope: Floats


@cited(COMMON_PRACTICE, "rib heights")
def cone_ring(envelope: Envelope, rollers: Rollers) -> ConeRing:
    """Outline of the cone: the track as long as the rollers, a rib at either end of it up to the faces.

    large rib 0.20 Dwe and small rib 0.10 Dwe above the ends of the track

    Parameters (any broadcastable shapes)
    ----------
    envelope : boundary dimensions and contact angle [mm, rad]
    rollers : roller set [mm, -]

    Returns
    -------
    outline [mm, rad]

    Valid for rollers that lie between the ribs of the cone.

    Source: Common practice, rib heights; no source. The track follows from the geometry of rollers of one apex.
    """
    b, r = envelope, rollers
    nu = roller_half_angle_nu(r.Dwe, r.Dpw, b.alpha)
    length = r.Lwe + 2 * roller_corner(r.Dwe)
    axis, slope = b.alpha - nu, b.alpha - 2 * nu
    middle = r.Dpw / 2 - r.Dwe / 2 * np.cos(axis)
    track = length * np.cos(slope)
    start = b.T - b.C / 2 - r.Dwe * np.sin(axis) - track / 2
    drop = track / 2 * np.tan(slope)
    return ConeRing(
        large_rib=start,
        track=track,
        small_rib=b.B - start - track,
        large_radius=middle + drop + LARGE_RIB_HEIGHT * r.Dwe,
        middle_radius=middle,
        small_radius=middle - drop + SMALL_RIB_HEIGHT * r.Dwe,
        slope=slope,
    )
