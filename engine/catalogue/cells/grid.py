"""The cells of a file without a Python string each: where every cell begins and ends in the bytes of the file."""

import bisect
import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from engine.numerics import Rows

Bytes = NDArray[np.uint8]
Places = NDArray[np.int32]
#: Rows of single cells that are put into a block together.
_ROWS_AT_A_TIME = 4000
#: So many blanks at either end of a cell are passed over by array operations, more of them one cell at a time.
_MOST_BLANKS = 8
#: ASCII characters that str.strip() takes off.
WHITE = b"\t\n\v\f\r\x1c\x1d\x1e\x1f "
_IS_WHITE = np.isin(np.arange(256), np.frombuffer(WHITE, dtype=np.uint8))


@dataclass(frozen=True, eq=False)
class Block:
    """Some rows: their bytes, and for each row and column where its cell begins and where it ends."""

    letters: Bytes
    starts: Places
    stops: Places

    def __len__(self) -> int:
        return len(self.starts)

    def cell(self, row: int, column: int) -> bytes:
        """Return the bytes of one cell."""
        return self.letters[self.starts[row, column] : self.stops[row, column]].tobytes()


@dataclass(frozen=True, eq=False)
class Part:
    """The cells of one column in one block, ASCII blanks at their ends left out, and the row of the first of them."""

    first: int
    letters: Bytes
    starts: Places
    stops: Places


@dataclass(frozen=True, eq=False)
class Grid:
    """Rows of cells, block after block, all of one width."""

    blocks: Sequence[Block]
    encoding: str = "utf-8"
    _firsts: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        self._firsts.extend(itertools.accumulate((len(block) for block in self.blocks), initial=0))

    def __len__(self) -> int:
        return self._firsts[-1]

    def cell(self, row: int, column: int) -> str:
        """Return one cell, blanks at its ends left out."""
        at = bisect.bisect_right(self._firsts, row) - 1
        return self.blocks[at].cell(row - self._firsts[at], column).decode(self.encoding).strip()

    def column(self, column: int) -> "Cells":
        """Return a column."""
        return Cells(self, column)

    def rows(self) -> Iterator[list[str]]:
        """Yield every row as a list of texts, as they stand in the file."""
        for block in self.blocks:
            width = block.starts.shape[1]
            for row in range(len(block)):
                yield [block.cell(row, column).decode(self.encoding) for column in range(width)]


@dataclass(frozen=True, eq=False)
class Cells:
    """One column of a grid."""

    grid: Grid
    column: int

    def __len__(self) -> int:
        return len(self.grid)

    def some(self, rows: Rows) -> Iterator[str]:
        """Yield the cells of some rows, blanks at their ends left out."""
        for row in rows.tolist():
            yield self.grid.cell(row, self.column)

    def parts(self) -> Iterator[Part]:
        """Yield the column block after block."""
        first = 0
        for block in self.grid.blocks:
            starts, stops = block.starts[:, self.column].copy(), block.stops[:, self.column].copy()
            yield Part(first, block.letters, *_trimmed(block.letters, starts, stops))
            first += len(block)


def _trimmed(letters: Bytes, starts: Places, stops: Places) -> tuple[Places, Places]:
    for ends, step, at in ((starts, 1, 0), (stops, -1, -1)):
        blank = np.flatnonzero(_IS_WHITE[letters.take(ends + at, mode="clip")] & (starts < stops))
        for _ in range(_MOST_BLANKS):
            if not blank.size:
                break
            ends[blank] += step
            blank = blank[(starts[blank] < stops[blank]) & _IS_WHITE[letters.take(ends[blank] + at, mode="clip")]]
        for row in blank.tolist():
            cell = letters[starts[row] : stops[row]].tobytes()
            ends[row] += step * (len(cell) - len(cell.lstrip(WHITE) if step > 0 else cell.rstrip(WHITE)))
    return starts, stops


def grid_of(rows: Iterable[Sequence[str]]) -> Grid:
    """Return rows of one width as a grid; they are taken one after the other and not kept."""
    coming = iter(rows)
    blocks: list[Block] = []
    while some := list(itertools.islice(coming, _ROWS_AT_A_TIME)):
        blocks.append(_block_of(some))
    return Grid(blocks)


def _block_of(rows: Sequence[Sequence[str]]) -> Block:
    cells = list(itertools.chain.from_iterable(rows))
    whole = "".join(cells)
    if whole.isascii():
        letters = whole.encode()
        lengths = np.fromiter(map(len, cells), dtype=np.int32, count=len(cells))
    else:
        each = [cell.encode("utf-8", "surrogatepass") for cell in cells]
        letters = b"".join(each)
        lengths = np.fromiter(map(len, each), dtype=np.int32, count=len(cells))
    stops = np.cumsum(lengths, dtype=np.int32).reshape(len(rows), -1)
    # one more byte, so that an empty cell at the end begins inside
    return Block(np.frombuffer(letters + b"\n", dtype=np.uint8), stops - lengths.reshape(stops.shape), stops)
