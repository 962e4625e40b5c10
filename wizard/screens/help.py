"""Help: the marked question, the keys, and what is assumed. Made from the questions and the list of keys."""

from __future__ import annotations

from textwrap import wrap
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding

from engine.errors import plain
from engine.record.document import NOTICE
from wizard import keys
from wizard.framework import LeanScreen
from wizard.screens import form, frame
from wizard.widgets.lines import Line, Lines, Rows, fitted, line

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.events import Resize

    from engine.answers.document import Asked
    from wizard.app import Conewright

_PLACES = {"chapter": "Questions", "shortlist": "Shortlist", "pair": "One pair", "every": "Everywhere"}


def page(place: str, item: Asked | None, assumptions: tuple[str, ...], width: int) -> list[Line]:
    """Return the help page for a place."""
    lines: list[Line] = []

    def heading(text: str) -> None:
        if lines:
            lines.append(line(""))
        lines.append(line(text, "heading"))

    def words(text: str) -> None:
        lines.extend(line(f" {part}") for part in wrap(text, width - 2))

    if item is not None:
        heading(f"{item.number} {item.question.label}")
        lines.extend(form.help_lines(item, width, 20))
        for option in getattr(item.question, "options", ()):
            if option.means:
                words(f"{option.label}: {option.means}")
    for part in (place, *(other for other in _PLACES if other != place)):
        heading(f"Keys: {_PLACES[part]}")
        for key in keys.KEYS:
            if key.place == part:
                lines.append(((f" {fitted(key.shown, 8)}", "key"), (fitted(key.help, max(10, width - 10)), "plain")))
        if part == "chapter":
            for shown, text in keys.MOVES:
                lines.append(((f" {fitted(shown, 14)}", "key"), (fitted(text, max(10, width - 16)), "plain")))
    if assumptions:
        heading("Assumed for open questions")
        for assumption in assumptions:
            words(plain(assumption))
    heading("Limits")
    words(NOTICE)
    return lines


class HelpScreen(LeanScreen):
    """A page to read."""

    BINDINGS: ClassVar = [Binding(",".join(key.keys), key.action, key.label, show=False) for key in keys.at("help")]

    app: Conewright

    def __init__(self) -> None:
        super().__init__()
        self.place = "chapter"
        self.item: Asked | None = None

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="head")
        yield Rows(meanings, id="rows")
        yield Lines(meanings, id="foot")

    def on_screen_resume(self) -> None:
        """Take the keys and show the page from its top."""
        self.rows.focus()
        self.rows.at = 0
        self.call_after_refresh(self.show_all)

    def on_resize(self, event: Resize) -> None:  # noqa: ARG002
        """Lay the text out for the new width."""
        self.call_after_refresh(self.show_all)

    @property
    def rows(self) -> Rows:
        """The page."""
        return self.query_one("#rows", Rows)

    def show_all(self) -> None:
        """Bring every block up to date."""
        width = self.size.width
        if width <= 0:
            return
        counted = self.app.standing.counted
        assumptions = tuple(str(one) for one in counted.resolved.assumptions) if counted else ()
        lines = page(self.place, self.item, assumptions, width)
        self.rows.show_rows(lines, range(len(lines)))
        rule = frame.rule(self.app.glyphs, width)
        self.query_one("#head", Lines).show([frame.head("Help", "", width), rule])
        self.query_one("#foot", Lines).show([frame.foot("help", width)])

    def action_back(self) -> None:
        """Go back to where it was opened."""
        self.app.pop_screen()

    def action_help(self) -> None:
        """Already here."""

    def action_quit(self) -> None:
        """Leave."""
        self.app.leave()
