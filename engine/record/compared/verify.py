"""A record computed again and held against what it holds: what moved, by how much, and why."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from engine import __version__
from engine.answers.document import CHAPTERS
from engine.errors import plain
from engine.record.compared.digest import SEAL, of_answers, seal
from engine.record.compared.stored import Value, has_keys, values
from engine.record.document import to_tables

if TYPE_CHECKING:
    from engine.record.computed import Computed
    from engine.record.document import Record

#: A relative change up to this is rounding: another processor or library may end a power in another digit.
ROUNDING = 1e-9


@dataclass(frozen=True)
class Moved:
    """A value that is no longer what the record says; `change` is relative to the stored one, NaN where it has none."""

    key: str
    label: str
    before: Any
    after: Any
    unit: str
    change: float


@dataclass(frozen=True)
class Reason:
    """Why values may have moved: engine, catalogue, answers, result, version or unexplained; and that in words."""

    kind: str
    words: str


@dataclass(frozen=True)
class Verification:
    """What came out: how many values were compared, how many are the same to the last bit, and all that differs."""

    compared: int
    equal: int
    rounded: int
    moved: tuple[Moved, ...]
    gone: tuple[Value, ...]
    new: tuple[Value, ...]
    reasons: tuple[Reason, ...]

    @property
    def holds(self) -> bool:
        """Whether the record says what is computed now, and was not changed by hand since it was written."""
        changed = any(reason.kind in {"answers", "result"} for reason in self.reasons)
        return self.compared > 0 and not (self.moved or self.gone or self.new or changed)


def verify(computed: Computed) -> Verification:
    """Compare every value that a record holds with the one computed now."""
    found = computed.record.found
    named = has_keys(found)
    before = values(found, named)
    after = values(to_tables(computed.now, computed.result)["result"], named)
    moved, equal, rounded = [], 0, 0
    for key in before.keys() & after.keys():
        was, now = before[key].value, after[key].value
        if same(was, now):
            equal += 1
        elif abs(relative_change(was, now)) <= ROUNDING:
            rounded += 1
        else:
            moved.append(Moved(key, after[key].label, was, now, after[key].unit, relative_change(was, now)))
    order = {key: at for at, key in enumerate(after)}
    moved.sort(key=lambda one: order[one.key])
    gone = tuple(value for key, value in before.items() if key not in after)
    new = tuple(value for key, value in after.items() if key not in before) if before else ()
    reasons = _reasons(computed, bool(moved or gone or new))
    return Verification(len(before.keys() & after.keys()), equal, rounded, tuple(moved), gone, new, reasons)


def same(was: Any, now: Any) -> bool:
    """Return whether two values are the same to the last bit; what is unknown on both sides is the same."""
    if isinstance(was, float) and isinstance(now, float) and math.isnan(was) and math.isnan(now):
        return True
    return type(was) is type(now) and bool(was == now)


def relative_change(was: Any, now: Any) -> float:
    """Return how far a number moved, relative to what it was; NaN where that says nothing."""
    numbers = all(isinstance(one, int | float) and not isinstance(one, bool) for one in (was, now))
    if not numbers or not (math.isfinite(was) and math.isfinite(now)):
        return math.nan
    if was == 0:
        return math.nan if now else 0.0
    return float((now - was) / abs(was))


def _reasons(computed: Computed, differs: bool) -> tuple[Reason, ...]:
    record = computed.record
    found: list[Reason] = []
    if record.engine != __version__ and record.found:
        words = f"The result was computed by version {plain(record.engine, 40)}; this is {__version__}."
        found.append(Reason("engine", words))
    if record.catalogue_hash and record.catalogue_hash != computed.source.content:
        words = (
            f"The catalogue has another content: {plain(record.catalogue, 80)} {record.catalogue_hash[:12]} then, "
            f"{plain(computed.source.name, 80)} {computed.source.content[:12]} now."
        )
        found.append(Reason("catalogue", words))
    found += [*_edited(record), *_tampered(record)]
    if differs and not found:
        words = (
            "Version, catalogue and answers are the same and the result is as it was written: another processor or "
            "numeric library rounds otherwise, or the program was changed without a new version."
        )
        found.append(Reason("unexplained", words))
    return tuple(found)


def _edited(record: Record) -> list[Reason]:
    """Return which chapters of the answers are no longer those that the result was computed from."""
    stored = record.found.get("answers_sha256")
    if not isinstance(stored, Mapping):
        return []
    now = of_answers(record.answers)
    titles = {chapter.field: chapter.title for chapter in CHAPTERS}
    # a chapter that did not exist then has no hash, and matters only where it has answers now
    empty = of_answers(type(record.answers)())
    edited = [titles[name] for name, digest in now.items() if stored.get(name, empty[name]) != digest]
    if not edited:
        return []
    return [Reason("answers", f"Answers were changed after the result was computed: {', '.join(edited)}.")]


def _tampered(record: Record) -> list[Reason]:
    if not record.found:
        return []
    if SEAL not in record.found:
        words = "The record is older than the seal of a result (1.1): a change by hand shows only in its figures."
        return [Reason("version", words)]
    if record.found[SEAL] == seal(record.found_made_with, record.found):
        return []
    words = "The result was changed by hand after it was written: its seal does not fit what stands there."
    return [Reason("result", words)]
