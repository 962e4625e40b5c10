"""Forces between the teeth of a gear and its mate: tangential, radial and axial, as magnitudes.

On which way they point on a shaft, see `engine.duty.machine.gears`.
"""

import numpy as np

from engine.numerics import Array, Bools, Floats, as_arrays
from engine.sources import MACHINE_DESIGN, MACHINE_ELEMENTS, cited

#: Angles of a tooth, a helix or a cone are less than a right angle.
_RIGHT_ANGLE = np.pi / 2


@cited(MACHINE_DESIGN, "chapter 3, power and torque")
def torque_of_power(P: Array, n: Array) -> Floats:
    """Torque on a shaft that carries a power at a speed.

    T = 10^3 P / (2 pi n / 60)

    Parameters (any broadcastable shapes)
    ----------
    P : power [W]
    n : speed [rpm]

    Returns
    -------
    T [N mm]

    Valid for P >= 0, n > 0; NaN outside.

    Source: Mechanical Engineering Design, chapter 3, power and torque; recalled.
    """
    P, n = as_arrays(P, n)
    with np.errstate(all="ignore"):
        return np.where((P >= 0) & (n > 0), 30e3 * P / (np.pi * n), np.nan)


@cited(MACHINE_DESIGN, "chapter 13, transmitted load")
def tangential_force(T: Array, d: Array) -> Floats:
    """Force along the pitch circle that a torque makes; what a belt or chain transmits follows the same line.

    Ft = 2 T / d

    Parameters (any broadcastable shapes)
    ----------
    T : torque [N mm]
    d : pitch diameter, of a bevel gear at the middle of the face [mm]

    Returns
    -------
    Ft [N]

    Valid for T >= 0, d > 0; NaN outside.

    Source: Mechanical Engineering Design, chapter 13, transmitted load; recalled.
    """
    T, d = as_arrays(T, d)
    with np.errstate(all="ignore"):
        return np.where((T >= 0) & (d > 0), 2 * T / d, np.nan)


@cited(MACHINE_DESIGN, "chapter 13, force analysis of spur gears")
def spur_radial_force(Ft: Array, alpha_n: Array) -> Floats:
    """Radial force of a spur gear; there is no axial one.

    Fr = Ft tan(alpha_n)

    Parameters (any broadcastable shapes)
    ----------
    Ft : tangential force [N]
    alpha_n : pressure angle [rad]

    Returns
    -------
    Fr [N]

    Valid for Ft >= 0, 0 <= alpha_n < pi/2; NaN outside.

    Source: Mechanical Engineering Design, chapter 13, force analysis of spur gears; recalled.
    """
    Ft, alpha_n = as_arrays(Ft, alpha_n)
    return np.where((Ft >= 0) & _acute(alpha_n), Ft * np.tan(alpha_n), np.nan)


@cited(MACHINE_DESIGN, "chapter 13, force analysis of helical gears")
def helical_forces(Ft: Array, alpha_n: Array, beta: Array) -> tuple[Floats, Floats]:
    """Radial and axial force of a helical gear.

    Fr = Ft tan(alpha_n) / cos(beta); Fa = Ft tan(beta)

    Parameters (any broadcastable shapes)
    ----------
    Ft : tangential force [N]
    alpha_n : pressure angle in the normal section [rad]
    beta : helix angle, without its hand [rad]

    Returns
    -------
    Fr, Fa [N]

    Valid for Ft >= 0, angles from 0 to less than pi/2; NaN outside.

    Source: Mechanical Engineering Design, chapter 13, force analysis of helical gears; formula read in open text.
    """
    Ft, alpha_n, beta = as_arrays(Ft, alpha_n, beta)
    inside = (Ft >= 0) & _acute(alpha_n) & _acute(beta)
    with np.errstate(all="ignore"):
        Fr = Ft * np.tan(alpha_n) / np.cos(beta)
    return np.where(inside, Fr, np.nan), np.where(inside, Ft * np.tan(beta), np.nan)


@cited(MACHINE_ELEMENTS, "mean diameter of a bevel gear")
def mean_cone_diameter(d_e: Array, b: Array, delta: Array) -> Floats:
    """Pitch diameter of a bevel gear at the middle of its face, where its forces are taken to act.

    d_m = d_e - b sin(delta)

    Parameters (any broadcastable shapes)
    ----------
    d_e : pitch diameter at the large end [mm]
    b : face width along the cone [mm]
    delta : pitch cone angle, from the axis to the cone [rad]

    Returns
    -------
    d_m [mm]

    Valid for d_e > 0, b >= 0, 0 <= delta <= pi/2 and a result above 0; NaN outside.

    Source: Machine element handbooks, mean diameter of a bevel gear; recalled.
    """
    d_e, b, delta = as_arrays(d_e, b, delta)
    d_m = d_e - b * np.sin(delta)
    inside = (d_e > 0) & (b >= 0) & (delta >= 0) & (delta <= _RIGHT_ANGLE) & (d_m > 0)
    return np.where(inside, d_m, np.nan)


@cited(MACHINE_DESIGN, "chapter 13, force analysis of straight bevel gears")
def straight_bevel_forces(Ft: Array, alpha_n: Array, delta: Array) -> tuple[Floats, Floats]:
    """Radial and axial force of a straight bevel gear; the axial one pushes it away from its apex.

    Fr = Ft tan(alpha_n) cos(delta); Fa = Ft tan(alpha_n) sin(delta)

    Parameters (any broadcastable shapes)
    ----------
    Ft : tangential force at the mean diameter [N]
    alpha_n : pressure angle [rad]
    delta : pitch cone angle [rad]

    Returns
    -------
    Fr, Fa [N]

    Valid for Ft >= 0, 0 <= alpha_n < pi/2, 0 <= delta <= pi/2; NaN outside.

    Source: Mechanical Engineering Design, chapter 13, force analysis of straight bevel gears; recalled.
    """
    Ft, alpha_n, delta = as_arrays(Ft, alpha_n, delta)
    inside = (Ft >= 0) & _acute(alpha_n) & (delta >= 0) & (delta <= _RIGHT_ANGLE)
    separating = Ft * np.tan(alpha_n)
    return np.where(inside, separating * np.cos(delta), np.nan), np.where(inside, separating * np.sin(delta), np.nan)


@cited(MACHINE_ELEMENTS, "forces of spiral bevel gears")
def spiral_bevel_forces(Ft: Array, alpha_n: Array, beta: Array, delta: Array, sigma: Array) -> tuple[Floats, Floats]:
    """Radial and axial force of a spiral bevel gear: radial towards its axis, axial away from its apex.

    Fr = Ft/cos(beta) (tan(alpha_n) cos(delta) - sigma sin(beta) sin(delta))
    Fa = Ft/cos(beta) (tan(alpha_n) sin(delta) + sigma sin(beta) cos(delta))

    Parameters (any broadcastable shapes)
    ----------
    Ft : tangential force at the mean diameter [N]
    alpha_n : pressure angle in the normal section [rad]
    beta : spiral angle at the middle of the face, without its hand [rad]
    delta : pitch cone angle [rad]
    sigma : +1 where the spiral pushes the gear away from its apex, -1 where it draws it in: seen from the back, +1
        for a driver with a left-hand spiral that turns clockwise or a right-hand one that turns counterclockwise, -1
        for the other two; for a driven gear the other way round [-]

    Returns
    -------
    Fr, Fa [N], negative where the force points the other way

    Valid for Ft >= 0, 0 <= alpha_n, beta < pi/2, 0 <= delta <= pi/2, sigma = -1 or 1; NaN outside.

    Source: Machine element handbooks, forces of spiral bevel gears; recalled, and derived again from the normal of a
    tooth in `engine.duty.machine.gears`.
    """
    Ft, alpha_n, beta, delta, sigma = as_arrays(Ft, alpha_n, beta, delta, sigma)
    inside = (Ft >= 0) & _acute(alpha_n) & _acute(beta) & (delta >= 0) & (delta <= _RIGHT_ANGLE) & (abs(sigma) == 1)
    with np.errstate(all="ignore"):
        pressing, sliding = np.tan(alpha_n), sigma * np.sin(beta)
        Fr = Ft / np.cos(beta) * (pressing * np.cos(delta) - sliding * np.sin(delta))
        Fa = Ft / np.cos(beta) * (pressing * np.sin(delta) + sliding * np.cos(delta))
    return np.where(inside, Fr, np.nan), np.where(inside, Fa, np.nan)


@cited(MACHINE_DESIGN, "chapter 13, lead angle of a worm")
def lead_angle(lead: Array, d: Array) -> Floats:
    """Lead angle of a worm or screw: what its helix makes with a plane across its axis.

    tan(gamma_m) = lead / (pi d)

    Parameters (any broadcastable shapes)
    ----------
    lead : advance in one turn: number of threads times axial pitch [mm]
    d : pitch diameter of the worm [mm]

    Returns
    -------
    gamma_m [rad]

    Valid for lead > 0, d > 0; NaN outside.

    Source: Mechanical Engineering Design, chapter 13, lead angle of a worm; recalled.
    """
    lead, d = as_arrays(lead, d)
    with np.errstate(all="ignore"):
        return np.where((lead > 0) & (d > 0), np.arctan(lead / (np.pi * d)), np.nan)


@cited(MACHINE_DESIGN, "chapter 13, force analysis of worm gears")
def worm_forces(Ft: Array, alpha_n: Array, gamma_m: Array, mu: Array) -> tuple[Floats, Floats]:
    """Radial and axial force of a worm from its tangential force; the axial one is the tangential one of the wheel.

    Ft = F (cos(alpha_n) sin(gamma_m) + mu cos(gamma_m)); Fr = F sin(alpha_n);
    Fa = F (cos(alpha_n) cos(gamma_m) - mu sin(gamma_m))

    Parameters (any broadcastable shapes)
    ----------
    Ft : tangential force of the worm [N]
    alpha_n : pressure angle in the normal section [rad]
    gamma_m : lead angle of the worm [rad]
    mu : coefficient of friction where the worm drives; its negative where the wheel drives the worm [-]

    Returns
    -------
    Fr, Fa [N]

    Valid for Ft >= 0, 0 <= alpha_n < pi/2, 0 < gamma_m < pi/2, and friction that lets the worm turn; NaN outside, so
    where a wheel that drives is locked by friction.

    Source: Mechanical Engineering Design, chapter 13, force analysis of worm gears; recalled.
    """
    Ft, alpha_n, gamma_m, mu = as_arrays(Ft, alpha_n, gamma_m, mu)
    return _worm(Ft, (alpha_n, gamma_m, mu), of_wheel=False)


@cited(MACHINE_DESIGN, "chapter 13, force analysis of worm gears")
def worm_wheel_forces(Ft: Array, alpha_n: Array, gamma_m: Array, mu: Array) -> tuple[Floats, Floats]:
    """Radial and axial force of a worm wheel from its tangential force; the axial one is the tangential of the worm.

    Ft = F (cos(alpha_n) cos(gamma_m) - mu sin(gamma_m)); Fr = F sin(alpha_n);
    Fa = F (cos(alpha_n) sin(gamma_m) + mu cos(gamma_m))

    Parameters (any broadcastable shapes)
    ----------
    Ft : tangential force of the wheel [N]
    alpha_n : pressure angle in the normal section [rad]
    gamma_m : lead angle of the worm [rad]
    mu : coefficient of friction where the worm drives; its negative where the wheel drives the worm [-]

    Returns
    -------
    Fr, Fa [N]

    Valid for Ft >= 0, 0 <= alpha_n < pi/2, 0 < gamma_m < pi/2, and friction that lets the worm turn; NaN outside.

    Source: Mechanical Engineering Design, chapter 13, force analysis of worm gears; recalled.
    """
    Ft, alpha_n, gamma_m, mu = as_arrays(Ft, alpha_n, gamma_m, mu)
    return _worm(Ft, (alpha_n, gamma_m, mu), of_wheel=True)


def _worm(Ft: Floats, mesh: tuple[Floats, Floats, Floats], of_wheel: bool) -> tuple[Floats, Floats]:
    alpha_n, gamma_m, mu = mesh
    with np.errstate(all="ignore"):
        on_worm = np.cos(alpha_n) * np.sin(gamma_m) + mu * np.cos(gamma_m)
        on_wheel = np.cos(alpha_n) * np.cos(gamma_m) - mu * np.sin(gamma_m)
        inside = (Ft >= 0) & _acute(alpha_n) & (gamma_m > 0) & _acute(gamma_m) & (on_worm > 0) & (on_wheel > 0)
        own, other = (on_wheel, on_worm) if of_wheel else (on_worm, on_wheel)
        F = np.where(inside, Ft / own, np.nan)
        return F * np.sin(alpha_n), F * other


def _acute(angle: Floats) -> Bools:
    return np.asarray((angle >= 0) & (angle < _RIGHT_ANGLE))
