"""Which item of a list in one record is which in another: items may have been added, dropped, moved or changed."""

from collections.abc import Mapping, Sequence
from typing import Any


def aligned(before: Sequence[Mapping[str, Any]], after: Sequence[Mapping[str, Any]]) -> dict[int, int]:
    """Return for each item of `before` its place in `after`; items without a counterpart are left out.

    The most alike go together first, by the number of equal answers; of equally alike ones those that stand closest.
    What is left then goes together where it stands at the same place.
    """
    if list(before) == list(after):
        return {at: at for at in range(len(before))}
    scored = sorted(
        (-alike, abs(i - j), i, j)
        for i, one in enumerate(before)
        for j, other in enumerate(after)
        if (alike := _alike(one, other))
    )
    found: dict[int, int] = {}
    taken: set[int] = set()
    for _, _, i, j in scored:
        if i not in found and j not in taken:
            found[i] = j
            taken.add(j)
    for at in range(min(len(before), len(after))):
        if at not in found and at not in taken:
            found[at] = at
            taken.add(at)
    return found


def _alike(one: Mapping[str, Any], other: Mapping[str, Any]) -> int:
    """Return how many answers two items share; a name says more of which item it is than all the rest."""
    if one == other:
        return 10_000 + len(one)
    shared: int = sum(key in other and other[key] == value for key, value in one.items())
    named = bool(one.get("name")) and one.get("name") == other.get("name")
    return shared + 1000 * named
