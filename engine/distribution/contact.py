"""One roller between cone, cup and rib: its spring, its profile, its pressure, and the force on the rib."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import GEOMETRY, HERTZ, ISO_TS_16281, STATICS, cited

#: Exponent of the load-deflection line of a roller.
EXPONENT = 10 / 9
#: Factor of the tapered roller's profile, per roller diameter.
LOG_PROFILE = 0.00045
#: Elastic modulus [MPa] and Poisson's ratio of bearing steel, common values.
E_STEEL, POISSON = 206_000.0, 0.3


@cited(ISO_TS_16281, "spring constant of a roller with line contact")
def cL(Lwe: Array) -> Floats:
    """Spring constant of a steel roller between both raceways, Q = cL delta^(10/9).

    cL = 35948 Lwe^(8/9)

    Parameters (any shape)
    ----------
    Lwe : effective contact length [mm]

    Returns
    -------
    cL, for Q in N and the approach of both raceways together in mm [-]

    Valid for Lwe > 0, steel on steel; NaN outside.

    Source: ISO/TS 16281:2008, spring constant of a roller with line contact; formula read in open code.
    """
    (Lwe,) = as_arrays(Lwe)
    with np.errstate(invalid="ignore"):
        return np.where(Lwe > 0, 35948 * np.power(Lwe, 8 / 9), np.nan)


@cited(ISO_TS_16281, "load-deflection line of a roller with line contact")
def roller_load(delta: Array, Lwe: Array) -> Floats:
    """Load of a roller that both raceways approach evenly along its length.

    Q = cL max(delta, 0)^(10/9)

    Parameters (any broadcastable shapes)
    ----------
    delta : approach of both raceways together [mm]
    Lwe : effective contact length [mm]

    Returns
    -------
    Q [N]

    Valid for Lwe > 0; NaN outside.

    Source: ISO/TS 16281:2008, load-deflection line of a roller with line contact; formula read in open code.
    """
    delta, Lwe = as_arrays(delta, Lwe)
    return cL(Lwe) * np.power(np.maximum(delta, 0.0), EXPONENT)


def lamina_middles(Lwe: float, laminae: int) -> Floats:
    """Return the middles of the laminae along the roller, x = (k - ns/2 + 1/2) Lwe/ns, small end first [mm]."""
    return (np.arange(laminae) - laminae / 2 + 0.5) * Lwe / laminae


def profile_shape(xi: Floats) -> Floats:
    """Return the logarithm of the tapered roller's profile, ln(1/(1 - xi^2)), xi from -1 to 1 over the length."""
    return -np.log1p(-np.square(xi))


@cited(ISO_TS_16281, "profile of tapered rollers, equation (44)")
def profile(x: Array, Dwe: Array, Lwe: Array) -> Floats:
    """Drop of a tapered roller's profile, logarithmic along its length.

    P(x) = 0.00045 Dwe ln[1/(1 - (2x/Lwe)^2)]

    Parameters (any broadcastable shapes)
    ----------
    x : place along the roller, from its middle [mm]
    Dwe : roller mean diameter [mm]
    Lwe : effective contact length [mm]

    Returns
    -------
    P [mm]

    Valid for |x| < Lwe/2, Dwe > 0; NaN outside.

    Source: ISO/TS 16281:2008, profile of tapered rollers, equation (44); formula and number read in open code.
    """
    x, Dwe, Lwe = as_arrays(x, Dwe, Lwe)
    with np.errstate(divide="ignore", invalid="ignore"):
        xi = 2 * x / Lwe
        inside = (np.abs(xi) < 1) & (Dwe > 0) & (Lwe > 0)
        return np.where(inside, LOG_PROFILE * Dwe * profile_shape(np.where(inside, xi, 0.0)), np.nan)


@cited(ISO_TS_16281, "edge stress function, equation (60)")
def edge_function(k: Array, laminae: Array) -> Floats:
    """Factor by which the load of a lamina counts more towards the roller ends.

    f(k) = 1 - 0.01 / ln(1.985 |2k - ns - 1| / (2 ns - 2))

    Parameters (any broadcastable shapes)
    ----------
    k : number of the lamina, from 1 [-]
    laminae : number of laminae ns [-]

    Returns
    -------
    f [-]; 1 at the very middle of an odd number of laminae

    Valid for 1 <= k <= ns, ns >= 2; NaN outside.

    Source: ISO/TS 16281:2008, edge stress function, equation (60); formula and number read in open code.
    """
    k, ns = as_arrays(k, laminae)
    inside = (k >= 1) & (k <= ns) & (ns >= 2)
    with np.errstate(divide="ignore", invalid="ignore"):
        place = 1.985 * np.abs(2 * k - ns - 1) / (2 * ns - 2)
        return np.where(inside, 1 - 0.01 / np.log(place), np.nan)


@cited(STATICS, "equilibrium of a tapered roller between cup, cone and rib")
def rib_force(Q_o: Array, nu: Array, epsilon: Array = 0.0) -> Floats:
    """Force of the cone's large rib on the end of a roller that its two raceways squeeze out.

    Q_f = Q_o sin(2 nu) / cos(epsilon)

    Parameters (any broadcastable shapes)
    ----------
    Q_o : load of the roller at the cup [N]
    nu : half angle of the roller's cone [rad]
    epsilon : angle between the rib's force and the cone raceway; 0 where they meet at a right angle [rad]

    Returns
    -------
    Q_f [N]

    Valid for Q_o >= 0, 0 <= nu < pi/4, |epsilon| < pi/2, without friction; NaN outside.

    Source: Statics, equilibrium of a tapered roller between cup, cone and rib; derived here.
    """
    Q_o, nu, epsilon = as_arrays(Q_o, nu, epsilon)
    inside = (Q_o >= 0) & (nu >= 0) & (nu < np.pi / 4) & (np.abs(epsilon) < np.pi / 2)
    return np.where(inside, Q_o * np.sin(2 * nu) / np.cos(epsilon), np.nan)


@cited(STATICS, "equilibrium of a tapered roller between cup, cone and rib")
def cone_load(Q_o: Array, nu: Array, epsilon: Array = 0.0) -> Floats:
    """Load of a roller at the cone, when it is loaded by the cup and held by the cone's large rib.

    Q_i = Q_o [cos(2 nu) + sin(2 nu) tan(epsilon)]

    Parameters (any broadcastable shapes)
    ----------
    Q_o : load of the roller at the cup [N]
    nu : half angle of the roller's cone [rad]
    epsilon : angle between the rib's force and the cone raceway [rad]

    Returns
    -------
    Q_i [N]

    Valid for Q_o >= 0, 0 <= nu < pi/4, |epsilon| < pi/2, without friction; NaN outside.

    Source: Statics, equilibrium of a tapered roller between cup, cone and rib; derived here.
    """
    Q_o, nu, epsilon = as_arrays(Q_o, nu, epsilon)
    inside = (Q_o >= 0) & (nu >= 0) & (nu < np.pi / 4) & (np.abs(epsilon) < np.pi / 2)
    return np.where(inside, Q_o * (np.cos(2 * nu) + np.sin(2 * nu) * np.tan(epsilon)), np.nan)


@cited(GEOMETRY, "curvature of roller and raceway in the plane of rolling")
def curvature_sum(Dwe: Array, Dpw: Array, alpha: Array, nu: Array, ring: int) -> Floats:
    """Sum of curvatures of a tapered roller and its raceway at the middle of the contact.

    rho = 2 cos(nu) / Dwe + ring 2 cos(angle) / d, cone: ring = +1, angle = alpha - 2 nu, d = Dpw - Dwe cos(alpha - nu);
    cup: ring = -1, angle = alpha, d = Dpw + Dwe cos(alpha - nu)

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller mean diameter [mm]
    Dpw : pitch diameter of the roller set [mm]
    alpha : contact angle, that of the cup [rad]
    nu : half angle of the roller's cone [rad]
    ring : +1 for the cone, -1 for the cup [-]

    Returns
    -------
    rho [-] (per mm)

    Valid for 0 < Dwe < Dpw; NaN outside.

    Source: Geometry, curvature of roller and raceway in the plane of rolling; derived here.
    """
    Dwe, Dpw, alpha, nu = as_arrays(Dwe, Dpw, alpha, nu)
    inside = (Dwe > 0) & (Dwe < Dpw)
    angle = alpha - 2 * nu if ring > 0 else alpha
    with np.errstate(divide="ignore", invalid="ignore"):
        d = Dpw - ring * Dwe * np.cos(alpha - nu)
        return np.where(inside, 2 * np.cos(nu) / Dwe + ring * 2 * np.cos(angle) / d, np.nan)


@cited(HERTZ, "line contact of two cylinders")
def line_pressure(w: Array, rho: Array) -> Floats:
    """Greatest pressure of a line contact between steel bodies.

    p = sqrt(w E rho / (2 pi (1 - nu^2))), E = 206 000 MPa, nu = 0.3

    Parameters (any broadcastable shapes)
    ----------
    w : load per length [N]
    rho : sum of curvatures [-]

    Returns
    -------
    p [MPa]; w is N per mm, rho per mm

    Valid for w >= 0, rho > 0; NaN outside.

    Source: Hertz, line contact of two cylinders; any handbook of contact mechanics.
    """
    w, rho = as_arrays(w, rho)
    inside = (w >= 0) & (rho > 0)
    squared = np.where(inside, w * rho * E_STEEL / (2 * np.pi * (1 - POISSON**2)), 0.0)
    return np.where(inside, np.sqrt(squared), np.nan)
