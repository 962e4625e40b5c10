"""Header names to columns, with the unit in the name: `d_mm`, `D [in]`, `Cr (kN)`, `n_grease rpm`.

Which names and units there are is declared once, in `UNITS` and `WORDS` beside `COLUMNS`; the reader, the messages
and the manual of the format all read it there.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from engine.catalogue.columns import COLUMNS, Column
from engine.catalogue.trouble import Trouble
from engine.errors import nearest, plain
from engine.units import FORCE, LENGTH, MASS


@dataclass(frozen=True)
class Unit:
    """One unit of a header: its spellings, first the one shown, and what one of it is in the unit of the column."""

    spellings: tuple[str, ...]
    factor: float = 1.0
    offset: float = 0.0

    @property
    def name(self) -> str:
        """The spelling that is shown."""
        return self.spellings[0]


@dataclass(frozen=True)
class Place:
    """Where a column stands in a file: index, header as it is spelled there, unit, and how its figure is measured.

    `mirrored` belongs to the load centre only: measured from the cup back face instead of the cone back face.
    """

    index: int
    header: str
    column: Column
    unit: Unit
    mirrored: bool = False


def _factor(units: dict[str, tuple[Any, Any]], name: str) -> float:
    return float(units[name][0])


#: Units that a header may state, by the unit of the column; the first is the column's own.
UNITS: dict[str, tuple[Unit, ...]] = {
    "mm": (
        Unit(("mm", "millimetre", "millimeter")),
        Unit(("in", "inch", "inches", '"'), _factor(LENGTH.units, "in")),
        Unit(("cm",), _factor(LENGTH.units, "cm")),
        Unit(("m",), _factor(LENGTH.units, "m")),
    ),
    "N": (
        Unit(("N", "newton")),
        Unit(("kN",), _factor(FORCE.units, "kN")),
        Unit(("lbf", "lb", "lbs"), _factor(FORCE.units, "lbf")),
        Unit(("kgf", "kp"), _factor(FORCE.units, "kgf")),
    ),
    "kg": (
        Unit(("kg",)),
        Unit(("g",), _factor(MASS.units, "g")),
        Unit(("lb", "lbs"), _factor(MASS.units, "lb")),
    ),
    "deg": (Unit(("deg", "\u00b0", "degree", "degrees")), Unit(("rad",), 57.29577951308232)),
    "rpm": (Unit(("rpm", "r/min", "1/min", "rev/min", "min-1", "min^-1")),),
    "degC": (Unit(("degC", "\u00b0C", "deg C")), Unit(("degF", "\u00b0F", "deg F"), 5 / 9, -160 / 9)),
    "-": (Unit(("-",)),),
}
#: Other names by which a column is known in the trade.
WORDS: dict[str, tuple[str, ...]] = {
    "designation": ("name", "part", "part number", "bearing"),
    "d": ("bore", "bore diameter"),
    "D": ("outside diameter", "od"),
    "T": ("width", "assembly width", "total width"),
    "B": ("cone width",),
    "C": ("cup width",),
    "alpha": ("contact angle", "angle", "\u03b1"),
    "Cr": ("C", "dynamic rating", "dynamic load rating"),
    "C0r": ("C0", "Cor", "Co", "static rating", "static load rating"),
    "Cu": ("fatigue load limit",),
    "mass": ("weight",),
    "n_grease": ("grease speed", "limiting speed grease"),
    "n_oil": ("oil speed", "limiting speed oil"),
    "max_temperature": ("maximum temperature",),
    "r_cone": ("r1", "r1s min", "cone chamfer"),
    "r_cup": ("r3", "r3s min", "cup chamfer"),
}
#: Columns without which no row is a bearing, and those of which one is enough.
REQUIRED = ("designation", "d", "D", "T", "Cr", "C0r")
ONE_OF = ("e", "Y", "alpha")
#: The last column of a corrected copy; it says what was changed and is passed over when such a copy is read.
CHANGED = "changed"

BY_NAME = {column.name: column for column in COLUMNS}
_BRACKETED = re.compile(r"(.+?)\s*[\[({]\s*(.*?)\s*[\])}]")
_SPELLINGS = sorted(
    {spelling.casefold() for units in UNITS.values() for unit in units for spelling in unit.spellings}, key=len
)
_SUFFIXED = re.compile(rf"(.+?)[\s_,/]+({'|'.join(map(re.escape, reversed(_SPELLINGS)))})", re.IGNORECASE)
#: A header longer than this is no header of ours, and is not looked at closely.
_LONGEST_HEADER = 80


def _key(name: str) -> str:
    return re.sub(r"[\s_.\-]+", "", name)


def _names_of(column: Column) -> tuple[str, ...]:
    return (column.name, *WORDS.get(column.name, ()))


def _by_key() -> dict[str, list[Column]]:
    """Return the columns by the keys of their names; letter case counts only where it tells two names apart."""
    exact: dict[str, list[Column]] = {}
    folded: dict[str, list[Column]] = {}
    for column in COLUMNS:
        for name in _names_of(column):
            for keys, key in ((exact, _key(name)), (folded, _key(name).casefold())):
                keys.setdefault(key, [])
                if column not in keys[key]:
                    keys[key].append(column)
    units = {key: [column.unit for column in columns] for key, columns in folded.items()}
    # d and D, e and E: folded they would be one name for two columns of one unit or of none
    return {key: columns for key, columns in folded.items() if len(set(units[key])) == len(columns)} | exact


_BY_KEY = _by_key()


def recognised(header: str) -> tuple[Column, Unit | None] | None:
    """Return the column and unit that a header names; the unit is None where one is needed and none is stated."""
    text = " ".join(header.split()).strip("'\"")
    if not text or len(text) > _LONGEST_HEADER:
        return None
    for pattern in (_BRACKETED, _SUFFIXED):
        split = pattern.fullmatch(text)
        if split:
            found = _with_unit(split[1], split[2])
            if found:
                return found
    columns = _columns_named(text)
    if not columns:
        return None
    plain_ones = [column for column in columns if column.unit == "-"]
    return (plain_ones[0], UNITS["-"][0]) if plain_ones else (columns[0], None)


def _with_unit(name: str, spelled: str) -> tuple[Column, Unit] | None:
    for column in _columns_named(name):
        for unit in UNITS[column.unit]:
            if spelled.casefold() in {spelling.casefold() for spelling in unit.spellings}:
                return column, unit
    return None


def _columns_named(name: str) -> list[Column]:
    key = _key(name)
    return _BY_KEY.get(key) or _BY_KEY.get(key.casefold(), [])


def known_in(cells: Sequence[str]) -> int:
    """Return how many of the cells are headers of known columns."""
    return sum(recognised(cell) is not None for cell in cells)


def spelled(column: Column) -> str:
    """Return the headers of a column with every unit that it may have: 'd_mm, d_in, d_cm, d_m'."""
    if column.unit == "-":
        return column.header
    return ", ".join(f"{column.name}_{unit.name}" for unit in UNITS[column.unit])


def places_of(header: Sequence[str], line: int, trouble: Trouble, notes: list[str]) -> dict[str, Place]:
    """Return where each column stands; raise Problems where two headers name one column or a needed one is missing."""
    places: dict[str, Place] = {}
    unitless: dict[str, str] = {}
    unknown: list[str] = []
    for index, cell in enumerate(header):
        found = recognised(cell)
        if found is None:
            unknown += [cell] if cell.strip() and cell.strip().casefold() != CHANGED else []
            continue
        column, unit = found
        if unit is None:
            unitless[column.name] = cell
        elif column.name in places:
            wrong = f'names the same column as "{plain(places[column.name].header)}"'
            trouble.add(line, cell, wrong, f"one of {spelled(column)}")
        else:
            places[column.name] = Place(index, cell, column, unit)
    unitless = {name: cell for name, cell in unitless.items() if name not in places}
    _note_missing(line, places, unitless, unknown, trouble)
    trouble.stop_if_any()
    notes.extend(_ignored(unitless, unknown))
    return places


def _note_missing(
    line: int, places: dict[str, Place], unitless: dict[str, str], unknown: list[str], trouble: Trouble
) -> None:
    for name in REQUIRED:
        if name not in places:
            _miss(line, BY_NAME[name], unitless, unknown, trouble)
    if any(name in places for name in ONE_OF):
        return
    stated = [name for name in ONE_OF if name in unitless]
    if stated:
        _miss(line, BY_NAME[stated[0]], unitless, unknown, trouble)
    else:
        headers = ", ".join(spelled(BY_NAME[name]) for name in ONE_OF)
        trouble.add(line, "", "no column tells the contact angle", f"one of {headers}")


def _miss(line: int, column: Column, unitless: dict[str, str], unknown: list[str], trouble: Trouble) -> None:
    if column.name in unitless:
        trouble.add(line, unitless[column.name], "states no unit", f"one of {spelled(column)}")
        return
    close = nearest(column.header, unknown)
    seen = f', the file has "{plain(close)}"' if close else ""
    trouble.add(line, column.header, f"is missing{seen}", f"a column headed {spelled(column)}")


#: So many ignored headers are named; the rest is a number.
_MOST_NAMED = 20


def _ignored(unitless: dict[str, str], unknown: list[str]) -> Iterator[str]:
    for name, cell in unitless.items():
        yield f'The column "{plain(cell)}" states no unit and is ignored; accepted: {spelled(BY_NAME[name])}.'
    headers = [f"{name}_{unit.name}" if unit.name != "-" else name for name, unit in _every()]
    for cell in unknown[:_MOST_NAMED]:
        close = nearest(cell, headers)
        hint = f' Did you mean "{close}"?' if close else ""
        yield f'The column "{plain(cell)}" is not known and is ignored.{hint}'
    if len(unknown) > _MOST_NAMED:
        yield f"{len(unknown) - _MOST_NAMED} more columns are not known and are ignored."


def _every() -> Iterator[tuple[str, Unit]]:
    for column in COLUMNS:
        for unit in UNITS[column.unit]:
            yield column.name, unit
