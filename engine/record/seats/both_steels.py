"""Both heat treatments side by side: what each steel is asked and offers, check by check, and what decides."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.checks import fits, steel
from engine.checks.every import Evaluated
from engine.operating import Conditions
from engine.record.seats.steels import NAMES
from engine.steel import verdict
from engine.steel.grades import TREATMENTS, Grade
from engine.steel.verdict import CHECKS, CLOSE, CONDITION, FIXED, OUTCOMES, SUITS
from engine.units import number_text

if TYPE_CHECKING:
    from engine.steel.verdict import Verdicts

#: Each check in the words of a table: what it is about, the unit shown, and how many of them make one of the engine's.
_ROWS = {
    "hoop": ("hoop stress", "MPa", 1.0),
    "toughness": ("shock on the core", "MPa m^.5", 1.0),
    "dirt": ("hard particles", "places", 1.0),
    "heat": ("highest temperature", "degC", 1.0),
    "stability": ("growth in its life", "um", fits.UM),
    "wall": ("thickness of ring", "mm", 1.0),
}
_MEANINGS = {SUITS: "passes", CONDITION: "caution"}


@dataclass(frozen=True)
class Facing:
    """One line of the comparison: what it is about, and of each of TREATMENTS what is said and what it means."""

    name: str
    values: tuple[str, str]
    meanings: tuple[str, str] = ("plain", "plain")


def side_by_side(evaluated: Evaluated, conditions: Conditions, side: str) -> tuple[Facing, ...]:
    """Return the comparison for the bearing of one side of the first pair; the first line is the head.

    A utilisation is the share of what the steel allows, with what is asked and allowed behind it.
    """
    at = "AB".index(side)
    rows = (evaluated.A, evaluated.B)[at]
    loads = evaluated.loads[at] if evaluated.loads is not None else None
    told = steel.told(rows, side, loads, conditions)
    grades = [told.grades.rows[int(place)] for place in told.steel[0]]
    outcomes = [int(outcome) for outcome in told.outcome[0]]
    this = [", this one" if str(rows.steel[0]) == name else "" for name in TREATMENTS]
    return (
        _facing("", [f"{NAMES[name]}{mark}" for name, mark in zip(TREATMENTS, this, strict=True)]),
        _facing("verdict", [OUTCOMES[one] for one in outcomes], [_MEANINGS.get(one, "fails") for one in outcomes]),
        _facing("steel", [one.name for one in grades]),
        _facing("decided by", [_decided(told, column) for column in (0, 1)]),
        *_checks(told, steel.asked(rows, side, loads, conditions)),
        _facing("relative cost", [number_text(one.cost.value, 3) for one in grades]),
        _facing("availability", [_availability(one) for one in grades]),
        _facing("would help", [_remedy(told, column) for column in (0, 1)]),
    )


def _facing(name: str, values: list[str], meanings: list[str] | None = None) -> Facing:
    first, second = meanings or ["plain", "plain"]
    return Facing(name, (values[0], values[1]), (first, second))


def _availability(grade: Grade) -> str:
    return "made to stock" if grade.ordinary else "made to order"


def _decided(told: Verdicts, column: int) -> str:
    """Return the check that decides; of a steel made to order what the usual one lacks."""
    check = int(told.deciding[0, column])
    name, _, _ = _ROWS[list(CHECKS)[check]]
    place, usual = int(told.steel[0, column]), int(told.usual[0, column])
    if told.grades.rows[place].ordinary or place == usual:
        return name
    used = float(told.utilisation[0, usual, check])
    return f"{name}, of {told.grades.rows[usual].name} at {_share(used)}"


def _remedy(told: Verdicts, column: int) -> str:
    if int(told.outcome[0, column]) == SUITS:
        return "-"
    return list(CHECKS.values())[int(told.deciding[0, column])][1]


def _checks(told: Verdicts, asked: verdict.Asked) -> list[Facing]:
    demand, capacity = verdict.demands(asked, told.grades)
    places, found = [int(place) for place in told.steel[0]], []
    for check, key in enumerate(CHECKS):
        name, unit, times = _ROWS[key]
        values, meanings = [], []
        for place in places:
            used = float(told.utilisation[0, place, check])
            of, allowed = (float(both[0, place, check]) * times for both in (demand, capacity))
            values.append(f"{_share(used)}: {number_text(of, 3)} of {number_text(allowed, 3)} {unit}")
            close = used > CLOSE and key not in FIXED
            meanings.append("fails" if not used <= 1.0 else "caution" if close else "plain")
        found.append(_facing(name, values, meanings))
    return found


def _share(used: float) -> str:
    return "?" if math.isnan(used) else f"{used:.2f}" if math.isfinite(used) else "no end"
