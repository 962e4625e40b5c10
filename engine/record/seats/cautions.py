"""What to mind about a pair beside its checks, in sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from engine import fitting
from engine.answers.chapters.duty import NOT_COVERED
from engine.answers.chapters.fits import RECOMMENDED
from engine.checks import fits
from engine.checks.every import Evaluated
from engine.numerics import Floats
from engine.operating import Conditions, Loads
from engine.record.seats.blocks import level_of
from engine.record.seats.fit import Fit
from engine.record.seats.steels import NAMES
from engine.seat import recommend
from engine.seat.seating import LEAST
from engine.steel.grades import TREATMENTS
from engine.units import number_text

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

UNITS_CAUTION = f"Paired units are taken as one simple support each, in their middle; {NOT_COVERED}"
_LEVELS = {"light": 0, "normal": 1, "heavy": 2, "shock": 3}


def of(evaluated: Evaluated, conditions: Conditions) -> list[str]:
    """Return everything to mind that no check says."""
    resolved = conditions.resolved
    found = [UNITS_CAUTION] if resolved.locating else []
    if np.isnan(conditions.nu).any() and evaluated.loads is None:
        found.append(
            "The temperature settles with the loads, which are not known yet: fits and steel are judged at what cools "
            "the bearings and at the limit of their steel"
        )
    found += _tight_ring(resolved.rotating_ring, resolved.load_direction)
    found += _sliding(conditions)
    for side, rows in (("A", evaluated.A), ("B", evaluated.B)):
        if not fitting.seats_of(rows, side, resolved).known[0]:
            found.append(
                f"The fits at {side} are left out: limits of class {_class(rows)} are not at hand at its size, so that "
                "neither its tension nor what shock makes of it is judged"
            )
    found += _levels(evaluated, conditions)
    for ring in ("cone", "cup"):
        found += [twin(fit) for fit in Fit.both(ring, evaluated, conditions) if fit.from_plus]
    return found


def _class(rows: Catalogue) -> str:
    return str(rows.tolerance[0]) or "unsaid"


def _tight_ring(rotating_ring: str, load_direction: str) -> list[str]:
    """Return which ring sees a circumferential load and must sit tightly; by the definition of the load itself."""
    if load_direction == "indeterminate":
        return ["The load direction is unknown: both rings must sit tightly (circumferential load on either)"]
    loads = recommend.ring_loads(rotating_ring, load_direction)
    return [
        f"The {ring} sees a circumferential load and must sit tightly on its seat"
        for ring, load in zip(("cone", "cup"), loads, strict=True)
        if load == recommend.CIRCUMFERENTIAL
    ]


def _sliding(conditions: Conditions) -> list[str]:
    """Return where a ring must slide although the load goes round it."""
    resolved, found = conditions.resolved, []
    for ring, load in zip(("cone", "cup"), fitting.ring_loads(resolved), strict=True):
        for side in "AB":
            seat = resolved.fits.side(side)
            slides = seat.cone_slides if ring == "cone" else seat.cup_slides
            wanted = seat.shaft if ring == "cone" else seat.housing
            if slides and load == recommend.CIRCUMFERENTIAL and wanted == RECOMMENDED:
                found.append(
                    f"The {ring} at {side} must slide although the load goes round it: no fit tighter than j or J is "
                    "recommended there; set by spacers or shims instead, both rings may sit tightly"
                )
    return found


def _levels(evaluated: Evaluated, conditions: Conditions) -> list[str]:
    """Return where the loads are heavier than the level that the fits are recommended for."""
    if evaluated.states is None:
        return []
    found, answered = [], conditions.resolved.fits.level
    for at, side in enumerate("AB"):
        level, ratio = level_of(evaluated, at, conditions)
        if level > _LEVELS.get(answered, level):
            made = recommend.LEVELS[level]
            found.append(
                f"Load level at {side}: P/C {number_text(ratio, 2)} is {made}, the fits are recommended for {answered}"
            )
    return found


def twin(fit: Fit) -> str:
    """Return what using metric limits on an inch ring would do."""
    seat = "shaft" if fit.is_cone else "housing"
    made = fit.seats.shaft if fit.is_cone else fit.seats.housing
    upper, lower = fit.metric_limits()
    mistaken = fit.mistaken()
    errors = sorted(abs(round(float(one[0]) * 1e3)) for one in (mistaken.at_least, mistaken.at_greatest))
    way = "looser" if float(mistaken.at_greatest[0]) < 0 else "tighter"
    least = float(fit.seat.cold[0, LEAST])
    loose = ", with play at the loose end" if least >= 0 > least + float(mistaken.at_least[0]) else ""
    return (
        f"Inch {fit.ring} at {fit.side}: make the {seat} {_ends(made.upper, made.lower)} um. The metric limits of "
        f"{fit.class_name}, {_ends(upper, lower)} um, would sit {errors[0]} to {errors[1]} um {way}{loose}"
    )


def ruled_out(rows: Catalogue, side: str, conditions: Conditions, loads: Loads | None) -> str:
    """Return what the fit and the shock on one side rule out of a catalogue, by heat treatment.

    A fit that follows from the loads is that of the pair that is shown, under `loads`.
    """
    level = np.full(len(rows), loads.level[0]) if loads is not None and loads.level is not None else None
    fails = np.logical_or.reduce([~one.passes for one in fits.strained(rows, side, conditions.resolved, level)])
    parts = []
    for treatment in TREATMENTS:
        of = rows.steel == treatment
        parts.append(f"{int((fails & of).sum())} of {int(of.sum())} {NAMES[treatment]}")
    return f"Of the whole catalogue this fit and shock rule out at {side}: {' and '.join(parts)} bearings"


def _ends(upper: Floats, lower: Floats) -> str:
    return f"{round(float(upper[0]) * 1e3):+d}/{round(float(lower[0]) * 1e3):+d}"
