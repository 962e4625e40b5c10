"""The best of the passing pairs by several things at once, each weighed by the user, and which of them no other beats.

Every criterion that is weighed makes the score grow, strictly. A pair that is as good as another in all of them and
better in one therefore has the lower score: whatever dominates a listed pair is listed before it, so that looking
through the list is enough to say which of its pairs no passing pair dominates.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from engine.answers.document import questions_of
from engine.checks import every
from engine.checks.every import Evaluated, evaluate
from engine.numerics import Bools, Floats, Rows
from engine.operating import Conditions, Loads
from engine.rating.system import SLOPE
from engine.selection import criteria, rank
from engine.selection.criteria import OfParts
from engine.selection.rank import Shortlist, first_that_pass, governing_life
from engine.selection.screen import Screening
from engine.selection.stages.blocks import Cancelled, blocks, go_on, never
from engine.selection.stages.groups import grouped_bounds
from engine.selection.stages.leaders import leading, leading_by_bound
from engine.selection.stages.side import Side
from engine.warmth.settling import Warmth, loaded

if TYPE_CHECKING:
    from engine.answers.chapters.choice import Chosen
    from engine.catalogue.columns import Catalogue
    from engine.selection.stages.bounds import FrictionLoss

#: Bounds run in another order than what they bound.
ROUNDING = 1e-9


def weights_of(choice: Chosen) -> dict[str, float]:
    """Return what each criterion counts, by its key: as answered, or as assumed while it is not."""
    questions = questions_of(type(choice))
    given = {key: getattr(choice, f"weigh_{key}") for key in criteria.CRITERIA}
    return {key: (questions[f"weigh_{key}"].default if one is None else one).value for key, one in given.items()}


def wished_shortlist(
    catalogue: Catalogue,
    screening: Screening,
    conditions: Conditions,
    choice: Chosen,
    most: int = 100,
    cancelled: Cancelled = never,
) -> Shortlist:
    """Return the first `most` passing pairs, ranked as chosen: by one thing or by weights; raise SearchCancelled."""
    by = choice.rank_by or "mass"
    if by == "weights":
        return weighed_shortlist(catalogue, screening, conditions, weights_of(choice), most, cancelled)
    return rank.shortlist(catalogue, screening, conditions, by, most, cancelled)


def weighed_shortlist(
    catalogue: Catalogue,
    screening: Screening,
    conditions: Conditions,
    weights: Mapping[str, float],
    most: int = 100,
    cancelled: Cancelled = never,
) -> Shortlist:
    """Return the first `most` passing pairs by the weighed score, the non-dominated ones marked.

    Equal ones stand in order of mass, then of the catalogue. Criteria that need loads are passed over where loads are
    not known. Raises SearchCancelled, and criteria.UnknownCriterion for weights of nothing that can be weighed.
    """
    counted = criteria.weighed(weights)
    if not conditions.resolved.loads_known:
        counted = {key: weight for key, weight in counted.items() if not criteria.CRITERIA[key].of_loads}
    parts = OfParts(catalogue)
    pairs = _Pairs(catalogue, screening, conditions, parts, counted)

    def first(many: int) -> tuple[Rows, Rows]:
        if not any(criteria.CRITERIA[key].of_loads for key in counted):
            return leading(screening, pairs.closed, pairs.mass, many, cancelled).pairs
        bounded = _Bounded(pairs, cancelled)
        return leading_by_bound(screening, bounded.possible, bounded.exactly, pairs.mass, many, cancelled).pairs

    i, j = first_that_pass(catalogue, screening, conditions, first, most)
    go_on(cancelled)
    return _listed(pairs, screening.rows_A[i], screening.rows_B[j])


def _listed(pairs: _Pairs, rows_A: Rows, rows_B: Rows) -> Shortlist:
    """Evaluate the leaders and put them in their final order: checks that only they are put to count by now."""
    catalogue, conditions, keys = pairs.catalogue, pairs.conditions, list(pairs.weights)
    evaluated = evaluate(catalogue.take(rows_A), catalogue.take(rows_B), conditions)
    values = values_of(catalogue, rows_A, rows_B, evaluated, conditions, keys)
    score = criteria.score(pairs.weights, values) if keys else np.zeros(len(rows_A))
    order = np.lexsort((rows_B, rows_A, pairs.parts.value("mass", rows_A, rows_B), score))
    if not np.array_equal(order, np.arange(len(rows_A))):
        rows_A, rows_B = rows_A[order], rows_B[order]
        evaluated = evaluate(catalogue.take(rows_A), catalogue.take(rows_B), conditions)
    values = {key: value[order] for key, value in values.items()}
    marked = non_dominated(list(values.values()), len(rows_A))
    life = governing_life(evaluated, conditions)
    return Shortlist(rows_A, rows_B, evaluated, life, score[order], values, marked)


def criteria_of(catalogue: Catalogue, pairs: list[tuple[int, int]], conditions: Conditions) -> dict[str, Floats]:
    """Return the value of every criterion for some pairs of catalogue rows, NaN where loads are lacking."""
    rows_A, rows_B = (np.array([pair[side] for pair in pairs], dtype=np.intp) for side in (0, 1))
    evaluated = evaluate(catalogue.take(rows_A), catalogue.take(rows_B), conditions)
    keys = [key for key in criteria.CRITERIA if key != "friction" or criteria.FRICTION is not None]
    return values_of(catalogue, rows_A, rows_B, evaluated, conditions, keys)


def values_of(
    catalogue: Catalogue,
    rows_A: Rows,
    rows_B: Rows,
    evaluated: Evaluated,
    conditions: Conditions,
    keys: list[str],
) -> dict[str, Floats]:
    """Return the values of some criteria for evaluated pairs; those that need loads are NaN where none are known."""
    parts, found = OfParts(catalogue), {}
    for key in keys:
        if not criteria.CRITERIA[key].of_loads:
            found[key] = parts.value(key, rows_A, rows_B)
        elif evaluated.loads is None:
            found[key] = np.full(len(rows_A), np.nan)
        elif key == "margin":
            found[key] = every.governing(evaluated.outcomes, len(rows_A))
        else:
            assert criteria.FRICTION is not None  # else it is not among the keys
            assert evaluated.warmth is not None
            rows = evaluated.A, evaluated.B
            found[key] = _friction(criteria.FRICTION, rows, evaluated.loads, evaluated.warmth, conditions)
    return found


def _friction(
    loss: FrictionLoss,
    parts: tuple[Catalogue, Catalogue],
    loads: tuple[Loads, Loads],
    warmth: Warmth,
    conditions: Conditions,
) -> Floats:
    """Return the friction loss of pairs at their temperatures."""
    of_A, of_B = (
        loss(rows, load, replace(conditions, nu=nu)) for rows, load, nu in zip(parts, loads, warmth.nu, strict=True)
    )
    return np.asarray(of_A + of_B)


def non_dominated(values: list[Floats], n: int) -> Bools:
    """Return which of n rows no other equals in every value and betters (is less) in one."""
    kept = np.ones(n, dtype=bool)
    if not values:
        return kept
    table = np.stack(values, axis=-1)
    for at in range(n):
        as_good = np.all(table <= table[at], axis=-1)
        kept[at] = not np.any(as_good & np.any(table < table[at], axis=-1))
    return kept


@dataclass(frozen=True)
class _Pairs:
    """The pairs of a screening, with the part of their score that needs no loads."""

    catalogue: Catalogue
    screening: Screening
    conditions: Conditions
    parts: OfParts
    weights: dict[str, float]

    def values(self, i: Rows, j: Rows) -> dict[str, Floats]:
        rows = self.screening.rows_A[i], self.screening.rows_B[j]
        keys = [key for key in self.weights if not criteria.CRITERIA[key].of_loads]
        return {key: self.parts.value(key, *rows) for key in keys}

    def closed(self, i: Rows, j: Rows) -> Floats:
        return criteria.score(self.weights, self.values(i, j)) if self.weights else np.zeros(len(i))

    def mass(self, i: Rows, j: Rows) -> Floats:
        return self.parts.value("mass", self.screening.rows_A[i], self.screening.rows_B[j])


class _Bounded:
    """The score of pairs under their loads, and the least that it can be by the bounds over groups of partners."""

    def __init__(self, pairs: _Pairs, cancelled: Cancelled) -> None:
        self.pairs, self.cancelled = pairs, cancelled
        self.friction = criteria.FRICTION if "friction" in pairs.weights else None
        screening, conditions = pairs.screening, pairs.conditions
        self.A = Side("A", pairs.catalogue, screening.rows_A, conditions)
        self.B = Side("B", pairs.catalogue, screening.rows_B, conditions)
        self.fixed = [_fixed(side, cancelled) for side in (self.A, self.B)]
        if screening.count:
            self.in_A, self.in_B, self.of_A, self.of_B = grouped_bounds(self.A, self.B, cancelled, self.friction)

    def possible(self, i: Rows, j: Rows) -> Floats:
        """Return a score that the pair cannot go below."""
        at_A, at_B = (self.in_B.number[j], i), (self.in_A.number[i], j)
        join = np.add if self.pairs.conditions.resolved.life_of_pair else np.maximum
        life = np.power(join(self.of_A.damage_least[at_A], self.of_B.damage_least[at_B]), 1 / SLOPE)
        own = np.maximum(self.of_A.utilisation_least[at_A], self.of_B.utilisation_least[at_B])
        margin = np.maximum(np.maximum(self.fixed[0][i], self.fixed[1][j]), np.maximum(life, own))
        friction = self.of_A.friction_least[at_A] + self.of_B.friction_least[at_B]
        return self._score(i, j, margin * (1 - ROUNDING), friction * (1 - ROUNDING)) - ROUNDING

    def exactly(self, i: Rows, j: Rows) -> Floats:
        """Return the score of some pairs."""
        margin, friction = np.zeros(len(i)), np.zeros(len(i))
        for some in blocks(len(i), len(self.pairs.conditions.cases), self.cancelled):
            margin[some], friction[some] = self._computed(i[some], j[some])
        return self._score(i, j, margin, friction)

    def _score(self, i: Rows, j: Rows, margin: Floats, friction: Floats) -> Floats:
        values = self.pairs.values(i, j) | {"margin": margin, "friction": friction}
        return criteria.score(self.pairs.weights, values)

    def _computed(self, i: Rows, j: Rows) -> tuple[Floats, Floats]:
        conditions = self.pairs.conditions
        found = loaded(self.A.bearings(i), self.B.bearings(j), conditions)
        outcomes = every.joint_outcomes(found.bearings, found.states, conditions)
        for side, rows, stated in zip("AB", found.bearings, found.states, strict=True):
            outcomes += every.own_outcomes(side, rows, stated, conditions)
        if every.EXACT_ONLY or self.friction is not None:
            parts = self.A.parts(i), self.B.parts(j)
            pairs = Evaluated(*parts, (), found.loads, found.states, found.bearings, found.warmth)
            outcomes += [one for checks in every.EXACT_ONLY for one in checks(pairs, conditions)]
        margin = np.maximum(np.maximum(self.fixed[0][i], self.fixed[1][j]), every.governing(outcomes, len(i)))
        if self.friction is None:
            return margin, np.zeros(len(i))
        return margin, _friction(self.friction, parts, found.loads, found.warmth, conditions)


def _fixed(side: Side, cancelled: Cancelled) -> Floats:
    """Return the greatest utilisation of each candidate over the checks that depend on no partner."""
    conditions, found = side.conditions, np.zeros(len(side))
    for some in blocks(len(side), len(conditions.cases), cancelled):
        outcomes = every.part_outcomes(side.parts(some), side.name, conditions.resolved)
        outcomes += every.film_outcomes(side.name, side.bearings(some), conditions)
        found[some] = every.governing(outcomes, some.stop - some.start)
    return found
