"""The rib that guides the large roller ends: its speed, the sliding on it, its force and its share of the friction."""

import numpy as np

from engine.lubrication.contact.rollers import roller_half_angle
from engine.numerics import Array, Floats, as_arrays
from engine.sources import COMMON_PRACTICE, GEOMETRY, ROLLER_MECHANICS, cited

#: Roller ends touch the rib at this height over the raceway, in roller diameters: common practice, no source.
CONTACT_HEIGHT = 0.10
#: Friction coefficient at the rib: a lubricated sliding contact of ground steel; common practice, no source.
MU_RIB = 0.04
#: Usual limits of the mean rib speed by way of lubrication [m/s]: common practice, no source.
USUAL_LIMITS = {"grease": 5.0, "bath": 12.0, "mist": 25.0, "circulating": 25.0, "jet": 40.0}


@cited(GEOMETRY, "circle on which the roller ends touch the rib")
def rib_diameter(Dwe: Array, Lwe: Array, alpha: Array, Dpw: Array) -> Floats:
    """Mean diameter of the rib, where the large roller ends touch it.

    d = Dpw - Dwe cos(alpha - beta) + Lwe sin(alpha - 2 beta) + 2 (0.10 Dwe) cos(alpha - 2 beta), beta half the cone
    angle of the rollers

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller diameter at mid-length [mm]
    Lwe : effective length of the roller contact [mm]
    alpha : contact angle [rad]
    Dpw : pitch diameter of the roller set [mm]

    Returns
    -------
    d [mm]

    Valid for 0 < Dwe < Dpw, Lwe > 0, 0 < alpha < pi/2; NaN outside. The height of 0.10 Dwe: common practice.

    Source: Geometry, circle on which the roller ends touch the rib; derived here.
    """
    Dwe, Lwe, alpha, Dpw = as_arrays(Dwe, Lwe, alpha, Dpw)
    beta = roller_half_angle(Dwe, alpha, Dpw)
    raceway = Dpw - Dwe * np.cos(alpha - beta)
    cone = alpha - 2 * beta
    wide = raceway + Lwe * np.sin(cone) + 2 * CONTACT_HEIGHT * Dwe * np.cos(cone)
    return np.where(Lwe > 0, wide, np.nan)


@cited(GEOMETRY, "speed on a circle")
def mean_rib_speed(n: Array, d: Array) -> Floats:
    """Speed of the rib at its mean diameter, by which the trade tells how it must be lubricated.

    v = pi n d / 60000

    Parameters (any broadcastable shapes)
    ----------
    n : speed of the cone relative to the cup [rpm]
    d : mean diameter of the rib [mm]

    Returns
    -------
    v [m/s]

    Valid for n >= 0, d > 0; NaN outside.

    Source: Geometry, speed on a circle.
    """
    n, d = as_arrays(n, d)
    return np.where((n >= 0) & (d > 0), np.pi * n * d / 60_000, np.nan)


@cited(COMMON_PRACTICE, "usual limits of the mean rib speed")
def usual_rib_speed(supply: str) -> float:
    """Mean rib speed that a way of lubrication usually reaches.

    grease 5, oil bath 12, oil mist and circulating oil 25, oil jet on the rib 40 m/s

    Parameters (a word)
    ----------
    supply : grease, bath, mist, circulating or jet [-]

    Returns
    -------
    v [m/s]

    Valid as a caution only.

    Source: Common practice, usual limits of the mean rib speed; rule of the trade, no source.
    """
    return USUAL_LIMITS[supply]


@cited(ROLLER_MECHANICS, "rotation of roller against cone about their line of contact")
def rib_sliding_speed(n: Array, Dwe: Array, alpha: Array, Dpw: Array) -> Floats:
    """Speed at which the roller ends slide on the rib.

    v = 0.10 Dwe omega, omega = (pi n / 30) (1 + g)/2 Dpw / (Dwe cos(beta)), g = Dwe cos(alpha - beta)/Dpw, beta half
    the cone angle of the rollers

    Parameters (any broadcastable shapes)
    ----------
    n : speed of the cone relative to the cup [rpm]
    Dwe : roller diameter at mid-length [mm]
    alpha : contact angle [rad]
    Dpw : pitch diameter of the roller set [mm]

    Returns
    -------
    v [mm/s]

    Valid for n >= 0, 0 < Dwe < Dpw, 0 < alpha < pi/2, pure rolling on the raceways; NaN outside.

    Source: Bearing mechanics, rotation of roller against cone about their line of contact; derived here.
    """
    n, Dwe, alpha, Dpw = as_arrays(n, Dwe, alpha, Dpw)
    beta = roller_half_angle(Dwe, alpha, Dpw)
    with np.errstate(all="ignore"):
        g = Dwe * np.cos(alpha - beta) / Dpw
        omega = np.pi * n / 30 * (1 + g) / 2 * Dpw / (Dwe * np.cos(beta))
        return np.where(n >= 0, CONTACT_HEIGHT * Dwe * omega, np.nan)


@cited(ROLLER_MECHANICS, "equilibrium of a tapered roller")
def rib_force(Fa: Array, Dwe: Array, alpha: Array, Dpw: Array) -> Floats:
    """Force with which all rollers together lean against the rib.

    F = (Fa / sin(alpha)) sin(2 beta), beta half the cone angle of the rollers

    Parameters (any broadcastable shapes)
    ----------
    Fa : axial load of the bearing [N]
    Dwe : roller diameter at mid-length [mm]
    alpha : contact angle [rad]
    Dpw : pitch diameter of the roller set [mm]

    Returns
    -------
    F [N]

    Valid for Fa >= 0, 0 < Dwe < Dpw, 0 < alpha < pi/2, a rib at right angles to the cone raceway; NaN outside.

    Source: Bearing mechanics, equilibrium of a tapered roller; recalled: Q_f = Q_o sin(alpha_o - alpha_i) for that
    rib.
    """
    Fa, alpha = as_arrays(Fa, alpha)
    beta = roller_half_angle(Dwe, alpha, Dpw)
    with np.errstate(all="ignore"):
        return np.where(Fa >= 0, Fa / np.sin(alpha) * np.sin(2 * beta), np.nan)


@cited(ROLLER_MECHANICS, "sliding friction at the rib")
def rib_torque(Fa: Array, Dwe: Array, alpha: Array, Dpw: Array, mu: Array) -> Floats:
    """Friction torque on the shaft that comes from the rib; a part of M1, not on top of it.

    M = mu F v / omega_shaft, F the rib force, v the sliding speed

    Parameters (any broadcastable shapes)
    ----------
    Fa : axial load of the bearing [N]
    Dwe : roller diameter at mid-length [mm]
    alpha : contact angle [rad]
    Dpw : pitch diameter of the roller set [mm]
    mu : friction coefficient at the rib, 0.02 with a film to 0.1 without [-]

    Returns
    -------
    M [N mm]

    Valid for Fa >= 0, mu >= 0, 0 < Dwe < Dpw, 0 < alpha < pi/2; NaN outside.

    Source: Bearing mechanics, sliding friction at the rib; derived here.
    """
    (mu,) = as_arrays(mu)
    per_turn = rib_sliding_speed(30 / np.pi, Dwe, alpha, Dpw)  # at 1 rad/s
    return np.where(mu >= 0, mu * rib_force(Fa, Dwe, alpha, Dpw) * per_turn, np.nan)


@cited(COMMON_PRACTICE, "rib share of the friction")
def rib_share(M_rib: Array, M0: Array, M1: Array) -> Floats:
    """Share of the friction that comes from the rib.

    min(M_rib, M1) / (M0 + M1): the rib is part of the load-dependent torque

    Parameters (any broadcastable shapes)
    ----------
    M_rib : friction torque from the rib [N mm]
    M0 : load-independent torque [N mm]
    M1 : load-dependent torque [N mm]

    Returns
    -------
    share [-]

    Valid for M0 + M1 > 0; NaN outside.

    Source: Common practice, rib share of the friction; an estimate, since M1 is not measured in parts.
    """
    M_rib, M0, M1 = as_arrays(M_rib, M0, M1)
    with np.errstate(all="ignore"):
        return np.where(M0 + M1 > 0, np.minimum(M_rib, M1) / (M0 + M1), np.nan)
