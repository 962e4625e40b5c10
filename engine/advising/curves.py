"""Curves of one pair: viscosity over temperature, and heat made and shed over temperature, with where it runs."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.advising.standing import Standing
from engine.lubrication import heat, viscosity, viscosity_ratio
from engine.lubrication.lubricant import Lubricant
from engine.numerics import Floats
from engine.warmth.contact import made_in_housing, seats_of
from engine.warmth.settling import cooling

POINTS = 60
_LEAST_SPAN = (0.0, 100.0)


@dataclass(frozen=True)
class Place:
    """Where a bearing runs in its worst case: T [deg C], nu and nu1 [mm2/s], kappa [-], and the case's name."""

    side: str
    case: str
    T: float
    nu: float
    nu1: float
    kappa: float


@dataclass(frozen=True)
class Viscosities:
    """A lubricant over temperature, and where the bearings of the pair run; no places while loads are not known."""

    name: str
    T: Floats
    nu: Floats
    places: tuple[Place, ...] = ()


@dataclass(frozen=True)
class Heats:
    """Heat made and shed in a housing over temperature [W], in the case that runs hottest, and where both are equal.

    `settled` is NaN where they never are, `said` how the balance ended, `by` what cools; `stated` is the temperature
    that was answered in place of a balance, NaN where there is none.
    """

    side: str
    case: str
    T: Floats
    made: Floats
    shed: Floats
    settled: float
    said: str
    by: str
    stated: float
    made_there: float


def viscosities(oil: Lubricant, now: Standing | None) -> Viscosities:
    """Return the viscosity curve, with where a pair runs on it."""
    places = () if now is None else tuple(place for place in (_place(now, at) for at in (0, 1)) if place is not None)
    known = [place.T for place in places if np.isfinite(place.T)]
    low, high = min([_LEAST_SPAN[0], *(T - 10 for T in known)]), max([_LEAST_SPAN[1], *(T + 10 for T in known)])
    T = np.linspace(low, high, POINTS)
    return Viscosities(oil.name, T, viscosity.kinematic_viscosity_full(T, oil.nu40, oil.nu100), places)


def _place(now: Standing, at: int) -> Place | None:
    """Return where a bearing runs with its least kappa."""
    cases, found = now.conditions.cases, now.evaluated
    assert found.bearings is not None and found.warmth is not None
    running = np.flatnonzero(cases.running)
    if not len(running):
        return None
    kappa = np.broadcast_to(found.bearings[at].kappa, (1, len(cases)))[0, running]
    worst = int(running[np.argmin(np.nan_to_num(kappa, nan=-1.0))])
    rows = (found.A, found.B)[at]

    def here(values: Floats) -> float:
        return float(np.ravel(np.asarray(values)[..., worst])[0])

    nu1 = float(viscosity_ratio.reference_viscosity_nu1(cases.n[worst], rows.Dpw[0]))
    T, nu = here(found.warmth.T[at]), here(found.warmth.nu[at])
    return Place("AB"[at], cases.names[worst], T, nu, nu1, here(found.bearings[at].kappa))


def heats(now: Standing) -> tuple[Heats, ...]:
    """Return heat made and shed in each housing: one where both bearings share it; none where nothing runs."""
    conditions, found = now.conditions, now.evaluated
    assert found.contacts is not None and found.warmth is not None
    if not conditions.cases.running.any():
        return ()
    around = conditions.resolved.lubricated.surroundings
    made, seats = made_in_housing(found.contacts, conditions), seats_of(found.contacts, conditions)
    sides = (0,) if around.shared else (0, 1)
    return tuple(_heat(now, at, made[at], seats[at]) for at in sides)


def _heat(now: Standing, at: int, made: heat.Losses, seats: Floats) -> Heats:
    conditions = now.conditions
    wet, cases = conditions.resolved.lubricated, conditions.cases
    oil, around = wet.lubricant, wet.surroundings
    cooled = cooling(around, seats)
    balance = heat.settle(made, cooled, oil.nu40, oil.nu100)
    T_all = np.broadcast_to(balance.T, (1, len(cases)))[0]
    running = np.flatnonzero(cases.running)
    worst = int(running[np.argmax(np.nan_to_num(T_all[running], nan=np.inf))])
    settled = float(T_all[worst])
    stated = float("nan") if wet.settled else float(cases.temperature[worst])
    ends = [T for T in (settled, stated) if np.isfinite(T)]
    T = np.linspace(around.ambient, max([60.0, *(end + 30 for end in ends)]), POINTS)
    here = _case_of(made, worst)
    shed = np.array([float(np.ravel(cooled.at(one))[0]) for one in T])
    nu = viscosity.kinematic_viscosity_full(T, oil.nu40, oil.nu100)
    there = float(here.at(viscosity.kinematic_viscosity_full(stated, oil.nu40, oil.nu100)))
    status = int(np.ravel(np.broadcast_to(balance.status, (1, len(cases)))[0, worst])[0])
    return Heats(
        "both" if around.shared else "AB"[at], cases.names[worst], T, np.asarray(here.at(nu)), shed, settled,
        heat.SAID[status], _cooled_by(now), stated, there,
    )  # fmt: skip


def _case_of(made: heat.Losses, at: int) -> heat.Losses:
    def here(values: Floats) -> Floats:
        values = np.asarray(values)
        return np.asarray(np.ravel(values[..., at])[0] if values.ndim else values)

    return heat.Losses(here(made.n), here(made.oil), here(made.load), here(made.other))


def _cooled_by(now: Standing) -> str:
    around = now.conditions.resolved.lubricated.surroundings
    air = (
        f"{around.area / 1e6:g} m2 of housing in {'still air' if not around.air_speed else f'{around.air_speed:g} m/s'}"
        if around.area is not None
        else "the seats as ISO 15312 takes them"
    )
    oil = f", {around.oil_flow:g} l/min of oil in at {around.oil_inlet:g} degC" if around.oil_flow else ""
    return f"{air}, {around.ambient:g} degC{oil}"
