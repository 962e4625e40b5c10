"""Bytes to a table of text cells with the line of each row, whatever a spreadsheet made of it.

Survived: byte order marks (UTF-8, UTF-16), Windows-1252 and Latin-1, commas, semicolons or tabs, a first line
`sep=;`, quoted cells, line ends LF, CR LF and CR, empty rows and columns at the end, lines that begin with `#`, a
title above the header. Refused: what is no text, and what is larger than the bounds below.
"""

import csv
import io
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

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
DELIMITERS = (",", ";", "\t", "|")
_CALLED = {",": "commas", ";": "semicolons", "\t": "tabs", "|": "bars"}
_BOMS = ((b"\xef\xbb\xbf", "utf-8-sig"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"))


@dataclass(frozen=True)
class Headers:
    """What a file's header is known by: how many of some cells it knows, how many make a header, and an example."""

    known_in: Callable[[Sequence[str]], int]
    least: int
    example: str


#: The headers of a catalogue.
OF_CATALOGUE = Headers(known_in, LEAST_KNOWN, "designation, d_mm, D_mm, Cr_kN")


@dataclass(frozen=True)
class Table:
    """The cells of a file, every row as wide as the header, and the line on which each row begins.

    `refused` holds line, header, what was wrong and what is accepted of parts that form no assembly.
    `overlong` holds line and number of cells of the rows that reach beyond the header; they are not among the rows.
    """

    path: str
    header: list[str]
    header_line: int
    rows: list[list[str]]
    lines: list[int]
    overlong: list[tuple[int, int]]
    delimiter: str
    notes: tuple[str, ...]
    refused: tuple[tuple[int, str, str, str], ...] = ()


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
    delimiter, skipped = _layout(content, encoding, trouble, headers)
    if delimiter != ",":
        notes.append(f"Columns are parted by {_CALLED[delimiter]}.")
    if skipped:
        notes.append(f"{skipped} row{'s' if skipped > 1 else ''} above the header {_are(skipped)} passed over.")
    return _filled(name, _Lines(content, encoding), delimiter, skipped, trouble, notes)


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
    for name in (found, "cp1252"):
        try:
            content.decode(name)
        except UnicodeDecodeError:
            continue
        return name
    return "latin-1"


class _Lines:
    """The lines of a file, with the number of the line on which the present row began.

    Decoded piece by piece, so that the text never stands in memory as a whole. Lines of comment are passed over
    where a row may begin; inside a quoted cell every line belongs to the cell.
    """

    def __init__(self, content: bytes, encoding: str) -> None:
        # newline="": LF, CR LF and CR end a line, and the csv module gets them as they are
        self._file = io.TextIOWrapper(io.BytesIO(content), encoding, newline="")
        self._number = 0
        self.row_begins = True
        self.start = 0

    def __iter__(self) -> Iterator[str]:
        return self

    def __next__(self) -> str:
        for line in self._file:
            self._number += 1
            if self.row_begins:
                if line.lstrip().startswith("#") or (self._number == 1 and separator_of(line)):
                    continue
                self.start = self._number
                self.row_begins = False
            return line
        raise StopIteration

    @property
    def first(self) -> str:
        """The first line, when nothing was read yet."""
        return self._file.readline(100)


def separator_of(line: str) -> str:
    """Return the sign that a line `sep=;` declares, or "" when it is no such line."""
    text = line.strip("\r\n \"'")
    if len(text) == 5 and text[:4].casefold() == "sep=" and text[4] in DELIMITERS:
        return text[4]
    return "\t" if line.strip("\r\n\"'").casefold() == "sep=\t" else ""


def _rows(lines: _Lines, delimiter: str) -> Iterator[list[str]]:
    """Yield the rows that hold anything."""
    for row in csv.reader(lines, delimiter=delimiter, strict=True):
        if any(row) and any(map(str.strip, row)):
            yield row
        lines.row_begins = True


def _layout(content: bytes, encoding: str, trouble: Trouble, headers: Headers) -> tuple[str, int]:
    """Return the delimiter, and how many rows stand above the header: those that make most headers known."""
    declared = separator_of(_Lines(content, encoding).first)
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
        for row in _rows(_Lines(content, encoding), delimiter):
            found.append(row)
            if len(found) == HEADER_WITHIN:
                break
    except csv.Error:
        # with this delimiter it is no CSV; that is told when no other one does better
        pass
    return found


def _filled(path: str, lines: _Lines, delimiter: str, skipped: int, trouble: Trouble, notes: list[str]) -> Table:
    header: list[str] = []
    header_line = 0
    rows: list[list[str]] = []
    numbers: list[int] = []
    overlong: list[tuple[int, int]] = []
    try:
        for count, row in enumerate(_rows(lines, delimiter)):
            if count < skipped:
                continue
            if not header:
                header, header_line = _header(row, lines.start, trouble), lines.start
                continue
            whole = _as_wide(row, len(header))
            if whole is None:
                overlong.append((lines.start, len(row)))
            else:
                rows.append(whole)
                numbers.append(lines.start)
            if count > MOST_ROWS + skipped or len(rows) * len(header) > MOST_CELLS:
                accepted = f"at most {MOST_ROWS} rows and {MOST_CELLS} cells"
                trouble.stop("holds more than can be taken in", accepted, lines.start)
    except csv.Error as error:
        trouble.stop(f"is not CSV ({plain(error)})", "cells parted by one sign, quotes closed", max(lines.start, 1))
    if not rows and not overlong:
        trouble.stop("holds no row of data", "a header and at least one row")
    return Table(path, header, header_line, rows, numbers, overlong, delimiter, tuple(notes))


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
