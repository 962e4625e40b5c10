"""The pairs that came next, and why each lost: by what the shortlist was ranked by."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.errors import plain
from engine.numerics import Floats
from engine.record.document import readable, rounded
from engine.report.parts import Part, Table, Text, row
from engine.selection import criteria, rank, screen
from engine.selection.weighing import values_of, weights_of, wished_shortlist
from engine.units import number_text

if TYPE_CHECKING:
    from engine.record.computed import Computed

MOST = 6
#: How the line of a check begins that says how much of its capacity is used.
USED = "used of "
#: So many differences are named behind what decided; all of them stand in the table.
MOST_NAMED = 4
#: Values closer than this share are the same.
SAME = 5e-4


@dataclass(frozen=True)
class RunnerUp:
    """A pair of the shortlist: its place, names, mass and life, what binds it, and why it is not the chosen one.

    `figures` are what it is compared by with the chosen pair, in the order of that one's.
    """

    place: int
    bearing_A: str
    bearing_B: str
    mass: float
    life: float
    binds: str
    why: str
    figures: tuple[str, ...] = ()


@dataclass(frozen=True)
class Beside:
    """A figure of the chosen pair and of those that came next: what it is, its unit, and the value of each.

    A word instead of a number tells what a pair is made like.
    """

    name: str
    unit: str
    own: float | str
    values: tuple[float | str, ...]

    def text(self, value: float | str) -> str:
        """Return a value as it is read; utilisations with three digits, as everywhere."""
        if isinstance(value, str) or not (self.name.startswith(USED) or self.name == "life"):
            return text(value)
        if self.name == "life":
            return "" if math.isnan(value) else rounded(value)
        return "" if math.isnan(value) else readable(value, 3)

    def said(self, at: int) -> str:
        """Return how a pair differs from the chosen one in this, with both figures; nothing where it does not."""
        value, own = self.values[at], self.own
        if isinstance(value, str) or isinstance(own, str):
            return "" if value == own else f"{self.name} {value} against {own}"
        if value == own or abs(value - own) <= SAME * abs(own) or not (np.isfinite(value) and np.isfinite(own)):
            return ""
        if self.text(value) == self.text(own):
            return ""
        return f"{self.name} {self.text(value)} against {self.text(own)} {self.unit}".rstrip()


def text(value: float | str) -> str:
    """Return a value of a comparison as it is read; nothing where it is not known."""
    return value if isinstance(value, str) else "" if math.isnan(value) else readable(value)


def runners_up(computed: Computed) -> tuple[list[RunnerUp], list[Beside], str]:
    """Return the leading pairs other than the chosen one, their figures beside its, and a sentence on all of them."""
    conditions, catalogue = computed.conditions, computed.source.rows
    choice = computed.record.answers.choice
    by = choice.rank_by if choice.rank_by in _NAMES else "mass"
    screening = screen.screen(catalogue, conditions)
    if screening.too_many:
        words = "There are too many pairs that could pass to rank them; limits on bore or outside diameter help."
        return [], [], words
    listed = wished_shortlist(catalogue, screening, conditions, choice, MOST + 1)
    row_A, row_B = (np.array([row]) for row in computed.rows)
    own = rank.of_rows(catalogue, row_A, row_B, conditions, most=1)
    value = _value(own, by) if by != "weights" else _own_score(computed, own, list(listed.values))
    others = [
        at for at in range(len(listed)) if (int(listed.rows_A[at]), int(listed.rows_B[at])) != computed.rows
    ][:MOST]  # fmt: skip
    table = list(_beside(own, listed, others, conditions.resolved.per_side))
    values = _value(listed, by)
    A, B = listed.evaluated.A, listed.evaluated.B
    found = [
        RunnerUp(
            at + 1, plain(A.designation[at], 40), plain(B.designation[at], 40),
            conditions.resolved.per_side * float(A.mass[at] + B.mass[at]), float(listed.life[at]),
            _binds(listed, at), _lost(by, float(values[at]), float(value[0]), table, place),
            tuple(one.text(one.values[place]) for one in table),
        )
        for place, at in enumerate(others)
    ]  # fmt: skip
    passing = f"{screening.count} of {screening.listed} pairs pass every check by closed formulas"
    words = f"{passing}; ranked by {_NAMES[by][0]}."
    return found, table, words


def section_of_runners_up(computed: Computed) -> Iterator[Part]:
    """Yield why each lost, then all figures of the chosen pair and of those that came next beside one another."""
    found, beside, words = runners_up(computed)
    yield Text(words)
    if not found:
        return
    head = ("place", "A", "B", "mass kg", "life h", "used most", "why it is not the chosen one")
    rows = tuple(
        row(
            str(one.place),
            one.bearing_A,
            one.bearing_B,
            text(one.mass),
            "" if math.isnan(one.life) else rounded(one.life),
            one.binds,
            one.why,
        )
        for one in found
    )
    yield Table(head, rows, frozenset({0, 3, 4}))
    chosen = "chosen" if computed.chosen else "first"
    lines = [
        row(one.name, one.unit, one.text(one.own), *(other.figures[at] for other in found))
        for at, one in enumerate(beside)
    ]
    names = ("", "unit", chosen, *(str(one.place) for one in found))
    yield Table(
        names, tuple(lines), frozenset(range(2, 3 + len(found))),
        "Sums are of both sides. What a check uses is demand over capacity of the side that uses most; its "
        "clause stands with the checks of the chosen pair. Lives are those of the closed formulas; "
        "load distributions, which may rule a pair out, are not computed here.",
    )  # fmt: skip


def _beside(own: rank.Shortlist, listed: rank.Shortlist, others: list[int], per_side: int) -> Iterator[Beside]:
    """Yield what an engineer weighs pairs by: mass, sizes, life, cost, how they are made, and what each check uses."""

    def both(column: str) -> tuple[float, list[float]]:
        sums = [
            per_side * (getattr(one.evaluated.A, column) + getattr(one.evaluated.B, column)) for one in (own, listed)
        ]
        return float(sums[0][0]), [float(sums[1][at]) for at in others]

    def made(column: str) -> tuple[str, list[str]]:
        words = [
            [
                f"{a} and {b}" if a != b else a
                for a, b in zip(*(_words(one, side, column) for side in "AB"), strict=True)
            ]
            for one in (own, listed)
        ]
        return words[0][0], [words[1][at] for at in others]

    for name, column, unit in _SUMS:
        ours, theirs = both(column)
        yield Beside(name, unit, ours, tuple(theirs))
    yield Beside("life", "h", float(own.life[0]), tuple(float(listed.life[at]) for at in others))
    for name, column in _MADE:
        word, words = made(column)
        if set(words) - {word}:
            yield Beside(name, "", word, tuple(words))
    ours_used, theirs_used = _used(own), _used(listed)
    for name, used in ours_used.items():
        values = tuple(float(theirs_used[name][at]) if name in theirs_used else math.nan for at in others)
        yield Beside(f"{USED}{name}", "", float(used[0]), values)


_SUMS = (("mass", "mass", "kg"), ("sum of outside diameters", "D", "mm"), ("sum of widths", "T", "mm"),
         ("relative cost", "cost", ""))  # fmt: skip
_MADE = (("steel", "steel"), ("roller profile", "profile"), ("class", "tolerance"), ("stock", "availability"))


def _words(listed: rank.Shortlist, side: str, column: str) -> list[str]:
    values = getattr(listed.evaluated.A if side == "A" else listed.evaluated.B, column)
    return [plain(value, 20).replace("_", " ") or "not stated" for value in values.tolist()]


def _used(listed: rank.Shortlist) -> dict[str, Floats]:
    """Return of each check in which room is worth having how much of its capacity the side that uses most uses."""
    found: dict[str, Floats] = {}
    for one in listed.evaluated.outcomes:
        if one.check.margin and not one.check.advisory:
            uses = np.ravel(np.broadcast_to(one.utilisation, (len(listed),)))
            name = f"{one.check.name[0].lower()}{one.check.name[1:]}"
            found[name] = np.fmax(found[name], uses) if name in found else uses
    return found


def _lost(by: str, value: float, own: float, table: list[Beside], place: int) -> str:
    """Return why a pair is not the chosen one: what decided, then in what else the two differ."""
    decided, named = _NAMES[by][0], {one.name: one.said(place) for one in table}
    why = _why(by, value, own, named)
    rest = [said for name, said in named.items() if said and name != decided and said not in why]
    return f"{why}; else {', '.join(rest[:MOST_NAMED])}" if rest else why


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


def _why(by: str, value: float, own: float, said: Mapping[str, str]) -> str:
    more, less = {
        "mass": ("heavier", "lighter"), "size": ("larger, by the sum of D,", "smaller, by the sum of D,"),
        "life": ("longer lived", "shorter lived"), "cost": ("dearer", "cheaper"),
        "weights": ("weighed worse", "weighed better"),
    }[by]  # fmt: skip
    (name, unit), change = _NAMES[by], value - own
    if not np.isfinite(change):
        return f"{name} not known"
    if change == 0:
        then = next((said[one] for one in _THEN[by] if said.get(one)), "")
        return f"the same {name}; {then or 'nothing but the order of the catalogue decides'}"
    word = more if change > 0 else less
    better = (change > 0) == (by == "life")
    chosen = "; it ranks before the pair that was chosen" if better else ""
    figures = f" ({number_text(value, 4)} against {number_text(own, 4)})"
    return f"{word} by {number_text(abs(change), 3)} {unit}".rstrip() + figures + chosen


#: What decides between pairs that are equal in what they are ranked by.
_THEN = {"mass": ("sum of outside diameters", "sum of widths"), "size": ("sum of widths", "mass"), "life": ("mass",),
         "cost": ("mass",), "weights": ("mass",)}  # fmt: skip


def _binds(listed: rank.Shortlist, at: int) -> str:
    """Return the check of a pair that is used most, of those in which room is worth having, with its utilisation."""
    binding = [one for one in listed.evaluated.outcomes if one.check.margin and not one.check.advisory]
    if not binding:
        return ""
    uses = [float(np.ravel(np.broadcast_to(one.utilisation, (len(listed),)))[at]) for one in binding]
    worst = int(np.argmax(np.nan_to_num(uses, nan=np.inf)))
    return f"{binding[worst].check.name}, {binding[worst].side}: {number_text(uses[worst], 3)}"
