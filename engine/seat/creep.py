"""Whether a ring creeps on its seat: the interference that a load asks for, and the torque that a seat holds."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import COMMON_PRACTICE, FIT_PRACTICE, GEOMETRY, cited

_MICROMETRE = 1e-3
#: Friction of steel on steel in a seat; DIN 7190-1 gives 0.08 to 0.2 by surface and oil; recalled.
FRICTION = 0.12


@cited(FIT_PRACTICE, "interference lost under a radial load")
def interference_against_creep(Fr: Array, d: Array, width: Array) -> Floats:
    """Interference that a ring needs so that a radial load going round does not make it creep.

    Delta_dF = 0.08 sqrt(d Fr/B) or, under heavy load, 0.02 Fr/B [um, N, mm], the larger of both

    Parameters (any broadcastable shapes)
    ----------
    Fr : radial load [N]
    d : diameter of the seat [mm]
    width : width of the ring [mm]

    Returns
    -------
    interference needed [mm]

    Valid for solid steel shafts and Fr >= 0; for cups in housings by common practice only; NaN outside.

    Source: Fit practice, interference lost under a radial load; recalled. Handbooks change from the first to the
    second at Fr = 0.25 C0; the larger of both is continuous and on the safe side.
    """
    Fr, d, width = as_arrays(Fr, d, width)
    valid = (Fr >= 0) & (d > 0) & (width > 0)
    with np.errstate(divide="ignore", invalid="ignore"):
        needed = np.maximum(0.08 * np.sqrt(d * Fr / width), 0.02 * Fr / width) * _MICROMETRE
    return np.where(valid, needed, np.nan)


@cited(GEOMETRY, "creep of a ring with play")
def creep_a_turn(effective: Array) -> Floats:
    """How far a ring with play creeps in its seat with each turn of a load that goes round it.

    s = pi max(-delta, 0)

    Parameters (any broadcastable shapes)
    ----------
    effective : diametral interference in operation; play is negative [mm]

    Returns
    -------
    s, the difference of both circumferences, by which the ring falls behind; 0 where there is no play [mm]

    Valid for round rings that roll on their seat without slipping.

    Source: Geometry, creep of a ring with play; two circles that roll on one another.
    """
    (effective,) = as_arrays(effective)
    return np.asarray(np.pi * np.maximum(-effective, 0.0))


@cited(COMMON_PRACTICE, "margin against creep")
def creep_margin(effective: Array, needed: Array) -> Floats:
    """How many times the interference in operation covers what the load asks for.

    margin = effective/needed; from 1 on the ring holds

    Parameters (any broadcastable shapes)
    ----------
    effective : interference in operation at the loose end; a clearance counts as none [mm]
    needed : interference against creep [mm]

    Returns
    -------
    margin [-]; infinite where nothing is needed

    Valid for needed >= 0; NaN outside.

    Source: Common practice, margin against creep; rule of the trade, no source.
    """
    effective, needed = as_arrays(effective, needed)
    with np.errstate(divide="ignore", invalid="ignore"):
        margin = np.where(needed > 0, np.maximum(effective, 0.0) / needed, np.inf)
    return np.where((needed >= 0) & ~np.isnan(effective), margin, np.nan)


@cited(COMMON_PRACTICE, "friction torque of a pressed joint")
def seat_torque(p: Array, d: Array, width: Array, mu: Array) -> Floats:
    """Torque at which a ring slips round on its seat.

    M = mu p pi d^2 B/2

    Parameters (any broadcastable shapes)
    ----------
    p : pressure in the seat [MPa]
    d : diameter of the seat [mm]
    width : width of the seat [mm]
    mu : friction coefficient [-]

    Returns
    -------
    M [N mm]

    Valid for an even pressure over the width.

    Source: Common practice, friction torque of a pressed joint; Coulomb friction, any textbook.
    """
    p, d, width, mu = as_arrays(p, d, width, mu)
    return np.asarray(mu * p * np.pi * np.square(d) * width / 2.0)
