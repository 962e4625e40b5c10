"""Reference viscosity and viscosity ratio of ISO 281."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import ISO_281, cited

#: From this speed on the second formula holds; the two differ by 2.3 % there [rpm].
N_CHANGE = 1000.0


@cited(ISO_281, "clause 9.3.3.4, equations (28) and (29)")
def reference_viscosity_nu1(n: Array, Dpw: Array) -> Floats:
    """Viscosity that a bearing needs for an adequate film, the reference kinematic viscosity.

    nu1 = 45000 n^-0.83 Dpw^-0.5 for n < 1000 rpm; nu1 = 4500 n^-0.5 Dpw^-0.5 for n >= 1000 rpm

    Parameters (any broadcastable shapes)
    ----------
    n : speed [rpm]
    Dpw : pitch diameter of the roller set, or the mean diameter (d + D)/2 in its place [mm]

    Returns
    -------
    nu1 [mm2/s]; infinite at n = 0

    Valid for n >= 0, Dpw > 0; NaN outside. At n = 1000 rpm the printed formulas leave a step of 2.3 %.

    Source: ISO 281:2007, clause 9.3.3.4, equations (28) and (29); formula read in open code, numbers recalled.
    """
    n, Dpw = as_arrays(n, Dpw)
    inside = (n >= 0) & (Dpw > 0)
    with np.errstate(divide="ignore", invalid="ignore"):
        nu1 = np.where(
            n < N_CHANGE,
            45000 * np.power(n, -0.83) * np.power(Dpw, -0.5),  # equation (28)
            4500 * np.power(n, -0.5) * np.power(Dpw, -0.5),  # equation (29)
        )
    return np.where(inside, nu1, np.nan)


@cited(ISO_281, "clause 9.3.3.4, equation (27)")
def viscosity_ratio_kappa(nu: Array, nu1: Array) -> Floats:
    """Viscosity ratio: what the oil has at operating temperature over what the bearing needs.

    kappa = nu / nu1

    Parameters (any broadcastable shapes)
    ----------
    nu : kinematic viscosity at operating temperature [mm2/s]
    nu1 : reference kinematic viscosity [mm2/s]

    Returns
    -------
    kappa [-]; 0 where nu1 is infinite

    Valid for nu > 0, nu1 > 0; NaN outside.

    Source: ISO 281:2007, clause 9.3.3.4, equation (27); formula read in open code, numbers recalled.
    """
    nu, nu1 = as_arrays(nu, nu1)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where((nu > 0) & (nu1 > 0), nu / nu1, np.nan)
