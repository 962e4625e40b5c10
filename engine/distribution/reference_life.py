"""Reference rating life: the life of every lamina of both rings under the load it really carries.

L10r is not L10 = (C/P)^(10/3) said again. The rating C has a factor lambda nu = 0.83 in it for uneven load along the
roller and at its ends, and the exponent 10/3 allows for it at larger loads; the lamina ratings leave both out and count
with the exponent 4, since profile, tilt and edges are computed. With half the rollers loaded, no tilt and an even load
along the roller L10r = (C/(0.83 P))^4; the standard's profile and edge function take their share from that.
"""

from dataclasses import dataclass

import numpy as np

from engine.distribution import contact
from engine.distribution.load_zone import LoadZone
from engine.distribution.rollers import LAMINAE, RollerSet
from engine.numerics import Array, Floats, as_arrays
from engine.rating.dynamic import LAMBDA_NU
from engine.rating.geometry import gamma as gamma_of
from engine.rating.modified_life import a_iso_with_ep
from engine.sources import ISO_16281, ISO_TS_16281, cited

#: Exponents over the rollers: of the ring that turns against the load, and of the one that stands.
_TURNING, _STANDING = 4.0, 4.5
#: Rings by name, as words for which of them turns against the load.
CONE, CUP = "cone", "cup"


@dataclass(frozen=True)
class Film:
    """What lubricant and reliability do to the life, one figure a case or one for all."""

    kappa: Array = np.nan  # viscosity ratio [-]
    e_C: Array = 1.0  # contamination factor [-]
    a1: Array = 1.0  # life modification factor for reliability [-]
    ep: bool = False  # whether the lubricant carries extreme-pressure additives of proven effect


@dataclass(frozen=True)
class ReferenceLife:
    """Lives of a bearing [million revolutions]; leading axes are those of the load zone."""

    L10r: Floats
    Lnmr: Floats  # NaN where the film is not known
    P_ref: Floats  # equal reference load, that of the basic rating life with the same L10r [N]


@cited(ISO_TS_16281, "dynamic load ratings of a bearing lamina, equations (47) to (57)")
def lamina_rating(Cr: Array, Z: Array, alpha: Array, gamma: Array, ring: int) -> Floats:
    """Dynamic load rating of one lamina of a ring.

    q_c = Cr / (A lambda nu Z cos(alpha)) {1 + [1.038 ((1 - gamma)/(1 + gamma))^(143/108)]^(B 9/2)}^(2/9) ns^(-7/9);
    cone: A = 0.378, B = +1; cup: A = 0.364, B = -1; lambda nu = 0.83, one row, ns = 30

    Parameters (any broadcastable shapes)
    ----------
    Cr : basic dynamic radial load rating [N]
    Z : number of rollers [-]
    alpha : contact angle [rad]
    gamma : Dwe cos(alpha) / Dpw [-]
    ring : +1 for the cone, -1 for the cup [-]

    Returns
    -------
    q_c [N]

    Valid for Cr > 0, Z > 0, 0 <= alpha < pi/2, 0 < gamma < 1; NaN outside.

    Source: ISO/TS 16281:2008, dynamic load ratings of a bearing lamina, equations (47) to (57); formula and numbers
    read in open code.
    """
    Cr, Z, alpha, gamma = as_arrays(Cr, Z, alpha, gamma)
    inside = (Cr > 0) & (Z > 0) & (alpha >= 0) & (alpha < np.pi / 2) & (gamma > 0) & (gamma < 1)
    A = 0.378 if ring > 0 else 0.364
    with np.errstate(divide="ignore", invalid="ignore"):
        bracket = np.power(1.038 * np.power((1 - gamma) / (1 + gamma), 143 / 108), ring * 4.5)
        Q_c = Cr / (A * LAMBDA_NU * Z * np.cos(alpha)) * np.power(1 + bracket, 2 / 9)
        return np.where(inside, Q_c * float(LAMINAE) ** (-7 / 9), np.nan)


@cited(ISO_TS_16281, "dynamic equivalent load of a lamina, equations (61) to (64)")
def lamina_equivalent_load(q: Array, turning: bool, edges: bool = True) -> Floats:
    """Dynamic equivalent load on every lamina of a ring, over all rollers.

    q_k = [(1/Z) sum_j (f_k q_jk)^p]^(1/p), p = 4 for the ring that turns against the load, 4.5 for the one that stands

    Parameters (rollers along the last axis but one, laminae along the last)
    ----------
    q : load of every lamina of every roller [N]
    turning : whether the ring turns against the load, true or false [-]
    edges : whether the edge function f_k counts; without it, f_k = 1 [-]

    Returns
    -------
    q_k [N], without the axis of the rollers

    Valid for loads that are not negative; NaN outside.

    Source: ISO/TS 16281:2008, dynamic equivalent load of a lamina, equations (61) to (64); formula and numbers read in
    open code.
    """
    (q,) = as_arrays(q)
    laminae = q.shape[-1]
    f = contact.edge_function(np.arange(1, laminae + 1), laminae) if edges else 1.0
    fourth = np.square(np.square(q))
    exponent = _TURNING if turning else _STANDING
    with np.errstate(invalid="ignore"):
        powers = fourth if turning else fourth * np.sqrt(q)
        mean = np.power(np.mean(powers, axis=-2), 1 / exponent)
    return np.where(np.all(q >= 0, axis=-2), f * mean, np.nan)


@cited(ISO_TS_16281, "basic reference rating life, equation (65)")
def basic_reference_life_L10r(q_i: Array, q_e: Array, q_ci: Array, q_ce: Array) -> Floats:
    """Life that 90 % of bearings reach under the loads of their laminae.

    L10r = {sum_k [(q_ki/q_ci)^(9/2) + (q_ke/q_ce)^(9/2)]}^(-8/9)

    Parameters (laminae along the last axis; ratings broadcast)
    ----------
    q_i : dynamic equivalent load of every lamina at the cone [N]
    q_e : the same at the cup [N]
    q_ci : rating of a lamina at the cone [N]
    q_ce : the same at the cup [N]

    Returns
    -------
    L10r [million revolutions]; infinite at no load

    Valid for loads that are not negative, ratings > 0; NaN outside.

    Source: ISO/TS 16281:2008, basic reference rating life, equation (65); formula and number read in open code.
    """
    damage = np.sum(_damage(q_i, q_e, q_ci, q_ce), axis=-1)
    with np.errstate(divide="ignore", over="ignore"):
        return np.power(damage, -8 / 9)


@cited(ISO_16281, "equation (31), equivalent load of a lamina")
def lamina_bearing_load_P_s(rollers: RollerSet, q_i: Array, q_e: Array) -> Floats:
    """Load on the bearing for which its lamina is loaded like this one; it enters the life modification factor.

    P_sk = 0.323 Z cos(alpha) ns {[q_ki^4.5 + (1.038 (q_ci/q_ce) q_ke)^4.5] / [1 + (1.038 q_ci/q_ce)^4.5]}^(2/9)

    Parameters (laminae along the last axis)
    ----------
    rollers : the roller set, of which Z, alpha and the ratings are used [-, rad, N]
    q_i : dynamic equivalent load of every lamina at the cone [N]
    q_e : the same at the cup [N]

    Returns
    -------
    P_sk [N]

    Valid for loads that are not negative; NaN outside. Under an even half load zone it reads 0.86 of the radial load.

    Source: ISO 16281:2025, equation (31), equivalent load of a lamina; formula and number read in open code.
    """
    q_i, q_e = as_arrays(q_i, q_e)
    ratio = 1.038 * _rating(rollers, 1) / _rating(rollers, -1)
    with np.errstate(invalid="ignore"):
        mean = (np.power(q_i, 4.5) + np.power(ratio * q_e, 4.5)) / (1 + np.power(ratio, 4.5))
        return 0.323 * rollers.Z * np.cos(rollers.alpha) * q_i.shape[-1] * np.power(mean, 2 / 9)


@cited(ISO_16281, "equation (33), modified reference rating life")
def modified_reference_life_Lnmr(damage: Array, a_iso: Array, a1: Array) -> Floats:
    """Life at another reliability and with the film of every lamina.

    Lnmr = a1 {sum_k a_ISO,k^(-9/8) [(q_ki/q_ci)^(9/2) + (q_ke/q_ce)^(9/2)]}^(-8/9)

    Parameters (laminae along the last axis of the first two)
    ----------
    damage : the bracket of every lamina [-]
    a_iso : life modification factor of every lamina [-]
    a1 : life modification factor for reliability [-]

    Returns
    -------
    Lnmr [million revolutions]; infinite at no load

    Valid for a_iso > 0, a1 >= 0; NaN outside.

    Source: ISO 16281:2025, equation (33), modified reference rating life; formula and number read in open code.
    """
    damage, a_iso, a1 = as_arrays(damage, a_iso, a1)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        total = np.sum(np.where(a_iso > 0, damage * np.power(a_iso, -9 / 8), np.nan), axis=-1)
        return np.where(a1 >= 0, a1 * np.power(total, -8 / 9), np.nan)


def reference_life(zone: LoadZone, film: Film | None = None, turning: str = CONE) -> ReferenceLife:
    """Return the lives of a bearing under its load zone; `turning` is the ring that turns against the load."""
    rollers = zone.rollers
    q_i = lamina_equivalent_load(zone.q, turning == CONE)
    q_e = lamina_equivalent_load(zone.q, turning == CUP)
    damage = _damage(q_i, q_e, _rating(rollers, 1), _rating(rollers, -1))
    with np.errstate(divide="ignore", over="ignore"):
        L10r = np.power(np.sum(damage, axis=-1), -8 / 9)
        P_ref = rollers.Cr * np.power(L10r, -0.3)
    film = film or Film()
    kappa, e_C, a1 = (np.asarray(one)[..., None] for one in as_arrays(film.kappa, film.e_C, film.a1))
    P_s = lamina_bearing_load_P_s(rollers, q_i, q_e)
    a_iso = a_iso_with_ep(kappa, e_C, rollers.Cu, P_s, film.ep)
    return ReferenceLife(L10r, modified_reference_life_Lnmr(damage, a_iso, a1[..., 0]), P_ref)


def _rating(rollers: RollerSet, ring: int) -> Floats:
    gamma = gamma_of(rollers.Dwe, rollers.alpha, rollers.Dpw)
    return lamina_rating(rollers.Cr, rollers.Z, rollers.alpha, gamma, ring)


def _damage(q_i: Array, q_e: Array, q_ci: Array, q_ce: Array) -> Floats:
    q_i, q_e, q_ci, q_ce = as_arrays(q_i, q_e, q_ci, q_ce)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        return np.power(q_i / q_ci, 4.5) + np.power(q_e / q_ce, 4.5)
