"""Viscosity of an oil at temperature, and the ISO viscosity grades."""

import numpy as np

from engine.lubrication.lubricant import ISO_VG, NU40_OF_THIN
from engine.numerics import Array, Floats, as_arrays
from engine.sources import ASTM_D341, ASTM_D2270, ISO_3448, cited

KELVIN = 273.15
#: Below this the constant 0.7 no longer straightens the line [mm2/s].
NU_LEAST = 2.0
#: The full form of the standard reaches down to this [mm2/s].
NU_LEAST_FULL = 0.21
#: End of the viscosity-temperature charts [mm2/s].
NU_GREATEST = 2e7

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


def _with_thin_term(nu: Floats) -> Floats:
    """Return Z of the full form: the last term counts for thin oils only."""
    return nu + 0.7 + np.exp(-1.47 - 1.84 * nu - 0.51 * np.square(nu))


@cited(ASTM_D341, "full form")
def kinematic_viscosity_full(T: Array, nu40: Array, nu100: Array) -> Floats:
    """Kinematic viscosity of an oil at temperature, by the form of ASTM D341 that holds for thin and hot oils too.

    log10(log10(Z)) = A - B log10(T + 273.15), Z = nu + 0.7 + exp(-1.47 - 1.84 nu - 0.51 nu^2),
    nu = (Z - 0.7) - exp(-0.7487 - 3.295 (Z - 0.7) + 0.6119 (Z - 0.7)^2 - 0.3193 (Z - 0.7)^3)

    Parameters (any broadcastable shapes)
    ----------
    T : oil temperature [deg C]
    nu40 : viscosity at 40 deg C [mm2/s]
    nu100 : viscosity at 100 deg C [mm2/s]

    Returns
    -------
    nu [mm2/s]

    Valid for 0.21 <= nu100 < nu40 and a result between 0.21 and 2e7 mm2/s; NaN outside.

    Source: ASTM D341, full form; recalled, the printed inverse agrees with it within 0.2 %.
    """
    T, nu40, nu100 = as_arrays(T, nu40, nu100)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        W40, B = walther_line(nu40, nu100)
        nu = walther_viscosity(T, W40, B)
        inside = (nu100 >= NU_LEAST_FULL) & (nu100 < nu40) & (nu <= NU_GREATEST)
        inside &= nu >= NU_LEAST_FULL * (1 - 2e-3)  # the printed inverse is that rough at the thin end
    return np.where(inside, nu, np.nan)


@cited(ASTM_D341, "full form, constants A and B")
def walther_line(nu40: Array, nu100: Array) -> tuple[Floats, Floats]:
    """Straight line of an oil on the viscosity-temperature chart, found once where many temperatures follow.

    W = log10(log10(Z)), B = (W40 - W100) / (log10(373.15) - log10(313.15))

    Parameters (any broadcastable shapes)
    ----------
    nu40 : viscosity at 40 deg C [mm2/s]
    nu100 : viscosity at 100 deg C [mm2/s]

    Returns
    -------
    W40, B [-]

    Valid for 0.21 <= nu100 < nu40.

    Source: ASTM D341, full form, constants A and B; recalled.
    """
    nu40, nu100 = as_arrays(nu40, nu100)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        W40, W100 = (np.log10(np.log10(_with_thin_term(nu))) for nu in (nu40, nu100))
        return W40, (W40 - W100) / (np.log10(100 + KELVIN) - np.log10(40 + KELVIN))


@cited(ASTM_D341, "full form, printed inverse")
def walther_viscosity(T: Array, W40: Array, B: Array) -> Floats:
    """Viscosity at a temperature along an oil's line on the chart, without limits.

    W = W40 - B (log10(T + 273.15) - log10(313.15)), Z = 10^(10^W), nu = (Z - 0.7) - exp(-0.7487 - ...)

    Parameters (any broadcastable shapes)
    ----------
    T : oil temperature [deg C]
    W40 : ordinate of the line at 40 deg C [-]
    B : slope of the line [-]

    Returns
    -------
    nu [mm2/s]

    Valid for T > -273.15 and a result between 0.21 and 2e7 mm2/s, which is left to the caller.

    Source: ASTM D341, full form, printed inverse; recalled.
    """
    T, W40, B = as_arrays(T, W40, B)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        W = W40 - B * (np.log10(T + KELVIN) - np.log10(40 + KELVIN))
        z = np.power(10.0, np.power(10.0, W)) - 0.7
        return z - np.exp(-0.7487 + z * (-3.295 + z * (0.6119 - 0.3193 * z)))


@cited(ISO_3448, "viscosity grades")
def nu40_of_grade(VG: Array) -> Floats:
    """Mid-point kinematic viscosity at 40 deg C of an ISO viscosity grade.

    nu40 = VG from VG 10 upwards; 2.2, 3.2, 4.6, 6.8 of VG 2, 3, 5, 7

    Parameters (any shape)
    ----------
    VG : ISO viscosity grade [-]

    Returns
    -------
    nu40 [mm2/s]

    Valid for the grades from 2 to 3200; NaN for any other number.

    Source: ISO 3448, viscosity grades; recalled.
    """
    return _of_grade(VG, ISO_VG, [NU40_OF_THIN.get(grade, grade) for grade in ISO_VG])


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
    return _of_grade(VG, tuple(NU100_AT_VI_95), list(NU100_AT_VI_95.values()))


def _of_grade(VG: Array, grades: tuple[int, ...], values: list[float]) -> Floats:
    VG, known, found = as_arrays(VG, grades, values)
    place = np.minimum(np.searchsorted(known, VG), len(known) - 1)
    return np.where(known[place] == VG, found[place], np.nan)
