"""The sheet for the one who mounts the bearings: one page with parts, seats, heating, setting and grease.

It picks figures out of the blocks of a result by their keys; what was not computed is said to be missing, so that
nobody takes an empty field for "as you like".
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.errors import plain
from engine.pair.arrangement import BACK_TO_BACK
from engine.report.drawn import shaft
from engine.report.full import foot, values
from engine.report.order import order_lines
from engine.report.parts import Cell, Items, Part, Pictures, Report, Section, Table, Text, row

if TYPE_CHECKING:
    from engine.figures import Block, Figure
    from engine.record.computed import Computed


#: So many cautions leave the sheet on one page.
MOST_CAUTIONS = 8


@dataclass(frozen=True)
class Wanted:
    """What a part of the sheet shows: figures of some blocks, by the keys of both, and what is said where none is."""

    title: str
    blocks: re.Pattern[str]
    figures: re.Pattern[str]
    lacking: str


_WANTED = (
    Wanted(
        "Seats and mounting", re.compile(r"fits?(_.*)?|seats?(_.*)?|mounting"),
        re.compile(r".*(class|seat_upper|seat_lower|mounting|heating|force_on|force_off)"),
        "Fits were not computed; they must come from the drawing.",
    ),
    Wanted(
        "Setting", re.compile(r"setting(_life)?"),
        re.compile(r"bench|bench_low|bench_high|band_low|band_high|mounted|setting"),
        "The setting was not computed; it must come from the drawing.",
    ),
    Wanted(
        "Lubricant", re.compile(r"grease|lubricant|oil"),
        re.compile(r"first_fill|refill|fill|nlgi|t_grease|grease|oil|lubricant|name|supply|grade|nu40"),
        "No amount of lubricant was computed.",
    ),
)  # fmt: skip


def sheet(computed: Computed) -> Report:
    """Return the fitter's sheet of a computed record."""
    title = plain(computed.record.answers.duty.job or "Bearings of a shaft", 200)
    sections = [
        Section("Parts", (_parts(computed),)),
        Section("How they sit", tuple(_seating(computed))),
        *(Section(wanted.title, tuple(_picked(computed, wanted))) for wanted in _WANTED),
        Section("Mind", tuple(_cautions(computed))),
        Section("Done", (_signed(),)),
    ]
    return Report(
        f"Mounting: {title}", _state(computed), tuple(one for one in sections if one.parts), foot(computed), True
    )


def _state(computed: Computed) -> str:
    result = computed.result
    if result.verdict == "passes":
        return "The pair passes every check of the calculation."
    return f"The calculation of this pair {'FAILS' if result.verdict == 'fails' else 'is INCOMPLETE'}: do not mount."


def _parts(computed: Computed) -> Table:
    rows = tuple(row(str(one.quantity), one.what, one.name, one.sides, one.tolerance) for one in order_lines(computed))
    return Table(("quantity", "part", "designation", "for", "class"), rows, frozenset({0}))


def _seating(computed: Computed) -> Iterator[Part]:
    resolved = computed.conditions.resolved
    if resolved.locating:
        words = f"Two bearings side by side on each side; the unit at {resolved.locating} locates the shaft."
    elif resolved.arrangement == BACK_TO_BACK:
        words = "Back to back (O): the large roller ends of both cones face outwards."
    else:
        words = "Face to face (X): the large roller ends of both cones face each other."
    yield Text(words)
    drawn = shaft.drawing(computed)
    if drawn is not None:
        yield Pictures((drawn,))


def _picked(computed: Computed, wanted: Wanted) -> Iterator[Part]:
    rows = [
        (Cell(_named(block, figure)), *values(block, figure), Cell(figure.unit))
        for block in computed.result.blocks
        if wanted.blocks.fullmatch(block.key)
        for figure in block.figures
        if wanted.figures.fullmatch(figure.key)
    ]
    if rows:
        yield Table(("", "A", "B", "unit"), tuple(rows), frozenset({1, 2}))
    else:
        yield Text(wanted.lacking, "caution")


def _named(block: Block, figure: Figure) -> str:
    return plain(f"{block.title}: {figure.name}", 200)


def _cautions(computed: Computed) -> Iterator[Part]:
    found = [plain(one, 300) for one in computed.result.cautions]
    more = [f"and {len(found) - MOST_CAUTIONS} more in the report"] if len(found) > MOST_CAUTIONS else []
    if found:
        yield Items((*found[:MOST_CAUTIONS], *more))


def _signed() -> Table:
    head = ("step", "measured", "by", "on")
    steps = (
        "shaft and housing measured",
        "rings seated against their shoulders",
        "setting measured",
        "lubricant filled",
    )
    return Table(head, tuple(row(step, "", "", "") for step in steps))
