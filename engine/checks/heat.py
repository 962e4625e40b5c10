"""Checks of the temperature that settles; they rule pairs out, and grow with the loads of both bearings of a pair."""

import numpy as np

from engine.checks.check import Check, Outcome
from engine.checks.loads import film_method, over_running
from engine.lubrication import heat
from engine.numerics import Array, Floats, greatest
from engine.operating import Bearings, Conditions, State
from engine.sources import COMMON_PRACTICE, Citation, citation_of

STEEL = Check(
    "settled_heat", "Steel stands the settled heat", "degC", citation_of(heat.settle),
    "greatest temperature that settles over the cases", "limit of the steel",
)  # fmt: skip
_LIMIT = Citation(COMMON_PRACTICE, "temperature limit of the lubricant")
LUBRICANT = Check(
    "lubricant_heat", "Lubricant stands the settled heat", "degC", _LIMIT,
    "greatest temperature that settles over the cases", "limit of the lubricant in lasting service",
)  # fmt: skip
LUBRICANT_STATED = Check(
    "lubricant_heat", "Lubricant stands the heat", "degC", _LIMIT,
    "greatest temperature over the cases", "limit of the lubricant in lasting service", advisory=True,
)  # fmt: skip


def binding(side: str, bearings: Bearings, state: State, conditions: Conditions) -> list[Outcome]:  # noqa: ARG001
    """Return whether steel, lubricant and film stand the temperature that settles; nothing where it is stated."""
    if bearings.thermal is None or bearings.thermal.T is None:
        return []
    hottest = _hottest(bearings.thermal.T, conditions)
    found = [film_method(side, bearings, conditions), Outcome(STEEL, side, hottest, bearings.thermal.limit[..., 0])]
    oil = conditions.resolved.lubricated
    if oil.named:
        found.append(Outcome(LUBRICANT, side, hottest, np.asarray(oil.lubricant.T_greatest)))
    return found


def stated(side: str, bearings: Bearings, state: State, conditions: Conditions) -> list[Outcome]:  # noqa: ARG001
    """Return a caution where the stated temperature is more than the lubricant of the list stands."""
    oil = conditions.resolved.lubricated
    if not oil.named or bearings.thermal is not None:
        return []
    T = conditions.cases.temperature
    return [Outcome(LUBRICANT_STATED, side, _hottest(T, conditions), np.asarray(oil.lubricant.T_greatest))]


def _hottest(T: Array, conditions: Conditions) -> Floats:
    # a utilisation needs a demand that is not negative, and nothing is too hot below freezing
    T = np.asarray(T, dtype=np.float64)
    return np.maximum(
        over_running(np.broadcast_to(T, (*T.shape[:-1], len(conditions.cases))), conditions, greatest, 0.0), 0.0
    )
