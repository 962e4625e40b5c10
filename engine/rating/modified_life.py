"""Life modification factor of ISO 281 for radial roller bearings."""

import numpy as np
from numpy.typing import ArrayLike

from engine.numerics import Array, Floats, as_arrays
from engine.sources import ISO_281, cited

KAPPA_LEAST = 0.1
KAPPA_GREATEST = 4.0
A_ISO_GREATEST = 50.0
EP_A_ISO_GREATEST = 3.0
EP_E_C_LEAST = 0.2


@cited(ISO_281, "clause 9.3.3.4, equations (34) to (36)")
def a_iso(kappa: Array, e_C: Array, Cu: Array, P: Array) -> Floats:
    """Life modification factor of a radial roller bearing.

    a_ISO = 0.1 [1 - (1.5859 - A / kappa^p) (e_C Cu / P)^0.4]^(-9.185), at most 50, with
    A = 1.3993, p = 0.054381 for 0.1 <= kappa < 0.4; A = 1.2348, p = 0.19087 for 0.4 <= kappa < 1;
    A = 1.2348, p = 0.071739 for 1 <= kappa <= 4.

    Parameters (any broadcastable shapes)
    ----------
    kappa : viscosity ratio [-]; above 4 the value at 4 is used, below 0.1 the method gives no value (NaN)
    e_C : contamination factor [-]
    Cu : fatigue load limit [N]
    P : equivalent dynamic load [N]; at P = 0 the factor is 50 (with e_C > 0)

    Returns
    -------
    a_ISO [-]

    Valid for 0.1 <= kappa, 0 <= e_C <= 1, Cu > 0, P >= 0; NaN outside.

    Source: ISO 281:2007, clause 9.3.3.4, equations (34) to (36); constants read in open code that cites them,
    clause numbers recalled.
    """
    kappa, e_C, Cu, P = as_arrays(kappa, e_C, Cu, P)
    inside = (kappa >= KAPPA_LEAST) & (e_C >= 0) & (e_C <= 1) & (Cu > 0) & (P >= 0)
    k = np.minimum(kappa, KAPPA_GREATEST)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        # equations (34), (35) and (36)
        thin, middle = k < 0.4, k < 1.0
        p = np.where(thin, 0.054381, np.where(middle, 0.19087, 0.071739))
        base = 1.5859 - np.where(thin, 1.3993, 1.2348) / np.power(k, p)
        # 0/0 (e_C = 0, all dirt, and no load) stays the worst case, not an unknown one
        ratio = np.where(e_C > 0, e_C * Cu / P, 0.0)
        bracket = 1.0 - base * np.power(ratio, 0.4)
        factor = np.where(bracket > 0, 0.1 * np.power(bracket, -9.185), A_ISO_GREATEST)
    # at kappa = 0.1 the printed constants make `base` a hair negative, which would turn no load into no life
    factor = np.where((P == 0) & (e_C > 0), A_ISO_GREATEST, np.minimum(factor, A_ISO_GREATEST))
    return np.where(inside, factor, np.nan)


@cited(ISO_281, "clause 9.3.3, lubricants with EP additives")
def a_iso_with_ep(kappa: Array, e_C: Array, Cu: Array, P: Array, ep: ArrayLike) -> Floats:
    """Life modification factor where the lubricant carries extreme-pressure additives of proven effect.

    For kappa < 1 and e_C >= 0.2: a_ISO as at kappa = 1, but at most 3, and never less than without the additives.
    Otherwise a_ISO as without them.

    Parameters (any broadcastable shapes)
    ----------
    kappa : viscosity ratio [-]
    e_C : contamination factor [-]
    Cu : fatigue load limit [N]
    P : equivalent dynamic load [N]
    ep : whether the lubricant carries such additives, true or false [-]

    Returns
    -------
    a_ISO [-]

    Valid for 0.1 <= kappa, 0 <= e_C <= 1, Cu > 0, P >= 0; NaN outside, with additives or without.

    Source: ISO 281:2007, clause 9.3.3, lubricants with EP additives; rule read in open code, clause number recalled.
    """
    plain = a_iso(kappa, e_C, Cu, P)
    kappa, e_C = as_arrays(kappa, e_C)
    applies = np.asarray(ep, dtype=bool) & (kappa < 1.0) & (e_C >= EP_E_C_LEAST)
    if not np.any(applies):  # the usual case, and half of the work
        return plain
    helped = np.maximum(plain, np.minimum(a_iso(1.0, e_C, Cu, P), EP_A_ISO_GREATEST))
    return np.where(applies, helped, plain)
