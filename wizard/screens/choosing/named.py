"""A part or a pair as it is typed: a designation, two of them, or "like this one but steeper"."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.answers.question import Refused
from engine.errors import plain

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

_BUT = re.compile(r"\s+but\s+", re.IGNORECASE)
_AND = re.compile(r"\s*[,;]\s*")
ACCEPTED = "a designation, two with a comma between, and behind them 'but steeper' or the like"


#: So many pairs stand side by side.
MOST_COMPARED = 4


@dataclass(frozen=True)
class Named:
    """What was typed: catalogue rows at A and B, of which one is None for a part; `note` says how they were found."""

    row_A: int | None
    row_B: int | None
    note: str = ""


def read(text: str, catalogue: Catalogue, side: str = "A") -> Named:
    """Return what was typed; a single part stands on the given side. Raises Refused."""
    names, but = _parted(text)
    rows = [_row(name, catalogue) for name in names]
    note = ""
    if but:
        rows = [_alike(catalogue, row, but) for row in rows]
        note = f"Most like {' and '.join(plain(name, 40) for name in names)} but {but}"
    if len(rows) == 1:
        return Named(rows[0], None, note) if side == "A" else Named(None, rows[0], note)
    return Named(rows[0], rows[1], note)


def words() -> str:
    """Return the words that may follow 'but'."""
    from engine.selection.alike import BUT

    return ", ".join(BUT)


def _parted(text: str) -> tuple[list[str], str]:
    """Return the one or two names, and how they are to differ."""
    head, *tail = _BUT.split(text.strip(), maxsplit=1)
    names = [name for name in _AND.split(head.strip()) if name]
    if not 1 <= len(names) <= 2:
        raise Refused("no designation was typed" if not names else f"{len(names)} designations were typed", ACCEPTED)
    return names, _how(tail[0]) if tail else ""


def _how(text: str) -> str:
    from engine.selection.alike import BUT

    wanted = " ".join(text.casefold().split())
    found = [how for how in BUT if how == wanted] or [how for how in BUT if wanted and how.startswith(wanted)]
    if len(found) != 1:
        raise Refused(f'"but {plain(text, 40)}" cannot be looked for', ", ".join(found) or words())
    return found[0]


def _row(name: str, catalogue: Catalogue) -> int:
    import numpy as np

    from engine.catalogue.designation import no_assembly

    at = np.flatnonzero(catalogue.designation == name)
    if not len(at):
        folded = np.char.lower(catalogue.designation.astype(str)) == name.lower()
        at = np.flatnonzero(folded)
    if not len(at):
        raise Refused(no_assembly(name, catalogue), ACCEPTED)
    return int(at[0])


def _alike(catalogue: Catalogue, row: int, but: str) -> int:
    from engine.selection.alike import alike

    found = alike(catalogue, row, but, most=1)
    if not len(found):
        name = plain(catalogue.designation[row], 40)
        raise Refused(f"nothing in the catalogue is like {name} but {but}", words())
    return int(found[0])
