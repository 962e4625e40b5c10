"""Forces of masses: weight on an inclined shaft, and what is left of an unbalance."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import ISO_21940_11, STATICS, cited

#: Standard acceleration of gravity [m/s2], exact by definition.
GRAVITY = 9.80665
#: Balance quality grades of ISO 21940-11 Table 1 [mm/s] and machines that the table lists with them (recalled).
GRADES = {
    0.4: "gyroscopes, spindles of high precision",
    1.0: "grinding machine drives, tape recorders",
    2.5: "gas and steam turbines, electric motors above 950 rpm, machine tools",
    6.3: "fans, pumps, flywheels, electric motors, process machinery",
    16.0: "agricultural machinery, cardan shafts, crushers",
    40.0: "car wheels, wheel rims, drive shafts",
}


@cited(STATICS, "weight on an inclined shaft")
def weight_forces(m: Array, tilt: Array) -> tuple[Floats, Floats]:
    """Weight of a mass on a shaft that is tilted: across the shaft, and along it.

    G_r = m g cos(tilt); G_a = m g sin(tilt), g = 9.80665 m/s2

    Parameters (any broadcastable shapes)
    ----------
    m : mass [kg]
    tilt : of the shaft: 0 horizontal, pi/2 upright with B below, -pi/2 upright with A below [rad]

    Returns
    -------
    G_r, G_a [N]; G_a positive towards B

    Valid for m >= 0, -pi/2 <= tilt <= pi/2; NaN outside.

    Source: Statics, weight on an inclined shaft; any textbook.
    """
    m, tilt = as_arrays(m, tilt)
    inside = (m >= 0) & (np.abs(tilt) <= np.pi / 2)
    weight = m * GRAVITY
    return np.where(inside, weight * np.cos(tilt), np.nan), np.where(inside, weight * np.sin(tilt), np.nan)


@cited(ISO_21940_11, "clause 6.4, balance quality grade")
def permissible_eccentricity(G: Array, n: Array) -> Floats:
    """Residual eccentricity of the centre of mass that a balance quality grade permits at a speed.

    e_per = G / omega

    Parameters (any broadcastable shapes)
    ----------
    G : balance quality grade [mm/s]
    n : greatest service speed [rpm]

    Returns
    -------
    e_per [mm]

    Valid for G >= 0, n > 0, rotors that behave as rigid; NaN outside.

    Source: ISO 21940-11:2016, clause 6.4, balance quality grade; clause number recalled.
    """
    G, n = as_arrays(G, n)
    with np.errstate(all="ignore"):
        return np.where((G >= 0) & (n > 0), 30 * G / (np.pi * n), np.nan)


@cited(STATICS, "centrifugal force")
def unbalance_force(m: Array, e: Array, n: Array) -> Floats:
    """Force of an unbalance; it turns with the shaft.

    F = m e omega^2

    Parameters (any broadcastable shapes)
    ----------
    m : mass of the rotor [kg]
    e : eccentricity of its centre of mass [mm]
    n : speed [rpm]

    Returns
    -------
    F [N]

    Valid for m >= 0, e >= 0, n >= 0, well below the first bending critical speed; NaN outside.

    Source: Statics, centrifugal force; any textbook of mechanics.
    """
    m, e, n = as_arrays(m, e, n)
    inside = (m >= 0) & (e >= 0) & (n >= 0)
    return np.where(inside, 1e-3 * m * e * np.square(np.pi * n / 30), np.nan)
