"""`conewright verify`: compute a record again and say which of its figures moved, by how much and why."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wizard.commands.output import ended, show
from wizard.commands.own.catalog import active

if TYPE_CHECKING:
    from engine.record.compared.verify import Verification
    from engine.record.document import Record


def run(path: Path, as_json: bool) -> int:
    """Print what verifying a record comes to; raise Problems where it cannot be used."""
    from engine.report.compared import verification_json, verification_text

    found, record = verified(path)
    show(verification_json(found, str(path)) if as_json else verification_text(found, str(path)))
    return ended(found.holds, record)


def verified(path: Path) -> tuple[Verification, Record]:
    """Return what verifying the record in a file comes to, and the record; raise Problems where it cannot be used."""
    from engine.record.compared.verify import verify
    from engine.record.computed import compute
    from engine.record.read import read

    record = read(path)
    return verify(compute(record, str(path), active())), record
