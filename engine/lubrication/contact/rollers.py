"""Rollers between the raceways: curvatures, speeds, and the load of the most loaded roller."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.rating.geometry import gamma
from engine.sources import GEOMETRY, ROLLER_MECHANICS, cited

#: Load zones epsilon at which the load integrals are tabulated: from half the ring loaded to nearly all alike.
_EPSILONS = np.concatenate([np.linspace(0.5, 1.0, 26), 1.0 / np.linspace(0.98, 0.02, 49)])
#: Exponent of the line contact: load over approach.
_LINE = 10 / 9
_STEPS = 4001
_HALF_ANGLE_STEPS = 4


@cited(ROLLER_MECHANICS, "load distribution integrals, line contact")
def load_integrals(epsilon: Array) -> tuple[Floats, Floats]:
    """Share of the most loaded roller's load that all rollers together carry, radially and axially.

    J_r = 1/(2 pi) int [1 - (1 - cos psi)/(2 epsilon)]^(10/9) cos psi dpsi, J_a the same without cos psi, over the
    loaded zone

    Parameters (any shape)
    ----------
    epsilon : extent of the load zone, the loaded share of the diameter [-]

    Returns
    -------
    J_r, J_a [-]

    Valid for epsilon > 0; NaN outside.

    Source: Bearing mechanics, load distribution integrals, line contact; recalled, integrated here by Simpson's rule
    over the loaded zone.
    """
    (epsilon,) = as_arrays(epsilon)
    with np.errstate(all="ignore"):
        edge = np.arccos(np.clip(1 - 2 * epsilon, -1.0, 1.0))
        weights = np.where(np.arange(_STEPS) % 2 == 1, 4.0, 2.0) / (3 * (_STEPS - 1))
        weights[[0, -1]] /= 2
        psi = edge[..., None] * np.linspace(0.0, 1.0, _STEPS)
        load = np.power(np.maximum(1 - (1 - np.cos(psi)) / (2 * epsilon[..., None]), 0.0), _LINE)
        J_r, J_a = (edge / np.pi * (weights * values).sum(axis=-1) for values in (load * np.cos(psi), load))
    return np.where(epsilon > 0, J_r, np.nan), np.where(epsilon > 0, J_a, np.nan)


def _tabulated() -> tuple[Floats, Floats]:
    """Return Fr tan(alpha)/Fa, rising, and J_a over it; the last point is that of rollers loaded all alike."""
    J_r, J_a = load_integrals(_EPSILONS)
    ratio = np.concatenate([J_r / J_a, [0.0]])
    return ratio[::-1].copy(), np.concatenate([J_a, [1.0]])[::-1].copy()


_RATIO, _J_A = _tabulated()


@cited(ROLLER_MECHANICS, "most loaded roller, line contact without clearance")
def roller_load_Q(Fr: Array, Fa: Array, alpha: Array, Z: Array) -> Floats:
    """Load of the most loaded roller on the cup raceway.

    Q = Fa / (J_a Z sin(alpha)), J_a at the load zone where J_r/J_a = Fr tan(alpha)/Fa; never fewer rollers than on
    half the ring, where Q = 4.08 Fr/(Z cos(alpha))

    Parameters (any broadcastable shapes)
    ----------
    Fr : radial load [N]
    Fa : axial load [N]
    alpha : contact angle [rad]
    Z : number of rollers [-]

    Returns
    -------
    Q [N]

    Valid for Fr >= 0, Fa >= 0, 0 < alpha < pi/2, Z > 0, rings that stay round and parallel; NaN outside.

    Source: Bearing mechanics, most loaded roller, line contact without clearance; recalled.
    """
    Fr, Fa, alpha, Z = as_arrays(Fr, Fa, alpha, Z)
    inside = (Fr >= 0) & (Fa >= 0) & (alpha > 0) & (alpha < np.pi / 2) & (Z > 0)
    with np.errstate(all="ignore"):
        thrust = np.maximum(Fa, Fr * np.tan(alpha) / _RATIO[-1])  # half the ring at least
        ratio = np.where(thrust > 0, Fr * np.tan(alpha) / thrust, 0.0)
        J_a = np.interp(ratio, _RATIO, _J_A)
        return np.where(inside, thrust / (J_a * Z * np.sin(alpha)), np.nan)


@cited(ROLLER_MECHANICS, "equivalent radius, R = Dwe (1 -+ gamma)/2")
def contact_radii(Dwe: Array, alpha: Array, Dpw: Array) -> tuple[Floats, Floats]:
    """Radius of the cylinder on a plane that touches as the roller touches the cone and the cup.

    R_i = Dwe (1 - gamma)/2, R_o = Dwe (1 + gamma)/2

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller diameter at mid-length [mm]
    alpha : contact angle [rad]
    Dpw : pitch diameter of the roller set [mm]

    Returns
    -------
    R_i, R_o [mm]

    Valid for gamma < 1; NaN outside.

    Source: Bearing mechanics, equivalent radius, R = Dwe (1 -+ gamma)/2; recalled.
    """
    (Dwe,) = as_arrays(Dwe)
    g = gamma(Dwe, alpha, Dpw)
    inside = g < 1
    return np.where(inside, Dwe * (1 - g) / 2, np.nan), np.where(inside, Dwe * (1 + g) / 2, np.nan)


@cited(ROLLER_MECHANICS, "entrainment speed in pure rolling")
def entrainment_speed_u(n: Array, Dwe: Array, alpha: Array, Dpw: Array) -> Floats:
    """Mean speed at which roller and raceway draw oil into their contact; the same at cone and cup.

    u = (pi n / 30) Dpw (1 - gamma^2) / 4

    Parameters (any broadcastable shapes)
    ----------
    n : speed of one ring relative to the other [rpm]
    Dwe : roller diameter at mid-length [mm]
    alpha : contact angle [rad]
    Dpw : pitch diameter of the roller set [mm]

    Returns
    -------
    u [mm/s]

    Valid for n >= 0, gamma < 1, pure rolling; NaN outside. The other ring may turn: only the difference counts.

    Source: Bearing mechanics, entrainment speed in pure rolling; recalled.
    """
    n, Dpw = as_arrays(n, Dpw)
    g = gamma(Dwe, alpha, Dpw)
    with np.errstate(invalid="ignore"):
        return np.where((n >= 0) & (g < 1), np.pi * n / 30 * Dpw * (1 - np.square(g)) / 4, np.nan)


@cited(GEOMETRY, "roller cone and pitch cone of one apex")
def roller_half_angle(Dwe: Array, alpha: Array, Dpw: Array) -> Floats:
    """Half the cone angle of the rollers, so that they and both raceways meet in one apex.

    tan(beta) = (Dwe / Dpw) sin(alpha - beta)

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller diameter at mid-length [mm]
    alpha : contact angle [rad]
    Dpw : pitch diameter of the roller set [mm]

    Returns
    -------
    beta [rad]

    Valid for 0 < Dwe < Dpw, 0 < alpha < pi/2; NaN outside.

    Source: Geometry, roller cone and pitch cone of one apex; derived here: at a distance s from the apex both
    Dwe = 2 s tan(beta) and Dpw = 2 s sin(alpha - beta).
    """
    Dwe, alpha, Dpw = as_arrays(Dwe, alpha, Dpw)
    with np.errstate(all="ignore"):
        r = Dwe / Dpw
        inside = (r > 0) & (r < 1) & (alpha > 0) & (alpha < np.pi / 2)
        # the solution with sin(beta) on the left is within a percent; from there Newton
        beta = np.arctan(r * np.sin(alpha) / (1 + r * np.cos(alpha)))
        for _ in range(_HALF_ANGLE_STEPS):
            tan = np.tan(beta)
            beta = beta - (tan - r * np.sin(alpha - beta)) / (1 + tan * tan + r * np.cos(alpha - beta))
        return np.where(inside, beta, np.nan)
