"""Pairs side by side as lines: figures in columns, what differs, what is best and what moved by signs."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from engine.errors import plain
from engine.units import number_text
from wizard.widgets.lines import Line, fitted, line

if TYPE_CHECKING:
    from engine.selection.compare import Cell, Comparison, Sandbox
    from engine.selection.compare import Line as Figures
    from wizard.glyphs import Glyphs

BEST, MOVED = "*", "^"
#: The groups of most interest, in order; load cases follow.
FIRST = {group: at for at, group in enumerate(("Pair", "Checks", "Parts"))}
#: The least width of a column, and that of the name before the columns.
COLUMN, NAME = 10, 16


def layout(pairs: int, width: int) -> tuple[int, int]:
    """Return the width of the names and of each column."""
    column = max(COLUMN, min(18, (width - 30) // max(pairs, 1)))
    return max(NAME, width - pairs * column - 2), column


def heading(told: Comparison, designations: list[tuple[str, str]], glyphs: Glyphs, width: int) -> list[Line]:
    """Return the names of the pairs over their columns, and their verdicts."""
    name, column = layout(len(designations), width)
    made: list[Line] = []
    for side, label in enumerate(("bearing at A", "bearing at B")):
        cells = "".join(fitted(plain(pair[side]), column - 1, right=True) + " " for pair in designations)
        made.append(line(f"  {fitted(label, name)}{cells}"[:width], "heading"))
    words: list[tuple[str, str]] = [(f"  {fitted('verdict', name)}", "plain")]
    for passes in told.passes:
        word = f"{glyphs.passes if passes else glyphs.fails} {'passes' if passes else 'fails'}"
        words.append((fitted(word, column - 1, right=True) + " ", "passes" if passes else "fails"))
    return [*made, tuple(words)]


def cell_text(cell: Cell, room: int) -> str:
    """Return a cell as a person reads it."""
    if isinstance(cell, str):
        return fitted(plain(cell.replace("_", " ")), room, right=True)
    if math.isnan(cell):
        return "unknown".rjust(room)[-room:]
    return fitted(number_text(cell, 4), room, right=True)


def row(one: Figures, moved: tuple[bool, ...], glyphs: Glyphs, width: int) -> Line:
    """Return one figure of every pair; of a check its utilisation, with a sign where it fails."""
    name, column = layout(len(one.cells), width)
    unit = "" if one.passes or one.unit in {"", "-"} else f" {one.unit}"
    side = "" if one.part == "pair" else f" {one.part}"
    label = fitted(f"{one.name}{side}", name - len(unit) - 1).rstrip() + unit
    # a wish has no figures: it is met or it is not
    wish = bool(one.passes) and one.unit == "-" and not any(one.capacity) and set(one.demand) <= {0.0, 1.0}
    pieces: list[tuple[str, str]] = [
        (f"{glyphs.differs if one.differs else ' '} {fitted(label, name)}", "plain"),
    ]  # fmt: skip
    for at, cell in enumerate(one.cells):
        failing = bool(one.passes) and not one.passes[at]
        sign = glyphs.caution if failing and one.advisory else glyphs.fails if failing else " "
        after = f"{MOVED if moved and moved[at] else ' '}{BEST if one.best[at] else ' '}"
        meaning = ("caution" if one.advisory else "fails") if failing else "plain"
        shown = ("met" if one.passes[at] else "not met") if wish else cell
        pieces.append((f"{cell_text(shown, column - 3)}{sign}{after}", meaning))
    return tuple(pieces)


def rows(
    told: Comparison, tried: Sandbox | None, only: bool, glyphs: Glyphs, width: int
) -> tuple[list[Line], dict[int, Figures]]:
    """Return the lines under headings of their groups, and the figures behind each; `only` what differs or moved."""
    made: list[Line] = []
    behind: dict[int, Figures] = {}
    group = ""
    for one in sorted(told.lines, key=lambda line: FIRST.get(line.group, len(FIRST))):
        if one.key.startswith("part.designation"):  # they stand over the columns
            continue
        moved = tried.moved.get(one.key, ()) if tried is not None else ()
        if only and not one.differs and not any(moved):
            continue
        if one.group != group:
            group = one.group
            use = ": share of what each can bear" if group == "Checks" else ""
            made.append(line(fitted(f" {plain(group)}{use}", width), "heading"))
        behind[len(made)] = one
        made.append(row(one, moved, glyphs, width))
    return made, behind


def details(one: Figures, before: Figures | None) -> str:
    """Return demand and capacity of a check for each pair, or what the figures were before a change was tried."""
    side = "" if one.part == "pair" else f", {one.part}"
    unit = "" if one.unit in {"", "-"} else f" {one.unit}"
    if before is not None:
        cells = [f"{_short(old)} to {_short(new)}" for old, new in zip(before.cells, one.cells, strict=True)]
    elif one.passes:
        cells = [f"{_short(need)} of {_short(can)}" for need, can in zip(one.demand, one.capacity, strict=True)]
    else:
        cells = [_short(cell) for cell in one.cells]
        unit = f" [{one.unit}]" if unit else ""
    return f"{one.name}{side}{unit}: {'; '.join(cells)}"


def _short(cell: Cell) -> str:
    return plain(cell) if isinstance(cell, str) else number_text(cell, 4)
