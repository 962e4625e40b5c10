"""Load distributions behind the screens: the chosen pair, pairs that are looked at, the leading ones. Knows no screen.

They take a thousand times as long as the closed formulas, so they come after the shortlist, in the thread of the
search: a newer request ends them at their next step, and the user may halt them. What was computed for a duty is kept
until the duty changes, so that choosing and ranking cost nothing.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from engine.answers.document import Answers

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue
    from engine.operating import Conditions
    from engine.record.result import Result
    from engine.selection.stages.load_distribution import Leading

Pair = tuple[str, str]
#: So many pairs from the top of the shortlist are looked at.
LEADING = 10
#: Progress is told no more often than this [s].
_PAUSE = 0.1


@dataclass(frozen=True)
class Computed:
    """The chosen pair computed for some answers, or why it cannot be; `whole` once its load distribution is in it."""

    answers: Answers
    result: Result | None
    trouble: str
    catalogue: tuple[str, str]
    whole: bool = True


@dataclass(frozen=True)
class Progress:
    """How far the load distribution of a pair is."""

    answers: Answers
    pair: Pair
    share: float


@dataclass(frozen=True)
class Studied:
    """A pair computed with its load distribution."""

    answers: Answers
    pair: Pair
    result: Result


@dataclass(frozen=True)
class Led:
    """What the load distribution says of the leading pairs, as far as they are computed."""

    answers: Answers
    leading: dict[Pair, Leading]


@dataclass(frozen=True)
class Done:
    """Everything has been found for some answers, or `halted` by the user before that."""

    answers: Answers
    halted: bool = False


class Halted(Exception):  # noqa: N818 - not an error
    """The user asked to stop computing load distributions."""


def chosen_pair(answers: Answers) -> Pair | None:
    """Return the pair that the answers choose."""
    choice = answers.choice
    return (choice.bearing_a, choice.bearing_b) if choice.bearing_a and choice.bearing_b else None


@dataclass
class _Kept:
    """What was computed for one duty and catalogue."""

    conditions: Conditions
    catalogue: Catalogue
    name: tuple[str, str]  # of the catalogue, and its content
    results: dict[Pair, Result] = field(default_factory=dict)
    leading: dict[Pair, Leading] = field(default_factory=dict)

    def rows(self, pair: Pair) -> tuple[Catalogue, Catalogue]:
        """Return both bearings as catalogues of one row; raise Problems where one is not there."""
        A, B = (self.catalogue.take([self.catalogue.index_of(one)]) for one in pair)
        return A, B

    def has(self, pair: Pair) -> bool:
        """Whether both bearings are in the catalogue."""
        return all(bool((self.catalogue.designation == one).any()) for one in pair)


class Studies:
    """Computes load distributions for whoever runs it; wishes and a halt may come from another thread."""

    def __init__(
        self, report: Callable[[Computed | Progress | Studied | Led], None], stale: Callable[[], bool]
    ) -> None:
        self._report = report
        self._stale = stale
        self._lock = threading.Lock()
        self._wishes: list[Pair] = []
        self._glances: list[Pair] = []
        self._halt = False
        self._kept: _Kept | None = None
        self._current = False  # whether what is kept belongs to the duty last asked for
        self._told = 0.0

    # asked for by the screens

    @property
    def wishes(self) -> bool:
        """Whether a pair was asked for that is not computed yet."""
        return bool(self._wishes or self._glances)

    def wish(self, pair: Pair) -> None:
        """Ask for a pair; the one asked for last comes first."""
        with self._lock:
            self._halt = False
            self._wishes = [one for one in self._wishes if one != pair] + [pair]

    def glance(self, pairs: Sequence[Pair]) -> None:
        """Ask for what leading pairs are asked for as well, which is quicker: everything but figures and chances."""
        with self._lock:
            self._halt = False
            self._glances += [one for one in pairs if one not in self._glances]

    def forget_wishes(self) -> None:
        """Drop what was asked for: it was asked for another duty. What is kept is shown once that duty is taken."""
        with self._lock:
            self._halt = self._current = False
            self._wishes, self._glances = [], []

    def halt(self) -> None:
        """Stop computing; what is asked for afterwards is computed all the same."""
        with self._lock:
            self._halt = True
            self._wishes, self._glances = [], []

    def known(self, pair: Pair) -> Result | None:
        """Return a pair with its load distribution, where it has been computed."""
        return self._kept.results.get(pair) if self._kept is not None and self._current else None

    # run by the thread of the search

    def begin(self, conditions: Conditions, catalogue: Catalogue, name: tuple[str, str]) -> None:
        """Take a duty; what was kept for another one is dropped."""
        kept = self._kept
        same = kept is not None and kept.catalogue is catalogue and kept.conditions.resolved == conditions.resolved
        if not same:
            self._kept = _Kept(conditions, catalogue, name)
        self._current = True

    def compute_chosen(self, answers: Answers) -> None:
        """Report the chosen pair: whole where that is known or needs no load distribution, else by closed formulas."""
        from engine.errors import Problems
        from engine.record.result import without_setting

        pair, kept = chosen_pair(answers), self._kept
        if pair is None or kept is None:
            return
        if pair in kept.results:
            self._report(Computed(answers, kept.results[pair], "", kept.name))
            return
        try:
            result = without_setting(*kept.rows(pair), kept.conditions)
        except Problems as problems:
            self._report(Computed(answers, None, str(problems), kept.name))
            return
        self._report(Computed(answers, result, "", kept.name, whole=not kept.conditions.resolved.loads_known))

    def run(self, answers: Answers, leading: tuple[Pair, ...]) -> None:
        """Compute what was asked for, then the chosen pair, then the leading ones; raise SearchCancelled or Halted."""
        pair, kept = chosen_pair(answers), self._kept
        if kept is None or not kept.conditions.resolved.loads_known:
            with self._lock:
                self._wishes, self._glances = [], []
            return
        if kept.leading:  # of the same duty, before the choice or the ranking changed
            self._report(Led(answers, dict(kept.leading)))
        self._serve(answers, kept)
        if pair is not None and pair not in kept.results and kept.has(pair):
            self._whole(answers, pair, kept)
        for one in leading:
            self._serve(answers, kept)
            if one not in kept.leading:
                self._lead(answers, one, kept)
        self._serve(answers, kept)

    def _serve(self, answers: Answers, kept: _Kept) -> None:
        """Compute the pairs that were asked for."""
        while True:
            with self._lock:
                whole = bool(self._wishes)
                pair = self._wishes.pop() if whole else self._glances.pop(0) if self._glances else None
            if pair is None:
                return
            if kept.has(pair):
                (self._whole if whole else self._lead)(answers, pair, kept)

    def _lead(self, answers: Answers, pair: Pair, kept: _Kept) -> None:
        """Compute what is asked of leading pairs, and report it with what is known of others."""
        from engine.selection.stages.load_distribution import lead

        if pair not in kept.leading:
            kept.leading[pair] = lead(*kept.rows(pair), kept.conditions, self._ticking(answers, pair))
        self._report(Led(answers, dict(kept.leading)))

    def _whole(self, answers: Answers, pair: Pair, kept: _Kept) -> None:
        """Compute a pair with its load distribution and report it, as the chosen one too where it is that."""
        from engine.record.result import compute
        from engine.selection.stages.load_distribution import Leading

        if pair not in kept.results:
            kept.results[pair] = compute(*kept.rows(pair), kept.conditions, self._ticking(answers, pair))
        result = kept.results[pair]
        # its chance is known by now, which may rule it out
        kept.leading[pair] = Leading.of(result.study) if result.study else Leading(why_not=result.why_no_study)
        if pair == chosen_pair(answers):
            self._report(Computed(answers, result, "", kept.name))
        self._report(Studied(answers, pair, result))
        self._report(Led(answers, dict(kept.leading)))

    def _ticking(self, answers: Answers, pair: Pair) -> Callable[[float], None]:
        """Return what a computation tells its share done: it reports it, and ends the work where it is not wanted."""
        from engine.selection.screen import SearchCancelled

        def tick(share: float) -> None:
            if self._stale():
                raise SearchCancelled
            if self._halt:
                raise Halted
            now = time.monotonic()
            if now - self._told >= _PAUSE:
                self._told = now
                self._report(Progress(answers, pair, share))

        return tick
