"""What every screen does with keys: look them up in the one list, move the mark, and nothing else."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.screen import Screen

from wizard import keys
from wizard.widgets.lines import Line, Lines, Rows

if TYPE_CHECKING:
    from textual.events import Resize

    from wizard.app import Conewright


class KeyedScreen(Screen[None]):
    """A screen of line blocks. Keys come one at a time from the application, so none can overtake another."""

    AUTO_FOCUS: ClassVar[str | None] = ""
    PLACE: ClassVar[str] = ""

    app: Conewright

    @property
    def rows(self) -> Rows:
        """The list that the arrow keys move in."""
        return self.query_one("#rows", Rows)

    @property
    def width(self) -> int:
        """Columns of the terminal."""
        return self.app.size.width

    def block(self, selector: str, lines: list[Line]) -> None:
        """Show lines in one of the blocks."""
        self.query_one(selector, Lines).show(lines)

    def show_all(self) -> None:
        """Bring every block up to date; unchanged lines are not painted again."""
        raise NotImplementedError

    def on_screen_resume(self) -> None:
        """Show how things stand by now."""
        self.show_all()

    def on_resize(self, event: Resize) -> None:  # noqa: ARG002
        """Lay the text out for the new width."""
        self.call_after_refresh(self.show_all)

    def press(self, key: str, character: str | None) -> None:
        """Do what a key means here; a key without a meaning does nothing."""
        if self.moved(key):
            return
        wanted = next((one for one in keys.at(self.PLACE) if key in one.keys), None)
        if wanted is not None:
            getattr(self, f"action_{wanted.action}")()
        elif character is not None and character.isprintable():
            self.typed(character)

    def moved(self, key: str) -> bool:
        """Move the mark by an arrow or page key; return whether it was one."""
        step = keys.STEPS.get(key)
        if step is None:
            return False
        before = self.rows.at
        self.rows.step(*step)
        if self.rows.at != before:
            self.marked_another()
        return True

    def marked_another(self) -> None:
        """Follow the mark; screens with something to say about the marked line override it."""

    def typed(self, text: str) -> None:
        """Take characters that are no command, typed or pasted."""

    def action_help(self) -> None:
        """See the keys."""
        self.app.show_help_page(self.PLACE)

    def action_back(self) -> None:
        """Go back to where this was opened."""
        self.app.pop_screen()

    def action_quit(self) -> None:
        """Leave."""
        self.app.leave()
