"""Which pairs pass every check: exact, by stages that drop only what provably fails.

Stage 1 looks at each part alone (fit, speed, steel, film method). Stage 2 bounds each part's loads over all partners
that are left. Stage 3 bounds them over groups of alike partners, which decides most pairs as sure or impossible.
Stage 4 computes the pairs that are left undecided, exactly as the detail view does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from engine.checks import heat, loads, pair, part
from engine.numerics import Bools, Rows
from engine.operating import Bearings, Conditions, pair_loads, state
from engine.selection.bounds import Bounds, Partners, bound
from engine.warmth.settling import warmed

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: Fewer pairs than this are simply computed.
FEW_PAIRS = 20_000
#: More pairs than this are not looked through; a bore or another limit brings any catalogue below it.
MOST_PAIRS = 60_000_000
#: Pairs computed at a time at most, and numbers (pairs times cases) at a time, so that the arrays stay in the
#: processor's cache and a spectrum of thousands of bins takes no more memory than a few cases.
CHUNK = 8_192
CELLS = 65_536
GROUPS_BY_ANGLE = 4
GROUPS_BY_CENTRE = 5

Cancelled = Callable[[], bool]


class SearchCancelled(Exception):  # noqa: N818 - not an error
    """The search was asked to stop."""


@dataclass(frozen=True)
class Screening:
    """The pairs that pass: `passes[i, j]` for catalogue rows `rows_A[i]` on A and `rows_B[j]` on B.

    `listed` is how many pairs the catalogue could form. Where more are left than can be looked through one by one,
    `too_many` is set, no pair is listed, and `count` is only how many there are at most.
    """

    rows_A: Rows
    rows_B: Rows
    passes: Bools
    listed: int
    count: int
    too_many: bool = False


def screen(catalogue: Catalogue, conditions: Conditions, cancelled: Cancelled = lambda: False) -> Screening:
    """Return every passing pair of a catalogue; raise SearchCancelled when `cancelled()` turns true."""
    resolved = conditions.resolved
    wanted = int(np.count_nonzero(part.eligible(catalogue, resolved)))
    rows_A, rows_B = (_fitting(catalogue, side, conditions) for side in "AB")
    if resolved.same_on_both_sides:
        rows = _alike(catalogue, np.intersect1d(rows_A, rows_B), conditions, cancelled)
        if len(rows) ** 2 > MOST_PAIRS:
            return _too_many(wanted, len(rows))
        return Screening(rows, rows, np.eye(len(rows), dtype=bool), wanted, len(rows))
    few = len(rows_A) * len(rows_B) <= FEW_PAIRS
    if resolved.loads_known and not few:
        rows_A, rows_B = _drop_hopeless(catalogue, rows_A, rows_B, conditions, cancelled)
    if len(rows_A) * len(rows_B) > MOST_PAIRS:
        return _too_many(wanted**2, len(rows_A) * len(rows_B))
    passes = np.ones((len(rows_A), len(rows_B)), dtype=bool)
    if resolved.mass is not None:
        both = catalogue.mass[rows_A][:, None] + catalogue.mass[rows_B][None, :]
        passes &= resolved.per_side * both <= resolved.mass
    if resolved.loads_known and passes.any():
        _by_loads(catalogue, rows_A, rows_B, passes, conditions, few, cancelled)
    return Screening(rows_A, rows_B, passes, wanted**2, int(np.count_nonzero(passes)))


def _too_many(listed: int, at_most: int) -> Screening:
    none = np.zeros(0, dtype=np.intp)
    return Screening(none, none, np.zeros((0, 0), dtype=bool), listed, at_most, too_many=True)


def _alike(catalogue: Catalogue, rows: Rows, conditions: Conditions, cancelled: Cancelled) -> Rows:
    """Return the rows that pass when they sit on both sides."""
    resolved = conditions.resolved
    if resolved.mass is not None:
        rows = rows[resolved.per_side * 2 * catalogue.mass[rows] <= resolved.mass]
    if not resolved.loads_known or not len(rows):
        return rows
    A, B = (Bearings.of(catalogue.take(rows), side, conditions) for side in "AB")
    at = np.arange(len(rows))
    passes = [exact(A.take(some), B.take(some), conditions) for some in _chunks(at, conditions, cancelled)]
    return np.asarray(rows[np.concatenate(passes)])


def chunk_of(conditions: Conditions) -> int:
    """Return how many pairs are computed at a time under these cases."""
    return max(1, min(CHUNK, CELLS // max(1, len(conditions.cases))))


def _chunks(rows: Rows, conditions: Conditions, cancelled: Cancelled) -> Iterator[Rows]:
    """Walk rows a cacheful at a time."""
    step = chunk_of(conditions)
    for at in range(0, len(rows), step):
        if cancelled():
            raise SearchCancelled
        yield rows[at : at + step]


def _fitting(catalogue: Catalogue, side: str, conditions: Conditions) -> Rows:
    """Return the rows that pass, on one side, every check that needs no load."""
    resolved = conditions.resolved
    fits = part.eligible(catalogue, resolved)
    for outcome in part.outcomes(catalogue, side, resolved):
        fits = fits & outcome.passes
    rows = np.flatnonzero(fits)
    if resolved.loads_known and len(rows) and not conditions.settling.any():
        bearings = Bearings.of(catalogue.take(rows), side, conditions)
        rows = rows[loads.film_method(side, bearings, conditions).passes]
    return rows


def _by_loads(
    catalogue: Catalogue,
    rows_A: Rows,
    rows_B: Rows,
    passes: Bools,
    conditions: Conditions,
    few: bool,
    cancelled: Cancelled,
) -> None:
    """Clear, in `passes`, the pairs that fail a check which needs loads."""
    A = Bearings.of(catalogue.take(rows_A), "A", conditions)
    B = Bearings.of(catalogue.take(rows_B), "B", conditions)
    unsure = passes if few else _undecided(A, B, passes, conditions, cancelled)
    i, j = np.nonzero(unsure)
    for some in _chunks(np.arange(len(i)), conditions, cancelled):
        passes[i[some], j[some]] = exact(A.take(i[some]), B.take(j[some]), conditions)


def exact(A: Bearings, B: Bearings, conditions: Conditions) -> Bools:
    """Return which pairs (row i of A with row i of B) pass every check that needs loads."""
    both = pair_loads(A, B, conditions)
    (A, B), warmth = warmed(A, B, both, conditions)
    states = state(A, both[0], conditions), state(B, both[1], conditions)
    outcomes = [pair.spread(A.z[..., 0], B.z[..., 0])]
    for side, rows, stated, T in zip("AB", (A, B), states, warmth.T, strict=True):
        outcomes += [loads.life_outcome(side, stated, conditions), *loads.binding(side, rows, stated, conditions)]
        outcomes += heat.binding(side, rows, T, conditions)
        if rows.thermal is not None:  # a film at a stated temperature needs no load and has been looked at before
            outcomes.append(loads.film_method(side, rows, conditions))
    if conditions.resolved.life_of_pair:
        outcomes.append(pair.system_life(states[0].life, states[1].life, conditions.resolved))
    return np.asarray(np.logical_and.reduce([outcome.passes for outcome in outcomes]))


def _drop_hopeless(
    catalogue: Catalogue, rows_A: Rows, rows_B: Rows, conditions: Conditions, cancelled: Cancelled
) -> tuple[Rows, Rows]:
    """Stage 2, twice: with fewer partners left the bounds grow tighter."""
    A = Bearings.of(catalogue.take(rows_A), "A", conditions)
    B = Bearings.of(catalogue.take(rows_B), "B", conditions)
    pause = _stopping(cancelled)
    for _ in range(2):
        if not len(rows_A) or not len(rows_B):
            break
        kept_A = _hopeful(bound("A", A, Partners.of(B, [np.arange(len(rows_B))]), conditions, pause))
        kept_B = _hopeful(bound("B", B, Partners.of(A, [np.arange(len(rows_A))]), conditions, pause))
        A, B, rows_A, rows_B = A.take(kept_A), B.take(kept_B), rows_A[kept_A], rows_B[kept_B]
    return rows_A, rows_B


def _stopping(cancelled: Cancelled) -> Callable[[], None]:
    """Return what a long computation calls now and then: it raises SearchCancelled once the search is cancelled."""

    def pause() -> None:
        if cancelled():
            raise SearchCancelled

    return pause


def _hopeful(bounds: Bounds) -> Rows:
    return np.flatnonzero(~bounds.never[0] & (bounds.damage_least[0] <= 1.0))


@dataclass(frozen=True)
class Grouped:
    """The bearings of one side in groups of alike contact angle and load centre; `number` is the group of each row."""

    rows: tuple[Rows, ...]
    number: Rows

    @classmethod
    def of(cls, bearings: Bearings) -> Grouped:
        """Return the groups; every row is in exactly one, and no group is empty."""
        by_angle = np.argsort(bearings.Y[:, 0], kind="stable")
        found = []
        for some in np.array_split(by_angle, GROUPS_BY_ANGLE):
            by_centre = some[np.argsort(bearings.z[some, 0], kind="stable")]
            found += [group for group in np.array_split(by_centre, GROUPS_BY_CENTRE) if len(group)]
        number = np.zeros(len(bearings.C), dtype=np.intp)
        for at, group in enumerate(found):
            number[group] = at
        return cls(tuple(found), number)


def grouped_bounds(
    A: Bearings, B: Bearings, conditions: Conditions, cancelled: Cancelled = lambda: False
) -> tuple[Grouped, Grouped, Bounds, Bounds]:
    """Return both sides in groups, and the bounds of each side's bearings over the groups of the other."""
    in_A, in_B = Grouped.of(A), Grouped.of(B)
    pause = _stopping(cancelled)
    of_A = bound("A", A, Partners.of(B, in_B.rows), conditions, pause)
    of_B = bound("B", B, Partners.of(A, in_A.rows), conditions, pause)
    return in_A, in_B, of_A, of_B


def _undecided(A: Bearings, B: Bearings, passes: Bools, conditions: Conditions, cancelled: Cancelled) -> Bools:
    """Stage 3: clear the impossible pairs in `passes` and return those that must be computed."""
    unsure = np.zeros_like(passes)
    if not passes.size:
        return unsure
    in_A, in_B, of_A, of_B = grouped_bounds(A, B, conditions, cancelled)
    join = np.add if conditions.resolved.life_of_pair else np.maximum
    for at, rows in enumerate(in_A.rows):
        if cancelled():
            raise SearchCancelled

        def outer(of_a: Any, of_b: Any, join: Callable[..., Any], rows: Rows = rows, at: int = at) -> Any:
            # a row of this group against every row of B: its bound over the group that B's row is in, and the
            # bound of B's row over this group
            return join(of_a[:, rows].T[:, in_B.number], of_b[at])

        worst = outer(of_A.damage_greatest, of_B.damage_greatest, join)
        best = outer(of_A.damage_least, of_B.damage_least, join)
        # the sum of damages and the system life agree to rounding only, so the edge itself is computed
        sure = outer(of_A.always, of_B.always, np.logical_and) & (worst <= 1.0 - 1e-9)
        possible = ~outer(of_A.never, of_B.never, np.logical_or) & (best <= 1.0 + 1e-9)
        open_pairs = passes[rows] & possible
        passes[rows] = open_pairs
        unsure[rows] = open_pairs & ~sure
    return unsure
