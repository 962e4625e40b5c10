"""Candidates in groups of alike partners: bounds over such a group are tighter than over all of a side."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.numerics import Floats, Rows
from engine.selection.stages.blocks import Cancelled, never
from engine.selection.stages.bounds import Bounds, FrictionLoss, Partners, bound
from engine.selection.stages.side import Side

GROUPS_BY_ANGLE = 4
GROUPS_BY_CENTRE = 5
GROUPS_BY_SIZE = 5


@dataclass(frozen=True)
class Grouped:
    """The candidates of one side in groups of alike ones; `number` is the group of each."""

    rows: tuple[Rows, ...]
    number: Rows

    @classmethod
    def of(cls, keys: tuple[tuple[Floats, int], ...]) -> Grouped:
        """Return the groups by one column after the other; every row is in exactly one, and no group is empty."""
        found = [np.arange(len(keys[0][0]))]
        for column, parts in keys:
            ordered = [some[np.argsort(column[some], kind="stable")] for some in found]
            found = [group for some in ordered for group in np.array_split(some, parts) if len(group)]
        number = np.zeros(len(keys[0][0]), dtype=np.intp)
        for at, group in enumerate(found):
            number[group] = at
        return cls(tuple(found), number)


def _alike_by(side: Side) -> tuple[tuple[Floats, int], ...]:
    """Return by what partners are alike: their angle, and where they sit or, where they warm each other, their size."""
    if side.thermal is None:
        return (side.Y, GROUPS_BY_ANGLE), (side.z, GROUPS_BY_CENTRE)
    return (side.thermal.conductance[:, 0], GROUPS_BY_SIZE), (side.Y, GROUPS_BY_ANGLE)


def grouped_bounds(
    A: Side, B: Side, cancelled: Cancelled = never, friction: FrictionLoss | None = None
) -> tuple[Grouped, Grouped, Bounds, Bounds]:
    """Return both sides in groups, and the bounds of each side's bearings over the groups of the other."""
    in_A, in_B = Grouped.of(_alike_by(A)), Grouped.of(_alike_by(B))
    of_A = bound(A, Partners.of(B, in_B.rows), cancelled, friction)
    of_B = bound(B, Partners.of(A, in_A.rows), cancelled, friction)
    return in_A, in_B, of_A, of_B
