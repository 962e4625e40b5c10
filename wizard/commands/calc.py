"""`conewright calc`: a record in, the computed pair, its checks and the verdict out."""

from __future__ import annotations

import sys
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING

from wizard.commands.catalog import active
from wizard.exit_codes import Exit

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue
    from engine.operating import Conditions
    from engine.record.document import Record
    from engine.record.result import Result


def run(path: Path, as_json: bool) -> int:
    """Compute a record and print it; raise Problems where it cannot be used."""
    from engine.record.read import read
    from engine.report import calculation

    record = read(path)
    result, notes = compute(record, str(path))
    text = calculation.as_json(record, result, notes) if as_json else calculation.as_text(record, result, notes)
    # a terminal or file that cannot hold a letter of a name gets an escape in its place
    if isinstance(sys.stdout, TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")
    sys.stdout.write(text)
    return Exit.PASSES if result.passes else Exit.FAILS


def compute(record: Record, file: str) -> tuple[Result, list[str]]:
    """Return the chosen pair computed, and notes: a newer version, a pair merely proposed, figures that moved."""
    from engine.answers.resolved import resolve
    from engine.catalogue import source
    from engine.operating import Conditions
    from engine.record.moved import moved
    from engine.record.result import compute as compute_pair

    chosen = source.opened(source.placed(record.answers.choice.catalogue, Path(file).parent, active()))
    catalogue = chosen.rows
    conditions = Conditions.of(resolve(record.answers))
    notes = [*record.warnings, *chosen.notes]
    rows, note = _rows(record, catalogue, conditions, file)
    notes += [note] if note else []
    result = compute_pair(catalogue.take([rows[0]]), catalogue.take([rows[1]]), conditions)
    if record.catalogue_hash and record.catalogue_hash != chosen.content:
        notes.append("The catalogue has changed since the record was written.")
    return result, notes + moved(record, result)


def _rows(record: Record, catalogue: Catalogue, conditions: Conditions, file: str) -> tuple[tuple[int, int], str]:
    """Return the catalogue rows of the chosen pair, or of the best one where none is chosen yet."""
    from engine.errors import Problem, Problems
    from engine.selection import rank, screen

    choice = record.answers.choice
    if choice.bearing_a and choice.bearing_b:
        found, problems = [], []
        for key, name in (("bearing_a", choice.bearing_a), ("bearing_b", choice.bearing_b)):
            try:
                found.append(catalogue.index_of(name))
            except Problems as error:
                problems += [
                    Problem(file, None, f"answers.choice.{key}", one.wrong, one.accepted, one.nearest)
                    for one in error.problems
                ]
        if problems:
            raise Problems(problems)
        return (found[0], found[1]), ""
    screening = screen.screen(catalogue, conditions)
    best = rank.shortlist(catalogue, screening, conditions, record.answers.choice.rank_by or "mass", 1)
    if not len(best):
        none = "there are too many pairs to look through" if screening.too_many else "none of the catalogue passes"
        wrong = f"no pair is chosen, and {none}"
        raise Problems(
            [Problem(file, None, "answers.choice", wrong, "bearing_a and bearing_b, or a duty that leaves a pair")]
        )
    return (int(best.rows_A[0]), int(best.rows_B[0])), "No pair is chosen; the first of the shortlist is computed."
