"""Viscosity index of an oil by ASTM D2270, forwards and backwards, with its table of coefficients."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import ASTM_D2270, cited

#: L = a Y^2 + b Y + c and H = d Y^2 + e Y + f for Y from the first column on, Y the viscosity at 100 deg C [mm2/s];
#: recalled, each line checked against the table of the standard as the library `chemicals` holds it.
COEFFICIENTS = np.array([
    # Y from        a         b         c        d        e        f
    (2.0, 1.14673, 1.7576, -0.109, 0.84155, 1.5521, -0.077),
    (3.8, 3.38095, -15.4952, 33.196, 0.78571, 1.7929, -0.183),
    (4.4, 2.5000, -7.2143, 13.812, 0.82143, 1.5679, 0.119),
    (5.0, 0.10100, 16.6350, -45.469, 0.04985, 9.1613, -18.557),
    (6.4, 3.35714, -23.5643, 78.466, 0.22619, 7.7369, -16.656),
    (7.0, 0.01191, 21.4750, -72.870, 0.79762, -0.7321, 14.610),
    (7.7, 0.41858, 16.1558, -56.040, 0.05794, 10.5156, -28.240),
    (9.0, 0.88779, 7.5527, -16.600, 0.26665, 6.7015, -10.810),
    (12.0, 0.76720, 10.7972, -38.180, 0.20073, 8.4658, -22.490),
    (15.0, 0.97305, 5.3135, -2.200, 0.28889, 5.9741, -4.930),
    (18.0, 0.97256, 5.2500, -0.980, 0.24504, 7.4160, -16.730),
    (22.0, 0.91413, 7.4759, -21.820, 0.20323, 9.1267, -34.230),
    (28.0, 0.87031, 9.7157, -50.770, 0.18411, 10.1015, -46.750),
    (40.0, 0.84703, 12.6752, -133.310, 0.17029, 11.4866, -80.620),
    (55.0, 0.85921, 11.1009, -83.190, 0.17130, 11.3680, -76.940),
    (70.0, 0.83531, 14.6731, -216.246, 0.16841, 11.8493, -96.947),
])  # fmt: skip

#: The standard is written for oils from this viscosity at 100 deg C on [mm2/s].
NU100_LEAST = 2.0
#: Indices between which nu100 is sought: below, oils are hardly made; above, none is known.
VI_LEAST, VI_GREATEST = -200.0, 400.0
_BISECTIONS = 60


@cited(ASTM_D2270, "table of coefficients for L and H")
def reference_oils(nu100: Array) -> tuple[Floats, Floats]:
    """Viscosities at 40 deg C of the oils of index 0 and 100 that share a viscosity at 100 deg C.

    L = a Y^2 + b Y + c, H = d Y^2 + e Y + f, Y = nu100, with the line of the table for it

    Parameters (any shape)
    ----------
    nu100 : viscosity at 100 deg C [mm2/s]

    Returns
    -------
    L, H [mm2/s]

    Valid for nu100 >= 2; below, the first line of the table goes on.

    Source: ASTM D2270, table of coefficients for L and H; coefficients recalled.
    """
    (nu100,) = as_arrays(nu100)
    place = np.clip(np.searchsorted(COEFFICIENTS[:, 0], nu100, side="right") - 1, 0, len(COEFFICIENTS) - 1)
    _, a, b, c, d, e, f = np.moveaxis(COEFFICIENTS[place], -1, 0)
    return (a * nu100 + b) * nu100 + c, (d * nu100 + e) * nu100 + f


@cited(ASTM_D2270, "procedures A and B, equations for L and H")
def viscosity_index(nu40: Array, nu100: Array) -> Floats:
    """Viscosity index: how little the viscosity of an oil falls with temperature.

    VI = 100 (L - U) / (L - H) up to 100; VI = 100 + (10^N - 1) / 0.00715, N = log10(H / U) / log10(Y) above;
    U, Y the viscosities at 40 and 100 deg C, L and H those at 40 deg C of oils of index 0 and 100 that share Y

    Parameters (any broadcastable shapes)
    ----------
    nu40 : viscosity at 40 deg C [mm2/s]
    nu100 : viscosity at 100 deg C [mm2/s]

    Returns
    -------
    VI [-], not rounded

    Valid for 2 <= nu100 < nu40; NaN outside.

    Source: ASTM D2270, procedures A and B, equations for L and H; coefficients recalled.
    """
    nu40, nu100 = as_arrays(nu40, nu100)
    with np.errstate(all="ignore"):
        L, H = reference_oils(nu100)
        low = 100 * (L - nu40) / (L - H)
        N = np.log10(H / nu40) / np.log10(nu100)
        high = 100 + (np.power(10.0, N) - 1) / 0.00715
        inside = (nu100 >= NU100_LEAST) & (nu100 < nu40)
        return np.where(inside, np.where(nu40 >= H, low, high), np.nan)


@cited(ASTM_D2270, "procedures A and B, solved for nu100")
def nu100_of_index(nu40: Array, VI: Array) -> Floats:
    """Viscosity at 100 deg C of an oil of known viscosity at 40 deg C and viscosity index.

    nu100 such that VI(nu40, nu100) = VI

    Parameters (any broadcastable shapes)
    ----------
    nu40 : viscosity at 40 deg C [mm2/s]
    VI : viscosity index [-]

    Returns
    -------
    nu100 [mm2/s]

    Valid for -200 <= VI <= 400 and 2 <= nu100 < nu40; NaN outside, so for grades thinner than VG 7 at most indices.

    Source: ASTM D2270, procedures A and B, solved for nu100; the index rises with nu100, so halving finds it.
    """
    nu40, VI = np.broadcast_arrays(*as_arrays(nu40, VI))
    with np.errstate(all="ignore"):
        inside = (VI >= VI_LEAST) & (VI <= VI_GREATEST) & (nu40 > NU100_LEAST)
        low = np.full(nu40.shape, NU100_LEAST)
        high = np.where(inside, nu40 * (1 - 1e-9), NU100_LEAST)
        inside &= (viscosity_index(nu40, low) <= VI) & (viscosity_index(nu40, high) >= VI)
        for _ in range(_BISECTIONS):
            middle = (low + high) / 2
            below = viscosity_index(nu40, middle) < VI
            low, high = np.where(below, middle, low), np.where(below, high, middle)
    return np.where(inside, (low + high) / 2, np.nan)
