"""Basic dynamic load rating and equivalent dynamic load of ISO 281 for radial roller bearings."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.rating.geometry import gamma as gamma_of
from engine.sources import ISO_281, ISO_TR_1281_1, cited

#: Rating factor for contemporary tapered roller bearings, ISO 281 Table 6 (recalled).
B_M = 1.1
#: Reduction factors lambda and nu together, as ISO/TR 1281-1 gives them for f_c (read in open code).
LAMBDA_NU = 0.83
#: Last row of the f_c table.
GAMMA_GREATEST = 0.30
#: Radial load factor X for Fa/Fr > e, single row.
X = 0.4


@cited(ISO_TR_1281_1, "rating factor f_c of radial roller bearings")
def f_c(gamma: Array) -> Floats:
    """Factor of the dynamic rating that follows from geometry, accuracy and material; ISO 281 tabulates it.

    f_c = 207.9 lambda nu gamma^(2/9) (1 - gamma)^(29/27) / (1 + gamma)^(1/4)
          {1 + [1.04 ((1 - gamma)/(1 + gamma))^(143/108)]^(9/2)}^(-2/9), lambda nu = 0.83

    Parameters (any shape)
    ----------
    gamma : Dwe cos(alpha) / Dpw [-]

    Returns
    -------
    f_c [-] (for N and mm)

    Valid for 0 < gamma <= 0.30, the rows of ISO 281 Table 7; NaN outside.

    Source: ISO/TR 1281-1, rating factor f_c of radial roller bearings; formula read in open code, it meets all 30
    rows of ISO 281 Table 7 as recalled.
    """
    (g,) = as_arrays(gamma)
    inside = (g > 0) & (g <= GAMMA_GREATEST)
    g = np.where(inside, g, np.nan)
    shape = np.power(g, 2 / 9) * np.power(1 - g, 29 / 27) / np.power(1 + g, 1 / 4)
    bracket = 1.04 * np.power((1 - g) / (1 + g), 143 / 108)
    return 207.9 * LAMBDA_NU * shape * np.power(1 + np.power(bracket, 9 / 2), -2 / 9)


@cited(ISO_281, "clause 7.1")
def basic_dynamic_rating_Cr(Dwe: Array, Lwe: Array, Z: Array, Dpw: Array, alpha: Array, i: Array = 1) -> Floats:
    """Dynamic radial load rating: the load under which the basic rating life is a million revolutions.

    Cr = b_m f_c (i Lwe cos(alpha))^(7/9) Z^(3/4) Dwe^(29/27), b_m = 1.1

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
    Cr [N]

    Valid for positive sizes and 0 < gamma <= 0.30, 0 <= alpha <= pi/4; NaN outside.

    Source: ISO 281:2007, clause 7.1; formula read in open code, clause number and b_m recalled.
    """
    Dwe, Lwe, Z, Dpw, alpha, i = as_arrays(Dwe, Lwe, Z, Dpw, alpha, i)
    inside = (Dwe > 0) & (Lwe > 0) & (Z > 0) & (i > 0)
    with np.errstate(invalid="ignore"):
        contact = np.power(i * Lwe * np.cos(alpha), 7 / 9)
        rollers = np.power(Z, 3 / 4) * np.power(Dwe, 29 / 27)
    return np.where(inside, B_M * f_c(gamma_of(Dwe, alpha, Dpw)) * contact * rollers, np.nan)


@cited(ISO_281, "clause 7.3, Table 8")
def equivalent_dynamic_load_P(Fr: Array, Fa: Array, e: Array, Y: Array) -> Floats:
    """Equivalent dynamic radial load of a single-row bearing.

    P = Fr for Fa/Fr <= e; P = 0.4 Fr + Y Fa for Fa/Fr > e

    Parameters (any broadcastable shapes)
    ----------
    Fr : radial load [N]
    Fa : axial load [N]
    e : limiting ratio [-]
    Y : axial load factor [-]

    Returns
    -------
    P [N]; 0 at no load

    Valid for Fr >= 0, Fa >= 0, e > 0; NaN outside.

    Source: ISO 281:2007, clause 7.3, Table 8; formula read in open code, table number recalled.
    """
    Fr, Fa, e, Y = as_arrays(Fr, Fa, e, Y)
    P = np.where(
        Fa <= e * Fr,  # Fa/Fr <= e, written so that no load at all is no division by zero
        Fr,
        X * Fr + Y * Fa,
    )
    inside = (Fr >= 0) & (Fa >= 0) & (e > 0)
    return np.where(inside, P, np.nan)
