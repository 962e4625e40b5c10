"""Case-hardened or through-hardened: what the duty asks of the rings, and what each heat treatment offers.

Rules of the trade, common practice, no source: both treatments live about equally long in rolling contact; the soft
core of a case-hardened ring stops a crack under shock and lasting tension, and its hard surface wears better in dirt.
"""

import numpy as np

from engine.numerics import Array, Floats
from engine.sources import COMMON_PRACTICE, cited

#: Toughness grades: 1 a ring hard through its section, 2 a ring with a soft, tough core.
THROUGH_HARDENED = 1.0
CASE_HARDENED = 2.0


def reasons_for_case_hardening(shock: str, heavy_interference: bool, hollow_shaft: bool, dirt: str) -> tuple[str, ...]:
    """Return the reasons, in words, why case-hardened rings are called for; empty where either steel suits."""
    reasons = []
    if shock == "heavy":
        reasons.append("heavy shock: a soft core stops a crack")
    if heavy_interference:
        reasons.append("heavy interference fit: lasting tension in the cone")
    if hollow_shaft and shock != "none":
        reasons.append("hollow shaft with shock: the tighter fit adds tension to the shock")
    if dirt == "much":
        reasons.append("much abrasive dirt: the case wears better")
    return tuple(reasons)


@cited(COMMON_PRACTICE, "toughness grade")
def toughness_asked(reasons: int) -> float:
    """Toughness grade that the duty asks of the rings.

    2 (tough core) where there is any reason for case-hardening, else 1

    Parameters (a count)
    ----------
    reasons : how many reasons call for case-hardened rings [-]

    Returns
    -------
    grade [-]

    Valid as an order of two grades only; no value of fracture toughness is implied.

    Source: Common practice, toughness grade; rule of the trade, no source.
    """
    return CASE_HARDENED if reasons else THROUGH_HARDENED


@cited(COMMON_PRACTICE, "toughness grade of the steels")
def toughness_offered(case_hardened: Array) -> Floats:
    """Toughness grade that a ring offers by its heat treatment.

    2 for case-hardened, 1 for through-hardened

    Parameters (any shape)
    ----------
    case_hardened : whether the ring is case-hardened [-]

    Returns
    -------
    grade [-]

    Valid as an order of two grades only.

    Source: Common practice, toughness grade of the steels; rule of the trade, no source.
    """
    return np.where(np.asarray(case_hardened, dtype=bool), CASE_HARDENED, THROUGH_HARDENED)
