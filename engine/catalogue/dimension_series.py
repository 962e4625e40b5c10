"""Dimension series of metric tapered roller bearings: angle digit, diameter letter, width letter."""

import numpy as np

from engine.catalogue.columns import Texts
from engine.numerics import Array, Floats, as_arrays
from engine.sources import ISO_355, cited

#: Class limits as printed, "over" the first and "including" the second: contact angle [deg, min] by digit,
ANGLE_LIMITS = {
    "2": ((10, 0), (13, 52)),
    "3": ((13, 52), (15, 59)),
    "4": ((15, 59), (18, 55)),
    "5": ((18, 55), (23, 0)),
    "6": ((23, 0), (27, 0)),
    "7": ((27, 0), (30, 0)),
}
#: D/d^0.77 by letter,
DIAMETER_LIMITS = {
    "B": (3.40, 3.80),
    "C": (3.80, 4.40),
    "D": (4.40, 4.70),
    "E": (4.70, 5.00),
    "F": (5.00, 5.60),
    "G": (5.60, 7.00),
}
#: and T/(D - d)^0.95 by letter.
WIDTH_LIMITS = {
    "B": (0.50, 0.68),
    "C": (0.68, 0.80),
    "D": (0.80, 0.88),
    "E": (0.88, 1.00),
}


@cited(ISO_355, "dimension series, diameter series")
def diameter_ratio(d: Array, D: Array) -> Floats:
    """Ratio by which the diameter series of a bearing is found.

    D / d^0.77

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    D : outside diameter [mm]

    Returns
    -------
    ratio, of dimensions in mm [-]

    Valid for d > 0.

    Source: ISO 355:2019, dimension series, diameter series; recalled, agrees with 90 boundary rows recalled apart
    from it.
    """
    d, D = as_arrays(d, D)
    with np.errstate(all="ignore"):
        return np.where(d > 0, D / np.power(np.abs(d), 0.77), np.nan)


@cited(ISO_355, "dimension series, width series")
def width_ratio(d: Array, D: Array, T: Array) -> Floats:
    """Ratio by which the width series of a bearing is found.

    T / (D - d)^0.95

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    D : outside diameter [mm]
    T : width of the assembly [mm]

    Returns
    -------
    ratio, of dimensions in mm [-]

    Valid for D > d.

    Source: ISO 355:2019, dimension series, width series; recalled, agrees with 90 boundary rows recalled apart
    from it.
    """
    d, D, T = as_arrays(d, D, T)
    with np.errstate(all="ignore"):
        return np.where(d < D, T / np.power(np.abs(D - d), 0.95), np.nan)


@cited(ISO_355, "dimension series")
def classify(d: Array, D: Array, T: Array, alpha: Array) -> Texts:
    """Dimension series of a bearing, such as 3DB: angle digit, diameter letter, width letter.

    Each sign is that of the class with: over lower limit, including upper limit, of alpha, D/d^0.77, T/(D-d)^0.95.

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    D : outside diameter [mm]
    T : width of the assembly [mm]
    alpha : contact angle [rad]

    Returns
    -------
    dimension series, "" where a ratio lies in no class [-]

    Valid for 10 deg < alpha <= 30 deg, 3.40 < D/d^0.77 <= 7.00, 0.50 < T/(D-d)^0.95 <= 1.00.

    Source: ISO 355:2019, dimension series; limits recalled, they agree with 90 boundary rows recalled apart from
    them.
    """
    (alpha,) = as_arrays(alpha)
    # limits are whole minutes, so an angle stated as one must not fall on the wrong side by its last binary digit
    degrees = np.round(np.degrees(alpha), 9)
    in_degrees = {sign: (low[0] + low[1] / 60, high[0] + high[1] / 60) for sign, (low, high) in ANGLE_LIMITS.items()}
    digit = _class_of(degrees, in_degrees)
    diameter = _class_of(diameter_ratio(d, D), DIAMETER_LIMITS)
    width = _class_of(width_ratio(d, D, T), WIDTH_LIMITS)
    whole = np.char.add(np.char.add(digit, diameter), width)
    return np.where(np.char.str_len(whole) == 3, whole, "")


def _class_of(values: Floats, limits: dict[str, tuple[float, float]]) -> Texts:
    edges = np.round([low for low, _ in limits.values()] + [list(limits.values())[-1][1]], 9)
    signs = np.array(["", *limits, ""])
    # side "left": a value on a limit belongs to the class that it closes; NaN sorts past the end
    return signs[np.searchsorted(edges, values, side="left")]
