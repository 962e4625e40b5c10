"""What to mind of the lubrication that no single demand against a capacity says."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from engine.lubrication.heat import SAID, SETTLED

if TYPE_CHECKING:
    from engine.checks.every import Evaluated
    from engine.operating import Conditions

SETTLED_CAUTION = (
    "Temperatures settle by a heat balance of one temperature for housing, bearings and oil; a measured one is better"
)
#: How a sentence begins that says of a side that its temperature does not settle.
UNSETTLED = "Temperature at"


def cautions(evaluated: Evaluated, conditions: Conditions) -> list[str]:
    """Return sentences: a cold start, doubtful cleanliness, a film that disagrees with kappa, unsettled heat."""
    found = []
    wet = conditions.resolved.lubricated
    if wet.coldest is not None and math.isfinite(wet.lubricant.T_least) and wet.coldest < wet.lubricant.T_least:
        found.append(
            f"Coldest start {wet.coldest:g} degC: {wet.lubricant.name} is good down to {wet.lubricant.T_least:g} degC"
        )
    found += wet.doubts
    if evaluated.contacts is not None:
        found += _films(evaluated, conditions)
    if evaluated.warmth is not None and evaluated.warmth.balance is not None:
        found += [*_unsettled(evaluated, conditions), SETTLED_CAUTION]
    return found


def _films(evaluated: Evaluated, conditions: Conditions) -> list[str]:
    """Say once a side where film and kappa disagree in a case that runs."""
    assert evaluated.contacts is not None
    running = conditions.cases.running
    words = {
        1.0: "is thicker than kappa says; kappa is the safer figure",
        -1.0: "is thinner than kappa says: mind wear, or take smoother surfaces or a thicker oil",
    }
    found = []
    for side, contact in zip("AB", evaluated.contacts, strict=True):
        said = np.broadcast_to(contact.film.said, (1, len(conditions.cases)))[0, running]
        found += [f"The film at {side} {text}" for sign, text in words.items() if (said == sign).any()]
    return found


def _unsettled(evaluated: Evaluated, conditions: Conditions) -> list[str]:
    assert evaluated.warmth is not None and evaluated.warmth.balance is not None
    found = []
    for side, balance in zip("AB", evaluated.warmth.balance, strict=True):
        status = np.broadcast_to(balance.status, (1, len(conditions.cases)))[0]
        for at in np.flatnonzero((status != SETTLED) & conditions.cases.running & conditions.settling).tolist():
            found.append(f"{UNSETTLED} {side}, {conditions.cases.names[at]}: {SAID[int(status[at])]}")
    return found
