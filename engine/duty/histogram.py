"""A measured histogram or rain-flow table, as CSV, to a load spectrum.

One row a bin. A column says how much of the duty the bin takes: a share, hours, or turns; one says the load: a factor
on a case, a force or a torque. Of a rain-flow table the load is that at the top of the cycle, mean and half the range.
Speed and temperature are columns where they change. What spreadsheets do to files is survived as for catalogues.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from engine.catalogue.intake.numbers import Rule, converted, decimal_signs
from engine.catalogue.intake.text import LARGEST_FILE, Headers, Table, table_of
from engine.catalogue.trouble import Trouble
from engine.duty.spectrum import Spectrum
from engine.errors import nearest, plain
from engine.numerics import Floats


@dataclass(frozen=True)
class Column:
    """A column that a table may have: names, units by spelling with factor and offset, the first one its own; bounds.

    `bare` is the unit that is meant where none is stated; "" where one must be.
    """

    key: str
    names: tuple[str, ...]
    units: dict[str, tuple[float, float]]
    bare: str
    least: float
    greatest: float


_FORCE = {"N": (1.0, 0.0), "kN": (1e3, 0.0), "lbf": (4.4482216152605, 0.0)}
_TORQUE = {"Nmm": (1.0, 0.0), "Nm": (1e3, 0.0), "kNm": (1e6, 0.0), "lbfin": (112.9848290276167, 0.0)}
_RATIO = {"-": (1.0, 0.0), "%": (0.01, 0.0), "percent": (0.01, 0.0)}
_ANY_LOAD = _RATIO | _FORCE | _TORQUE
COLUMNS = (
    Column("share", ("share", "share of time", "time share", "q"), _RATIO, "-", 0.0, 1e12),
    Column("hours", ("time", "hours", "duration"), {"h": (1.0, 0.0), "min": (1 / 60, 0.0), "s": (1 / 3600, 0.0)},
           "h", 0.0, 1e12),
    Column("turns", ("count", "counts", "cycles", "revolutions", "turns", "number"), {"-": (1.0, 0.0)}, "-", 0.0, 1e18),
    Column("n", ("n", "speed"), {"rpm": (1.0, 0.0), "1/min": (1.0, 0.0), "Hz": (60.0, 0.0)}, "rpm", 0.0, 1e5),
    Column("load", ("load", "factor", "load factor", "multiplier", "force", "torque"), _ANY_LOAD, "-", 0.0, 1e12),
    Column("range", ("range", "load range"), _ANY_LOAD, "-", 0.0, 1e12),
    Column("mean", ("mean", "load mean", "mean load"), _ANY_LOAD, "-", -1e12, 1e12),
    Column("temperature", ("temperature", "temp"),
           {"degC": (1.0, 0.0), "C": (1.0, 0.0), "degF": (5 / 9, -160 / 9), "F": (5 / 9, -160 / 9)},
           "degC", -60.0, 400.0),
)  # fmt: skip
#: One of these says how much of the duty a bin takes.
WEIGHTS = ("share", "hours", "turns")
_NEEDS_UNIT = ("force", "torque")
_BY_NAME = {re.sub(r"[\s_.\-]+", "", name).casefold(): (column, name) for column in COLUMNS for name in column.names}
_EXAMPLE = "share_percent, speed_rpm, load_factor, or count, torque_Nm"


def by_key(key: str) -> Column:
    """Return the column of a key."""
    return next(column for column in COLUMNS if column.key == key)


@dataclass(frozen=True)
class Place:
    """Where a column stands, and how its figures become those of the engine."""

    index: int
    header: str
    column: Column
    unit: str

    @property
    def kind(self) -> str:
        """What its figures are in the engine: "-", "N" or "N mm" for loads."""
        return "N" if self.unit in _FORCE else "N mm" if self.unit in _TORQUE else "-"


@dataclass(frozen=True)
class Histogram:
    """What a table holds: its spectrum as it stands, bin by bin, and what was taken for granted."""

    spectrum: Spectrum
    notes: tuple[str, ...]


def read(content: bytes | str, name: str, n: float | None = None) -> Histogram:
    """Return the spectrum in the text of a CSV file called `name`; Problems with everything that is wrong with it.

    n [rpm] is the speed of every bin of a table without a column for it.
    """
    trouble = Trouble(name)
    held = content.encode() if isinstance(content, str) else content
    if not held.strip():
        trouble.stop("is empty", "a CSV file with a header and at least one row")
    if len(held) > LARGEST_FILE:
        trouble.stop(f"is larger than {LARGEST_FILE} bytes", "a table of at most that size")
    sheet = table_of(name, held, trouble, Headers(_known_in, 2, _EXAMPLE))
    for line, cells in sheet.overlong:
        trouble.add(line, "", f"holds {cells} cells, the header {len(sheet.header)}", "as many cells as headers")
    places, unknown = _places(sheet, trouble)
    notes = [*sheet.notes, *(f'The column "{plain(header)}" is not known and is ignored.' for header in unknown)]
    values = _values(sheet, places, trouble)
    spectrum = _spectrum(sheet, places, values, n, trouble, notes)
    return Histogram(spectrum, tuple(notes))


def _recognised(cell: str) -> tuple[Column, str] | None:
    """Return the column and the unit that a header names; the unit is "" where one is needed and none is stated."""
    text = " ".join(cell.split()).strip("'\"")
    for name, spelled in _splits(text):
        found = _BY_NAME.get(re.sub(r"[\s_.\-]+", "", name).casefold())
        if found is None:
            continue
        column, called = found
        if not spelled:
            return column, "" if called in _NEEDS_UNIT else column.bare
        unit = re.sub(r"[\s.*\u00b7\u00b0]+", "", spelled).casefold()
        for spelling in column.units:
            if spelling.casefold() == unit:
                return column, spelling
    return None


def _splits(text: str) -> list[tuple[str, str]]:
    """Return the ways to part a header into name and unit: all of it name first, then brackets, then word by word."""
    bracketed = re.fullmatch(r"(.+?)\s*[\[(]\s*(.*?)\s*[\])]", text[:80])
    if bracketed:
        return [(bracketed[1], bracketed[2])]
    words = re.split(r"[\s_]+", text[:80])
    return [(text[:80], ""), *((" ".join(words[:at]), " ".join(words[at:])) for at in range(len(words) - 1, 0, -1))]


def _known_in(cells: Sequence[str]) -> int:
    return sum(_recognised(cell) is not None for cell in cells)


def _spelled(column: Column) -> str:
    return ", ".join(column.names[0] if unit == "-" else f"{column.names[0]}_{unit}" for unit in column.units)


def _places(sheet: Table, trouble: Trouble) -> tuple[dict[str, Place], list[str]]:
    places: dict[str, Place] = {}
    unknown = []
    for index, cell in enumerate(sheet.header):
        found = _recognised(cell)
        if found is None:
            unknown += [cell] if cell.strip() else []
        elif not found[1]:
            trouble.add(sheet.header_line, cell, "states no unit", f"one of {_spelled(found[0])}")
            places[found[0].key] = Place(index, cell, found[0], "-")
        elif found[0].key in places:
            wrong = f'names the same as "{plain(places[found[0].key].header)}"'
            trouble.add(sheet.header_line, cell, wrong, "one column of each kind")
        else:
            places[found[0].key] = Place(index, cell, *found)
    _complete(sheet, places, unknown, trouble)
    trouble.stop_if_any()
    return places, unknown


def _complete(sheet: Table, places: dict[str, Place], unknown: list[str], trouble: Trouble) -> None:
    """Note what is missing, and what is there twice over."""
    names = [name for column in COLUMNS for name in column.names]
    weights = [key for key in WEIGHTS if key in places]
    close = next((f', the file has "{plain(cell)}"' for cell in unknown if nearest(cell, names)), "")
    if len(weights) != 1:
        wrong = "two columns say how much of the duty a bin takes" if weights else f"no column says how often{close}"
        trouble.add(sheet.header_line, "", wrong, "one of share_percent, time_h, count")
    loads = [key for key in ("load", "range") if key in places]
    if len(loads) != 1:
        wrong = "both a load and a range of a cycle are given" if loads else f"no column says the load{close}"
        trouble.add(sheet.header_line, "", wrong, "one of load_factor, force_N, torque_Nm, or mean and range")
    if "range" in places and ("mean" not in places or places["mean"].kind != places["range"].kind):
        trouble.add(sheet.header_line, places["range"].header, "has no mean beside it", "range and mean in one unit")


def _values(sheet: Table, places: dict[str, Place], trouble: Trouble) -> dict[str, Floats]:
    cells = {key: [row[place.index] for row in sheet.rows] for key, place in places.items()}
    proved = {key: decimal_signs(column) for key, column in cells.items()}
    whole = frozenset().union(*proved.values())
    values = {}
    for key, place in places.items():
        column = place.column
        found, wrong = converted(cells[key], Rule(proved[key], whole), (place.unit,))
        for row, why in wrong.items():
            trouble.add(sheet.lines[row], place.header, why.wrong, why.accepted or "a number")
        factor, offset = column.units[place.unit]
        values[key] = found * factor + offset
        if key != "temperature":
            empty = [row for row in np.flatnonzero(np.isnan(found)).tolist() if row not in wrong]
            _note(sheet, place, empty, "is empty", "a number", trouble)
        outside = np.flatnonzero((values[key] < column.least) | (values[key] > column.greatest)).tolist()
        _note_outside(sheet, place, outside, found, trouble)
    return values


def _note(sheet: Table, place: Place, rows: Sequence[int], wrong: str, accepted: str, trouble: Trouble) -> None:
    for row in rows:
        trouble.add(sheet.lines[row], place.header, wrong, accepted)


def _note_outside(sheet: Table, place: Place, rows: Sequence[int], found: Floats, trouble: Trouble) -> None:
    accepted = f"from {place.column.least:g} to {place.column.greatest:g} {place.column.bare}"
    if place.column.key == "load":
        accepted = (
            "0 or more: a reversed load is a case of its own, since teeth and belts change their sides; give those "
            "rows without the sign to a case with a load level below 0"
        )
    for row in rows:
        trouble.add(sheet.lines[row], place.header, f"is {found[row]:g}", accepted)


def _spectrum(
    sheet: Table, places: dict[str, Place], values: dict[str, Floats], n: float | None, trouble: Trouble,
    notes: list[str],
) -> Spectrum:  # fmt: skip
    rows = len(sheet.rows)
    if "n" not in places and n is None:
        trouble.add(sheet.header_line, "", "no column says the speed", "a column speed_rpm, or a speed for all bins")
    speeds = values.get("n", np.full(rows, np.nan if n is None else n))
    kind, load = _load(places, values, notes)
    below = np.flatnonzero(load < 0).tolist() if "range" in places else []
    if below:
        _note(sheet, places["mean"], below, "makes the top of the cycle negative", "0 or more at the top", trouble)
    weight_of = next(key for key in WEIGHTS if key in places)
    weight = values[weight_of]
    if weight_of == "turns":
        standing = np.flatnonzero((speeds <= 0) & (weight > 0)).tolist()
        _note(
            sheet, places["turns"], standing, "counts turns at no speed", "a speed above 0, or shares of time", trouble
        )
        with np.errstate(divide="ignore", invalid="ignore"):
            weight = np.where(weight > 0, weight / speeds, 0.0)
    if not trouble.found and not weight.sum() > 0:
        trouble.add(sheet.header_line, places[weight_of].header, "adds up to nothing", "one bin with more than 0")
    trouble.stop_if_any()
    total = weight.sum()
    if weight_of == "share" and abs(total - 1.0) > 1e-3:
        notes.append(f"The shares add up to {100 * total:.6g} %; they are scaled to 100 %.")
    temperature = values.get("temperature", np.full(rows, np.nan))
    return Spectrum(weight / total, speeds, load, temperature, kind)


def _load(places: dict[str, Place], values: dict[str, Floats], notes: list[str]) -> tuple[str, Floats]:
    """Return the kind and the load of every bin; of a rain-flow table that at the top of the cycle."""
    if "load" in places:
        return places["load"].kind, values["load"]
    notes.append("Each cycle counts with the load at its top, mean and half the range: the safe side.")
    backwards = int(np.count_nonzero(values["mean"] < 0))
    if backwards:
        notes.append(
            f"{backwards} of {len(values['mean'])} cycles have a mean below 0: they count by its amount, as if they "
            "pointed the usual way. Where teeth or belts change their sides give them to a case with a load level "
            "below 0."
        )
    return places["range"].kind, np.abs(values["mean"]) + values["range"] / 2
