"""Bringing a tight ring on and off: by heat, or by force."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import COMMON_PRACTICE, DIN_7190_1, cited

#: Rings are not heated above this [deg C], lest they lose hardness or size; common practice, no source.
HEATING_LIMIT = 120.0
#: Friction when a ring is pressed on oiled, and pulled off after service; common practice, no source.
FRICTION_ON, FRICTION_OFF = 0.12, 0.18


@cited(DIN_7190_1, "joining temperature")
def heating_temperature(delta: Array, size: Array, clearance: Array, T_around: Array, alpha: Array) -> Floats:
    """Temperature of the part around, at which it slides over the one inside.

    T = T_around + (U + clearance)/(alpha d)

    Parameters (any broadcastable shapes)
    ----------
    delta : greatest interference; where it is a clearance no heat is needed [mm]
    size : diameter of the joint [mm]
    clearance : play wanted while joining [mm]
    T_around : temperature of the room and of the other part [deg C]
    alpha : thermal expansion of the heated part, per kelvin [-]

    Returns
    -------
    T [deg C]

    Valid for an evenly heated part; above HEATING_LIMIT the other part must be cooled, or the ring pressed.

    Source: DIN 7190-1:2017, joining temperature; recalled, to be verified against the standard.
    """
    delta, size, clearance, T_around, alpha = as_arrays(delta, size, clearance, T_around, alpha)
    with np.errstate(divide="ignore", invalid="ignore"):
        rise = (delta + clearance) / (alpha * size)
    return np.where(delta > 0, T_around + rise, np.where(np.isnan(delta), np.nan, T_around))


@cited(COMMON_PRACTICE, "force along a pressed joint")
def axial_force(p: Array, d: Array, width: Array, mu: Array) -> Floats:
    """Force that pushes a ring along its seat, on or off.

    F = mu p pi d B

    Parameters (any broadcastable shapes)
    ----------
    p : greatest pressure in the seat [MPa]
    d : diameter of the seat [mm]
    width : width of the seat [mm]
    mu : friction coefficient, FRICTION_ON or FRICTION_OFF [-]

    Returns
    -------
    F [N]

    Valid for an even pressure over the width; the last millimetre needs the most.

    Source: Common practice, force along a pressed joint; Coulomb friction, any textbook.
    """
    p, d, width, mu = as_arrays(p, d, width, mu)
    return np.asarray(mu * p * np.pi * d * width)
