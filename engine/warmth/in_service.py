"""What the loads of a pair say to its fits: the seats that their level asks for, and the temperatures in service."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine import fitting
from engine.fitting import Codes
from engine.numerics import Floats
from engine.operating import Conditions, Loads
from engine.seat.seating import Running

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


def seats_of(rows: Catalogue, side: str, loads: Loads | None, conditions: Conditions) -> fitting.Seats:
    """Return the seats of bearings on side A or B, with the classes that their loads ask for where these are known."""
    return fitting.seats_of(rows, side, conditions.resolved, level_under(loads))


def level_under(loads: Loads | None) -> Codes | None:
    """Return the load level that loads make; None while they are not known."""
    return None if loads is None else loads.level


def in_service(rows: Catalogue, loads: Loads | None, conditions: Conditions) -> Running:
    """Return the cases answered, at the temperatures stated or settled under the loads; else the hardest running."""
    if loads is None:
        return fitting.hardest_running(rows, conditions.resolved)
    return fitting.running(conditions.resolved, conditions.cases.n, temperatures(loads, conditions))


def temperatures(loads: Loads, conditions: Conditions) -> Floats:
    """Return the temperatures of the bearings under the loads in each case [deg C], (k,) or (n, k).

    They are not known (NaN) where no temperature settles.
    """
    return conditions.cases.temperature if loads.T is None else loads.T
