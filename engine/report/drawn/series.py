"""Curves out of figures: a block that tells one thing at many places ("life at +0.02 mm") is drawn over them."""

import math
import re
from collections.abc import Iterator, Sequence

from engine.figures import Block
from engine.report.drawn.plots import Axis, Curve, plot
from engine.report.drawn.shapes import Drawing

#: Fewer places than this make no curve.
LEAST_PLACES = 5
#: From this ratio of the greatest to the least value on the axis goes by powers of ten.
_WIDE = 50.0
_AT = re.compile(r"(.+) at ([-+]?\d+(?:\.\d+)?) ?([^\d\s]\S*)?")


def plots(blocks: Sequence[Block]) -> Iterator[Drawing]:
    """Yield a drawing for each series of figures of a block that differ by a place in their names only."""
    for block in blocks:
        found: dict[tuple[str, str, str], list[tuple[float, float | str, float | str | None]]] = {}
        for figure in block.figures:
            named = _AT.fullmatch(figure.name)
            if named is not None:
                series = found.setdefault((named[1], figure.unit, named[3] or ""), [])
                series.append((float(named[2]), figure.A, figure.B))
        for (what, unit, place), points in found.items():
            drawn = _plot(f"{block.title}: {what}", points, Axis(place), f"{what}, {unit}".rstrip(", "))
            if drawn is not None:
                yield drawn


def _plot(
    title: str, points: list[tuple[float, float | str, float | str | None]], across: Axis, up: str
) -> Drawing | None:
    points = sorted(points, key=lambda point: point[0])
    x = [point[0] for point in points]
    sides = [[point[side] for point in points] for side in (1, 2)]
    numbers = [[float(one) for one in side if isinstance(one, float | int)] for side in sides]
    curves = [
        Curve(x, side, name)
        for side, name in zip(numbers, ("A", "B") if numbers[1] else ("", ""), strict=True)
        if len(side) == len(x) >= LEAST_PLACES
    ]
    known = [abs(value) for curve in curves for value in curve.y if math.isfinite(value) and value]
    if not known:
        return None
    wide = max(known) / min(known) > _WIDE and all(value > 0 for curve in curves for value in curve.y)
    return plot(title, curves, across, Axis(up, log=wide))
