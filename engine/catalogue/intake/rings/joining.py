"""How the rows of a cone and of a cup become the row of their assembly: which of the two counts in each column.

The cup gives what belongs to it, the cone the rest; a share of both is added. Where one word or one limit must stand
for both rings, it is that of the worse: as the built-in range does it, no assembly is better than either of its parts.
"""

import functools
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from engine.catalogue.cells.grid import Cells
from engine.catalogue.intake import numbers
from engine.catalogue.intake.assembled import UNSTATED_TEMPERATURE
from engine.catalogue.intake.headers import BY_NAME, Unit
from engine.catalogue.parts import AVAILABILITIES
from engine.errors import plain
from engine.numerics import Floats

#: Columns that a cup's row gives.
OF_THE_CUP = ("D", "C", "E", "r_cup")
#: Columns that both rows give a share of.
ADDED = ("mass", "cost")
#: Widths that both rows give a share of, and the width of the assembly that they make.
SHARES = ("T1", "T2")
#: Words of which the worse counts, better ones first. Tolerance classes are those of ISO 492 and of ANSI/ABMA 19.2 and
#: 19.1 (recalled), the finer first; no order is known between the three, so that a pair across them is refused.
ORDERS: dict[str, tuple[tuple[str, ...], ...]] = {
    "availability": (AVAILABILITIES,),
    "steel": (("case", "through"),),
    "tolerance": (("2", "4", "5", "6X", "Normal"), ("00", "0", "3", "2", "4"), ("A", "B", "C", "N", "K")),
}
#: Columns that say which part or assembly it is, or what it is sold as.
NAMES = ("designation", "series", "cone", "cup", "listed")


@dataclass(frozen=True)
class Part:
    """A row of a cone or a cup without blanks around its cells, its place among the rows and its line."""

    cells: list[str]
    row: int
    line: int


@dataclass
class Figures:
    """The columns of figures of a file, by name, each read by the rule that the whole file settles.

    `values` are in the units of the headers, NaN where a cell holds none; `wrong` says why by column and row.
    """

    columns: Mapping[str, Cells]
    units: Mapping[str, Unit]
    values: dict[str, Floats] = field(default_factory=dict)
    wrong: dict[str, dict[int, numbers.Wrong]] = field(default_factory=dict)
    rules: dict[str, numbers.Rule] = field(default_factory=dict)
    _cells: dict[tuple[str, float], str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        read = {name: numbers.Column(cells) for name, cells in self.columns.items()}
        self.rules = numbers.rules_of(read)
        for name, column in read.items():
            self.values[name], self.wrong[name] = column.converted(self.rules[name], self.units[name].spellings)

    def of(self, name: str, part: Part) -> float:
        """Return one figure, NaN where the file has none."""
        return float(self.values[name][part.row]) if name in self.values else math.nan

    def cell(self, name: str, value: float) -> str:
        """Return a figure as a cell that this file's own rule reads in one way; empty where it is not known."""
        if math.isnan(value):
            return ""
        # the parts of a series make few different sums
        known = self._cells.get((name, value))
        if known is None:
            known = self._cells[name, value] = self._written(name, value)
        return known

    def _written(self, name: str, value: float) -> str:
        whole, _, decimals = numbers.written(round(value, 9)).partition(".")
        rule = self.rules.get(name, next(iter(self.rules.values())))
        sign = rule.decimal or ("," if "," in rule.file else ".")
        if not rule.file and len(decimals) < 3:
            # as it is nowhere settled which sign the file writes, this cell must not settle it either
            return f"{whole}.{decimals:0<3}" if decimals else whole
        # one digit proves the sign as the parts did; three of them could be thousands
        decimals = decimals or "0" if rule.file else decimals
        return f"{whole}{sign}{decimals}{'0' if rule.file and len(decimals) == 3 else ''}"


@dataclass
class Cautions:
    """What the assemblies leave in doubt: by kind, the lines of the first pair that shows it and how many do."""

    found: dict[tuple[str, str], list[int]] = field(default_factory=dict)

    def note(self, kind: str, header: str, cone: Part, cup: Part) -> None:
        """Count one assembly of a kind."""
        count = self.found.setdefault((kind, header), [0, cone.line, cup.line])
        count[0] += 1

    def lines(self) -> Iterator[str]:
        """Yield a sentence for each kind."""
        for (kind, header), (count, cone, cup) in self.found.items():
            where = f"{count} assembl{'y' if count == 1 else 'ies'} (first: cone of line {cone}, cup of line {cup})"
            yield _SENTENCES[kind].format(where=where, header=plain(header))


_SENTENCES = {
    "steel": "In {where} the parts are of different steel: through-hardened counts, the more cautious one.",
    "width": (
        "In {where} T is that of the cone's row, although the cups of the series differ in C and T can hold for one of "
        "them only; columns T1_mm of the cones and T2_mm of the cups would give each its own, T = T1 + T2."
    ),
    "cone": 'In {where} both parts state "{header}" and differ: that of the cone counts.',
    "cup": 'In {where} both parts state "{header}" and differ: that of the cup counts.',
}


@dataclass
class Joining:
    """Joins the rows of one file: where its columns stand, its figures, and what was noted on the way."""

    places: Mapping[str, int]
    headers: Sequence[str]
    figures: Figures
    cautions: Cautions = field(default_factory=Cautions)

    def __post_init__(self) -> None:
        apart = {*NAMES, *ADDED, *ORDERS, "max_temperature"}
        self._has_shares = set(SHARES) <= set(self.figures.units)
        self._ordinary = [(name, at) for name, at in self.places.items() if name not in apart]

    def joined(self, cone: Part, cup: Part, same_width: bool) -> list[str]:
        """Return the row of an assembly; `same_width` says that all cups of the series have one width C."""
        row = list(cone.cells)
        for name, at in self._ordinary:
            if cup.cells[at] and cup.cells[at] != row[at]:
                row[at] = self._one_of(name, cone, cup)
        for name in ADDED:
            if name in self.places:
                row[self.places[name]] = self.figures.cell(name, sum(self.figures.of(name, one) for one in (cone, cup)))
        for name in ORDERS:
            if name in self.places:
                row[self.places[name]] = self._worse(name, cone, cup)
        if "max_temperature" in self.places:
            row[self.places["max_temperature"]] = self._temperature(cone, cup)
        T = self._width(cone, cup)
        if T:
            row[self.places["T"]] = T
        elif not same_width:
            self.cautions.note("width", "", cone, cup)
        return row

    def _one_of(self, name: str, cone: Part, cup: Part) -> str:
        """Return the cell that counts of a column that the cup states, and otherwise than the cone."""
        at, of_the_cup = self.places[name], name in OF_THE_CUP
        if not cone.cells[at]:
            return cup.cells[at]
        if name not in self.figures.values or self.figures.of(name, cone) != self.figures.of(name, cup):
            self.cautions.note("cup" if of_the_cup else "cone", self.headers[at], cone, cup)
        return cup.cells[at] if of_the_cup else cone.cells[at]

    def _worse(self, name: str, cone: Part, cup: Part) -> str:
        one, other = (_known(name, part.cells[self.places[name]]) for part in (cone, cup))
        if name == "steel" and one and other and one != other:
            self.cautions.note("steel", "", cone, cup)
        return _worse(name, one, other)

    def _temperature(self, cone: Part, cup: Part) -> str:
        """Return the lower of both; a part that states none counts as one of which nothing is known."""
        unit = self.figures.units["max_temperature"]
        unstated = (UNSTATED_TEMPERATURE - unit.offset) / unit.factor
        both = [self.figures.of("max_temperature", part) for part in (cone, cup)]
        stated = [value for value in both if not math.isnan(value)]
        lower = min(stated, default=unstated)
        return "" if len(stated) < 2 and lower >= unstated else self.figures.cell("max_temperature", lower)

    def _width(self, cone: Part, cup: Part) -> str:
        """Return T1 + T2 as a cell of T; empty where one of them is not stated."""
        if not self._has_shares:
            return ""
        of, units = self.figures.of, self.figures.units
        total = sum(of(name, part) * units[name].factor for name, part in (("T1", cone), ("T2", cup)))
        return self.figures.cell("T1", total / units["T"].factor)


@functools.lru_cache(maxsize=1000)
def _known(name: str, cell: str) -> str:
    """Return a word as the column spells it."""
    choices = {choice.casefold(): choice for choice in BY_NAME[name].choices}
    return choices.get(cell.casefold().replace(" ", "_"), cell)


def _worse(name: str, first: str, second: str) -> str:
    """Return the worse of two words; what cannot be ordered as it stands, so that the reader refuses it by name."""
    for order in ORDERS[name]:
        if first in order and second in order:
            return max(first, second, key=order.index)
    if not first or not second:
        return first or second
    wrong = [word for word in (first, second) if word not in BY_NAME[name].choices]
    return wrong[0] if wrong else f"{first} with {second}"
