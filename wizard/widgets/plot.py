"""Curves drawn in characters: one or more over a common axis, with the ends of both axes written out."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from engine.units import number_text
from wizard.widgets.lines import Line, fitted, line

if TYPE_CHECKING:
    from collections.abc import Sequence

#: Room for the figures of the upright axis.
MARGIN = 10


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

    def shown(self, place: float) -> str:
        """Return the figure at a place."""
        # a power ends in another digit on another processor, which must not turn a tie in rounding
        return number_text(float(f"{10**place:.9g}") if self.log else place, 3)


def plot(curves: Sequence[Curve], across: Axis, up: Axis, width: int, height: int) -> list[Line]:
    """Return a plot of `height` lines and two below for the axis; later curves are drawn over earlier ones."""
    columns = max(8, width - MARGIN - 2)
    x_low, x_high = across.ends([x for curve in curves for x in curve.x])
    y_low, y_high = up.ends([y for curve in curves for y in curve.y])
    cells = [[" "] * columns for _ in range(height)]
    for curve in curves:
        for column, row in _cells(curve, (across, x_low, x_high), (up, y_low, y_high), columns, height):
            cells[row][column] = curve.sign
    lines: list[Line] = []
    for row, drawn in enumerate(cells):
        figure = {0: up.shown(y_high), height - 1: up.shown(y_low)}.get(row, "")
        lines.append(((f"{fitted(figure, MARGIN, right=True)} |", "quiet"), ("".join(drawn), "plain")))
    left, right = across.shown(x_low), across.shown(x_high)
    unit = f"{across.name} {across.unit}".strip()
    gap = columns - len(left) - len(right)
    between = fitted(unit.center(max(0, gap)), max(0, gap))
    lines.append(line(" " * (MARGIN + 1) + "+" + "-" * columns, "quiet"))
    lines.append(line(" " * (MARGIN + 2) + left + between + right, "quiet"))
    return lines


def legend(curves: Sequence[Curve], up: Axis, width: int) -> Line:
    """Return the line over a plot: what is drawn upwards, and the sign of each curve that has a name."""
    unit = f" {up.unit}" if up.unit else ""
    named = "".join(f"   {curve.sign} {curve.name}" for curve in curves if curve.name)
    return line(fitted(f" {up.name}{unit}{named}", width), "quiet")


def _cells(
    curve: Curve, across: tuple[Axis, float, float], up: tuple[Axis, float, float], columns: int, height: int
) -> list[tuple[int, int]]:
    """Return the cells of a curve; between two places it runs straight, so that steep pieces have no gaps."""
    scaled = [
        (_scaled(x, *across) * (columns - 1), (1.0 - _scaled(y, *up)) * (height - 1))
        for x, y in zip(curve.x, curve.y, strict=True)
    ]
    found = [(round(x), round(y)) for x, y in scaled if _inside(x, columns) and _inside(y, height)]
    for (x0, y0), (x1, y1) in pairwise(scaled):
        if not all(map(math.isfinite, (x0, y0, x1, y1))):
            continue
        steps = min(4 * (columns + height), int(max(abs(x1 - x0), abs(y1 - y0))) + 1)
        for step in range(steps):
            x, y = x0 + (x1 - x0) * step / steps, y0 + (y1 - y0) * step / steps
            if _inside(x, columns) and _inside(y, height):
                found.append((round(x), round(y)))
    return found


def _scaled(value: float, axis: Axis, low: float, high: float) -> float:
    return (axis.place(value) - low) / (high - low)


def _inside(place: float, size: int) -> bool:
    return math.isfinite(place) and -0.5 <= place < size - 0.5
