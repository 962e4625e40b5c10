"""Whether to leave though the answers can be saved nowhere."""

from __future__ import annotations

from wizard.screens import frame
from wizard.screens.base import PageScreen
from wizard.widgets.lines import Line, line, wrapped

#: What is said where no file could be written.
WORDS = (
    "Your answers stand in no file: neither where they belong, nor in the folder of sessions, nor in the one for "
    "temporary files could they be written.",
    "y leaves, and what was answered since it was last saved is lost.",
    "n goes back. Make room on the disk, or press w among the questions and give the name of a file that can be "
    "written; every further answer tries to save again, and so does leaving.",
)


class LeavingScreen(PageScreen):
    """A question with two answers, y and n; no other key leaves."""

    PLACE = "leaving"

    def show_all(self) -> None:
        """Bring every block up to date."""
        width = self.width
        if width <= 0:
            return
        lines: list[Line] = [line(f" {part}", "fails") for part in wrapped(self.app.session.trouble, width - 2)]
        for words in WORDS:
            lines += [line(""), *(line(f" {part}") for part in wrapped(words, width - 2))]
        self.rows.show_rows(lines, range(len(lines)))
        title = frame.head("Leave without saving?", "NOT SAVED", width)
        self.block("#top", [title, frame.rule(self.app.glyphs, width)])
        self.block("#foot", [frame.foot("leaving", width)])

    def action_lose(self) -> None:
        """Leave without saving."""
        self.app.leave_unsaved()

    def action_quit(self) -> None:
        """Stay: it is being asked already, and a key pressed twice must not answer."""
