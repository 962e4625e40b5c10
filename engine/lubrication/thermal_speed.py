"""Speeds by heat: thermal reference speed, thermally safe operating speed, and the speed factor."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import COMMON_PRACTICE, DIN_732, ISO_15312, cited

#: Reference conditions of ISO 15312: viscosity at 70 deg C, load over C0r, ambient and bearing temperature.
NU_REFERENCE, LOAD_REFERENCE = 12.0, 0.05
T_AMBIENT, T_BEARING = 20.0, 70.0
#: Heat flow density of the reference conditions [W/mm2], up to this area [mm2].
Q_REFERENCE, AREA_REFERENCE = 0.016, 50_000.0
#: Heat that circulating oil carries [W per l/min and K], handbook value for mineral oil.
OIL_HEAT = 28.6
_NEWTON_STEPS = 40


@cited(ISO_15312, "equation (2), heat emitting reference surface area")
def reference_area(d: Array, D: Array, T: Array) -> Floats:
    """Surface through which a tapered roller bearing is taken to shed its heat.

    A_r = pi T (d + D)

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    D : outside diameter [mm]
    T : width of the assembly [mm]

    Returns
    -------
    A_r [mm2]

    Valid for D > d > 0, T > 0; NaN outside.

    Source: ISO 15312:2018, equation (2), heat emitting reference surface area; read in open code.
    """
    d, D, T = as_arrays(d, D, T)
    return np.where((d > 0) & (d < D) & (T > 0), np.pi * T * (d + D), np.nan)


@cited(ISO_15312, "reference heat flow density")
def reference_heat_flow_density(A_r: Array) -> Floats:
    """Heat that leaves each square millimetre at the reference conditions, 50 K above the surroundings.

    q_r = 0.016 up to 50 000 mm2, 0.016 (A_r/50 000)^-0.34 above

    Parameters (any shape)
    ----------
    A_r : heat emitting reference surface area [mm2]

    Returns
    -------
    q_r [W/mm2]

    Valid for A_r > 0, radial bearings; NaN outside.

    Source: ISO 15312:2018, reference heat flow density; read in open code.
    """
    (A_r,) = as_arrays(A_r)
    with np.errstate(all="ignore"):
        large = np.power(np.maximum(A_r / AREA_REFERENCE, 1.0), -0.34)
        return np.where(A_r > 0, Q_REFERENCE * large, np.nan)


@cited(ISO_15312, "equation (11), thermal reference speed")
def thermal_reference_speed(f0: Array, f1: Array, P1: Array, dm: Array, heat: Array) -> Floats:
    """Speed at which the friction of the reference conditions makes just the heat that leaves the bearing.

    (pi n / 30e3) [1e-7 f0 (nu_r n)^(2/3) dm^3 + f1 P1 dm] = q_r A_r, nu_r = 12 mm2/s

    Parameters (any broadcastable shapes)
    ----------
    f0 : factor of the load-independent moment [-]
    f1 : factor of the load-dependent moment [-]
    P1 : reference load, 0.05 C0r [N]
    dm : mean diameter (d + D)/2 [mm]
    heat : q_r A_r [W]

    Returns
    -------
    n [rpm]

    Valid for f0 > 0, f1 > 0, P1 >= 0, dm > 0, heat > 0; NaN outside. Oil bath or grease, 20 deg C outside, 70 deg C
    inside.

    Source: ISO 15312:2018, equation (11), thermal reference speed; read in open code, solved here.
    """
    f0, f1, P1, dm, heat = as_arrays(f0, f1, P1, dm, heat)
    inside = (f0 > 0) & (f1 > 0) & (P1 >= 0) & (dm > 0) & (heat > 0)
    per_rpm = np.pi / 30_000
    with np.errstate(all="ignore"):
        a = per_rpm * 1e-7 * f0 * NU_REFERENCE ** (2 / 3) * dm * dm * dm
        return np.where(inside, _balanced(a, per_rpm * f1 * P1 * dm, heat), np.nan)


def _balanced(a: Floats, b: Floats, c: Floats) -> Floats:
    """Return n with a n^(5/3) + b n = c: Newton in n^(1/3) from above, where it comes down to the root without fail."""
    x = np.fmin(np.power(c / a, 0.2), np.cbrt(c / b))
    for _ in range(_NEWTON_STEPS):
        square = x * x
        miss = (a * square + b) * square * x - c
        x = x - miss / ((5 * a * square + 3 * b) * square)
    return x * x * x


@cited(ISO_15312, "reference conditions for tapered roller bearings")
def thermal_reference_speed_of(d: Array, D: Array, T: Array, C0r: Array, f0: Array) -> Floats:
    """Thermal reference speed of a tapered roller bearing from its catalogue figures.

    As thermal_reference_speed with dm = (d + D)/2, A_r = pi T (d + D), P1 = 0.05 C0r, f1 = 0.0004

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    D : outside diameter [mm]
    T : width of the assembly [mm]
    C0r : basic static radial load rating [N]
    f0 : factor of the load-independent moment, 3 or 4.5 [-]

    Returns
    -------
    n [rpm]

    Valid for D > d > 0, T > 0, C0r > 0; NaN outside.

    Source: ISO 15312:2018, reference conditions for tapered roller bearings; read in open code.
    """
    d, D, C0r = as_arrays(d, D, C0r)
    A_r = reference_area(d, D, T)
    load = np.where(C0r > 0, LOAD_REFERENCE * C0r, np.nan)
    return thermal_reference_speed(f0, 0.0004, load, (d + D) / 2, reference_heat_flow_density(A_r) * A_r)


@cited(DIN_732, "heat flow from bearing surface and oil")
def heat_flow(A_r: Array, rise: Array, V: Array, oil_rise: Array) -> Floats:
    """Heat that may leave a bearing through its seats and with circulating oil.

    Phi = (q_r / 50 K) A_r rise + 28.6 V oil_rise

    Parameters (any broadcastable shapes)
    ----------
    A_r : heat emitting reference surface area [mm2]
    rise : bearing temperature over ambient [K]
    V : flow of circulating oil, 0 without [l/min]
    oil_rise : oil out of the bearing over oil into it [K]

    Returns
    -------
    Phi [W]

    Valid for A_r > 0, V >= 0; NaN outside.

    Source: DIN 732, heat flow from bearing surface and oil; recalled.
    """
    rise, V, oil_rise = as_arrays(rise, V, oil_rise)
    A_r = np.asarray(A_r, dtype=np.float64)
    surface = reference_heat_flow_density(A_r) * A_r * rise / (T_BEARING - T_AMBIENT)
    return np.where(V >= 0, surface + OIL_HEAT * V * oil_rise, np.nan)


@cited(DIN_732, "thermally safe operating speed, KL f^(5/3) + KP f = 1")
def speed_ratio(KL: Array, KP: Array) -> Floats:
    """Ratio of the thermally safe operating speed to the thermal reference speed.

    KL f^(5/3) + KP f = 1

    Parameters (any broadcastable shapes)
    ----------
    KL : oil friction at the reference speed over the heat flow [-]
    KP : load friction at the reference speed over the heat flow [-]

    Returns
    -------
    f [-]

    Valid for KL > 0, KP >= 0; NaN outside.

    Source: DIN 732, thermally safe operating speed, KL f^(5/3) + KP f = 1; recalled, solved here.
    """
    KL, KP = as_arrays(KL, KP)
    with np.errstate(all="ignore"):
        return np.where((KL > 0) & (KP >= 0), _balanced(KL, KP, np.ones_like(KL)), np.nan)


@cited(DIN_732, "thermally safe operating speed")
def thermally_safe_speed(n_ref: Array, f0: Array, nu: Array, f1: Array, P1: Array, dm: Array, Phi: Array) -> Floats:
    """Speed at which the friction under the real load and oil makes just the heat that may leave the bearing.

    n = f n_ref, KL f^(5/3) + KP f = 1, KL = (pi/30e3) n_ref 1e-7 f0 (nu n_ref)^(2/3) dm^3 / Phi,
    KP = (pi/30e3) n_ref f1 P1 dm / Phi

    Parameters (any broadcastable shapes)
    ----------
    n_ref : thermal reference speed [rpm]
    f0 : factor of the load-independent moment, with the real lubrication [-]
    nu : viscosity at the permitted bearing temperature [mm2/s]
    f1 : factor of the load-dependent moment [-]
    P1 : load that decides friction [N]
    dm : mean diameter (d + D)/2 [mm]
    Phi : heat flow at the permitted temperatures [W]

    Returns
    -------
    n [rpm]

    Valid for Phi > 0, nu > 0, P1 >= 0; NaN outside, 0 where no heat may leave.

    Source: DIN 732, thermally safe operating speed; recalled.
    """
    n_ref, f0, nu, f1, P1, dm, Phi = as_arrays(n_ref, f0, nu, f1, P1, dm, Phi)
    with np.errstate(all="ignore"):
        per_heat = np.pi / 30_000 * n_ref / Phi
        KL = per_heat * 1e-7 * f0 * np.square(np.cbrt(nu * n_ref)) * dm * dm * dm
        n = n_ref * speed_ratio(KL, per_heat * f1 * P1 * dm)
    return np.where(Phi > 0, n, np.where(Phi <= 0, 0.0, np.nan))


@cited(COMMON_PRACTICE, "speed factor n dm")
def speed_factor(n: Array, dm: Array) -> Floats:
    """Speed factor by which lubricants and cages are judged.

    n dm

    Parameters (any broadcastable shapes)
    ----------
    n : speed [rpm]
    dm : mean diameter (d + D)/2 [mm]

    Returns
    -------
    n dm [rpm mm]

    Valid for n >= 0, dm > 0; NaN outside.

    Source: Common practice, speed factor n dm; a definition of the trade.
    """
    n, dm = as_arrays(n, dm)
    return np.where((n >= 0) & (dm > 0), n * dm, np.nan)
