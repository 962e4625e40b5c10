"""The list of lubricants to choose from: type words of a name, arrows mark one, Enter takes it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.errors import plain
from wizard.screens import frame
from wizard.screens.base import EntryScreen
from wizard.widgets.entry import Entry
from wizard.widgets.lines import Line, Lines, Rows, fitted, line, wrapped

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from engine.answers.lubricated.own import OwnLubricant
    from engine.answers.question import Value
    from engine.lubrication.lubricant import Lubricant

LONGEST = 60
_LINES_OF_WRONG = 4
_MOVES = frozenset({"up", "down", "pageup", "pagedown"})


def row(oil: Lubricant, width: int) -> Line:
    """Return one lubricant: its name, viscosities, limits."""
    limits = f"{oil.T_least:.0f}..{oil.T_greatest:.0f}"
    figures = f"{oil.nu40:>5.0f} {oil.nu100:>5.1f} {limits:>9} {'EP' if oil.ep else '  '}"
    return line(fitted(f" {plain(oil.name)}", width - len(figures) - 1) + figures)


class LubricantsScreen(EntryScreen):
    """The lubricants of the user's own list, then the built-in ones."""

    PLACE = "lubricants"
    PATH = "lubrication.lubricant"

    def __init__(self) -> None:
        super().__init__()
        self.own: tuple[OwnLubricant, ...] = ()
        self.wrong = ""  # why there is none of the user's own, where a list is named
        self.found: list[tuple[Lubricant, Value]] = []

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="top")
        yield Rows(meanings, id="rows")
        yield Lines(meanings, id="about")
        yield Lines(meanings, id="entry")
        yield Lines(meanings, id="foot")

    def begin(self) -> None:
        """Begin with an empty line. Done before the screen opens: the next keys may already be on their way."""
        from engine.answers.lubricated.own import offered

        self.entering, self.entry = "name", Entry(longest=LONGEST)
        self.own, self.wrong = offered(self.app.search.lubricants)  # read anew, since it may have been edited

    def on_screen_resume(self) -> None:
        """Show what has been typed by now."""
        self.show_all()

    def show_all(self) -> None:
        """Bring every block up to date."""
        from engine.catalogue.lubricants.read import builtin

        width = self.width
        if width <= 0 or not self.is_mounted:
            return
        words = self.entry.text.lower().replace(",", " ").split()
        supply = self.app.session.answers.lubrication.supply or "grease"
        wanted = "grease" if supply == "grease" else "oil"
        every: list[tuple[Lubricant, Value]] = [(one.lubricant, one) for one in self.own]
        every += [(oil, oil.name) for oil in builtin()]
        self.found = [
            (oil, answer)
            for oil, answer in every
            if oil.form == wanted and all(word in oil.name.lower() for word in words)
        ]
        lines = [row(oil, width) for oil, _ in self.found]
        nothing = [line(f" No {wanted} is called that; the supply above decides between oils and greases.", "caution")]
        self.rows.show_rows(lines or nothing, range(len(lines)))
        title = frame.head(f"Lubricants for {supply}", "mm2/s at 40, at 100 degC; limits in degC", width)
        self.block("#top", [title, frame.rule(self.app.glyphs, width)])
        self.marked_another()
        self.show_entry()

    def marked_another(self) -> None:
        """Say what the marked one is."""
        about = ""
        if self.rows.at < len(self.found):
            oil, answer = self.found[self.rows.at]
            soap = f"{oil.thickener}, NLGI {oil.nlgi:g}, bleed {oil.bleed}" if oil.nlgi is not None else ""
            of = "" if isinstance(answer, str) else "of your own list"
            parts = (of, f"{oil.base} base, {oil.rho15:g} kg/m3", soap, oil.note)
            about = " " + "; ".join(part for part in parts if part)
        shown = line(fitted(plain(about, 200), self.width), "quiet")
        wrong = [line(f" {part}", "caution") for part in self._wrong_lines()]
        self.query_one("#about", Lines).styles.height = 2 + len(wrong)
        self.block("#about", [frame.rule(self.app.glyphs, self.width), *wrong, shown])

    def _wrong_lines(self) -> list[str]:
        said = f"Your own list cannot be used: {self.wrong}" if self.wrong else ""
        return wrapped(said, self.width - 2)[:_LINES_OF_WRONG] if said else []

    def press(self, key: str, character: str | None) -> None:
        """Move in the list while typing; the rest edits the line."""
        if key in _MOVES:
            self.moved(key)
        else:
            super().press(key, character)

    def entry_edited(self) -> None:
        """Narrow the list as it is typed."""
        self.show_all()

    def leave_entry(self) -> None:
        """Back to the question, which stays as it was."""
        self.app.pop_screen()

    def submit_entry(self) -> None:
        """Take the marked one."""
        if self.rows.at < len(self.found):
            oil, answer = self.found[self.rows.at]
            self.app.take_from_list(self.PATH, answer, oil.name)

    def action_choose(self) -> None:
        """Take the marked one."""
        self.submit_entry()
