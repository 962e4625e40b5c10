"""What the duty asks of the steel of given bearings: growth that eats the fit, and the verdict on both treatments."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from engine import fitting
from engine.catalogue.materials import steels
from engine.checks import fits
from engine.checks.check import Check, Outcome
from engine.numerics import Floats
from engine.operating import Conditions, Loads
from engine.seat import seating
from engine.seat.recommend import POINT
from engine.sources import citation_of
from engine.steel import growth, verdict
from engine.warmth import in_service as service

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue
    from engine.checks.every import Evaluated

STABILITY = Check(
    "stability", "Fit outlasts the growth", "um", citation_of(growth.growth_strain),
    "growth of the cone over the required life", "interference to spare at the mean of the fit", advisory=True,
)  # fmt: skip
SLIDES = Check(
    "slides", "Cup slides after its growth", "um", citation_of(growth.growth_strain),
    "growth of the cup over the required life", "play of the cup in operation at the mean of the fit", advisory=True,
)  # fmt: skip


def spare(rows: Catalogue, side: str, loads: Loads | None, conditions: Conditions) -> Floats:
    """Return the interference of the cone that is left over in the hardest case at the mean of the fit [mm]: (n,).

    Without known loads nothing is needed, and the coldest and hottest running count.
    """
    resolved = conditions.resolved
    seats = service.seats_of(rows, side, loads, conditions)
    run = service.in_service(rows, loads, conditions)
    limits = (seats.shaft, seats.housing)
    cone, _ = seating.in_operation(seats.rings, limits, seats.around, run, (seating.MEAN,))
    there = cone[..., 0]
    if loads is not None and fitting.ring_loads(resolved)[0] != POINT:
        there = there - fits.needed_by(rows, "cone", loads, conditions)
    return np.asarray(there.min(axis=-1))


def temperatures(rows: Catalogue, loads: Loads | None, conditions: Conditions) -> tuple[Floats, Floats]:
    """Return the mean temperature of the rings over the life, and the highest, stated or settled [deg C]: (n,) each.

    Before loads are known one that settles counts as what the steel of the bearing bears.
    """
    cases, peak = conditions.cases, conditions.resolved.peak_temperature
    if loads is None:
        hottest = fitting.hardest_running(rows, conditions.resolved).T_cone.max(axis=-1)
        mean = known = np.broadcast_to(hottest, len(rows))
    else:
        T = np.broadcast_to(service.temperatures(loads, conditions), (len(rows), len(cases)))
        some = cases.running if cases.running.any() else np.ones(len(cases), dtype=bool)
        mean, known = np.average(T[:, some], axis=-1, weights=cases.share[some]), T[:, some].max(axis=-1)
    return mean, known if peak is None else np.full(len(rows), peak)


def asked(rows: Catalogue, side: str, loads: Loads | None, conditions: Conditions) -> verdict.Asked:
    """Return what the duty asks of the steel of the bearings on one side."""
    resolved = conditions.resolved
    seats = service.seats_of(rows, side, loads, conditions)
    mean, peak = temperatures(rows, loads, conditions)
    return verdict.Asked(
        hoop=fitting.tension_of(rows, side, resolved, service.level_under(loads)),
        spare=spare(rows, side, loads, conditions),
        size=seats.rings.d,
        wall=fitting.wall_of(seats.rings),
        shock=resolved.shock,
        shock_factor=resolved.fits.shock_factor,
        dirt=resolved.dirt,
        peak_temperature=peak,
        temperature=mean,
        life=resolved.life,
    )


def stability(evaluated: Evaluated, conditions: Conditions) -> list[Outcome]:
    """Return whether the fits outlast the growth of the rings, of the steel that each bearing is taken to be of.

    A cone under a point load need not hold, so that growth takes nothing from it. A cup only sits tighter as it grows:
    that harms the one that must slide.
    """
    assert evaluated.loads is not None
    sides = zip("AB", (evaluated.A, evaluated.B), evaluated.loads, strict=True)
    found, resolved = [], conditions.resolved
    for side, rows, loads in sides:
        strain = _strain(rows, loads, conditions)
        if fitting.ring_loads(resolved)[0] != POINT:
            # a seat that is short already has nothing that growth may take
            left = np.maximum(spare(rows, side, loads, conditions), 0.0)
            found.append(Outcome(STABILITY, side, rows.d * strain * fits.UM, left * fits.UM))
        if resolved.fits.side(side).cup_slides:
            play = _play(rows, side, loads, conditions)
            found.append(Outcome(SLIDES, side, rows.D * strain * fits.UM, play * fits.UM))
    return found


def _strain(rows: Catalogue, loads: Loads, conditions: Conditions) -> Floats:
    """Return the strain by which the rings grow over the required life, of the steel that they are taken to be of."""
    mean, _ = temperatures(rows, loads, conditions)
    austenite, limit = (fitting.of_steel(rows, name) for name in ("austenite", "temperature"))
    return growth.growth_strain(austenite, conditions.resolved.life, mean, limit)


def _play(rows: Catalogue, side: str, loads: Loads, conditions: Conditions) -> Floats:
    """Return the play that is left to the cup in the tightest case at the mean of the fit [mm]: (n,)."""
    seats = fitting.seats_of(rows, side, conditions.resolved, loads.level)
    run = service.in_service(rows, loads, conditions)
    _, cup = seating.in_operation(seats.rings, (seats.shaft, seats.housing), seats.around, run, (seating.MEAN,))
    return np.maximum(-cup[..., 0].max(axis=-1), 0.0)


def told(rows: Catalogue, side: str, loads: Loads | None, conditions: Conditions) -> verdict.Verdicts:
    """Return the verdict on both heat treatments for the bearings of one side."""
    return verdict.verdicts(asked(rows, side, loads, conditions), steels.builtin())
