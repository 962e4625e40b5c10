"""Ways to begin: a new session, the sessions and records worked on last, the finished example. Knows no screen."""

from __future__ import annotations

import contextlib
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from wizard.keeping import rescue, shelf

#: So many records are remembered, and so many of all are offered.
MOST = 20
OFFERED = 7
_LIST = "recent.txt"


@dataclass(frozen=True)
class Offer:
    """One way to begin: what it is called, more about it, and the file to open ("" new, "demo" the example)."""

    title: str
    about: str
    path: str


def remember(folder: Path, path: Path) -> None:
    """Put a record at the head of those worked on last."""
    kept = [str(path), *(one for one in _listed(folder) if one != str(path))]
    with contextlib.suppress(OSError, ValueError):
        folder.mkdir(parents=True, exist_ok=True)
        (folder / _LIST).write_text("".join(f"{one}\n" for one in kept[:MOST]), encoding="utf-8")


def _listed(folder: Path) -> list[str]:
    try:
        return [one for one in (folder / _LIST).read_text(encoding="utf-8").splitlines() if one.isprintable() and one]
    except (OSError, ValueError):
        return []


def offers(folder: Path) -> list[Offer]:
    """Return the ways to begin: new, then what was worked on last, then the example."""
    unnamed = shelf.in_order(folder)
    dated = [(when, path, True) for path, when in reversed(unnamed)]
    for path in rescue.stranded():
        with contextlib.suppress(OSError):
            dated.append((path.stat().st_mtime, path, True))
    for path in map(Path, _listed(folder)):
        with contextlib.suppress(OSError):
            dated.append((path.stat().st_mtime, path, False))
    dated.sort(key=lambda one: one[0], reverse=True)  # of the same time: in the order of work
    found = [Offer("new session", "from the first question on; saved as you go", "")]
    for when, path, unfinished in dated[:OFFERED]:
        day = f"{datetime.fromtimestamp(when):%Y-%m-%d %H:%M}"
        record = rescue.record_of(path) if unfinished else None
        about = f"unfinished, {day}" if unfinished else f"{day}, {path.parent}"
        about = about if record is None else f"{about}, not saved in {record}"
        found.append(Offer(_job(path) or path.name, about, str(path)))
    return [*found, Offer("example", "finished, to look around in; kept in a copy", "demo")]


def _job(path: Path) -> str:
    """Return what the record says its job is, from its first lines only; "" where it does not."""
    with contextlib.suppress(OSError, ValueError), path.open(encoding="utf-8") as file:
        for line, _ in zip(file, range(40), strict=False):
            key, _, value = line.partition(" = ")
            if key == "job":
                return value.strip().strip('"')[:28]
    return ""
