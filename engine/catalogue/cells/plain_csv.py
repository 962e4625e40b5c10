"""The quick way through a CSV file: bytes to columns by array operations, for a file that is ordinary throughout.

Ordinary means ASCII without quotes, every line of as many cells as the header, every cell good. Anything else gives
None, and the reader walks the file cell by cell and says what is wrong.
"""

from collections.abc import Sequence
from typing import Any

import numpy as np

from engine.catalogue.cells.decimals import decimals
from engine.catalogue.cells.grid import Bytes, Places
from engine.catalogue.cells.scan import whole_lines
from engine.catalogue.cells.texts import texts
from engine.catalogue.columns import LONGEST_TEXT, Column, Texts, within
from engine.errors import nearest
from engine.numerics import Floats

_COMMA, _LINE_END, _BLANK = b",\n "


def plain_columns(content: bytes, columns: Sequence[Column], most_rows: int) -> dict[str, Any] | None:
    """Return the wanted columns of an ordinary CSV file by name, or None when it is not ordinary."""
    if b'"' in content or not content.isascii():
        return None
    if b"\r" in content:
        content = content.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    end = content.find(b"\n")
    header = [name.strip() for name in content[: max(end, 0)].decode().split(",")]
    places = header_places(header, columns)
    if end < 0 or places is None or len(header) < 2:
        return None
    found: dict[str, list[Any]] = {column.name: [] for column in columns}
    rows = 0
    for block in whole_lines(content, end + 1):
        cells = _cell_ends(block, len(header))
        if cells is None or not _convert(block, cells, columns, places, found):
            return None
        rows += len(cells)
        if rows > most_rows:
            return None
    if not rows:
        return None
    return {name: np.concatenate(parts) for name, parts in found.items()}


def header_places(header: list[str], columns: Sequence[Column]) -> dict[str, int] | None:
    """Return where each known column stands; None where one is missing, doubled or perhaps misspelt."""
    known = {column.header for column in columns}
    places = {name: place for place, name in enumerate(header) if name in known}
    if len(places) != sum(name in known for name in header):
        return None
    unknown = [name for name in header if name and name not in known]
    for column in columns:
        if column.header not in places and (column.required or len(unknown) > 9 or nearest(column.header, unknown)):
            return None
    return places


def _cell_ends(block: Bytes, cells: int) -> Places | None:
    """Where each cell ends, one row a line; None when a line has another number of cells."""
    line_ends = block == _LINE_END
    ends = np.flatnonzero(line_ends | (block == _COMMA)).astype(np.int32)
    rows = int(np.count_nonzero(line_ends))
    if len(ends) != rows * cells:
        return None
    grid = ends.reshape(rows, cells)
    return grid if bool(np.all(line_ends[grid[:, -1]])) else None


def _convert(
    block: Bytes, ends: Places, columns: Sequence[Column], places: dict[str, int], found: dict[str, list[Any]]
) -> bool:
    """Add the block's part of every column to what was found; return whether all of it was good."""
    rows = len(ends)
    before = np.concatenate((np.full(1, -1, dtype=np.int32), ends[:-1, -1]))
    for column in columns:
        if column.header not in places:
            found[column.name].append(absent(column, rows))
            continue
        place = places[column.header]
        stops = np.ascontiguousarray(ends[:, place])
        starts = (ends[:, place - 1] if place else before) + 1
        part = _texts(block, starts, stops, column) if column.kind == "text" else _numbers(block, starts, stops, column)
        if part is None:
            return False
        found[column.name].append(part)
    return True


def absent(column: Column, rows: int) -> Texts | Floats:
    """Return a column that the file does not have: its default, or not known."""
    return np.full(rows, column.default) if column.kind == "text" else np.full(rows, np.nan)


def _texts(block: Bytes, starts: Places, stops: Places, column: Column) -> Texts | None:
    lengths = stops - starts
    filled = lengths > 0
    if column.required and not filled.all():
        return None
    # a cell with a blank at its end is left to the reader that strips and judges
    if np.any(filled & ((block[starts] == _BLANK) | (block[stops - 1] == _BLANK))):
        return None
    read, doubtful = texts(block, starts, stops, LONGEST_TEXT)
    if doubtful.any():
        return None
    if column.choices:
        known = ~filled
        for choice in column.choices:
            known |= read == choice
        if not known.all():
            return None
    return read if not column.default else np.where(filled, read, column.default)


def _numbers(block: Bytes, starts: Places, stops: Places, column: Column) -> Floats | None:
    empty = starts == stops
    if column.required and empty.any():
        return None
    found = decimals(block, starts, stops)
    if found.doubtful.any() or not bool(np.all(within(column, found.values) | empty)):
        return None
    return found.values * column.scale
