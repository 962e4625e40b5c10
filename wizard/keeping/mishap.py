"""What happened where an error inside ended or stopped something, in a file for those who can mend it."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from engine import __version__

if TYPE_CHECKING:
    from pathlib import Path


def write_error(folder: Path, error: BaseException | None) -> Path | None:
    """Write the details of an error to a file of the state folder; return it, or None where it cannot be written."""
    import traceback

    path = folder / f"error-{datetime.now():%Y%m%d-%H%M%S}.txt"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        path.write_text(f"conewright {__version__}\n{''.join(traceback.format_exception(error))}", encoding="utf-8")
    except OSError:
        return None
    return path
