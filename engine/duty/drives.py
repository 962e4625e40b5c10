"""What belts and chains pull a shaft with."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import COMMON_PRACTICE, MACHINE_DESIGN, STATICS, cited

#: Pull on the shaft over transmitted force, by kind: least, greatest and the one that is taken where nothing is said.
#: Common practice, no source; the greatest is taken, since it is the safe side. Handbooks print 1.5 for V-belts, 2 to 3
#: for flat belts and 1 for the tight strand of a chain.
PULL_FACTORS = {
    "chain": (1.0, 1.25, 1.25),
    "toothed_belt": (1.1, 1.5, 1.5),
    "v_belt": (1.5, 2.0, 2.0),
    "flat_belt": (2.0, 3.0, 3.0),
}
KINDS = tuple(PULL_FACTORS)


@cited(COMMON_PRACTICE, "pull factor")
def pull_by_factor(Ft: Array, k: Array) -> Floats:
    """Pull of a belt or chain on its shaft, as a multiple of the force that it transmits.

    F = k Ft

    Parameters (any broadcastable shapes)
    ----------
    Ft : transmitted force [N]
    k : pull factor: chain 1.0 to 1.25, toothed belt 1.1 to 1.5, V-belt 1.5 to 2, flat belt 2 to 3 [-]

    Returns
    -------
    F [N], towards the other pulley

    Valid for Ft >= 0, k >= 1; NaN outside.

    Source: Common practice, pull factor; no source.
    """
    Ft, k = as_arrays(Ft, k)
    return np.where((Ft >= 0) & (k >= 1), k * Ft, np.nan)


@cited(MACHINE_DESIGN, "chapter 17, angle of wrap of an open belt")
def wrap_angle(d: Array, d_other: Array, distance: Array) -> Floats:
    """Angle over which an open belt or a chain lies on a pulley.

    theta = pi + 2 arcsin((d - d_other) / (2 distance))

    Parameters (any broadcastable shapes)
    ----------
    d : pitch diameter of this pulley [mm]
    d_other : pitch diameter of the other pulley [mm]
    distance : between the two shafts [mm]

    Returns
    -------
    theta [rad]

    Valid for diameters > 0 and pulleys that stand apart, d + d_other <= 2 distance; NaN outside.

    Source: Mechanical Engineering Design, chapter 17, angle of wrap of an open belt; recalled.
    """
    d, d_other, distance = as_arrays(d, d_other, distance)
    inside = (d > 0) & (d_other > 0) & (d + d_other <= 2 * distance)
    with np.errstate(all="ignore"):
        return np.where(inside, np.pi + 2 * np.arcsin((d - d_other) / (2 * distance)), np.nan)


@cited(MACHINE_DESIGN, "chapter 17, belting equation")
def tension_ratio(mu: Array, theta: Array, groove: Array) -> Floats:
    """Greatest ratio of the tensions of the two strands before the belt slips (Eytelwein).

    T1 / T2 = exp(mu theta / sin(groove / 2))

    Parameters (any broadcastable shapes)
    ----------
    mu : coefficient of friction [-]
    theta : angle of wrap [rad]
    groove : angle between the flanks of the groove of a V-belt; pi for a flat belt [rad]

    Returns
    -------
    T1 / T2 [-]

    Valid for mu >= 0, theta >= 0, 0 < groove <= pi, without centrifugal force; NaN outside.

    Source: Mechanical Engineering Design, chapter 17, belting equation; recalled.
    """
    mu, theta, groove = as_arrays(mu, theta, groove)
    inside = (mu >= 0) & (theta >= 0) & (groove > 0) & (groove <= np.pi)
    with np.errstate(all="ignore"):
        return np.where(inside, np.exp(mu * theta / np.sin(groove / 2)), np.nan)


@cited(MACHINE_DESIGN, "chapter 17, tensions of a belt")
def strand_tensions(Ft: Array, ratio: Array) -> tuple[Floats, Floats]:
    """Tension of the tight and of the slack strand from the force transmitted and their ratio.

    T2 = Ft / (ratio - 1); T1 = ratio T2

    Parameters (any broadcastable shapes)
    ----------
    Ft : transmitted force T1 - T2 [N]
    ratio : T1 / T2 [-]

    Returns
    -------
    T1, T2 [N]

    Valid for Ft >= 0, ratio > 1; NaN outside.

    Source: Mechanical Engineering Design, chapter 17, tensions of a belt; recalled.
    """
    Ft, ratio = as_arrays(Ft, ratio)
    with np.errstate(all="ignore"):
        T2 = np.where((Ft >= 0) & (ratio > 1), Ft / (ratio - 1), np.nan)
    return ratio * T2, T2


@cited(STATICS, "sum of two strands")
def pull_of_strands(T1: Array, T2: Array, theta: Array) -> tuple[Floats, Floats]:
    """Pull of two strands on their shaft: along the line of centres, and across it towards the tight strand's lean.

    F_c = (T1 + T2) cos((pi - theta)/2); F_x = (T1 - T2) sin((pi - theta)/2)

    Parameters (any broadcastable shapes)
    ----------
    T1 : tension of the tight strand [N]
    T2 : tension of the slack strand [N]
    theta : angle of wrap on this pulley [rad]

    Returns
    -------
    F_c, F_x [N]

    Valid for tensions >= 0, 0 < theta < 2 pi; NaN outside.

    Source: Statics, sum of two strands; derived here: each strand leans (pi - theta)/2 off the line of centres.
    """
    T1, T2, theta = as_arrays(T1, T2, theta)
    inside = (T1 >= 0) & (T2 >= 0) & (theta > 0) & (theta < 2 * np.pi)
    # pi/2 - theta/2 and no other order: at theta = pi the lean is then exactly none
    lean = np.pi / 2 - theta / 2
    return np.where(inside, (T1 + T2) * np.cos(lean), np.nan), np.where(inside, (T1 - T2) * np.sin(lean), np.nan)
