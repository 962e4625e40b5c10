"""Rollers and raceways of one apex: half angle, contact circles, load centre."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import GEOMETRY, cited

_NEWTON_STEPS = 6


@cited(GEOMETRY, "roller cone and pitch cone of one apex")
def roller_half_angle_nu(Dwe: Array, Dpw: Array, alpha: Array) -> Floats:
    """Half the cone angle of the rollers, so that they and both raceways meet in one apex on the bearing axis.

    tan(nu) = (Dwe / Dpw) sin(alpha - nu)

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller mean diameter [mm]
    Dpw : pitch diameter of the roller set [mm]
    alpha : contact angle [rad]

    Returns
    -------
    nu [rad]

    Valid for 0 < Dwe < Dpw, 0 <= alpha < pi/2; NaN outside.

    Source: Geometry, roller cone and pitch cone of one apex; derived here: at a distance s from the apex both
    Dwe = 2 s tan(nu) and Dpw = 2 s sin(alpha - nu).
    """
    Dwe, Dpw, alpha = as_arrays(Dwe, Dpw, alpha)
    with np.errstate(all="ignore"):
        ratio = Dwe / Dpw
        valid = (ratio > 0) & (ratio < 1) & (alpha >= 0) & (alpha < np.pi / 2)
        nu = ratio * np.sin(alpha)
        # a fixed number of Newton steps, so that a scalar and a column walk the same way
        for _ in range(_NEWTON_STEPS):
            miss = np.tan(nu) - ratio * np.sin(alpha - nu)
            nu = nu - miss / (1 + np.square(np.tan(nu)) + ratio * np.cos(alpha - nu))
    return np.where(valid, nu, np.nan)


@cited(GEOMETRY, "contact circle at the cup")
def cup_contact_radius(Dwe: Array, Dpw: Array, alpha: Array) -> Floats:
    """Radius of the circle on which the roller middles touch the cup.

    r = Dpw/2 + (Dwe/2) cos(alpha - nu)

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller mean diameter [mm]
    Dpw : pitch diameter of the roller set [mm]
    alpha : contact angle [rad]

    Returns
    -------
    r [mm]

    Valid for 0 < Dwe < Dpw, 0 <= alpha < pi/2; NaN outside.

    Source: Geometry, contact circle at the cup; derived here.
    """
    Dwe, Dpw, alpha = as_arrays(Dwe, Dpw, alpha)
    return Dpw / 2 + Dwe / 2 * np.cos(alpha - roller_half_angle_nu(Dwe, Dpw, alpha))


@cited(GEOMETRY, "contact circle at the cup")
def cup_raceway_diameter_E(Dwe: Array, Dpw: Array, alpha: Array) -> Floats:
    """Mean diameter of the cup raceway: of the circle on which the roller middles touch the cup.

    E = Dpw + Dwe cos(alpha - nu)

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller mean diameter [mm]
    Dpw : pitch diameter of the roller set [mm]
    alpha : contact angle [rad]

    Returns
    -------
    E [mm]

    Valid for 0 < Dwe < Dpw, 0 <= alpha < pi/2; NaN outside.

    Source: Geometry, contact circle at the cup; derived here.
    """
    return 2 * cup_contact_radius(Dwe, Dpw, alpha)


@cited(GEOMETRY, "contact circle at the cone")
def cone_raceway_diameter_F(Dwe: Array, Dpw: Array, alpha: Array) -> Floats:
    """Mean diameter of the cone raceway: of the circle on which the roller middles touch the cone.

    F = Dpw - Dwe cos(alpha - nu)

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller mean diameter [mm]
    Dpw : pitch diameter of the roller set [mm]
    alpha : contact angle [rad]

    Returns
    -------
    F [mm]

    Valid for 0 < Dwe < Dpw, 0 <= alpha < pi/2; NaN outside.

    Source: Geometry, contact circle at the cone; derived here.
    """
    Dwe, Dpw, alpha = as_arrays(Dwe, Dpw, alpha)
    return Dpw - Dwe * np.cos(alpha - roller_half_angle_nu(Dwe, Dpw, alpha))


@cited(GEOMETRY, "load line through the middle of the cup contact")
def load_centre_distance_a(T: Array, C: Array, Dwe: Array, Dpw: Array, alpha: Array) -> Floats:
    """Distance from the cone back face to the effective load centre, where the load lines meet the axis.

    a = z - r tan(alpha), z = T - C/2 the middle of the cup contact, r its radius

    Parameters (any broadcastable shapes)
    ----------
    T : width of the assembly [mm]
    C : width of the cup [mm]
    Dwe : roller mean diameter [mm]
    Dpw : pitch diameter of the roller set [mm]
    alpha : contact angle [rad]

    Returns
    -------
    a, positive into the bearing towards the small roller ends, negative beyond the back face [mm]

    Valid for 0 < Dwe < Dpw, 0 <= alpha < pi/2, rollers in the middle of the cup; NaN outside.

    Source: Geometry, load line through the middle of the cup contact; derived here.
    """
    T, C, alpha = as_arrays(T, C, alpha)
    return T - C / 2 - cup_contact_radius(Dwe, Dpw, alpha) * np.tan(alpha)
