"""What must give when little or nothing is left: each step of each answer, with the pairs that it lets in, counted.

Nothing is estimated: for every step the answers are changed, resolved and screened like any others, and the pairs
that pass then and did not before are counted. Where no step by itself is enough, two answers are changed together.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.answers.document import Answers, put
from engine.answers.resolved import Resolved, resolve
from engine.checks import part
from engine.operating import Conditions
from engine.selection.loosening import Step, moves
from engine.selection.screen import Screening, screen
from engine.selection.stages.blocks import Cancelled, Progress, never, untold
from engine.selection.stages.couples import Couple, hopeful_couples

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: Answers about the room, and the column of the catalogue that has to fit into it.
_ROOM = {f"envelope.{name}_{side}": column for name, column in
         {"bore": "d", "outside": "D", "width": "T"}.items() for side in "ab"}  # fmt: skip
#: Two changes together are tried for answers of load cases only where there are no more cases than this.
MOST_CASES = 3


@dataclass(frozen=True)
class Given:
    """Answers given way in one or two steps: newcomers, pairs lost by it, and pairs that pass then.

    Where more pairs are left than can be looked through, `too_many` is set and `newcomers` is only the most there are.
    """

    steps: tuple[Step, ...]
    newcomers: int
    lost: int
    count: int
    too_many: bool = False
    contradicts: bool = False  # answers changed like this contradict each other, so that nothing passes

    @property
    def level(self) -> int:
        """How far the answers give: the sum over their steps."""
        return sum(step.level for step in self.steps)


@dataclass(frozen=True)
class WhatGives:
    """How many pairs pass as answered, every single step in asking order, and the smallest pairs of steps.

    `pairs` holds, where no single step was enough, the pairs of steps of the least sum of levels that are, those that
    let in most first.
    """

    count: int
    singles: tuple[Given, ...]
    pairs: tuple[Given, ...]


Report = Callable[[Given], None]


def what_gives(
    catalogue: Catalogue,
    answers: Answers,
    enough: int = 1,
    cancelled: Cancelled = never,
    progress: Progress = untold,
    report: Report = lambda _: None,
    trial: Trial | None = None,
) -> WhatGives:
    """Return what each step of each answer lets in, and two answers together where none lets in `enough`.

    `report` is called with each single step as it is counted. Raises SearchCancelled. A `trial` of the same catalogue
    and answers keeps what it has counted, so that what was cancelled is gone on with.
    """
    trial = trial or Trial(catalogue, answers, cancelled)
    trial.cancelled = cancelled
    singles = []
    for at, move in enumerate(trial.moves):
        progress(move.steps[0].label, at / max(len(trial.moves), 1))
        for step in move.steps:
            singles.append(trial.given(step))
            report(singles[-1])
    pairs: tuple[Given, ...] = ()
    if not any(one.newcomers >= enough for one in singles):
        pairs = smallest_pairs(trial, enough, progress)
    progress("", 1.0)
    return WhatGives(trial.before.count, tuple(singles), pairs)


class Trial:
    """A catalogue screened for answers as they are and as they would be."""

    def __init__(self, catalogue: Catalogue, answers: Answers, cancelled: Cancelled = never) -> None:
        self.catalogue, self.answers, self.cancelled = catalogue, answers, cancelled
        resolved = resolve(answers)
        self.missing = resolved.missing
        self.before = screen(catalogue, Conditions.of(resolved), cancelled)
        self.moves = moves(answers, resolved, _sizes(catalogue, resolved))
        self._known: dict[tuple[tuple[str, str], ...], Given] = {}

    def given(self, *steps: Step) -> Given:
        """Return what some steps, taken together, let in."""
        key = tuple((step.path, step.after) for step in steps)
        if key not in self._known:
            answers = self.answers
            for step in steps:
                answers = put(answers, step.path, step.value)
            resolved = resolve(answers)
            if set(resolved.missing) - set(self.missing):  # answers that contradict each other let nothing in
                self._known[key] = Given(steps, 0, self.before.count, 0, contradicts=True)
            else:
                after = screen(self.catalogue, Conditions.of(resolved), self.cancelled)
                self._known[key] = _given(steps, self.before, after)
        return self._known[key]


def smallest_pairs(trial: Trial, enough: int = 1, progress: Progress = untold) -> tuple[Given, ...]:
    """Return the pairs of steps of two answers that let in enough with the least sum of levels, the best first.

    Of most couples it is known without trying them that no step of theirs lets in enough (see `couples`).
    """
    movable = [move for move in trial.moves if len(trial.answers.duty.cases) <= MOST_CASES or "[" not in move.path]
    tried = 0

    def may(steps: tuple[Step, ...]) -> bool:
        nonlocal tried
        tried += 1
        progress("two answers together", tried / (tried + len(movable)))  # how many there will be is not known
        given = trial.given(*steps)
        # answers that contradict each other only when changed together say nothing of fewer of them
        return given.newcomers >= enough or (given.contradicts and len(steps) > 2)

    hopeful = hopeful_couples(movable, may)
    levels = sorted({a.level + b.level for a, b in _steps_of(hopeful)})
    for level in levels:
        found = [trial.given(a, b) for a, b in _steps_of(hopeful) if a.level + b.level == level]
        found = [one for one in found if one.newcomers >= enough]
        if found:
            return tuple(sorted(found, key=lambda one: -one.newcomers))  # stable: equal ones in asking order
    return ()


def _steps_of(pairs: list[Couple]) -> Iterator[tuple[Step, Step]]:
    for one, other in pairs:
        yield from ((a, b) for a in one.steps for b in other.steps)


def newcomers(before: Screening, after: Screening) -> tuple[int, int]:
    """Return how many pairs of catalogue rows pass after and not before, and before and not after."""
    _, at_A, then_A = np.intersect1d(before.rows_A, after.rows_A, assume_unique=True, return_indices=True)
    _, at_B, then_B = np.intersect1d(before.rows_B, after.rows_B, assume_unique=True, return_indices=True)
    both = before.passes[np.ix_(at_A, at_B)] & after.passes[np.ix_(then_A, then_B)]
    stay = int(np.count_nonzero(both))
    return after.count - stay, before.count - stay


def _given(steps: tuple[Step, ...], before: Screening, after: Screening) -> Given:
    if before.too_many or after.too_many:
        return Given(steps, max(after.count - before.count, 0), 0, after.count, too_many=True)
    came, lost = newcomers(before, after)
    return Given(steps, came, lost, after.count)


def _sizes(catalogue: Catalogue, resolved: Resolved) -> dict[str, list[float]]:
    """Return the dimensions that wanted parts have: it is to them that room is made."""
    wanted = part.eligible(catalogue, resolved)
    return {path: np.unique(getattr(catalogue, column)[wanted]).tolist() for path, column in _ROOM.items()}
