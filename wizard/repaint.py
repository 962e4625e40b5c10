"""What the terminal shows, cell by cell, so that only cells that differ are sent again.

Knows nothing of screens: it gets lines of styled text and gives the bytes that turn what was shown into them.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from rich.cells import cell_len

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from rich.segment import Segment
    from rich.style import Style

    #: Gives a piece of text in a style as the terminal wants it.
    Render = Callable[[str, Style | None], str]

#: Cells that stay but stand between two that change are sent along where there are no more of them than this: moving
#: the cursor costs about as many bytes.
GAP = 6
#: Fewer blanks than this at the end of a line are sent as they are.
TAIL = 4

#: A cell: its character, "" for the second half of a wide one, and its style.
Cell = tuple[str, "Style | None"]
_BLANK: Cell = (" ", None)
#: What was never painted.
_NEVER: Cell = ("\x00", None)
#: Joiners and variation selectors; symbols of which some have become emoji of two cells.
_JOINS = {"\u200d", *map(chr, range(0xFE00, 0xFE10))}
_SYMBOLS = {*map(chr, range(0x2300, 0x2C00))}


def cells_of(segments: Iterable[Segment], bare: Callable[[Style | None], bool]) -> list[Cell]:
    """Return the cells of a line of styled text; `bare` says of a style that it asks for nothing special."""
    found: list[Cell] = []
    for text, style, control in segments:
        if control:
            continue
        worn = None if bare(style) else style
        if text.isascii():
            found.extend((character, worn) for character in text)
            continue
        for character in text:
            width = cell_len(character)
            if width == 0 and found:
                # a combining sign belongs to the character before it
                before = next(at for at in range(len(found) - 1, -1, -1) if found[at][0])
                found[before] = (found[before][0] + character, found[before][1])
            elif width:
                found.append((character, worn))
                found.extend([("", worn)] * (width - 1))
    return found


class Shown:
    """What the terminal shows. Lines that were never painted, or were forgotten, are painted as a whole."""

    def __init__(self) -> None:
        self._lines: dict[int, list[Cell]] = {}

    @property
    def anything(self) -> bool:
        """Whether anything has been painted."""
        return bool(self._lines)

    def forget(self) -> None:
        """Take nothing for granted: somebody else may have written on the terminal."""
        self._lines.clear()

    def paint(self, y: int, x: int, cells: Sequence[Cell], width: int, render: Render) -> str:
        """Return the bytes that show `cells` from column x of line y on, on a terminal of `width` columns."""
        cells = _bare_at_the_edge(cells[: max(0, width - x)], width - x)
        never: list[Cell] = [_NEVER] * width
        old = self._lines.get(y, never)
        if len(old) != width:
            old = never
        after = [*old[:x], *cells, *old[x + len(cells) :]]
        self._lines[y] = after
        changed = [at for at in range(x, x + len(cells)) if old[at] != after[at]]
        if not changed:
            return ""
        if _doubtful(old) or _doubtful(after):
            return f"\x1b[{y + 1};1H\x1b[2K" + _anchored(after, y, render)
        pieces = []
        for first, last in _runs(changed, old, after):
            pieces.append(f"\x1b[{y + 1};{first + 1}H")
            pieces.append(_drawn(after, first, last, render))
        return "".join(pieces)


@lru_cache(4096)
def _uncertain(text: str) -> bool:
    """Return whether terminals disagree on how wide a cell's text is: emoji, flags, and what joins or changes them."""
    return any(
        0x1F000 <= ord(one) < 0x20000 or one in _JOINS or (one in _SYMBOLS and cell_len(one) == 2) for one in text
    )


def _doubtful(cells: list[Cell]) -> bool:
    return any(not text.isascii() and _uncertain(text) for text, _ in cells)


def _anchored(cells: list[Cell], y: int, render: Render) -> str:
    """Return the bytes of an erased line, the cursor set anew behind every cell whose width is not certain."""
    known = [_BLANK if cell == _NEVER else cell for cell in cells]
    pieces, at = [], 0
    while at < len(known):
        last = at
        while last + 1 < len(known) and not (known[last + 1][0] and _uncertain(known[last][0] or known[last - 1][0])):
            last += 1
        # blanks too: what took more room than was thought is painted over
        pieces += [f"\x1b[{y + 1};{at + 1}H", _drawn(known, at, last, render)]
        at = last + 1
    return "".join(pieces)


def _bare_at_the_edge(cells: Sequence[Cell], room: int) -> Sequence[Cell]:
    """Return the cells without combining signs in the last column: some terminals begin a new line for these."""
    at = len(cells) - 1
    if len(cells) < room or at < 0:
        return cells
    if not cells[at][0] and at:  # the second half of a wide character
        at -= 1
    character, worn = cells[at]
    return [*cells[:at], (character[:1], worn), *cells[at + 1 :]] if len(character) > 1 else cells


def _runs(changed: list[int], old: list[Cell], after: list[Cell]) -> list[tuple[int, int]]:
    """Return the stretches to paint, first and last cell; never one half of a wide character."""
    runs: list[list[int]] = []
    for at in changed:
        first, last = at, at
        while first > 0 and (after[first][0] == "" or old[first][0] == ""):
            first -= 1
        while last + 1 < len(after) and (after[last + 1][0] == "" or old[last + 1][0] == ""):
            last += 1
        if runs and first - runs[-1][1] <= GAP:
            runs[-1][1] = max(runs[-1][1], last)
        else:
            runs.append([first, last])
    return [(first, last) for first, last in runs]


def _drawn(cells: list[Cell], first: int, last: int, render: Render) -> str:
    end = last
    if all(cell == _BLANK for cell in cells[last + 1 :]):
        while end >= first and cells[end] == _BLANK:
            end -= 1
    erased = last - end
    stop = end if erased > TAIL else last
    pieces = []
    at = first
    while at <= stop:
        style, text = cells[at][1], ""
        while at <= stop and cells[at][1] == style:
            text += cells[at][0]
            at += 1
        pieces.append(render(text, style))
    if erased > TAIL:
        pieces.append("\x1b[K")
    return "".join(pieces)
