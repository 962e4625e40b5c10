"""Curves over two axes, and bars of utilisation, as drawings."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from engine.errors import plain
from engine.report.drawn.labels import text_width
from engine.report.drawn.shapes import TALLEST, Drawing
from engine.scales import around
from engine.units import number_text

_LEFT, _RIGHT, _TOP, _BOTTOM = 20.0, 6.0, 8.0, 13.0
_PENS = ("curve", "second", "third")
#: Height of the letters at marks, and from line to line.
_MARKED, _MARK_LINE = 2.4, 2.8
#: Bars reach this utilisation at most; what is beyond is cut, and its figure says so.
_WIDEST = 1.5
_ROW = 5.2
#: Room above and below the bars [mm].
_AROUND = 12.0


@dataclass(frozen=True)
class Axis:
    """What an axis shows, with its unit; `log` for powers of ten."""

    name: str
    log: bool = False

    @property
    def title(self) -> str:
        """What is written along the axis."""
        return f"{self.name}, log" if self.log else self.name

    def place(self, value: float) -> float:
        """Return where a value lies before it is scaled; NaN where it has no place."""
        if not self.log:
            return value
        return math.log10(value) if value > 0 else math.nan


@dataclass(frozen=True)
class Curve:
    """Places and heights of a curve and what it is called."""

    x: Sequence[float]
    y: Sequence[float]
    name: str = ""


@dataclass(frozen=True)
class Mark:
    """A point that is marked on the plot, with a word."""

    x: float
    y: float
    name: str = ""


@dataclass(frozen=True)
class Span:
    """A stretch of the axis across that is laid out in colour, and what it is."""

    low: float
    high: float
    name: str


#: Pens of the spans; the first goes over the whole height, each further one is a strip of this height at the bottom.
_SPANS, _STRIP = ("wide", "narrow"), 4.0
#: What the legend takes for each name.
_LEGEND = 50.0


def plot(
    title: str,
    curves: Sequence[Curve],
    across: Axis,
    up: Axis,
    marks: Sequence[Mark] = (),
    size: tuple[float, float] = (170.0, 70.0),
    spans: Sequence[Span] = (),
) -> Drawing | None:
    """Return a plot; None where nothing in it is finite."""
    ends = [end for span in spans for end in (span.low, span.high)]
    xs = _finite(across.place(x) for x in (*(x for one in curves for x in one.x), *(mark.x for mark in marks), *ends))
    ys = _finite(up.place(y) for y in (*(y for one in curves for y in one.y), *(mark.y for mark in marks)))
    if not xs or not ys:
        return None
    sheet = Drawing(title, *size)
    box = _Box(around(min(xs), max(xs), across.log), around(min(ys), max(ys), up.log), across, up, size)
    named = [curve for curve in curves if curve.name]
    for at, span in enumerate(spans):
        box.lay(sheet, span, at)
        x = _LEFT + 4.0 + _LEGEND * (len(named) + at)
        sheet.area(_SPANS[at % len(_SPANS)], [(x, 3.2), (x + 7.0, 3.2), (x + 7.0, 5.8), (x, 5.8)])
        sheet.words(x + 8.5, 5.3, plain(span.name, 40))
    box.draw(sheet)
    for at, curve in enumerate(curves):
        pen = _PENS[at % len(_PENS)]
        for piece in _pieces([box.at(x, y) for x, y in zip(curve.x, curve.y, strict=True)]):
            sheet.line(pen, *piece)
        if curve.name:
            x = _LEFT + 4.0 + _LEGEND * named.index(curve)
            sheet.line(pen, (x, 4.5), (x + 7.0, 4.5))
            sheet.words(x + 8.5, 5.3, plain(curve.name, 40))
    told = []
    for mark in marks:
        x, y = box.at(mark.x, mark.y)
        if math.isfinite(x) and math.isfinite(y):
            sheet.circle("mark", x, y, 0.9)
            told.append((x, y, plain(mark.name, 40)))
    _name(sheet, told)
    return sheet


def _name(sheet: Drawing, told: Sequence[tuple[float, float, str]]) -> None:
    """Write the names of marks beside them, each as near as no other name lies there."""
    taken: list[tuple[float, float, float]] = []
    for x, y, name in told:
        width = text_width(name, _MARKED)
        steps = [step * way * _MARK_LINE for step in range(len(told) + 1) for way in (-1, 1)]
        places = [(left, y - 1.2 + down) for down in steps for left in (x + 1.6, x - 1.6 - width)]
        places = [one for one in places if _TOP < one[1] < sheet.height - _BOTTOM and one[0] > _LEFT] or places
        free = (
            (left, at) for left, at in places
            if all(abs(at - line) >= _MARK_LINE - 1e-9 or left >= start + wide or start >= left + width
                   for start, line, wide in taken)
        )  # fmt: skip
        left, at = next(free, (x + 1.6, y - 1.2))
        taken.append((left, at, width))
        sheet.words(left, at, name, size=_MARKED)


class _Box:
    """The frame of a plot: from values to paper."""

    def __init__(
        self, x: Sequence[float], y: Sequence[float], across: Axis, up: Axis, size: tuple[float, float]
    ) -> None:
        self.x, self.y, self.across, self.up, self.size = x, y, across, up, size

    def at(self, x: float, y: float) -> tuple[float, float]:
        return self._x(self.across.place(x)), self._y(self.up.place(y))

    def _x(self, place: float) -> float:
        width = self.size[0] - _LEFT - _RIGHT
        return _LEFT + width * (place - self.x[0]) / (self.x[-1] - self.x[0])

    def _y(self, place: float) -> float:
        height = self.size[1] - _TOP - _BOTTOM
        return self.size[1] - _BOTTOM - height * (place - self.y[0]) / (self.y[-1] - self.y[0])

    def lay(self, sheet: Drawing, span: Span, at: int) -> None:
        """Colour a span: the first over the whole height, a further one as a strip."""
        bottom = self._y(self.y[0])
        top = self._y(self.y[-1]) if at == 0 else bottom - _STRIP
        left, right = (self._x(self.across.place(end)) for end in (span.low, span.high))
        sheet.area(_SPANS[at % len(_SPANS)], [(left, top), (right, top), (right, bottom), (left, bottom)])

    def draw(self, sheet: Drawing) -> None:
        left, right, top, bottom = self._x(self.x[0]), self._x(self.x[-1]), self._y(self.y[-1]), self._y(self.y[0])
        for place in self.x:
            x = self._x(place)
            sheet.line("grid", (x, top), (x, bottom))
            sheet.words(x, bottom + 3.6, _shown(place, self.across), "middle")
        for place in self.y:
            y = self._y(place)
            sheet.line("grid", (left, y), (right, y))
            sheet.words(left - 1.2, y + 0.9, _shown(place, self.up), "end")
        sheet.area("frame", [(left, top), (right, top), (right, bottom), (left, bottom)])
        sheet.words((left + right) / 2, bottom + 8.6, self.across.title, "middle")
        sheet.words(4.0, (top + bottom) / 2, self.up.title, "middle", upright=True)


def _shown(place: float, axis: Axis) -> str:
    return number_text(10**place if axis.log else place + 0.0, 3)


def _finite(values: Iterable[float]) -> list[float]:
    return [value for value in values if math.isfinite(value)]


def _pieces(points: list[tuple[float, float]]) -> list[list[tuple[float, float]]]:
    """Return the stretches of a curve that have a place."""
    found: list[list[tuple[float, float]]] = [[]]
    for point in points:
        if all(map(math.isfinite, point)):
            found[-1].append(point)
        elif found[-1]:
            found.append([])
    return [piece for piece in found if len(piece) > 1]


@dataclass(frozen=True)
class Bar:
    """One check: its name, utilisation, and its state: "passes", "near", "fails" or "caution"."""

    name: str
    utilisation: float
    state: str


def bars_in_parts(title: str, found: Sequence[Bar]) -> list[Drawing]:
    """Return bars in as many drawings of about the same height as it takes for each to go on a page; none of no bar."""
    most = int((TALLEST - _AROUND) / _ROW)
    parts = math.ceil(len(found) / most)
    if parts <= 1:
        return [one for one in (bars(title, found),) if one is not None]
    each = math.ceil(len(found) / parts)
    pieces = [found[first : first + each] for first in range(0, len(found), each)]
    drawn = [bars(f"{title}, part {at} of {len(pieces)}", piece) for at, piece in enumerate(pieces, 1)]
    return [one for one in drawn if one is not None]


def bars(title: str, found: Sequence[Bar]) -> Drawing | None:
    """Return bars of utilisation, each with its figure; the line at 1 is the limit. None without any bar."""
    if not found:
        return None
    left, width = 62.0, 90.0
    sheet = Drawing(title, 170.0, _AROUND + _ROW * len(found))
    unit = width / _WIDEST
    for at, bar in enumerate(found):
        y = 6.0 + _ROW * at
        sheet.words(left - 2.0, y + 2.9, plain(bar.name, 44), "end")
        known = math.isfinite(bar.utilisation)
        long = unit * min(max(bar.utilisation, 0.0), _WIDEST) if known else width
        if long > 0:
            sheet.area(bar.state, [(left, y), (left + long, y), (left + long, y + 3.6), (left, y + 3.6)])
        sheet.words(left + width + 2.0, y + 2.9, number_text(bar.utilisation, 3))
    bottom = 6.0 + _ROW * len(found)
    sheet.line("limit", (left + unit, 3.0), (left + unit, bottom))
    sheet.line("frame", (left, 3.0), (left, bottom))
    sheet.words(left + unit, bottom + 3.0, "1", "middle")
    return sheet
