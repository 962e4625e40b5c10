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


def page(offers: list[Offer], width: int) -> tuple[list[Line], list[int]]:
    """Return the lines of the screen and which of them can be chosen."""
    lines: list[Line] = [line(f" {part}") for part in wrapped(_ABOUT, width - 2)]
    lines.append(line(""))
    # as wide as the longest title, so that the rest of the line has room
    column = min(30, max(cell_len(plain(offer.title)) for offer in offers)) if offers else 0
    stops = []
    for at, offer in enumerate(offers, 1):
        stops.append(len(lines))
        number = f" {at} " if at <= 9 else "   "
        lead = f"{number} {fitted(plain(offer.title), column)}  "
        lines.append(((lead, "plain"), (fitted(plain(offer.about, 300), width - cell_len(lead)), "quiet")))
    return lines, stops


class StartScreen(PageScreen):
    """A few ways to begin; Enter or a digit takes one."""

    PLACE = "start"

    def on_screen_resume(self) -> None:
        """Show the ways to begin, the first marked."""
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
