"""Density, dynamic viscosity and pressure-viscosity coefficient of an oil."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import AGMA_925, ASTM_D1250, PHYSICS, cited

#: Heat that a litre of mineral oil takes up [kJ/(l K)]: common practice, no source; water takes up 4.2.
HEAT_CAPACITY = 1.72

#: Of each base oil (k, s) of the pressure-viscosity coefficient k eta^s. Recalled; those of the first, second and
#: fourth agree with the same formula recalled from ISO/TR 15144-1 in other units. That of ester is of one kind only.
PRESSURE_CONSTANTS = {
    "mineral": (0.010471, 0.1348),
    "pao": (0.010326, 0.0507),
    "ester": (0.006515, 0.1653),
    "pag": (0.0047, 0.1572),
}


@cited(ASTM_D1250, "lubricating oils, thermal expansion 0.6278/rho15")
def density(T: Array, rho15: Array) -> Floats:
    """Density of a lubricating oil at temperature, from its density at 15 deg C.

    rho = rho15 exp(-x (1 + 0.8 x)), x = 0.6278 (T - 15) / rho15

    Parameters (any broadcastable shapes)
    ----------
    T : oil temperature [deg C]
    rho15 : density at 15 deg C [kg/m3]

    Returns
    -------
    rho [kg/m3]

    Valid for 700 <= rho15 <= 1200 and -40 <= T <= 250; NaN outside. The tables end at 150 deg C and at 1164 kg/m3;
    synthetic oils are taken to expand like mineral ones.

    Source: ASTM D1250, lubricating oils, thermal expansion 0.6278/rho15; recalled.
    """
    T, rho15 = as_arrays(T, rho15)
    inside = (rho15 >= 700) & (rho15 <= 1200) & (T >= -40) & (T <= 250)
    with np.errstate(all="ignore"):
        x = 0.6278 * (T - 15) / rho15
        return np.where(inside, rho15 * np.exp(-x * (1 + 0.8 * x)), np.nan)


@cited(PHYSICS, "definition of kinematic viscosity")
def dynamic_viscosity_eta(nu: Array, rho: Array) -> Floats:
    """Dynamic viscosity of an oil.

    eta = nu rho / 1000, in the units below

    Parameters (any broadcastable shapes)
    ----------
    nu : kinematic viscosity [mm2/s]
    rho : density [kg/m3]

    Returns
    -------
    eta [mPa s]

    Valid for nu > 0, rho > 0; NaN outside.

    Source: Physics, definition of kinematic viscosity; any textbook of fluid mechanics.
    """
    nu, rho = as_arrays(nu, rho)
    with np.errstate(invalid="ignore"):
        return np.where((nu > 0) & (rho > 0), nu * rho / 1000, np.nan)


@cited(AGMA_925, "pressure-viscosity coefficient k eta^s")
def pressure_viscosity_alpha_p(eta: Array, base: str) -> Floats:
    """Pressure-viscosity coefficient of an oil at the temperature of its dynamic viscosity.

    alpha_p = k eta^s

    Parameters (eta of any shape)
    ----------
    eta : dynamic viscosity at operating temperature [mPa s]
    base : one of lubricant.BASES [-]

    Returns
    -------
    alpha_p [1/MPa], that is mm2/N; a mineral oil has about 0.02

    Valid for eta > 0; NaN outside. Measured oils of one base differ from it by up to a third.

    Source: AGMA 925-A03, pressure-viscosity coefficient k eta^s; recalled.
    """
    (eta,) = as_arrays(eta)
    k, s = PRESSURE_CONSTANTS[base]
    with np.errstate(invalid="ignore", divide="ignore"):
        return np.where(eta > 0, k * np.power(np.abs(eta), s), np.nan)
