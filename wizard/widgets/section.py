"""The upper half section of a bearing, drawn to scale in characters, with its sizes marked.

The cone back face lies at the left, at z = 0, and the shaft axis at the bottom; a cell counts as twice as high as
wide. Where the shaft is too thick for the lines at hand it is broken, as on any drawing: above the break everything
is in its true place, below it the load line goes on at the true angle and meets the axis at the true `a`.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wizard.widgets.profile import Profile, Sizes
from wizard.widgets.sheet import Frame, Ink, Sheet, framed, ink

if TYPE_CHECKING:
    from wizard.glyphs import Glyphs

#: Below this no section can be told; the sizes are listed instead.
LEAST_WIDTH, LEAST_HEIGHT = 40, 11
#: Quarters of a cell that the roller must fill for the cell to show it beside a ring.
ROLLER_WINS = 2
INCH = 25.4
#: What stands before an estimated figure.
ESTIMATED = "~"


def section(sizes: Sizes, width: int, height: int, glyphs: Glyphs, inches: bool = False) -> list[str]:
    """Return the section as lines of text, exactly `height` of them, none longer than `width`."""
    marks = ink(glyphs)
    if width < LEAST_WIDTH or height < LEAST_HEIGHT or not sizes.drawable:
        return _listed(sizes, width, height, marks, inches)
    sheet, frame = Sheet(width, height), framed(sizes, width, height)
    _draw_parts(sheet, frame, sizes, marks)
    _draw_shaft(sheet, frame, sizes, marks)
    _draw_sizes(sheet, frame, sizes, marks, inches)
    _draw_load_line(sheet, frame, sizes, marks)
    return sheet.lines()


def _listed(s: Sizes, width: int, height: int, marks: Ink, inches: bool) -> list[str]:
    """List the sizes, where there is no room for a drawing or no roller set is known."""
    texts = [_size(s, name, inches) for name in ("d", "D", "T", "B", "C", "a")]
    listed = [*texts, _angle(s, marks)]
    return [text[:width] for text in (*listed, *[""] * height)][:height]


def _size(s: Sizes, name: str, inches: bool) -> str:
    value: float = getattr(s, name)
    if not math.isfinite(value):
        return f"{name} unknown"
    shown = f"{value / INCH:.4f} in" if inches else f"{f'{value:.3f}'.rstrip('0').rstrip('.')} mm"
    return f"{name} {_guess(s, name)}{shown}"


def _guess(s: Sizes, name: str) -> str:
    """Return the mark of an estimated figure, or nothing."""
    return ESTIMATED if name in s.estimated else ""


def _angle(s: Sizes, marks: Ink) -> str:
    known = math.isfinite(s.alpha)
    guess = _guess(s, "alpha")
    return f"{marks.alpha} {guess}{math.degrees(s.alpha):.2f}{marks.degree}" if known else f"{marks.alpha} unknown"


def _draw_parts(sheet: Sheet, frame: Frame, s: Sizes, marks: Ink) -> None:
    rows = frame.bore - frame.top
    # radii fill the whole rows between outside diameter and bore, so that no ring loses a line to rounding
    per_row = (s.D - s.d) / 2 / rows
    # the big rib tells which side is which, so it keeps one row even where that is more than its height
    profile = Profile.of(s, least_rib=per_row)
    first, last = frame.cells(0.0, max(s.T, s.B))
    for row in range(rows):
        for column in range(first, last + 1):
            found = [
                profile.part((column + across - frame.left) / frame.columns, s.D / 2 - (row + down) * per_row)
                for down in (0.25, 0.75)
                for across in (0.25, 0.75)
            ]
            sheet.put(frame.top + row, column, _cell(found, marks))


def _cell(found: list[str], marks: Ink) -> str:
    """Return the character for what lies at the four quarters of a cell."""
    filled = sum(1 << at for at, part in enumerate(found) if part == "roller")
    cups, cones = found.count("cup"), found.count("cone")
    if cups + cones < 2 or filled.bit_count() >= ROLLER_WINS:
        return marks.roller[filled]
    return marks.cup if cups >= cones else marks.cone


def _draw_shaft(sheet: Sheet, frame: Frame, s: Sizes, marks: Ink) -> None:
    first, last = frame.cells(min(0.0, s.a), max(s.T, s.B, s.a))
    first, last = max(0, first - 2), last + 3
    for row in range(frame.bore, frame.axis):
        sheet.put(row, frame.column(0), marks.witness)
    if frame.broken:
        sheet.put(_break_row(frame), first, marks.broken * (last - first))
    pattern = marks.axis * sheet.width
    sheet.put(frame.axis, first, pattern[: last - first])


def _break_row(frame: Frame) -> int:
    return frame.bore + 1


def _radius(frame: Frame, s: Sizes, row: int) -> float:
    """Return the radius at the middle of a row; below a break it counts up from the axis."""
    per_row = (s.D - s.d) / 2 / (frame.bore - frame.top)
    if frame.broken and row > _break_row(frame):
        return (frame.axis - row) * per_row
    if row < frame.bore or frame.broken:
        return s.D / 2 - (row - frame.top + 0.5) * per_row
    # the axis lies at the middle of its row
    return s.d / 2 * (frame.axis - row) / (frame.axis - frame.bore + 0.5)


def _draw_load_line(sheet: Sheet, frame: Frame, s: Sizes, marks: Ink) -> None:
    slope = math.tan(s.alpha)
    column = frame.column(s.a)
    for row in range(frame.top, frame.axis):
        if frame.broken and row == _break_row(frame):
            continue
        column = frame.column(s.a + _radius(frame, s, row) * slope)
        if not sheet.written(row, column):
            sheet.put(row, column, marks.load)
    sheet.put(frame.axis, frame.column(s.a), marks.centre)
    # beside the last of the load line above the axis, or on the axis where the break takes that line
    row = frame.axis - 1
    if frame.broken and row <= _break_row(frame):
        row, column = frame.axis, frame.cells(0.0, max(s.T, s.B, s.a))[1] + 2
    sheet.put(row, column + 2, _angle(s, marks))


def _draw_sizes(sheet: Sheet, frame: Frame, s: Sizes, marks: Ink, inches: bool) -> None:
    _dimension(sheet, frame, 0, (0.0, s.T), _size(s, "T", inches), marks)
    _dimension(sheet, frame, 1, (s.T - s.C, s.T), _size(s, "C", inches), marks)
    _dimension(sheet, frame, frame.bore, (0.0, s.B), _size(s, "B", inches), marks)
    a = _size(s, "a", inches)
    whole = f"{a}, beyond the cone back face" if s.a < 0 else f"{a} from the cone back face"
    # the words stay away where the line has no room for them
    a = whole if frame.cells(min(0.0, s.a), max(0.0, s.a))[1] + 3 + len(whole) <= sheet.width else a
    _dimension(sheet, frame, frame.axis + 1, (0.0, s.a), a, marks)
    right = frame.cells(0.0, max(s.T, s.B))[1] + 2
    sheet.put(frame.top, right, f"{marks.along} {_size(s, 'D', inches)}")
    sheet.put(frame.bore - 1, right, f"{marks.along} {_size(s, 'd', inches)}")


def _dimension(sheet: Sheet, frame: Frame, row: int, ends: tuple[float, float], text: str, marks: Ink) -> None:
    """Draw a dimension line along z, its text inside where there is room, else at its right."""
    first, last = frame.cells(min(ends), max(ends))
    last = max(last, first + 1)
    inside = last - first - 1
    line = marks.along * inside
    if len(text) + 4 <= inside:
        line = f" {text} ".center(inside, marks.along)
    else:
        sheet.put(row, last + 2, text)
    sheet.put(row, first, marks.ends[0] + line + marks.ends[1])
