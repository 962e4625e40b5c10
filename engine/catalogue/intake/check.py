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
from engine.catalogue.intake.contradictions import Contradictions, contradictions
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


@dataclass(frozen=True)
class Findings:
    """What is wrong in one way: the first of them, how many more there are, and in how many rows."""

    listed: tuple[Problem, ...]
    more: int
    rows: int


@dataclass(frozen=True)
class Report:
    """What a file holds: rows taken, rows left out and why, rows taken with a warning, notes on the file as a whole.

    `columns_wrong` are the mistakes that every row of a column shows; a corrected copy corrects these.
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


def judged(sheet: Table, places: dict[str, Place], notes: tuple[str, ...]) -> Judged:
    """Return every row judged under these columns and units."""
    refusing, warning = Trouble(sheet.path), Trouble(sheet.path)
    for line, cells in sheet.overlong:
        wrong = f"holds {cells} cells, the header {len(sheet.header)}"
        refusing.add(line, "", wrong, "as many cells as headers, those with the sign that parts columns in quotes")
    for line, header, wrong, accepted in sheet.refused:
        refusing.add(line, header, wrong, accepted)
    said = stated(sheet, places, refusing)
    values, estimated = filled(said.numbers)
    found = contradictions(said, values, refusing, warning)
    taken = ~(said.refused | found.left_out)
    for row in np.flatnonzero(taken & np.any([np.isnan(values[name]) for name in _NEEDED], axis=0)).tolist():
        lacking = next(name for name in _NEEDED if np.isnan(values[name][row]))
        refusing.add(said.lines[row], "", f"{lacking} is not stated and cannot be estimated", f"a column for {lacking}")
        taken[row] = False
    return Judged(said, values, estimated, found, taken, refusing, warning, (*notes, *said.notes))


def report(one: Judged) -> Report:
    """Return what was found as a report."""
    rows = len(one.stated) + len(one.stated.table.overlong) + len(one.stated.table.refused)
    taken = int(np.count_nonzero(one.taken))
    return Report(
        one.stated.table.path,
        rows,
        _findings(one.refusing, rows - taken),
        _findings(one.warning, int(np.count_nonzero(one.found.warned & one.taken))),
        one.notes,
        tuple(columns_wrong(one)),
        assembled(one.stated, one.values, one.estimated, one.taken) if taken else None,
    )


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
