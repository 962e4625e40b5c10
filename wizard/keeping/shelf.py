"""The folder of sessions without a name of their own: which is the newest, and which go."""

from __future__ import annotations

import contextlib
import os
import time
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

#: Of the sessions kept in the state folder so many stay whatever their age; others go once they are old.
KEPT = 20
OLD = 30 * 86400.0  # [s]
#: A file from before this (2025-01-01, in seconds since 1970) was written under a clock that was never set.
CLOCK_UNSET = 1735689600.0
#: The order of work: a line is added whenever a run first saves a session, so that no clock is needed to know it.
ORDER = "order.txt"
_LONGEST_ORDER = 1000  # [lines]


def state_folder(environ: Mapping[str, str] = os.environ) -> Path:
    """Return where sessions without a name of their own are kept."""
    base = environ.get("XDG_STATE_HOME") or os.path.join(environ.get("HOME", "~"), ".local", "state")
    return Path(base).expanduser() / "conewright"


def new_path(folder: Path, now: datetime) -> Path:
    """Return a free name for a new session."""
    stem = f"session-{now:%Y%m%d-%H%M%S}"
    names = (f"{stem}.toml", *(f"{stem}-{n}.toml" for n in range(2, 1000)))
    return next(
        (folder / name for name in names if not (folder / name).exists()), folder / f"{stem}-{os.getpid()}.toml"
    )


def note(path: Path) -> None:
    """Remember a session as the one worked on last, with the latest time of those before it."""
    before = max((when for _, when in in_order(path.parent)), default=0.0)
    with contextlib.suppress(OSError, ValueError), (path.parent / ORDER).open("a", encoding="utf-8") as file:
        file.write(f"{before:.0f} {path.name}\n")


def _noted(folder: Path) -> dict[str, float]:
    """Return the names in the order of work, each where it was noted last, with the time that it is no older than."""
    found: dict[str, float] = {}
    with contextlib.suppress(OSError):
        for one in (folder / ORDER).read_text(encoding="utf-8", errors="replace").splitlines():
            before, _, name = one.partition(" ")
            found.pop(name, None)
            found[name] = float(before) if before.isascii() and before.isdecimal() else 0.0
    return found


def in_order(folder: Path) -> list[tuple[Path, float]]:
    """Return the sessions, the one worked on last at the end, each with the earliest time that can have been.

    What was worked on after another is no older than that one, whatever the clock said when it was written. Sessions
    that were never noted stand where their own time puts them.
    """
    noted = _noted(folder)
    place = {name: at for at, name in enumerate(noted)}
    times: dict[Path, float] = {}
    with contextlib.suppress(OSError):
        for path in folder.glob("session-*.toml"):
            with contextlib.suppress(OSError):  # another wizard may just have taken it away
                times[path] = max(path.stat().st_mtime, noted.get(path.name, 0.0))
    latest = 0.0
    for path in sorted((path for path in times if path.name in place), key=lambda path: place[path.name]):
        latest = times[path] = max(latest, times[path])
    return sorted(times.items(), key=lambda one: (one[1], place.get(one[0].name, -1), one[0].name))


def unfinished(folder: Path, but: Path | None = None) -> Path | None:
    """Return the session of the state folder that was worked on last, other than `but`."""
    found = [path for path, _ in in_order(folder) if path != but]
    return found[-1] if found else None


def prune(folder: Path) -> None:
    """Remove sessions that are neither among the last worked on nor younger than a month, and torn files."""
    now = time.time()
    for path, when in in_order(folder)[:-KEPT]:
        if CLOCK_UNSET < when < now - OLD:
            with contextlib.suppress(OSError):
                path.unlink()
    with contextlib.suppress(OSError):
        # a half-written file is left where a process was killed between writing and renaming
        for path in [path for path in folder.glob(".session-*.part") if path.stat().st_mtime < now - 3600]:
            path.unlink()
    noted = _noted(folder)
    if len(noted) > _LONGEST_ORDER:
        from engine.record.write import write

        kept = [f"{when:.0f} {name}\n" for name, when in noted.items() if (folder / name).exists()]
        with contextlib.suppress(OSError):
            write(folder / ORDER, "".join(kept))
