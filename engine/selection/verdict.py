"""What every check says of one pair for some answers, wishes among them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.answers.document import Answers
from engine.answers.resolved import Resolved, resolve
from engine.checks import every, pair, part
from engine.checks.check import Check, Outcome
from engine.checks.every import evaluate, governing
from engine.operating import Conditions

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


@dataclass(frozen=True)
class Finding:
    """One check of one pair: on which side, demand, capacity, utilisation (NaN: unknown) and whether it passes."""

    check: Check
    side: str
    demand: float
    capacity: float
    utilisation: float
    passes: bool

    @property
    def key(self) -> tuple[str, str]:
        """What tells it from the pair's other checks."""
        return self.check.key, self.side


@dataclass(frozen=True)
class Verdict:
    """Every check of one pair: wishes first, then in the order of the report; `missing` is what loads are lacking."""

    findings: tuple[Finding, ...]
    utilisation: float  # of the governing check, infinite where it is unknown
    missing: tuple[str, ...]

    @property
    def failing(self) -> tuple[Finding, ...]:
        """The checks that rule the pair out."""
        return tuple(one for one in self.findings if not one.passes and not one.check.advisory)

    @property
    def cautions(self) -> tuple[Finding, ...]:
        """The advisory checks that are not met."""
        return tuple(one for one in self.findings if not one.passes and one.check.advisory)

    @property
    def passes(self) -> bool:
        """Whether the pair is among those that a screening lets pass."""
        return not self.failing

    @property
    def margin(self) -> float:
        """The least margin: 1 less the greatest utilisation; minus infinity where that is unknown."""
        return 1.0 - self.utilisation

    @property
    def governing(self) -> Finding | None:
        """The check with the greatest utilisation among those in which room is worth having."""
        counted = [one for one in self.findings if one.check.margin and not one.check.advisory]
        return max(counted, key=lambda one: np.nan_to_num(one.utilisation, nan=np.inf), default=None)


def wishes(A: Catalogue, B: Catalogue, resolved: Resolved) -> list[Outcome]:
    """Return the wishes that keep pairs out of the choice whatever they could carry."""
    of_parts = [one for side, rows in (("A", A), ("B", B)) for one in part.wishes(rows, side, resolved)]
    return [*of_parts, *pair.same(A, B, resolved)]


def outcomes(A: Catalogue, B: Catalogue, conditions: Conditions) -> list[Outcome]:
    """Return every wish and every check of pairs given as rows."""
    return [*wishes(A, B, conditions.resolved), *evaluate(A, B, conditions).outcomes]


def ruling(A: Catalogue, B: Catalogue, conditions: Conditions) -> Iterator[list[Outcome]]:
    """Walk every wish and every check that may rule pairs out, in groups: those that cost next to nothing first."""
    yield wishes(A, B, conditions.resolved)
    yield from every.ruling(A, B, conditions)


def of_conditions(A: Catalogue, B: Catalogue, conditions: Conditions) -> Verdict:
    """Return the verdict on one pair, given as catalogues of one row each."""
    return of_outcomes(outcomes(A, B, conditions), conditions.resolved.missing)


def of_outcomes(found: Sequence[Outcome], missing: tuple[str, ...]) -> Verdict:
    """Return the verdict of checks carried out on one pair; `missing` is what loads are lacking."""
    return Verdict(tuple(map(finding, found)), float(governing(found, 1)[0]), missing)


def verdict(A: Catalogue, B: Catalogue, answers: Answers) -> Verdict:
    """Return the verdict on one pair for some answers."""
    return of_conditions(A, B, Conditions.of(resolve(answers)))


def finding(outcome: Outcome) -> Finding:
    """Return a check carried out on one pair."""

    def one(value: object) -> float:
        return float(np.asarray(value, dtype=np.float64).reshape(-1)[0])

    return Finding(
        outcome.check,
        outcome.side,
        one(outcome.demand),
        one(outcome.capacity),
        one(outcome.utilisation),
        bool(np.asarray(outcome.passes).reshape(-1)[0]),
    )
