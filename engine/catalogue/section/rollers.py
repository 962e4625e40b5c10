"""Rollers side by side on their circle, and the corners at their ends."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import COMMON_PRACTICE, GEOMETRY, cited


@cited(GEOMETRY, "chord between neighbouring rollers")
def gap_ratio(Dwe: Array, Dpw: Array, Z: Array) -> Floats:
    """Gap between neighbouring rollers, in roller diameters; negative where they would overlap.

    gap = Dpw sin(pi/Z) / Dwe - 1

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller mean diameter [mm]
    Dpw : pitch diameter of the roller set [mm]
    Z : number of rollers [-]

    Returns
    -------
    gap [-]

    Valid for Z >= 2, Dwe > 0; NaN outside.

    Source: Geometry, chord between neighbouring rollers; derived here.
    """
    Dwe, Dpw, Z = as_arrays(Dwe, Dpw, Z)
    with np.errstate(all="ignore"):
        return np.where((Z >= 2) & (Dwe > 0), Dpw * np.sin(np.pi / Z) / Dwe - 1, np.nan)


@cited(GEOMETRY, "chord between neighbouring rollers")
def most_rollers(Dwe: Array, Dpw: Array, gap: Array) -> Floats:
    """Largest number of rollers that keep a gap for the cage.

    Z = floor(pi / arcsin(Dwe (1 + gap) / Dpw))

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller mean diameter [mm]
    Dpw : pitch diameter of the roller set [mm]
    gap : least gap between neighbours, in roller diameters [-]

    Returns
    -------
    Z [-]

    Valid for 0 < Dwe (1 + gap) <= Dpw; NaN outside.

    Source: Geometry, chord between neighbouring rollers; derived here.
    """
    Dwe, Dpw, gap = as_arrays(Dwe, Dpw, gap)
    with np.errstate(all="ignore"):
        chord = Dwe * (1 + gap) / Dpw
        return np.where(chord > 0, np.floor(np.pi / np.arcsin(chord)), np.nan)


@cited(COMMON_PRACTICE, "roller corners")
def roller_corner(Dwe: Array) -> Floats:
    """Length at each roller end that carries no load: corner and run-out of the profile.

    0.2 mm + 0.03 Dwe

    Parameters (any shape)
    ----------
    Dwe : roller mean diameter [mm]

    Returns
    -------
    length [mm]

    Valid for rollers of 4 to 60 mm.

    Source: Common practice, roller corners; no source.
    """
    (Dwe,) = as_arrays(Dwe)
    return 0.2 + 0.03 * Dwe
