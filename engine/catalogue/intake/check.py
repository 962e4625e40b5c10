"""A user's own file: read, judged row by row, and taken as a catalogue as far as it is sound.

The path: `text` gives the cells, `headers` the columns and units, `stated` the values, `estimate` what is missing,
`contradictions` what does not fit together, `assembled` the catalogue.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from engine.catalogue.columns import Catalogue
from engine.catalogue.intake.assembled import assembled
from engine.catalogue.intake.contradictions import EVERYTHING, Contradictions, Telling, contradictions
from engine.catalogue.intake.corrections import Correction
from engine.catalogue.intake.estimate import ESTIMATES, filled
from engine.catalogue.intake.headers import Place, places_of
from engine.catalogue.intake.rings.parts import expanded
from engine.catalogue.intake.stated import Stated, stated
from engine.catalogue.intake.text import Table, table
from engine.catalogue.trouble import Trouble
from engine.errors import Problem, Problems, plain
from engine.numerics import Bools, Floats

#: Columns without a value of which a row is no bearing; each is stated or can be estimated.
_NEEDED = tuple(dict.fromkeys(one.column for one in ESTIMATES if one.column not in {"mass", "n_grease", "n_oil"}))
#: A mistake of a whole column is only believed when so many rows show it.
LEAST_ROWS = 2
#: A correction may uncover the next one; so many rounds are made.
_MOST_ROUNDS = 4
#: Where what is wrong is gathered: as refusing and as warning.
Into = tuple[Trouble, Trouble] | None


@dataclass(frozen=True)
class Findings:
    """What is wrong in one way: the first of them, how many more there are, and in how many rows."""

    listed: tuple[Problem, ...]
    more: int
    rows: int


@dataclass(frozen=True)
class Report:
    """What a file holds: rows taken, rows left out and why, rows taken with a warning, notes on the file as a whole.

    `columns_wrong` are the mistakes that every row of a column shows, those included that only show when others are
    mended; a corrected copy corrects these and no others.
    """

    path: str
    rows: int
    left_out: Findings
    warned: Findings
    notes: tuple[str, ...]
    columns_wrong: tuple[Correction, ...]
    catalogue: Catalogue | None

    @property
    def accepted(self) -> int:
        """How many rows are taken."""
        return self.rows - self.left_out.rows

    @property
    def clean(self) -> bool:
        """Whether every row is taken and none contradicts itself."""
        return not self.left_out.rows and not self.warned.rows

    def __str__(self) -> str:
        """Return it as lines for a terminal."""
        lines = [f"{plain(self.path)}: {_count(self.accepted, 'row')} of {self.rows} taken"]
        lines += [f"  {note}" for note in self.notes]
        for findings, title in (
            (self.left_out, f"{_count(self.left_out.rows, 'row')} left out:"),
            (self.warned, f"{_count(self.warned.rows, 'row')} taken, but their values contradict each other:"),
        ):
            if findings.rows:
                lines += ["", title, *(f"  {problem}" for problem in findings.listed)]
                lines += [f"  and {findings.more} more"] if findings.more else []
        if self.columns_wrong:
            lines += ["", "In every row of its column, so that a corrected copy (--corrected FILE) would mend it:"]
            lines += [f"  {plain(one.words)} ({', '.join(one.columns)})" for one in self.columns_wrong]
        return "\n".join(lines) + "\n"


@dataclass(frozen=True)
class Judged:
    """A table under one reading of its columns: values, estimates, what was found, and the rows that are taken."""

    stated: Stated
    values: Mapping[str, Floats]
    estimated: Mapping[str, Bools]
    found: Contradictions
    taken: Bools
    refusing: Trouble
    warning: Trouble
    notes: tuple[str, ...]


def check(path: str | Path) -> Report:
    """Return what a file holds, or raise Problems where it cannot be read as a catalogue at all."""
    sheet, places, notes = opened(path)
    return report(judged(sheet, places, notes))


def load(path: str | Path) -> tuple[Catalogue, list[str]]:
    """Return the sound rows of a file as a catalogue, and notes on what was left out; Problems when none is sound."""
    found = check(path)
    if found.catalogue is None:
        raise Problems(found.left_out.listed, found.left_out.more)
    notes = [*found.notes]
    if found.left_out.rows:
        notes.append(f"{_count(found.left_out.rows, 'row')} of {found.rows} left out as wrong.")
    if found.warned.rows:
        notes.append(f"{_count(found.warned.rows, 'row')} taken whose values contradict each other.")
    return found.catalogue, notes


def opened(path: str | Path) -> tuple[Table, dict[str, Place], tuple[str, ...]]:
    """Return the cells of a file, where its columns stand, and notes on both."""
    trouble = Trouble(str(path))
    sheet = expanded(table(path, trouble), trouble)
    notes = list(sheet.notes)
    return sheet, places_of(sheet.header, sheet.header_line, trouble, notes), tuple(notes)


def judged(
    sheet: Table, places: dict[str, Place], notes: tuple[str, ...], telling: Telling = EVERYTHING, into: Into = None
) -> Judged:
    """Return every row judged under these columns and units; what is wrong goes `into` troubles, given or new."""
    refusing, warning = into or (Trouble(sheet.path), Trouble(sheet.path))
    cells = refusing if telling.causes is None else Trouble(sheet.path)
    for line, width in sheet.overlong:
        wrong = f"holds {width} cells, the header {len(sheet.header)}"
        cells.add(line, "", wrong, "as many cells as headers, those with the sign that parts columns in quotes")
    for line, header, wrong, accepted in sheet.refused:
        cells.add(line, header, wrong, accepted)
    said = stated(sheet, places, cells)
    values, estimated = filled(said.numbers)
    found = contradictions(said, values, refusing, warning, telling)
    taken = ~(said.refused | found.left_out)
    for row in np.flatnonzero(taken & np.any([np.isnan(values[name]) for name in _NEEDED], axis=0)).tolist():
        lacking = next(name for name in _NEEDED if np.isnan(values[name][row]))
        cells.add(said.lines[row], "", f"{lacking} is not stated and cannot be estimated", f"a column for {lacking}")
        taken[row] = False
    return Judged(said, values, estimated, found, taken, refusing, warning, (*notes, *said.notes))


def report(one: Judged) -> Report:
    """Return what was found as a report.

    A mistake of a whole column misleads about the other columns. Where there is one, what is said of the rest is what
    the mended columns leave, so that the report names what a corrected copy corrects.
    """
    rows = len(one.stated) + len(one.stated.table.overlong) + len(one.stated.table.refused)
    taken = int(np.count_nonzero(one.taken))
    steps = mended(one)
    refusing, warning = one.refusing, one.warning
    if len(steps) > 1:
        refusing, warning = into = Trouble(refusing.path), Trouble(warning.path)
        for places, wrong in steps:
            telling = Telling(frozenset(wrong) if wrong else None, ~one.taken)
            judged(one.stated.table, places, (), telling, into)
    return Report(
        one.stated.table.path,
        rows,
        _findings(refusing, rows - taken),
        _findings(warning, int(np.count_nonzero(one.found.warned & one.taken))),
        one.notes,
        tuple(correction for _, wrong in steps for correction in wrong),
        assembled(one.stated, one.values, one.estimated, one.taken) if taken else None,
    )


def mended(one: Judged) -> list[tuple[dict[str, Place], list[Correction]]]:
    """Return where the columns stand, mended step by step, and what each step finds wrong; the last finds nothing."""
    steps, table, places = [], one.stated.table, one.stated.places
    for _ in range(_MOST_ROUNDS):
        wrong = _apart(columns_wrong(one))
        if not wrong:
            break
        steps.append((places, wrong))
        for correction in wrong:
            places = correction.on_places(places)
        one = judged(table, places, ())
    return [*steps, (places, [])]


def _apart(wrong: list[Correction]) -> list[Correction]:
    """Return corrections that touch no column twice; the others are found again, if still needed, in the next round."""
    taken: set[str] = set()
    kept = []
    for correction in wrong:
        if taken.isdisjoint(correction.columns):
            kept.append(correction)
            taken.update(correction.columns)
    return kept


def columns_wrong(one: Judged) -> list[Correction]:
    """Return the suspicions that every row of their columns shows: of these a column as a whole is wrong."""
    found = []
    for cause, shown in one.found.shown_by.items():
        stated_in = np.all([~np.isnan(one.stated.numbers[name]) for name in cause.columns[:3]], axis=0)
        looked_at = stated_in & one.found.sought
        # beyond the rows that were looked at, at least something must be off in each
        off = one.found.left_out | one.found.warned | one.stated.refused
        if looked_at.sum() >= LEAST_ROWS and np.all(shown[looked_at]) and np.all(off[stated_in]):
            found.append(cause)
    return found


def _findings(trouble: Trouble, rows: int) -> Findings:
    try:
        trouble.stop_if_any()
    except Problems as problems:
        return Findings(problems.problems, problems.more, rows)
    return Findings((), 0, rows)


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
