"""Up to four pairs side by side: every figure and every check, and where they differ."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.answers.document import Answers, put
from engine.answers.question import Value
from engine.answers.resolved import resolve
from engine.checks.check import Outcome
from engine.checks.every import Evaluated, evaluate
from engine.numerics import Floats
from engine.operating import Conditions
from engine.selection.rank import governing_life
from engine.selection.verdict import wishes

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

MOST_PAIRS = 4
#: Values closer than this share are the same to an engineer's eye.
SAME = 5e-4

Cell = float | str


@dataclass(frozen=True)
class Line:
    """One figure of every pair. `best` marks those that are best where it differs and one way is better.

    `key` tells a line from all others; `part` is "A", "B" or "pair". `passes` is empty but for checks; for these the
    cells are utilisations, beside `demand` and `capacity`. Of what is not known of a pair the cell is a word, and
    `passes` is None.
    """

    key: str
    group: str
    name: str
    part: str
    unit: str
    cells: tuple[Cell, ...]
    differs: bool
    best: tuple[bool, ...]
    passes: tuple[bool | None, ...] = ()
    demand: tuple[float, ...] = ()
    capacity: tuple[float, ...] = ()
    advisory: bool = False


@dataclass(frozen=True)
class Comparison:
    """Pairs of catalogue rows side by side; `passes` is whether each passes every wish and check by closed formulas."""

    pairs: tuple[tuple[int, int], ...]
    passes: tuple[bool, ...]
    lines: tuple[Line, ...]
    loads_known: bool = True

    def line(self, key: str) -> Line:
        """Return the line of a key; KeyError where there is none."""
        for one in self.lines:
            if one.key == key:
                return one
        raise KeyError(key)


@dataclass(frozen=True)
class Sandbox:
    """A comparison as answered and with one answer changed; `moved` tells, by key, which pairs' cells moved."""

    before: Comparison
    after: Comparison
    moved: dict[str, tuple[bool, ...]]


def compare(catalogue: Catalogue, pairs: Sequence[tuple[int, int]], answers: Answers) -> Comparison:
    """Return one to four pairs of catalogue rows side by side for some answers."""
    if not 1 <= len(pairs) <= MOST_PAIRS:
        raise ValueError(f"{len(pairs)} pairs cannot be compared; accepted: 1 to {MOST_PAIRS}")
    conditions = Conditions.of(resolve(answers))
    A, B = (catalogue.take([pair[side] for pair in pairs]) for side in (0, 1))
    evaluated = evaluate(A, B, conditions)
    wanted = wishes(A, B, conditions.resolved)
    outcomes = [*wanted, *evaluated.outcomes]
    lines = [*_parts(A, B), *_loaded(evaluated, conditions), *(check_line(one, len(pairs)) for one in outcomes)]
    verdict = np.logical_and.reduce([evaluated.passes, *(one.passes for one in wanted)])
    rows = tuple((int(a), int(b)) for a, b in pairs)
    return Comparison(rows, tuple(verdict.tolist()), tuple(lines), conditions.resolved.loads_known)


def sandbox(
    catalogue: Catalogue, pairs: Sequence[tuple[int, int]], answers: Answers, path: str, value: Value | None
) -> Sandbox:
    """Return the comparison before and after one answer is changed; the answers themselves stay as they are."""
    before, after = (compare(catalogue, pairs, given) for given in (answers, put(answers, path, value)))
    known = {line.key: line.cells for line in before.lines}
    nothing: tuple[Cell, ...] = ("",) * len(pairs)
    moved = {
        line.key: tuple(
            not _alike([new, old]) for new, old in zip(line.cells, known.pop(line.key, nothing), strict=True)
        )
        for line in after.lines
    }
    # a check that is asked no more has moved as well
    return Sandbox(before, after, moved | {key: (True,) * len(pairs) for key in known})


#: Column, name, unit, and which way is better: 1 more, -1 less, 0 neither.
_COLUMNS = (
    ("designation", "Designation", "", 0),
    ("system", "System", "", 0),
    ("series", "Series", "", 0),
    ("steel", "Steel", "", 0),
    ("profile", "Roller profile", "", 0),
    ("availability", "Availability", "", 0),
    ("listed", "Listed or formed", "", 0),
    ("d", "Bore d", "mm", 0),
    ("D", "Outside diameter D", "mm", -1),
    ("T", "Width T", "mm", -1),
    ("alpha", "Contact angle alpha", "rad", 0),
    ("a", "Load centre a", "mm", 0),
    ("Cr", "Dynamic rating Cr", "N", 1),
    ("C0r", "Static rating C0r", "N", 1),
    ("Cu", "Fatigue load limit Cu", "N", 1),
    ("e", "e", "-", 0),
    ("Y", "Y", "-", 0),
    ("Y0", "Y0", "-", 0),
    ("mass", "Mass", "kg", -1),
    ("cost", "Cost", "-", -1),
)


def _parts(A: Catalogue, B: Catalogue) -> Iterator[Line]:
    for column, name, unit, better in _COLUMNS:
        for side, rows in (("A", A), ("B", B)):
            yield figure_line(
                f"part.{column}.{side}", ("Parts", name, side, unit), getattr(rows, column).tolist(), better
            )
    for column, name, unit in (("mass", "Mass of the pair", "kg"), ("cost", "Cost of the pair", "-")):
        both = getattr(A, column) + getattr(B, column)
        yield figure_line(f"pair.{column}", ("Pair", name, "pair", unit), both.tolist(), -1)


_Of = Callable[[Evaluated, int], Floats]


def _of_state(name: str) -> _Of:
    return lambda evaluated, side: getattr(evaluated.states[side], name)  # type: ignore[index]


def _of_loads(name: str) -> _Of:
    return lambda evaluated, side: getattr(evaluated.loads[side], name)  # type: ignore[index]


def _of_bearings(name: str) -> _Of:
    return lambda evaluated, side: getattr(evaluated.bearings[side], name)  # type: ignore[index]


#: Per case and side: key, name, unit, better, where it stands.
_PER_CASE: tuple[tuple[str, str, str, int, _Of], ...] = (
    ("Fr", "Radial load Fr", "N", -1, _of_loads("Fr")),
    ("Fa", "Axial load Fa", "N", -1, _of_loads("Fa")),
    ("P", "Equivalent load P", "N", -1, _of_state("P")),
    ("P0", "Static equivalent load P0", "N", -1, _of_state("P0")),
    ("kappa", "Viscosity ratio kappa", "-", 1, _of_bearings("kappa")),
    ("e_C", "Contamination factor e_C", "-", 1, _of_bearings("e_C")),
    ("a_iso", "Life modification factor a_ISO", "-", 1, _of_state("a_iso")),
    ("Lnmh", "Modified life Lnmh", "h", 1, _of_state("Lnmh")),
)


def _loaded(evaluated: Evaluated, conditions: Conditions) -> Iterator[Line]:
    """Walk what loads make of the pairs: over the spectrum first, then case by case."""
    if evaluated.states is None:
        return
    governs = governing_life(evaluated, conditions).tolist()
    yield figure_line("pair.life", ("Pair", "Governing life", "pair", "h"), governs, 1)
    for number, side in enumerate("AB"):
        life = evaluated.states[number].life.tolist()
        yield figure_line(f"life.{side}", ("Pair", "Modified life", side, "h"), life, 1)
    for at, case in enumerate(conditions.cases.names):
        for key, name, unit, better, where in _PER_CASE:
            for number, side in enumerate("AB"):
                cells = where(evaluated, number)[:, at].tolist()
                yield figure_line(f"case.{at}.{key}.{side}", (case, name, side, unit), cells, better)


def check_line(outcome: Outcome, n: int) -> Line:
    """Return a check of n pairs as a line; the group is that of all checks."""
    check = outcome.check

    def each(values: object) -> tuple[float, ...]:
        return tuple(np.broadcast_to(np.asarray(values, dtype=np.float64), n).tolist())

    # what is not judged uses nothing, and is not to be taken for good
    judged = True if outcome.judged is None else outcome.judged
    used = each(np.where(judged, outcome.utilisation, np.nan))
    differs = not _alike(used)
    return Line(
        key=f"check.{check.key}.{outcome.side}",
        group="Checks",
        name=check.name,
        part=outcome.side,
        unit=check.unit,
        cells=used,
        differs=differs,
        best=_best(used, -1 if differs and check.margin else 0),
        passes=tuple(bool(one) for one in np.broadcast_to(outcome.passes, n)),
        demand=each(outcome.demand),
        capacity=each(outcome.capacity),
        advisory=check.advisory,
    )


def figure_line(key: str, named: tuple[str, str, str, str], cells: list[Cell], better: int) -> Line:
    """Return a figure of some pairs, by its group, name, part and unit; 1 where more of it is better, -1 where less."""
    group, name, part, unit = named
    differs = not _alike(cells)
    return Line(key, group, name, part, unit, tuple(cells), differs, _best(cells, better if differs else 0))


def _alike(cells: Sequence[Cell]) -> bool:
    """Return whether all cells say the same, numbers to within SAME."""
    first = cells[0]
    if any(isinstance(cell, str) for cell in cells):
        return all(cell == first for cell in cells)
    numbers = np.asarray(cells, dtype=np.float64)
    if not np.isfinite(numbers).all():
        return bool(np.all((numbers == numbers[0]) | (np.isnan(numbers) & np.isnan(numbers[0]))))
    return bool(np.ptp(numbers) <= SAME * np.abs(numbers).max())


def _best(cells: Sequence[Cell], better: int) -> tuple[bool, ...]:
    if not better:
        return (False,) * len(cells)
    numbers = better * np.asarray(cells, dtype=np.float64)
    if np.isnan(numbers).all():
        return (False,) * len(cells)
    top = float(np.nanmax(numbers))
    near = SAME * abs(top) if np.isfinite(top) else 0.0
    return tuple((numbers >= top - near).tolist())
