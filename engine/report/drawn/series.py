"""Curves out of figures: a block that tells one thing at many places ("life at +0.02 mm") is drawn over them."""

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from engine.figures import Block
from engine.report.drawn.plots import Axis, Curve, Mark, Span, plot
from engine.report.drawn.shapes import Drawing

#: Fewer places than this make no curve.
LEAST_PLACES = 5
#: From this ratio of the greatest to the least value on the axis goes by powers of ten.
_WIDE = 50.0
_AT = re.compile(r"(.+) at ([-+]?\d+(?:\.\d+)?) ?([^\d\s]\S*)?")


@dataclass(frozen=True)
class Marked:
    """What is marked on the curves of a block: the name of the axis across, spans, places, and a level with its name.

    A place lies on the first curve.
    """

    across: str
    spans: tuple[Span, ...] = ()
    places: tuple[tuple[float, str], ...] = ()
    level: tuple[float, str] | None = None


def plots(blocks: Sequence[Block], marked: Mapping[str, Marked] | None = None) -> Iterator[Drawing]:
    """Yield a drawing for each series of figures of a block that differ by a place in their names only.

    `marked` is what is marked on those of a block, by its key.
    """
    for block in blocks:
        found: dict[tuple[str, str, str], list[tuple[float, float | str, float | str | None]]] = {}
        for figure in block.figures:
            named = _AT.fullmatch(figure.name)
            if named is not None:
                series = found.setdefault((named[1], figure.unit, named[3] or ""), [])
                series.append((float(named[2]), figure.A, figure.B))
        for (what, unit, place), points in found.items():
            marks = (marked or {}).get(block.key, Marked(f"at, {place}"))
            drawn = _plot(f"{block.title}: {what}", points, marks, f"{what}, {unit}".rstrip(", "))
            if drawn is not None:
                yield drawn


def _plot(
    title: str, points: list[tuple[float, float | str, float | str | None]], marked: Marked, up: str
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
    first = curves[0]
    marks = [
        Mark(at, _height(first, at, wide), name) for at, name in marked.places if min(first.x) <= at <= max(first.x)
    ]
    if marked.level is not None:
        level, name = marked.level
        curves.append(Curve([x[0], x[-1]], [level, level], name))
    return plot(title, curves, Axis(marked.across), Axis(up, log=wide), marks, spans=marked.spans)


def _height(curve: Curve, at: float, log: bool) -> float:
    """Return how high a curve lies at a place, as it is drawn: straight from point to point on its axis."""
    heights = np.log10(curve.y) if log else np.asarray(curve.y)
    found = float(np.interp(at, curve.x, heights))
    return 10.0**found if log else found
