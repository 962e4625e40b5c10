"""The lines of one pair: verdict, checks, every figure, which steel suits, what was assumed, what to mind."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from rich.cells import cell_len

from engine.errors import plain
from engine.record.document import NOTICE, readable
from wizard.widgets.figures import aligned, column, figure
from wizard.widgets.lines import Line, ended, fitted, line, wrapped

if TYPE_CHECKING:
    from collections.abc import Sequence

    from engine.figures import Block, Figure
    from engine.record.result import CheckRow, Result
    from wizard.glyphs import Glyphs

BAR = 5
#: Columns of a figure at most, of a unit with the blank before it; from how many on there is a bar and a word.
ROOM, UNIT, ROOMY = 12, 6, 76
NOT_JUDGED = "not judged"
#: Columns of a symbol and of the least of a name.
LEAD = 9 + 14


@dataclass
class Detail:
    """Lines, those that can be marked, the source behind each of these, and its whole name where the line cuts it."""

    lines: list[Line] = field(default_factory=list)
    stops: list[int] = field(default_factory=list)
    sources: dict[int, str] = field(default_factory=dict)
    names: dict[int, str] = field(default_factory=dict)

    def heading(self, shown: Line) -> None:
        """Begin another part."""
        if self.lines:
            self.lines.append(line(""))
        self.lines.append(shown)

    def add(self, shown: Line, name: str, source: str) -> None:
        """Add a line with what stands behind it."""
        if name not in "".join(text for text, _ in shown):
            self.names[len(self.lines)] = name
        self.sources[len(self.lines)] = source
        self.add_words(shown)

    def add_words(self, shown: Line) -> None:
        """Add a line of words."""
        self.stops.append(len(self.lines))
        self.lines.append(shown)


def detail(result: Result, glyphs: Glyphs, width: int) -> Detail:
    """Return everything that is known of a pair."""
    made = Detail()
    title, *rows = checks(result.checks, glyphs, width)
    made.heading(title)
    for check, shown in zip(result.checks, rows, strict=True):
        unit = "" if check.unit == "-" else f" [{check.unit}]"
        made.add(shown, _name(check), f"{check.demand_is} against {check.capacity_is}{unit}: {check.source}")
    for block in result.blocks:
        title, *rows = figures(block, width)
        made.heading(title)
        for one, shown in zip(block.figures, rows, strict=True):
            made.add(shown, plain(one.name), f"{plain(one.name)}: {one.source}")
    for heading, texts in (
        ("Which steel", result.steels),
        ("Mind", result.cautions),
        ("Still missing", result.missing),
        ("Assumed", result.assumptions),
        ("Notice", (NOTICE,)),
    ):
        if texts:
            made.heading(line(heading, "heading"))
        for text in texts:
            for part in wrapped(plain(text, 1000), width - 2):
                made.add_words(line(f" {part}"))
    return made


def _name(check: CheckRow) -> str:
    return check.name if check.side == "pair" else f"{check.name}, {check.side}"


def checks(rows: Sequence[CheckRow], glyphs: Glyphs, width: int) -> list[Line]:
    """Return the heading of the checks and a line for each: what is demanded of what can be borne, and the share."""
    needs = column(lambda most: [figure(row.demand, 4, most) for row in rows], ROOM)
    bears = column(lambda most: [figure(row.capacity, 4, most) for row in rows], ROOM)
    uses = aligned([_use(row.utilisation) if row.judged else "" for row in rows])
    roomy = width >= ROOMY
    # without room of its own the word of what is not judged stands in place of the use
    words = 3 if roomy or all(row.judged for row in rows) else len(NOT_JUDGED)
    leasts = ((6, needs), (8, bears), (words, uses))
    need, bear, use = (max([least, *map(cell_len, cells)]) + 1 for least, cells in leasts)
    name = max(12, min(34, width - need - bear - use - (UNIT + (BAR + 6 if roomy else 0)) - 4))
    titles = f"{fitted('Checks', name + 3)}{'demand':>{need}}{'capacity':>{bear}}{'':{UNIT}}{'use':>{use}}"
    made = [line(fitted(titles, width), "heading")]
    for row, *cells in zip(rows, needs, bears, uses, strict=True):
        word, meaning, mark = _verdict(row, glyphs)
        told = ended(plain(row.name, 60), "" if row.side == "pair" else f", {row.side}", name)
        unit = "" if row.unit == "-" else row.unit
        numbers = f"{cells[0]:>{need}}{cells[1]:>{bear}}{fitted(f' {unit}', UNIT)}"
        if row.judged:
            numbers += f"{cells[2]:>{use}} "
            numbers += f"{_bar(row.utilisation, glyphs)} " if roomy else ""
        else:
            numbers += " " * (1 if roomy else use - len(NOT_JUDGED))
        pieces = ((f" {mark} ", meaning), (f"{told}{numbers}", "plain"))
        # without room for the word the sign at the left says it
        made.append((*pieces, (word, meaning)) if roomy or not row.judged else pieces)
    return made


def figures(block: Block, width: int) -> list[Line]:
    """Return the heading of a block of figures and a line for each, both bearings side by side, units behind."""
    sides = [_side(block.figures, side) for side in "AB"]
    wide = [max([8, *map(cell_len, cells)]) + 1 for cells in sides]
    unit = max((cell_len(one.unit) + 1 for one in block.figures if one.unit != "-"), default=0)
    # where symbols and names have no room in columns of their own, they share one
    tight = width - sum(wide) - unit if width - sum(wide) - unit < LEAD else 0
    name = max(14, min(34, width - sum(wide) - 18))
    titles = "".join(f"{side:>{room}}" for side, room in zip("AB", wide, strict=True))
    made = [line(fitted(f"{fitted(plain(block.title), tight or name + 9)}{titles}", width), "heading")]
    for one, *cells in zip(block.figures, *sides, strict=True):
        lead = f"  {fitted(one.symbol, 6)} {fitted(plain(one.name, 60), name)}"
        if tight:
            lead = fitted(f" {f'{one.symbol} ' if one.symbol else ''}{plain(one.name, 60)}", tight)
        if isinstance(one.A, str) and one.of_pair:  # a word of the pair may be long: it runs over both columns
            made.append(line(fitted(f"{lead} {plain(one.A)}", width)))
            continue
        values = "".join(fitted(cell, room, right=True) for cell, room in zip(cells, wide, strict=True))
        made.append(line(fitted(f"{lead}{values} {'' if one.unit == '-' else one.unit}", width)))
    return made


def _side(figures: Sequence[Figure], side: str) -> list[str]:
    """Return the column of one bearing; a word of the pair as a whole stands in none."""

    def cell(one: Figure, most: int) -> str:
        value = one.A if side == "A" else one.B
        if value is None or (isinstance(value, str) and one.of_pair):
            return ""
        shown = plain(value, 20) if isinstance(value, str) else figure(value, one.digits, most)
        return ("~" if side in one.estimated else "") + shown

    return column(lambda most: [cell(one, most) for one in figures], ROOM)


def use_bar(utilisation: float, glyphs: Glyphs) -> tuple[str, str]:
    """Return a utilisation in figures and as a bar."""
    return _use(utilisation), _bar(utilisation, glyphs)


def _use(utilisation: float) -> str:
    """Return a utilisation with its decimal point always at the same place."""
    return f"{utilisation:.2f}" if abs(utilisation) < 1000 else readable(utilisation, 3)


def _bar(utilisation: float, glyphs: Glyphs) -> str:
    known = utilisation == utilisation
    full = min(BAR, round(BAR * min(utilisation, 1.0))) if known else 0
    return glyphs.bar_full * full + glyphs.bar_empty * (BAR - full)


def _verdict(check: CheckRow, glyphs: Glyphs) -> tuple[str, str, str]:
    if not check.judged:
        return NOT_JUDGED, "caution", glyphs.caution
    if check.passes:
        return "ok", "passes", glyphs.passes
    if check.advisory:
        return "mind", "caution", glyphs.caution
    return "FAILS", "fails", glyphs.fails
