"""Rows that are cones and cups, made into the assemblies that they form: any cone and any cup of one series.

A file of parts has a column `part` that says cone, cup, or nothing for an assembly. The cup gives what belongs to it
(D, C, E, r_cup); the cone gives the rest (d, T, B, ratings, angle). Masses and costs are added. The assembly is
named cone first, then cup, and counts as formed.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from engine.catalogue.cells.grid import grid_of
from engine.catalogue.intake.headers import recognised
from engine.catalogue.intake.text import MOST_ROWS, Table
from engine.catalogue.trouble import Trouble
from engine.errors import plain

PART = "part"
#: Columns that a cup's row gives.
OF_THE_CUP = ("D", "C", "E", "r_cup")
#: Columns that both rows give a share of.
ADDED = ("mass", "cost")
_NEEDED = ("designation", "series")
#: Columns that an assembly gets where the file has none of the name.
NAMED = ("cone", "cup", "listed")


def expanded(sheet: Table, trouble: Trouble) -> Table:
    """Return the table with cones and cups joined to assemblies; a table without a column `part` as it is."""
    header = [name.strip().casefold() for name in sheet.header]
    if PART not in header:
        return sheet
    places = {found[0].name: at for at, name in enumerate(sheet.header) if (found := recognised(name)) is not None}
    for name in _NEEDED:
        if name not in places:
            trouble.stop(f'holds a column "{PART}" but none called "{name}"', "the series that cones and cups fit in")
    joined = _Joined(sheet, places, header.index(PART), trouble)
    grid = grid_of(joined.rows())
    keep = [at for at in range(len(header)) if at != joined.at_part]
    wanted = [*(sheet.header[at] for at in keep), *(name for name in NAMED if name not in places)]
    return replace(sheet, header=wanted, grid=grid, lines=joined.lines, refused=tuple(joined.refused))


@dataclass
class _Joined:
    """The assemblies that a table of parts forms, and what formed none; `lines` and `refused` fill as they come."""

    sheet: Table
    places: dict[str, int]
    at_part: int
    trouble: Trouble
    lines: list[int] = field(default_factory=list)
    refused: list[tuple[int, str, str, str]] = field(default_factory=list)

    def rows(self) -> Iterator[list[str]]:
        """Yield assemblies, without the column that tells the part."""
        for row, line in self._assemblies():
            if len(self.lines) == MOST_ROWS:
                self.trouble.stop(
                    "its cones and cups form more assemblies than can be taken in", f"at most {MOST_ROWS}"
                )
            self.lines.append(line)
            yield [cell for at, cell in enumerate(row) if at != self.at_part]

    def _assemblies(self) -> Iterator[tuple[list[str], int]]:
        sheet, places = self.sheet, self.places
        cups: dict[str, list[list[str]]] = {}
        for row in sheet.grid.rows():
            if row[self.at_part].strip().casefold() == "cup":
                cups.setdefault(row[places["series"]].strip(), []).append(row)
        for row, line in zip(sheet.grid.rows(), sheet.lines, strict=True):
            kind = row[self.at_part].strip().casefold()
            if kind == "cone":
                partners = cups.get(row[places["series"]].strip(), [])
                if not partners:
                    header = sheet.header[places["series"]]
                    self.refused.append((line, header, "no cup has this series", "the series of a cup"))
                for cup in partners:
                    yield _joined(row, cup, places), line
            elif kind in {"", "assembly"}:
                yield [*row, *("" for name in NAMED if name not in places)], line
            elif kind != "cup":
                wrong = f'"{plain(kind, 60)}" is no part'
                header = sheet.header[self.at_part]
                self.refused.append((line, header, wrong, "cone, cup, or nothing for an assembly"))


def _joined(cone: list[str], cup: list[str], places: dict[str, int]) -> list[str]:
    row = list(cone)
    for name, at in places.items():
        if name in OF_THE_CUP or not row[at].strip():
            row[at] = cup[at]
    for name in ADDED:
        if name in places:
            row[places[name]] = _sum(cone[places[name]], cup[places[name]])
    named = {"cone": cone[places["designation"]].strip(), "cup": cup[places["designation"]].strip(), "listed": "formed"}
    row[places["designation"]] = f"{named['cone']} + {named['cup']}"
    for name, text in named.items():
        if name in places:
            row[places[name]] = text
    return [*row, *(text for name, text in named.items() if name not in places)]


def _sum(one: str, other: str) -> str:
    """Return the sum of two cells in the file's own decimal sign; empty where either is empty or no plain number."""
    try:
        total = float(one.replace(",", ".")) + float(other.replace(",", "."))
    except ValueError:
        return ""
    text = f"{total:.6g}"
    return text.replace(".", ",") if "," in one + other else text
