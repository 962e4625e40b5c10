"""Viscosity of an oil at temperature, and the ISO viscosity grades."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import ASTM_D341, ASTM_D2270, ISO_3448, cited

KELVIN = 273.15
#: Below this the constant 0.7 no longer straightens the line [mm2/s].
NU_LEAST = 2.0
#: End of the viscosity-temperature charts [mm2/s].
NU_GREATEST = 2e7

#: ISO 3448 (recalled): the grade is the rounded mid-point viscosity at 40 deg C [mm2/s], limits +-10 %.
ISO_VG = (2, 3, 5, 7, 10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680, 1000, 1500, 2200, 3200)

#: Viscosity at 100 deg C [mm2/s] that gives a viscosity index of 95 by ASTM D2270; found with the
#: general-purpose library `chemicals` (viscosity_index), which the tests use to compute the index back.
#: The grades below 10 are missing: at 100 deg C they leave the range of D2270.
NU100_AT_VI_95 = {
    10: 2.637,
    15: 3.381,
    22: 4.254,
    32: 5.289,
    46: 6.645,
    68: 8.530,
    100: 11.07,
    150: 14.55,
    220: 18.75,
    320: 23.96,
    460: 30.35,
    680: 39.06,
    1000: 49.86,
    1500: 64.22,
    2200: 81.18,
    3200: 101.6,
}


@cited(ASTM_D341, "two-point equation, constant 0.7")
def kinematic_viscosity(T: Array, nu40: Array, nu100: Array) -> Floats:
    """Kinematic viscosity of an oil at temperature, from its values at 40 and 100 deg C.

    log10(log10(nu + 0.7)) = A - B log10(T + 273.15)

    Parameters (any broadcastable shapes)
    ----------
    T : oil temperature [deg C]
    nu40 : viscosity at 40 deg C [mm2/s]
    nu100 : viscosity at 100 deg C [mm2/s]

    Returns
    -------
    nu [mm2/s]

    Valid for 2 <= nu100 < nu40 and a result between 2 and 2e7 mm2/s; NaN outside.

    Source: ASTM D341, two-point equation, constant 0.7; read in open code that cites it, limits recalled.
    """
    T, nu40, nu100 = as_arrays(T, nu40, nu100)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        W40 = np.log10(np.log10(nu40 + 0.7))
        W100 = np.log10(np.log10(nu100 + 0.7))
        x40, x100 = np.log10(40 + KELVIN), np.log10(100 + KELVIN)
        B = (W40 - W100) / (x100 - x40)
        W = W40 - B * (np.log10(T + KELVIN) - x40)
        nu = np.power(10.0, np.power(10.0, W)) - 0.7
        # a hair of room, so that an oil of exactly 2 mm2/s at 100 deg C has that value at 100 deg C
        inside = (nu100 >= NU_LEAST) & (nu100 < nu40) & (nu >= NU_LEAST * (1 - 1e-12)) & (nu <= NU_GREATEST)
    return np.where(inside, nu, np.nan)


@cited(ISO_3448, "viscosity grades")
def nu40_of_grade(VG: Array) -> Floats:
    """Mid-point kinematic viscosity at 40 deg C of an ISO viscosity grade.

    nu40 = VG, from VG 10 upwards

    Parameters (any shape)
    ----------
    VG : ISO viscosity grade [-]

    Returns
    -------
    nu40 [mm2/s]

    Valid for the grades from 10 to 3200; NaN for any other number.

    Source: ISO 3448, viscosity grades; recalled.
    """
    return _of_grade(VG, np.array(list(NU100_AT_VI_95), dtype=np.float64))


@cited(ASTM_D2270, "viscosity index 95")
def nu100_of_grade(VG: Array) -> Floats:
    """Kinematic viscosity at 100 deg C of a mineral oil of an ISO viscosity grade.

    nu100 such that VI(nu40 = VG, nu100) = 95

    Parameters (any shape)
    ----------
    VG : ISO viscosity grade [-]

    Returns
    -------
    nu100 [mm2/s]

    Valid for the grades from 10 to 3200; NaN for any other number. That a mineral oil has the viscosity index 95 is
    an assumption: common practice, no source. An oil whose data sheet is at hand should be entered with its own values.

    Source: ASTM D2270, viscosity index 95; numbers found with the general-purpose library `chemicals`, 4 digits.
    """
    return _of_grade(VG, np.array(list(NU100_AT_VI_95.values())))


def _of_grade(VG: Array, values: Floats) -> Floats:
    (VG,) = as_arrays(VG)
    grades = np.array(list(NU100_AT_VI_95), dtype=np.float64)
    place = np.minimum(np.searchsorted(grades, VG), len(grades) - 1)
    return np.where(grades[place] == VG, values[place], np.nan)
