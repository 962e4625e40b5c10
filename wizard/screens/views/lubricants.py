"""The list of lubricants to choose from: type words of a name, arrows mark one, Enter takes it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.errors import plain
from wizard.screens import frame
from wizard.screens.base import EntryScreen
from wizard.widgets.entry import Entry
from wizard.widgets.lines import Line, Lines, Rows, fitted, line

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from engine.lubrication.lubricant import Lubricant

LONGEST = 60
_MOVES = frozenset({"up", "down", "pageup", "pagedown"})


def row(oil: Lubricant, width: int) -> Line:
    """Return one lubricant: its name, viscosities, limits."""
    limits = f"{oil.T_least:.0f}..{oil.T_greatest:.0f}"
    figures = f"{oil.nu40:>5.0f} {oil.nu100:>5.1f} {limits:>9} {'EP' if oil.ep else '  '}"
    return line(fitted(f" {plain(oil.name)}", width - len(figures) - 1) + figures)


class LubricantsScreen(EntryScreen):
    """The built-in list."""

    PLACE = "lubricants"
    PATH = "lubrication.lubricant"

    def __init__(self) -> None:
        super().__init__()
        self.found: list[Lubricant] = []

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
        self.entering, self.entry = "name", Entry(longest=LONGEST)

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
        self.found = [
            oil for oil in builtin() if oil.form == wanted and all(word in oil.name.lower() for word in words)
        ]
        lines = [row(oil, width) for oil in self.found]
        nothing = [line(f" No {wanted} is called that; the supply above decides between oils and greases.", "caution")]
        self.rows.show_rows(lines or nothing, range(len(lines)))
        title = frame.head(f"Lubricants for {supply}", "mm2/s at 40, at 100 degC; limits in degC", width)
        self.block("#top", [title, frame.rule(self.app.glyphs, width)])
        self.marked_another()
        self.show_entry()

    def marked_another(self) -> None:
        """Say what the marked one is."""
        oil = self.found[self.rows.at] if self.rows.at < len(self.found) else None
        about = ""
        if oil is not None:
            soap = f"{oil.thickener}, NLGI {oil.nlgi:g}, bleed {oil.bleed}" if oil.nlgi is not None else ""
            about = " " + "; ".join(part for part in (f"{oil.base} base, {oil.rho15:g} kg/m3", soap, oil.note) if part)
        shown = line(fitted(plain(about, 200), self.width), "quiet")
        self.block("#about", [frame.rule(self.app.glyphs, self.width), shown])

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
            self.app.take_from_list(self.PATH, self.found[self.rows.at].name)

    def action_choose(self) -> None:
        """Take the marked one."""
        self.submit_entry()
