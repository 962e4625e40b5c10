"""Checks of the seats: what the fit does to the rings, and whether the rings hold on it.

Tension, shock and dirt depend on no load and rule bearings out; twin limits, heating and creep caution only.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from engine import fitting
from engine.answers.resolved import Resolved
from engine.checks.check import Check, Outcome
from engine.numerics import Bools, Floats
from engine.operating import Bearings, Conditions, Loads, State
from engine.seat import creep, iso286, mounting, pressure, seating
from engine.seat.limits import SeatLimits, twin_housing_limits, twin_shaft_limits
from engine.seat.recommend import POINT
from engine.sources import COMMON_PRACTICE, Citation, citation_of
from engine.steel import toughness
from engine.steel.verdict import DIRT as DIRT_PLACES
from engine.warmth import in_service as service

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue
    from engine.checks.every import Evaluated

#: Millimetres to micrometres.
UM = 1e3
#: The finest grade to which shafts are ground and housings bored for bearings; common practice, no source.
FINEST_SHAFT, FINEST_HOUSING = 4, 5

HOOP = Check(
    "hoop", "Rings bear their fit", "MPa", citation_of(pressure.hoop_at_bore),
    "greatest tension, tight end of the fit", "lasting tension that the steel bears", margin=False,
)  # fmt: skip
SHOCK = Check(
    "shock", "Core stands the shock", "MPa", citation_of(toughness.toughness_demand),
    "tension times shock, at least the floor of heavy shock", "tension that a flaw of 0.5 mm stands in the core",
    margin=False,
)  # fmt: skip
DIRT = Check(
    "dirt", "Steel suits the dirt", "place", Citation(COMMON_PRACTICE, "place of the steel in hard-particle dirt"),
    "dirt (0 kept out, 1 some, 2 much)", "place of the steel (0 poor, 1 usual, 2 better)", margin=False,
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
    "temperature at which the cone slides on", "120 degC, limit of heating", advisory=True,
)  # fmt: skip


def _creep(ring: str, end: str, name: str) -> Check:
    words = "at the loose end" if end == "least" else "at the mean of the fit"
    return Check(
        f"creep_{ring}_{end}", name, "um", citation_of(creep.interference_against_creep),
        f"interference that the {ring} needs", f"interference of the {ring} in operation {words}", advisory=True,
    )  # fmt: skip


CREEP = {
    "cone": (
        _creep("cone", "least", "Cone holds at the loose end"),
        _creep("cone", "mean", "Cone holds at the mean fit"),
    ),
    "cup": (
        _creep("cup", "least", "Cup holds at the loose end"),
        _creep("cup", "mean", "Cup holds at the mean fit"),
    ),
}


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

    Neither is judged where the limits of a ring are not at hand, unless what is known of it fails already.
    """
    tension = fitting.tension_of(rows, side, resolved, level)
    known = fitting.seats_of(rows, side, resolved).known
    return _strained(side, (tension, known), fitting.borne(rows), resolved)


def under_load(side: str, bearings: Bearings, state: State, conditions: Conditions) -> list[Outcome]:
    """Return the same where the fits follow from the loads, and any of them could fail by it.

    A heavier load never makes a looser fit.
    """
    strain = bearings.strain
    # fits that no load makes too tight decide nothing, which spares millions of pairs the look
    if strain is None or strain.harmless.all():
        return []
    level = service.levels(state.P, bearings.C[..., 0], conditions)
    each = np.broadcast_to(strain.tension, (*level.shape, strain.tension.shape[-1]))
    tension = np.take_along_axis(each, level[..., None], axis=-1)[..., 0]
    return _strained(side, (tension, strain.known), (strain.hoop, strain.shock), conditions.resolved)


def _strained(
    side: str, asked: tuple[Floats, Bools], borne: tuple[Floats, Floats], resolved: Resolved
) -> list[Outcome]:
    tension, known = asked
    return [
        Outcome(HOOP, side, tension, borne[0]).where_known(known),
        Outcome(SHOCK, side, fitting.shock_tension(tension, resolved), borne[1]).where_known(known),
    ]


def advisory(rows: Catalogue, side: str, resolved: Resolved, level: fitting.Codes | None = None) -> list[Outcome]:
    """Return what cautions whatever the load: twin limits, where a ring has them, and heating, where it is answered."""
    seats = fitting.seats_of(rows, side, resolved, level)
    rings, found = seats.rings, []
    if rings.limits.from_plus.any():
        for check, grade, size, limits in (
            (TWIN_SHAFT, FINEST_SHAFT, rings.d, seats.shaft),
            (TWIN_HOUSING, FINEST_HOUSING, rings.D, seats.housing),
        ):
            finest = np.where(rings.limits.from_plus, iso286.standard_tolerance_IT(size, grade), 0.0)
            found.append(Outcome(check, side, finest * UM, _width(limits) * UM))
    if resolved.fits.mounting == "heated":
        cone = fitting.seated(seats, fitting.hardest_running(rows, resolved)).cone
        found.append(Outcome(HEATING, side, cone.heating, np.asarray(mounting.HEATING_LIMIT)))
    return found


def _width(limits: SeatLimits) -> Floats:
    return np.maximum(limits.upper - limits.lower, 0.0)


def creeping(evaluated: Evaluated, conditions: Conditions) -> list[Outcome]:
    """Return whether the rings that the load goes round hold in the case that is hardest on them, on both sides."""
    assert evaluated.loads is not None
    sides = zip("AB", (evaluated.A, evaluated.B), evaluated.loads, strict=True)
    return [outcome for side, rows, loads in sides for outcome in _creeping(rows, side, loads, conditions)]


def _creeping(rows: Catalogue, side: str, loads: Loads, conditions: Conditions) -> list[Outcome]:
    resolved = conditions.resolved
    seats = service.seats_of(rows, side, loads, conditions)
    run = service.in_service(rows, loads, conditions)
    ends = (seating.LEAST, seating.MEAN)
    effective = seating.in_operation(seats.rings, (seats.shaft, seats.housing), seats.around, run, ends)
    found = []
    for at, (ring, load) in enumerate(zip(CREEP, fitting.ring_loads(resolved), strict=True)):
        if load == POINT:
            continue
        needed = needed_by(rows, ring, loads, conditions)
        for end, check in enumerate(CREEP[ring]):
            demand, capacity = _worst(needed, np.maximum(effective[at][..., end], 0.0))
            found.append(Outcome(check, side, demand * UM, capacity * UM))
    return found


def needed_by(rows: Catalogue, ring: str, loads: Loads, conditions: Conditions) -> Floats:
    """Return the interference that the load of each case asks of a ring, were the load to go round it [mm]: (n, k)."""
    rings = fitting.rings_of(rows)
    size, width = (rings.d, rings.B) if ring == "cone" else (rings.D, rings.C)
    Fr = loads.Fr / conditions.resolved.per_side
    needed = creep.interference_against_creep(Fr, size[:, None], width[:, None])
    # a ring at rest does not creep
    return np.where(conditions.cases.n > 0, needed, 0.0)


def _worst(needed: Floats, there: Floats) -> tuple[Floats, Floats]:
    """Return what is needed and what is there in the case in which the most is missing, (n,) each."""
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = np.where(needed > 0, needed / there, needed * 0.0)
    # what is not known comes first, so that it is not taken for good
    at = np.where(np.isnan(ratio), np.inf, ratio).argmax(axis=-1)[:, None]
    return tuple(np.take_along_axis(values, at, axis=-1)[:, 0] for values in (needed, there))  # type: ignore[return-value]
