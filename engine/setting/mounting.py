"""What the setting chain is fed with: seats and their fits, temperatures, growth, and by how much each may be off."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.catalogue.materials import steels
from engine.distribution.rollers import RollerSet
from engine.distribution.setting_chain import Conditions as Quantities
from engine.distribution.setting_chain import Mounting, Seats
from engine.numerics import Floats
from engine.operating import Bearings, Conditions, pair_loads, state
from engine.pair.arrangement import BACK_TO_BACK
from engine.seat import limits, pressure, recommend, seating
from engine.seat.material import STEEL
from engine.steel import grades, growth

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: Lasting growth is known to half its amount at best; common practice, no source.
GROWTH_WITHIN = 0.5
#: Interference by which the give of rings and seats is measured [mm]; all is linear.
_UNIT = 0.01


@dataclass(frozen=True)
class Fitted:
    """One ring on its seat: the mean interference [mm], negative for clearance, half its probable range, its class."""

    mean: float
    half: float
    name: str


@dataclass(frozen=True)
class Chained:
    """Everything that the chain from bench to service needs, the bench setting itself left at 0."""

    mounting: Mounting
    nominal: Quantities
    half: Quantities
    cones: tuple[Fitted, Fitted]
    cups: tuple[Fitted, Fitted]
    temperature: float  # of the bearings, mean over the running time [deg C]


def chained(A: Catalogue, B: Catalogue, rollers: tuple[RollerSet, RollerSet], conditions: Conditions) -> Chained:
    """Return the chain of a pair, given as catalogues of one row each."""
    resolved = conditions.resolved
    asked = resolved.setting
    assert resolved.distance is not None  # pairs without known loads are not followed
    levels = _levels(A, B, conditions)
    fitted = [_fitted(rows, level, conditions) for rows, level in zip((A, B), levels, strict=True)]
    cones, cups = (fitted[0][0], fitted[1][0]), (fitted[0][1], fitted[1][1])
    seats = [_seats(rows, one) for rows, one in zip((A, B), rollers, strict=True)]
    T = _mean_temperature(conditions)
    grown = [_growth(rows, one, T, conditions) for rows, one in zip((A, B), rollers, strict=True)]
    growth_cone, growth_cup = (float(np.mean([one[at] for one in grown])) for at in (0, 1))
    within = asked.temperatures_within
    nominal = Quantities(
        0.0, cones[0].mean, cups[0].mean, cones[1].mean, cups[1].mean,
        T + asked.cone_warmer, T + asked.shaft_warmer, T + asked.cup_warmer, T + asked.housing_warmer,
        growth_cone, growth_cup,
    )  # fmt: skip
    half = Quantities(
        asked.tolerance, cones[0].half, cups[0].half, cones[1].half, cups[1].half, within, within, within, within,
        GROWTH_WITHIN * growth_cone, GROWTH_WITHIN * growth_cup,
    )  # fmt: skip
    around = _surroundings()
    mounting = Mounting(
        rollers=rollers,
        arrangement=resolved.arrangement,
        distance=resolved.distance,
        seats=(seats[0], seats[1]),
        shaft=around.shaft.alpha,
        housing=around.housing.alpha,
        rings=STEEL.alpha,
        measured_mounted=asked.measured_mounted,
    )
    return Chained(mounting, nominal, half, cones, cups, T)


def _surroundings() -> seating.Surroundings:
    return seating.Surroundings()


def _levels(A: Catalogue, B: Catalogue, conditions: Conditions) -> list[str]:
    """Return how heavy the load on each bearing is, in the words by which fits are chosen."""
    bearings = Bearings.of(A, "A", conditions), Bearings.of(B, "B", conditions)
    found = []
    for one, loads in zip(bearings, pair_loads(*bearings, conditions), strict=True):
        P = state(one, loads, conditions).P[0]
        place = int(recommend.load_level(P.max(), one.C[0, 0]))
        heavy_shock = conditions.resolved.shock == "heavy" and place == 2
        found.append(recommend.LEVELS[3 if heavy_shock else place])
    return found


def _fitted(rows: Catalogue, level: str, conditions: Conditions) -> tuple[Fitted, Fitted]:
    """Return how cone and cup sit with the class that suits the duty; the ring that is adjusted must slide."""
    resolved = conditions.resolved
    adjusted_cone = resolved.arrangement == BACK_TO_BACK
    on_cone, on_cup = recommend.ring_loads(resolved.rotating_ring, resolved.load_direction)
    rings = seating.Rings.of(
        rows.system, rows.tolerance, {name: getattr(rows, name) for name in ("d", "D", "B", "C", "F", "E")}
    )
    slides = resolved.setting.measured_mounted
    shaft_need = recommend.Need(on_cone, level, displaced=adjusted_cone and slides and on_cone == recommend.POINT)
    housing_need = recommend.Need(on_cup, level, displaced=not adjusted_cone and slides)
    shaft = recommend.shaft_class(rings.d, shaft_need, rings.limits.precise)
    housing = recommend.housing_class(rings.D, housing_need, rings.limits.precise)
    running = seating.Running(np.zeros(1), "cone", *(np.full(1, 20.0) for _ in range(4)))
    both = seating.seat_of(
        rings,
        limits.shaft_limits(rings.d, shaft, rings.limits),
        limits.housing_limits(rings.D, housing, rings.limits),
        _surroundings(),
        running,
    )
    return _of(both.cone, _class_name(shaft, shaft_side=True)), _of(both.cup, _class_name(housing, shaft_side=False))


def _class_name(code: Floats, shaft_side: bool) -> str:
    from engine.seat.iso286 import HOLE_CLASSES, SHAFT_CLASSES

    at = int(np.ravel(code)[0])
    return str((SHAFT_CLASSES if shaft_side else HOLE_CLASSES)[at]) if at >= 0 else ""


def _of(seat: seating.Seat, name: str) -> Fitted:
    low, mean, high = (float(seat.mounted[0, at]) for at in (
        seating.PROBABLE_LEAST, seating.MEAN, seating.PROBABLE_GREATEST))  # fmt: skip
    if not np.isfinite(mean):
        # limits that are not at hand: line to line, and as wide as a usual fit
        return Fitted(0.0, 0.015, "")
    return Fitted(mean, (high - low) / 2, name)


def _seats(rows: Catalogue, one: RollerSet) -> Seats:
    """Return the seats of a bearing, and how much of an interference its raceways feel."""
    d, D = float(rows.d[0]), float(rows.D[0])
    around = _surroundings()
    ring = STEEL
    on_shaft = pressure.joint_pressure(_UNIT, around.shaft_bore, d, one.cone_diameter, around.shaft, ring)
    outside = float(around.housing_outside(np.array(D)))
    in_housing = pressure.joint_pressure(_UNIT, one.cup_diameter, D, outside, ring, around.housing)
    cone = float(pressure.raceway_growth(on_shaft, d, one.cone_diameter, ring)) / _UNIT
    cup = float(pressure.raceway_shrinkage(in_housing, one.cup_diameter, D, ring)) / _UNIT
    return Seats(d, D, cone if np.isfinite(cone) else 0.0, cup if np.isfinite(cup) else 0.0)


def _mean_temperature(conditions: Conditions) -> float:
    cases = conditions.cases
    time = cases.share * cases.running
    if not time.sum() > 0:
        return float(np.mean(cases.temperature))
    return float(np.sum(time * cases.temperature) / np.sum(time))


def _growth(rows: Catalogue, one: RollerSet, T: float, conditions: Conditions) -> tuple[float, float]:
    """Return by how much cone and cup grow over the life as their structure settles [-]."""
    table = steels.builtin()
    asked = conditions.resolved.setting
    walls = (one.cone_diameter - float(rows.d[0])) / 2, (float(rows.D[0]) - one.cup_diameter) / 2
    found = []
    for wall, warmer in zip(walls, (asked.cone_warmer, asked.cup_warmer), strict=True):
        place = grades.grade_of(table, rows.steel[:1], rows.max_temperature[:1], np.array([wall]))
        austenite, limit = (grades.of_rows(table, place, name) for name in ("austenite", "temperature"))
        strain = float(growth.growth_strain(austenite, conditions.resolved.life, T + warmer, limit)[0])
        found.append(strain if np.isfinite(strain) else 0.0)
    return found[0], found[1]
