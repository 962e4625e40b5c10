"""Columns of figures: decimal points under each other, no more decimals than the figures are worth."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from rich.cells import cell_len

from engine.units import number_text
from wizard.widgets.lines import fitted

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

#: Decimals of a figure in a column of mixed quantities; what is smaller than the last of them is said to be so.
MOST_PLACES = 3
#: A sign, the digits before the point in groups, and whatever follows them.
_NUMBER = re.compile(r"([~<>+-]*\d+(?: \d{3})*)(.*)")


def figure(value: float | str, digits: int = 4, most: int = MOST_PLACES) -> str:
    """Return a figure with `digits` significant digits and at most so many decimals; words stay as they are.

    Of a figure that this would make nothing of, one significant digit is left.
    """
    if isinstance(value, str):
        return value
    text = number_text(value, digits)
    if _places(text) <= most:
        return text
    # rounding may make another digit before the point, so the digits are counted anew
    return number_text(round(value, most), 15) if abs(value) >= 10.0**-most else number_text(value, 1)


def alike(values: Sequence[float | str], digits: int = 4, most: int = MOST_PLACES) -> list[str]:
    """Return figures of one quantity, all with as many decimals as the one with the most digits before them allows."""
    shown = [figure(value, digits, most) for value in values]
    numbers = [(text, value) for text, value in zip(shown, values, strict=True) if not isinstance(value, str)]
    needed = max((_places(text) for text, _ in numbers), default=0)
    known = [abs(value) for _, value in numbers if abs(value) < float("inf")]
    whole = len(f"{max(known, default=0.0):.0f}")
    places = min(needed, max(0, digits - (whole if max(known, default=0.0) >= 1 else 0)))
    return [_to_places(text, value, places) for text, value in zip(shown, values, strict=True)]


def aligned(cells: Sequence[str]) -> list[str]:
    """Return the cells of a column in one width, decimal points under each other; words stand at the right end."""
    parts = [_NUMBER.fullmatch(cell) for cell in cells]
    before = max((cell_len(part[1]) for part in parts if part), default=0)
    behind = max((cell_len(part[2]) for part in parts if part), default=0)
    words = [cell_len(cell) for cell, part in zip(cells, parts, strict=True) if not part]
    width = max([before + behind, *words])
    made = []
    for cell, part in zip(cells, parts, strict=True):
        if part or cell == "-":  # nothing stands where the units stand
            lead = cell_len(part[1] if part else cell)
            made.append(fitted(f"{' ' * (width - behind - lead)}{cell}", width))
        else:
            made.append(fitted(cell, width, right=True))
    return made


def pointed(cell: str, places: int) -> str:
    """Return a figure with blanks behind it, so that its decimal point stands so many places before the end."""
    before = _NUMBER.fullmatch(cell)
    return cell + " " * max(0, places + 1 - len(before[2])) if before and places else cell


def column(made: Callable[[int], Sequence[str]], room: int) -> list[str]:
    """Return a column of mixed quantities, as wide as it must be; `made` gives its cells with so many decimals at most.

    Where the room is short, decimals go first; where that does not do, what is too long is cut.
    """
    for most in range(MOST_PLACES, 0, -1):
        cells = aligned(made(most))
        if not cells or cell_len(cells[0]) <= room:
            return cells
    return [fitted(cell, room, right=True) for cell in made(1)]


def _places(text: str) -> int:
    return len(text.partition(".")[2]) if "e" not in text else 0


def _to_places(text: str, value: float | str, places: int) -> str:
    if isinstance(value, str) or not text[-1:].isdigit() or "e" in text:
        return text
    whole, _, decimals = number_text(round(value, places), 15).partition(".")
    return f"{whole}.{decimals:<0{places}}" if places else whole
