"""What one pair comes to under some answers, in the few figures by which lubrication is judged."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.answers.document import Answers
from engine.answers.resolved import resolve
from engine.checks.every import Evaluated, evaluate
from engine.checks.loads import over_running
from engine.checks.lubrication import grease_interval
from engine.lubrication.lubricant import FLOWING
from engine.numerics import Floats, greatest, least
from engine.operating import Conditions
from engine.rating import system
from engine.warmth.contact import flows_needed

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


@dataclass(frozen=True)
class Standing:
    """One pair under some answers: the worse of both bearings over the cases that run.

    kappa least and greatest [-]; life [h] that the requirement is held against; T [deg C] greatest, NaN where none
    settles; interval [h] of regreasing, infinite with oil; flow [l/min] of oil that holds the temperature asked for;
    rib [m/s] greatest mean speed; heat [W] of friction in the hardest case.
    """

    evaluated: Evaluated
    conditions: Conditions
    kappa: float
    kappa_most: float
    e_C: float
    life: float
    T: float
    interval: float
    flow: float
    rib: float
    heat: float


def standing(answers: Answers, A: Catalogue, B: Catalogue) -> Standing | None:
    """Return how a pair, given as catalogues of one row each, stands; None while loads are not known."""
    conditions = Conditions.of(resolve(answers))
    if not conditions.resolved.loads_known:
        return None
    found = evaluate(A, B, conditions)
    assert found.bearings is not None and found.states is not None
    assert found.warmth is not None and found.contacts is not None
    lives = np.array([state.life[0] for state in found.states])
    over = _Over(conditions)
    flowing = conditions.resolved.supply in FLOWING
    return Standing(
        found,
        conditions,
        kappa=over.least(*(rows.kappa for rows in found.bearings)),
        kappa_most=over.most(*(rows.kappa for rows in found.bearings)),
        e_C=over.least(*(rows.e_C for rows in found.bearings)),
        life=float(system.system_life(lives)) if conditions.resolved.life_of_pair else float(lives.min()),
        T=over.most(*found.warmth.T),
        interval=min(_interval(found, conditions)),
        flow=over.most(*flows_needed(found.contacts, conditions)) if flowing else 0.0,
        rib=over.most(*(contact.rib_speed for contact in found.contacts)),
        heat=over.most(found.contacts[0].power + found.contacts[1].power),
    )


def _interval(found: Evaluated, conditions: Conditions) -> list[float]:
    assert found.contacts is not None
    return [
        float("inf") if contact.interval is None else float(grease_interval(contact, conditions)[0])
        for contact in found.contacts
    ]


class _Over:
    """Reduces figures of (1, k) or (k,) over both bearings and the cases that run."""

    def __init__(self, conditions: Conditions) -> None:
        self.conditions = conditions

    def least(self, *values: Floats) -> float:
        return float(np.min([np.ravel(over_running(np.atleast_2d(v), self.conditions, least, np.inf)) for v in values]))

    def most(self, *values: Floats) -> float:
        return float(np.max([np.ravel(over_running(np.atleast_2d(v), self.conditions, greatest, 0.0)) for v in values]))
