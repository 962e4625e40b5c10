"""Checks that belong to two bearings together."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from engine.answers.resolved import Resolved
from engine.checks.check import Check, Outcome
from engine.numerics import Bools, Floats, Rows
from engine.pair import arrangement
from engine.rating import system
from engine.sources import COMMON_PRACTICE, Citation, citation_of

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: Load centres closer than this carry no moment; a real machine wants far more.
SPREAD_LEAST = 1.0

SPREAD = Check(
    "spread", "Load centres stay apart", "mm", citation_of(arrangement.effective_spread),
    "least spread", "effective spread", spare=False,
)  # fmt: skip
SYSTEM_LIFE = Check(
    "system_life", "Life of the pair", "h", citation_of(system.system_life),
    "required life", "life of both bearings as a system",
)  # fmt: skip
MASS = Check(
    "mass", "Mass of the pair", "kg", Citation(COMMON_PRACTICE, "envelope as answered"), "mass", "limit", spare=False
)
COST = Check(
    "cost", "Cost of the pair", "-", Citation(COMMON_PRACTICE, "envelope as answered"), "relative cost", "limit",
    spare=False,
)  # fmt: skip
SAME = Check(
    "same_on_both_sides", "Same bearing on both sides", "-", Citation(COMMON_PRACTICE, "envelope as answered"),
    "another bearing at B (1: yes)", "none", spare=False,
)  # fmt: skip


def spread(z_A: Floats, z_B: Floats) -> Outcome:
    """Return whether the load centres lie in the right order with some distance."""
    # a spread that is zero or negative has no capacity at all
    return Outcome(SPREAD, "pair", np.asarray(SPREAD_LEAST), np.maximum(arrangement.effective_spread(z_A, z_B), 0.0))


def system_life(life_A: Floats, life_B: Floats, resolved: Resolved) -> Outcome:
    """Return the life check of the pair as a system."""
    both = system.system_life(np.stack(np.broadcast_arrays(life_A, life_B), axis=-1))
    return Outcome(SYSTEM_LIFE, "pair", np.asarray(resolved.life), both)


def sums(A: Catalogue, B: Catalogue, resolved: Resolved) -> list[Outcome]:
    """Return the checks of mass and cost of both bearings together, each where a limit was answered.

    What the catalogue does not state is not known to keep a limit.
    """
    limits = ((MASS, A.mass, B.mass, resolved.mass), (COST, A.cost, B.cost, resolved.cost))
    return [
        Outcome(check, "pair", resolved.per_side * (of_A + of_B), np.asarray(limit))
        for check, of_A, of_B, limit in limits
        if limit is not None
    ]


def keep_sums(catalogue: Catalogue, rows_A: Rows, rows_B: Rows, resolved: Resolved) -> Bools:
    """Return which pairs of catalogue rows, of any shapes that go together, keep the limits on mass and cost."""
    kept = np.ones(np.broadcast_shapes(rows_A.shape, rows_B.shape), dtype=bool)
    for values, limit in ((catalogue.mass, resolved.mass), (catalogue.cost, resolved.cost)):
        if limit is not None:
            kept &= resolved.per_side * (values[rows_A] + values[rows_B]) <= limit
    return kept


def same(A: Catalogue, B: Catalogue, resolved: Resolved) -> list[Outcome]:
    """Return whether A and B are the same bearing, where that was asked for."""
    if not resolved.same_on_both_sides:
        return []
    return [Outcome(SAME, "pair", (A.designation != B.designation).astype(np.float64), np.asarray(0.0))]
