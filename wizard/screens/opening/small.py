"""What is shown while the terminal is too small: one line. Everything lies behind it as it was."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.screens.base import KeyedScreen
from wizard.terminal import SMALLEST
from wizard.widgets.lines import Lines, line, wrapped

if TYPE_CHECKING:
    from textual.app import ComposeResult

WORDS = f"Too small: {SMALLEST[0]} columns by {SMALLEST[1]} lines are needed. Nothing is lost."


class SmallScreen(KeyedScreen):
    """One line, as wide as there is room; it goes when the terminal grows. Keys wait for that, but for leaving."""

    PLACE = "small"

    def compose(self) -> ComposeResult:
        """Lay out the one block."""
        yield Lines(self.app.meanings, id="rows")

    def show_all(self) -> None:
        """Say what size is needed."""
        if self.width > 0:
            self.block("#rows", [line(part, "caution") for part in wrapped(WORDS, self.width)])

    def moved(self, key: str) -> bool:  # noqa: ARG002
        """Nothing can be marked."""
        return False

    def click(self, x: int, y: int) -> None:
        """Nothing can be clicked."""

    def action_find(self) -> None:
        """Nothing is looked for in so little room."""

    def action_help(self) -> None:
        """Do nothing: the line says all there is to say."""

    def action_wait(self) -> None:
        """Wait until the terminal grows."""
