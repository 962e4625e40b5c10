"""`conewright verify`: compute a record again and say which of its figures moved, by how much and why."""

from __future__ import annotations

from pathlib import Path

from wizard.commands.output import ended, show
from wizard.commands.own.catalog import active


def run(path: Path, as_json: bool) -> int:
    """Print what verifying a record comes to; raise Problems where it cannot be used."""
    from engine.record.compared.verify import verify
    from engine.record.computed import compute
    from engine.record.read import read
    from engine.report.compared import verification_json, verification_text

    record = read(path)
    found = verify(compute(record, str(path), active()))
    show(verification_json(found, str(path)) if as_json else verification_text(found, str(path)))
    return ended(found.holds, record)
