"""The quick way through a CSV file: bytes to columns by array operations, for a file that is ordinary throughout.

Ordinary means ASCII without quotes, every line of as many cells as the header, every cell good. Anything else gives
None, and the reader walks the file cell by cell and says what is wrong. Numbers come out to the last bit as float()
reads them: a whole mantissa of at most 15 digits over a power of ten is a division of two exact numbers.
"""

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from engine.catalogue.columns import LONGEST_TEXT, Column, Texts, within
from engine.errors import nearest
from engine.numerics import Floats

Bytes = NDArray[np.uint8]
Places = NDArray[np.intp]
#: Bytes taken at a time: the working arrays of a block stay in the cache and bound the memory.
_BLOCK = 1 << 20
_MOST_DIGITS = 15
_COMMA, _LINE_END, _POINT, _MINUS, _ZERO, _BLANK, _DELETE = b",\n.-0 \x7f"
_POWERS = 10.0 ** np.arange(_MOST_DIGITS + 2)


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
    for block in _blocks(content, end + 1):
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


def _blocks(content: bytes, start: int) -> Iterator[Bytes]:
    """Whole lines of about a block's size; the last line gets its end where it lacks one."""
    while start < len(content):
        end = content.rfind(b"\n", start, start + _BLOCK) + 1
        block = content[start : end or len(content)]
        yield np.frombuffer(block if block.endswith(b"\n") else block + b"\n", dtype=np.uint8)
        start += len(block)


def _cell_ends(block: Bytes, cells: int) -> Places | None:
    """Where each cell ends, one row a line; None when a line has another number of cells."""
    line_ends = block == _LINE_END
    ends = np.flatnonzero(line_ends | (block == _COMMA))
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
    before = np.concatenate(([-1], ends[:-1, -1]))
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
    longest = int(lengths.max())
    if longest > LONGEST_TEXT or (column.required and not lengths.all()):
        return None
    inside = np.arange(longest) < lengths[:, None]
    letters = np.where(inside, block[np.minimum(starts[:, None] + np.arange(longest), len(block) - 1)], 0)
    # a cell with a blank at its end or a control character anywhere is left to the reader that strips and judges
    if np.any((letters < _BLANK) & inside) or np.any(letters == _DELETE):
        return None
    filled = lengths > 0
    if np.any(filled & ((block[starts] == _BLANK) | (block[stops - 1] == _BLANK))):
        return None
    texts = letters.astype("<u4").view(f"<U{longest}")[:, 0] if longest else np.full(len(starts), "")
    if column.choices:
        known = lengths == 0
        for choice in column.choices:
            known |= texts == choice
        if not known.all():
            return None
    return texts if not column.default else np.where(lengths == 0, column.default, texts)


def _numbers(block: Bytes, starts: Places, stops: Places, column: Column) -> Floats | None:
    lengths = stops - starts
    empty = lengths == 0
    if (column.required and empty.any()) or int(lengths.max()) > _MOST_DIGITS + 2:
        return None
    mantissa = np.zeros(len(starts), dtype=np.int64)
    decimals = np.full(len(starts), -1, dtype=np.int64)
    digits = np.zeros(len(starts), dtype=np.int64)
    negative = (block[starts] == _MINUS) & ~empty
    for at in range(int(lengths.max())):
        inside = at < lengths
        letter = block[np.minimum(starts + at, len(block) - 1)]
        point = inside & (letter == _POINT)
        digit = inside & ((letter - np.uint8(_ZERO)) < 10)
        odd = inside & ~point & ~digit
        if at == 0:
            odd &= ~negative
        if odd.any() or bool(np.any(point & (decimals >= 0))):
            return None
        mantissa = np.where(digit, mantissa * 10 + letter - _ZERO, mantissa)
        digits += digit
        decimals = np.where(point, 0, decimals + (digit & (decimals >= 0)))
    if bool(np.any((digits > _MOST_DIGITS) | ((digits == 0) & ~empty))):
        return None
    values = mantissa / _POWERS[np.maximum(decimals, 0)]
    values = np.where(negative, -values, values)
    if not bool(np.all(within(column, values) | empty)):
        return None
    return np.where(empty, np.nan, values * column.scale)
