"""Loads around a circle of rollers, drawn in characters: a digit for the tenths of the heaviest, a dot for none."""

from __future__ import annotations

import math
from collections.abc import Sequence


def circle(loads: Sequence[float], name: str, width: int, height: int) -> list[str]:
    """Return the rollers of a bearing as lines: the first at the top, the others on to the right, `name` inside.

    The heaviest loaded roller is a 9; one that carries less than a tenth of that is a 0, one without load a dot.
    """
    across, down = (width - 1) / 2, (height - 1) / 2
    heaviest = max(loads, default=0.0)
    cells: dict[tuple[int, int], int] = {}
    for at, load in enumerate(loads):
        angle = 2 * math.pi * at / len(loads)
        place = round(down - down * math.cos(angle)), round(across + across * math.sin(angle))
        tenths = min(9, int(10 * load / heaviest)) if load > 0 and heaviest > 0 else -1
        # two rollers may fall on one cell; the heavier one is shown
        cells[place] = max(tenths, cells.get(place, -1))
    rows = [[" "] * width for _ in range(height)]
    for (row, column), tenths in cells.items():
        rows[row][column] = "." if tenths < 0 else str(tenths)
    middle, begin = height // 2, max(0, (width - len(name)) // 2)
    for at, letter in enumerate(name[: max(0, width - 2)]):
        if rows[middle][min(begin + at, width - 1)] == " ":
            rows[middle][min(begin + at, width - 1)] = letter
    return ["".join(row) for row in rows]
