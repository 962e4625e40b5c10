"""Life of several bearings as one system, which fails with the first of them."""

import numpy as np

from engine.numerics import Array, Floats, added_up, as_arrays, least
from engine.sources import ISO_TR_1281_1, cited

#: Weibull slope of roller bearing lives.
SLOPE = 9 / 8


@cited(ISO_TR_1281_1, "life of a system of bearings")
def system_life(life: Array, beta: float = SLOPE, axis: int = -1) -> Floats:
    """Life of a system of bearings, at the reliability at which each bearing's life is given.

    L_sys = [sum(L_i^-beta)]^(-1/beta), beta = 9/8 for roller bearings

    Parameters (any shape)
    ----------
    life : life of each bearing, all in one unit [h or million revolutions]
    beta : Weibull slope [-]
    axis : axis along which the bearings lie [-]

    Returns
    -------
    L_sys [unit of life]; a bearing of infinite life does not count, one of no life leaves none to the system

    Valid for life >= 0, beta > 0; NaN outside.

    Source: ISO/TR 1281-1, life of a system of bearings; recalled.
    """
    life, slope = np.moveaxis(np.atleast_1d(as_arrays(life)[0]), axis, -1), np.float64(beta)
    # relative to the shortest life, so that neither 0 nor infinity nor a large exponent leaves the number range
    shortest = least(life)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        ratio = np.where(life == shortest[..., None], 1.0, shortest[..., None] / life)
        total = added_up(np.power(ratio, slope))
        return np.where((shortest >= 0) & (slope > 0), shortest * np.power(total, -1 / slope), np.nan)
