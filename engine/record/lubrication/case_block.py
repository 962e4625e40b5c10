"""Film, friction and heat of both bearings in one load case, each figure with its clause."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from engine.figures import Figure, two
from engine.lubrication import friction, heat, oil, thermal_speed
from engine.lubrication.contact import film, rib, rollers, state
from engine.lubrication.grease import interval
from engine.lubrication.lubricant import FLOWING
from engine.numerics import Floats
from engine.sources import citation_of
from engine.warmth.contact import flows_needed

if TYPE_CHECKING:
    from engine.checks.every import Evaluated
    from engine.operating import Conditions

#: What the film says beside kappa, and how a heat balance ended, in words that fit a column.
_SAID = {1.0: "thicker", -1.0: "thinner", 0.0: "agrees"}
_ENDED = ("settled", "too hot", "no cooling", "unknown")
_MICRO = 1e3  # um per mm


def value(values: Floats, at: int) -> float:
    """Return the value of the one pair in a case, whether it is kept for each pair or for all."""
    return float(np.ravel(np.asarray(values)[..., at])[0])


def film_and_heat(evaluated: Evaluated, conditions: Conditions, at: int) -> tuple[Figure, ...]:
    """Return film, rib, friction and heat in a case."""
    assert evaluated.contacts is not None
    contacts = evaluated.contacts

    def both(name: str, factor: float = 1.0) -> tuple[float, float]:
        return two(factor * value(getattr(contact, name), at) for contact in contacts)

    def of_film(name: str, factor: float = 1.0) -> tuple[float, float]:
        return two(factor * value(getattr(contact.film, name), at) for contact in contacts)

    film_of = str(citation_of(state.film_of))
    said = two(_SAID.get(value(contact.film.said, at), "unknown") for contact in contacts)
    return (
        Figure("rho", "rho", "density of the oil", "kg/m3", str(citation_of(oil.density)), *both("rho")),
        Figure("eta", "eta", "dynamic viscosity", "mPa s", str(citation_of(oil.dynamic_viscosity_eta)), *both("eta")),
        Figure("Q", "Q", "load of the most loaded roller", "N", str(citation_of(rollers.roller_load_Q)), *both("Q")),
        Figure("h_cone", "h", "least film at the cone", "um", film_of, *of_film("h_cone", _MICRO), digits=3),
        Figure("h_cup", "h", "least film at the cup", "um", film_of, *of_film("h_cup", _MICRO), digits=3),
        Figure("lambda", "lambda", "film over roughness", "", str(citation_of(film.film_ratio_lambda)),
               *of_film("lam"), digits=3),
        Figure("kappa_of_film", "", "kappa that goes with this lambda", "", str(citation_of(film.kappa_of_lambda)),
               *of_film("kappa_of_film"), digits=3),
        Figure("said", "", "the film, beside kappa", "", str(citation_of(film.disagreement)), *said),
        Figure("v_rib", "v", "mean rib speed", "m/s", str(citation_of(rib.mean_rib_speed)), *both("rib_speed"),
               digits=3),
        Figure("v_slide", "v", "sliding of the roller ends", "m/s", str(citation_of(rib.rib_sliding_speed)),
               *both("rib_sliding", 1e-3), digits=3),
        Figure("P1", "P1", "load that decides friction", "N", str(citation_of(friction.friction_load_P1)), *both("P1")),
        Figure("M0", "M0", "friction torque of the oil", "N mm", str(citation_of(friction.load_independent_M0)),
               *both("M0")),
        Figure("M1", "M1", "friction torque of the load", "N mm", str(citation_of(friction.load_dependent_M1)),
               *both("M1")),
        Figure("rib_share", "", "share of the rib in the friction", "%", str(citation_of(rib.rib_share)),
               *both("rib_share", 100.0), digits=3),
        Figure("W", "W", "heat of friction", "W", str(citation_of(friction.friction_power)), *both("power")),
        Figure("n_safe", "", "thermally safe speed at this temperature", "rpm",
               str(citation_of(thermal_speed.thermally_safe_speed)), *both("safe_speed")),
        *_grease(evaluated, conditions, at),
        *_balance(evaluated, conditions, at),
        *_flow(evaluated, conditions, at),
    )  # fmt: skip


def _grease(evaluated: Evaluated, conditions: Conditions, at: int) -> tuple[Figure, ...]:
    assert evaluated.contacts is not None and evaluated.warmth is not None
    if evaluated.contacts[0].interval is None:
        return ()
    n = conditions.cases.n[at]
    base = two(float(interval.base_interval(n, rows.d[0])) for rows in (evaluated.A, evaluated.B))
    factor = two(float(interval.temperature_factor(value(T, at))) for T in evaluated.warmth.T)
    t = two(value(contact.interval, at) for contact in evaluated.contacts)
    whole = str(citation_of(interval.regreasing_interval))
    return (
        Figure("t_base", "", "regreasing, cool, clean and calm", "h", str(citation_of(interval.base_interval)), *base),
        Figure("f_T", "", "factor of the temperature", "", str(citation_of(interval.temperature_factor)), *factor),
        Figure("t_grease", "t", "regreasing interval in this case", "h", whole, *t),
    )


def _balance(evaluated: Evaluated, conditions: Conditions, at: int) -> tuple[Figure, ...]:
    """Return how the temperature settled: heat, what is left over, steps and status; nothing where it was stated."""
    assert evaluated.warmth is not None
    balance = evaluated.warmth.balance
    if balance is None or not conditions.settling[at]:
        return ()
    source = str(citation_of(heat.settle))

    def both(name: str) -> tuple[float, float]:
        return value(getattr(balance[0], name), at), value(getattr(balance[1], name), at)

    said = two(_ENDED[int(status)] for status in both("status"))
    return (
        Figure("heat", "", "heat of the housing, made and shed", "W", source, *both("heat"), digits=5),
        Figure("residual", "", "heat made less heat shed, left over", "W", source, *both("residual"), digits=2),
        Figure("steps", "", "steps to the temperature", "", source, *both("steps")),
        Figure("status", "", "how it ended", "", source, *said),
    )


def _flow(evaluated: Evaluated, conditions: Conditions, at: int) -> tuple[Figure, ...]:
    assert evaluated.contacts is not None
    if conditions.resolved.supply not in FLOWING:
        return ()
    hold = conditions.resolved.lubricated.surroundings.hold
    flow = two(value(of, at) for of in flows_needed(evaluated.contacts, conditions))
    return (
        Figure("V_needed", "V", f"oil flow that holds {hold:g} degC", "l/min", str(citation_of(heat.oil_flow_needed)),
               *flow, digits=3),
    )  # fmt: skip
