"""What the command line hands to the application: how a session begins, and what can be done with its record."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from engine.record.compared.difference import Difference
    from engine.record.compared.verify import Verification
    from engine.record.document import Record
    from wizard.commands.recent import Offer
    from wizard.session import Session


@dataclass(frozen=True)
class Beginning:
    """How a session begins: the ways that are offered, what opens one, and what remembers a record by its name.

    `ways` looks up what can be gone on with later, while a session is open; `document` writes one of a session, by its
    form, and returns the file. `verified` computes the file of a session again, `compared` holds its record against
    another one, read from a file; both return what came out.
    """

    offers: list[Offer] = field(default_factory=list)
    opened: Callable[[Offer], tuple[Session, str]] | None = None
    remember: Callable[[Path], object] = str  # where nothing remembers, the name is looked at and forgotten
    ways: Callable[[], list[Offer]] = list
    document: Callable[[Session, str], Path] | None = None
    verified: Callable[[Session], tuple[Verification, Record]] | None = None
    compared: Callable[[Session, Record, Path], tuple[Difference, list[str]]] | None = None
