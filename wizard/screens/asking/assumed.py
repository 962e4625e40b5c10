"""Everything that is taken for granted, as a list from which each can be visited."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.cells import cell_len

from engine.answers.document import all_asked, asked_at
from engine.errors import plain
from wizard import wording
from wizard.screens import frame
from wizard.screens.base import PageScreen
from wizard.screens.every.beside import BesideScreen
from wizard.widgets.lines import Line, Lines, fitted, line, wrapped

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from engine.answers.reader import Assumption


def row(number: str, one: Assumption, width: int) -> Line:
    """Return the line of an assumption: where it is asked, what was assumed, why."""
    label = fitted(f" {fitted(number, 6)}{plain(one.label)}", min(46, width // 2))
    shown = plain(f" {one.shown}" + (f" ({one.why})" if one.why else ""), 300)
    return ((label, "plain"), (fitted(shown, max(0, width - cell_len(label))), "quiet"))


class AssumedScreen(BesideScreen, PageScreen):
    """The assumptions; Enter goes to the question of the marked one."""

    PLACE = "assumed"

    def __init__(self) -> None:
        super().__init__()
        self.assumptions: tuple[Assumption, ...] = ()

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        yield Lines(self.app.meanings, id="side")
        yield from super().compose()

    def show_all(self) -> None:
        """Bring every block up to date."""
        width, counted = self.width, self.app.standing.counted
        if width <= 0:
            return
        self.assumptions = counted.resolved.assumptions if counted is not None else ()
        numbers = {item.path: item.number for item in all_asked(self.app.session.answers)}
        lines = [row(numbers.get(one.path, ""), one, width) for one in self.assumptions]
        none = "Nothing is assumed: every question is answered." if counted is not None else "Still counting ..."
        self.rows.show_rows(lines or [line(f" {none}", "quiet")], range(len(lines)))
        count = wording.counted(len(lines), "thing is", "things are")
        title = frame.head(f"Assumed: {count} taken for granted", "", width)
        self.block("#top", [title, frame.rule(self.app.glyphs, width)])
        self.block("#foot", [frame.foot("assumed", width)])
        self.show_side()

    def marked_another(self) -> None:
        """Follow the mark with what is said of its question."""
        self.show_side()

    def beside(self, width: int, height: int) -> list[Line]:
        """Return what is assumed for the marked question and why, the help on it, and how things stand."""
        one = self.assumptions[self.rows.at] if self.rows.at < len(self.assumptions) else None
        item = asked_at(self.app.session.answers, one.path) if one is not None else None
        found: list[Line] = []
        if one is not None:
            found.append(line(fitted("Assumed", width), "heading"))
            because = f" ({one.why})" if one.why else ""
            found += [line(f" {part}") for part in wrapped(plain(f"{one.label}: {one.shown}{because}", 600), width - 2)]
            found.append(line(""))
        if item is not None:
            from wizard.screens import help as helping  # only where there is room for it

            found += [*helping.question(item, width), line("")]
        return [*found, *self.stands(width, height - len(found))]

    def action_help(self) -> None:
        """See the keys, with the help on the question behind the marked one."""
        path = self.assumptions[self.rows.at].path if self.rows.at < len(self.assumptions) else ""
        self.app.show_help_page("assumed", asked_at(self.app.session.answers, path))

    def action_repeat(self) -> None:
        """Give the question behind the marked one what was typed last, and go there to see it."""
        if self.rows.at < len(self.assumptions):
            self.app.go_to_question(self.assumptions[self.rows.at].path)
            self.app.questions.action_repeat()

    def action_visit(self) -> None:
        """Go to the question of the marked one."""
        if self.rows.at < len(self.assumptions):
            self.app.go_to_question(self.assumptions[self.rows.at].path)
