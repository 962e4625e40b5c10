"""A fit drawn in characters: tolerance zones to scale, and the classes of a seat as a table from loose to tight."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wizard.widgets.lines import Line, fitted, line

if TYPE_CHECKING:
    from collections.abc import Sequence

    from engine.record.seats.twins import Twins
    from engine.report.fits.ladder import Ladder, Rung
    from wizard.glyphs import Glyphs

NAME, FIGURES = 14, 17
#: Fewer columns than this leave the least important ones of the table out.
ROOMY = 76
#: From so many on the table also shows what the fit does to the raceway.
WIDE = 96


def picture(ladder: Ladder, glyphs: Glyphs, width: int) -> list[Line]:
    """Return the zones of ring and seat, the interference by the limits and in operation, and what is needed."""
    here = ladder.here
    ring, seat = ("bore", "shaft") if ladder.ring == "cone" else ("cup", "housing")
    columns = max(12, width - NAME - FIGURES - 2)
    # one scale for the whole ladder, so that the bars are seen to move
    values = [*ladder.zone, 0.0, ladder.needed]
    for rung in ladder.rungs:
        values += [*rung.seat, *rung.cold, *rung.running]
    known = [value for value in values if math.isfinite(value)]
    low, high = min(known), max(known)
    scale = _Scale(low, max(high, low + 1.0), columns, glyphs)
    lines = [
        scale.axis(),
        scale.row(ring, scale.bar(*ladder.zone), _ends(ladder.zone)),
        scale.row(f"{seat} {here.name}", scale.bar(*here.seat), _ends(here.seat)),
        scale.row("interference", scale.span(here.cold), _three(here.cold)),
        scale.row("in operation", scale.span(here.running), _three(here.running)),
    ]
    if math.isfinite(ladder.needed) and ladder.needed > 0:
        lines.append(scale.row("load asks for", scale.mark(ladder.needed), f"{ladder.needed:.1f}"))
    return lines


class _Scale:
    """Micrometres to columns; zero is drawn through all rows."""

    def __init__(self, low: float, high: float, columns: int, glyphs: Glyphs) -> None:
        self.low, self.high, self.columns, self.glyphs = low, high, columns, glyphs

    def at(self, value: float) -> int:
        return round((value - self.low) / (self.high - self.low) * (self.columns - 1))

    def _empty(self) -> list[str]:
        cells = [" "] * self.columns
        cells[self.at(0.0)] = self.glyphs.between
        return cells

    def bar(self, lower: float, upper: float) -> str:
        cells = self._empty()
        if math.isfinite(lower) and math.isfinite(upper):
            for column in range(self.at(min(lower, upper)), self.at(max(lower, upper)) + 1):
                cells[column] = self.glyphs.bar_full
        return "".join(cells)

    def span(self, ends: tuple[float, float, float]) -> str:
        cells = self._empty()
        if all(map(math.isfinite, ends)):
            least, mean, greatest = map(self.at, ends)
            for column in range(least, greatest + 1):
                cells[column] = "-"
            cells[least], cells[greatest], cells[mean] = "[", "]", "+"
        return "".join(cells)

    def mark(self, value: float) -> str:
        cells = self._empty()
        cells[self.at(value)] = "^"
        return "".join(cells)

    def axis(self) -> Line:
        low, zero, high = f"{self.low:.0f}", "0", f"{self.high:.0f}"
        cells = [" "] * self.columns
        for text, start in (
            (low, 0),
            (high, self.columns - len(high)),
            (zero, min(self.at(0.0), self.columns - 1)),
        ):
            if all(cell == " " for cell in cells[max(0, start - 1) : start + len(text) + 1]):
                cells[start : start + len(text)] = text
        return line(f" {fitted('um', NAME)}{''.join(cells)}", "quiet")

    def row(self, name: str, drawn: str, figures: str) -> Line:
        return ((f" {fitted(name, NAME)}", "quiet"), (drawn, "plain"), (f" {fitted(figures, FIGURES)}", "title"))


def _whole(value: float) -> str:
    return f"{value:+.0f}" if math.isfinite(value) else "?"


def _ends(zone: tuple[float, float]) -> str:
    lower, upper = zone
    return f"{_whole(upper)}/{_whole(lower)}"


def _three(ends: tuple[float, float, float]) -> str:
    return " .. ".join(f"{end:.0f}" if math.isfinite(end) else "?" for end in ends)


def table(ladder: Ladder, glyphs: Glyphs, width: int) -> list[Line]:
    """Return every class of the seat, loose first, with what it does; the one that is taken stands out."""
    shape = Shape(ladder.ring == "cone", width >= ROOMY, width >= WIDE)
    first, second = " " * 8, " " * 8
    if shape.roomy:
        first, second = f"{first}{'in operation um':>15} ", f"{second}{'least':>8}{'mean':>7} "
    first, second = f"{first}{'MPa':>7}", f"{second}{'hoop':>7}"
    if shape.cone:
        first, second = f"{first} {'use of steel':^14}", f"{second} {'through':>7}{'case':>7}"
    first, second = f"{first}  {'creep margin':^13}", f"{second}  {'least':>6}{'mean':>7}"
    if shape.wide:
        first, second = f"{first}{'raceway':>9}{'closes':>8}", f"{second}{'um':>9}{'um':>8}"
    first, second = (
        f"{first}{'play running':>{shape.play * 2}}",
        f"{second}{'loose':>{shape.play}}{'seated':>{shape.play}}",
    )
    lines = [line(fitted(first, width), "heading"), line(fitted(second, width), "heading")]
    for at, rung in enumerate(ladder.rungs):
        lines.append(_rung(rung, at == ladder.at, shape, glyphs))
    return lines


@dataclass(frozen=True)
class Shape:
    """Which columns the table has room for; a cup has none for the steel of the cone."""

    cone: bool
    roomy: bool
    wide: bool

    @property
    def play(self) -> int:
        """Columns of the play left running."""
        return 8 if self.roomy else 7


def _rung(rung: Rung, here: bool, shape: Shape, glyphs: Glyphs) -> Line:
    lead = f" {glyphs.here if here else ' '} {rung.name:<5}"
    if shape.roomy:
        lead += f"{_number(rung.running[0], 8, 0)}{_number(rung.running[1], 7, 0)} "
    pieces = [(f"{lead}{_number(rung.tension, 7, 0)} ", "plain")]
    if shape.cone:
        pieces += [_use(use, glyphs) for use in rung.use]
    pieces += [("  ", "plain"), _margin(rung.margins[0], 6, glyphs), _margin(rung.margins[1], 7, glyphs, rung.lost)]
    if shape.wide:
        pieces.append((f"{_signed(rung.raceway, 9)}{_signed(-rung.end_play, 8)}", "plain"))
    pieces.append(("".join(_signed(one, shape.play) for one in rung.left), "plain"))
    if not here:
        return tuple(pieces)
    return tuple((text, "title" if meaning == "plain" else meaning) for text, meaning in pieces)


def systems(of: Twins, rows: Sequence[tuple[str, tuple[str, str, str]]], width: int) -> list[Line]:
    """Return one seat in both measuring systems as a table, the inch ring on the metric limits in its last column."""
    name = 21 if width >= ROOMY else 19
    cell = (width - name - 1) // 3
    own = of.inch.name.removeprefix("inch, ")
    heads = (("metric", "inch", "inch ring on"), (of.metric.name.removeprefix("metric, "), own, "metric seat"))
    lead = (f"{of.class_name} in both, um", "")
    lines = [
        line(f" {fitted(first, name)}{''.join(fitted(text, cell, right=True) for text in texts)}", "heading")
        for first, texts in zip(lead, heads, strict=True)
    ]
    for label, values in rows:
        *right, wrong = (fitted(text, cell, right=True) for text in values)
        lines.append(((f" {fitted(label, name)}", "quiet"), ("".join(right), "plain"), (wrong, "caution")))
    return lines


def _signed(value: float, width: int) -> str:
    """Return a change, or a play that is preload below nought, with its sign; nothing has none."""
    if not math.isfinite(value):
        return f"{'?':>{width}}"
    return f"{value:>+{width}.0f}" if round(value) else f"{'0':>{width}}"


def _number(value: float, width: int, digits: int) -> str:
    return f"{round(value, digits) + 0.0:>{width}.{digits}f}" if math.isfinite(value) else f"{'?':>{width}}"


def _use(use: float, glyphs: Glyphs) -> tuple[str, str]:
    """Return how much of what a steel bears is used; a sign behind it where it is too much."""
    if not use <= 1.0:
        return f"{_number(use, 6, 2)}{glyphs.fails}", "fails"
    return f"{_number(use, 6, 2)} ", "plain"


def _margin(margin: float, width: int, glyphs: Glyphs, lost: bool = False) -> tuple[str, str]:
    """Return how many times the interference covers the need; a sign behind it where it does not, or rules out."""
    if math.isnan(margin) or math.isinf(margin):
        return f"{'-':>{width - 1}} ", "quiet"
    if margin < 1.0:
        sign, meaning = (glyphs.fails, "fails") if lost else (glyphs.caution, "caution")
        return f"{_number(margin, width - 1, 1)}{sign}", meaning
    return f"{_number(margin, width - 1, 1)} ", "plain"
