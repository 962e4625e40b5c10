"""The lines of one pair: verdict, checks, every figure, which steel suits, what was assumed, what to mind."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.errors import plain
from engine.record.document import NOTICE, readable, shown
from wizard.widgets.lines import Line, fitted, line, wrapped

if TYPE_CHECKING:
    from engine.figures import Figure
    from engine.record.result import CheckRow, Result
    from wizard.glyphs import Glyphs

BAR = 5


def detail(result: Result, glyphs: Glyphs, width: int) -> tuple[list[Line], list[int], dict[int, str]]:
    """Return the lines, those that can be marked, and the source behind each marked one."""
    lines: list[Line] = []
    sources: dict[int, str] = {}

    def heading(text: str) -> None:
        if lines:
            lines.append(line(""))
        lines.append(line(text, "heading"))

    heading(fitted(f"{fitted('Checks', _check_name(width) + 3)}{'demand':>9} {'capacity':>9} {'use':>6}", width))
    for check in result.checks:
        sources[len(lines)] = f"{check.demand_is} against {check.capacity_is}: {check.source}"
        lines.append(_check(check, glyphs, width))
    for block in result.blocks:
        heading(fitted(f"{fitted(plain(block.title), _figure_name(width) + 9)} {'A':>10} {'B':>10}", width))
        for figure in block.figures:
            sources[len(lines)] = f"{figure.name}: {figure.source}"
            lines.append(line(fitted(_figure(figure, width), width)))
    stops = list(sources)
    for title, texts in (
        ("Which steel", result.steels),
        ("Mind", result.cautions),
        ("Still missing", result.missing),
        ("Assumed", result.assumptions),
        ("Notice", (NOTICE,)),
    ):
        if texts:
            heading(title)
        for text in texts:
            shown = [line(f" {part}") for part in wrapped(plain(text, 1000), width - 2)]
            stops.extend(range(len(lines), len(lines) + len(shown)))
            lines += shown
    return lines, stops, sources


def _check_name(width: int) -> int:
    return max(16, min(32, width - 35))


def _figure_name(width: int) -> int:
    return max(16, min(34, width - 37))


def _check(check: CheckRow, glyphs: Glyphs, width: int) -> Line:
    word, meaning, mark = _verdict(check, glyphs)
    name = fitted(check.name if check.side == "pair" else f"{check.name}, {check.side}", _check_name(width))
    numbers = f"{readable(check.demand, 4):>9} {readable(check.capacity, 4):>9}"
    if not check.judged:
        return ((f" {mark} ", meaning), (f"{name}{numbers} ", "plain"), (word, meaning))
    numbers += f" {_use(check.utilisation):>6}"
    tail = f" {check.unit:<6}{_bar(check.utilisation, glyphs)} " if width >= 80 else " "
    return ((f" {mark} ", meaning), (f"{name}{numbers}{tail}", "plain"), (word, meaning))


def use_bar(utilisation: float, glyphs: Glyphs) -> tuple[str, str]:
    """Return a utilisation in figures and as a bar."""
    return _use(utilisation), _bar(utilisation, glyphs)


def _use(utilisation: float) -> str:
    """Return a utilisation with its decimal point always at the same place."""
    return f"{utilisation:.2f}" if abs(utilisation) < 1000 else readable(utilisation, 3)


def _bar(utilisation: float, glyphs: Glyphs) -> str:
    known = utilisation == utilisation
    full = min(BAR, round(BAR * min(utilisation, 1.0))) if known else 0
    return glyphs.bar_full * full + glyphs.bar_empty * (BAR - full)


def _verdict(check: CheckRow, glyphs: Glyphs) -> tuple[str, str, str]:
    if not check.judged:
        return "not judged", "caution", glyphs.caution
    if check.passes:
        return "ok", "passes", glyphs.passes
    if check.advisory:
        return "mind", "caution", glyphs.caution
    return "FAILS", "fails", glyphs.fails


def _figure(figure: Figure, width: int) -> str:
    symbol, name = fitted(figure.symbol, 6), fitted(figure.name, _figure_name(width))
    if isinstance(figure.A, str) and figure.of_pair:  # a word of the pair may be long: it runs over both columns
        return f"  {symbol} {name} {plain(figure.A)}"
    values = " ".join(fitted(plain(shown(figure, side)), 10, right=True) for side in "AB")
    return f"  {symbol} {name} {values} {figure.unit}"
