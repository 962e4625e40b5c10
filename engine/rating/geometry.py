"""What the contact angle alone decides: limiting ratio, axial factors, and the ratio gamma of the rollers."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import ISO_76, ISO_281, cited

#: A bearing is a radial one up to this contact angle [rad]; the factors below are those of radial bearings.
ALPHA_GREATEST = np.pi / 4


@cited(ISO_281, "clause 7.3, Table 8")
def limiting_ratio_e(alpha: Array) -> Floats:
    """Limiting value of Fa/Fr up to which the axial load does not count in the equivalent load.

    e = 1.5 tan(alpha)

    Parameters (any shape)
    ----------
    alpha : nominal contact angle [rad]

    Returns
    -------
    e [-]

    Valid for 0 < alpha <= pi/4 (radial bearings); NaN outside.

    Source: ISO 281:2007, clause 7.3, Table 8; formula read in open code, table number recalled.
    """
    (alpha,) = as_arrays(alpha)
    return np.where(_radial(alpha), 1.5 * np.tan(alpha), np.nan)


@cited(ISO_281, "clause 7.3, Table 8")
def axial_factor_Y(alpha: Array) -> Floats:
    """Dynamic axial load factor of a single-row radial roller bearing, for Fa/Fr > e.

    Y = 0.4 cot(alpha)

    Parameters (any shape)
    ----------
    alpha : nominal contact angle [rad]

    Returns
    -------
    Y [-]

    Valid for 0 < alpha <= pi/4 (radial bearings); NaN outside.

    Source: ISO 281:2007, clause 7.3, Table 8; formula read in open code, table number recalled.
    """
    (alpha,) = as_arrays(alpha)
    with np.errstate(divide="ignore"):
        return np.where(_radial(alpha), 0.4 / np.tan(alpha), np.nan)


@cited(ISO_76, "clause 7.3, static axial factor")
def static_axial_factor_Y0(alpha: Array) -> Floats:
    """Axial load factor, static, of a single-row radial roller bearing.

    Y0 = 0.22 cot(alpha)

    Parameters (any shape)
    ----------
    alpha : nominal contact angle [rad]

    Returns
    -------
    Y0 [-]

    Valid for 0 < alpha <= pi/4 (radial bearings); NaN outside.

    Source: ISO 76:2006, clause 7.3, static axial factor; formula read in open code, clause number recalled.
    """
    (alpha,) = as_arrays(alpha)
    with np.errstate(divide="ignore"):
        return np.where(_radial(alpha), 0.22 / np.tan(alpha), np.nan)


@cited(ISO_281, "clause 7.3, Table 8")
def contact_angle_of_e(e: Array) -> Floats:
    """Contact angle that belongs to a limiting ratio e, the inverse of `limiting_ratio_e`.

    alpha = arctan(e / 1.5)

    Parameters (any shape)
    ----------
    e : limiting ratio of Fa/Fr [-]

    Returns
    -------
    alpha [rad]

    Valid for 0 < e <= 1.5 (radial bearings); NaN outside.

    Source: ISO 281:2007, clause 7.3, Table 8; solved here for the angle.
    """
    (e,) = as_arrays(e)
    return np.where((e > 0) & (e <= 1.5), np.arctan(e / 1.5), np.nan)


@cited(ISO_281, "clause 7.1, Table 7")
def gamma(Dwe: Array, alpha: Array, Dpw: Array) -> Floats:
    """Ratio of the roller diameter, seen at the contact angle, to the pitch diameter.

    gamma = Dwe cos(alpha) / Dpw

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller diameter at mid-length [mm]
    alpha : nominal contact angle [rad]
    Dpw : pitch diameter of the roller set [mm]

    Returns
    -------
    gamma [-]

    Valid for Dwe > 0, Dpw > 0, 0 <= alpha <= pi/4; NaN outside.

    Source: ISO 281:2007, clause 7.1, Table 7; clause number recalled.
    """
    Dwe, alpha, Dpw = as_arrays(Dwe, alpha, Dpw)
    inside = (Dwe > 0) & (Dpw > 0) & (alpha >= 0) & (alpha <= ALPHA_GREATEST)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(inside, Dwe * np.cos(alpha) / Dpw, np.nan)


def _radial(alpha: Floats) -> Floats:
    return (alpha > 0) & (alpha <= ALPHA_GREATEST)
