"""Undo and redo, the same on every screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.errors import plain
from wizard.widgets.lines import fitted, line

if TYPE_CHECKING:
    from wizard.app import Conewright
    from wizard.widgets.lines import Line


class History:
    """The part of a screen that takes changes back and brings them back, and says so."""

    app: Conewright
    word: tuple[str, str] = ("", "")  # what stands in the place of the title, and its meaning

    def action_undo(self) -> None:
        """Take back the last change."""
        self._after("Taken back", self.app.session.undo(), "There is nothing more to take back.")

    def action_redo(self) -> None:
        """Bring back what was undone."""
        self._after("Brought back", self.app.session.redo(), "There is nothing to bring back.")

    def _after(self, done: str, label: str, nothing: str) -> None:
        if label:
            self.changed(f"{done}: {label}")
        self.say(f"{done}: {label}" if label else nothing)

    def changed(self, label: str) -> None:
        """Look again after a change, and show what it came to."""
        self.app.answered(label)
        self.show_all()

    def say(self, text: str, meaning: str = "title") -> None:
        """Put a word in the place of the title until the next key; screens with a place for messages override it."""
        self.word = (plain(text, 300), meaning)
        self.show_all()

    def headed(self, lines: list[Line]) -> list[Line]:
        """Return the lines of a head, with the word instead of the title where there is one."""
        text, meaning = self.word
        return [line(fitted(text, self.width), meaning), *lines[1:]] if text else lines

    def hush(self) -> None:
        """Take that word away."""
        if self.word[0]:
            self.word = ("", "")
            self.show_all()

    @property
    def width(self) -> int:
        """Columns of the screen."""
        raise NotImplementedError

    def show_all(self) -> None:
        """Bring every block up to date."""
        raise NotImplementedError
