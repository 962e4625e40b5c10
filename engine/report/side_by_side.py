"""What is told in columns of the seats: the same fit in both measuring systems, and both steels."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from engine.checks.every import Evaluated, evaluate
from engine.errors import plain
from engine.operating import Conditions
from engine.record.seats import both_steels, twins
from engine.record.seats.fit import Fit
from engine.report.parts import Cell, Part, Section, Table, row
from engine.steel.verdict import SIMILAR_LIFE

if TYPE_CHECKING:
    from engine.record.computed import Computed

_STATES = {"plain": "", "passes": "passes", "caution": "near", "fails": "fails"}
BOTH_SYSTEMS, BOTH_STEELS = "The same fit in both systems", "Both steels side by side"


def sections(computed: Computed) -> Iterator[Section]:
    """Yield both comparisons for the bearings of both sides."""
    A, B = computed.sides
    evaluated = evaluate(A, B, computed.conditions)
    yield Section(BOTH_SYSTEMS, tuple(_systems(evaluated, computed.conditions)))
    yield Section(BOTH_STEELS, tuple(_steels(evaluated, computed.conditions)))


def _systems(evaluated: Evaluated, conditions: Conditions) -> Iterator[Part]:
    for ring in ("cone", "cup"):
        for fit, loads in zip(Fit.both(ring, evaluated, conditions), evaluated.loads or (None, None), strict=True):
            of = twins.twins(fit, loads)
            if of is not None:
                yield _twins(of)


def _twins(of: twins.Twins) -> Table:
    head = (f"{of.ring} at {of.side}, {of.class_name}, um", *(one.name for one in of.cases))
    caption = f"The metric limits on the inch ring: {of.follows}."
    return Table(head, tuple(row(name, *values) for name, values in twins.lines(of)), frozenset({1, 2, 3}), caption)


def _steels(evaluated: Evaluated, conditions: Conditions) -> Iterator[Part]:
    for side in "AB":
        head, *facing = both_steels.side_by_side(evaluated, conditions, side)
        yield Table(
            (f"rings at {side}", *head.values),
            tuple(
                (Cell(one.name), *(Cell(plain(value, 200), "", _STATES[meaning]) for value, meaning in
                                   zip(one.values, one.meanings, strict=True)))
                for one in facing
            ),
            caption=f"Shares are what is asked of what the steel allows. {SIMILAR_LIFE}",
        )  # fmt: skip
