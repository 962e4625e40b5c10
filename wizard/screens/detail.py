"""The lines of one pair: verdict, checks, every figure, what was assumed, what to mind."""

from __future__ import annotations

from textwrap import wrap
from typing import TYPE_CHECKING

from engine.errors import plain
from engine.record.document import NOTICE, readable
from wizard.widgets.lines import Line, fitted, line

if TYPE_CHECKING:
    from engine.figures import Figure
    from engine.record.result import CheckRow, Result
    from wizard.glyphs import Glyphs

BAR = 10


def detail(result: Result, glyphs: Glyphs, width: int) -> tuple[list[Line], list[int], dict[int, str]]:
    """Return the lines, those that can be marked, and the source behind each marked one."""
    lines: list[Line] = []
    sources: dict[int, str] = {}

    def heading(text: str) -> None:
        if lines:
            lines.append(line(""))
        lines.append(line(text, "heading"))

    heading(fitted(f"Checks{'':<34}   demand   capacity   use", width))
    for check in result.checks:
        sources[len(lines)] = f"{check.demand_is} against {check.capacity_is}: {check.source}"
        lines.append(_check(check, glyphs, width))
    for block in result.blocks:
        heading(fitted(f"{fitted(block.title, 43)} {'A':>10} {'B':>10}", width))
        for figure in block.figures:
            sources[len(lines)] = f"{figure.name}: {figure.source}"
            lines.append(line(fitted(_figure(figure), width)))
    stops = list(sources)
    for title, texts in (
        ("Mind", result.cautions),
        ("Still missing", result.missing),
        ("Assumed", result.assumptions),
        ("Notice", (NOTICE,)),
    ):
        if texts:
            heading(title)
        for text in texts:
            stops.append(len(lines))
            lines += [line(f" {part}") for part in wrap(plain(text), width - 2)]
    return lines, stops, sources


def _check(check: CheckRow, glyphs: Glyphs, width: int) -> Line:
    word, meaning, mark = _verdict(check, glyphs)
    full = min(BAR, round(BAR * min(check.utilisation, 1.0))) if check.utilisation == check.utilisation else BAR
    bar = glyphs.bar_full * full + glyphs.bar_empty * (BAR - full)
    name = fitted(f"{check.name}, {check.side}", 34)
    numbers = f"{readable(check.demand, 4):>9} {readable(check.capacity, 4):>10} {readable(check.utilisation, 2):>5}"
    tail = f" {check.unit:<6}{bar} " if width >= 80 else " "
    return ((f" {mark} ", meaning), (f"{name} {numbers}{tail}", "plain"), (word, meaning))


def _verdict(check: CheckRow, glyphs: Glyphs) -> tuple[str, str, str]:
    if check.passes:
        return "ok", "passes", glyphs.passes
    if check.advisory:
        return "mind", "caution", glyphs.caution
    return "FAILS", "fails", glyphs.fails


def _figure(figure: Figure) -> str:
    symbol, name = fitted(figure.symbol, 6), fitted(figure.name, 34)
    first = readable(figure.A, figure.digits)
    if figure.of_pair:
        values = f"{fitted(plain(first), 10, right=True)} {'':>10}"
    else:
        second = readable(figure.B, figure.digits) if figure.B is not None else ""
        values = f"{fitted(plain(first), 10, right=True)} {fitted(plain(second), 10, right=True)}"
    return f"  {symbol} {name} {values} {figure.unit}"
