"""`conewright diff`: two records side by side: answers, choice, figures."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wizard.commands.output import ended, show
from wizard.commands.own.catalog import active

if TYPE_CHECKING:
    from engine.record.compared.difference import Difference
    from engine.record.computed import Computed
    from engine.record.document import Record


def run(one: Path, other: Path, as_json: bool) -> int:
    """Print how two records differ, both computed now, and whether each holds what is computed; raise Problems."""
    from engine.record.read import read
    from engine.report.compared import difference_json, difference_text

    records = read(one), read(other)
    found, notes = compared(records, (one, other))
    files = str(one), str(other)
    show(difference_json(found, files, notes) if as_json else difference_text(found, files, notes))
    return ended(found.same, *records)


def compared(records: tuple[Record, Record], paths: tuple[Path, Path]) -> tuple[Difference, list[str]]:
    """Return how two records differ, both computed now, and notes on either; `paths` are their files."""
    from engine.record.compared.difference import between

    notes: list[str] = []
    one, other = (_computed(record, path, notes) for record, path in zip(records, paths, strict=True))
    stored = records[0].found, records[1].found
    return between(records[0].answers, records[1].answers, (one, other), stored), notes


def _computed(record: Record, path: Path, notes: list[str]) -> Computed | None:
    """Return a record computed; where its pair cannot be, answers and stored results are compared all the same."""
    from engine.errors import Problems
    from engine.record.compared.moved import moved
    from engine.record.computed import compute

    try:
        found = compute(record, str(path), active())
    except Problems as problems:
        notes.append(f"{path.name} cannot be computed: {problems}".replace("\n", "; "))
        return None
    # what moved in the record itself is said in one line, and shown by verify
    known = moved(record, found.result)
    notes += [f"{path.name}: {note}" for note in found.notes if note not in known]
    return found
