"""What the duty asks of the steel of given bearings, and the verdict on both treatments."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from engine import fitting
from engine.catalogue.materials import steels
from engine.checks import holding
from engine.numerics import Floats
from engine.operating import Conditions, Loads
from engine.seat import seating
from engine.seat.recommend import POINT
from engine.steel import verdict
from engine.warmth import in_service as service

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


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
        there = there - holding.needed_by(rows, "cone", loads, conditions)
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
        hoop=fitting.borne_at(rows, side, resolved, "tension", service.level_under(loads)),
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


def told(rows: Catalogue, side: str, loads: Loads | None, conditions: Conditions) -> verdict.Verdicts:
    """Return the verdict on both heat treatments for the bearings of one side."""
    return verdict.verdicts(asked(rows, side, loads, conditions), steels.builtin())
