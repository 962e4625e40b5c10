"""Whether the rings hold: creep at the mean and the loose end of the fit, and what the growth of the steel takes of it.

A ring that the load goes round and that need not slide rules its pair out where even the mean of its fit does not hold
it: looser parts than the mean are as likely as tighter ones, so that one of two such seats creeps. The loose end, which
few seats come near, cautions, and everything where the answers have it so.

A cone holds while more is left than the load takes of its interference, by the formula that is stated for cones on
shafts, and to the end of the life. For cups no such formula is stated: held against that of cones, the classes that
practice gives for hubs that turn (N7 under a heavy load) are often short, and serve. So a cup is ruled out where it has
play, in which a ring creeps under any load that goes round it; where only the formula is not met, it cautions.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from engine import fitting
from engine.checks.check import Check, Outcome
from engine.checks.fits import UM
from engine.holding import mean_temperature, rings_held
from engine.numerics import Floats, greatest, least
from engine.operating import Bearings, Conditions, Loads, State
from engine.seat import creep, seating
from engine.seat.recommend import POINT
from engine.sources import citation_of
from engine.steel import growth
from engine.warmth import in_service as service

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue
    from engine.checks.every import Evaluated


def _creep(ring: str, end: str, name: str) -> Check:
    words = "at the loose end" if end == "least" else "at the mean of the fit"
    return Check(
        f"creep_{ring}_{end}", name, "um", citation_of(creep.interference_against_creep),
        f"interference that the {ring} needs", f"interference of the {ring} in operation {words}",
        advisory=end == "least", spare=False,
    )  # fmt: skip


LOOSE = {ring: _creep(ring, "least", f"{ring.capitalize()} holds at the loose end") for ring in ("cone", "cup")}
MEAN = {ring: _creep(ring, "mean", f"{ring.capitalize()} holds at the mean fit") for ring in ("cone", "cup")}
PLAY = Check(
    "play_cup", "Cup does not roll in its seat", "um", citation_of(creep.creep_a_turn),
    "creep by play with each turn of the load, mean of the fit", "creep of a cup that must hold", spare=False,
)  # fmt: skip
STABILITY = Check(
    "stability", "Fit outlasts the growth", "um", citation_of(growth.growth_strain),
    "growth of the cone over the required life", "interference to spare at the mean of the fit", spare=False,
)  # fmt: skip
SLIDES = Check(
    "slides", "Cup slides after its growth", "um", citation_of(growth.growth_strain),
    "growth of the cup over the required life", "play of the cup in operation at the mean of the fit", advisory=True,
)  # fmt: skip


def under_load(side: str, bearings: Bearings, state: State, conditions: Conditions) -> list[Outcome]:
    """Return whether the rings that must hold do so at the mean of their fit, and to the end of the life.

    Between given bounds of what is left in service it never falls when a load grows.
    """
    hold = bearings.hold
    if hold is None:
        return []
    resolved, cases = conditions.resolved, conditions.cases
    T = temperatures(bearings, conditions)
    found = []
    for grip, left in zip(hold.grips, hold.left(state.level, T, cases.n, resolved), strict=True):
        if grip.ring == "cup":
            found.append(_rolls(side, left, cases.n).judged_where(grip.known))
            continue
        needed = _needed(state.Fr, grip.size, grip.width, conditions)
        found.append(_holds(MEAN[grip.ring], side, needed, left).judged_where(grip.known))
        grown = grip.size[..., 0] * hold.grown(T, cases.weights, resolved)
        outcome = _outlasts(side, grown, least(left - needed))
        found.append(outcome.judged_where(grip.known & hold.of_known_steel))
    return found


def temperatures(bearings: Bearings, conditions: Conditions) -> Floats:
    """Return the temperatures of bearings in each case [deg C], stated (k,) or settled (..., k)."""
    if bearings.thermal is None or bearings.thermal.T is None:
        return conditions.cases.temperature
    return bearings.thermal.T


def between_temperatures(
    rows: Bearings, ends: tuple[Bearings, Bearings], state: State, conditions: Conditions, most: bool
) -> Bearings:
    """Return bearings with bounds of what is left of their fits between the temperatures of `ends`.

    The most that may be left, else the least, at the load levels that a state makes.
    """
    if rows.hold is None:
        return rows
    T = [temperatures(one, conditions) for one in ends]
    hold = rows.hold.between(state.level, T, conditions.cases.n, conditions.resolved, most)
    return replace(rows, hold=hold)


def creeping(evaluated: Evaluated, conditions: Conditions) -> list[Outcome]:
    """Return whether the rings that the load goes round hold in the case that is hardest on them, on both sides.

    The loose end is asked of all of them, the mean and the growth of those only that rule no pair out.
    """
    assert evaluated.loads is not None
    sides = zip("AB", (evaluated.A, evaluated.B), evaluated.loads, strict=True)
    return [outcome for side, rows, loads in sides for outcome in _cautions(rows, side, loads, conditions)]


def _cautions(rows: Catalogue, side: str, loads: Loads, conditions: Conditions) -> list[Outcome]:
    resolved = conditions.resolved
    effective, found = _in_operation(rows, side, loads, conditions), []
    ruling, strain = rings_held(side, resolved), _strain(rows, loads, conditions)
    for ring, load, left in zip(("cone", "cup"), fitting.ring_loads(resolved), effective, strict=True):
        if load == POINT:
            continue
        needed = needed_by(rows, ring, loads, conditions)
        found.append(_holds(LOOSE[ring], side, needed, left[..., 0]))
        if ring == "cup" or ring not in ruling:
            found.append(_holds(replace(MEAN[ring], advisory=True), side, needed, left[..., 1]))
        if ring == "cone" and ring not in ruling:
            outcome = _outlasts(side, rows.d * strain, least(left[..., 1] - needed))
            found.append(replace(outcome, check=replace(STABILITY, advisory=True)))
    if resolved.fits.side(side).cup_slides:
        play = np.maximum(-greatest(effective[1][..., 1]), 0.0)
        found.append(Outcome(SLIDES, side, rows.D * strain * UM, play * UM))
    return found


def _in_operation(rows: Catalogue, side: str, loads: Loads, conditions: Conditions) -> tuple[Floats, Floats]:
    """Return the interference of cones and cups in service at the loose end and at the mean [mm], (n, k, 2) each."""
    seats = service.seats_of(rows, side, loads, conditions)
    run = service.in_service(rows, loads, conditions)
    ends = (seating.LEAST, seating.MEAN)
    return seating.in_operation(seats.rings, (seats.shaft, seats.housing), seats.around, run, ends)


def _strain(rows: Catalogue, loads: Loads, conditions: Conditions) -> Floats:
    """Return the strain by which the rings grow over the required life, of the steel that they are taken to be of."""
    T = service.temperatures(loads, conditions)
    mean = mean_temperature(T, conditions.cases.weights)
    austenite, limit = (fitting.of_steel(rows, name) for name in ("austenite", "temperature"))
    return growth.growth_strain(austenite, conditions.resolved.life, mean, limit)


def needed_by(rows: Catalogue, ring: str, loads: Loads, conditions: Conditions) -> Floats:
    """Return the interference that the load of each case asks of a ring, were the load to go round it [mm]: (n, k)."""
    rings = fitting.rings_of(rows)
    size, width = (rings.d, rings.B) if ring == "cone" else (rings.D, rings.C)
    return _needed(loads.Fr, size[:, None], width[:, None], conditions)


def _needed(Fr: Floats, size: Floats, width: Floats, conditions: Conditions) -> Floats:
    needed = creep.interference_against_creep(Fr / conditions.resolved.per_side, size, width)
    # a ring at rest does not creep
    return np.where(conditions.cases.n > 0, needed, 0.0)


def _holds(check: Check, side: str, needed: Floats, left: Floats) -> Outcome:
    """Return what is needed against what is there in the case in which the most is missing, (...,) of (..., k)."""
    there = np.maximum(left, 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = np.where(needed > 0, needed / there, needed * 0.0)
    # what is not known comes first, so that it is not taken for good
    at = np.where(np.isnan(ratio), np.inf, ratio).argmax(axis=-1)[..., None]
    demand, capacity = (
        np.take_along_axis(np.broadcast_to(values, ratio.shape), at, axis=-1)[..., 0] for values in (needed, there)
    )
    return Outcome(check, side, demand * UM, capacity * UM)


def _rolls(side: str, left: Floats, n: Floats) -> Outcome:
    """Return by how much a ring rolls on in its seat in the case with the most play, (...,) of (..., k)."""
    rolled = greatest(np.where(n > 0, creep.creep_a_turn(left), 0.0))
    return Outcome(PLAY, side, rolled * UM, np.zeros_like(rolled))


def _outlasts(side: str, grown: Floats, spare: Floats) -> Outcome:
    # a seat that is short already has nothing that growth may take
    return Outcome(STABILITY, side, grown * UM, np.maximum(spare, 0.0) * UM)
