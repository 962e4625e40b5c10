"""Basic static load rating, equivalent static load and static safety of ISO 76 for radial roller bearings."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.rating.geometry import gamma as gamma_of
from engine.sources import ISO_76, cited

#: Static radial load factor, single row.
X_0 = 0.5


@cited(ISO_76, "clause 7.1")
def basic_static_rating_C0r(Dwe: Array, Lwe: Array, Z: Array, Dpw: Array, alpha: Array, i: Array = 1) -> Floats:
    """Load rating, static and radial: the load for 4000 MPa at the middle of the most heavily loaded roller.

    C0r = 44 (1 - Dwe cos(alpha)/Dpw) i Z Lwe Dwe cos(alpha)

    Parameters (any broadcastable shapes)
    ----------
    Dwe : mean roller diameter, between the theoretical sharp corners [mm]
    Lwe : effective length of roller contact [mm]
    Z : rollers in one row [-]
    Dpw : pitch diameter of the roller set [mm]
    alpha : nominal contact angle [rad]
    i : rows [-]

    Returns
    -------
    C0r [N]

    Valid for positive sizes, gamma < 1, 0 <= alpha <= pi/4; NaN outside.

    Source: ISO 76:2006, clause 7.1; formula read in open code, clause number recalled.
    """
    Dwe, Lwe, Z, Dpw, alpha, i = as_arrays(Dwe, Lwe, Z, Dpw, alpha, i)
    gamma = gamma_of(Dwe, alpha, Dpw)
    inside = (Lwe > 0) & (Z > 0) & (i > 0) & (gamma < 1)
    return np.where(inside, 44 * (1 - gamma) * i * Z * Lwe * Dwe * np.cos(alpha), np.nan)


@cited(ISO_76, "clause 7.3, equivalent load")
def equivalent_static_load_P0(Fr: Array, Fa: Array, Y0: Array) -> Floats:
    """Equivalent static radial load of a single-row bearing: the greater of two.

    P0 = 0.5 Fr + Y0 Fa; P0 = Fr

    Parameters (any broadcastable shapes)
    ----------
    Fr : radial load [N]
    Fa : axial load [N]
    Y0 : static axial load factor [-]

    Returns
    -------
    P0 [N]

    Valid for Fr >= 0, Fa >= 0; NaN outside.

    Source: ISO 76:2006, clause 7.3, equivalent load; formula read in open code, clause number recalled.
    """
    Fr, Fa, Y0 = as_arrays(Fr, Fa, Y0)
    inside = (Fr >= 0) & (Fa >= 0)
    return np.where(inside, np.maximum(X_0 * Fr + Y0 * Fa, Fr), np.nan)


@cited(ISO_76, "clause 9, static safety factor")
def static_safety_s0(C0r: Array, P0: Array) -> Floats:
    """Safety factor against permanent deformation of the contacts.

    s0 = C0r / P0

    Parameters (any broadcastable shapes)
    ----------
    C0r : basic static radial load rating [N]
    P0 : equivalent static load [N]

    Returns
    -------
    s0 [-]; infinite at no load

    Valid for C0r > 0, P0 >= 0; NaN outside.

    Source: ISO 76:2006, clause 9, static safety factor; formula and clause number recalled.
    """
    C0r, P0 = as_arrays(C0r, P0)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        return np.where((C0r > 0) & (P0 >= 0), C0r / P0, np.nan)
