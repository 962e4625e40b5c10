"""Figures beside the arrows of a drawn shaft, and the arrows of forces along it: each only where there is room."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.units import number_text

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

#: A force smaller than this share of the greatest in the picture is not drawn.
NOTHING = 1e-6


def figure(force: float) -> str:
    """Return the amount of a force as short as a picture needs it: '950N', '12.1kN'."""
    size = abs(force)
    # 999.6 N would be written as 1000 N
    return f"{number_text(size, 3)}N" if size < 999.5 else f"{number_text(size / 1000, 3)}kN"


def put_beside(row: list[str], column: int, text: str) -> None:
    """Put a text to the right of an arrow, else to its left, where nothing stands within a cell of it; else nowhere."""
    right, left = column + 1, column - len(text)
    # one cell more than the text at its far end: two figures never run into one
    for first, cells in ((right, range(right, right + len(text) + 1)), (left, range(left - 1, column))):
        inside = first >= 0 and first + len(text) <= len(row)
        if inside and all(row[at] == " " for at in cells if 0 <= at < len(row)):
            row[first : first + len(text)] = text
            return


def put_along(row: list[str], pattern: str, taken: Collection[int], column: int, arrow: str, force: float) -> None:
    """Put an arrow along the axis beside its place, with its figure where there is room, else alone or not at all.

    `taken` are columns of the row that must stay as they are; `pattern` is what the axis itself is drawn with.
    """
    for text in (arrow + figure(force), arrow):
        for first in (column + 1, column - len(text)):
            cells = range(first, first + len(text))
            # a cell is left on either side, so that two figures never run into one
            if not {first - 1, first + len(text), *cells} & set(taken) - {column} and _drawn(row, cells, pattern):
                row[first : first + len(text)] = text
                return


def _drawn(row: Sequence[str], cells: range, pattern: str) -> bool:
    """Return whether all cells are those of the bare axis."""
    return cells.start >= 0 and cells.stop <= len(row) and all(row[at] in pattern for at in cells)
