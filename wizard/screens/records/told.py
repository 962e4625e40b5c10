"""What the screens share that show what a record came to, in the words of the command line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.screens.choosing.asking import InquiryScreen
from wizard.studies.inquiry import Inquiry
from wizard.widgets.lines import Line, cut, line

if TYPE_CHECKING:
    from collections.abc import Sequence


class ToldScreen(InquiryScreen):
    """Lines to read. What is asked opens its catalogue by itself, so that it waits for no search."""

    def ask(self) -> None:
        """Ask about the record as it stands."""
        self.forget()
        work = self.work()
        if work is not None:
            self.inquiry, self.running = Inquiry(self.app.session.answers, work), True
            self.app.inquiries.ask(self.inquiry)

    def text(self, width: int) -> str:
        """Return what was found, in lines of so many columns."""
        raise NotImplementedError

    @property
    def good(self) -> bool:
        """Whether what was found is as one wishes."""
        raise NotImplementedError

    def page(self, width: int) -> tuple[list[Line], Sequence[int]]:
        """Return what is told, its first line by how good it is, and the names of its parts as headings."""
        if self.found is None:
            return [self.nothing_yet()], []
        lines: list[Line] = []
        for text in self.text(max(20, width - 2)).splitlines():
            first = not lines
            meaning = "plain" if text[:1] in {"", " "} else "heading"
            if first:
                meaning = "passes" if self.good else "fails"
            lines.append(line(cut(f" {text}", width) if text else "", meaning))
        return lines, range(len(lines))

    def nothing_yet(self) -> Line:
        """Return the line that stands while nothing is found."""
        return line(" Computing ..." if self.running else "", "quiet")
