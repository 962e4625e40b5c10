"""The line in which anything is found by typing, and the list of what it finds."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.cells import cell_len

from wizard import wording
from wizard.screens import frame
from wizard.screens.base import EntryScreen
from wizard.screens.every.beside import BesideScreen
from wizard.screens.finding import beside as panel
from wizard.screens.finding import things
from wizard.widgets.entry import Entry
from wizard.widgets.lines import Line, Lines, Rows, fitted, line

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from wizard.screens.finding.things import Found

LONGEST = 60
_MOVES = frozenset({"up", "down", "pageup", "pagedown"})


class FindScreen(BesideScreen, EntryScreen):
    """A line to type in, and what it finds."""

    PLACE = "find"

    def __init__(self) -> None:
        super().__init__()
        self.opened_from = "chapter"
        self.found: list[Found] = []
        self.things: list[Found] = []

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="side")
        yield Lines(meanings, id="top")
        yield Rows(meanings, id="rows")
        yield Lines(meanings, id="entry")
        yield Lines(meanings, id="foot")

    def begin(self, place: str) -> None:
        """Begin with an empty line. Done before the screen opens: the next keys may already be on their way."""
        self.opened_from = place
        self.things = [*things.everything(self.app.session.answers, place), *things.sessions(self.app.beginning.ways())]
        self.entering, self.entry = "find", Entry(longest=LONGEST)

    def on_screen_resume(self) -> None:
        """Show what has been typed by now."""
        self.show_all(0)

    def show_all(self, at: int | None = None) -> None:
        """Bring every block up to date."""
        width = self.width
        if width <= 0 or not self.is_mounted:
            return
        text = self.entry.text
        named = list(things.parts(self.app.search.catalogue, text))
        self.found = things.with_parts(things.matching(self.things, text), named)
        lines = [_row(one, width) for one in self.found]
        self.rows.show_rows(lines or [line(" Nothing is called that.", "caution")], range(len(lines)), at)
        count = wording.counted(len(self.found), "place", "places")
        title = frame.head(f"Find: {count}", "type a number, words, or a designation", width)
        self.block("#top", [title, frame.rule(self.app.glyphs, width)])
        self.show_entry()
        self.show_side()

    def marked_another(self) -> None:
        """Follow the mark with what is said of it."""
        self.show_side()

    def beside(self, width: int, height: int) -> list[Line]:
        """Return what is known of the marked one, and how things stand."""
        one = self.found[self.rows.at] if self.rows.at < len(self.found) else None
        found = panel.of(one, self.app.session.answers, width) if one is not None else []
        return [*found, *self.stands(width, height - len(found))]

    def press(self, key: str, character: str | None) -> None:
        """Move in the list while typing; the rest edits the line."""
        if key in _MOVES:
            self.moved(key)
        else:
            super().press(key, character)

    def entry_edited(self) -> None:
        """Find as it is typed."""
        self.show_all(0)

    def leave_entry(self) -> None:
        """Back to where this was opened."""
        self.app.pop_screen()

    def submit_entry(self) -> None:
        """Go to what is marked."""
        if self.rows.at < len(self.found):
            self.app.go_to_found(self.found[self.rows.at], self.opened_from)

    def action_find(self) -> None:
        """Already here."""

    def action_go(self) -> None:
        """Go to what is marked."""
        self.submit_entry()


def _row(one: Found, width: int) -> Line:
    lead = fitted(f" {one.title}", min(44, width // 2))
    return (
        (lead, "key" if one.kind in {"action", "place"} else "plain"),
        (fitted(f" {one.about}", width - cell_len(lead)), "quiet"),
    )
