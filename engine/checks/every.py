"""Every check of given pairs, in the order of the report."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.checks import bending, heat, loads, lubrication, pair, part
from engine.checks.check import Outcome
from engine.numerics import Bools
from engine.operating import Bearings, Conditions, Loads, State, pair_loads, state
from engine.warmth.contact import Contact, contact_of
from engine.warmth.settling import Warmth, warmed

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


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
        verdict = np.ones(len(self.A), dtype=bool)
        for outcome in self.outcomes:
            if not outcome.check.advisory:
                verdict &= outcome.passes
        return verdict


def evaluate(A: Catalogue, B: Catalogue, conditions: Conditions) -> Evaluated:
    """Carry out every check on pairs given as rows: row i of A with row i of B.

    Without known loads only the checks that need none are carried out.
    """
    resolved = conditions.resolved
    outcomes = [
        *part.outcomes(A, "A", resolved),
        *part.outcomes(B, "B", resolved),
        *pair.mass(A.mass, B.mass, resolved),
    ]
    if not resolved.loads_known:
        return Evaluated(A, B, tuple(outcomes), None, None, None)
    cold = Bearings.of(A, "A", conditions), Bearings.of(B, "B", conditions)
    both = pair_loads(*cold, conditions)
    bearings, warmth = warmed(*cold, both, conditions)
    states = state(bearings[0], both[0], conditions), state(bearings[1], both[1], conditions)
    at = list(zip(warmth.T, warmth.nu, strict=True))
    contacts = (
        contact_of(A, bearings[0], both[0], at[0], conditions),
        contact_of(B, bearings[1], both[1], at[1], conditions),
    )
    outcomes = [
        *load_outcomes(bearings, states, conditions),
        *heat_outcomes(bearings, warmth, contacts, conditions),
        *outcomes,
    ]
    outcomes.sort(key=lambda outcome: outcome.check.advisory)  # stable: cautions go last, the rest stays in order
    return Evaluated(A, B, tuple(outcomes), both, states, bearings, warmth, contacts)


def heat_outcomes(
    bearings: tuple[Bearings, Bearings],
    warmth: Warmth,
    contacts: tuple[Contact, Contact],
    conditions: Conditions,
) -> list[Outcome]:
    """Return what heat, film, rib and grease have to say."""
    sides = list(zip("AB", bearings, warmth.T, contacts, strict=True))
    found = [outcome for side, rows, T, _ in sides for outcome in heat.binding(side, rows, T, conditions)]
    found += [outcome for side, rows, T, _ in sides for outcome in heat.stated(side, rows, T, conditions)]
    for side, rows, _, contact in sides:
        found += lubrication.advisory(side, rows, contact, conditions)
    return found + lubrication.oil_flow(contacts, conditions)


def load_outcomes(
    bearings: tuple[Bearings, Bearings], states: tuple[State, State], conditions: Conditions
) -> list[Outcome]:
    """Return every check that needs loads: life first, cautions last."""
    resolved = conditions.resolved
    sides = list(zip("AB", bearings, states, strict=True))
    found = [loads.life_outcome(side, stated, conditions) for side, _, stated in sides]
    if resolved.life_of_pair:
        found.append(pair.system_life(states[0].life, states[1].life, resolved))
    found.append(pair.spread(bearings[0].z[..., 0], bearings[1].z[..., 0]))
    for side, rows, stated in sides:
        found += loads.binding(side, rows, stated, conditions)
        found.append(loads.film_method(side, rows, conditions))
    found += bending.outcomes(*bearings, conditions)
    for side, rows, stated in sides:
        found += loads.advisory(side, rows, stated, conditions)
    return found
