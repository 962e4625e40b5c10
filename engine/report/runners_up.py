"""The pairs that came next, and why each lost: by what the shortlist was ranked by."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.errors import plain
from engine.numerics import Floats
from engine.selection import criteria, rank, screen
from engine.selection.weighing import values_of, weights_of, wished_shortlist
from engine.units import number_text

if TYPE_CHECKING:
    from engine.record.computed import Computed

MOST = 6


@dataclass(frozen=True)
class RunnerUp:
    """A pair of the shortlist: its place, names, mass and life, what binds it, and why it is not the chosen one."""

    place: int
    bearing_A: str
    bearing_B: str
    mass: float
    life: float
    binds: str
    why: str


def runners_up(computed: Computed) -> tuple[list[RunnerUp], str]:
    """Return the leading pairs other than the chosen one, and a sentence on the list as a whole."""
    conditions, catalogue = computed.conditions, computed.source.rows
    choice = computed.record.answers.choice
    by = choice.rank_by if choice.rank_by in _NAMES else "mass"
    screening = screen.screen(catalogue, conditions)
    if screening.too_many:
        return [], "There are too many pairs that could pass to rank them; limits on bore or outside diameter help."
    listed = wished_shortlist(catalogue, screening, conditions, choice, MOST + 1)
    row_A, row_B = (np.array([row]) for row in computed.rows)
    own = rank.of_rows(catalogue, row_A, row_B, conditions, most=1)
    value = _value(own, by) if by != "weights" else _own_score(computed, own, list(listed.values))
    found: list[RunnerUp] = []
    values = _value(listed, by)
    for at in range(len(listed)):
        if (int(listed.rows_A[at]), int(listed.rows_B[at])) == computed.rows or len(found) == MOST:
            continue
        A, B = listed.evaluated.A, listed.evaluated.B
        found.append(
            RunnerUp(
                at + 1, plain(A.designation[at], 40), plain(B.designation[at], 40),
                conditions.resolved.per_side * float(A.mass[at] + B.mass[at]), float(listed.life[at]),
                _binds(listed, at), _why(by, float(values[at]), float(value[0])),
            )
        )  # fmt: skip
    words = f"{screening.count} of {screening.listed} pairs pass every check; ranked by {_NAMES[by][0]}."
    return found, words


_NAMES = {"mass": ("mass", "kg"), "size": ("size", "mm"), "life": ("life", "h"), "cost": ("relative cost", ""),
          "weights": ("weighed score", "")}  # fmt: skip


def _value(listed: rank.Shortlist, by: str) -> Floats:
    A, B = listed.evaluated.A, listed.evaluated.B
    if by == "weights":
        assert listed.score is not None
        return listed.score
    if by == "life":
        return np.asarray(listed.life)
    column = {"mass": "mass", "size": "D", "cost": "cost"}[by]
    return np.asarray(getattr(A, column) + getattr(B, column))


def _own_score(computed: Computed, own: rank.Shortlist, keys: list[str]) -> Floats:
    """Return the weighed score of the chosen pair by the criteria that counted in the list."""
    weights = weights_of(computed.record.answers.choice)
    if not keys:
        return np.zeros(len(own))
    rows = own.rows_A, own.rows_B
    values = values_of(computed.source.rows, *rows, own.evaluated, computed.conditions, keys)
    return criteria.score({key: weights[key] for key in keys}, values)


def _why(by: str, value: float, own: float) -> str:
    more, less = {
        "mass": ("heavier", "lighter"), "size": ("larger, by the sum of D,", "smaller, by the sum of D,"),
        "life": ("longer lived", "shorter lived"), "cost": ("dearer", "cheaper"),
        "weights": ("weighed worse", "weighed better"),
    }[by]  # fmt: skip
    change, unit = value - own, _NAMES[by][1]
    if not np.isfinite(change):
        return f"{_NAMES[by][0]} not known"
    if change == 0:
        return f"the same {_NAMES[by][0]}; later in size, mass or the order of the catalogue"
    word = more if change > 0 else less
    better = (change > 0) == (by == "life")
    chosen = "; it ranks before the pair that was chosen" if better else ""
    return f"{word} by {number_text(abs(change), 4)} {unit}".rstrip() + chosen


def _binds(listed: rank.Shortlist, at: int) -> str:
    """Return the check of a pair that is used most, of those in which room is worth having, with its utilisation."""
    binding = [one for one in listed.evaluated.outcomes if one.check.margin and not one.check.advisory]
    if not binding:
        return ""
    uses = [float(np.ravel(np.broadcast_to(one.utilisation, (len(listed),)))[at]) for one in binding]
    worst = int(np.argmax(np.nan_to_num(uses, nan=np.inf)))
    return f"{binding[worst].check.name}, {binding[worst].side}: {number_text(uses[worst], 3)}"
