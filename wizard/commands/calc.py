"""`conewright calc`: a record in, the computed pair, its checks and the verdict out."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wizard.commands.output import deliver, ended
from wizard.commands.own.catalog import active

if TYPE_CHECKING:
    from engine.record.document import Record
    from engine.record.result import Result


def run(path: Path, as_json: bool, output: str | None = None) -> int:
    """Compute a record and print it; raise Problems where it cannot be used."""
    from engine.record.read import read
    from engine.report import calculation

    record = read(path)
    result, notes = compute(record, str(path))
    text = calculation.as_json(record, result, notes) if as_json else calculation.as_text(record, result, notes)
    deliver(text, output, path)
    return ended(result.passes, record)


def compute(record: Record, file: str) -> tuple[Result, list[str]]:
    """Return the chosen pair computed, and notes: a newer version, a pair merely proposed, figures that moved."""
    from engine.record.computed import compute as compute_record

    found = compute_record(record, file, active())
    return found.result, list(found.notes)
