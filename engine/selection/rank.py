"""The best of the passing pairs by one thing: mass, size, life or cost; ties are broken the same way every time.

`weighing` ranks by several things at once.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from engine.checks import every
from engine.checks.every import Evaluated, evaluate
from engine.numerics import Bools, Floats, Rows
from engine.operating import Conditions
from engine.rating import system
from engine.selection.screen import Screening
from engine.selection.stages.blocks import Cancelled, blocks, go_on, never
from engine.selection.stages.bounds import damage
from engine.selection.stages.groups import grouped_bounds
from engine.selection.stages.leaders import Leaders, Measure, Sums, leading, leading_by_bound
from engine.selection.stages.side import Side
from engine.warmth.settling import loaded

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: The list is filled up so often where checks that only leaders are put to thin it out.
REFILLS = 4


@dataclass(frozen=True)
class Shortlist:
    """The leading pairs, best first, with everything computed about them; `life` is the governing life [h] or NaN.

    Ranked by weights, the pairs have their `score`, the value of each weighed criterion, and `non_dominated`: which
    pairs no passing pair equals in all of these and betters in one.
    """

    rows_A: Rows
    rows_B: Rows
    evaluated: Evaluated
    life: Floats
    score: Floats | None = None
    values: dict[str, Floats] = field(default_factory=dict)
    non_dominated: Bools | None = None

    def __len__(self) -> int:
        return len(self.rows_A)


def shortlist(
    catalogue: Catalogue,
    screening: Screening,
    conditions: Conditions,
    rank_by: str = "mass",
    most: int = 100,
    cancelled: Cancelled = never,
) -> Shortlist:
    """Return the first `most` passing pairs in order of `rank_by` ("mass", "size", "life" or "cost").

    Mass: lightest first. Size: smallest sum of outside diameters, then of widths. Life: longest governing life first.
    Equal ones stand in order of size (by mass) or mass (by the others), then of the catalogue. Raises
    SearchCancelled.
    """
    size, mass, cost = (Sums.of(column(catalogue), screening) for column in (_size, _mass, _cost))

    def first(many: int) -> tuple[Rows, Rows]:
        if rank_by == "life" and conditions.resolved.loads_known:
            return _longest_lived(catalogue, screening, conditions, mass, many, cancelled).pairs
        by, then = {"size": (size, mass), "cost": (cost, mass)}.get(rank_by, (mass, size))
        return leading(screening, by, then, many, cancelled).pairs

    i, j = first_that_pass(catalogue, screening, conditions, first, most)
    go_on(cancelled)
    return of_rows(catalogue, screening.rows_A[i], screening.rows_B[j], conditions, rank_by, most)


def first_that_pass(
    catalogue: Catalogue,
    screening: Screening,
    conditions: Conditions,
    first: Callable[[int], tuple[Rows, Rows]],
    most: int,
) -> tuple[Rows, Rows]:
    """Return the first pairs that pass the checks for leaders too, as row and column numbers of the matrix."""
    i, j = first(most)
    if not every.FOR_LEADERS or not conditions.resolved.loads_known:
        return i, j
    many, passes = most, _leaders_pass(catalogue, screening, conditions, i, j)
    for _ in range(REFILLS):
        if np.count_nonzero(passes) >= most or len(i) < many:
            break
        many *= 2
        i, j = first(many)
        new = slice(len(passes), None)  # the first ones stay the first ones
        passes = np.concatenate([passes, _leaders_pass(catalogue, screening, conditions, i[new], j[new])])
    return i[passes][:most], j[passes][:most]


def _leaders_pass(catalogue: Catalogue, screening: Screening, conditions: Conditions, i: Rows, j: Rows) -> Bools:
    A, B = catalogue.take(screening.rows_A[i]), catalogue.take(screening.rows_B[j])
    found = every.under_loads(A, B, conditions)
    return every.passing([one for checks in every.FOR_LEADERS for one in checks(found, conditions)], len(i))


def of_rows(
    catalogue: Catalogue, rows_A: Rows, rows_B: Rows, conditions: Conditions, rank_by: str = "mass", most: int = 100
) -> Shortlist:
    """Evaluate given pairs of catalogue rows and put them in order."""
    evaluated = evaluate(catalogue.take(rows_A), catalogue.take(rows_B), conditions)
    life = governing_life(evaluated, conditions)
    order = _order(evaluated, life, rank_by, rows_A, rows_B)[:most]
    if not np.array_equal(order, np.arange(len(rows_A))):
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


def _longest_lived(
    catalogue: Catalogue, screening: Screening, conditions: Conditions, mass: Measure, most: int, cancelled: Cancelled
) -> Leaders:
    """Return the pairs with the least damage per hour; a pair's least possible damage is known from the bounds."""
    if not screening.count:
        return Leaders(most)
    A = Side("A", catalogue, screening.rows_A, conditions)
    B = Side("B", catalogue, screening.rows_B, conditions)
    join = np.add if conditions.resolved.life_of_pair else np.maximum
    in_A, in_B, of_A, of_B = grouped_bounds(A, B, cancelled)

    def possible(i: Rows, j: Rows) -> Floats:
        return join(of_A.damage_least[in_B.number[j], i], of_B.damage_least[in_A.number[i], j])

    def exactly(i: Rows, j: Rows) -> Floats:
        found = np.zeros(len(i))
        for some in blocks(len(i), len(conditions.cases), cancelled):
            states = loaded(A.bearings(i[some]), B.bearings(j[some]), conditions).states
            found[some] = join(*(damage(one.life, conditions) for one in states))
        return found

    return leading_by_bound(screening, possible, exactly, mass, most, cancelled)
