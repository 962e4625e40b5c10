"""From viscosities at any two temperatures of a data sheet to those at 40 and 100 deg C, which all else works with."""

import numpy as np

from engine.lubrication.viscosity import KELVIN, NU_GREATEST, NU_LEAST_FULL
from engine.numerics import Array, Floats, as_arrays
from engine.sources import ASTM_D341, cited

#: Z(nu) is convex, so Newton's steps from Z - 0.7 come down to nu without a turn; so many leave rounding only.
_STEPS = 8


@cited(ASTM_D341, "full form, line through any two points")
def at_40_and_100(T_first: Array, nu_first: Array, T_second: Array, nu_second: Array) -> tuple[Floats, Floats]:
    """Kinematic viscosities at 40 and 100 deg C of an oil that is known at two other temperatures, in either order.

    log10(log10(Z)) = A - B log10(T + 273.15), Z = nu + 0.7 + exp(-1.47 - 1.84 nu - 0.51 nu^2), through both points

    Parameters (any broadcastable shapes)
    ----------
    T_first : temperature of one point [deg C]
    nu_first : viscosity there [mm2/s]
    T_second : temperature of the other point [deg C]
    nu_second : viscosity there [mm2/s]

    Returns
    -------
    nu40, nu100 [mm2/s]

    Valid for temperatures that differ, the hotter one with the thinner oil, and for four viscosities between 0.21 and
    2e7 mm2/s; NaN outside. The nearer both temperatures, the more an error of the data sheet counts elsewhere.

    Source: ASTM D341, full form, line through any two points; recalled, solved for nu by Newton's steps.
    """
    T_first, nu_first, T_second, nu_second = as_arrays(T_first, nu_first, T_second, nu_second)
    with np.errstate(all="ignore"):
        x_first, x_second = np.log10(T_first + KELVIN), np.log10(T_second + KELVIN)
        W_first, W_second = (np.log10(np.log10(_Z(nu))) for nu in (nu_first, nu_second))
        B = (W_first - W_second) / (x_second - x_first)
        inside = (B > 0) & (np.minimum(nu_first, nu_second) >= NU_LEAST_FULL)
        inside &= np.maximum(nu_first, nu_second) <= NU_GREATEST
        nu40, nu100 = (_nu(W_first - B * (np.log10(T + KELVIN) - x_first)) for T in (40.0, 100.0))
        inside &= (nu100 >= NU_LEAST_FULL) & (nu40 <= NU_GREATEST) & (nu100 < nu40)
        return np.where(inside, nu40, np.nan), np.where(inside, nu100, np.nan)


def _Z(nu: Floats) -> Floats:
    return nu + 0.7 + _thin(nu)


def _thin(nu: Floats) -> Floats:
    return np.exp(-1.47 - 1.84 * nu - 0.51 * np.square(nu))


def _nu(W: Floats) -> Floats:
    """Return the viscosity whose ordinate on the chart is W."""
    Z = np.power(10.0, np.power(10.0, W))
    nu = Z - 0.7
    for _ in range(_STEPS):
        thin = _thin(nu)
        nu = nu - (nu + 0.7 + thin - Z) / (1.0 - (1.84 + 1.02 * nu) * thin)
    return nu
