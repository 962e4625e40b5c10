"""How much room a size leaves to a limit, or by how much it goes beyond it."""

import math
from dataclasses import dataclass

from engine.catalogue.sift import SLACK, length_terms
from engine.errors import Problems

#: Sizes that a limit of the space may be set to.
SIZES = ("d", "D", "T", "B", "C")


@dataclass(frozen=True)
class Limit:
    """The least and the greatest that a size may be [mm], and at which bearing: "A", "B", or "" for either."""

    name: str
    least: float = -math.inf
    greatest: float = math.inf
    side: str = ""

    def room(self, value: float) -> float:
        """Return the distance of a size from the nearer end of the limit [mm]: negative beyond it, 0 where it fits."""
        room = min(value - self.least, self.greatest - value)
        return 0.0 if abs(room) <= SLACK else room

    def is_under(self, value: float) -> bool:
        """Return whether a size is less than the least."""
        return value < self.least - SLACK


def of_filter(text: str) -> list[Limit]:
    """Return the limits that the terms of a filter set to sizes; none where a term cannot be read."""
    try:
        terms = length_terms(text)
    except Problems:
        return []
    return [Limit(name, *ends) for name, ends in terms if name in SIZES]


def joined(limits: list[Limit]) -> list[Limit]:
    """Return the limits without repeats: what holds for A and for B alike holds for either."""
    kept: list[Limit] = []
    for limit in limits:
        both = Limit(limit.name, limit.least, limit.greatest)
        other = Limit(limit.name, limit.least, limit.greatest, {"A": "B", "B": "A"}.get(limit.side, ""))
        if other in kept and limit.side:
            kept[kept.index(other)] = both
        elif limit not in kept and both not in kept:
            kept.append(limit)
    return kept
