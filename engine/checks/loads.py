"""Checks of one bearing that depend on its loads. Each is monotone in Fr and Fa, which is what screening relies on."""

from collections.abc import Callable

import numpy as np

from engine.checks.check import Check, Outcome
from engine.numerics import Floats, greatest, least
from engine.operating import Bearings, Conditions, State
from engine.rating import life as rating_life
from engine.rating import modified_life, static
from engine.sources import COMMON_PRACTICE, ISO_281, Citation, citation_of

#: ISO 281 covers loads up to half the basic dynamic rating.
LOAD_GREATEST = 0.5
#: A roller bearing wants at least this share of its rating to roll and not skid: common practice, no source.
LOAD_LEAST = 0.02
#: Below this viscosity ratio the surfaces touch most of the time.
KAPPA_WANTED = 0.4

LIFE = Check(
    "life", "Life of the bearing", "h", citation_of(rating_life.modified_life_Lnm),
    "required life", "modified rating life over the spectrum",
)  # fmt: skip
STATIC = Check(
    "static", "Static safety", "-", citation_of(static.static_safety_s0), "s0 wanted", "least s0 over the cases"
)
LOAD = Check(
    "load_limit", "Load within the life method", "N", Citation(ISO_281, "clause 7, P at most 0.5 C"),
    "greatest equivalent load P", "half the basic dynamic rating",
)  # fmt: skip
METHOD = Check(
    "kappa_method", "Film within the life method", "-", citation_of(modified_life.a_iso), "kappa 0.1", "least kappa"
)
FILM = Check(
    "film", "Lubricant film", "-", Citation(ISO_281, "clause 9.3.3.4"), "kappa 0.4", "least kappa", advisory=True
)
LEAST_LOAD = Check(
    "minimum_load", "Rollers roll, not skid", "N", Citation(COMMON_PRACTICE, "0.02 C"),
    "0.02 C", "least equivalent load P while running", advisory=True,
)  # fmt: skip


def life_outcome(side: str, state: State, conditions: Conditions) -> Outcome:
    """Return the life check of one bearing by itself."""
    return Outcome(LIFE, side, np.asarray(conditions.resolved.life), state.life)


def binding(side: str, bearings: Bearings, state: State, conditions: Conditions) -> list[Outcome]:
    """Return the load checks that rule a bearing out, its own life left to the caller (alone or with its partner)."""
    return [
        Outcome(STATIC, side, np.asarray(conditions.resolved.static_safety), state.s0),
        Outcome(LOAD, side, over_running(state.P, conditions, greatest, 0.0), LOAD_GREATEST * bearings.C[..., 0]),
    ]


def stated_film(side: str, bearings: Bearings, conditions: Conditions) -> list[Outcome]:
    """Return the check of the film where it depends on no load: where no temperature settles by the friction."""
    return [] if bearings.thermal is not None else [film_method(side, bearings, conditions)]


def film_method(side: str, bearings: Bearings, conditions: Conditions) -> Outcome:
    """Return whether the film lies within the method of ISO 281."""
    thinnest = over_running(bearings.kappa, conditions, least, np.inf)
    return Outcome(METHOD, side, np.asarray(modified_life.KAPPA_LEAST), thinnest)


def advisory(side: str, bearings: Bearings, state: State, conditions: Conditions) -> list[Outcome]:
    """Return the checks that caution only."""
    return [
        Outcome(FILM, side, np.asarray(KAPPA_WANTED), over_running(bearings.kappa, conditions, least, np.inf)),
        Outcome(LEAST_LOAD, side, LOAD_LEAST * bearings.C[..., 0], over_running(state.P, conditions, least, np.inf)),
    ]


def over_running(values: Floats, conditions: Conditions, reduce: Callable[[Floats], Floats], nothing: float) -> Floats:
    """Reduce over the cases that run; `nothing` where none does."""
    running = conditions.cases.running
    if not running.any():
        return np.full(np.shape(values)[:-1], nothing)
    return reduce(values if running.all() else values[..., running])
