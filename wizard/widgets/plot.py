"""Curves drawn in characters: one or more over a common axis, with round values along both axes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from engine.scales import Scale, laid
from engine.units import number_text
from wizard.widgets.lines import Line, fitted, line

if TYPE_CHECKING:
    from collections.abc import Sequence

#: Room for the figures of the upright axis.
MARGIN = 10
#: Characters between round values: enough across for the figure of each, and lines upwards.
ACROSS, UPWARDS = 10, 2


@dataclass(frozen=True)
class Curve:
    """Places and heights of a curve, the sign it is drawn with, and what it is called beside the plot."""

    x: Sequence[float]
    y: Sequence[float]
    sign: str
    name: str = ""


@dataclass(frozen=True)
class Axis:
    """What an axis shows and its unit; `log` for powers of ten; `least` and `greatest` where they are fixed."""

    name: str
    unit: str = ""
    log: bool = False
    least: float | None = None
    greatest: float | None = None

    @property
    def title(self) -> str:
        """What is written beside the axis."""
        return f"{self.name} {self.unit}".strip() + (", log" if self.log else "")

    def place(self, value: float) -> float:
        """Return where a value lies on the axis before it is scaled; NaN where it has no place."""
        if not self.log:
            return value
        return math.log10(value) if value > 0 else math.nan

    def ends(self, values: Sequence[float]) -> tuple[float, float]:
        """Return the ends of the axis for some values, as they are placed."""
        known = [place for place in map(self.place, values) if math.isfinite(place)]
        low = self.place(self.least) if self.least is not None else min(known, default=0.0)
        high = self.place(self.greatest) if self.greatest is not None else max(known, default=1.0)
        if high - low <= 1e-12 * max(abs(low), abs(high), 1e-300):
            low, high = low - 0.5, high + 0.5
        return low, high

    def laid(self, values: Sequence[float], cells: int, apart: int) -> Scale:
        """Return the axis for some values in so many characters."""
        return laid(*self.ends(values), cells, apart, self.log)


def plot(curves: Sequence[Curve], across: Axis, up: Axis, width: int, height: int) -> list[Line]:
    """Return a plot of `height` lines, with two below for the axis and one for its title, where it has one.

    Later curves are drawn over earlier ones.
    """
    columns = max(8, width - MARGIN - 2)
    along = across.laid([x for curve in curves for x in curve.x], columns, ACROSS)
    upwards = up.laid([y for curve in curves for y in curve.y], height, UPWARDS)
    cells = [[" "] * columns for _ in range(height)]
    for curve in curves:
        for column, row in _cells(curve, (across, along), (up, upwards), columns, height):
            cells[row][column] = curve.sign
    lines: list[Line] = []
    for row, drawn in enumerate(cells):
        tick = upwards.ticks.get(height - 1 - row)
        edge = f"{'':{MARGIN}} |" if tick is None else f"{fitted(_figure(tick), MARGIN, right=True)} +"
        lines.append(((edge, "quiet"), ("".join(drawn), "plain")))
    dashes = "".join("+" if at in along.ticks else "-" for at in range(columns))
    lines.append(line(f"{'':{MARGIN + 1}}+{dashes}", "quiet"))
    lines.append(line(_figures(along, width), "quiet"))
    if across.title:
        lines.append(line(fitted(across.title, width, right=True), "quiet"))
    return lines


def _figure(tick: float) -> str:
    return number_text(tick, 9)


def _figures(along: Scale, width: int) -> str:
    """Return the figures under an axis, each with its middle under its place as far as the line allows."""
    written = ""
    for at, tick in along.ticks.items():
        figure = _figure(tick)
        begin = max(0, min(MARGIN + 2 + at - (len(figure) - 1) // 2, width - len(figure)))
        if not written or begin > len(written):  # one that has no room is left out rather than run into another
            written = written.ljust(begin) + figure
    return written.ljust(width)


def legend(curves: Sequence[Curve], up: Axis, width: int) -> Line:
    """Return the line over a plot: what is drawn upwards, and the sign of each curve that has a name."""
    named = "".join(f"   {curve.sign} {curve.name}" for curve in curves if curve.name)
    return line(fitted(f" {up.title}{named}", width), "quiet")


def _cells(
    curve: Curve, across: tuple[Axis, Scale], up: tuple[Axis, Scale], columns: int, height: int
) -> list[tuple[int, int]]:
    """Return the cells of a curve; between two places it runs straight, so that steep pieces have no gaps."""
    placed = [
        (across[1].cell(across[0].place(x)), height - 1 - up[1].cell(up[0].place(y)))
        for x, y in zip(curve.x, curve.y, strict=True)
    ]
    found = [(round(x), round(y)) for x, y in placed if _inside(x, columns) and _inside(y, height)]
    for (x0, y0), (x1, y1) in pairwise(placed):
        if not all(map(math.isfinite, (x0, y0, x1, y1))):
            continue
        steps = min(4 * (columns + height), int(max(abs(x1 - x0), abs(y1 - y0))) + 1)
        for step in range(steps):
            x, y = x0 + (x1 - x0) * step / steps, y0 + (y1 - y0) * step / steps
            if _inside(x, columns) and _inside(y, height):
                found.append((round(x), round(y)))
    return found


def _inside(place: float, size: int) -> bool:
    return math.isfinite(place) and -0.5 <= place < size - 0.5
