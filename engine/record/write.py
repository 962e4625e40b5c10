"""Records to files: the same bytes for the same content, and never half a file."""

from __future__ import annotations

import contextlib
import os
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from engine.record.document import Record, to_tables
from engine.record.tables import to_toml

if TYPE_CHECKING:
    # for the checker only: computing loads numpy, which saving an answer must not wait for
    from engine.record.result import Result


def to_text(record: Record, result: Result | None) -> str:
    """Return the record as TOML, with the comments of the file that it was read from."""
    tables = to_tables(record, result)
    return record.carried.into_text(to_toml(tables), tables)


def write(path: Path, text: str | bytes) -> None:
    """Write a text so that a crash leaves the old file or the new one: temporary file, fsync, rename.

    Raises OSError with the old file untouched. A symbolic link is followed, so that it keeps pointing at the record.
    """
    content = text if isinstance(text, bytes) else text.encode()
    path = Path(os.path.realpath(path))
    # only the beginning of the name, since a name may be as long as the file system allows
    handle, temporary = tempfile.mkstemp(prefix=f".{path.name[:40]}.", suffix=".part", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(temporary, _mode(path))
        os.replace(temporary, path)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(temporary)
        raise
    _sync_folder(path.parent)


def _mode(path: Path) -> int:
    """Return the permissions of the file to be replaced, or those that a new file would get."""
    try:
        return path.stat().st_mode & 0o7777
    except OSError:
        mask = os.umask(0)
        os.umask(mask)
        return 0o666 & ~mask


def _sync_folder(folder: Path) -> None:
    """Make the rename itself durable where the system allows it."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
