"""Which pairs pass every check: exact, by stages that drop only what provably fails.

Stage 1 looks at each part alone (wishes, fit, speed, steel, film). Stage 2 bounds each part's loads over all partners
that are left. Stage 3 bounds them over groups of alike partners, which decides most pairs as sure or impossible.
Stage 4 computes the pairs that are left undecided, exactly as the detail view does, and puts every pair that is left
to the checks of which no bound is known.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from engine.checks import every, pair, part
from engine.checks.holding import between_temperatures
from engine.numerics import Bools, Floats, Rows
from engine.operating import Bearings, Conditions, Loads, pair_loads, state
from engine.selection.stages.blocks import Cancelled, Progress, blocks, go_on, in_blocks, never, untold
from engine.selection.stages.blocks import SearchCancelled as SearchCancelled  # noqa: PLC0414 - it belongs to the search for all who start one
from engine.selection.stages.bounds import Bounds, Partners, bound
from engine.selection.stages.doubts import PIECES, Doubts
from engine.selection.stages.groups import grouped_bounds
from engine.selection.stages.side import Side
from engine.warmth.settling import at_rung, places_of, warmed

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue
    from engine.warmth.ladder import End, Ladder

#: The bearings of A and of B of some pairs.
Pair = tuple[Bearings, Bearings]
#: Fewer pairs than this are simply computed.
FEW_PAIRS = 20_000
#: More pairs than this are not looked through; a bore or another limit brings any catalogue below it.
MOST_PAIRS = 60_000_000


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


@dataclass(frozen=True)
class Field:
    """What the stages that look at parts have left: A and B, of which pairs can be formed.

    `guesses` are damage numbers that the parts may come to, half-way between their bounds; None where no bounds were
    needed. They decide nothing but where to look first.
    """

    A: Side
    B: Side
    listed: int
    guesses: tuple[Floats, Floats] | None = None

    @property
    def conditions(self) -> Conditions:
        """What the answers say to every pair."""
        return self.A.conditions

    @property
    def catalogue(self) -> Catalogue:
        """Where all of them come from."""
        return self.A.catalogue

    @property
    def pairs(self) -> int:
        """How many pairs there are to decide."""
        return len(self.A) if self.conditions.resolved.same_on_both_sides else len(self.A) * len(self.B)


def screen(
    catalogue: Catalogue, conditions: Conditions, cancelled: Cancelled = never, progress: Progress = untold
) -> Screening:
    """Return every passing pair of a catalogue; raise SearchCancelled when `cancelled()` turns true."""
    return decide(narrow(catalogue, conditions, cancelled), cancelled, progress)


def narrow(catalogue: Catalogue, conditions: Conditions, cancelled: Cancelled = never) -> Field:
    """Stages 1 and 2: return the parts that could make a passing pair."""
    resolved = conditions.resolved
    wanted = int(np.count_nonzero(part.eligible(catalogue, resolved)))
    A, B = (_fitting(catalogue, name, conditions, cancelled) for name in "AB")
    if resolved.same_on_both_sides:
        rows = np.intersect1d(A.rows, B.rows)
        return Field(Side("A", catalogue, rows, conditions), Side("B", catalogue, rows, conditions), wanted)
    if resolved.loads_known and len(A) * len(B) > FEW_PAIRS:
        return _drop_hopeless(A, B, wanted**2, cancelled)
    return Field(A, B, wanted**2)


def decide(field: Field, cancelled: Cancelled = never, progress: Progress = untold) -> Screening:
    """Stages 3 and 4: return which of the pairs pass."""
    A, B, resolved = field.A, field.B, field.conditions.resolved
    if len(A) * len(B) > MOST_PAIRS:
        none = np.zeros(0, dtype=np.intp)
        return Screening(none, none, np.zeros((0, 0), dtype=bool), field.listed, field.pairs, too_many=True)
    if resolved.same_on_both_sides:
        at = np.arange(len(A))
        alike = at[_computed(A, B, at, at, cancelled)]
        rows = A.rows[alike]
        return Screening(rows, rows, np.eye(len(rows), dtype=bool), field.listed, len(rows))
    passes = np.zeros((len(A), len(B)), dtype=bool)
    doubts = Doubts(passes, lambda i, j: _by_loads(A, B, i, j, cancelled), len(field.conditions.cases))
    done = 0
    for rows, open_pairs, doubtful in _bands(field, cancelled):
        progress("pairs", done / max(len(A), 1))
        passes[rows] = open_pairs
        if resolved.loads_known:
            doubts.take(rows, doubtful)
        done += len(rows)
    doubts.settle()
    _clear_by_exact_only(field, passes, cancelled)
    progress("pairs", 1.0)
    return Screening(A.rows, B.rows, passes, field.listed, int(np.count_nonzero(passes)))


def _fitting(catalogue: Catalogue, name: str, conditions: Conditions, cancelled: Cancelled) -> Side:
    """Return the rows that pass, on one side, every check that needs no load."""
    resolved = conditions.resolved
    fits = part.eligible(catalogue, resolved) & every.passing(
        every.part_outcomes(catalogue, name, resolved), len(catalogue)
    )
    side = Side(name, catalogue, np.flatnonzero(fits), conditions)
    if not resolved.loads_known or not len(side):
        return side
    kept = [
        every.passing(every.film_outcomes(name, side.bearings(some), conditions), some.stop - some.start)
        for some in blocks(len(side), len(conditions.cases), cancelled)
    ]
    return side.keep(np.flatnonzero(np.concatenate(kept)))


def _drop_hopeless(A: Side, B: Side, listed: int, cancelled: Cancelled) -> Field:
    """Stage 2, twice: with fewer partners left the bounds grow tighter."""
    guesses = None
    for _ in range(2):
        if not len(A) or not len(B):
            break
        of_A = bound(A, Partners.of(B, [np.arange(len(B))]), cancelled)
        of_B = bound(B, Partners.of(A, [np.arange(len(A))]), cancelled)
        kept_A, kept_B = _hopeful(of_A), _hopeful(of_B)
        A, B, guesses = A.keep(kept_A), B.keep(kept_B), (_guess(of_A)[kept_A], _guess(of_B)[kept_B])
    return Field(A, B, listed, guesses)


def _hopeful(bounds: Bounds) -> Rows:
    return np.flatnonzero(~bounds.never[0] & (bounds.damage_least[0] <= 1.0))


def _guess(bounds: Bounds) -> Floats:
    with np.errstate(invalid="ignore", over="ignore"):
        return np.nan_to_num(np.sqrt(bounds.damage_least[0] * bounds.damage_greatest[0]), nan=np.inf)


def _bands(field: Field, cancelled: Cancelled) -> Iterator[tuple[Rows, Bools, Bools]]:
    """Stage 3: walk bands of rows of the matrix of pairs: row numbers, which pairs are possible, which are unsure."""
    A, B = field.A, field.B
    if not field.conditions.resolved.loads_known or len(A) * len(B) <= FEW_PAIRS:
        for some in blocks(len(A), len(B), cancelled):
            possible = _keep_sums(field, np.arange(some.start, some.stop))
            yield np.arange(some.start, some.stop), possible, possible.copy()
        return
    in_A, in_B, of_A, of_B = grouped_bounds(A, B, cancelled)
    join = np.add if field.conditions.resolved.life_of_pair else np.maximum
    for at, rows in enumerate(in_A.rows):
        go_on(cancelled)

        def outer(of_a: Any, of_b: Any, join: Callable[..., Any], rows: Rows = rows, at: int = at) -> Any:
            # a row of this group against every row of B: its bound over the group that B's row is in, and the
            # bound of B's row over this group
            return join(of_a[:, rows].T[:, in_B.number], of_b[at])

        worst = outer(of_A.damage_greatest, of_B.damage_greatest, join)
        best = outer(of_A.damage_least, of_B.damage_least, join)
        # the sum of damages and the system life agree to rounding only, so the edge itself is computed
        sure = outer(of_A.always, of_B.always, np.logical_and) & (worst <= 1.0 - 1e-9)
        possible = ~outer(of_A.never, of_B.never, np.logical_or) & (best <= 1.0 + 1e-9)
        possible &= _keep_sums(field, rows)
        yield rows, possible, possible & ~sure


def _keep_sums(field: Field, rows: Rows) -> Bools:
    """Return which pairs of some rows with every row of B keep the limits on mass and cost."""
    rows_A, rows_B = field.A.rows[rows][:, None], field.B.rows[None, :]
    return pair.keep_sums(field.catalogue, rows_A, rows_B, field.conditions.resolved)


def _clear_by_exact_only(field: Field, passes: Bools, cancelled: Cancelled) -> None:
    """Clear what fails a check of which no bound is known."""
    if not every.EXACT_ONLY or not field.conditions.resolved.loads_known:
        return
    for some in blocks(len(field.A), len(field.B), cancelled):
        i, j = np.nonzero(passes[some])
        passes[i + some.start, j] = by_exact_only(field.A, field.B, i + some.start, j, cancelled)


def _computed(A: Side, B: Side, i: Rows, j: Rows, cancelled: Cancelled) -> Bools:
    """Return which pairs pass every check that joins two bearings, without any bound."""
    resolved = A.conditions.resolved
    passes = pair.keep_sums(A.catalogue, A.rows[i], B.rows[j], resolved)
    if not resolved.loads_known:
        return passes
    at = np.flatnonzero(passes)
    passes[at] = _by_loads(A, B, i[at], j[at], cancelled)
    at = np.flatnonzero(passes)
    if every.EXACT_ONLY:
        passes[at] = by_exact_only(A, B, i[at], j[at], cancelled)
    return passes


def _by_loads(A: Side, B: Side, i: Rows, j: Rows, cancelled: Cancelled) -> Bools:
    conditions, ladder = A.conditions, A.ladder

    def decided(some: slice) -> Bools:
        one, other = A.bearings(i[some]), B.bearings(j[some])
        return exact(one, other, conditions) if ladder is None else settled(one, other, conditions, ladder)

    parts = in_blocks(decided, len(i), PIECES * len(conditions.cases), cancelled)
    return np.concatenate([np.zeros(0, dtype=bool), *parts])


def settled(A: Bearings, B: Bearings, conditions: Conditions, ladder: Ladder) -> Bools:
    """Return what `exact` does, with the heat balance solved only for pairs that a hair of temperature decides.

    What passes a little hotter than it settles passes, what fails a little cooler fails.
    """
    loads = pair_loads(A, B, conditions)
    places = places_of(A, B, loads, conditions, ladder)
    ends = [_at((A, B), end, places, conditions) for end in (ladder.cold, ladder.hot)]
    passes = _under(ends[1], loads, conditions, ends, most=False)
    # the others: first what fails a little cooler, then what is left
    left = np.flatnonzero(~passes)
    A, B, loads = A.take(left), B.take(left), (_some(loads[0], left), _some(loads[1], left))
    at = places[0][left], places[1][left]
    ends = [_at((A, B), end, at, conditions) for end in (ladder.cold, ladder.hot)]
    open_pairs = np.flatnonzero(_under(ends[0], loads, conditions, ends, most=True))
    passes[left[open_pairs]] = exact(A.take(open_pairs), B.take(open_pairs), conditions)
    return passes


def _at(pairs: Pair, end: End, places: tuple[Rows, Rows], conditions: Conditions) -> Pair:
    one, other = (at_rung(rows, end, place, conditions) for rows, place in zip(pairs, places, strict=True))
    return one, other


def _some(loads: Loads, index: Rows) -> Loads:
    return Loads(loads.Fr[index], loads.Fa[index])


def exact(A: Bearings, B: Bearings, conditions: Conditions) -> Bools:
    """Return which pairs (row i of A with row i of B) pass every check under loads of which bounds are known."""
    loads = pair_loads(A, B, conditions)
    return _under(warmed(A, B, loads, conditions)[0], loads, conditions)


def _under(
    bearings: Pair, loads: tuple[Loads, Loads], conditions: Conditions, ends: Sequence[Pair] = (), most: bool = False
) -> Bools:
    """Return which pairs, with their film, pass every check under loads of which bounds are known.

    Where only two temperatures are known that theirs lie between, `ends` are the pairs at both, and of what is left of
    a fit the most counts, or the least.
    """
    one, other = (state(rows, load, conditions) for rows, load in zip(bearings, loads, strict=True))
    outcomes = every.joint_outcomes(bearings, (one, other), conditions)
    for at, (side, rows, stated) in enumerate(zip("AB", bearings, (one, other), strict=True)):
        if ends:
            between = ends[0][at], ends[1][at]
            rows = between_temperatures(rows, between, stated, conditions, most)  # noqa: PLW2901 - the same rows
        outcomes += every.own_outcomes(side, rows, stated, conditions)
    return every.passing(outcomes, len(one.life))


def by_exact_only(A: Side, B: Side, i: Rows, j: Rows, cancelled: Cancelled = never) -> Bools:
    """Return which pairs pass the checks that promise nothing about more or less load."""
    conditions = A.conditions
    passes = np.zeros(len(i), dtype=bool)
    for some in blocks(len(i), len(conditions.cases), cancelled):
        found = every.under_loads(A.parts(i[some]), B.parts(j[some]), conditions)
        outcomes = [outcome for checks in every.EXACT_ONLY for outcome in checks(found, conditions)]
        passes[some] = every.passing(outcomes, some.stop - some.start)
    return passes
