"""CSV to columns: every bad row named by file, line and column, all of them in one go."""

import csv
import functools
import io
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from engine.catalogue.columns import COLUMNS, LONGEST_TEXT, Catalogue, Column, Texts, join
from engine.catalogue.physics import impossible_rows
from engine.catalogue.trouble import Trouble
from engine.errors import nearest, plain
from engine.numerics import Floats

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

#: Bounds on what is read into memory; 100 000 assemblies take about 20 MB.
LARGEST_FILE = 64_000_000
MOST_ROWS = 200_000
#: Among at most so many unknown headers a missing one is sought.
MOST_COLUMNS = 200
_HEADERS = [column.header for column in COLUMNS]


def read(path: "str | Path | Traversable") -> Catalogue:
    """Return the catalogue in a CSV file, or raise Problems with everything that is wrong with it."""
    source = Path(path) if isinstance(path, str) else path
    trouble = Trouble(str(path))
    text = _text_of(source, trouble)
    rows, lines = _rows_of(text, trouble)
    places = _places(rows.pop(0), lines.pop(0), trouble)
    rows, lines = _whole_rows(rows, lines, places, trouble)
    by_place = list(zip(*rows, strict=True))
    columns: dict[str, Any] = {
        column.name: _converted(column, by_place[places[column.header]], lines, trouble)
        if column.header in places
        else _absent(column, len(rows))
        for column in COLUMNS
    }
    _check_unique(columns["designation"], lines, trouble)
    trouble.stop_if_any()
    catalogue = Catalogue(**columns)
    impossible_rows(catalogue, lines, trouble)
    trouble.stop_if_any()
    return catalogue


@functools.cache
def builtin() -> Catalogue:
    """Return the invented catalogue that comes with the program: the metric assemblies, then the inch ones."""
    from importlib.resources import files

    folder = files("catalogs")
    return join([read(folder.joinpath(name)) for name in ("metric.csv", "inch.csv")])


def _text_of(source: "Path | Traversable", trouble: Trouble) -> str:
    try:
        with source.open("rb") as file:
            content = file.read(LARGEST_FILE + 1)
    except (OSError, ValueError) as error:
        # ValueError: a path with a NUL character in it
        reason = getattr(error, "strerror", None) or str(error)
        trouble.stop(f"cannot be read ({plain(reason)})", "a CSV file")
    if not content.strip():
        trouble.stop("is empty", "a CSV file with a header and at least one row")
    if len(content) > LARGEST_FILE:
        trouble.stop(f"is larger than {LARGEST_FILE} bytes", "a catalogue of at most that size")
    if b"\0" in content:
        line = content.count(b"\n", 0, content.index(b"\0")) + 1
        trouble.stop("holds a zero byte, so it is no text", "a CSV file in UTF-8", line)
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        # `start` counts from after the byte order mark where there is one
        line = error.object.count(b"\n", 0, error.start) + 1
        trouble.stop(f"is not UTF-8 (byte {error.object[error.start]:#04x})", "a CSV file in UTF-8", line)


def _rows_of(text: str, trouble: Trouble) -> tuple[list[list[str]], list[int]]:
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    rows: list[list[str]] = []
    lines: list[int] = []
    try:
        for row in reader:
            # a line of nothing but separators is how spreadsheets leave an empty row
            if any(row) and any(map(str.strip, row)):
                rows.append(row)
                lines.append(reader.line_num)
            if len(rows) > MOST_ROWS + 1:
                trouble.stop(f"holds more than {MOST_ROWS} rows", "a catalogue of at most that size")
    except csv.Error as error:
        trouble.stop(f"is not CSV ({plain(error)})", "comma-separated values", reader.line_num)
    if len(rows) < 2:
        trouble.stop("holds no row of data", "a CSV file with a header and at least one row")
    return rows, lines


def _places(header: list[str], line: int, trouble: Trouble) -> dict[str, int]:
    """Return where each known column stands; missing and doubled ones end the reading, since no row makes sense."""
    names = [name.strip() for name in header]
    places: dict[str, int] = {}
    for place, name in enumerate(names):
        if name in places and name in _HEADERS:
            trouble.add(line, name, "stands twice in the header", "each column once")
        if name in _HEADERS:
            places[name] = place
    unknown = [name for name in names if name and name not in places][:MOST_COLUMNS]
    for column in COLUMNS:
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
    if not whole:
        trouble.stop_if_any()
    return whole, whole_lines


def _converted(column: Column, cells: Sequence[str], lines: list[int], trouble: Trouble) -> Texts | Floats:
    if column.kind == "text":
        return _texts(column, cells, lines, trouble)
    return _numbers(column, cells, lines, trouble)


def _absent(column: Column, rows: int) -> Texts | Floats:
    return np.full(rows, column.default) if column.kind == "text" else np.full(rows, np.nan)


def _texts(column: Column, cells: Sequence[str], lines: list[int], trouble: Trouble) -> Texts:
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


def _numbers(column: Column, cells: Sequence[str], lines: list[int], trouble: Trouble) -> Floats:
    try:
        values = np.array(list(map(float, cells)))
        # float() also takes 1_000 and digits of other scripts; a catalogue does not
        whole = "".join(cells)
        good = whole.isascii() and "_" not in whole and bool(np.all(_within(column, values)))
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


def _within(column: Column, values: Floats) -> Floats:
    inside = (values >= column.least) & (values <= column.greatest)
    return inside & (values == np.floor(values)) if column.kind == "count" else inside


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


def _check_unique(names: Texts | Floats, lines: list[int], trouble: Trouble) -> None:
    listed: list[str] = names.tolist()
    if len(set(listed)) == len(listed):
        return
    first: dict[str, int] = {}
    for name, line in zip(listed, lines, strict=True):
        if name and first.setdefault(name, line) != line:
            wrong = f'"{plain(name)}" stands on line {first[name]} already'
            trouble.add(line, "designation", wrong, "a designation of its own for every assembly")
