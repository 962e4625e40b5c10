"""Friction torque of a tapered roller bearing: a load-independent part, a load-dependent part, and their power."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import ISO_15312, PALMGREN_FRICTION, PHYSICS, cited

#: ISO 15312 Table A.1 for tapered roller bearings.
F1 = 0.0004
F0_LIGHT, F0_HEAVY = 3.0, 4.5
#: f0 by way of lubrication over f0 for an oil bath up to the lowest roller's centre. Recalled as the ratios of a
#: handbook's 3 (mist), 6 (bath or grease), 8 to 10 (jet, circulating oil, vertical shaft in a bath).
F0_BY_SUPPLY = {"mist": 0.5, "bath": 1.0, "grease": 1.0, "circulating": 1.5, "jet": 1.5}
#: Where the oil is slow, this stands for (nu n)^(2/3).
SLOW = 160.0


@cited(ISO_15312, "Table A.1, tapered roller bearings")
def f0_of_section(d: Array, D: Array, T: Array, alpha: Array) -> Floats:
    """Factor f0 of a tapered roller bearing in an oil bath up to the centre of its lowest roller.

    3 for dimension series 02, 03, 29, 30, 20; 4.5 for 22, 23, 13, 31, 32

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    D : outside diameter [mm]
    T : width of the assembly [mm]
    alpha : contact angle [rad]

    Returns
    -------
    f0 [-]

    Valid for D > d > 0, T > 0; NaN outside. The series is told by the section: light where D - d is at most
    0.955 d^0.9 or 4.94 d^0.5 (29, 20, 30: diameter series 9 and 0, told from 1 from 20 mm bore up to 320 mm) or
    T/(D - d)^0.95 <= 0.68 and alpha <= 27 deg (02, 03).

    Source: ISO 15312:2018, Table A.1, tapered roller bearings; factors read in open code, limits chosen here.
    """
    d, D, T, alpha = as_arrays(d, D, T, alpha)
    inside = (d > 0) & (d < D) & (T > 0)
    with np.errstate(all="ignore"):
        thin = D - d <= np.maximum(0.955 * np.power(np.abs(d), 0.9), 4.94 * np.sqrt(np.abs(d)))
        narrow = (T / np.power(np.abs(D - d), 0.95) <= 0.68) & (alpha <= np.radians(27.0) * (1 + 1e-12))
    return np.where(inside, np.where(thin | narrow, F0_LIGHT, F0_HEAVY), np.nan)


@cited(PALMGREN_FRICTION, "f0 by way of lubrication")
def f0_with_supply(f0: Array, supply: str, vertical: bool = False) -> Floats:
    """Factor f0 for the way in which the lubricant reaches the bearing.

    f0 times 0.5 (oil mist), 1 (oil bath, grease after running in), 1.5 (circulating oil, jet; vertical shaft in oil)

    Parameters (f0 of any shape)
    ----------
    f0 : factor for an oil bath [-]
    supply : mist, bath, grease, circulating or jet [-]
    vertical : whether the shaft stands upright, true or false [-]

    Returns
    -------
    f0 [-]

    Valid for f0 > 0; NaN outside. Freshly greased bearings have up to twice the value for some hours.

    Source: Palmgren friction, f0 by way of lubrication; recalled as ratios.
    """
    (f0,) = as_arrays(f0)
    factor = F0_BY_SUPPLY[supply]
    if vertical and supply == "bath":
        factor = F0_BY_SUPPLY["circulating"]
    return np.where(f0 > 0, f0 * factor, np.nan)


@cited(ISO_15312, "Annex A, load-independent moment")
def load_independent_M0(f0: Array, nu: Array, n: Array, dm: Array) -> Floats:
    """Friction torque of the oil, which does not depend on the load.

    M0 = f0 1e-7 (nu n)^(2/3) dm^3, and 160e-7 f0 dm^3 where the oil is slow (nu n below 2000)

    Parameters (any broadcastable shapes)
    ----------
    f0 : factor of bearing and lubrication [-]
    nu : viscosity at operating temperature, of a grease that of its base oil [mm2/s]
    n : speed [rpm]
    dm : mean diameter (d + D)/2 [mm]

    Returns
    -------
    M0 [N mm]; at n = 0 the torque against a slow start

    Valid for f0 > 0, nu > 0, n >= 0, dm > 0; NaN outside. The two lines differ by 0.8 % at nu n = 2000; here the
    greater of both is taken, so that they join (at 2024) and a thicker oil never brakes less.

    Source: ISO 15312:2018, Annex A, load-independent moment; read in open code and an open paper, the slow line
    recalled.
    """
    f0, nu, n, dm = as_arrays(f0, nu, n, dm)
    inside = (f0 > 0) & (nu > 0) & (n >= 0) & (dm > 0)
    return np.where(inside, f0 * 1e-7 * flow_term(nu, n) * dm * dm * dm, np.nan)


@cited(ISO_15312, "Annex A, viscosity and speed in the load-independent moment")
def flow_term(nu: Array, n: Array) -> Floats:
    """Term by which viscosity and speed enter the load-independent moment.

    (nu n)^(2/3), at least 160

    Parameters (any broadcastable shapes)
    ----------
    nu : viscosity at operating temperature [mm2/s]
    n : speed [rpm]

    Returns
    -------
    (nu n)^(2/3), of figures in mm2/s and rpm [-]

    Valid for nu >= 0, n >= 0.

    Source: ISO 15312:2018, Annex A, viscosity and speed in the load-independent moment; the slow line recalled.
    """
    nu, n = as_arrays(nu, n)
    with np.errstate(invalid="ignore"):
        return np.maximum(np.square(np.cbrt(nu * n)), SLOW)


@cited(PALMGREN_FRICTION, "load P1 of tapered roller bearings")
def friction_load_P1(Fr: Array, Fa: Array, Y: Array) -> Floats:
    """Load that decides the load-dependent friction of a tapered roller bearing.

    P1 = 2 Y Fa, or Fr where that is larger

    Parameters (any broadcastable shapes)
    ----------
    Fr : radial load [N]
    Fa : axial load [N]
    Y : axial load factor of ISO 281 [-]

    Returns
    -------
    P1 [N]

    Valid for Fr >= 0, Fa >= 0, Y > 0; NaN outside.

    Source: Palmgren friction, load P1 of tapered roller bearings; recalled.
    """
    Fr, Fa, Y = as_arrays(Fr, Fa, Y)
    inside = (Fr >= 0) & (Fa >= 0) & (Y > 0)
    return np.where(inside, np.maximum(2 * Y * Fa, Fr), np.nan)


@cited(ISO_15312, "Annex A, load-dependent moment")
def load_dependent_M1(f1: Array, P1: Array, dm: Array) -> Floats:
    """Friction torque that comes with the load.

    M1 = f1 P1 dm

    Parameters (any broadcastable shapes)
    ----------
    f1 : factor of the bearing, 0.0004 for tapered roller bearings [-]
    P1 : load that decides friction [N]
    dm : mean diameter (d + D)/2 [mm]

    Returns
    -------
    M1 [N mm]

    Valid for f1 > 0, P1 >= 0, dm > 0; NaN outside.

    Source: ISO 15312:2018, Annex A, load-dependent moment; read in open code and an open paper.
    """
    f1, P1, dm = as_arrays(f1, P1, dm)
    inside = (f1 > 0) & (P1 >= 0) & (dm > 0)
    return np.where(inside, f1 * P1 * dm, np.nan)


@cited(PHYSICS, "power of a torque")
def friction_power(M: Array, n: Array) -> Floats:
    """Heat that a friction torque makes.

    W = M pi n / 30000

    Parameters (any broadcastable shapes)
    ----------
    M : friction torque [N mm]
    n : speed [rpm]

    Returns
    -------
    power [W]

    Valid for M >= 0, n >= 0; NaN outside.

    Source: Physics, power of a torque; definition of mechanical power.
    """
    M, n = as_arrays(M, n)
    return np.where((M >= 0) & (n >= 0), M * (np.pi * n / 30_000), np.nan)
