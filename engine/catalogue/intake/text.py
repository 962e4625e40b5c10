"""Bytes to a table of text cells with the line of each row, whatever a spreadsheet made of it.

Survived: byte order marks (UTF-8, UTF-16), Windows-1252 and Latin-1, commas, semicolons or tabs, a first line
`sep=;`, quoted cells, line ends LF, CR LF and CR, empty rows and columns at the end, lines that begin with `#`, a
title above the header. Refused: what is no text, and what is larger than the bounds below.
"""

import codecs
import csv
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from engine.catalogue.cells.csv_rows import DELIMITERS, Lines, csv_rows, separator_of
from engine.catalogue.cells.grid import Cells, Grid, grid_of
from engine.catalogue.cells.scan import Layout, scanned
from engine.catalogue.intake.headers import known_in
from engine.catalogue.trouble import Trouble
from engine.errors import plain

#: Bounds on what is read into memory.
LARGEST_FILE = 64_000_000
MOST_ROWS = 200_000
MOST_COLUMNS = 200
MOST_CELLS = 8_000_000
#: The header is sought in so many rows, so that a title may stand above it.
HEADER_WITHIN = 20
#: So many headers must be known for a row further down to be the header.
LEAST_KNOWN = 3
_CALLED = {",": "commas", ";": "semicolons", "\t": "tabs", "|": "bars"}
_BOMS = ((codecs.BOM_UTF8, "utf-8-sig"), (codecs.BOM_UTF16_LE, "utf-16"), (codecs.BOM_UTF16_BE, "utf-16"))
_PIECE = 1 << 20


@dataclass(frozen=True)
class Headers:
    """What a file's header is known by: how many of some cells it knows, how many make a header, and an example."""

    known_in: Callable[[Sequence[str]], int]
    least: int
    example: str


#: The headers of a catalogue.
OF_CATALOGUE = Headers(known_in, LEAST_KNOWN, "designation, d_mm, D_mm, Cr_kN")


@dataclass(frozen=True, eq=False)
class Table:
    """The cells of a file, every row as wide as the header, and the line on which each row begins.

    `refused` holds line, header, what was wrong and what is accepted of parts that form no assembly.
    `overlong` holds line and number of cells of the rows that reach beyond the header; they are not among the rows.
    """

    path: str
    header: list[str]
    header_line: int
    grid: Grid
    lines: list[int]
    overlong: list[tuple[int, int]]
    delimiter: str
    notes: tuple[str, ...]
    refused: tuple[tuple[int, str, str, str], ...] = ()

    def __len__(self) -> int:
        return len(self.grid)

    @property
    def rows(self) -> list[list[str]]:
        """Every row as texts, for tables that are not large."""
        return list(self.grid.rows())

    def column(self, column: int) -> Cells:
        """Return one column, its cells without the blanks around them."""
        return self.grid.column(column)


def table(path: str | Path, trouble: Trouble) -> Table:
    """Return the table in a file, or raise Problems where the file as a whole cannot be read."""
    return table_of(str(path), trouble.content_of(Path(path), LARGEST_FILE), trouble)


def table_of(name: str, content: bytes, trouble: Trouble, headers: Headers = OF_CATALOGUE) -> Table:
    """Return the table that the bytes of a file hold, or raise Problems where they are no table with such headers."""
    encoding = _encoding(content, trouble)
    notes = []
    if encoding in {"cp1252", "latin-1"}:
        called = "Windows-1252" if encoding == "cp1252" else "Latin-1"
        notes.append(f"The file is not UTF-8; it is read as {called}.")
    if encoding == "utf-16":
        # its cells are sought in bytes, one a sign
        content, encoding = content.decode(encoding).encode(), "utf-8"
    delimiter, skipped = _layout(content, encoding, trouble, headers)
    if delimiter != ",":
        notes.append(f"Columns are parted by {_CALLED[delimiter]}.")
    if skipped:
        notes.append(f"{skipped} row{'s' if skipped > 1 else ''} above the header {_are(skipped)} passed over.")
    file = _File(content, encoding, delimiter, skipped, trouble)
    found = file.quickly(name, tuple(notes))
    return file.row_by_row(name, tuple(notes)) if found is None else found


def _are(count: int) -> str:
    return "is" if count == 1 else "are"


def _encoding(content: bytes, trouble: Trouble) -> str:
    found = next((name for mark, name in _BOMS if content.startswith(mark)), "utf-8")
    if found == "utf-16":
        try:
            decoded = content.decode(found)
        except UnicodeDecodeError:
            trouble.stop("is not whole UTF-16", "a CSV file in UTF-8 or UTF-16")
        if "\0" in decoded:
            trouble.stop("holds a zero character, so it is no text", "a CSV file in UTF-8")
        return found
    if b"\0" in content:
        line = content.count(b"\n", 0, content.index(b"\0")) + 1
        trouble.stop("holds a zero byte, so it is no text", "a CSV file in UTF-8", line)
    return next((name for name in (found, "cp1252") if _decodes(content, name)), "latin-1")


def _decodes(content: bytes, encoding: str) -> bool:
    """Return whether the bytes are text of the encoding; piece by piece, so that memory does not hold it all."""
    if content.isascii():
        return True
    decoder = codecs.getincrementaldecoder(encoding)()
    try:
        for start in range(0, len(content), _PIECE):
            decoder.decode(content[start : start + _PIECE], final=start + _PIECE >= len(content))
    except UnicodeDecodeError:
        return False
    return True


def _layout(content: bytes, encoding: str, trouble: Trouble, headers: Headers) -> tuple[str, int]:
    """Return the delimiter, and how many rows stand above the header: those that make most headers known."""
    declared = separator_of(Lines(content, encoding).first)
    best = (0, ",", 0)
    for delimiter in (declared,) if declared else DELIMITERS:
        for above, row in enumerate(_first_rows(content, encoding, delimiter)):
            known = headers.known_in(row[:MOST_COLUMNS])
            if known > best[0] and (above == 0 or known >= headers.least):
                best = (known, delimiter, above)
    if not best[0]:
        trouble.stop("has no header that is known", f"a first row of headers such as {headers.example}")
    return best[1], best[2]


def _first_rows(content: bytes, encoding: str, delimiter: str) -> list[list[str]]:
    found: list[list[str]] = []
    try:
        for row in csv_rows(Lines(content, encoding), delimiter):
            found.append(row)
            if len(found) == HEADER_WITHIN:
                break
    except csv.Error:
        # with this delimiter it is no CSV; that is told when no other one does better
        pass
    return found


@dataclass(frozen=True)
class _File:
    """A file whose layout is known: `skipped` rows stand above the header."""

    content: bytes
    encoding: str
    delimiter: str
    skipped: int
    trouble: Trouble

    def quickly(self, path: str, notes: tuple[str, ...]) -> Table | None:
        """Return the table by array operations; None where quotes stand so that only the csv module can tell."""
        lines = Lines(self.content, self.encoding)
        for _, row in zip(range(self.skipped + 1), csv_rows(lines, self.delimiter), strict=False):
            header, header_line = row, lines.start
        header = _header(header, header_line, self.trouble)
        content = self.content
        if content.count(b"\r") != content.count(b"\r\n"):
            content = content.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
        layout = Layout(self.delimiter, len(header), self.encoding.removesuffix("-sig"))
        most = min(MOST_ROWS, MOST_CELLS // len(header))
        found = scanned(content, _after(content, lines.number), lines.number + 1, layout, most)
        if found is None:
            return None
        numbers = np.concatenate(found.lines).tolist() if found.lines else []
        if found.rows > most:
            line = max(numbers[-1:] + [line for line, _ in found.overlong[-1:]])
            self._stop_at(line)
        self._stop_if_none(found.rows)
        grid = Grid(found.blocks, layout.encoding)
        return Table(path, header, header_line, grid, numbers, found.overlong, self.delimiter, notes)

    def row_by_row(self, path: str, notes: tuple[str, ...]) -> Table:
        """Return the table by the csv module."""
        lines = Lines(self.content, self.encoding)
        rows = csv_rows(lines, self.delimiter)
        numbers: list[int] = []
        overlong: list[tuple[int, int]] = []
        try:
            for _ in range(self.skipped):
                next(rows)
            header, header_line = _header(next(rows), lines.start, self.trouble), lines.start
            grid = grid_of(self._wide(rows, lines, len(header), numbers, overlong))
        except csv.Error as error:
            wrong = f"is not CSV ({plain(error)})"
            self.trouble.stop(wrong, "cells parted by one sign, quotes closed", max(lines.start, 1))
        self._stop_if_none(len(grid) + len(overlong))
        return Table(path, header, header_line, grid, numbers, overlong, self.delimiter, notes)

    def _wide(
        self,
        rows: Iterator[list[str]],
        lines: Lines,
        width: int,
        numbers: list[int],
        overlong: list[tuple[int, int]],
    ) -> Iterator[list[str]]:
        """Yield the rows as wide as the header, and note the line of each, and of those that are wider."""
        for count, row in enumerate(rows, 1):
            if count > min(MOST_ROWS, MOST_CELLS // width):
                self._stop_at(lines.start)
            whole = _as_wide(row, width)
            if whole is None:
                overlong.append((lines.start, len(row)))
            else:
                numbers.append(lines.start)
                yield whole

    def _stop_at(self, line: int) -> None:
        accepted = f"at most {MOST_ROWS} rows and {MOST_CELLS} cells"
        self.trouble.stop("holds more than can be taken in", accepted, line)

    def _stop_if_none(self, rows: int) -> None:
        if not rows:
            self.trouble.stop("holds no row of data", "a header and at least one row")


def _after(content: bytes, lines: int) -> int:
    """Return the byte behind so many lines."""
    end = -1
    for _ in range(lines):
        end = content.find(b"\n", end + 1)
        if end < 0:
            return len(content)
    return end + 1


def _header(row: list[str], line: int, trouble: Trouble) -> list[str]:
    width = max(place for place, cell in enumerate(row, 1) if cell.strip())
    if width > MOST_COLUMNS:
        trouble.stop(f"has {width} columns", f"at most {MOST_COLUMNS} columns", line)
    return row[:width]


def _as_wide(row: list[str], width: int) -> list[str] | None:
    """Return the row at the width of the header: empty cells at its end are dropped or added; None when it is wider."""
    if len(row) == width:
        return row
    if len(row) < width:
        return row + [""] * (width - len(row))
    return None if any(map(str.strip, row[width:])) else row[:width]
