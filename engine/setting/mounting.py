"""What the setting chain is fed with: seats and their fits, temperatures, growth, and by how much each may be off."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine import fitting
from engine.catalogue.materials import steels
from engine.distribution.rollers import RollerSet
from engine.distribution.setting_chain import REFERENCE_TEMPERATURE, Mounting, Seats
from engine.distribution.setting_chain import Conditions as Quantities
from engine.fitting import Codes
from engine.operating import Bearings, Conditions
from engine.seat import iso286, pressure, seating
from engine.seat.material import MATERIALS, STEEL
from engine.steel import grades, growth
from engine.warmth.settling import loaded

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: Lasting growth is known to half its amount at best; common practice, no source.
GROWTH_WITHIN = 0.5
#: What is taken for half the range of an interference whose limits are not at hand [mm]; common practice, no source.
FIT_WITHIN = 0.015
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
    asked, fits = resolved.setting, resolved.fits
    assert resolved.distance is not None  # pairs without known loads are not followed
    levels = _levels(A, B, conditions)
    seats = [fitting.seats_of(rows, side, resolved, at) for side, rows, at in zip("AB", (A, B), levels, strict=True)]
    fitted = [_fitted(one, conditions) for one in seats]
    cones, cups = (fitted[0][0], fitted[1][0]), (fitted[0][1], fitted[1][1])
    T = _mean_temperature(conditions)
    T_cone, T_cup = T + asked.cone_over_cup / 2, T - asked.cone_over_cup / 2
    grown = [_growth(rows, one, (T_cone, T_cup), resolved.life) for rows, one in zip((A, B), rollers, strict=True)]
    growth_cone, growth_cup = (float(np.mean([one[at] for one in grown])) for at in (0, 1))
    within = asked.temperatures_within
    nominal = Quantities(
        0.0, cones[0].mean, cups[0].mean, cones[1].mean, cups[1].mean,
        T_cone, T_cone - fits.cone_hotter, T_cup, T_cup - fits.cup_hotter, growth_cone, growth_cup,
    )  # fmt: skip
    half = Quantities(
        asked.tolerance, cones[0].half, cups[0].half, cones[1].half, cups[1].half, within, within, within, within,
        GROWTH_WITHIN * growth_cone, GROWTH_WITHIN * growth_cup,
    )  # fmt: skip
    mounting = Mounting(
        rollers=rollers,
        arrangement=resolved.arrangement,
        distance=resolved.distance,
        seats=(_give(seats[0], rollers[0]), _give(seats[1], rollers[1])),
        shaft=MATERIALS[fits.shaft].alpha,
        housing=MATERIALS[fits.housing].alpha,
        rings=STEEL.alpha,
        measured_mounted=asked.measured_mounted,
    )
    return Chained(mounting, nominal, half, cones, cups, T)


def _levels(A: Catalogue, B: Catalogue, conditions: Conditions) -> list[Codes | None]:
    """Return the load levels that the fits at A and at B follow from."""
    if not any(fitting.by_loads(side, conditions.resolved) for side in "AB"):
        return [None, None]
    under = loaded(Bearings.of(A, "A", conditions), Bearings.of(B, "B", conditions), conditions)
    return [one.level for one in under.states]


def _fitted(seats: fitting.Seats, conditions: Conditions) -> tuple[Fitted, Fitted]:
    """Return how cone and cup sit with the classes answered or recommended, cold."""
    cold = np.array([REFERENCE_TEMPERATURE])
    both = fitting.seated(
        seats, seating.Running(np.zeros(1), conditions.resolved.rotating_ring, cold, cold, cold, cold)
    )
    shaft, housing = int(seats.shaft_code[0]), int(seats.housing_code[0])
    return (
        _of(both.cone, iso286.SHAFT_CLASSES[shaft] if shaft >= 0 else ""),
        _of(both.cup, iso286.HOLE_CLASSES[housing] if housing >= 0 else ""),
    )


def _of(seat: seating.Seat, name: str) -> Fitted:
    low, mean, high = (float(seat.mounted[0, at]) for at in (
        seating.PROBABLE_LEAST, seating.MEAN, seating.PROBABLE_GREATEST))  # fmt: skip
    if not np.isfinite(mean):
        return Fitted(0.0, FIT_WITHIN, "")
    return Fitted(mean, (high - low) / 2, name)


def _give(seats: fitting.Seats, one: RollerSet) -> Seats:
    """Return the seats of a bearing, and how much of an interference its raceways feel."""
    around = seats.around
    d, D = float(seats.rings.d[0]), float(seats.rings.D[0])
    bore, outside = float(np.ravel(around.shaft_bore)[0]), float(np.ravel(around.housing_outside(seats.rings.D))[0])
    on_shaft = pressure.joint_pressure(_UNIT, bore, d, one.cone_diameter, around.shaft, STEEL)
    in_housing = pressure.joint_pressure(_UNIT, one.cup_diameter, D, outside, STEEL, around.housing)
    cone = float(pressure.raceway_growth(on_shaft, d, one.cone_diameter, STEEL)) / _UNIT
    cup = float(pressure.raceway_shrinkage(in_housing, one.cup_diameter, D, STEEL)) / _UNIT
    return Seats(d, D, cone if np.isfinite(cone) else 0.0, cup if np.isfinite(cup) else 0.0)


def _mean_temperature(conditions: Conditions) -> float:
    cases = conditions.cases
    time = cases.share * cases.running
    return float(np.sum(time * cases.temperature) / np.sum(time))


def _growth(rows: Catalogue, one: RollerSet, T: tuple[float, float], life: float) -> tuple[float, float]:
    """Return by how much cone and cup grow over the life as their structure settles [-]."""
    table = steels.builtin()
    walls = (one.cone_diameter - float(rows.d[0])) / 2, (float(rows.D[0]) - one.cup_diameter) / 2
    found = []
    for wall, warm in zip(walls, T, strict=True):
        place = grades.grade_of(table, rows.steel[:1], rows.max_temperature[:1], np.array([wall]))
        austenite, limit = (grades.of_rows(table, place, name) for name in ("austenite", "temperature"))
        strain = float(growth.growth_strain(austenite, life, warm, limit)[0])
        found.append(strain if np.isfinite(strain) else 0.0)
    return found[0], found[1]
