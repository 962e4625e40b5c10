"""What a report was made with: the program and the catalogue, those of the record beside those of now."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from engine.errors import plain
from engine.record.document import NOTICE
from engine.report import formulas
from engine.report.parts import Section, Table, Text, row

if TYPE_CHECKING:
    from engine.record.computed import Computed


def versions(computed: Computed, sources: list[str]) -> Iterator[Section]:
    """Yield the versions, and the documents behind the sources of the figures with the notice."""
    now, record = computed.now, computed.record
    stated = plain(record.engine, 40) if record.found_made_with.get("conewright") else "not stated"
    made = Table(
        ("made with", ""),
        (
            row("Conewright, in the record", stated), row("Conewright, computed now", now.engine),
            row("layout of the record", record.schema),
            row("catalogue", plain(now.catalogue, 1000)), row("its content (SHA-256)", now.catalogue_hash),
        ),
    )  # fmt: skip
    yield Section("Versions", (made,))
    rows = tuple(
        row(one.short, one.title, plain("; ".join(one.places), 2000), one.seen) for one in formulas.documents(sources)
    )
    yield Section(
        "Sources",
        (
            Text(
                "What is cited, and how its text came to be known. What is recalled was written from memory, without "
                "the document at hand: hold it against the document before relying on it."
            ),
            Table(("document", "title", "cited here", "how it came to be known"), rows),
            Text(NOTICE, "caution"),
        ),
    )
