"""One bearing by itself by hand, in plain Python: wishes, room, speed, heat, fit and steel; no check of the engine.

Serves with one_pair.py as the second calculation for the screening: a part may be dropped before any pair is formed
only where it stays in no pair.
"""

import numpy as np

from engine import fitting
from engine.catalogue.materials import steels
from tests.engine.selection import one_ring

#: A dimension typed from a drawing counts as met when it is off by no more than this [mm].
SLACK = 0.01


def stays(rows, side, resolved, level=None):
    """Return for each row of a catalogue whether it may be in a pair on that side, and how near the nearest call is.

    `level` is the load level that fits recommended by the loads are for.
    """
    fitted = fit_and_steel(rows, side, resolved, level)
    found = []
    for at, (bears, margin) in enumerate(fitted):
        row = {name: getattr(rows, name)[at] for name in COLUMNS}
        fits, nearest = _by_itself(row, side, resolved)
        found.append((bears and fits and _wanted(row, resolved), min(margin, nearest)))
    return found


def fit_and_steel(rows, side, resolved, level=None):
    """Return for each row whether fit and steel let it stay, and how near the nearest decision is."""
    of = None if level is None else np.full(len(rows), level)
    seats, grades = fitting.seats_of(rows, side, resolved, of), steels.builtin().rows
    found = []
    for at, place in enumerate(fitting.steel_of(rows)):
        row = {name: float(getattr(rows, name)[at]) for name in ("d", "D", "F", "E")}
        bore = float(np.broadcast_to(seats.around.shaft_bore, rows.d.shape)[at])
        es, EI = float(seats.shaft.upper[at]), float(seats.rings.limits.bore_lower[at])
        # the housing presses the cup, and what turning adds stays below the cone's tension at these speeds
        tension = max(one_ring.tension_of_cone(row, es, EI, bore, resolved), 0.0)
        found.append(one_ring.bears(tension, grades[place], resolved))
    return found


def seats(rows, side, resolved, level=None):
    """Return for each row what its seats and its steel are: limits, sizes and expansion of the ring that must hold.

    That is the one that the load goes round, unless it must slide; a housing is half as large again as its bore.
    """
    of = None if level is None else np.full(len(rows), level)
    made, grades = fitting.seats_of(rows, side, resolved, of), steels.builtin().rows
    own, fits, found = made.rings.limits, resolved.fits, []
    held = rings_held(side, resolved)
    for at, place in enumerate(fitting.steel_of(rows)):
        row = {name: float(getattr(rows, name)[at]) for name in ("d", "D", "B", "C", "E", "F")}
        bore = float(np.broadcast_to(made.around.shaft_bore, rows.d.shape)[at])
        cone = ((bore, row["d"], row["F"]), (_ends(made.shaft, at), (own.bore_upper[at], own.bore_lower[at])),
                (fits.shaft_Rz + 0.0016, AROUND[fits.shaft]), row["B"])  # fmt: skip
        outside = own.outside_upper[at], own.outside_lower[at]
        cup = ((row["E"], row["D"], 1.5 * row["D"]), (outside, _ends(made.housing, at)),
               (fits.housing_Rz + 0.0016, AROUND[fits.housing]), row["C"])  # fmt: skip
        both = {"cone": cone, "cup": cup}
        found.append(({ring: both[ring] for ring in held}, grades[place]))
    return found


#: Handbook values of shafts and housings that random duties name: expansion, density [t/mm3], E [MPa], Poisson's ratio.
AROUND = {
    "steel": (12.0e-6, 7.85e-9, 206e3, 0.3), "grey_iron": (10.5e-6, 7.2e-9, 110e3, 0.25),
    "aluminium": (23.5e-6, 2.7e-9, 70e3, 0.33),
}  # fmt: skip


def _ends(seat, at):
    return float(seat.upper[at]), float(seat.lower[at])


def rings_held(side, resolved):
    """Return the rings of a side under a load that goes round them, unless they must slide; they turn or stand."""
    if resolved.fits.creeping != "fails":
        return []
    seat = resolved.fits.side(side)
    cone_turns, load = resolved.rotating_ring == "cone", resolved.load_direction
    if load == "indeterminate":
        return []
    round_cone = cone_turns if load == "fixed" else load == "with_cup"
    if round_cone:
        return [] if seat.cone_slides else ["cone"]
    return [] if seat.cup_slides else ["cup"]


COLUMNS = ("d", "D", "T", "system", "availability", "listed", "steel", "n_grease", "n_oil", "max_temperature")


def _wanted(row, resolved):
    """Whether system, stock, set and steel are as answered."""
    if resolved.system != "both" and row["system"] != resolved.system:
        return False
    if resolved.availability == "stocked" and row["availability"] != "stocked":
        return False
    if resolved.availability == "current" and row["availability"] == "discontinued":
        return False
    if not resolved.formed and row["listed"] != "listed":
        return False
    return resolved.steel in ("either", row["steel"])


def _by_itself(row, side, resolved):
    """Whether it has room, is fast enough and stands the heat, and how near the nearest decision is."""
    fits, nearest = True, float("inf")
    for name in ("d", "D", "T"):
        limits = resolved.limits[name]["AB".index(side)]
        size = float(row[name]) * (2 if resolved.locating and name == "T" else 1)
        for limit, sign in ((limits.least, 1), (limits.greatest, -1)):
            if limit is not None:
                room = sign * (size - limit) + SLACK
                fits, nearest = fits and room >= 0, min(nearest, abs(room))
    limit = float(row["n_grease" if resolved.supply == "grease" else "n_oil"])
    for demand, capacity in ((resolved.n_greatest, limit), (resolved.peak_temperature, float(row["max_temperature"]))):
        if demand is not None:
            fits, nearest = fits and demand <= capacity, min(nearest, abs(demand / capacity - 1))
    return fits, nearest
