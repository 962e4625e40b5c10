"""What shock asks of the toughness of a ring that stands under lasting tension."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import COMMON_PRACTICE, FRACTURE, cited

#: Depth of a surface flaw that a ring must stand [mm]: a grinding crack, a dent, a spall beginning; common practice.
FLAW = 0.5
_SHAPE = 1.12
#: mm to m under a square root.
_METRES = np.sqrt(1e-3)
#: Toughness of the core asked for whatever the fit, by shock [MPa sqrt(m)], and the factor on the tension where the
#: duty states none; common practice, no source.
FLOOR = {"none": 0.0, "moderate": 0.0, "heavy": 25.0}
FACTOR = {"none": 1.0, "moderate": 1.5, "heavy": 2.0}


@cited(FRACTURE, "stress intensity of a surface crack")
def stress_intensity(sigma: Array, depth: Array) -> Floats:
    """Stress intensity at a crack in the surface of a ring under tension.

    K = 1.12 sigma sqrt(pi a)

    Parameters (any broadcastable shapes)
    ----------
    sigma : tangential tension; compression opens no crack [MPa]
    depth : depth of the crack [mm]

    Returns
    -------
    K [MPa sqrt(m)]

    Valid for a crack much shallower than the wall of the ring and depth >= 0; NaN outside.

    Source: Fracture mechanics, stress intensity of a surface crack; textbook.
    """
    sigma, depth = as_arrays(sigma, depth)
    with np.errstate(invalid="ignore"):
        K = _SHAPE * np.maximum(sigma, 0.0) * np.sqrt(np.pi * depth) * _METRES
    return np.where(depth >= 0, K, np.nan)


@cited(FRACTURE, "tension that a surface crack stands")
def critical_tension(K: Array, depth: Array) -> Floats:
    """Tension at which a crack in the surface of a ring runs through.

    sigma = K/[1.12 sqrt(pi a)]

    Parameters (any broadcastable shapes)
    ----------
    K : fracture toughness [MPa sqrt(m)]
    depth : depth of the crack [mm]

    Returns
    -------
    sigma [MPa]

    Valid for a crack much shallower than the wall of the ring and depth > 0; NaN outside.

    Source: Fracture mechanics, tension that a surface crack stands; textbook.
    """
    K, depth = as_arrays(K, depth)
    with np.errstate(divide="ignore", invalid="ignore"):
        sigma = K / (_SHAPE * np.sqrt(np.pi * depth) * _METRES)
    return np.where(depth > 0, sigma, np.nan)


@cited(COMMON_PRACTICE, "toughness asked for under shock")
def toughness_demand(hoop: Array, factor: Array, floor: Array) -> Floats:
    """Fracture toughness that a ring's core must have.

    K of a flaw 0.5 mm deep under the tension of the fit times the shock factor, and no less than the floor of the shock

    Parameters (any broadcastable shapes)
    ----------
    hoop : greatest tangential tension of the fit [MPa]
    factor : shock factor, such as the application factor of the worst load case [-]
    floor : what heavy shock asks for whatever the fit [MPa sqrt(m)]

    Returns
    -------
    K [MPa sqrt(m)]

    Valid for factor >= 1; a smaller one counts as 1.

    Source: Common practice, toughness asked for under shock; depth of flaw and floor are rules of the trade, no source.
    """
    hoop, factor, floor = as_arrays(hoop, factor, floor)
    return np.maximum(stress_intensity(hoop * np.maximum(factor, 1.0), FLAW), floor)
