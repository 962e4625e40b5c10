"""Which two answers, changed together, may be enough: found by trying many at once, since most never are.

Answers that only set a limit to figures (a required life, a size, a steel) let in no less when more of them give. So
where a whole group of such, changed as far as it goes, is not enough, no two of it are, and the group is done with in
one trial; else it is halved (group testing, after Dorfman, The detection of defective members of large populations,
1943). What moves the figures themselves is tried step by step, beside such groups: a lighter load on one bearing can be
a heavier one on the other, and a looser fit creeps.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import combinations
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from engine.selection.loosening import Move, Step

#: Answers that are limits, by their path or its beginning; figures that are held against them do not move with them.
LIMITS = (
    "envelope.", "duty.life", "duty.reliability", "duty.static_safety", "steel.allowed", "lubrication.cleanliness",
)  # fmt: skip
#: Says whether some steps taken together, or fewer of them, may let in enough.
Hopeful = Callable[[tuple["Step", ...]], bool]
Couple = tuple["Move", "Move"]


def hopeful_couples(moves: Sequence[Move], hopeful: Hopeful) -> list[Couple]:
    """Return the couples of moves of two answers of which some steps may let in enough, in asking order."""
    grouped, alone = _apart(moves)
    found = list(_within(grouped, hopeful))
    for move in alone:
        for step in move.farthest:
            partners = [other for other in grouped if other.path != move.path]
            found += [(move, other) for other in _singles(partners, (step,), hopeful)]
    # nothing short of trying them tells of two that go by themselves; who asks for the nearest need not try them all
    found += [(one, other) for one, other in combinations(alone, 2) if one.path != other.path]
    order = {id(move): at for at, move in enumerate(moves)}
    places = {tuple(sorted((order[id(one)], order[id(other)]))) for one, other in found}
    return [(moves[a], moves[b]) for a, b in sorted(places)]


def _apart(moves: Sequence[Move]) -> tuple[list[Move], list[Move]]:
    """Return the moves that can be changed together, one for each answer, and those that go by themselves."""
    grouped: dict[str, Move] = {}
    alone = []
    for move in moves:
        if move.one_way and move.path.startswith(LIMITS) and move.path not in grouped:
            grouped[move.path] = move
        else:
            alone.append(move)
    return list(grouped.values()), alone


def _far(moves: Sequence[Move]) -> tuple[Step, ...]:
    return tuple(move.farthest[0] for move in moves)


def _within(group: Sequence[Move], hopeful: Hopeful) -> Iterator[Couple]:
    """Walk the couples of a group."""
    if len(group) < 2 or not hopeful(_far(group)):
        return
    left, right = group[: len(group) // 2], group[len(group) // 2 :]
    yield from _within(left, hopeful)
    yield from _within(right, hopeful)
    yield from _across(left, right, hopeful)


def _across(left: Sequence[Move], right: Sequence[Move], hopeful: Hopeful) -> Iterator[Couple]:
    """Walk the couples of one of each of two groups."""
    if not left or not right or not hopeful((*_far(left), *_far(right))):
        return
    if len(left) == len(right) == 1:
        yield left[0], right[0]
    elif len(left) >= len(right):
        half = len(left) // 2
        yield from _across(left[:half], right, hopeful)
        yield from _across(left[half:], right, hopeful)
    else:
        half = len(right) // 2
        yield from _across(left, right[:half], hopeful)
        yield from _across(left, right[half:], hopeful)


def _singles(group: Sequence[Move], beside: tuple[Step, ...], hopeful: Hopeful) -> Iterator[Move]:
    """Walk the moves of a group that may be enough with the steps beside them."""
    if not group or not hopeful((*beside, *_far(group))):
        return
    if len(group) == 1:
        yield group[0]
        return
    half = len(group) // 2
    yield from _singles(group[:half], beside, hopeful)
    yield from _singles(group[half:], beside, hopeful)
