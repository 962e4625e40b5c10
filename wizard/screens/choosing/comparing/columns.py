"""Pairs side by side as lines: figures in columns, what differs, what is best and what moved by signs."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from rich.cells import cell_len

from engine.errors import plain
from engine.selection.comparing.distributed import GROUP
from engine.units import number_text
from wizard.screens.choosing.comparing.both import STATE
from wizard.widgets.figures import MOST_PLACES, aligned, alike
from wizard.widgets.lines import Line, ended, fitted, line

if TYPE_CHECKING:
    from collections.abc import Sequence

    from engine.selection.comparing.compare import Cell, Comparison, Sandbox
    from engine.selection.comparing.compare import Line as Figures
    from wizard.glyphs import Glyphs
    from wizard.screens.choosing.comparing.both import Both

BEST, MOVED = "*", "^"
#: The groups of most interest, in order; load cases follow.
FIRST = {group: at for at, group in enumerate(("Pair", GROUP, "Checks", "Parts"))}
#: The groups that hold checks.
CHECKS = {GROUP, "Checks"}
#: The least width of a column, and that of the name before the columns.
COLUMN, NAME = 10, 16


def layout(pairs: int, width: int) -> tuple[int, int]:
    """Return the width of the names and of each column."""
    column = max(COLUMN, min(18, (width - 26) // max(pairs, 1)))
    return max(NAME, width - pairs * column - 2), column


def heading(
    told: Comparison, both: Both, designations: list[tuple[str, str]], glyphs: Glyphs, width: int
) -> list[Line]:
    """Return the names of the pairs over their columns, and their verdicts."""
    name, column = layout(len(designations), width)
    made: list[Line] = []
    for side, label in enumerate(("bearing at A", "bearing at B")):
        cells = "".join(fitted(plain(pair[side]), column - 1, right=True) + " " for pair in designations)
        made.append(line(fitted(f"  {fitted(label, name)}{cells}", width), "heading"))
    return [*made, both.verdicts(told, glyphs, name, column)]


def _words(one: Figures) -> list[str | float]:
    """Return what stands in the columns of a line: figures, or words where it has none."""
    # a wish has no figures: it is met or it is not
    wish = bool(one.passes) and one.unit == "-" and not any(one.capacity) and set(one.demand) <= {0.0, 1.0}
    if wish:
        return ["met" if passes else "not met" for passes in one.passes]
    return [plain(cell.replace("_", " ")) if isinstance(cell, str) else cell for cell in one.cells]


def _set(lines: Sequence[Figures], room: int) -> list[list[str]]:
    """Return the cells of some lines, in each column with their decimal points under each other where it has room.

    The figures of a line have as many decimals each. Where the room is short, only lines of one unit go together.
    """
    for most in range(MOST_PLACES, 1, -1):
        texts = [alike(_words(one), 4, most) for one in lines]
        columns = [aligned(cells) for cells in zip(*texts, strict=True)]
        if all(cell_len(cells[0]) <= room for cells in columns):
            return [list(cells) for cells in zip(*columns, strict=True)]
    apart = [list(run) for _, run in groupby(lines, lambda one: (one.unit, bool(one.passes)))]
    if len(apart) > 1:
        return [cells for run in apart for cells in _set(run, room)]
    return [[fitted(cell, room, right=True) for cell in alike(_words(one))] for one in lines]


def _cells(lines: Sequence[Figures], room: int) -> list[list[str]]:
    """Return the cells of a group of lines."""
    if not lines or lines[0].group != GROUP:
        return _set(lines, room)
    # hours and hundredths of a millimetre under each other would leave no digit of the latter
    figures = [one for one in lines if not one.passes]
    return [*(cells for one in figures for cells in _set([one], room)), *_set(lines[len(figures) :], room)]


def row(one: Figures, cells: Sequence[str], moved: tuple[bool, ...], glyphs: Glyphs, width: int) -> Line:
    """Return one figure of every pair; of a check its utilisation, with a sign where it fails."""
    name, column = layout(len(one.cells), width)
    unit = "" if one.passes or one.unit in {"", "-"} else f" {one.unit}"
    side = "" if one.part == "pair" else f" {one.part}"
    pieces: list[tuple[str, str]] = [
        (f"{glyphs.differs if one.differs else ' '} {ended(one.name, side + unit, name - 1)} ", "plain"),
    ]
    for at, cell in enumerate(cells):
        failing = bool(one.passes) and one.passes[at] is False
        sign = glyphs.caution if failing and one.advisory else glyphs.fails if failing else ""
        signs = f"{BEST if one.best[at] else ''}{sign}{MOVED if moved and moved[at] else ''}"
        meaning = ("caution" if one.advisory else "fails") if failing else "plain"
        shown = fitted(cell, column - 3, right=True).rstrip()
        pieces.append((fitted(f"{shown}{signs}", column), meaning))
    return tuple(pieces)


def rows(
    told: Comparison, both: Both, tried: Sandbox | None, only: bool, glyphs: Glyphs, width: int
) -> tuple[list[Line], dict[int, Figures]]:
    """Return the lines under headings of their groups, and the figures behind each; `only` what differs or moved."""
    made: list[Line] = []
    behind: dict[int, Figures] = {}
    every = [*told.lines, *(both.lines() if told.loads_known else ())]
    kept = [
        one
        for one in sorted(every, key=lambda line: FIRST.get(line.group, len(FIRST)))
        # the designations stand over the columns
        if not one.key.startswith("part.designation")
        and not (only and not one.differs and not any(tried.moved.get(one.key, ()) if tried is not None else ())
                 and (one.key != STATE or both.settled))
    ]  # fmt: skip
    name, column = layout(len(told.passes), width)
    for group, found in groupby(kept, lambda one: one.group):
        lines = list(found)
        state = lines.pop(0) if lines[0].key == STATE else None
        use = ": share of what each can bear" if group in CHECKS and lines else ""
        use = ": not computed for what is tried" if state is not None and both.tried else use
        made.append(line(fitted(f" {plain(group)}{use}", width), "heading"))
        if state is not None and not both.tried:
            behind[len(made)] = state
            made.append(both.state(glyphs, name, column, state.differs))
        for one, cells in zip(lines, _cells(lines, column - 3), strict=True):
            behind[len(made)] = one
            moved = tried.moved.get(one.key, ()) if tried is not None else ()
            made.append(row(one, cells, moved, glyphs, width))
    return made, behind


def details(one: Figures, before: Figures | None) -> str:
    """Return demand and capacity of a check for each pair, or what the figures were before a change was tried."""
    side = "" if one.part == "pair" else f", {one.part}"
    unit = "" if one.unit in {"", "-"} else f" {one.unit}"
    if before is not None:
        cells = [f"{_short(old)} to {_short(new)}" for old, new in zip(before.cells, one.cells, strict=True)]
    elif one.passes:
        known = zip(one.cells, one.passes, one.demand, one.capacity, strict=True)
        cells = [_short(cell) if passes is None else f"{_short(need)} of {_short(can)}"
                 for cell, passes, need, can in known]  # fmt: skip
    else:
        cells = [_short(cell) for cell in one.cells]
        unit = f" [{one.unit}]" if unit else ""
    return f"{one.name}{side}{unit}: {'; '.join(cells)}"


def _short(cell: Cell) -> str:
    return plain(cell) if isinstance(cell, str) else number_text(cell, 4)
