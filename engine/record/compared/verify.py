"""A record computed again and held against what it holds: what moved, by how much, and why."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from engine.record.compared.reasons import Reason, reasons, worded
from engine.record.compared.stored import NUMBERS, Value, at_odds, has_keys, said, values
from engine.record.document import to_tables

if TYPE_CHECKING:
    from engine.record.computed import Computed

#: A relative change up to this is rounding: another processor or library may end a power in another digit.
ROUNDING = 1e-9


#: A value as stored and as computed now.
Pair = tuple[Value, Value]


@dataclass(frozen=True)
class Moved:
    """A value that is no longer what the record says; `change` is relative to the stored one, NaN where it has none.

    `why` is the kind of the reason where one can be told for this value, `at_odds` whether it is that the check it
    stands in contradicts itself.
    """

    key: str
    label: str
    before: Any
    after: Any
    unit: str
    change: float
    why: str = ""
    at_odds: bool = False

    @classmethod
    def between(cls, was: Value, now: Value) -> Moved:
        """Return what moved from one value to another of the same key, by the words of the latter."""
        return cls(now.key, now.label, was.value, now.value, now.unit, relative_change(was.value, now.value))


@dataclass(frozen=True)
class Verification:
    """What came out: how many values were compared, how many are the same to the last bit, and all that differs.

    A value is a number or a word: the unit, the name and the source of a figure say what its number means.
    """

    compared: int
    equal: int
    rounded: int
    moved: tuple[Moved, ...]
    gone: tuple[Value, ...]
    new: tuple[Value, ...]
    reasons: tuple[Reason, ...]

    @property
    def differ(self) -> int:
        """How many values are not what the record says, those gone and new among them."""
        return len(self.moved) + len(self.gone) + len(self.new)

    @property
    def holds(self) -> bool:
        """Whether the record says what is computed now, and was not changed by hand since it was written."""
        changed = any(reason.kind in {"answers", "result"} for reason in self.reasons)
        return self.compared > 0 and not (self.differ or changed)


def verify(computed: Computed) -> Verification:
    """Compare every value that a record holds with the one computed now."""
    found = computed.record.found
    named = has_keys(found)
    result = to_tables(computed.now, computed.result)["result"]
    before, after = values(found, named), values(result, named)
    pairs = [(before[key], after[key]) for key in after if key in before]
    if before and worded(computed.record):
        pairs += _words(said(found, named), said(result, named))
    moved, equal, rounded = [], 0, 0
    for was, now in pairs:
        if same(was.value, now.value):
            equal += 1
        elif rounding(was.value, now.value):
            rounded += 1
        else:
            moved.append(Moved.between(was, now))
    gone = tuple(value for key, value in before.items() if key not in after)
    new = tuple(value for key, value in after.items() if key not in before) if before else ()
    numbers = [one.before for one in moved if isinstance(one.before, float)]
    why = reasons(computed, bool(moved or gone or new), numbers)
    told = tuple(_told(moved, why, at_odds(found, result)))
    return Verification(len(pairs), equal, rounded, told, gone, new, why)


def _told(moved: list[Moved], why: tuple[Reason, ...], forged: set[str]) -> Iterator[Moved]:
    """Yield what moved, each with its reason: the only one there is, or that its own check contradicts it."""
    kinds = {reason.kind for reason in why} - {"version"}
    if "engine" in kinds and "result" not in kinds:
        forged = set()  # another version may have had another idea of a use
    only = kinds.pop() if len(kinds) == 1 else ""
    for one in moved:
        odd = one.key.rpartition(" ")[0] in forged and one.key.rpartition(" ")[2] in NUMBERS
        yield replace(one, why="result" if odd else only, at_odds=odd)


def _words(before: Mapping[str, Mapping[str, Value]], after: Mapping[str, Mapping[str, Value]]) -> Iterator[Pair]:
    """Yield the words of each row that stands on both sides; one that is stated on one side only is empty there."""
    for row in (row for row in after if row in before):
        for name in dict.fromkeys((*after[row], *before[row])):
            was, now = before[row].get(name), after[row].get(name)
            there = now or was
            if there is not None:
                empty = Value(there.key, there.label, "")
                yield was or empty, now or empty


def same(was: Any, now: Any) -> bool:
    """Return whether two values are the same to the last bit; what is unknown on both sides is the same."""
    if isinstance(was, float) and isinstance(now, float) and math.isnan(was) and math.isnan(now):
        return True
    return type(was) is type(now) and bool(was == now)


def rounding(was: Any, now: Any) -> bool:
    """Return whether two values are the same, but for what another processor or library may round otherwise."""
    return same(was, now) or abs(relative_change(was, now)) <= ROUNDING


def relative_change(was: Any, now: Any) -> float:
    """Return how far a number moved, relative to what it was; NaN where that says nothing."""
    numbers = all(isinstance(one, int | float) and not isinstance(one, bool) for one in (was, now))
    if not numbers or not (math.isfinite(was) and math.isfinite(now)):
        return math.nan
    if was == 0:
        return math.nan if now else 0.0
    return float((now - was) / abs(was))
