"""Why a pair is not among those that pass, and the smallest change of each answer that would admit it.

The change is found on the pair itself: the answer is put into the document, the document is resolved, the pair is
computed, as for any pair. Along each ray (see `loosening`) answers ever farther away are tried until one admits;
between it and the last that does not, halving finds where it turns. What is suggested is that value as an engineer
would type it, rounded so that it is known, by computing it, to admit.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.answers.document import Answers, put
from engine.answers.question import Value
from engine.answers.resolved import resolve
from engine.checks.every import evaluate, governing
from engine.operating import Conditions
from engine.selection.loosening import DIGITS, Place, Ray, Step, options, places, rays, step
from engine.selection.screen import narrow
from engine.selection.stages.blocks import Cancelled, Progress, SearchCancelled, blocks, never, untold
from engine.selection.verdict import Finding, Verdict, ruling, verdict

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: The first answer tried along a ray lies this far away, each next one twice as far.
FIRST = 0.01
#: Where an answer turns is found to this much.
CLOSE = 1e-6
#: An answer that must go to nothing is never close to it relatively.
MOST_HALVINGS = 40
MOST_DIGITS = 9
#: So many changes are put together at most.
MOST_TOGETHER = 4
#: Another option counts like a quantity changed by this share.
AWAY_OF_CHOICE = 0.2


@dataclass(frozen=True)
class Change:
    """A change of one answer that mends what fails; `turns` is where exactly, in engine units, None for a choice.

    `away` is the share of itself by which the answer changes, and `AWAY_OF_CHOICE` for a choice.
    `mends` are the checks (key and side) that pass with it, of those that failed; `admits` says that no other is left.
    """

    step: Step
    turns: float | None
    away: float
    mends: tuple[tuple[str, str], ...]
    admits: bool


@dataclass(frozen=True)
class WhyNot:
    """The verdict on a pair, each single change that would admit it, and, where none does, a set that does.

    `changes` stand in asking order. Where `together` is empty although the pair fails, no set was found.
    """

    row_A: int
    row_B: int
    verdict: Verdict
    changes: tuple[Change, ...]
    together: tuple[Change, ...]

    @property
    def failing(self) -> tuple[Finding, ...]:
        """The checks it fails."""
        return self.verdict.failing


Report = Callable[[Change], None]


def why_not(
    catalogue: Catalogue,
    row_A: int,
    row_B: int,
    answers: Answers,
    cancelled: Cancelled = never,
    progress: Progress = untold,
    report: Report = lambda _: None,
) -> WhyNot:
    """Return why a pair of catalogue rows does not pass, and what would admit it.

    `report` is called with each single change that admits it as it is found. Raises SearchCancelled.
    """
    pair = catalogue.take([row_A]), catalogue.take([row_B])
    stands = verdict(*pair, answers)
    if stands.passes:
        return WhyNot(row_A, row_B, stands, (), ())
    trial = _Trial(pair, answers, cancelled, progress)
    changes = []
    for change in trial.changes(lambda left: not left):
        changes.append(change)
        report(change)
    together = () if changes else _together(trial, stands)
    return WhyNot(row_A, row_B, stands, tuple(changes), together)


def why_not_part(
    catalogue: Catalogue,
    row: int,
    side: str,
    answers: Answers,
    cancelled: Cancelled = never,
    progress: Progress = untold,
) -> WhyNot:
    """Return why a part is in no passing pair on a side: by the partner with which it comes nearest to passing."""
    partner = nearest_partner(catalogue, row, side, answers, cancelled)
    pair = (row, partner) if side == "A" else (partner, row)
    return why_not(catalogue, *pair, answers, cancelled, progress)


def nearest_partner(catalogue: Catalogue, row: int, side: str, answers: Answers, cancelled: Cancelled = never) -> int:
    """Return the row with which a part fails the fewest checks, then uses least of its capacity, then is lightest."""
    conditions = Conditions.of(resolve(answers))
    field = narrow(catalogue, conditions, cancelled)
    partners = field.B.rows if side == "A" else field.A.rows
    if conditions.resolved.same_on_both_sides:
        return row
    if not len(partners):  # nothing stands on the other side whatever it is paired with
        partners = np.arange(len(catalogue))
    failing, used = np.zeros(len(partners)), np.zeros(len(partners))
    for some in blocks(len(partners), len(conditions.cases), cancelled):
        others = catalogue.take(partners[some])
        own = catalogue.take(np.full(len(others), row))
        found = evaluate(*((own, others) if side == "A" else (others, own)), conditions).outcomes
        for outcome in found:
            failing[some] += 0 if outcome.check.advisory else ~outcome.passes
        used[some] = governing(found, len(others))
    order = np.lexsort((partners, np.nan_to_num(catalogue.mass[partners], nan=np.inf), used, failing))
    return int(partners[order[0]])


Keys = frozenset[tuple[str, str]]
#: Whether the checks that are left failing are few enough; where some are too many, so are these and others.
Wanted = Callable[[Keys], bool]


@dataclass
class _Left:
    """The checks that fail under some answers, looked for only as far as somebody wants to know."""

    keys: Keys
    rest: Iterator[Keys]

    def does(self, wanted: Wanted) -> bool:
        """Return whether what is left failing is as wanted."""
        while wanted(self.keys):
            more = next(self.rest, None)
            if more is None:
                return True
            self.keys |= more
        return False


class _Trial:
    """One pair under changing answers."""

    def __init__(self, pair: tuple[Catalogue, Catalogue], answers: Answers, cancelled: Cancelled, tell: Progress):
        self.pair, self.cancelled, self.tell = pair, cancelled, tell
        self.take(answers)

    def take(self, answers: Answers) -> None:
        """Go on from these answers."""
        self.answers = answers
        self._known: dict[tuple[str, Value], _Left] = {}
        self.missing = set(resolve(answers).missing)
        self.failing = frozenset[tuple[str, str]]().union(*self._failing(answers))

    def _failing(self, answers: Answers) -> Iterator[Keys]:
        resolved = resolve(answers)
        if set(resolved.missing) - self.missing:  # answers that contradict each other admit nothing
            yield frozenset({("missing", "pair")})
        for found in ruling(*self.pair, Conditions.of(resolved)):
            yield frozenset((one.check.key, one.side) for one in found if not np.all(one.passes))

    def with_answer(self, path: str, value: Value) -> _Left:
        """Return the checks that fail when one answer is another."""
        if self.cancelled():
            raise SearchCancelled
        if (path, value) not in self._known:
            self._known[path, value] = _Left(frozenset(), self._failing(put(self.answers, path, value)))
        return self._known[path, value]

    def changes(self, wanted: Wanted) -> Iterator[Change]:
        """Walk the smallest change of each answer, on each of its rays, that does what is wanted, in asking order."""
        given = places(self.answers, resolve(self.answers))
        for at, place in enumerate(given):
            self.tell(place.label, at / len(given))
            yield from self._of_place(place, wanted)
        self.tell("", 1.0)

    def _of_place(self, place: Place, wanted: Wanted) -> Iterator[Change]:
        for ray in rays(place):
            found = self._along(ray, wanted)
            if found is not None:
                yield found
        for steps in options(place):
            for one in steps:  # nearer options come first
                if self.with_answer(place.path, one.value).does(wanted):
                    yield self._change(one, None, AWAY_OF_CHOICE)
                    break

    def _change(self, one: Step, turns: float | None, away: float) -> Change:
        left = self.with_answer(one.path, one.value).keys  # all of them, since it does what is wanted
        return Change(one, turns, away, tuple(sorted(self.failing - left)), not left)

    def _along(self, ray: Ray, wanted: Wanted) -> Change | None:
        path, between = ray.place.path, self._bracket(ray, wanted)
        if between is None:
            return None
        low, high = between
        for _ in range(MOST_HALVINGS):
            if abs(high - low) <= CLOSE * max(abs(low), abs(high)):
                break
            middle = (low + high) / 2
            if self.with_answer(path, ray.exactly(middle)).does(wanted):
                high = middle
            else:
                low = middle
        answer = self._typed(ray, high, wanted) or ray.exactly(high)
        away = abs(high - ray.start) / (abs(ray.start) or 1.0)
        return self._change(step(ray.place, answer), high, away)

    def _typed(self, ray: Ray, turns: float, wanted: Wanted) -> Value | None:
        """Return the answer with the fewest digits, near where it turns, that does what is wanted."""
        for digits in range(DIGITS, MOST_DIGITS + 1):
            for outward in (False, True):
                typed = ray.typed(turns, digits, outward)
                # half as much again for the sake of a round number, and no more
                if typed is None or (abs(typed[1] - turns) > abs(turns - ray.start) / 2 and digits < MOST_DIGITS):
                    continue
                if self.with_answer(ray.place.path, typed[0]).does(wanted):
                    return typed[0]
        return None

    def _bracket(self, ray: Ray, wanted: Wanted) -> tuple[float, float] | None:
        """Return the last value that does not do and the first that does, of those tried ever farther along a ray.

        Where an answer gives one way only, less of it is asked the farther it gives: when the farthest does not do,
        none does.
        """

        def does(value: float) -> bool:
            return self.with_answer(ray.place.path, ray.exactly(value)).does(wanted)

        if ray.place.way != "both" and not does(ray.end):
            return None
        low, away = ray.start, FIRST * (abs(ray.start) or 1e-4 * abs(ray.end))
        while True:
            high = ray.start + ray.sign * away
            last = (high - ray.end) * ray.sign >= 0
            high = ray.end if last else high
            if does(high):
                return low, high
            if last:
                return None
            low, away = high, 2 * away


def _together(trial: _Trial, stands: Verdict) -> tuple[Change, ...]:
    """Return changes that admit the pair together, each the smallest that mends the worst check left; else none.

    They are found one after the other, so that there may be a smaller set.
    """
    found: dict[str, Change] = {}
    for _ in range(MOST_TOGETHER):
        best = None
        for worst in sorted(stands.failing, key=lambda one: -np.nan_to_num(one.utilisation, nan=np.inf)):
            failing, key = trial.failing, worst.key
            mending = trial.changes(lambda left, failing=failing, key=key: key not in left and left <= failing)  # type: ignore[misc]
            best = min(mending, key=lambda change: (-len(change.mends), change.away), default=None)
            if best is not None:
                break
        if best is None:
            return ()
        found[best.step.path] = best
        trial.take(put(trial.answers, best.step.path, best.step.value))
        stands = verdict(*trial.pair, trial.answers)
        if stands.passes:
            return tuple(found.values())
    return ()
