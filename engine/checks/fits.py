"""Checks of the seats: what the fit does to the rings, and how they go on.

Tension, shock, dirt and, where cones are to be heated, their heating rule bearings out; twin limits caution only.
Whether the rings hold is asked in `holding.py`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from engine import fitting
from engine.answers.resolved import Resolved
from engine.checks.check import Check, Outcome
from engine.numerics import Bools, Floats
from engine.operating import Bearings, Conditions, State
from engine.seat import iso286, mounting, pressure
from engine.seat.limits import SeatLimits, twin_housing_limits, twin_shaft_limits
from engine.sources import COMMON_PRACTICE, Citation, citation_of
from engine.steel import toughness
from engine.steel.verdict import DIRT as DIRT_PLACES

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: Millimetres to micrometres.
UM = 1e3
#: The finest grade to which shafts are ground and housings bored for bearings; common practice, no source.
FINEST_SHAFT, FINEST_HOUSING = 4, 5

HOOP = Check(
    "hoop", "Rings bear their fit", "MPa", citation_of(pressure.hoop_at_bore),
    "greatest tension, tight end of the fit", "lasting tension that the steel bears", spare=False,
)  # fmt: skip
SHOCK = Check(
    "shock", "Core stands the shock", "MPa", citation_of(toughness.toughness_demand),
    "tension times shock, at least the floor of heavy shock", "tension that a flaw of 0.5 mm stands in the core",
    spare=False,
)  # fmt: skip
DIRT = Check(
    "dirt", "Steel suits the dirt", "place", Citation(COMMON_PRACTICE, "place of the steel in hard-particle dirt"),
    "dirt (0 kept out, 1 some, 2 much)", "place of the steel (0 poor, 1 usual, 2 better)", spare=False,
)  # fmt: skip
TWIN_SHAFT = Check(
    "twin_shaft", "Twin shaft can be made", "um", citation_of(twin_shaft_limits),
    "IT4 of this size", "width of the twin's tolerance zone", advisory=True,
)  # fmt: skip
TWIN_HOUSING = Check(
    "twin_housing", "Twin housing can be made", "um", citation_of(twin_housing_limits),
    "IT5 of this size", "width of the twin's tolerance zone", advisory=True,
)  # fmt: skip
HEATING = Check(
    "heating", "Cone goes on by heat", "degC", citation_of(mounting.heating_temperature),
    "temperature at which the cone slides on", "120 degC, limit of heating", spare=False,
)  # fmt: skip


def binding(rows: Catalogue, side: str, resolved: Resolved) -> list[Outcome]:
    """Return what rules a bearing out by its fit, its steel, shock and dirt, whatever its load.

    Where the fits follow from the loads, what they strain is left to `under_load`, unless no load is known.
    """
    dirt = Outcome(DIRT, side, np.asarray(DIRT_PLACES[resolved.dirt]), fitting.of_steel(rows, "wear"))
    if fitting.by_loads(side, resolved) and resolved.loads_known:
        return [dirt]
    return [*strained(rows, side, resolved), dirt]


def strained(rows: Catalogue, side: str, resolved: Resolved, level: fitting.Codes | None = None) -> list[Outcome]:
    """Return whether the rings bear their fit, and the shock on top of it, at a load level where the fit needs one.

    With them whether cones that are to be heated go on. None is judged where the limits of a ring are not at hand,
    unless what is known of it fails already.
    """
    tension, heating = (fitting.borne_at(rows, side, resolved, of, level) for of in ("tension", "heating"))
    known = fitting.seats_of(rows, side, resolved).known
    return _strained(side, (tension, heating, known), fitting.borne(rows), resolved)


def under_load(side: str, bearings: Bearings, state: State, conditions: Conditions) -> list[Outcome]:
    """Return the same where the fits follow from the loads, and any of them could fail by it.

    A heavier load never makes a looser fit.
    """
    strain = bearings.strain
    # fits that no load makes too tight decide nothing, which spares millions of pairs the look
    if strain is None or strain.harmless.all():
        return []
    tension, heating = (fitting.at_level(each, state.level)[..., 0] for each in (strain.tension, strain.heating))
    return _strained(side, (tension, heating, strain.known), (strain.hoop, strain.shock), conditions.resolved)


def _strained(
    side: str, asked: tuple[Floats, Floats, Bools], borne: tuple[Floats, Floats], resolved: Resolved
) -> list[Outcome]:
    tension, heating, known = asked
    found = [
        Outcome(HOOP, side, tension, borne[0]).where_known(known),
        Outcome(SHOCK, side, fitting.shock_tension(tension, resolved), borne[1]).where_known(known),
    ]
    if resolved.fits.mounting == "heated":
        outcome = Outcome(HEATING, side, heating, np.asarray(mounting.HEATING_LIMIT))
        found.append(outcome.judged_where(np.isfinite(heating)))
    return found


def advisory(rows: Catalogue, side: str, resolved: Resolved, level: fitting.Codes | None = None) -> list[Outcome]:
    """Return what cautions whatever the load: twin limits, where a ring has them."""
    seats = fitting.seats_of(rows, side, resolved, level)
    rings, found = seats.rings, []
    if rings.limits.from_plus.any():
        for check, grade, size, limits in (
            (TWIN_SHAFT, FINEST_SHAFT, rings.d, seats.shaft),
            (TWIN_HOUSING, FINEST_HOUSING, rings.D, seats.housing),
        ):
            finest = np.where(rings.limits.from_plus, iso286.standard_tolerance_IT(size, grade), 0.0)
            found.append(Outcome(check, side, finest * UM, _width(limits) * UM))
    return found


def _width(limits: SeatLimits) -> Floats:
    return np.maximum(limits.upper - limits.lower, 0.0)
