"""Cells to numbers, whichever sign a country writes before the decimals.

The rule, for a cell such as "1,234" or "1.234" that two countries read differently:
1. a cell that can be read in one way only is read that way ("12,5", "1.234,5", "1,234,567", "0,123", "1 234,5");
2. else the rest of its column decides, when its other cells all write decimals with one and the same sign;
3. else, where they write none, the rest of the file decides in the same way;
4. else, where nothing in the file proves a sign, a point is a decimal point;
5. else the cell is refused, and both readings are named.
"""

import math
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction

import numpy as np

from engine.catalogue.cells.decimals import decimals
from engine.catalogue.cells.grid import Bytes, Cells, grid_of
from engine.errors import plain
from engine.numerics import Bools, Floats, Rows

#: What stands in a cell for "not known".
UNKNOWN = frozenset({"", "-", "--", "\u2013", "\u2014", "n/a", "na", "n.a.", "?"})
_LONGEST = 64
_DIGITS = 12
_SPACES = str.maketrans({"\u00a0": " ", "\u202f": " ", "\u2009": " ", "\u2212": "-", "\u2019": "'"})
_NUMBER = re.compile(r"([+-]?)(\d[\d.,' ]*|[.,]\d+)(e[+-]?\d{1,3})?(?: ?([^\d\s.,].*))?", re.ASCII | re.IGNORECASE)
_FRACTION = re.compile(r"(?:(\d{1,6})[ -]+)?(\d{1,6})/(\d{1,6})", re.ASCII)
_GROUPED = re.compile(r"\d{1,3}(?:([ '])\d{3})(?:\1\d{3})*(?:[.,]\d+)?", re.ASCII)


@dataclass(frozen=True)
class Wrong:
    """Why a cell gives no number."""

    wrong: str
    accepted: str = ""


@dataclass(frozen=True)
class _Read:
    """What a cell says: one reading and the decimal sign that it proves, or two readings, by a point and by a comma."""

    readings: tuple[str, ...]
    proves: str = ""
    unit: str = ""


@dataclass(frozen=True)
class Rule:
    """What decides about a cell with two readings: the decimal signs proved in its column and in the file."""

    column: frozenset[str]
    file: frozenset[str]

    @property
    def decimal(self) -> str:
        """The decimal sign that is settled, by the column where it proves any, else by the file; "" where none is."""
        proved = self.column or self.file
        return next(iter(proved)) if len(proved) == 1 else ""


@dataclass(eq=False)
class Column:
    """A column of cells, its plain decimals read at once; the rows in doubt are read one by one.

    `groups` marks plain decimals such as "1,234" that have two readings; `values` holds them with a decimal sign.
    """

    cells: Cells
    values: Floats = field(init=False)
    sign: Bytes = field(init=False)
    groups: Bools = field(init=False)
    doubtful: Rows = field(init=False)

    def __post_init__(self) -> None:
        rows = len(self.cells)
        self.values, self.sign = np.empty(rows), np.empty(rows, dtype=np.uint8)
        self.groups, doubtful = np.empty(rows, dtype=np.bool_), np.empty(rows, dtype=np.bool_)
        for part in self.cells.parts():
            found = decimals(part.letters, part.starts, part.stops)
            here = slice(part.first, part.first + len(part.starts))
            self.values[here], self.sign[here] = found.values, found.sign
            self.groups[here], doubtful[here] = found.groups, found.doubtful
        self.doubtful = np.flatnonzero(doubtful)

    @property
    def has_commas(self) -> bool:
        """Whether a comma stands in any cell."""
        return bool(np.any(self.sign == ord(","))) or any("," in cell for cell in self.in_doubt())

    def joined_by(self, rule: Rule) -> Rows:
        """Return the plain cells with two readings that are whole numbers only because of the rest of the file."""
        if rule.column or not rule.decimal:
            return np.zeros(0, dtype=np.intp)
        rows: Rows = np.flatnonzero(self.groups & (self.sign != ord(rule.decimal)))
        return rows

    def in_doubt(self) -> list[str]:
        """Return the cells that are no plain decimals."""
        return list(self.cells.some(self.doubtful))

    def decimal_signs(self) -> frozenset[str]:
        """Return the decimal signs that cells prove, each by itself."""
        plainly = {sign for sign in ",." if np.any((self.sign == ord(sign)) & ~self.groups)}
        return frozenset(plainly) | _proved(self.in_doubt())

    def converted(self, rule: Rule, units: tuple[str, ...]) -> tuple[Floats, dict[int, Wrong]]:
        """Return the numbers of the column, NaN where a cell holds none, and what is wrong by row.

        `units` are the spellings of the unit of the column, which a cell may repeat.
        """
        undecided = self._decide(rule)
        rows = np.union1d(self.doubtful, undecided) if undecided.size else self.doubtful
        if not rows.size:
            return self.values, {}
        cells = list(self.cells.some(rows))
        quick = None if np.any(self.sign == ord(",")) else _quick(cells, rule)
        if quick is not None:
            self.values[rows] = quick
            return self.values, {}
        return self.values, self._one_by_one(rows, cells, rule, units)

    def _decide(self, rule: Rule) -> Rows:
        """Give the cells with two readings the one that the rule takes; return the rows that it leaves open."""
        groups: Rows = np.flatnonzero(self.groups)
        if rule.decimal:
            joined = groups[self.sign[groups] != ord(rule.decimal)]
            # three digits stand behind the sign, so that this is exact
            self.values[joined] = np.round(self.values[joined] * 1000)
            return groups[:0]
        left: Rows = groups[(self.sign[groups] == ord(",")) | ("," in rule.file)]
        return left

    def _one_by_one(self, rows: Rows, cells: list[str], rule: Rule, units: tuple[str, ...]) -> dict[int, Wrong]:
        wrong: dict[int, Wrong] = {}
        spelled = {unit.casefold() for unit in units}
        # a column repeats itself: what was read once is known
        known: dict[str, float | Wrong] = {}
        for row, cell in zip(rows.tolist(), cells, strict=True):
            found = known.get(cell)
            if found is None:
                found = known[cell] = _one(cell, rule, spelled, units)
            if isinstance(found, Wrong):
                wrong[row] = found
                self.values[row] = math.nan
            else:
                self.values[row] = found
        return wrong


def rules_of(columns: Mapping[str, Column]) -> dict[str, Rule]:
    """Return the rule of every column of one file."""
    # without a comma anywhere there is nothing to decide: a point is a decimal point
    commas = any(column.has_commas for column in columns.values())
    signs = {name: column.decimal_signs() if commas else frozenset() for name, column in columns.items()}
    in_file: frozenset[str] = frozenset().union(*signs.values())
    return {name: Rule(proved, in_file) for name, proved in signs.items()}


def written(value: float) -> str:
    """Return a number as a cell: plain decimals, without the noise of a conversion."""
    text = f"{Decimal(f'{value:.{_DIGITS}g}'):f}"
    return "0" if text == "-0" else text


def decimal_signs(cells: Sequence[str]) -> frozenset[str]:
    """Return the decimal signs that the cells of a list prove, each by itself."""
    return _listed(cells).decimal_signs()


def converted(cells: Sequence[str], rule: Rule, units: tuple[str, ...]) -> tuple[Floats, dict[int, Wrong]]:
    """Return the numbers of a list of cells, NaN where a cell holds none, and what is wrong by row."""
    return _listed(cells).converted(rule, units)


def _listed(cells: Sequence[str]) -> Column:
    return Column(grid_of([cell] for cell in cells).column(0))


def _proved(cells: Iterable[str]) -> frozenset[str]:
    found = set()
    for cell in set(cells):
        if "," in cell or "." in cell:
            read = _read(cell)
            if isinstance(read, _Read) and read.proves:
                found.add(read.proves)
    return frozenset(found)


def _quick(cells: Sequence[str], rule: Rule) -> Floats | None:
    """Return the numbers of cells that have one plain reading, or None."""
    whole = "".join(cells)
    if "," in rule.file | rule.column or not set(whole) <= set("0123456789.-+eE"):
        return None
    try:
        values = np.array([float(cell) if cell else np.nan for cell in cells], dtype=np.float64)
    except ValueError:
        return None
    return None if np.isinf(values).any() else values


def _one(cell: str, rule: Rule, spelled: set[str], units: tuple[str, ...]) -> float | Wrong:
    text = cell.strip()
    if text.casefold() in UNKNOWN:
        return math.nan
    read = _read(text)
    if isinstance(read, Wrong):
        return read
    if read.unit and read.unit.casefold() not in spelled:
        return Wrong(f'"{plain(cell)}" has something behind the number', f"a number, alone or in {units[0]}")
    values = [_finite(reading) for reading in read.readings]
    if len(values) == 2:
        return _decided(cell, values, rule)
    return values[0] if math.isfinite(values[0]) else Wrong(f'"{plain(cell)}" is not a number')


def _finite(reading: str) -> float:
    try:
        return float(Fraction(reading)) if "/" in reading else float(reading)
    except (ValueError, OverflowError, ZeroDivisionError):
        return math.nan


def _decided(cell: str, values: list[float], rule: Rule) -> float | Wrong:
    """Return the one of two readings, by point and by comma, that the rule at the top of this module takes."""
    by_sign = dict(zip((".", ","), values, strict=True))
    if rule.decimal:
        return by_sign[rule.decimal]
    if "." in cell and "," not in rule.file:
        return by_sign["."]
    shown = [f"{value:.12g}" for value in sorted(values)]
    return Wrong(
        f'"{plain(cell)}" can be read as {shown[0]} or as {shown[1]}', "the one that is meant, as printed here"
    )


def _read(cell: str) -> _Read | Wrong:
    text = cell.strip().translate(_SPACES)
    refused = Wrong(f'"{plain(cell)}" is not a number')
    if len(text) > _LONGEST:
        return refused
    fraction = _FRACTION.fullmatch(text)
    if fraction:
        top = int(fraction[1] or 0) * int(fraction[3]) + int(fraction[2])
        return _Read((f"{top}/{fraction[3]}",))
    match = _NUMBER.fullmatch(text)
    if match is None:
        return refused
    digits, power, unit = match[2].rstrip(" "), match[3] or "", (match[4] or "").strip()
    read = _mantissa(digits)
    if read is None:
        return refused
    readings = tuple(f"{match[1]}{reading}{power}" for reading in read.readings)
    return _Read(readings, read.proves, unit)


def _mantissa(digits: str) -> _Read | None:
    if " " in digits or "'" in digits:
        if not _GROUPED.fullmatch(digits):
            return None
        digits = digits.replace(" ", "").replace("'", "")
        sign = "," if "," in digits else "." if "." in digits else ""
        return _Read((digits.replace(",", "."),), sign)
    commas, points = digits.count(","), digits.count(".")
    if not commas and not points:
        return _Read((digits,))
    if commas + points == 1:
        return _single(digits, "," if commas else ".")
    last = max(digits, key=lambda sign: digits.rfind(sign) if sign in ".," else -1)
    other = "." if last == "," else ","
    if digits.count(last) > 1:
        # 1,234,567: the sign only groups, so that the other one writes decimals
        return _Read((digits.replace(last, ""),), other) if _groups(digits, last) else None
    head, _, tail = digits.rpartition(last)
    return _Read((f"{head.replace(other, '')}.{tail}",), last) if _groups(head, other) and tail else None


def _single(digits: str, sign: str) -> _Read:
    head, _, tail = digits.partition(sign)
    as_decimal = f"{head or '0'}.{tail}"
    if len(tail) == 3 and 1 <= len(head) <= 3 and head.strip("0"):
        joined = head + tail
        return _Read((as_decimal, joined) if sign == "." else (joined, as_decimal))
    return _Read((as_decimal,), sign)


def _groups(text: str, sign: str) -> bool:
    first, *rest = text.split(sign)
    return 1 <= len(first) <= 3 and bool(rest) and all(len(part) == 3 and part.isdigit() for part in rest)
