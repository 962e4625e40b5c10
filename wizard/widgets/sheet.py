"""The sheet that a section is drawn on: its characters, its cells, and where the drawing lies on it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wizard.glyphs import Glyphs
    from wizard.widgets.profile import Sizes

#: A cell is this many times as high as wide.
ASPECT = 2.0


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


def framed(s: Sizes, width: int, height: int) -> Frame:
    """Return where the section lies in so many columns and lines."""
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


class Sheet:
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
        """Return what was written, line by line."""
        return ["".join(row).rstrip() for row in self.cells]
