"""Growth of hardened rings in service, as retained austenite decomposes, and the interference it costs."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import COMMON_PRACTICE, RETAINED_AUSTENITE, cited

#: Strain for each percent of the section that decomposes.
STRAIN_PER_PERCENT = 1.0e-4
#: Activation energy of the decomposition over the gas constant [K]: 120 kJ/mol over 8.314 J/(mol K).
ACTIVATION = 120_000.0 / 8.314
#: What a ring is stabilised for, common practice: at its limit it grows by this strain in so many hours.
STABLE_STRAIN, STABLE_HOURS = 1.0e-4, 2500.0
#: No more than this share can have decomposed by then in a steel that has little to decompose.
_GREATEST_SHARE = 1.0 - np.exp(-1.0)
_KELVIN = 273.15


@cited(RETAINED_AUSTENITE, "strain per percent decomposed")
def greatest_strain(austenite: Array) -> Floats:
    """Strain of a ring when all of its retained austenite has decomposed.

    epsilon = 1e-4 for each percent: 10 um per 100 mm

    Parameters (any shape)
    ----------
    austenite : retained austenite, mean over the section, in percent [-]

    Returns
    -------
    epsilon [-]

    Valid for 0 <= austenite <= 100; NaN outside.

    Source: Retained austenite, strain per percent decomposed; read in an engineer's statement, papers give 1.0e-4 to
    1.4e-4 (recalled).
    """
    (austenite,) = as_arrays(austenite)
    return np.where((austenite >= 0) & (austenite <= 100), austenite * STRAIN_PER_PERCENT, np.nan)


@cited(RETAINED_AUSTENITE, "rate of decomposition")
def growth_strain(austenite: Array, life: Array, T: Array, limit: Array) -> Floats:
    """Strain by which a ring has grown after some time at a temperature.

    epsilon(t) = epsilon_inf (1 - exp(-k t)), k = k_limit exp[-(Q/R)(1/T - 1/T_limit)] with Q = 120 kJ/mol and k_limit
    such that the ring grows by 1e-4 in 2500 h at the temperature it is stabilised for (or decomposes by 63 % there,
    where it has too little austenite to grow so much)

    Parameters (any broadcastable shapes)
    ----------
    austenite : retained austenite, mean over the section, in percent [-]
    life : time [h]
    T : mean temperature of the ring [deg C]
    limit : temperature that the steel is stabilised for [deg C]

    Returns
    -------
    epsilon [-]

    Valid for 0 <= austenite <= 100, life >= 0, temperatures above absolute zero; NaN outside. An order of magnitude:
    the time law is that of the literature, its constant the trade's wording of "stabilised".

    Source: Retained austenite, rate of decomposition; activation energy recalled, anchor common practice.
    """
    austenite, life, T, limit = as_arrays(austenite, life, T, limit)
    whole = greatest_strain(austenite)
    valid = (life >= 0) & (T > -_KELVIN) & (limit > -_KELVIN)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        share = np.minimum(STABLE_STRAIN / whole, _GREATEST_SHARE)
        at_limit = -np.log1p(-share) / STABLE_HOURS
        slower = np.exp(-ACTIVATION * (1.0 / (T + _KELVIN) - 1.0 / (limit + _KELVIN)))
        strain = -whole * np.expm1(-at_limit * slower * life)
    return np.where(valid, strain, np.nan)


@cited(COMMON_PRACTICE, "interference lost by growth")
def interference_lost(size: Array, strain: Array) -> Floats:
    """Interference that a cone loses on its shaft, and a cup gains in its housing, by growing.

    loss = d epsilon

    Parameters (any broadcastable shapes)
    ----------
    size : diameter of the seat [mm]
    strain : strain by growth [-]

    Returns
    -------
    loss [mm]

    Valid for a ring that grows evenly and a shaft that does not.

    Source: Common practice, interference lost by growth; geometry.
    """
    size, strain = as_arrays(size, strain)
    return np.asarray(size * strain)
