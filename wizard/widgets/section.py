"""The upper half section of a bearing, drawn to scale in characters, with its sizes marked.

The cone back face lies at the left, at z = 0, and the shaft axis at the bottom; a cell counts as twice as high as
wide. Where the shaft is too thick for the lines at hand it is broken, as on any drawing: above the break everything
is in its true place, below it the load line goes on at the true angle and meets the axis at the true `a`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue
    from wizard.glyphs import Glyphs

#: Below this no section can be told; the sizes are listed instead.
LEAST_WIDTH, LEAST_HEIGHT = 40, 11
#: A cell is this many times as high as wide.
ASPECT = 2.0
#: Quarters of a cell that the roller must fill for the cell to show it beside a ring.
ROLLER_WINS = 2
INCH = 25.4


@dataclass(frozen=True)
class Sizes:
    """What is drawn: boundary dimensions, roller set and load centre of one assembly [mm, rad]."""

    d: float
    D: float
    T: float
    B: float
    C: float
    alpha: float
    Dwe: float
    Lwe: float
    Dpw: float
    a: float

    @classmethod
    def of(cls, catalogue: Catalogue, row: int) -> Sizes:
        """Return the sizes of a row of the catalogue."""
        return cls(**{name: float(getattr(catalogue, name)[row]) for name in cls.__dataclass_fields__})

    @property
    def drawable(self) -> bool:
        """Whether every size is known and they can belong to one section."""
        known = all(math.isfinite(value) for value in vars(self).values())
        return (
            known
            and 0 < self.d < self.Dpw < self.D
            and 0 < self.Dwe < (self.D - self.d) / 2
            and min(self.T, self.B, self.C, self.Lwe) > 0
            and 0 < self.alpha < math.pi / 4
        )


@dataclass(frozen=True)
class Ink:
    """Characters of the drawing. `roller` holds one for each set of filled quarters: 1, 2 above, 4, 8 below."""

    cup: str
    cone: str
    roller: str
    load: str
    centre: str
    axis: str
    witness: str
    broken: str
    ends: str
    along: str
    alpha: str
    degree: str


DRAWN = Ink(
    cup="╱", cone="╲", roller=" ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█", load="•", centre="◆", axis="─ · ", witness="┊", broken="≈",
    ends="├┤", along="─", alpha="α", degree="°",
)  # fmt: skip
TYPED = Ink(
    cup="/", cone="\\", roller="   # ### #######", load="*", centre="@", axis="- . ", witness=":", broken="~",
    ends="||", along="-", alpha="alpha", degree=" deg",
)  # fmt: skip


def ink(glyphs: Glyphs) -> Ink:
    """Return the characters that go with a set of glyphs: ASCII with ASCII."""
    return TYPED if glyphs.rule.isascii() else DRAWN


@dataclass(frozen=True)
class Profile:
    """Where cup, roller and cone lie in the plane of z (along the axis) and r (radius); slopes [rad], lengths [mm].

    The ribs are cylinders about the axis of the bearing, their tops at `large_rib` and `small_rib`.
    """

    sizes: Sizes
    roller_z: float
    slope: float
    nu: float
    half_length: float
    cup_r: float
    large_rib: float
    small_rib: float

    @classmethod
    def of(cls, s: Sizes, least_rib: float) -> Profile:
        """Return the profile of the sizes by the geometry of the catalogue; the big rib stands out at least so far."""
        from engine.catalogue import section as drawn

        nu = float(drawn.roller_half_angle_nu(s.Dwe, s.Dpw, s.alpha))
        slope, inner = s.alpha - nu, s.alpha - 2 * nu
        half = s.Lwe / 2 + float(drawn.roller_corner(s.Dwe))
        middle = s.Dpw / 2 - s.Dwe / 2 * math.cos(slope)
        drop = half * math.sin(inner)
        return cls(
            sizes=s,
            roller_z=s.T - s.C / 2 - s.Dwe / 2 * math.sin(slope),
            slope=slope,
            nu=nu,
            half_length=half,
            cup_r=float(drawn.cup_contact_radius(s.Dwe, s.Dpw, s.alpha)),
            large_rib=middle + drop + max(drawn.LARGE_RIB_HEIGHT * s.Dwe, least_rib),
            small_rib=middle - drop + drawn.SMALL_RIB_HEIGHT * s.Dwe,
        )

    def part(self, z: float, r: float) -> str:
        """Return what lies at a point: "cup", "roller", "cone" or ""."""
        s = self.sizes
        along, off = self._from_roller(z, r)
        if abs(along) <= self.half_length and abs(off) <= s.Dwe / 2 - along * math.tan(self.nu):
            return "roller"
        raceway = self.cup_r - (z - s.T + s.C / 2) * math.tan(s.alpha)
        if s.T - s.C <= z <= s.T and raceway <= r <= s.D / 2:
            return "cup"
        top = math.inf
        if abs(along) > self.half_length:
            top = self.large_rib if along < 0 else self.small_rib
        return "cone" if 0 <= z <= s.B and s.d / 2 <= r <= top and off < 0 else ""

    def _from_roller(self, z: float, r: float) -> tuple[float, float]:
        """Return a point in the roller's own directions: along its axis to the small end, and off it, outward."""
        dz, dr = z - self.roller_z, r - self.sizes.Dpw / 2
        cos, sin = math.cos(self.slope), math.sin(self.slope)
        return dz * cos - dr * sin, dz * sin + dr * cos


@dataclass(frozen=True)
class Frame:
    """Where the drawing lies: columns a mm, the column of z = 0, rows of the outside diameter, bore and axis."""

    columns: float
    left: int
    top: int
    bore: int
    axis: int
    broken: bool

    def column(self, z: float) -> int:
        """Return the cell in which a place along the axis lies."""
        return math.floor(self.left + z * self.columns)

    def cells(self, start: float, end: float) -> tuple[int, int]:
        """Return the first and the last cell of a length along the axis; a length takes one cell at least."""
        first = self.left + round(start * self.columns)
        return first, max(first, self.left + round(end * self.columns) - 1)


#: Columns kept at the right for D and d; lines for T and C above, for B under the bore, for the break, the axis, a.
_RIGHT, _ABOVE, _BELOW = 18, 2, 4


def _frame(s: Sizes, width: int, height: int) -> Frame:
    thick = (s.D - s.d) / 2
    before = max(0.0, -s.a)
    span = max(s.T, s.B, s.a) + before
    spare = 1 if height > 13 else 0
    by_height = (height - _ABOVE - _BELOW - spare) * ASPECT / thick
    by_width = (width - _RIGHT - 3) / span
    # the whole shaft is drawn where it fits without making the section smaller than the width makes it
    whole = (height - _ABOVE - 2) * ASPECT / (s.D / 2)
    broken = whole < 0.9 * min(by_height, by_width)
    columns = min(by_width, by_height) if broken else min(by_width, whole)
    section = max(2, round(thick * columns / ASPECT))
    bore = _ABOVE + section
    axis = height - 2 if broken else min(height - 2, bore + max(2, round(s.d / 2 * columns / ASPECT)))
    drawn = span * columns + _RIGHT
    left = round(1 + before * columns + max(0.0, (width - 3 - drawn) / 2))
    return Frame(columns, left, _ABOVE, bore, axis, broken)


class _Sheet:
    """Cells to draw on."""

    def __init__(self, width: int, height: int) -> None:
        self.width = width
        self.cells = [[" "] * width for _ in range(height)]

    def put(self, row: int, column: int, text: str) -> None:
        """Write a text; what lies beyond the sheet is left out."""
        if 0 <= row < len(self.cells):
            for at, character in enumerate(text, column):
                if 0 <= at < self.width:
                    self.cells[row][at] = character

    def written(self, row: int, column: int) -> bool:
        """Return whether a cell holds a letter or a digit, or stands between two."""
        around = self.cells[row][max(0, column - 1) : column + 2]
        return any(character.isalnum() for character in around)

    def lines(self) -> list[str]:
        return ["".join(row).rstrip() for row in self.cells]


def section(sizes: Sizes, width: int, height: int, glyphs: Glyphs, inches: bool = False) -> list[str]:
    """Return the section as lines of text, exactly `height` of them, none longer than `width`."""
    marks = ink(glyphs)
    if width < LEAST_WIDTH or height < LEAST_HEIGHT or not sizes.drawable:
        return _listed(sizes, width, height, marks, inches)
    sheet, frame = _Sheet(width, height), _frame(sizes, width, height)
    _draw_parts(sheet, frame, sizes, marks)
    _draw_shaft(sheet, frame, sizes, marks)
    _draw_sizes(sheet, frame, sizes, marks, inches)
    _draw_load_line(sheet, frame, sizes, marks)
    return sheet.lines()


def _listed(s: Sizes, width: int, height: int, marks: Ink, inches: bool) -> list[str]:
    """List the sizes, where there is no room for a drawing or no roller set is known."""
    texts = [_size(name, getattr(s, name), inches) for name in ("d", "D", "T", "B", "C", "a")]
    listed = [*texts, _angle(s, marks)]
    return [text[:width] for text in (*listed, *[""] * height)][:height]


def _size(name: str, value: float, inches: bool) -> str:
    if not math.isfinite(value):
        return f"{name} unknown"
    return f"{name} {value / INCH:.4f} in" if inches else f"{name} {f'{value:.3f}'.rstrip('0').rstrip('.')} mm"


def _angle(s: Sizes, marks: Ink) -> str:
    known = math.isfinite(s.alpha)
    return f"{marks.alpha} {math.degrees(s.alpha):.2f}{marks.degree}" if known else f"{marks.alpha} unknown"


def _draw_parts(sheet: _Sheet, frame: Frame, s: Sizes, marks: Ink) -> None:
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


def _draw_shaft(sheet: _Sheet, frame: Frame, s: Sizes, marks: Ink) -> None:
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


def _draw_load_line(sheet: _Sheet, frame: Frame, s: Sizes, marks: Ink) -> None:
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


def _draw_sizes(sheet: _Sheet, frame: Frame, s: Sizes, marks: Ink, inches: bool) -> None:
    _dimension(sheet, frame, 0, (0.0, s.T), _size("T", s.T, inches), marks)
    _dimension(sheet, frame, 1, (s.T - s.C, s.T), _size("C", s.C, inches), marks)
    _dimension(sheet, frame, frame.bore, (0.0, s.B), _size("B", s.B, inches), marks)
    a = _size("a", s.a, inches)
    whole = f"{a}, beyond the cone back face" if s.a < 0 else f"{a} from the cone back face"
    # the words stay away where the line has no room for them
    a = whole if frame.cells(min(0.0, s.a), max(0.0, s.a))[1] + 3 + len(whole) <= sheet.width else a
    _dimension(sheet, frame, frame.axis + 1, (0.0, s.a), a, marks)
    right = frame.cells(0.0, max(s.T, s.B))[1] + 2
    sheet.put(frame.top, right, f"{marks.along} {_size('D', s.D, inches)}")
    sheet.put(frame.bore - 1, right, f"{marks.along} {_size('d', s.d, inches)}")


def _dimension(sheet: _Sheet, frame: Frame, row: int, ends: tuple[float, float], text: str, marks: Ink) -> None:
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
