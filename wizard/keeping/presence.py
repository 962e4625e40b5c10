"""Which record is open in which wizard of this machine and user: a small file a process, read and never waited for.

Nothing is locked. A mark counts only as long as its process lives, so one that a kill left behind says nothing.
"""

from __future__ import annotations

import contextlib
import os
import time
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from wizard.keeping import shelf

#: Marks of another machine that shares the home folder cannot be checked; they go once they are this old [s].
_OLD = 30 * 86400.0


@dataclass(frozen=True)
class Open:
    """A record that is open in another wizard: its process, and since when."""

    process: int
    since: datetime


def mark(path: Path) -> None:
    """Say that this process has a record open, in place of what it had open before."""
    with contextlib.suppress(OSError, ValueError):
        own = _own()
        own.parent.mkdir(parents=True, exist_ok=True)
        written = f"{_machine()}\n{_begun(os.getpid())}\n{time.time():.0f}\n{os.path.realpath(path)}\n"
        own.write_text(written, encoding="utf-8", errors="surrogateescape")


def unmark() -> None:
    """Say that this process has nothing open any more."""
    with contextlib.suppress(OSError):
        _own().unlink()


def others(path: Path) -> list[Open]:
    """Return the other wizards that have a record open, the first of them first."""
    found = []
    with contextlib.suppress(OSError, ValueError):
        wanted = os.path.realpath(path)
        for file in _folder().glob("*.txt"):
            one = _read(file, wanted)
            if one is not None:
                found.append(one)
    return sorted(found, key=lambda one: (one.since, one.process))


def _read(file: Path, wanted: str) -> Open | None:
    """Return what a mark says where it is of the wanted record and its process lives; remove a mark that is stale."""
    try:
        text = file.read_text(encoding="utf-8", errors="surrogateescape")
        machine, begun, since, path = text.split("\n", 3)
        process, when = int(file.stem), float(since)
        if machine != _machine():
            if file.stat().st_mtime < time.time() - _OLD:
                file.unlink()
            return None
        if process <= 0 or not _alive(process, begun):
            file.unlink()
            return None
        if process == os.getpid() or path != f"{wanted}\n":
            return None
        return Open(process, datetime.fromtimestamp(when))
    except (OSError, ValueError, OverflowError):
        return None


def _alive(process: int, begun: str) -> bool:
    """Return whether a process lives and is the one that the mark is of: numbers are used again."""
    try:
        os.kill(process, 0)
    except PermissionError:
        return False  # of another user, so not the one that wrote here
    except (OSError, OverflowError):
        return False
    return _begun(process) == begun


def _begun(process: int) -> str:
    """Return when a process began, in ticks since the machine did (proc_pid_stat(5), field 22); "" where none says."""
    with contextlib.suppress(OSError, IndexError):
        # the name in field 2 may hold anything, so fields are counted behind its end
        behind = Path(f"/proc/{process}/stat").read_text(encoding="ascii", errors="replace").rpartition(")")[2].split()
        return "" if behind[0] == "Z" else behind[19]
    return ""


def _machine() -> str:
    return os.uname().nodename


def _folder() -> Path:
    return shelf.state_folder() / "open"


def _own() -> Path:
    return _folder() / f"{os.getpid()}.txt"
