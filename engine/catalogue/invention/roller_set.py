"""Rollers for a given envelope: as large as walls, ribs and cage leave room for. All fractions here are invented."""

import numpy as np

from engine.catalogue.section.raceways import roller_half_angle_nu
from engine.catalogue.section.rollers import most_rollers, roller_corner
from engine.catalogue.section.sizes import Envelope, Rollers
from engine.numerics import Floats
from engine.sources import GEOMETRY, cited

#: Roller diameter over section height (D - d)/2 where nothing else bounds it: at alpha = 0, and its fall by tan(alpha).
_ROLLER_SHARE, _SHARE_FALL = 0.545, 0.10
#: Least walls, as a share of the section height and a length [mm]: cup at its thin edge, cone under the small ends.
_CUP_WALL, _CONE_WALL, _WALL = 0.11, 0.14, 0.3
#: Least widths of the large and of the small rib, as a share of the cone width and a length [mm].
_LARGE_RIB, _SMALL_RIB, _RIB = 0.10, 0.05, 0.4
#: Rollers reach over so much of the cup raceway, and are at most so many diameters long.
_CUP_SHARE, _SLENDEREST = 0.92, 2.6
#: Gap between neighbouring rollers, in diameters, for a pressed cage.
_GAP = 0.10
_ROUNDS = 12


@cited(GEOMETRY, "rollers in the room that walls, ribs and cage leave")
def roller_set(envelope: Envelope, variation: Floats) -> Rollers:
    """Roller set of an assembly, rounded as a catalogue prints it.

    Dwe = min(0.545 - 0.10 tan(alpha) times (D - d)/2, room between the least walls), Lwe = min(0.92 C / cos(alpha),
    room between the least ribs, 2.6 Dwe) less two corners, Z the largest count that keeps the cage gap

    Parameters (any broadcastable shapes)
    ----------
    envelope : boundary dimensions and contact angle [mm, rad]
    variation : three numbers from 0 to 1 along the first axis, that thin and shorten the rollers by up to 5 %
        and widen the cage gap by up to 4 % of a diameter [-]

    Returns
    -------
    rollers: Dwe and Dpw to 0.05 mm, Lwe to 0.1 mm, whole Z [mm, -]

    Valid for envelopes near the dimension series of ISO 355 and contact angles of 10 to 30 deg.

    Source: Geometry, rollers in the room that walls, ribs and cage leave; derived here, the fractions are invented.
    """
    b = envelope
    height = (b.D - b.d) / 2
    tan = np.tan(b.alpha)
    Dwe = wanted = (_ROLLER_SHARE - _SHARE_FALL * tan) * height * (1 - 0.05 * variation[0])
    Dpw = (b.d + b.D) / 2
    highest = b.D / 2 - _CUP_WALL * height - _WALL - b.C / 2 * tan
    # diameter, length and pitch bound one another; each round starts from the sizes of the one before
    for _ in range(_ROUNDS):
        nu = roller_half_angle_nu(Dwe, Dpw, b.alpha)
        length = _length(b, Dwe, nu)
        lowest = b.d / 2 + _CONE_WALL * height + _WALL + length / 2 * np.sin(b.alpha - 2 * nu)
        across = np.cos(b.alpha - nu)
        Dwe = np.minimum(wanted, (highest - lowest) / across)
        # what the walls have to spare is shared evenly between cone and cup
        Dpw = lowest + highest
    Dwe, Dpw = _rounded_down(Dwe, 0.05), np.round(Dpw / 0.05) * 0.05
    nu = roller_half_angle_nu(Dwe, Dpw, b.alpha)
    Lwe = _length(b, Dwe, nu) * (1 - 0.05 * variation[1]) - 2 * roller_corner(Dwe)
    Z = most_rollers(Dwe, Dpw, _GAP + 0.04 * variation[2])
    return Rollers(np.round(Dwe, 2), np.round(_rounded_down(Lwe, 0.1), 1), np.round(Dpw, 2), Z)


def _length(b: Envelope, Dwe: Floats, nu: Floats) -> Floats:
    """Whole length of the rollers that cup, ribs of the cone and slenderness allow."""
    middle = b.T - b.C / 2 - Dwe * np.sin(b.alpha - nu)
    before_large = middle - _LARGE_RIB * b.B - _RIB
    before_small = b.B - _SMALL_RIB * b.B - _RIB - middle
    between_ribs = 2 * np.minimum(before_large, before_small) / np.cos(b.alpha - 2 * nu)
    return np.minimum(np.minimum(_CUP_SHARE * b.C / np.cos(b.alpha), between_ribs), _SLENDEREST * Dwe)


def _rounded_down(values: Floats, step: float) -> Floats:
    # the small part keeps a value that stands on a step from falling to the one below
    return np.floor(values / step + 1e-9) * step
