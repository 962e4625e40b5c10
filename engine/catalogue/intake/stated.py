"""What the cells of a table say, column by column, before anything is estimated or compared."""

from dataclasses import dataclass, field

import numpy as np

from engine.catalogue.cells.grid import Cells
from engine.catalogue.cells.texts import column_of_texts
from engine.catalogue.columns import COLUMNS, LONGEST_TEXT, Column, Texts
from engine.catalogue.intake import numbers
from engine.catalogue.intake.headers import ONE_OF, REQUIRED, Place
from engine.catalogue.intake.text import Table
from engine.catalogue.trouble import Trouble
from engine.errors import plain
from engine.numerics import Bools, Floats, Rows

#: A cell that begins so would be run as a formula by a spreadsheet.
_FORMULA_SIGNS = ("=", "+", "-", "@")


@dataclass
class Stated:
    """The cells of a file as columns: texts, numbers in engine units (NaN where none), and which rows are refused.

    `outside` holds, by column, where a number lies beyond what the column may hold; such a row is refused, but the
    number is kept, since it may tell which unit was meant. `notes` name the columns that the rest of the file settled.
    """

    table: Table
    places: dict[str, Place]
    texts: dict[str, Texts] = field(default_factory=dict)
    numbers: dict[str, Floats] = field(default_factory=dict)
    outside: dict[str, Bools] = field(default_factory=dict)
    refused: Bools = field(default_factory=lambda: np.zeros(0, dtype=np.bool_))
    notes: list[str] = field(default_factory=list)

    @property
    def lines(self) -> list[int]:
        """The line of each row."""
        return self.table.lines

    def __len__(self) -> int:
        return len(self.table)

    def shown(self, name: str, row: int) -> str:
        """Return a cell as it stands in the file, safe to show."""
        return plain(self.cell(name, row), LONGEST_TEXT)

    def cell(self, name: str, row: int) -> str:
        """Return a cell as it stands in the file, without the blanks around it."""
        return self.table.grid.cell(row, self.places[name].index)


def stated(table: Table, places: dict[str, Place], trouble: Trouble) -> Stated:
    """Return what the cells say; what cannot be read is noted as trouble and its row refused."""
    found = Stated(table, places, refused=np.zeros(len(table), dtype=np.bool_))
    read = {
        name: numbers.Column(table.column(place.index)) for name, place in places.items() if place.column.kind != "text"
    }
    rules = numbers.rules_of(read)
    for column in COLUMNS:
        if column.kind == "text" and column.name in places:
            found.texts[column.name] = _texts(column, table.column(places[column.name].index), found, trouble)
        elif column.name in places:
            place, cells, rule = places[column.name], read.pop(column.name), rules[column.name]
            joined = cells.joined_by(rule)
            found.numbers[column.name] = _numbers(place, cells, rule, found, trouble)
            if joined.size:
                found.notes.append(_settled(found, column, int(joined[0]), rule))
        elif column.kind != "text":
            found.numbers[column.name] = np.full(len(table), np.nan)
    if "a" in places and places["a"].mirrored:
        found.numbers["a"] = np.round(found.numbers["T"] - found.numbers["a"], 9)
    _check_unique(found, trouble)
    _check_angle(found, trouble)
    return found


def _texts(column: Column, cells: Cells, found: Stated, trouble: Trouble) -> Texts:
    values, looked_at = column_of_texts(cells, LONGEST_TEXT)
    if column.choices:
        looked_at |= ~np.any([values == choice for choice in ("", *column.choices)], axis=0)
    else:
        first = values.astype("<U1").view("<u4")
        looked_at |= np.any([first == ord(sign) for sign in _FORMULA_SIGNS], axis=0)
    if column.name in REQUIRED:
        looked_at |= values == ""
    rows = np.flatnonzero(looked_at)
    if not rows.size:
        return values
    read = _one_by_one(column, cells, rows, found, trouble)
    wide = np.array(read)
    values = values.astype(np.result_type(values, wide))
    values[rows] = wide
    return values


def _one_by_one(column: Column, cells: Cells, rows: Rows, found: Stated, trouble: Trouble) -> list[str]:
    """Return the texts of some rows, with what is wrong with them noted."""
    header, needed = found.places[column.name].header, column.name in REQUIRED
    accepted = (
        " or ".join(column.choices) if column.choices else f"up to {LONGEST_TEXT} printable characters, no formula"
    )
    choices = {choice.casefold(): choice for choice in column.choices}
    read = []
    for row, cell in zip(rows.tolist(), cells.some(rows), strict=True):
        text = choices.get(cell.casefold().replace(" ", "_"), cell) if choices else cell
        wrong = _wrong_text(column, text, needed)
        if wrong:
            trouble.add(found.lines[row], header, wrong, accepted, text, column.choices)
            found.refused[row] = True
        read.append(text[:LONGEST_TEXT])
    return read


def _wrong_text(column: Column, cell: str, needed: bool) -> str:
    if not cell:
        return "is empty" if needed else ""
    if len(cell) > LONGEST_TEXT:
        return f'"{plain(cell, LONGEST_TEXT)}" is {len(cell)} characters long'
    if not cell.isprintable():
        return f'"{plain(cell)}" holds characters that cannot be shown'
    if column.choices:
        return "" if cell in column.choices else f'"{plain(cell)}" is not known'
    return f'"{plain(cell)}" would be run as a formula by a spreadsheet' if cell.startswith(_FORMULA_SIGNS) else ""


def _numbers(place: Place, cells: numbers.Column, rule: numbers.Rule, found: Stated, trouble: Trouble) -> Floats:
    column, unit = place.column, place.unit
    raw, wrong = cells.converted(rule, unit.spellings)
    for row, one in wrong.items():
        trouble.add(found.lines[row], place.header, one.wrong, one.accepted or accepted(place))
        found.refused[row] = True
    if column.name in REQUIRED:
        for row in np.flatnonzero(np.isnan(raw)).tolist():
            if row not in wrong:
                trouble.add(found.lines[row], place.header, "is empty", accepted(place))
                found.refused[row] = True
    values = raw if unit.factor == 1 and not unit.offset else np.round(raw * unit.factor + unit.offset, 9)
    outside = (values < column.least) | (values > column.greatest)
    if column.kind == "count":
        outside |= values != np.floor(values)
        outside &= ~np.isnan(values)
    if outside.any():
        found.outside[column.name] = outside
        found.refused |= outside
    return values * column.scale


def _settled(found: Stated, column: Column, row: int, rule: numbers.Rule) -> str:
    shown = found.shown(column.name, row)
    whole = shown.replace(".", "").replace(",", "")
    called = {",": "comma", ".": "point"}[rule.decimal]
    header = plain(found.places[column.name].header)
    return f'In the column "{header}" a figure such as "{shown}" is {whole}: the file writes decimals with a {called}.'


def accepted(place: Place) -> str:
    """Return what a cell of numbers may hold, in the unit that the header states."""
    column, unit = place.column, place.unit
    least, greatest = ((limit - unit.offset) / unit.factor for limit in (column.least, column.greatest))
    noun = "a whole number" if column.kind == "count" else "a number"
    name = "" if unit.name == "-" else f" {unit.name}"
    rest = "" if column.name in REQUIRED else ", or empty"
    return f"{noun} from {least:.6g} to {greatest:.6g}{name}{rest}"


def _check_unique(found: Stated, trouble: Trouble) -> None:
    names: list[str] = found.texts["designation"].tolist()
    if len(set(names)) == len(names):
        return
    header = found.places["designation"].header
    first: dict[str, int] = {}
    for row, (name, line) in enumerate(zip(names, found.lines, strict=True)):
        # rows and not lines are compared: a cone's line stands for every assembly that the cone is in
        if name and first.setdefault(name, row) != row:
            wrong = f'"{plain(name)}" stands on line {found.lines[first[name]]} already'
            trouble.add(line, header, wrong, "a designation of its own for every assembly")
            found.refused[row] = True


def _check_angle(found: Stated, trouble: Trouble) -> None:
    none = np.all([np.isnan(found.numbers[name]) for name in ONE_OF], axis=0)
    headers = [found.places[name].header for name in ONE_OF if name in found.places]
    for row in np.flatnonzero(none & ~found.refused).tolist():
        trouble.add(found.lines[row], headers[0], "tells no contact angle", f"a number in one of {', '.join(headers)}")
        found.refused[row] = True
