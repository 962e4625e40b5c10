"""Rows that are cones and cups, made into the assemblies that they form: any cone and any cup of one series.

A file of parts has a column `part` that says cone, cup, or nothing for an assembly. The assembly is named cone first,
then cup, and counts as formed; `joining` says which of the two rows counts in each column. Columns T1 and T2 may give
the share of the cone and of the cup in the width of the assembly.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from engine.catalogue.cells.grid import grid_of
from engine.catalogue.intake.headers import UNITS, Unit, recognised
from engine.catalogue.intake.rings.joining import ADDED, SHARES, Figures, Joining, Part
from engine.catalogue.intake.text import MOST_ROWS, Table
from engine.catalogue.trouble import Trouble
from engine.errors import plain

PART = "part"
_NEEDED = ("designation", "series")
#: Columns that an assembly gets where the file has none of the name.
NAMED = ("cone", "cup", "listed")
_WIDTH = "T_mm"
_SHARE = re.compile(r"\s*T([12])(?=[\s_,/[({])(.*)", re.IGNORECASE | re.DOTALL)
#: Figures of a part that are worked with; where one cannot be read, the part forms nothing.
_WORKED_WITH = (*ADDED, *SHARES, "max_temperature")


def expanded(sheet: Table, trouble: Trouble) -> Table:
    """Return the table with cones and cups joined to assemblies; a table without a column `part` as it is."""
    header = [name.strip().casefold() for name in sheet.header]
    if PART not in header:
        return sheet
    at_part = header.index(PART)
    places, units = _places(sheet, at_part)
    if "designation" not in places and not {"cone", "cup"} & set(_kinds(sheet, at_part)):
        # a column "part" that names the bearings: no file of cones and cups
        return sheet
    for name in _NEEDED:
        if name not in places:
            trouble.stop(f'holds a column "{PART}" but none called "{name}"', "the series that cones and cups fit in")
    if set(SHARES) <= set(places) and "T" not in places:
        places["T"], units["T"] = len(header), UNITS["mm"][0]
        sheet = replace(sheet, header=[*sheet.header, _WIDTH], grid=grid_of([*row, ""] for row in sheet.grid.rows()))
    forming = _Forming(sheet, places, units, at_part, trouble)
    grid = grid_of(forming.rows())
    keep = [at for at in range(len(sheet.header)) if at not in forming.dropped]
    wanted = [*(sheet.header[at] for at in keep), *(name for name in NAMED if name not in places)]
    notes = (*sheet.notes, *forming.notes())
    refused = tuple(sorted(forming.refused))
    return replace(sheet, header=wanted, grid=grid, lines=forming.lines, refused=refused, notes=notes)


def _places(sheet: Table, at_part: int) -> tuple[dict[str, int], dict[str, Unit]]:
    """Return where the known columns stand, T1 and T2 among them, and the units of those with figures."""
    places: dict[str, int] = {}
    units: dict[str, Unit] = {}
    for at, header in enumerate(sheet.header):
        share = _SHARE.match(header)
        found = recognised(f"T{share[2]}" if share else header)
        if at == at_part or found is None or found[1] is None:
            continue
        name = f"T{share[1]}" if share else found[0].name
        places[name] = at
        if found[0].kind != "text":
            units[name] = found[1]
    return places, units


def _kinds(sheet: Table, at_part: int) -> list[str]:
    return [row[at_part].strip().casefold() for row in sheet.grid.rows()]


@dataclass
class _Forming:
    """The assemblies that a table of parts forms, and what formed none; `lines` and `refused` fill as they come."""

    sheet: Table
    places: dict[str, int]
    units: dict[str, Unit]
    at_part: int
    trouble: Trouble
    lines: list[int] = field(default_factory=list)
    refused: list[tuple[int, str, str, str]] = field(default_factory=list)
    count: dict[str, int] = field(default_factory=lambda: {"cone": 0, "cup": 0, "": 0, "none": 0})

    def __post_init__(self) -> None:
        sheet, places = self.sheet, self.places
        figures = Figures({name: sheet.column(places[name]) for name in self.units}, self.units)
        self.joining = Joining({name: at for name, at in places.items() if name not in SHARES}, sheet.header, figures)
        self.dropped = {self.at_part, *(places[name] for name in SHARES if name in places)}

    def rows(self) -> Iterator[list[str]]:
        """Yield assemblies, without the columns that only parts have."""
        for row, line in self._assemblies():
            if len(self.lines) == MOST_ROWS:
                self.trouble.stop(
                    "its cones and cups form more assemblies than can be taken in", f"at most {MOST_ROWS}"
                )
            self.lines.append(line)
            yield [cell for at, cell in enumerate(row) if at not in self.dropped]

    def notes(self) -> Iterator[str]:
        """Yield how the rows of the file add up to those that are judged, and what the assemblies leave in doubt."""
        parts = [_count(self.count[kind], kind) for kind in ("cone", "cup")]
        parts += [_count(self.count[""], "assembly")] if self.count[""] else []
        parts += [_count(self.count["none"], "row") + " of neither"] if self.count["none"] else []
        *first, last = parts
        alone = len(self.refused) - self.count["none"]
        formed = f"form {_count(len(self.lines) - self.count[''], 'assembly')}"
        formed += f", {_count(alone, 'part')} none" if alone else ""
        yield (
            f"The {_count(sum(self.count.values()), 'row')} of the file: {', '.join(first)} and {last}. Cones and cups "
            f"{formed}; counted as rows are assemblies, and what forms none."
        )
        yield from self.joining.cautions.lines()

    def _assemblies(self) -> Iterator[tuple[list[str], int]]:
        cups = self._cups()
        at_C = self.places.get("C")
        one_width = {
            series: at_C is None or len({cup.cells[at_C] for cup in some}) == 1 for series, some in cups.items()
        }
        met = set()
        for kind, part in self._parts():
            if kind == "":
                self.count[""] += 1
                yield [*part.cells, *("" for name in NAMED if name not in self.places)], part.line
            elif kind == "cone" and self._is_sound(kind, part):
                series = self._series(part)
                met.add(series)
                if series not in cups:
                    self._refuse(part, "series", "no cup has this series", "the series of a cup")
                for cup in cups.get(series, []):
                    yield self._named(part, cup, one_width[series]), part.line
        for series in cups.keys() - met:
            for cup in cups[series]:
                self._refuse(cup, "series", "no cone has this series", "the series of a cone")

    def _parts(self) -> Iterator[tuple[str, Part]]:
        """Yield every row with what it is, in the order of the file."""
        for at, (row, line) in enumerate(zip(self.sheet.grid.rows(), self.sheet.lines, strict=True)):
            cells = [cell.strip() for cell in row]
            kind = cells[self.at_part].casefold()
            yield "" if kind == "assembly" else kind, Part(cells, at, line)

    def _cups(self) -> dict[str, list[Part]]:
        """Return the sound cups by series; note the rows that are nothing."""
        cups: dict[str, list[Part]] = {}
        for kind, part in self._parts():
            if kind == "cup" and self._is_sound(kind, part):
                cups.setdefault(self._series(part), []).append(part)
            elif kind not in {"cup", "cone", ""}:
                self.count["none"] += 1
                wrong = f'"{plain(kind, 60)}" is no part'
                header = self.sheet.header[self.at_part]
                self.refused.append((part.line, header, wrong, "cone, cup, or nothing for an assembly"))
        return cups

    def _is_sound(self, kind: str, part: Part) -> bool:
        """Count a part, and refuse it where it has no series or a figure that is worked with cannot be read."""
        self.count[kind] += 1
        if not self._series(part):
            self._refuse(part, "series", "is empty", "the series that cones and cups fit in")
            return False
        for name in _WORKED_WITH:
            wrong = self.joining.figures.wrong.get(name, {}).get(part.row)
            if wrong is not None:
                self._refuse(part, name, wrong.wrong, wrong.accepted or "a number, or empty")
                return False
        return True

    def _series(self, part: Part) -> str:
        return part.cells[self.places["series"]]

    def _refuse(self, part: Part, name: str, wrong: str, accepted: str) -> None:
        self.refused.append((part.line, self.sheet.header[self.places[name]], wrong, accepted))

    def _named(self, cone: Part, cup: Part, one_width: bool) -> list[str]:
        row = self.joining.joined(cone, cup, one_width)
        at = self.places["designation"]
        named = {"cone": cone.cells[at], "cup": cup.cells[at], "listed": "formed"}
        row[at] = f"{named['cone']} + {named['cup']}"
        for name, text in named.items():
            if name in self.places:
                row[self.places[name]] = text
        return [*row, *(text for name, text in named.items() if name not in self.places)]


def _count(number: int, noun: str) -> str:
    many = f"{noun[:-1]}ies" if noun.endswith("y") else f"{noun}s"
    return f"{number} {noun if number == 1 else many}"
