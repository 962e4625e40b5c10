"""Labels over a drawing, each with a leader down to its place: set so that none lies over another."""

import unicodedata
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations

#: Clear space beside words [mm], and to the edge of the sheet.
GAP, EDGE = 1.0, 1.0
#: Widths of letters over the height of the font, as wide as any font has them in which a report is set.
_NARROW, _WIDE = frozenset(" .,:;'|!/ilIjtfr()[]-"), frozenset("mwMW@%&")
_SHARES = {"narrow": 0.42, "wide": 1.0, "capital": 0.79, "other": 0.65}


def text_width(text: str, size: float) -> float:
    """Return the room that words of a height take at most [mm]."""
    return size * sum(_SHARES[_kind(letter)] for letter in text)


def _kind(letter: str) -> str:
    if letter in _NARROW:
        return "narrow"
    if letter in _WIDE or unicodedata.east_asian_width(letter) in "WF":
        return "wide"
    return "capital" if letter.isupper() else "other"


@dataclass(frozen=True)
class Label:
    """A label to be set: the place across that its leader goes down to, and its width [mm]."""

    x: float
    width: float


Lefts = Callable[[Label, float], list[float]]


@dataclass(frozen=True)
class Spot:
    """Where a label stands: its level, 0 the nearest to what is drawn, and where its words begin across."""

    level: int
    left: float


def spots(labels: Sequence[Label], room: float) -> list[Spot]:
    """Return a spot for each label on a sheet of a width; no two lie over one another.

    Of the ways tried, that with the fewest leaders across words, then with the fewest levels, is taken.
    """
    places = range(len(labels))
    inside_out = sorted(places, key=lambda at: abs(labels[at].x - room / 2))
    rightwards = sorted(places, key=lambda at: labels[at].x)
    orders = (inside_out, rightwards, rightwards[::-1], inside_out[::-1])
    ways = [_way(labels, room, order, lefts) for order in orders for lefts in (_inwards, _to_right, _to_left)]
    return min(ways, key=lambda way: (_crossed(labels, way), max((spot.level for spot in way), default=0)))


def _way(labels: Sequence[Label], room: float, order: Sequence[int], lefts: Lefts) -> list[Spot]:
    """Set one label after the other, each as near to what is drawn as those before it allow."""
    found: dict[int, Spot] = {}
    for at in order:
        others = [(labels[other], spot) for other, spot in found.items()]
        found[at] = _spot(labels[at], others, lefts(labels[at], room))
    return [found[at] for at in range(len(labels))]


def _spot(label: Label, others: Sequence[tuple[Label, Spot]], lefts: Sequence[float]) -> Spot:
    above = 1 + max((spot.level for _, spot in others), default=-1)
    for level in range(above + 1):
        for left in lefts:
            if all(_clear(label, Spot(level, left), other, spot) for other, spot in others):
                return Spot(level, left)
    # no way is clear of all words: above them all at least no words lie over others
    return Spot(above, lefts[0])


def _inwards(label: Label, room: float) -> list[float]:
    """Return where the words may begin: towards the middle of the sheet first, then over their place, then away."""
    return _to_right(label, room) if label.x < room / 2 else _to_left(label, room)


def _to_right(label: Label, room: float) -> list[float]:
    over = label.x - label.width / 2
    wished = (label.x + GAP, over, label.x - GAP - label.width)
    return [max(min(one, room - EDGE - label.width), EDGE) for one in wished]


def _to_left(label: Label, room: float) -> list[float]:
    return _to_right(label, room)[::-1]


def _crossed(labels: Sequence[Label], way: Sequence[Spot]) -> int:
    """Return in how many pairs of labels the leader of one crosses the words of the other."""
    pairs = combinations(zip(labels, way, strict=True), 2)
    return sum(not _clear(one, spot, other, its) for (one, spot), (other, its) in pairs)


def _clear(label: Label, spot: Spot, other: Label, its: Spot) -> bool:
    if spot.level == its.level:
        return spot.left >= its.left + other.width + GAP or its.left >= spot.left + label.width + GAP
    upper, (lower, at) = (label, (other, its)) if spot.level > its.level else (other, (label, spot))
    return not at.left - GAP / 2 < upper.x < at.left + lower.width + GAP / 2
