"""Texts of a column by array operations: whole ASCII cells become a numpy column without a Python string each."""

import numpy as np

from engine.catalogue.cells.grid import Bytes, Cells, Places
from engine.catalogue.columns import Texts
from engine.numerics import Bools

_BLANK, _DELETE = b" \x7f"


def column_of_texts(cells: Cells, longest: int) -> tuple[Texts, Bools]:
    """Return a column as texts, and which cells are in doubt and therefore empty; `texts` says of what kind."""
    found = [texts(part.letters, part.starts, part.stops, longest) for part in cells.parts()]
    if not found:
        return np.empty(0, dtype="<U1"), np.empty(0, dtype=np.bool_)
    return np.concatenate([one for one, _ in found]), np.concatenate([one for _, one in found])


def texts(letters: Bytes, starts: Places, stops: Places, longest: int) -> tuple[Texts, Bools]:
    """Return the cells from `starts` up to `stops` as texts, and which are in doubt.

    In doubt, and empty here, is what is longer than `longest` or holds anything but printable ASCII.
    """
    lengths = stops - starts
    doubtful = lengths > longest
    width = int(np.max(lengths, where=~doubtful, initial=0))
    if not width:
        return np.full(len(starts), "", dtype="<U1"), doubtful
    places = np.arange(width, dtype=np.int32)
    letter = letters.take(starts.astype(np.int32, copy=False)[:, None] + places, mode="clip")
    inside = places < lengths[:, None]
    doubtful |= np.any(inside & ((letter < _BLANK) | (letter >= _DELETE)), axis=1)
    letter *= inside & ~doubtful[:, None]
    return letter.astype("<u4").view(f"<U{width}")[:, 0], doubtful
