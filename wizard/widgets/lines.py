"""Lines of styled text that repaint only what changed. Text is shown literally: there is no markup here."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap
from typing import TYPE_CHECKING

from rich.cells import cell_len, chop_cells, set_cell_size
from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

if TYPE_CHECKING:
    from collections.abc import Mapping

    from textual.events import Resize

#: A piece of a line: its text and its meaning (see `wizard.theme`).
Piece = tuple[str, str]
Line = tuple[Piece, ...]
BLANK: Line = ()
#: More pieces than any line has.
MOST_PIECES = 1_000_000


def line(text: str, meaning: str = "plain") -> Line:
    """Return a line of one piece."""
    return ((text, meaning),)


def fitted(text: str, width: int, right: bool = False) -> str:
    """Return a text cut or padded to a width in cells; a cut shows as a final tilde."""
    size = cell_len(text)
    if size > width:
        return set_cell_size(text, max(width - 1, 0)) + "~"[:width]
    return " " * (width - size) + text if right else text + " " * (width - size)


def cut(text: str, width: int) -> str:
    """Return a text in at most so many cells; a cut shows as a final tilde."""
    return text if cell_len(text) <= width else fitted(text, width)


def ended(text: str, end: str, width: int) -> str:
    """Return a text and an end that tells it from its neighbours, in so many cells; only the text is cut."""
    return fitted(cut(text, max(0, width - cell_len(end))) + end, width)


def wrapped(text: str, width: int, most: int = MOST_PIECES) -> list[str]:
    """Return a text in lines of so many cells, at most so many of them; a cut shows as a final tilde.

    A terminal dragged to nothing still gets some.
    """
    width = max(width, 8)
    even = text.isascii() or all(cell_len(character) == 1 for character in text)
    lines = wrap(text, width) if even else _by_cells(text, width)
    if len(lines) <= most:
        return lines
    return [*lines[: most - 1], fitted(f"{lines[most - 1]} {lines[most]}", width)]


def _by_cells(text: str, width: int) -> list[str]:
    """Return a text with characters of no or of two cells in lines of so many cells, broken between words."""
    lines = [""]
    for word in text.split():
        joined = f"{lines[-1]} {word}" if lines[-1] else word
        if cell_len(joined) <= width:
            lines[-1] = joined
            continue
        lines += ["", *chop_cells(word, width)] if lines[-1] else chop_cells(word, width)
        lines = [one for one in lines if one]
    return [one for one in lines if one]


class Lines(Widget):
    """A block of lines without a cursor."""

    def __init__(self, meanings: Mapping[str, str], *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._styles = {meaning: Style.parse(style) for meaning, style in meanings.items()}
        self.lines: list[Line] = []
        self.top = 0

    def show(self, lines: Sequence[Line]) -> None:
        """Show these lines; only those that differ from what is on the screen are painted."""
        before, self.lines = self.lines, list(lines)
        for index in range(max(len(before), len(self.lines))):
            old, new = (shown[index] if index < len(shown) else None for shown in (before, self.lines))
            if old != new:
                self.repaint(index)

    def repaint(self, index: int) -> None:
        """Paint one line again, where it is in view."""
        y = index - self.top
        if 0 <= y < self.size.height:
            self.refresh(Region(0, y, self.size.width, 1))

    def meaning_of(self, index: int, meaning: str, piece: int) -> str:  # noqa: ARG002
        """Return the meaning by which a piece of a line is drawn; widgets with a cursor override it."""
        return meaning

    def piece_at(self, index: int, column: int) -> int | None:
        """Return which piece of a line stands at a column; None beside them."""
        for at, (text, _) in enumerate(self.lines[index] if index < len(self.lines) else ()):
            column -= cell_len(text)
            if column < 0:
                return at
        return None

    def render_line(self, y: int) -> Strip:
        """Return one line of the widget as the framework wants it."""
        index, width = y + self.top, self.size.width
        pieces = self.lines[index] if index < len(self.lines) else BLANK
        meanings = [self.meaning_of(index, meaning, at) for at, (_, meaning) in enumerate(pieces)]
        segments = [Segment(text, self._styles[worn]) for (text, _), worn in zip(pieces, meanings, strict=True)]
        fill = self._styles[self.meaning_of(index, "plain", len(pieces))]
        return Strip(segments).adjust_cell_length(width, fill).crop(0, width)


class Rows(Lines):
    """A list of lines with a marked one, which keys move; lines that are only headings are passed over."""

    def __init__(self, meanings: Mapping[str, str], *, id: str | None = None, reach: int = MOST_PIECES) -> None:
        super().__init__(meanings, id=id)
        self.reach = reach  # how many pieces of the marked line are drawn as marked: few of them are few bytes
        self.at = 0
        self.below = 0  # so many lines under a marked one may belong to it, and come into view with it
        self._stops: Sequence[int] = ()

    def show_rows(self, lines: Sequence[Line], stops: Sequence[int], at: int | None = None) -> None:
        """Show lines of which `stops` can be marked, in order; `at` is the one to mark, else the nearest to before."""
        self._stops = stops
        wanted = self.at if at is None else at
        moved = min(stops, key=lambda stop: abs(stop - wanted), default=0)
        before, self.at = self.at, moved
        self.show(lines)
        if before != moved:
            self.repaint(before)
            self.repaint(moved)
        self._into_view()

    def meaning_of(self, index: int, meaning: str, piece: int) -> str:
        """Draw the marked line as the marked line."""
        marked = index == self.at and index in self._stops
        return "here" if marked and piece < self.reach else meaning

    def mark(self, at: int) -> None:
        """Mark a line and bring it into view."""
        if at == self.at or at not in self._stops:
            return
        before, self.at = self.at, at
        if not self._into_view():
            self.repaint(before)
            self.repaint(at)

    def _into_view(self) -> bool:
        """Scroll so that the marked line shows; return whether everything was painted."""
        height = self.size.height
        if height <= 0:
            return False
        # a heading above the first stop belongs to it
        first = self.at if self._stops and self.at != self._stops[0] else 0
        top = min(self.top, first)
        last = self.at
        while last < min(self.at + self.below, len(self.lines) - 1) and not self.is_stop(last + 1):
            last += 1
        top = max(top, last - height + 1)
        top = max(0, min(top, len(self.lines) - height))
        if top == self.top:
            return False
        self.top = top
        self.refresh()
        return True

    def on_resize(self, event: Resize) -> None:  # noqa: ARG002
        """Keep the marked line in view."""
        self._into_view()

    def is_stop(self, index: int) -> bool:
        """Return whether a line can be marked."""
        return index in self._stops

    def _place(self) -> int:
        return self._stops.index(self.at) if self.at in self._stops else 0

    def step(self, unit: str, by: int) -> None:
        """Move the mark by lines, by screenfuls, or to an end."""
        if not self._stops:
            return
        if unit == "end":
            self.mark(self._stops[0 if by < 0 else -1])
        elif unit == "page":
            wanted = self.at + by * max(1, self.size.height - 1)
            self.mark(min(self._stops, key=lambda stop: abs(stop - wanted)))
        else:
            self.mark(self._stops[max(0, min(len(self._stops) - 1, self._place() + by))])


class Text(Rows):
    """Lines to read: keys scroll the text, and nothing in it is marked. `at` is the first line in view."""

    def show_rows(self, lines: Sequence[Line], stops: Sequence[int] = (), at: int | None = None) -> None:  # noqa: ARG002
        """Show lines from where they were read on, or from another one."""
        self.show(lines)
        self.mark(self.at if at is None else at)

    def mark(self, at: int) -> None:
        """Bring a line to the top, or as near to it as the end of the text lets it come."""
        self.at = max(0, min(at, len(self.lines) - self.size.height)) if self.size.height else max(0, at)
        if self.at != self.top:
            self.top = self.at
            self.refresh()

    def _into_view(self) -> bool:
        before = self.top
        self.mark(self.at)
        return self.top != before

    def step(self, unit: str, by: int) -> None:
        """Scroll by lines, by screenfuls less a line, or to an end."""
        if unit == "end":
            self.mark(0 if by < 0 else len(self.lines))
        else:
            self.mark(self.at + by * (max(1, self.size.height - 1) if unit == "page" else 1))

    @property
    def where(self) -> str:
        """Which lines are in view of how many; nothing where all are."""
        first, last, every = self.top + 1, min(self.top + self.size.height, len(self.lines)), len(self.lines)
        if self.size.height <= 0 or last - first + 1 >= every:
            return ""
        return f"lines {first} to {last} of {every}{', the end' if last == every else ''}"
