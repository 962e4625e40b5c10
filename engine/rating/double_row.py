"""Two rows as one unit: a double-row bearing, or two equal bearings side by side, face to face or back to back.

ISO 281 and ISO 76 rate two equal single-row bearings, mounted side by side as one unit and sharing the load evenly,
as one double-row bearing.
"""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.rating.geometry import ALPHA_GREATEST
from engine.sources import ISO_76, ISO_281, cited

#: Radial load factor X for Fa/Fr > e, double row.
X = 0.67
#: Rows of a unit.
ROWS = 2


@cited(ISO_281, "clause 7.1, bearings side by side")
def unit_dynamic_rating(Cr: Array) -> Floats:
    """Dynamic radial load rating of two equal rows from that of one.

    Cr_unit = 2^(7/9) Cr

    Parameters (any shape)
    ----------
    Cr : basic dynamic radial load rating of one row [N]

    Returns
    -------
    Cr_unit [N]

    Valid for Cr > 0, rows that share the load evenly; NaN outside.

    Source: ISO 281:2007, clause 7.1, bearings side by side; clause number recalled.
    """
    (Cr,) = as_arrays(Cr)
    return np.where(Cr > 0, 2 ** (7 / 9) * Cr, np.nan)


@cited(ISO_76, "clause 7.1, bearings side by side")
def unit_static_rating(C0r: Array) -> Floats:
    """Load rating, static and radial, of two equal rows from that of one.

    C0r_unit = 2 C0r

    Parameters (any shape)
    ----------
    C0r : basic static radial load rating of one row [N]

    Returns
    -------
    C0r_unit [N]

    Valid for C0r > 0, rows that share the load evenly; NaN outside.

    Source: ISO 76:2006, clause 7.1, bearings side by side; clause number recalled.
    """
    (C0r,) = as_arrays(C0r)
    return np.where(C0r > 0, 2 * C0r, np.nan)


@cited(ISO_281, "Annex B, fatigue load limit of two rows")
def unit_fatigue_limit(Cu: Array) -> Floats:
    """Fatigue load limit of two equal rows from that of one; it grows with the static rating.

    Cu_unit = 2 Cu

    Parameters (any shape)
    ----------
    Cu : fatigue load limit of one row [N]

    Returns
    -------
    Cu_unit [N]

    Valid for Cu > 0, rows that share the load evenly; NaN outside.

    Source: ISO 281:2007, Annex B, fatigue load limit of two rows; follows from Cu = C0/8.2, place recalled.
    """
    (Cu,) = as_arrays(Cu)
    return np.where(Cu > 0, 2 * Cu, np.nan)


@cited(ISO_281, "clause 7.3, Table 8, double row")
def axial_factors(alpha: Array) -> tuple[Floats, Floats]:
    """Dynamic axial load factors of a double-row radial roller bearing: Y1 up to Fa/Fr = e, Y2 above.

    Y1 = 0.45 cot(alpha); Y2 = 0.67 cot(alpha)

    Parameters (any shape)
    ----------
    alpha : nominal contact angle [rad]

    Returns
    -------
    Y1, Y2 [-]

    Valid for 0 < alpha <= pi/4 (radial bearings); NaN outside. e is that of a single row, 1.5 tan(alpha).

    Source: ISO 281:2007, clause 7.3, Table 8, double row; formula read in open code, table number recalled.
    """
    cot = _cot(alpha)
    return 0.45 * cot, 0.67 * cot


@cited(ISO_76, "clause 7.3, static axial factor, double row")
def static_axial_factor(alpha: Array) -> Floats:
    """Axial load factor, static, of a double-row radial roller bearing.

    Y0 = 0.44 cot(alpha)

    Parameters (any shape)
    ----------
    alpha : nominal contact angle [rad]

    Returns
    -------
    Y0 [-]

    Valid for 0 < alpha <= pi/4 (radial bearings); NaN outside.

    Source: ISO 76:2006, clause 7.3, static axial factor, double row; formula read in open code, number recalled.
    """
    return 0.44 * _cot(alpha)


@cited(ISO_281, "clause 7.3, Table 8, double row")
def equivalent_dynamic_load(Fr: Array, Fa: Array, alpha: Array) -> Floats:
    """Equivalent dynamic radial load of a double-row bearing or of a paired unit.

    P = Fr + Y1 Fa for Fa/Fr <= e; P = 0.67 Fr + Y2 Fa for Fa/Fr > e

    Parameters (any broadcastable shapes)
    ----------
    Fr : radial load on the unit [N]
    Fa : axial load on the unit, without its side [N]
    alpha : nominal contact angle of both rows [rad]

    Returns
    -------
    P [N]

    Valid for Fr >= 0, Fa >= 0, 0 < alpha <= pi/4; NaN outside.

    Source: ISO 281:2007, clause 7.3, Table 8, double row; formula read in open code, table number recalled.
    """
    Fr, Fa, alpha = as_arrays(Fr, Fa, alpha)
    Y1, Y2 = axial_factors(alpha)
    P = np.where(
        Fa <= 1.5 * np.tan(alpha) * Fr,
        Fr + Y1 * Fa,
        X * Fr + Y2 * Fa,
    )
    return np.where((Fr >= 0) & (Fa >= 0), P, np.nan)


@cited(ISO_76, "clause 7.3, equivalent load, double row")
def equivalent_static_load(Fr: Array, Fa: Array, alpha: Array) -> Floats:
    """Equivalent static radial load of a double-row bearing or of a paired unit.

    P0 = Fr + Y0 Fa

    Parameters (any broadcastable shapes)
    ----------
    Fr : radial load on the unit [N]
    Fa : axial load on the unit, without its side [N]
    alpha : nominal contact angle of both rows [rad]

    Returns
    -------
    P0 [N]

    Valid for Fr >= 0, Fa >= 0, 0 < alpha <= pi/4; NaN outside.

    Source: ISO 76:2006, clause 7.3, equivalent load, double row; formula read in open code, clause number recalled.
    """
    Fr, Fa, alpha = as_arrays(Fr, Fa, alpha)
    return np.where((Fr >= 0) & (Fa >= 0), Fr + static_axial_factor(alpha) * Fa, np.nan)


def _cot(alpha: Array) -> Floats:
    (alpha,) = as_arrays(alpha)
    with np.errstate(divide="ignore"):
        return np.where((alpha > 0) & (alpha <= ALPHA_GREATEST), 1 / np.tan(alpha), np.nan)
