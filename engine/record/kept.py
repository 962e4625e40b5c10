"""The file a session is kept in, watched: what another program wrote there is never overwritten unseen."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path


class Kept:
    """What was last read from, or written to, a file."""

    def __init__(self, path: Path) -> None:
        self._print = _fingerprint(path)

    def changed_by_another(self, path: Path) -> bool:
        """Return whether the file holds something else than what this session read or wrote last.

        A file that is gone counts as unchanged: it is simply written again.
        """
        now = _fingerprint(path)
        return now is not None and now != self._print

    def written(self, path: Path) -> None:
        """Remember what now stands in the file."""
        self._print = _fingerprint(path)


def aside(path: Path) -> Path:
    """Return a free name beside a file, for answers that must not overwrite it."""
    stem = f"{path.stem}-mine-{datetime.now():%Y%m%d-%H%M%S}"
    names = (path.with_name(f"{stem}{more}{path.suffix}") for more in ("", *(f"-{n}" for n in range(2, 1000))))
    return next(name for name in names if not name.exists())


def _fingerprint(path: Path) -> bytes | None:
    # the content, not the clock: clocks jump, and a copy put back is no change
    try:
        import hashlib  # a new session has no file yet, and begins sooner without it

        return hashlib.blake2b(path.read_bytes(), digest_size=16).digest()
    except (OSError, ValueError):  # a name that holds a null byte is a ValueError
        return None
