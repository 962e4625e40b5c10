"""A shaft drawn to scale in characters: its steps, what sits on it, its bearings, and the forces in one plane.

A lies at the left. Plane y is seen from the side, with y up; plane z is turned up in the same way. A force that points
down stands above the shaft and presses on it, one that points up pushes from below.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.units import number_text
from wizard.widgets.forces import NOTHING, figure, put_along, put_beside

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wizard.glyphs import Glyphs

#: One letter for each kind of element, behind its number.
SIGNS = {
    "force": "f", "spur": "s", "helical": "h", "straight_bevel": "b", "spiral_bevel": "p", "worm": "w",
    "worm_wheel": "g", "flat_belt": "l", "v_belt": "v", "toothed_belt": "t", "chain": "c", "weight": "m",
    "unbalance": "u", "impeller": "i", "ram": "r", "screw": "x", "wheel": "o",
}  # fmt: skip
#: Rows of the picture above the axis for the outline, and on either side of the shaft for arrows.
OUTLINE, ARROWS = 2, 3
LEAST_WIDTH = 30
#: A part of a force smaller than this share of the whole shows no arrow beside its label.
SMALL = 0.1


@dataclass(frozen=True)
class Mark:
    """One thing on the shaft: its label, its place z [mm], its force in planes y and z and along the shaft [N].

    A part of the shaft that turns with it has no direction; `turning` says so.
    """

    label: str
    z: float
    F_y: float = 0.0
    F_z: float = 0.0
    F_a: float = 0.0
    turning: bool = False


@dataclass(frozen=True)
class Drawn:
    """All that is drawn: marks, the bearings' planes and load centres [mm], where the steps begin, length, diameter.

    `supports` holds what the bearings put on the shaft, as marks at their load centres.
    """

    marks: tuple[Mark, ...] = ()
    planes: tuple[float, float] | None = None
    centres: tuple[float, float] | None = None
    begin: float = 0.0
    steps: tuple[tuple[float, float], ...] = ()
    supports: tuple[Mark, ...] = ()

    @property
    def ends(self) -> tuple[float, float] | None:
        """The first and the last place to be drawn [mm]; None where there is nothing."""
        places = [mark.z for mark in self.marks] + [*(self.planes or ()), *(self.centres or ())]
        if self.steps:
            places += [self.begin, self.begin + sum(length for length, _ in self.steps)]
        return (min(places), max(places)) if places and min(places) < max(places) else None

    def diameter(self, z: float) -> float:
        """Return the diameter of the shaft at a place, 0 beyond its ends."""
        begin = self.begin
        for length, diameter in self.steps:
            if begin <= z < begin + length:
                return diameter
            begin += length
        return 0.0


@dataclass(frozen=True)
class Ink:
    """Characters of the drawing; `bars` are eighths of a cell from the bottom, `out` and `into` point to the eye."""

    bars: str
    line: str
    axis: str
    tick: str
    centre: str
    shank: str
    up: str
    down: str
    right: str
    left: str
    out: str
    into: str


DRAWN = Ink(bars=" ▁▂▃▄▅▆▇█", line="─", axis="─ · ", tick="┬", centre="◆", shank="│", up="↑", down="↓", right="→",
            left="←", out="•", into="×")  # fmt: skip
TYPED = Ink(bars=" __===###", line="-", axis="- . ", tick="|", centre="*", shank="|", up="^", down="v", right=">",
            left="<", out="o", into="x")  # fmt: skip


def ink(glyphs: Glyphs) -> Ink:
    """Return the characters that go with a set of glyphs: ASCII with ASCII."""
    return TYPED if glyphs.rule.isascii() else DRAWN


@dataclass(frozen=True)
class _Scale:
    """Places [mm] to columns of a width; a column is kept free at both ends."""

    low: float
    high: float
    width: int

    def column(self, z: float) -> int:
        return 1 + round((z - self.low) / (self.high - self.low) * (self.width - 3))

    def place(self, column: int) -> float:
        """Return the middle of a column, as a place."""
        return self.low + (column - 1) / (self.width - 3) * (self.high - self.low)


def _row(width: int) -> list[str]:
    return [" "] * width


def _put(row: list[str], column: int, text: str) -> None:
    for at, character in enumerate(text, column):
        if 0 <= at < len(row):
            row[at] = character


def strip(drawn: Drawn, width: int, glyphs: Glyphs) -> list[str]:
    """Return the shaft in three lines: labels with their directions, the outline, bearings and load centres."""
    ends, marks = drawn.ends, ink(glyphs)
    if ends is None or width < LEAST_WIDTH:
        return ["", "", ""]
    scale = _Scale(*ends, width)
    labels = [(scale.column(mark.z), mark.label + _directions(mark, marks)) for mark in drawn.marks]
    rows = (_spread(labels, width), _profile(drawn, scale, marks), _bearings(drawn, scale, marks))
    return ["".join(row).rstrip() for row in rows]


def _directions(mark: Mark, marks: Ink) -> str:
    """Return the arrows behind a label: across the shaft in the plane that has more of it, then along it."""
    whole = max(abs(mark.F_y), abs(mark.F_z), abs(mark.F_a))
    if not whole or mark.turning:
        return ""
    if abs(mark.F_y) >= abs(mark.F_z):
        across, signs = mark.F_y, (marks.up, marks.down)
    else:
        across, signs = mark.F_z, (marks.out, marks.into)
    found = (signs[0] if across > 0 else signs[1]) if abs(across) > SMALL * whole else ""
    if abs(mark.F_a) > SMALL * whole:
        found += marks.right if mark.F_a > 0 else marks.left
    return found


def _spread(labels: Sequence[tuple[int, str]], width: int) -> list[str]:
    """Return a row with labels over their columns, moved to the right where two would touch; the last ones fit in."""
    row, end = _row(width), 0
    placed = sorted(labels)
    rest = sum(len(text) + 1 for _, text in placed)
    for column, text in placed:
        at = max(end, column - (len(text) - 1) // 2, 0)
        at = max(end, min(at, width - rest + 1))
        _put(row, at, text)
        end, rest = at + len(text) + 1, rest - len(text) - 1
    return row


def _profile(drawn: Drawn, scale: _Scale, marks: Ink) -> list[str]:
    """Return the outline in one row, by eighths of the greatest diameter, with a tick under each mark."""
    row = _row(scale.width)
    first, last = (scale.column(end) for end in (scale.low, scale.high))
    greatest = max((diameter for _, diameter in drawn.steps), default=0.0)
    for column in range(first, last + 1):
        share = drawn.diameter(scale.place(column)) / greatest if greatest else 0.0
        row[column] = marks.bars[max(1, round(8 * share))] if share else marks.line
    for mark in drawn.marks:
        row[scale.column(mark.z)] = marks.shank if greatest else marks.tick
    return row


def _bearings(drawn: Drawn, scale: _Scale, marks: Ink) -> list[str]:
    """Return the row with the load centres, the planes that distances are measured from, and where room is the ends."""
    row = _row(scale.width)
    for centre in drawn.centres or ():
        _put(row, scale.column(centre), marks.centre)
    for side, beside, plane in zip("AB", (-1, 1), drawn.planes or (), strict=False):
        column = scale.column(plane)
        # a load centre in the same column keeps it, and the letter goes outboard
        _put(row, column + beside if row[column] == marks.centre else column, side)
    left, right = number_text(scale.low, 4), f"{number_text(scale.high, 4)} mm"
    for at, text in ((0, left), (scale.width - len(right), right)):
        if not "".join(row[max(0, at - 1) : at + len(text) + 1]).strip():
            _put(row, at, text)
    return row


def picture(drawn: Drawn, plane: str, width: int, glyphs: Glyphs) -> list[str]:
    """Return the shaft with the forces in a plane ("y" or "z"); the lines are as many as the outline needs."""
    ends, marks = drawn.ends, ink(glyphs)
    if ends is None or width < LEAST_WIDTH:
        return []
    scale = _Scale(*ends, width)
    labels = [(scale.column(mark.z), mark.label) for mark in drawn.marks]
    above, below = _arrows(drawn, plane, scale, marks)
    outline = [_level(drawn, scale, row, marks) for row in range(OUTLINE - 1, -1, -1)] if drawn.steps else []
    axis = _row(width)
    first, last = scale.column(ends[0]), scale.column(ends[1])
    pattern = marks.axis * width if drawn.steps else marks.line * width
    _put(axis, first, pattern[: last - first + 1])
    for mark in drawn.marks:
        axis[scale.column(mark.z)] = marks.tick
    for centre in drawn.centres or drawn.planes or ():
        axis[scale.column(centre)] = marks.centre
    _thrusts(drawn, axis, pattern, scale, marks)
    rows = [_spread(labels, width), *above, *outline, axis, *below, _bearings(drawn, scale, marks)]
    return ["".join(row).rstrip() for row in rows]


def _thrusts(drawn: Drawn, axis: list[str], pattern: str, scale: _Scale, marks: Ink) -> None:
    """Draw the forces along the shaft on its axis, the greatest first: an arrow beside the place, and its figure."""
    greatest = max((abs(mark.F_a) for mark in drawn.marks), default=0.0)
    columns = [*(mark.z for mark in drawn.marks), *(drawn.centres or drawn.planes or ())]
    taken = {scale.column(z) for z in columns}
    for mark in sorted(drawn.marks, key=lambda mark: -abs(mark.F_a)):
        if abs(mark.F_a) > NOTHING * greatest:
            arrow = marks.right if mark.F_a > 0 else marks.left
            put_along(axis, pattern, taken, scale.column(mark.z), arrow, mark.F_a)


def _level(drawn: Drawn, scale: _Scale, row: int, marks: Ink) -> list[str]:
    """Return one row of the upper half of the outline; row 0 lies on the axis."""
    greatest = max(diameter for _, diameter in drawn.steps)
    cells = _row(scale.width)
    for column in range(scale.width):
        filled = 8 * OUTLINE * drawn.diameter(scale.place(column)) / greatest - 8 * row
        cells[column] = marks.bars[max(0, min(8, round(filled)))]
    return cells


def _arrows(drawn: Drawn, plane: str, scale: _Scale, marks: Ink) -> tuple[list[list[str]], list[list[str]]]:
    """Return the rows above and below the shaft with arrows as long as the forces are great, heads at the shaft.

    A figure stands beside the tail where there is room.
    """
    above, below = ([_row(scale.width) for _ in range(ARROWS)] for _ in "12")
    forces = [(mark.z, mark.F_y if plane == "y" else mark.F_z) for mark in (*drawn.marks, *drawn.supports)
              if not mark.turning]  # fmt: skip
    greatest = max((abs(force) for _, force in forces), default=0.0)
    for z, force in sorted(forces, key=lambda one: abs(one[1])):
        if not abs(force) > NOTHING * greatest:
            continue
        column, length = scale.column(z), max(1, round(ARROWS * abs(force) / greatest))
        rows = below if force > 0 else above[::-1]
        for row in rows[1:length]:
            row[column] = marks.shank
        rows[0][column] = marks.up if force > 0 else marks.down
    # the figures last and the greatest first, so that no arrow is in their way unseen
    said = set[tuple[int, bool]]()
    for z, force in sorted(forces, key=lambda one: -abs(one[1])):
        column, up = scale.column(z), force > 0
        # of arrows that lie on one another only the longest is seen
        if abs(force) > NOTHING * greatest and (column, up) not in said:
            said.add((column, up))
            length = max(1, round(ARROWS * abs(force) / greatest))
            put_beside((below if up else above[::-1])[length - 1], column, figure(force))
    return above, below
