"""The catalogue to work with: the built-in one, or a file of the user's own."""

import os
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from engine.catalogue import read
from engine.catalogue.columns import Catalogue
from engine.catalogue.intake import check

BUILT_IN = "built-in"


@dataclass(frozen=True)
class Source:
    """A catalogue with its name, what was left out of it, and a hash that tells when its content changes."""

    name: str
    rows: Catalogue
    notes: tuple[str, ...] = ()
    content: str = field(default="")


def opened(path: Path | None, built_in: Callable[[], Catalogue] = read.builtin) -> Source:
    """Return the catalogue in a file, or the built-in one for None; raise Problems where no row can be used.

    A sound file in the program's own format is read the quick way; any other goes through the intake, which leaves out
    what is wrong row by row.
    """
    if path is None:
        rows = built_in()
        return Source(BUILT_IN, rows, (), rows.content_hash())
    notes: list[str] = []
    quick = read.read_quickly(path)
    if quick is None:
        rows, notes = check.load(path)
    else:
        rows = quick
    return Source(str(path), rows, tuple(notes), rows.content_hash())


def placed(name: str | None, folder: Path, otherwise: Path | None) -> Path | None:
    """Return the file that a record names, seen from the record's folder; `otherwise` where it names none."""
    if not name:
        return otherwise
    return Path(folder, os.path.expanduser(name))
