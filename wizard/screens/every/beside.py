"""A panel beside what a screen shows, where the terminal is wide enough for both."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.screens.base import KeyedScreen
from wizard.widgets.lines import Lines, line

if TYPE_CHECKING:
    from wizard.widgets.lines import Line

#: Columns that a screen keeps for itself, and what the panel beside it needs and takes at most.
KEPT = 84
LEAST, MOST = 44, 66


def side_columns(width: int) -> int:
    """Return how many columns of a terminal the panel takes; 0 where the screen needs them."""
    room = width - KEPT
    return min(room, MOST) if room >= LEAST else 0


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
        shown = [*self.beside(taken - 2, height), *[line("")] * height][:height]
        # the first column is the line that parts it from the screen
        side.show([((f"{self.app.glyphs.between} ", "quiet"), *one) for one in shown])

    def beside(self, width: int, height: int) -> list[Line]:
        """Return the lines of the panel; only asked where there is room for it."""
        raise NotImplementedError
