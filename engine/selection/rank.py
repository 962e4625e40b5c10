"""The best of the passing pairs by mass, size, life margin or cost; ties are broken the same way every time."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.checks.every import Evaluated, evaluate
from engine.numerics import Floats, Rows
from engine.operating import Bearings, Conditions, pair_loads, state
from engine.rating import system
from engine.selection.bounds import damage
from engine.selection.screen import Cancelled, Screening, SearchCancelled, chunk_of, grouped_bounds
from engine.warmth.settling import warmed

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: Rows of the matrix of pairs looked at together.
BAND = 256


@dataclass(frozen=True)
class Shortlist:
    """The leading pairs, best first, with everything computed about them; `life` is the governing life [h] or NaN."""

    rows_A: Rows
    rows_B: Rows
    evaluated: Evaluated
    life: Floats

    def __len__(self) -> int:
        return len(self.rows_A)


def shortlist(
    catalogue: Catalogue,
    screening: Screening,
    conditions: Conditions,
    rank_by: str = "mass",
    most: int = 100,
    cancelled: Cancelled = lambda: False,
) -> Shortlist:
    """Return the first `most` passing pairs in order of `rank_by` ("mass", "size", "life" or "cost").

    Mass: lightest first. Size: smallest sum of outside diameters, then of widths. Life: longest governing life first.
    Equal ones stand in order of size (by mass) or mass (by the others), then of the catalogue. Raises
    SearchCancelled.
    """
    size = _Sums(*(_size(catalogue)[rows] for rows in (screening.rows_A, screening.rows_B)))
    mass = _Sums(*(_mass(catalogue)[rows] for rows in (screening.rows_A, screening.rows_B)))
    if rank_by == "life" and conditions.resolved.loads_known:
        i, j = _longest_lived(catalogue, screening, conditions, mass, most, cancelled)
    else:
        cost = _Sums(*(_cost(catalogue)[rows] for rows in (screening.rows_A, screening.rows_B)))
        first, then = {"size": (size, mass), "cost": (cost, mass)}.get(rank_by, (mass, size))
        i, j = _leading(screening, first, then, most, cancelled).pairs
    return of_rows(catalogue, screening.rows_A[i], screening.rows_B[j], conditions, rank_by, most)


def of_rows(
    catalogue: Catalogue, rows_A: Rows, rows_B: Rows, conditions: Conditions, rank_by: str = "mass", most: int = 100
) -> Shortlist:
    """Evaluate given pairs of catalogue rows and put them in order."""
    evaluated = evaluate(catalogue.take(rows_A), catalogue.take(rows_B), conditions)
    life = governing_life(evaluated, conditions)
    order = _order(evaluated, life, rank_by, rows_A, rows_B)[:most]
    rows_A, rows_B = rows_A[order], rows_B[order]
    evaluated = evaluate(catalogue.take(rows_A), catalogue.take(rows_B), conditions)
    return Shortlist(rows_A, rows_B, evaluated, life[order])


def governing_life(evaluated: Evaluated, conditions: Conditions) -> Floats:
    """Return the life that the requirement is held against [h]: of the pair, or of the weaker bearing."""
    if evaluated.states is None:
        return np.full(len(evaluated.A), np.nan)
    lives = np.stack([stated.life for stated in evaluated.states], axis=-1)
    return system.system_life(lives) if conditions.resolved.life_of_pair else lives.min(axis=-1)


def _order(evaluated: Evaluated, life: Floats, rank_by: str, rows_A: Rows, rows_B: Rows) -> Rows:
    A, B = evaluated.A, evaluated.B
    by_cost = [_cost(A) + _cost(B)]
    by_mass, by_size, by_life = [A.mass + B.mass], [A.D + B.D, A.T + B.T], [-np.nan_to_num(life, nan=-1.0)]
    first = {
        "mass": [by_mass, by_size],
        "size": [by_size, by_mass],
        "life": [by_life, by_mass],
        "cost": [by_cost, by_mass],
    }
    keys = [key for group in first[rank_by] for key in group] + [rows_A, rows_B]
    return np.lexsort(keys[::-1])


def _mass(catalogue: Catalogue) -> Floats:
    return np.nan_to_num(catalogue.mass, nan=np.inf)


def _cost(catalogue: Catalogue) -> Floats:
    return np.nan_to_num(catalogue.cost, nan=np.inf)


def _size(catalogue: Catalogue) -> Floats:
    """Return a number whose sum over the pair orders by outside diameters, then by widths."""
    # a thousandth of a millimetre of D outweighs any width
    return np.round(catalogue.D, 3) * 1e7 + catalogue.T


Measure = Callable[[Rows, Rows], Floats]


@dataclass(frozen=True)
class _Sums:
    """A measure of pairs that is the sum of one number a side."""

    of_A: Floats
    of_B: Floats

    def __call__(self, i: Rows, j: Rows) -> Floats:
        return self.of_A[i] + self.of_B[j]


class _Leaders:
    """The pairs with the least measure seen so far, ties at the end broken by a second measure, then by order."""

    def __init__(self, most: int) -> None:
        self.most = most
        self.i = self.j = np.zeros(0, dtype=np.intp)
        self.first = self.then = np.zeros(0)

    @property
    def pairs(self) -> tuple[Rows, Rows]:
        return self.i, self.j

    @property
    def worst(self) -> float:
        """The measure that a newcomer must reach to matter."""
        return float(self.first[-1]) if len(self.first) >= self.most else float("inf")

    def add(self, i: Rows, j: Rows, first: Floats, then: Floats) -> None:
        near = first <= self.worst
        found = [np.concatenate(both) for both in (
            (self.i, i[near]), (self.j, j[near]), (self.first, first[near]), (self.then, then[near]))]  # fmt: skip
        if len(found[2]) > 8 * self.most:  # a cheap cut before the sort
            inside = found[2] <= np.partition(found[2], self.most - 1)[self.most - 1]
            found = [values[inside] for values in found]
        order = np.lexsort((found[1], found[0], found[3], found[2]))[: self.most]
        self.i, self.j, self.first, self.then = (values[order] for values in found)


def _bands(screening: Screening, cancelled: Cancelled) -> Iterator[tuple[Rows, Rows]]:
    """Walk the passing pairs in bands of rows, as row and column numbers of the matrix of pairs."""
    for start in range(0, len(screening.rows_A), BAND):
        if cancelled():
            raise SearchCancelled
        i, j = np.nonzero(screening.passes[start : start + BAND])
        if len(i):
            yield i + start, j


def _leading(screening: Screening, first: Measure, then: Measure, most: int, cancelled: Cancelled) -> _Leaders:
    leaders = _Leaders(most)
    for i, j in _bands(screening, cancelled):
        measure = first(i, j)
        near = measure <= leaders.worst
        leaders.add(i[near], j[near], measure[near], then(i[near], j[near]))
    return leaders


def _longest_lived(
    catalogue: Catalogue, screening: Screening, conditions: Conditions, mass: Measure, most: int, cancelled: Cancelled
) -> tuple[Rows, Rows]:
    """Return the pairs with the least damage per hour.

    A pair's least possible damage is known from the bounds. Those that look best by it are computed; then only pairs
    that could still beat the worst of these are computed as well.
    """
    if not screening.count:
        return np.zeros(0, dtype=np.intp), np.zeros(0, dtype=np.intp)
    A = Bearings.of(catalogue.take(screening.rows_A), "A", conditions)
    B = Bearings.of(catalogue.take(screening.rows_B), "B", conditions)
    join = np.add if conditions.resolved.life_of_pair else np.maximum
    possible = _PossibleDamage(A, B, conditions, join)

    def exactly(i: Rows, j: Rows) -> Floats:
        step = chunk_of(conditions)
        parts = [slice(at, at + step) for at in range(0, len(i), step)]
        return np.concatenate([_damage(A.take(i[s]), B.take(j[s]), conditions, join) for s in parts] or [np.zeros(0)])

    promising = _leading(screening, possible, mass, most, cancelled)
    worst = float(exactly(*promising.pairs).max())
    leaders = _Leaders(most)
    for i, j in _bands(screening, cancelled):
        near = possible(i, j) <= min(worst, leaders.worst)
        near_i, near_j = i[near], j[near]
        leaders.add(near_i, near_j, exactly(near_i, near_j), mass(near_i, near_j))
    return leaders.pairs


class _PossibleDamage:
    """The least damage that each pair could come to, by the bounds over groups of partners."""

    def __init__(self, A: Bearings, B: Bearings, conditions: Conditions, join: Callable[..., Floats]) -> None:
        self.join = join
        self.in_A, self.in_B, of_A, of_B = grouped_bounds(A, B, conditions)
        self.of_A, self.of_B = of_A.damage_least, of_B.damage_least

    def __call__(self, i: Rows, j: Rows) -> Floats:
        return self.join(self.of_A[self.in_B.number[j], i], self.of_B[self.in_A.number[i], j])


def _damage(A: Bearings, B: Bearings, conditions: Conditions, join: Callable[..., Floats]) -> Floats:
    loads = pair_loads(A, B, conditions)
    both, _ = warmed(A, B, loads, conditions)
    return join(*(damage(state(rows, at, conditions).life, conditions) for rows, at in zip(both, loads, strict=True)))
