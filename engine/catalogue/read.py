"""CSV to columns: every bad row named by file, line and column, all of them in one go."""

import codecs
import csv
import functools
import io
import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from engine.catalogue.cells.plain_csv import absent, plain_columns
from engine.catalogue.columns import COLUMNS, LONGEST_TEXT, Catalogue, Column, Texts, join, within
from engine.catalogue.parts import CONE_COLUMNS, CUP_COLUMNS, Cones, Cups, assemblies
from engine.catalogue.physics import impossible_rows
from engine.catalogue.trouble import Trouble
from engine.errors import nearest, plain
from engine.numerics import Floats

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

#: Bounds on what is read into memory; 200 000 assemblies take about 50 MB as a file.
LARGEST_FILE = 100_000_000
MOST_ROWS = 200_000
#: Among at most so many unknown headers a missing one is sought.
MOST_COLUMNS = 200
_ROWS_AT_A_TIME = 5000


def read(path: "str | Path | Traversable") -> Catalogue:
    """Return the catalogue in a CSV file, or raise Problems with everything that is wrong with it."""
    table = read_table(path, COLUMNS)
    catalogue = Catalogue(**table.columns)
    impossible_rows(catalogue, table.lines, table.trouble)
    table.trouble.stop_if_any()
    return catalogue


def read_quickly(path: Path) -> Catalogue | None:
    """Return the catalogue in a file that is ordinary and sound throughout, None for any other that can be read."""
    trouble = Trouble(str(path))
    content = trouble.content_of(path, LARGEST_FILE).removeprefix(codecs.BOM_UTF8)
    found = plain_columns(content, COLUMNS, MOST_ROWS)
    if found is None:
        return None
    catalogue = Catalogue(**found)
    lines = range(2, 2 + len(catalogue))
    _check_unique(catalogue.designation, lines, trouble)
    impossible_rows(catalogue, lines, trouble)
    return None if trouble.found else catalogue


@functools.cache
def builtin() -> Catalogue:
    """Return the invented catalogue that comes with the program: the metric assemblies, then the inch ones."""
    from importlib.resources import files

    folder = files("catalogs")
    return join([read(folder.joinpath("metric.csv")), read_parts(folder)])


def read_parts(folder: "Path | Traversable") -> Catalogue:
    """Return all assemblies of the cones and cups in the files inch_cones.csv and inch_cups.csv of a folder."""
    cones = read_table(folder.joinpath("inch_cones.csv"), CONE_COLUMNS)
    cups = read_table(folder.joinpath("inch_cups.csv"), CUP_COLUMNS)
    return assemblies(Cones(**cones.columns), Cups(**cups.columns))


@dataclass(frozen=True)
class Table:
    """Columns of a file by name, the line of each row, and where to note what is wrong with a row."""

    columns: dict[str, Any]
    lines: Sequence[int]
    trouble: Trouble


def read_table(path: "str | Path | Traversable", columns: Sequence[Column]) -> Table:
    """Return the declared columns of a CSV file, cell by cell in range, with unique designations."""
    source = Path(path) if isinstance(path, str) else path
    trouble = Trouble(str(path))
    content = _content_of(source, trouble)
    found = plain_columns(content, columns, MOST_ROWS)
    lines: Sequence[int]
    if found is None:
        found, lines = _by_cell(content, columns, trouble)
    else:
        lines = range(2, 2 + len(found["designation"]))
    _check_unique(found["designation"], lines, trouble)
    trouble.stop_if_any()
    return Table(found, lines, trouble)


def _content_of(source: "Path | Traversable", trouble: Trouble) -> bytes:
    """Return the bytes of the file, which are UTF-8 without its mark."""
    content = trouble.content_of(source, LARGEST_FILE)
    if b"\0" in content:
        line = content.count(b"\n", 0, content.index(b"\0")) + 1
        trouble.stop("holds a zero byte, so it is no text", "a CSV file in UTF-8", line)
    content = content.removeprefix(codecs.BOM_UTF8)
    try:
        if not content.isascii():
            content.decode()
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        trouble.stop(f"is not UTF-8 (byte {content[error.start]:#04x})", "a CSV file in UTF-8", line)
    return content


def _by_cell(content: bytes, columns: Sequence[Column], trouble: Trouble) -> tuple[dict[str, Any], Sequence[int]]:
    """Return the columns and the line of each row, with every wrong cell noted; a block of rows at a time."""
    blocks = _row_blocks(content, trouble)
    rows, lines = next(blocks, ([], []))
    if not rows:
        trouble.stop("holds no row of data", "a CSV file with a header and at least one row")
    places = _places(rows.pop(0), lines.pop(0), columns, trouble)
    found: dict[str, list[Any]] = {column.name: [] for column in columns}
    every_line: list[int] = []
    for block, block_lines in itertools.chain([(rows, lines)], blocks):
        whole, whole_lines = _whole_rows(block, block_lines, places, trouble)
        if not whole:
            continue
        every_line += whole_lines
        by_place = list(zip(*whole, strict=True))
        for column in columns:
            found[column.name].append(
                _converted(column, by_place[places[column.header]], whole_lines, trouble)
                if column.header in places
                else absent(column, len(whole))
            )
    if not every_line:
        trouble.stop_if_any()
        trouble.stop("holds no row of data", "a CSV file with a header and at least one row")
    return {name: np.concatenate(parts) for name, parts in found.items()}, every_line


def _row_blocks(content: bytes, trouble: Trouble) -> Iterator[tuple[list[list[str]], list[int]]]:
    reader = csv.reader(io.TextIOWrapper(io.BytesIO(content), encoding="utf-8", newline=""), strict=True)
    rows: list[list[str]] = []
    lines: list[int] = []
    count = 0
    try:
        for row in reader:
            # a line of nothing but separators is how spreadsheets leave an empty row
            if not any(row) or not any(map(str.strip, row)):
                continue
            rows.append(row)
            lines.append(reader.line_num)
            count += 1
            if count > MOST_ROWS + 1:
                trouble.stop(f"holds more than {MOST_ROWS} rows", "a catalogue of at most that size")
            if len(rows) > _ROWS_AT_A_TIME:
                yield rows, lines
                rows, lines = [], []
    except csv.Error as error:
        trouble.stop(f"is not CSV ({plain(error)})", "comma-separated values", reader.line_num)
    if rows:
        yield rows, lines


def _places(header: list[str], line: int, columns: Sequence[Column], trouble: Trouble) -> dict[str, int]:
    """Return where each known column stands; missing and doubled ones end the reading, since no row makes sense."""
    names = [name.strip() for name in header]
    known = {column.header for column in columns}
    places: dict[str, int] = {}
    for place, name in enumerate(names):
        if name in places and name in known:
            trouble.add(line, name, "stands twice in the header", "each column once")
        if name in known:
            places[name] = place
    unknown = [name for name in names if name and name not in places][:MOST_COLUMNS]
    for column in columns:
        if column.header in places:
            continue
        close = nearest(column.header, unknown)
        # a column that may be left out is missed only when something is spelled much like it
        if column.required or close:
            seen = f', the file has "{plain(close)}"' if close else ""
            trouble.add(line, column.header, f"is missing{seen}", f'a column headed "{column.header}"')
    if len(names) == 1 and ";" in names[0]:
        trouble.stop("has its columns parted by semicolons", "columns parted by commas", line)
    trouble.stop_if_any()
    return places


def _whole_rows(
    rows: list[list[str]], lines: list[int], places: dict[str, int], trouble: Trouble
) -> tuple[list[list[str]], list[int]]:
    """Return the rows that reach to the last known column, cut there; the others are problems."""
    wanted = max(places.values()) + 1
    if all(len(row) >= wanted for row in rows):
        return [row[:wanted] for row in rows] if any(len(row) != wanted for row in rows) else rows, lines
    whole, whole_lines = [], []
    for row, line in zip(rows, lines, strict=True):
        if len(row) >= wanted:
            whole.append(row[:wanted])
            whole_lines.append(line)
        else:
            trouble.add(line, "", f"holds {len(row)} cells", f"at least {wanted} cells")
    return whole, whole_lines


def _converted(column: Column, cells: Sequence[str], lines: Sequence[int], trouble: Trouble) -> Texts | Floats:
    if column.kind == "text":
        return _texts(column, cells, lines, trouble)
    return _numbers(column, cells, lines, trouble)


def _texts(column: Column, cells: Sequence[str], lines: Sequence[int], trouble: Trouble) -> Texts:
    cells = [cell.strip() for cell in cells]
    if not column.required:
        # an optional column may be empty throughout
        cells = [cell or column.default for cell in cells]
    # the longest and the join are looked at first: a good column costs no look at its single cells
    good = max(map(len, cells)) <= LONGEST_TEXT and (all(cells) or not column.required) and "".join(cells).isprintable()
    if good and (not column.choices or set(cells) <= {*column.choices, column.default}):
        return np.array(cells)
    for cell, line in zip(cells, lines, strict=True):
        wrong = _wrong_text(column, cell)
        if wrong:
            trouble.add(line, column.header, wrong, column.accepted, cell, column.choices)
    return np.array([cell[:LONGEST_TEXT] for cell in cells])


def _wrong_text(column: Column, cell: str) -> str:
    if not cell:
        return "is empty" if column.required else ""
    if len(cell) > LONGEST_TEXT:
        return f'"{plain(cell, LONGEST_TEXT)}" is {len(cell)} characters long'
    if not cell.isprintable():
        return f'"{plain(cell)}" holds characters that cannot be shown'
    return f'"{plain(cell)}" is not known' if column.choices and cell not in column.choices else ""


def _numbers(column: Column, cells: Sequence[str], lines: Sequence[int], trouble: Trouble) -> Floats:
    try:
        values = np.array(list(map(float, cells)))
        # float() also takes 1_000 and digits of other scripts; a catalogue does not
        whole = "".join(cells)
        good = whole.isascii() and "_" not in whole and bool(np.all(within(column, values)))
    except ValueError:
        good = False
    if good:
        return values * column.scale
    values = np.full(len(cells), np.nan)
    for row, (cell, line) in enumerate(zip(cells, lines, strict=True)):
        wrong = _wrong_number(column, cell)
        if wrong:
            trouble.add(line, column.header, wrong, column.accepted)
        elif cell.strip():
            values[row] = float(cell)
    return values * column.scale


def _wrong_number(column: Column, cell: str) -> str:
    if not cell.strip():
        return "is empty" if column.required else ""
    shown = f'"{plain(cell)}"'
    try:
        value = float(cell) if cell.isascii() and "_" not in cell else np.nan
    except ValueError:
        value = np.nan
    if not np.isfinite(value):
        return f"{shown} is not a number"
    if value < column.least:
        return f"{shown} is too small"
    if value > column.greatest:
        return f"{shown} is too large"
    return f"{shown} is not whole" if column.kind == "count" and value != int(value) else ""


def _check_unique(names: Texts | Floats, lines: Sequence[int], trouble: Trouble) -> None:
    listed: list[str] = names.tolist()
    if len(set(listed)) == len(listed):
        return
    first: dict[str, int] = {}
    for name, line in zip(listed, lines, strict=True):
        if name and first.setdefault(name, line) != line:
            wrong = f'"{plain(name)}" stands on line {first[name]} already'
            trouble.add(line, "designation", wrong, "a designation of its own for every assembly")
