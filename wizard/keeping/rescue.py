"""Answers that cannot be saved where they belong: kept elsewhere at once, and offered at the next start."""

from __future__ import annotations

import contextlib
import os
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from wizard.keeping import shelf

if TYPE_CHECKING:
    from collections.abc import Iterator

    from engine.answers.document import Answers

#: Which session of the state folder holds what belongs into which record: a line each, the newest last.
_RESCUED = "rescued.txt"
#: How folders of a session begin where not even the state folder took it.
_TEMPORARY = "conewright-"


class Rescue:
    """The file that answers are kept in as long as their own cannot be written."""

    def __init__(self) -> None:
        self._file: Path | None = None
        self._holds: Answers | None = None

    def keep(self, text: str, answers: Answers, record: Path) -> Path | None:
        """Write the text of a record that holds these answers; return the file, or None where none can be written."""
        found = _write(text, self._file, record)
        if found is not None:
            self._file, self._holds = found, answers
        return found

    def holding(self, answers: Answers) -> Path | None:
        """Return the file where it is there and holds these answers."""
        held = self._file is not None and self._holds == answers and self._file.exists()
        return self._file if held else None

    def drop(self) -> None:
        """Remove the file: the answers stand where they belong, or were taken back."""
        if self._file is not None:
            with contextlib.suppress(OSError):
                self._file.unlink()
                if self._file.parent.name.startswith(_TEMPORARY):
                    (self._file.parent / shelf.ORDER).unlink(missing_ok=True)
                    self._file.parent.rmdir()
            self._file = self._holds = None


def _write(text: str, before: Path | None, record: Path) -> Path | None:
    """Write where it was written before, else into the state folder, else into a new folder for temporary files."""
    from engine.record.write import write

    if before is not None:
        with contextlib.suppress(OSError):
            write(before, text)
            return before
    for folder in (shelf.state_folder, _temporary):
        place = None
        try:
            place = folder()
            place.mkdir(parents=True, exist_ok=True)
            path = shelf.new_path(place, datetime.now())
            write(path, text)
        except OSError:
            if folder is _temporary and place is not None:
                with contextlib.suppress(OSError):
                    place.rmdir()
            continue
        shelf.note(path)
        _remember(path, record)
        return path
    return None


def _temporary() -> Path:
    import tempfile

    # a folder of its own, which only this user can read
    return Path(tempfile.mkdtemp(prefix=_TEMPORARY))


def _remember(session: Path, record: Path) -> None:
    """Remember into which record a session belongs."""
    if str(record).isprintable():
        with contextlib.suppress(OSError, ValueError), (session.parent / _RESCUED).open("a", encoding="utf-8") as file:
            file.write(f"{session.name} {record}\n")


def belongings(folder: Path) -> dict[str, Path]:
    """Return into which record each session of a folder belongs that was kept there in its place, the newest last."""
    found: dict[str, Path] = {}
    with contextlib.suppress(OSError):
        for one in (folder / _RESCUED).read_text(encoding="utf-8", errors="replace").splitlines():
            name, _, record = one.partition(" ")
            if record and (folder / name).exists():
                found[name] = Path(record)
    return found


def rescued_of(record: Path) -> Path | None:
    """Return the newest session that holds what could not be saved in a record, None where there is none."""
    folders = [shelf.state_folder(), *_temporaries()]
    kept = [folder / name for folder in folders for name, one in belongings(folder).items() if one == record]
    return max(kept, key=lambda path: path.stat().st_mtime, default=None)


def record_of(session: Path) -> Path | None:
    """Return the record into which a session belongs, None where it belongs nowhere else."""
    return belongings(session.parent).get(session.name)


def stranded() -> list[Path]:
    """Return the sessions in folders for temporary files."""
    return [path for folder in _temporaries() for path in sorted(folder.glob("session-*.toml"))]


def _temporaries() -> Iterator[Path]:
    """Walk the folders for temporary files that hold sessions of this user; anybody may make one of such a name."""
    # what tempfile looks at first: importing it would hold up every start
    places = {os.environ.get("TMPDIR") or "/tmp", "/tmp"}
    for place in sorted(places):
        with contextlib.suppress(OSError):
            for entry in os.scandir(place):
                if entry.name.startswith(_TEMPORARY) and entry.is_dir(follow_symlinks=False):
                    state = entry.stat(follow_symlinks=False)
                    if state.st_uid == os.getuid() and not state.st_mode & 0o077:
                        yield Path(entry.path)
