"""What a report was made with: the program and the catalogue, those of the record beside those of now."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from engine.errors import plain
from engine.record.document import NOTICE
from engine.report import formulas
from engine.report.parts import Items, Part, Table, Text, row

if TYPE_CHECKING:
    from engine.record.computed import Computed


def versions(computed: Computed, sources: list[str]) -> Iterator[Part]:
    """Yield the versions, the documents behind the sources of the figures, and the notice."""
    now, record = computed.now, computed.record
    stated = plain(record.engine, 40) if record.found_made_with.get("conewright") else "not stated"
    yield Table(
        ("made with", ""),
        (
            row("Conewright, in the record", stated), row("Conewright, computed now", now.engine),
            row("layout of the record", record.schema),
            row("catalogue", plain(now.catalogue, 1000)), row("its content (SHA-256)", now.catalogue_hash),
        ),
    )  # fmt: skip
    yield Items(tuple(formulas.documents(sources)))
    yield Text(NOTICE, "caution")
