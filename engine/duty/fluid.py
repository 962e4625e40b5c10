"""Forces of fluids and of screws: impellers, pistons and rams, extruder and press screws."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import CENTRIFUGAL_PUMPS, COMMON_PRACTICE, MACHINE_DESIGN, STATICS, cited

#: Factor of the radial thrust in a plain volute at shut-off.
VOLUTE = 0.36
#: Share of the stage pressure that acts behind a closed impeller; common practice, no source.
BEHIND_IMPELLER = 0.75


@cited(CENTRIFUGAL_PUMPS, "radial thrust of a volute pump")
def impeller_radial_thrust(dp: Array, D2: Array, b2: Array, q: Array) -> Floats:
    """Radial force on the impeller of a pump with a plain volute.

    F = K dp D2 b2, K = 0.36 |1 - q^2|

    Parameters (any broadcastable shapes)
    ----------
    dp : pressure that the impeller makes at this flow, density times gravity times head [MPa]
    D2 : outside diameter of the impeller [mm]
    b2 : width at the outside, shrouds included [mm]
    q : flow over flow at the best efficiency [-]

    Returns
    -------
    F [N]

    Valid for dp, D2, b2 >= 0, 0 <= q <= 1.5; NaN outside. At q = 1 the formula gives none; a real volute leaves some.

    Source: Centrifugal and Axial Flow Pumps, radial thrust of a volute pump; recalled.
    """
    dp, D2, b2, q = as_arrays(dp, D2, b2, q)
    inside = (dp >= 0) & (D2 >= 0) & (b2 >= 0) & (q >= 0) & (q <= 1.5)
    return np.where(inside, VOLUTE * np.abs(1 - np.square(q)) * dp * D2 * b2, np.nan)


@cited(COMMON_PRACTICE, "axial thrust of a closed impeller")
def impeller_axial_thrust(dp: Array, D_ring: Array, d_shaft: Array, share: Array) -> Floats:
    """Axial force on a closed single-suction impeller without balancing, towards its suction.

    F = share dp (pi/4) (D_ring^2 - d_shaft^2)

    Parameters (any broadcastable shapes)
    ----------
    dp : pressure that the impeller makes [MPa]
    D_ring : diameter of the wear ring at the suction [mm]
    d_shaft : diameter of the shaft or of its sleeve at the seal [mm]
    share : of dp that acts behind the impeller; 0.75 is usual [-]

    Returns
    -------
    F [N]

    Valid for dp >= 0, D_ring >= d_shaft >= 0, 0 <= share <= 1; NaN outside. The change of momentum of the flow, which
    pushes the other way and is small beside it, is left out: the safe side.

    Source: Common practice, axial thrust of a closed impeller; no source.
    """
    dp, D_ring, d_shaft, share = as_arrays(dp, D_ring, d_shaft, share)
    inside = (dp >= 0) & (d_shaft >= 0) & (D_ring >= d_shaft) & (share >= 0) & (share <= 1)
    return np.where(inside, share * dp * np.pi / 4 * (np.square(D_ring) - np.square(d_shaft)), np.nan)


@cited(STATICS, "pressure on a circle")
def pressure_thrust(p: Array, D: Array) -> Floats:
    """Axial force of a pressure on a circle: a ram, a piston, or the screw of an extruder.

    F = p (pi/4) D^2

    Parameters (any broadcastable shapes)
    ----------
    p : pressure, that of an extruder before its die [MPa]
    D : diameter of the ram or of the barrel [mm]

    Returns
    -------
    F [N]

    Valid for p >= 0, D >= 0; NaN outside.

    Source: Statics, pressure on a circle; any textbook.
    """
    p, D = as_arrays(p, D)
    return np.where((p >= 0) & (D >= 0), p * np.pi / 4 * np.square(D), np.nan)


@cited(MACHINE_DESIGN, "chapter 8, torque to raise a load by a power screw")
def screw_thrust(T: Array, d_m: Array, lead: Array, mu: Array) -> Floats:
    """Axial force of a screw with square threads from the torque that drives it.

    F = (2 T / d_m) (pi d_m - mu lead) / (lead + pi mu d_m)

    Parameters (any broadcastable shapes)
    ----------
    T : torque on the thread, without that of a collar [N mm]
    d_m : mean diameter of the thread [mm]
    lead : advance in one turn [mm]
    mu : coefficient of friction of the thread [-]

    Returns
    -------
    F [N]

    Valid for T >= 0, d_m > 0, lead > 0, 0 <= mu < pi d_m / lead; NaN outside. With mu = 0 it is the safe side.

    Source: Mechanical Engineering Design, chapter 8, torque to raise a load by a power screw; recalled, solved here
    for the force.
    """
    T, d_m, lead, mu = as_arrays(T, d_m, lead, mu)
    around = np.pi * d_m
    inside = (T >= 0) & (d_m > 0) & (lead > 0) & (mu >= 0) & (mu * lead < around)
    with np.errstate(all="ignore"):
        return np.where(inside, 2 * T / d_m * (around - mu * lead) / (lead + mu * around), np.nan)
