"""A page of text: keys scroll it, and what stands above it says how much there is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.screens import frame
from wizard.screens.every.beside import BesideScreen
from wizard.widgets.lines import Line, Lines, Text, line

if TYPE_CHECKING:
    from textual.app import ComposeResult


class ReadScreen(BesideScreen):
    """A page of text: keys scroll it, and the rule above it says where one is and how much there is."""

    def __init__(self) -> None:
        super().__init__()
        self._title: Line = line("")

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="side")
        yield Lines(meanings, id="top")
        yield Text(meanings, id="rows")
        yield Lines(meanings, id="foot")

    def show_text(self, lines: list[Line]) -> None:
        """Show the text from where it was read on, and the keys."""
        self.rows.show_rows(lines, ())
        self.block("#foot", [frame.foot(self.PLACE, self.width)])
        self.show_side()

    def show_title(self, title: Line) -> None:
        """Show a title over the text."""
        self._title = title
        self.marked_another()

    def marked_another(self) -> None:
        """Say where one is in the text."""
        where = self.query_one("#rows", Text).where
        self.block("#top", [self._title, frame.rule(self.app.glyphs, self.width, where)])
