"""Every check of given pairs, in the order of the report, and what screening may do with each.

A check is added to one of five lists by what it depends on. `OF_PART` and `OF_FILM` look at one bearing by itself and
are decided once for each row of the catalogue. `UNDER_LOAD` looks at one bearing under its loads and never passes
under more load where it fails under less, so that bounds of the loads decide many pairs at once. `EXACT_ONLY` promises
nothing and is computed for each pair that is left. `FOR_LEADERS` costs so much that only the pairs of the shortlist
are put to it. Life, spread, mass and cost join both bearings and stand by themselves.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from engine import fitting
from engine.answers.resolved import Resolved
from engine.checks import bending, fits, heat, holding, loads, lubrication, pair, part
from engine.checks.check import Outcome
from engine.numerics import Bools, Floats
from engine.operating import Bearings, Conditions, Loads, State
from engine.warmth.contact import Contact, contact_of
from engine.warmth.settling import Warmth, loaded

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

PartChecks = Callable[["Catalogue", str, Resolved], Sequence[Outcome]]
FilmChecks = Callable[[str, Bearings, Conditions], Sequence[Outcome]]
LoadChecks = Callable[[str, Bearings, State, Conditions], Sequence[Outcome]]
PairChecks = Callable[["Evaluated", Conditions], Sequence[Outcome]]

#: Checks of one bearing that need neither loads nor film.
OF_PART: tuple[PartChecks, ...] = (part.outcomes, fits.binding)
#: Checks of one bearing that need its film and speeds, and no load.
OF_FILM: tuple[FilmChecks, ...] = (loads.stated_film,)
#: Checks of one bearing whose utilisation never falls when Fr or Fa grows; what fits leave is bounded beside them.
UNDER_LOAD: tuple[LoadChecks, ...] = (loads.binding, heat.binding, fits.under_load, holding.under_load)
#: Checks of one bearing that caution only.
ADVISORY: tuple[LoadChecks, ...] = (loads.advisory, heat.stated)
#: Checks of two bearings or of one, monotone in nothing, cheap enough for every pair that is left.
EXACT_ONLY: tuple[PairChecks, ...] = ()
#: Checks of any kind that only the leading pairs are put to.
FOR_LEADERS: tuple[PairChecks, ...] = (holding.creeping,)


@dataclass(frozen=True)
class Evaluated:
    """Pairs with everything computed about them; row i of every array is pair i."""

    A: Catalogue
    B: Catalogue
    outcomes: tuple[Outcome, ...]
    loads: tuple[Loads, Loads] | None
    states: tuple[State, State] | None
    bearings: tuple[Bearings, Bearings] | None
    warmth: Warmth | None = None
    contacts: tuple[Contact, Contact] | None = None

    @property
    def passes(self) -> Bools:
        """Which pairs pass every check that is not advisory."""
        return passing(self.outcomes, len(self.A))


def passing(outcomes: Sequence[Outcome], shape: int | tuple[int, ...]) -> Bools:
    """Return which candidates pass every outcome that is not advisory."""
    verdict = np.ones(shape, dtype=bool)
    for outcome in outcomes:
        if not outcome.check.advisory:
            verdict &= outcome.passes
    return verdict


def governing(outcomes: Sequence[Outcome], shape: int | tuple[int, ...]) -> Floats:
    """Return the greatest utilisation [-] of candidates over the checks in which room is worth having.

    What is not known counts as unlimited; where there is no such check it is 0.
    """
    greatest = np.zeros(shape)
    for outcome in outcomes:
        if outcome.check.spare and not outcome.check.advisory:
            greatest = np.maximum(greatest, np.nan_to_num(outcome.utilisation, nan=np.inf, posinf=np.inf))
    return greatest


def evaluate(A: Catalogue, B: Catalogue, conditions: Conditions) -> Evaluated:
    """Carry out every check on pairs given as rows: row i of A with row i of B.

    Without known loads only the checks that need none are carried out.
    """
    resolved = conditions.resolved
    outcomes = [outcome for side, rows in (("A", A), ("B", B)) for outcome in part_outcomes(rows, side, resolved)]
    outcomes += pair.sums(A, B, resolved)
    if not resolved.loads_known:
        outcomes += [*fits.advisory(A, "A", resolved), *fits.advisory(B, "B", resolved)]
        return Evaluated(A, B, tuple(outcomes), None, None, None)
    found = with_contacts(under_loads(A, B, conditions), conditions)
    assert found.bearings is not None and found.states is not None and found.contacts is not None
    assert found.loads is not None
    for side, rows, borne in zip("AB", (A, B), found.loads, strict=True):
        if fitting.by_loads(side, resolved):
            outcomes += fits.strained(rows, side, resolved, borne.level)
        outcomes += fits.advisory(rows, side, resolved, borne.level)
    one, other = (replace(rows, strain=None) for rows in found.bearings)  # told for all of them above
    outcomes = [*load_outcomes((one, other), found.states, conditions), *outcomes]
    for checks in (*EXACT_ONLY, *FOR_LEADERS):
        outcomes += checks(found, conditions)
    for side, bearings, contact in zip("AB", found.bearings, found.contacts, strict=True):
        outcomes += lubrication.advisory(side, bearings, contact, conditions)
    outcomes += lubrication.oil_flow(found.contacts, conditions)
    outcomes.sort(key=lambda outcome: outcome.check.advisory)  # stable: cautions go last, the rest stays in order
    return replace(found, outcomes=tuple(outcomes))


def ruling(A: Catalogue, B: Catalogue, conditions: Conditions) -> Iterator[list[Outcome]]:
    """Walk the outcomes of `evaluate` that are not advisory, in groups: those that cost next to nothing come first."""
    resolved = conditions.resolved
    yield [*part_outcomes(A, "A", resolved), *part_outcomes(B, "B", resolved), *pair.sums(A, B, resolved)]
    if not resolved.loads_known:
        return
    found = under_loads(A, B, conditions)
    assert found.bearings is not None and found.states is not None
    outcomes = joint_outcomes(found.bearings, found.states, conditions)
    for side, rows, stated in zip("AB", found.bearings, found.states, strict=True):
        outcomes += [*own_outcomes(side, rows, stated, conditions), *film_outcomes(side, rows, conditions)]
    yield [*outcomes, *(outcome for checks in EXACT_ONLY for outcome in checks(found, conditions))]


def under_loads(A: Catalogue, B: Catalogue, conditions: Conditions) -> Evaluated:
    """Return pairs with their loads and states, and no check carried out."""
    found = loaded(Bearings.of(A, "A", conditions), Bearings.of(B, "B", conditions), conditions)
    one, other = (replace(borne, level=of.level) for borne, of in zip(found.loads, found.states, strict=True))
    return Evaluated(A, B, (), (one, other), found.states, found.bearings, found.warmth)


def with_contacts(found: Evaluated, conditions: Conditions) -> Evaluated:
    """Return pairs with film, rib, friction and grease of both sides, which only cautions and the record look at."""
    assert found.bearings is not None and found.loads is not None and found.warmth is not None
    sides = zip((found.A, found.B), found.bearings, found.loads, found.warmth.T, found.warmth.nu, strict=True)
    one, other = (contact_of(rows, own, loads, (T, nu), conditions) for rows, own, loads, T, nu in sides)
    return replace(found, contacts=(one, other))


def part_outcomes(rows: Catalogue, side: str, resolved: Resolved) -> list[Outcome]:
    """Return every check of bearings by themselves that needs neither loads nor film."""
    return [outcome for checks in OF_PART for outcome in checks(rows, side, resolved)]


def film_outcomes(side: str, bearings: Bearings, conditions: Conditions) -> list[Outcome]:
    """Return every check of bearings by themselves that needs their film."""
    return [outcome for checks in OF_FILM for outcome in checks(side, bearings, conditions)]


def own_outcomes(side: str, bearings: Bearings, state: State, conditions: Conditions) -> list[Outcome]:
    """Return every check of bearings under their loads whose utilisation never falls when a load grows; no life."""
    return [outcome for checks in UNDER_LOAD for outcome in checks(side, bearings, state, conditions)]


def joint_outcomes(
    bearings: tuple[Bearings, Bearings], states: tuple[State, State], conditions: Conditions
) -> list[Outcome]:
    """Return the lives and the spread."""
    found = [loads.life_outcome(side, stated, conditions) for side, stated in zip("AB", states, strict=True)]
    if conditions.resolved.life_of_pair:
        found.append(pair.system_life(states[0].life, states[1].life, conditions.resolved))
    found.append(pair.spread(bearings[0].z[..., 0], bearings[1].z[..., 0]))
    return found


def load_outcomes(
    bearings: tuple[Bearings, Bearings], states: tuple[State, State], conditions: Conditions
) -> list[Outcome]:
    """Return every check that needs loads or film: life first, cautions last."""
    sides = list(zip("AB", bearings, states, strict=True))
    found = joint_outcomes(bearings, states, conditions)
    for side, rows, stated in sides:
        found += own_outcomes(side, rows, stated, conditions)
        found += film_outcomes(side, rows, conditions)
    found += bending.outcomes(*bearings, conditions)
    for side, rows, stated in sides:
        found += [outcome for checks in ADVISORY for outcome in checks(side, rows, stated, conditions)]
    return found
