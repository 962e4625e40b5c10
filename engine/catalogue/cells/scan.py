"""Bytes of a CSV file to a grid of cells by array operations, for a file whose quotes stand where they should.

That is: every quote opens a cell or closes one, and no quoted cell holds a line end or a quote. Rows may be shorter
or longer than the header, empty or a comment. Of any other file nothing is returned, and the csv module reads it.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from engine.catalogue.cells.grid import WHITE, Block, Bytes
from engine.numerics import Bools, Rows

#: Bytes taken at a time: the working arrays of a block stay in the cache and bound the memory.
_BLOCK = 1 << 20
#: Files with longer lines are left to the csv module, since the working arrays grow with the line.
_LONGEST_LINE = 4 * _BLOCK
#: The csv module refuses cells that are longer.
_LONGEST_CELL = 131_072
_LINE_END, _RETURN, _QUOTE, _HASH, _DELETE = b'\n\r"#\x7f'
_EVERY = np.arange(256)
_WHITE = np.isin(_EVERY, np.frombuffer(WHITE, dtype=np.uint8))
_VISIBLE = (ord(" ") < _EVERY) & (_EVERY < _DELETE)


@dataclass(frozen=True)
class Layout:
    """How the bytes of a file are to be read: the sign that parts cells, how many a row has, and the encoding."""

    delimiter: str
    width: int
    encoding: str


@dataclass(eq=False)
class Scanned:
    """What was found: rows as blocks, the line of each, and line and number of cells of rows that are too long."""

    blocks: list[Block] = field(default_factory=list)
    lines: list[Rows] = field(default_factory=list)
    overlong: list[tuple[int, int]] = field(default_factory=list)
    rows: int = 0


def whole_lines(content: bytes, start: int) -> Iterator[Bytes]:
    """Yield whole lines of about a block's size; the last line gets its end where it lacks one."""
    while start < len(content):
        end = content.rfind(b"\n", start, start + _BLOCK) + 1 or content.find(b"\n", start) + 1
        if not end:
            yield np.frombuffer(content[start:] + b"\n", dtype=np.uint8)
            return
        yield np.frombuffer(content, dtype=np.uint8, count=end - start, offset=start)
        start = end


def scanned(content: bytes, start: int, line: int, layout: Layout, most_rows: int) -> Scanned | None:
    """Return the rows from a byte of the file on, which is the first of a line; None where a quote stands elsewhere.

    Reading stops when there are more than `most_rows` rows, with one row more.
    """
    found = Scanned()
    for letters in whole_lines(content, start):
        cells = _cells(letters, ord(layout.delimiter)) if len(letters) <= _LONGEST_LINE else None
        if cells is None:
            return None
        _add(found, cells, line, layout, most_rows + 1)
        line += len(cells.first)
        if found.rows > most_rows:
            break
    return found


@dataclass(frozen=True, eq=False)
class _Lines:
    """All cells of a block, and for each line its first byte, the first of its cells and the last."""

    letters: Bytes
    delimiter: int
    starts: NDArray[np.int32]
    stops: NDArray[np.int32]
    first: Rows
    last: Rows
    begins: NDArray[np.int32]

    def text(self, line: int, encoding: str) -> str:
        """Return a line."""
        return self.letters[self.begins[line] : self.stops[self.last[line]]].tobytes().decode(encoding)


def _cells(letters: Bytes, delimiter: int) -> _Lines | None:
    ends = (letters == delimiter) | (letters == _LINE_END)
    quotes = np.flatnonzero(letters == _QUOTE)
    if quotes.size:
        # within a quoted cell an odd number of quotes has gone before; a byte that overflows keeps its last bit
        inside = (np.cumsum(letters == _QUOTE, dtype=np.uint8) & 1).astype(np.bool_)
        if np.any(inside & (letters == _LINE_END)):
            return None
        ends &= ~inside
    stops = np.flatnonzero(ends).astype(np.int32)
    last = np.flatnonzero(letters[stops] == _LINE_END)
    starts = np.concatenate((np.zeros(1, dtype=np.int32), stops[:-1] + 1))
    first = np.concatenate((np.zeros(1, dtype=np.intp), last[:-1] + 1))
    begins = starts[first]
    returned = last[(letters[stops[last] - 1] == _RETURN) & (starts[last] < stops[last])]
    stops[returned] -= 1
    if quotes.size:
        quoted = np.flatnonzero((letters[starts] == _QUOTE) & (starts < stops))
        if 2 * quoted.size != quotes.size or not (
            np.array_equal(quotes[::2], starts[quoted]) and np.array_equal(quotes[1::2], stops[quoted] - 1)
        ):
            return None
        starts[quoted] += 1
        stops[quoted] -= 1
    return (
        None
        if np.any(stops - starts > _LONGEST_CELL)
        else _Lines(letters, delimiter, starts, stops, first, last, begins)
    )


def _add(found: Scanned, cells: _Lines, line: int, layout: Layout, most_rows: int) -> None:
    """Add the rows of a block, as far as there is room for them; its first line has the number `line`."""
    counts = cells.last - cells.first + 1
    kept = ~(_comments(cells, layout.encoding) | _blank(cells, layout.encoding))
    kept &= np.cumsum(kept) <= most_rows - found.rows
    found.rows += int(np.count_nonzero(kept))
    for at in np.flatnonzero(kept & _goes_on(cells, counts, layout)).tolist():
        found.overlong.append((line + at, int(counts[at])))
        kept[at] = False
    if kept.all() and np.all(counts == layout.width):
        starts, stops = (ends.reshape(-1, layout.width) for ends in (cells.starts, cells.stops))
    else:
        place = np.arange(layout.width, dtype=np.int32)
        at = np.minimum(cells.first[kept].astype(np.int32)[:, None] + place, len(cells.starts) - 1)
        there = place < counts[kept][:, None]
        # a cell that the row lacks is empty
        starts, stops = (np.where(there, ends[at], np.int32(0)) for ends in (cells.starts, cells.stops))
    if len(starts):
        found.blocks.append(Block(cells.letters, starts, stops))
        found.lines.append(np.flatnonzero(kept) + line)


def _comments(cells: _Lines, encoding: str) -> Bools:
    """Return which lines are comments: their first sign that is no blank is #."""
    lead = cells.letters[cells.begins]
    if _VISIBLE[lead].all():
        return np.asarray(lead == _HASH)
    # the first byte from the beginning of each line on that is no blank; a line end at the latest
    signs = np.flatnonzero(~_WHITE[cells.letters] | (cells.letters == _LINE_END))
    lead = cells.letters[signs[np.searchsorted(signs, cells.begins)]]
    comment: Bools = lead == _HASH
    for line in np.flatnonzero(lead >= _DELETE).tolist():
        comment[line] = cells.text(line, encoding).lstrip().startswith("#")
    return comment


def _blank(cells: _Lines, encoding: str) -> Bools:
    """Return which lines hold nothing but blanks in all of their cells."""
    head = cells.letters[cells.starts]
    seen = _VISIBLE[head] & (cells.starts < cells.stops)
    blank = ~np.logical_or.reduceat(seen, cells.first)
    if not blank.any():
        return blank
    parting = (cells.letters == cells.delimiter) | (cells.letters == _QUOTE)
    visible = np.logical_or.reduceat(_VISIBLE[cells.letters] & ~parting, cells.begins)
    # quotes, control characters, and bytes of which only the encoding knows whether they are blanks
    odd = ~(_VISIBLE | _WHITE)[cells.letters] | (cells.letters == _QUOTE)
    unsure = np.logical_or.reduceat(odd, cells.begins)
    blank &= ~visible
    for line in np.flatnonzero(blank & unsure).tolist():
        every = range(int(cells.first[line]), int(cells.last[line]) + 1)
        blank[line] = not any(_stripped(cells, at, encoding) for at in every)
    return blank


def _goes_on(cells: _Lines, counts: Rows, layout: Layout) -> Bools:
    """Return which lines hold anything beyond the width of the header."""
    goes_on: Bools = counts > layout.width
    if goes_on.any():
        filled: Rows = np.concatenate((np.zeros(1, dtype=np.intp), np.cumsum(cells.starts < cells.stops)))
        goes_on &= filled[cells.last + 1] > filled[np.minimum(cells.first + layout.width, cells.last + 1)]
    for line in np.flatnonzero(goes_on).tolist():
        beyond = range(int(cells.first[line]) + layout.width, int(cells.last[line]) + 1)
        goes_on[line] = any(_stripped(cells, at, layout.encoding) for at in beyond)
    return goes_on


def _stripped(cells: _Lines, at: int, encoding: str) -> str:
    if cells.starts[at] == cells.stops[at]:
        return ""
    raw = cells.letters[cells.starts[at] : cells.stops[at]].tobytes().strip(WHITE)
    return raw.decode(encoding).strip() if raw else ""
