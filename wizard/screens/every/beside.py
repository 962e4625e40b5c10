"""A panel beside what a screen shows, where the terminal is wide enough for both."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.cells import cell_len

from wizard.screens.base import KeyedScreen
from wizard.widgets.lines import Lines, line

if TYPE_CHECKING:
    from wizard.widgets.lines import Line

#: Columns that a screen keeps for itself, those that it has use for, and what the panel beside it cannot do without.
KEPT, OWN, LEAST = 80, 110, 52
#: So many columns the panel takes before the screen gets more than it must have; a wider panel has columns of text.
MOST, COLUMN = 66, 64


def side_columns(width: int) -> int:
    """Return how many columns of a terminal the panel takes; 0 where the screen needs them."""
    room = width - KEPT
    return max(min(room, MOST), width - OWN) if room >= LEAST else 0


def columns(taken: int) -> tuple[int, int]:
    """Return how many columns of text stand in a panel, and how wide each is; a blank, a line and a blank part them."""
    count = max(1, (taken + 1) // (COLUMN + 3))
    return count, (taken - 2 - 3 * (count - 1)) // count


def flowed(lines: list[Line], count: int, width: int, height: int, between: str) -> list[Line]:
    """Return lines in so many columns of a height; a column ends between two blocks, where that leaves it half full."""
    parts: list[list[Line]] = []
    rest = list(lines)
    for left in range(count, 0, -1):
        end = min(height, len(rest))
        if len(rest) > height and left > 1:
            blanks = [at for at in range(height // 2, height + 1) if not _text(rest[at]).strip()]
            end = blanks[-1] if blanks else height
        parts.append(rest[:end])
        rest = rest[end + 1 :] if end < len(rest) and not _text(rest[end]).strip() else rest[end:]
    made: list[Line] = []
    for at in range(height):
        pieces: list[tuple[str, str]] = []
        for which, part in enumerate(parts):
            shown = part[at] if at < len(part) else ()
            pieces += [*([(f" {between} ", "quiet")] if which else []), *shown]
            if which < count - 1:
                pieces.append((" " * max(0, width - cell_len(_text(shown))), "plain"))
        made.append(tuple(pieces))
    return made


def _text(shown: Line) -> str:
    return "".join(text for text, _ in shown)


class BesideScreen(KeyedScreen):
    """The part of a screen that has a panel, in the block named side."""

    @property
    def width(self) -> int:
        """Columns for the screen itself; a wide terminal has the panel beside them."""
        return super().width - side_columns(super().width)

    def show_side(self) -> None:
        """Show or hide the panel, as the terminal is wide or not."""
        side, taken = self.query_one("#side", Lines), side_columns(super().width)
        side.display = taken > 0
        if not taken:
            return
        side.styles.width, height = taken, self.app.size.height
        count, width = columns(taken)
        shown = [*self.beside(width, height * count), *[line("")] * height]
        shown = flowed(shown, count, width, height, self.app.glyphs.between) if count > 1 else shown[:height]
        # the first column is the line that parts it from the screen
        side.show([((f"{self.app.glyphs.between} ", "quiet"), *one) for one in shown])

    def beside(self, width: int, height: int) -> list[Line]:
        """Return the lines of the panel, only asked where there is room: how things stand, unless a screen has more."""
        return self.stands(width, height)

    def stands(self, width: int, height: int) -> list[Line]:
        """Return how things stand: the leading pairs, the chosen one's checks, what is assumed."""
        from wizard.screens.asking import beside  # only where there is room for it

        return beside.lines(self.app.standing, self.app.session.answers, self.app.glyphs, width, height)
