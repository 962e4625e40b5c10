"""What a reader wants first: seats as they go on a drawing, setting for the bench, lubricant, steel, on half a page."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from engine.errors import plain
from engine.figures import Figure
from engine.record.document import LIFE_DIGITS, readable, rounded, shown
from engine.report.parts import Part, Table, row
from engine.setting.bench import in_both
from engine.units import number_text

if TYPE_CHECKING:
    from engine.record.computed import Computed

INCH = 25.4
#: Rings, the block of their fit, the seat in words, and the size of the bearing that the seat has.
SEATS = (("cone", "shaft", "d"), ("cup", "housing", "D"))
_NONE = "-"


def figures_of(computed: Computed, block: str) -> dict[str, Figure]:
    """Return the figures of a block by their keys; empty where there is none."""
    return {figure.key: figure for one in computed.result.blocks if one.key == block for figure in one.figures}


def value_of(figures: dict[str, Figure], key: str, side: str = "A") -> str:
    """Return a figure's value as it is read, or a dash."""
    figure = figures.get(key)
    return plain(shown(figure, side), 60) if figure is not None else _NONE


def diameter(size: float, inches: bool) -> str:
    """Return a diameter in mm, of an inch part in inches too."""
    return f"{number_text(size, 7)} mm" + (f" ({size / INCH:.4f} in)" if inches else "")


def setting_rows(computed: Computed) -> list[tuple[str, float]]:
    """Return what the fitter sets, in words, and its setting [mm]; empty where no setting was computed."""
    figures = figures_of(computed, "setting")
    wanted = (("bench", "aim, on the bench"), ("bench_from", "it may stay from"), ("bench_to", "up to"))
    found = [(words, figures[key].A) for key, words in wanted if key in figures]
    return [(words, value) for words, value in found if isinstance(value, float)]


def seats(computed: Computed) -> Table | None:
    """Return the seats as they go on a drawing; None where no fit was computed."""
    rows = []
    for ring, seat, size in SEATS:
        figures = figures_of(computed, f"fit_{ring}")
        if f"{ring}_class" not in figures:
            continue
        for side, part in zip("AB", computed.sides, strict=True):
            at = diameter(float(getattr(part, size)[0]), str(part.system[0]) == "inch")
            limits = (signed(figures, f"{ring}_seat_{end}", side) for end in ("upper", "lower"))
            name = value_of(figures, f"{ring}_class", side)
            rows.append(row(f"{seat} at {side}", at, name, *limits, "um"))
    head = ("seat to make", "diameter", "fit as of class", "upper limit", "lower limit", "unit")
    words = "The limits rule. Those of inch rings are moved so that they sit as metric ones do at the class named."
    return Table(head, tuple(rows), frozenset({3, 4}), words) if rows else None


def signed(figures: dict[str, Figure], key: str, side: str) -> str:
    """Return a limit of a seat with its sign, as it goes on a drawing; a dash where there is none."""
    figure = figures.get(key)
    value = None if figure is None else (figure.A if side == "A" else figure.B)
    if not isinstance(value, float):
        return _NONE if value is None else plain(value, 20)
    return f"+{readable(value)}" if value >= 0 else readable(value)


def brief(computed: Computed) -> Iterator[Part]:
    """Yield what matters most, each with where it stands in full by its name."""
    drawn = seats(computed)
    if drawn is not None:
        yield drawn
    rows = [row(words, value) for words, value in _lines(computed)]
    words = (
        f"Lives and intervals are rounded to {LIFE_DIGITS} digits here; the tables hold what a hand calculation needs."
    )
    if rows:
        yield Table(("", ""), tuple(rows), caption=words)


def _of_B(figure: Figure) -> float | str:
    return figure.A if figure.B is None else figure.B


def _lines(computed: Computed) -> Iterator[tuple[str, str]]:
    result = computed.result
    counted = [check for check in result.checks if not check.advisory]
    if counted:
        passed, open_ = sum(check.passes and check.judged for check in counted), len(result.not_judged)
        yield "checks passed", f"{passed} of {len(counted)}" + (f" ({open_} not judged)" if open_ else "")
    for by_distribution, words in ((False, "closed formulas"), (True, "load distribution")):
        near = result.governing(by_distribution)
        if near is not None:
            at = "" if near.side == "pair" else f", {near.side}"
            yield f"nearest its limit, {words}", f"{near.name}{at}: utilisation {readable(near.utilisation, 3)}"
    life = figures_of(computed, "pair").get("Lnmh_system")
    if life is not None:
        asked = number_text(computed.conditions.resolved.life, 6)
        yield "modified life of the pair", f"{rounded(life.A)} h, closed formulas; asked for: {asked} h"
    for words, value in setting_rows(computed):
        yield f"setting: {words}", in_both(value)
    oil, grease = figures_of(computed, "lubricant"), figures_of(computed, "grease")
    if oil:
        yield "lubricant", f"{value_of(oil, 'lubricant')}, {value_of(oil, 'supply')}"
    for key, words in (("first_fill", "first filling"), ("refill", "refill"), ("t_grease", "regreasing every")):
        if key in grease:
            unit = grease[key].unit
            yield words, f"A {rounded(grease[key].A)} {unit}, B {rounded(_of_B(grease[key]))} {unit}"
    yield from (("steel", plain(one, 300)) for one in result.steels if "as this bearing is" in one)
