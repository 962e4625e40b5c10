"""The first screen of a start without a file name: a new session, one to go on with, the finished example."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.cells import cell_len

from engine.errors import plain
from wizard.screens import frame
from wizard.screens.base import PageScreen
from wizard.widgets.lines import Line, fitted, line, wrapped

if TYPE_CHECKING:
    from wizard.commands.recent import Offer

_ABOUT = (
    "Conewright chooses a pair of tapered roller bearings for a shaft. Answer what you know; what you leave open is "
    "assumed, and every assumption is listed. After each answer it says how many pairs remain; s shows them."
)


#: What a time of change takes, what stands before the first column, and what between two.
_CHANGED = 16
_NUMBER = 4
_GAP = 2


def page(offers: list[Offer], width: int) -> tuple[list[Line], list[int]]:
    """Return the lines of the screen and which of them can be chosen; a file takes two."""
    lines: list[Line] = [line(f" {part}") for part in wrapped(_ABOUT, width - 2)]
    room = width - _NUMBER - _GAP
    files = [offer for offer in offers if offer.file]
    # as wide as the longest, so that the rest of the line has room; what is cut shows it
    short = _widest([offer.title for offer in offers if not offer.file])
    title = min(room - _CHANGED, max(short, _widest([offer.title for offer in files])))
    name = min((room * 3) // 5, _widest([offer.file for offer in files]))
    heading = f"{'':{_NUMBER + title + _GAP}}{'last changed':{_CHANGED}}" if files else ""
    lines.append(line(fitted(heading, width).rstrip(), "quiet"))
    stops = []
    for at, offer in enumerate(offers, 1):
        stops.append(len(lines))
        number = fitted(f" {at}" if at <= 9 else "", _NUMBER)
        if not offer.file:
            lines.append(_columns(number, offer.title, short, plain(offer.about, 300), width))
            continue
        lines.append(_columns(number, offer.title, title, offer.changed, width))
        ((text, _), about) = _columns(" " * _NUMBER, offer.file, name, plain(offer.folder, 900), width)
        lines.append(((text, "quiet"), about))
    return lines, stops


def _columns(number: str, text: str, column: int, about: str, width: int) -> Line:
    """Return a line of a number, a text in a column of its own, and more about it in the rest of the width."""
    lead = f"{number}{fitted(plain(text, 300), column)}{'':{_GAP}}"
    return (lead, "plain"), (fitted(about, width - cell_len(lead)), "quiet")


def _widest(texts: list[str]) -> int:
    return max((cell_len(plain(text, 300)) for text in texts), default=0)


class StartScreen(PageScreen):
    """A few ways to begin; Enter or a digit takes one."""

    PLACE = "start"

    def on_screen_resume(self) -> None:
        """Show the ways to begin, the first marked."""
        self.rows.below = 1  # where a file lies is told under its title
        self.show_all()

    def show_all(self) -> None:
        """Bring every block up to date."""
        width = self.width
        if width <= 0:
            return
        lines, stops = page(self.app.offers, width)
        self.rows.show_rows(lines, stops)
        self.block("#top", [frame.head("", "", width), frame.rule(self.app.glyphs, width)])
        self.block("#foot", [frame.foot("start", width)])

    def typed(self, text: str) -> None:
        """Take the way of that number."""
        if text[:1].isdigit() and 1 <= int(text[0]) <= len(self.app.offers):
            self.app.begin(self.app.offers[int(text[0]) - 1])

    def action_begin(self) -> None:
        """Take the marked way."""
        _, stops = page(self.app.offers, self.width)
        self.app.begin(self.app.offers[stops.index(self.rows.at)])

    def action_back(self) -> None:
        """Begin a new session."""
        self.app.begin(self.app.offers[0])
