"""The catalogue: sort, filter as you type, both systems side by side; one assembly's section and its twins."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from engine.errors import Problems
from wizard import wording
from wizard.screens import frame, parts
from wizard.screens.base import EntryScreen
from wizard.widgets.lines import Line, Lines, Rows, fitted, line, wrapped

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from engine.catalogue.columns import Catalogue

#: Rows drawn; a longer list says that it goes on.
MOST = 2000
LONGEST_FILTER = 200


class BrowseScreen(EntryScreen):
    """Every assembly of the catalogue in use."""

    PLACE = "browse"

    def __init__(self) -> None:
        super().__init__()
        self.view = parts.View()
        self.filter = ""
        self.wrong = ""
        self.fresh = False
        self.found: list[int] = []

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="head")
        yield Rows(meanings, id="rows")
        yield Lines(meanings, id="about")
        yield Lines(meanings, id="entry")
        yield Lines(meanings, id="foot")

    @property
    def catalogue(self) -> Catalogue | None:
        """The catalogue, once it is read."""
        return self.app.search.catalogue

    def show_all(self) -> None:
        """Bring every block up to date."""
        self._sift()
        width = self.width
        rule = frame.rule(self.app.glyphs, width)
        title = frame.head(self._title(), "", width)
        self.block("#head", [title, rule, parts.heading(self.view, width)])
        rows = self.catalogue
        lines = [parts.row_line(rows, at, self.view, width) for at in self.found[:MOST]] if rows is not None else []
        self.rows.show_rows(lines or self._none(), range(len(lines)))
        self.show_about()
        self.show_entry()

    def _none(self) -> list[Line]:
        """Say why nothing is listed."""
        rows = self.catalogue
        if rows is None or self.wrong or not self.filter:
            return []
        from engine.catalogue.sift import why_none

        words = f"No assembly meets the filter: {why_none(rows, self.filter)}"
        return [line(f" {part}", "caution") for part in wrapped(words, self.width - 2)]

    def _title(self) -> str:
        if self.catalogue is None:
            return "Catalogue: reading it ..."
        shown = wording.counted(len(self.found), "assembly", "assemblies")
        more = f", the first {MOST} listed" if len(self.found) > MOST else ""
        order = parts.hidden_order(self.view, self.width)
        by = f", by {order}" if order else ""
        return f"Catalogue: {shown}{more}{by}" + (f" with {self.filter}" if self.filter else "")

    def _sift(self) -> None:
        rows = self.catalogue
        if rows is None:
            return
        from engine.catalogue.sift import sift

        try:
            kept = sift(rows, self.filter)
        except Problems as problems:
            # while a term is half typed the list stays as it was
            self.wrong = str(problems)
            return
        self.wrong = ""
        self.view = replace(self.view, limits=parts.limits(self.filter, self.app.session.answers))
        self.found = parts.ordered(rows, kept, self.view)

    def show_about(self) -> None:
        """Say what a filter takes, what is wrong with it, or what the marked assembly is made of."""
        self.block("#about", [frame.rule(self.app.glyphs, self.width), self._about()])

    def _about(self) -> Line:
        from engine.catalogue.sift import ACCEPTED

        if self.wrong:
            return line(fitted(self.wrong, self.width), "caution")
        if self.entering == "decode":
            words = "Enter explains it; a letter begins another: T3DB050, 30208, an inch code, cone/cup, a name"
            return line(fitted(words, self.width), "quiet")
        if self.entering:
            return line(fitted(f"Filter by {ACCEPTED}", self.width), "quiet")
        at = self.marked
        if at is None or self.catalogue is None:
            return line("")
        rooms = parts.rooms(self.catalogue, at, self.view, self.width)
        words = f"{rooms}; {parts.about(self.catalogue, at)}" if rooms else parts.about(self.catalogue, at)
        return line(fitted(words, self.width), "quiet")

    @property
    def marked(self) -> int | None:
        """The catalogue row of the marked assembly."""
        return self.found[self.rows.at] if self.rows.at < min(len(self.found), MOST) else None

    def marked_another(self) -> None:
        """Follow the mark."""
        self.show_about()

    # filter

    def action_filter(self) -> None:
        """Open the filter line."""
        self.begin_entry("filter", self.filter, LONGEST_FILTER)
        self.show_about()

    def action_decode(self) -> None:
        """Ask for a designation to explain."""
        at, rows = self.marked, self.catalogue
        name = str(rows.designation[at]) if at is not None and rows is not None else ""
        self.begin_entry("decode", name, LONGEST_FILTER)
        self.fresh = bool(name)
        self.show_about()

    def press(self, key: str, character: str | None) -> None:
        """Let what is typed first take the place of the name that stands there; an editing key keeps it."""
        if self.fresh and self.entering == "decode" and character is not None and character.isprintable():
            self.begin_entry("decode", "", LONGEST_FILTER)
        self.fresh = False
        super().press(key, character)

    def typed(self, text: str) -> None:
        """Let pasted text take the place of the name as typed text does."""
        if self.fresh and self.entering == "decode":
            self.begin_entry("decode", "", LONGEST_FILTER)
        self.fresh = False
        super().typed(text)

    def entry_edited(self) -> None:
        """Filter as it is typed."""
        if self.entering != "filter":
            return
        self.filter = self.entry.text.strip()
        self.show_all()

    def submit_entry(self) -> None:
        """Keep the filter, or explain the designation."""
        what, text = self.entering, self.entry.text
        self.close_entry()
        self.show_about()
        if what == "decode":
            self.app.show_reading(text)

    def leave_entry(self) -> None:
        """Drop the filter, or leave the designation."""
        if self.entering == "filter":
            self.filter = ""
        self.close_entry()
        self.show_all()

    # views

    def action_order(self) -> None:
        """Order by the next column."""
        self.view = self.view.next_order()
        self.show_all()

    def action_reverse(self) -> None:
        """Turn the order round."""
        self.view = replace(self.view, downwards=not self.view.downwards)
        self.show_all()

    def action_units(self) -> None:
        """Change between millimetres and inches."""
        self.view = replace(self.view, inch=not self.view.inch)
        self.show_all()

    def action_section(self) -> None:
        """See the marked assembly's section and its neighbours."""
        if self.marked is not None:
            self.app.show_section(self.marked, self.view.inch)

    def action_why(self) -> None:
        """See why the marked part is in no pair that passes."""
        if self.marked is not None:
            self.app.show_why_part(self.marked)
