"""The lines of the shortlist: its table, and what stands out of one pair."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rich.cells import cell_len

from engine.errors import plain
from engine.units import number_text
from wizard.studies.distributions import LEADING
from wizard.widgets.figures import aligned
from wizard.widgets.lines import Line, fitted, line

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue
    from engine.selection.rank import Shortlist
    from engine.selection.stages.load_distribution import Leading
    from wizard.glyphs import Glyphs

#: The sign of a pair that is marked for the comparison.
PICKED = "*"
#: The sign of a pair that no other is as good as in everything weighed and better than in one thing.
UNBETTERED = "o"
#: Columns from which on sizes and lives have room.
WIDE = 72
#: Number, sign and names: what of a line shows that it is the marked one. Fewer cells than the whole of it are painted.
MARKED_PIECES = 3

#: Names and figures of a pair.
Texts = tuple[str, str]


@dataclass(frozen=True)
class Known:
    """What is said of a listed pair beside its figures: by its load distribution, and whether it is marked."""

    leading: Leading | None = None
    picked: bool = False


def table(found: Shortlist, required: float, loads_known: bool, width: int) -> tuple[Line, list[Texts]]:
    """Return the heading and the texts of each pair behind its number: names; mass, sizes, life and its margin.

    Ranked by weights, the score stands in the place of the life, and a sign behind pairs that no other betters.
    """
    weighed = found.score is not None
    # a sign and the space before it
    marks = 2 if weighed else 0
    name = max(12, min(24, (width - marks - (48 if width >= WIDE else 24)) // 2))
    third = "score" if weighed else "life h"
    tail = (
        f"{'mass kg':>8} {'D mm':>11} {third:>10} {'margin':>7}" if width >= WIDE else f"{'mass kg':>8} {'margin':>7}"
    )
    if weighed and width < WIDE:
        tail = f"{'mass kg':>8} {'score':>7}"
    heading = line(
        fitted(f"      {fitted('bearing at A', name)} {fitted('bearing at B', name)} {tail}", width), "heading"
    )
    A, B = found.evaluated.A, found.evaluated.B
    leads = [
        f"{fitted(plain(A.designation[row]), name)} {fitted(plain(B.designation[row]), name)}"
        for row in range(len(found))
    ]
    figures = _figures(found, required if loads_known else None, width)
    return heading, [(lead, f" {text}") for lead, text in zip(leads, figures, strict=True)]


def _figures(found: Shortlist, required: float | None, width: int) -> list[str]:
    """Return the figures of each pair; without a required life none of its loads is known."""
    A, B = found.evaluated.A, found.evaluated.B
    mass = [f"{sum_:.2f}" for sum_ in (A.mass + B.mass).tolist()]
    guessed = (A.is_estimated("mass") | B.is_estimated("mass")).tolist()
    columns = [[f"{'~' if guess else ''}{text}" for guess, text in zip(guessed, mass, strict=True)]]
    margins = [_margin(life / required) if required is not None else "-" for life in found.life.tolist()]
    lives = aligned([number_text(life, 3) if required is not None else "-" for life in found.life.tolist()])
    third = lives if found.score is None else [f"{score:.3f}" for score in found.score.tolist()]
    if width >= WIDE:
        sizes = zip(*(aligned([number_text(D, 4) for D in rows.D.tolist()]) for rows in (A, B)), strict=True)
        columns += [["/".join(pair) for pair in sizes], third, margins]
    else:
        columns.append(margins if found.score is None else third)
    rooms = (8, 11, 10, 7) if width >= WIDE else (8, 7)
    ends = [""] * len(found)
    if found.score is not None:
        kept = found.non_dominated.tolist() if found.non_dominated is not None else [False] * len(found)
        ends = [f" {UNBETTERED}" if one else "  " for one in kept]
    return [
        " ".join(fitted(cell, room, right=True) for cell, room in zip(cells, rooms, strict=True)) + end
        for *cells, end in zip(*columns, ends, strict=True)
    ]


def marked(lines: list[Texts], known: list[Known], glyphs: Glyphs, width: int) -> list[Line]:
    """Return the lines of the table, numbered, with a mark for what the load distribution says of each pair."""
    found: list[Line] = []
    for at, ((names, figures), said) in enumerate(zip(lines, known, strict=True), 1):
        sign, meaning = " ", "plain"
        if said.leading is not None:
            meaning = {"passes": "passes", "fails": "fails"}.get(said.leading.word, "caution")
            sign = {"passes": glyphs.passes, "fails": glyphs.fails}.get(meaning, glyphs.caution)
        number = f"{at:>4}{PICKED if said.picked else ' '}"
        room = max(0, width - 6)
        lead = min(room, cell_len(names))
        found.append(
            (
                (number, "plain"),
                (sign, meaning),
                (fitted(names, lead), "plain"),
                (fitted(figures, room - lead), "plain"),
            )
        )
    return found


def by_distribution(one: Leading | None, row: int, computing: bool) -> str:
    """Return what the load distribution says of a pair, or why it says nothing."""
    if one is None:
        waited = row < LEADING and computing
        return (
            "load distribution: being computed" if waited else f"load distribution: for the first {LEADING} only, see v"
        )
    if not one.known:
        return f"load distribution: {one.why_not}"
    said = {"fails": f"FAILS: {', '.join(one.failing)}", "open": "passes, its chance not drawn yet"}.get(
        one.word, one.word
    )
    return f"load distribution: {number_text(one.life, 3)} h, {number_text(one.p_max, 3)} MPa, {said}"


def _margin(ratio: float) -> str:
    """Return a margin with its decimal point always at the same place."""
    return f"{ratio:.2f}" if ratio < 1000 else number_text(ratio, 3)


def _supply(rows: Catalogue, row: int) -> str:
    """Return what stands out in how a bearing is supplied; an ordinary set off the shelf needs no word."""
    words = ["formed"] if rows.listed[row] == "formed" else []
    stock = {"on_request": "on request", "discontinued": "discontinued"}.get(str(rows.availability[row]))
    return " ".join([*words, *([stock] if stock else [])])


def tightest(found: Shortlist, row: int) -> str:
    """Return what stands out of one pair: widths, static safety, and of checks in which room counts the tightest."""
    A, B, states = found.evaluated.A, found.evaluated.B, found.evaluated.states
    parts = []
    if states is not None:
        parts.append(f"s0 {number_text(states[0].s0[row], 3)}/{number_text(states[1].s0[row], 3)}")
    binding = [outcome for outcome in found.evaluated.outcomes if not outcome.check.advisory]
    # a bore that fits is as good at its limit as within it
    binding = [outcome for outcome in binding if outcome.check.margin] or binding
    uses = [float(outcome.utilisation[row]) for outcome in binding]
    worst = binding[uses.index(max(uses))]
    where = "" if worst.side == "pair" else f" at {worst.side}"
    supplied = [f"{side} {word}" for side, rows in zip("AB", (A, B), strict=True) if (word := _supply(rows, row))]
    widths = f"T {number_text(A.T[row], 4)}/{number_text(B.T[row], 4)} mm"
    return ", ".join([f"tightest: {worst.check.name}{where} {max(uses):.2f}", *parts, *supplied, widths])
