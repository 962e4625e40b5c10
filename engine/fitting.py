"""Both seats of many bearings as they are answered: classes, limits, surroundings and the steel of the rings.

Which class a seat gets is answered, or recommended by ring load, level, size, material
and mounting; inch rings get the twin limits of the same class.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from engine.answers.chapters.fits import BY_LOADS, RECOMMENDED
from engine.answers.fitted import Fitted, Side
from engine.answers.resolved import Resolved
from engine.catalogue.kept import kept_with_rows
from engine.catalogue.materials import steels
from engine.numerics import Bools, Floats
from engine.seat import iso286, limits, recommend, seating
from engine.seat.material import MATERIALS
from engine.seat.seating import Rings, Running, Seating, Surroundings
from engine.steel import grades, toughness

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

Codes = NDArray[np.int64]
#: The load levels as they are answered, in the order of `recommend.LEVELS`; the usual one stands in for an open one.
_LEVELS = dict(zip(("light", "normal", "heavy", "shock"), recommend.LEVELS, strict=True))
USUAL = recommend.LEVELS.index("normal")
#: Neither j nor J is made above this size [mm]; js and JS take their place.
_J_UP_TO = 500.0


@dataclass(frozen=True)
class Seats:
    """The seats of n bearings on one side: classes as places in the tables of ISO 286, limits, what is around."""

    rings: Rings
    shaft_code: Codes
    housing_code: Codes
    shaft: limits.SeatLimits
    housing: limits.SeatLimits
    around: Surroundings

    @property
    def known(self) -> Bools:
        """Whether the limits of both rings and seats are at hand."""
        ring = self.rings.limits
        sides = (ring.bore_upper, ring.outside_upper, self.shaft.upper, self.housing.upper)
        return np.asarray(np.isfinite(np.stack(sides)).all(axis=0))

    @property
    def has_wall(self) -> Bools:
        """Whether the shaft has any wall left round its bore."""
        return np.asarray(np.broadcast_to(self.around.shaft_bore, self.rings.d.shape) < self.rings.d)


@kept_with_rows(most=1)
def rings_of(rows: Catalogue) -> Rings:
    """Return the rings of a catalogue, which no answer changes."""
    return Rings.of(rows.system, rows.tolerance, {name: getattr(rows, name) for name in ("d", "D", "B", "C", "F", "E")})


def wall_of(rings: Rings) -> Floats:
    """Return the thickness of the thicker of both rings [mm]."""
    return np.asarray(np.maximum(rings.F - rings.d, rings.D - rings.E) / 2.0)


@kept_with_rows(most=1)
def steel_of(rows: Catalogue) -> Codes:
    """Return for each bearing the place of the steel that its rings are taken to be of."""
    return grades.grade_of(steels.builtin(), rows.steel, rows.max_temperature, wall_of(rings_of(rows)))


def of_steel(rows: Catalogue, name: str) -> Floats:
    """Return a property of the steel that each bearing is taken to be of."""
    return grades.of_rows(steels.builtin(), steel_of(rows), name)


def shock_factor(resolved: Resolved) -> float:
    """Return the factor on the tension: that of the worst load case, or the usual one of the shock answered."""
    stated = resolved.fits.shock_factor
    return max(1.0, toughness.FACTOR[resolved.shock] if stated is None else stated)


def borne(rows: Catalogue) -> tuple[Floats, Floats]:
    """Return the tension that the steel of each bearing bears for good, and that its core stands under shock [MPa]."""
    return of_steel(rows, "hoop"), toughness.critical_tension(of_steel(rows, "core_toughness"), toughness.FLAW)


def shock_tension(tension: Floats, resolved: Resolved) -> Floats:
    """Return the tension that the core must stand [MPa]: that of the fit times shock, and what heavy shock asks."""
    floor = toughness.critical_tension(toughness.FLOOR[resolved.shock], toughness.FLAW)
    return np.maximum(tension * shock_factor(resolved), floor)


def ring_loads(resolved: Resolved) -> tuple[str, str]:
    """Return how the load goes round cone and cup."""
    return recommend.ring_loads(resolved.rotating_ring, resolved.load_direction)


def surroundings(rings: Rings, side: Side, fits: Fitted) -> Surroundings:
    """Return shaft and housing of one side."""
    return Surroundings(
        shaft=MATERIALS[fits.shaft],
        shaft_bore=np.maximum(side.shaft_bore, fits.hollow_share * rings.d),
        shaft_Rz=fits.shaft_Rz,
        housing=MATERIALS[fits.housing],
        housing_wall=fits.housing_wall,
        housing_Rz=fits.housing_Rz,
    )


def by_loads(name: str, resolved: Resolved) -> bool:
    """Return whether a class of a side is recommended by the level that each bearing's own loads make."""
    side = resolved.fits.side(name)
    return resolved.fits.level == BY_LOADS and RECOMMENDED in {side.shaft, side.housing}


def _own(name: str, resolved: Resolved, level: str | None = None) -> Fitted:
    """Return the fits with nothing in them that the seats of a side do not depend on, so that fewer are computed."""
    fits = resolved.fits
    own = fits.side(name)
    return replace(fits, A=own, B=own, level=level or fits.level, mounting=None, shock_factor=None, creeping="")


def seats_of(rows: Catalogue, name: str, resolved: Resolved, level: Codes | None = None) -> Seats:
    """Return the seats of the rows of a catalogue on side A or B, with the classes answered or recommended.

    `level` (n,) is that of the loads, where classes are recommended by it; the usual one stands in while it is open.
    """
    loads = ring_loads(resolved)
    if not by_loads(name, resolved):
        return _seats(rows, name, _own(name, resolved), loads)
    if level is None:
        return _seats(rows, name, _own(name, resolved, list(_LEVELS)[USUAL]), loads)
    each = [_seats(rows, name, _own(name, resolved, one), loads) for one in _LEVELS]
    shaft, housing = (np.choose(level, [getattr(one, of) for one in each]) for of in ("shaft_code", "housing_code"))
    return with_classes(each[USUAL].rings, each[USUAL].around, shaft, housing)


@kept_with_rows(most=16)
def _seats(rows: Catalogue, name: str, fits: Fitted, loads: tuple[str, str]) -> Seats:
    return _made(rows, name, fits, loads)


def _made(rows: Catalogue, name: str, fits: Fitted, loads: tuple[str, str]) -> Seats:
    rings, side = rings_of(rows), fits.side(name)
    around = surroundings(rings, side, fits)
    shaft = _shaft_codes(rings, side, around, (fits, loads[0]))
    housing = _housing_codes(rings, side, around, (fits, loads[1]))
    return with_classes(rings, around, shaft, housing)


def with_classes(rings: Rings, around: Surroundings, shaft_code: Codes, housing_code: Codes) -> Seats:
    """Return the seats of some rings for given classes."""
    return Seats(
        rings, shaft_code, housing_code,
        limits.shaft_limits(rings.d, shaft_code, rings.limits),
        limits.housing_limits(rings.D, housing_code, rings.limits), around,
    )  # fmt: skip


def shaft_code(name: str, d: Floats) -> Codes:
    """Return the place of a shaft class for each bore; j gives way to js where it is not made."""
    large = f"js{name[1:]}" if name.startswith("j") and not name.startswith("js") else name
    return np.where(
        (d > _J_UP_TO) | (name not in iso286.SHAFT_CLASSES), iso286.shaft_code(large), iso286.shaft_code(name)
    )


def housing_code(name: str, D: Floats) -> Codes:
    """Return the place of a housing class for each outside diameter; J gives way to JS where it is not made."""
    large = f"JS{name[1:]}" if name.startswith("J") and not name.startswith("JS") else name
    return np.where((D > _J_UP_TO) | (name not in iso286.HOLE_CLASSES), iso286.hole_code(large), iso286.hole_code(name))


def _shaft_codes(rings: Rings, side: Side, around: Surroundings, of: tuple[Fitted, str]) -> Codes:
    if side.shaft != RECOMMENDED:
        return shaft_code(side.shaft, rings.d)
    fits, load = of
    need = recommend.Need(load, _LEVELS[fits.level], side.cone_slides)
    usual, tighter = (
        recommend.shaft_class(rings.d, replace(need, yielding=thin), rings.limits.precise) for thin in (False, True)
    )
    chosen = np.where(around.shaft_bore > recommend.THIN_SHAFT_ABOVE * rings.d, tighter, usual)
    # the recommendation knows j alone
    for grade in (5, 6):
        too_large = (rings.d > _J_UP_TO) & (chosen == iso286.shaft_code(f"j{grade}"))
        chosen = np.where(too_large, iso286.shaft_code(f"js{grade}"), chosen)
    return np.asarray(chosen)


def _housing_codes(rings: Rings, side: Side, around: Surroundings, of: tuple[Fitted, str]) -> Codes:
    if side.housing != RECOMMENDED:
        return housing_code(side.housing, rings.D)
    fits, load = of
    need = recommend.Need(load, _LEVELS[fits.level], side.cup_slides, split=fits.split)
    usual, tighter = (
        recommend.housing_class(rings.D, replace(need, yielding=thin), rings.limits.precise) for thin in (False, True)
    )
    thin = around.housing_outside(rings.D) < recommend.THIN_HOUSING_BELOW * rings.D
    return np.where(thin | (fits.housing == "aluminium"), tighter, usual)


def running(resolved: Resolved, n: Floats, T: Floats) -> Running:
    """Return cases of given speeds [rpm], (k,), and ring temperatures [deg C], (k,), or (n, k) if each has its own."""
    return _running(resolved.fits, resolved.rotating_ring, n, T)


def _running(fits: Fitted, turning: str, n: Floats, T: Floats) -> Running:
    return Running(n, turning, T - fits.cone_hotter, T, T, T - fits.cup_hotter)


@dataclass(frozen=True)
class _Hardest:
    """What is known of the hardest running before loads are: speed [rpm], temperatures [deg C], whether any settles."""

    n: float
    coldest: float
    hottest: float
    settles: bool


def _hardest(resolved: Resolved) -> _Hardest:
    cases = resolved.cases
    found = set() if cases else {resolved.temperature}
    for case in cases:
        found |= set(case.bins.temperature) if case.bins and case.bins.temperature else {case.temperature}
    fastest = max([resolved.n_greatest or 0.0, *(max(case.bins.speed) for case in cases if case.bins)])
    stated = [T for T in found if not np.isnan(T)]
    settles = len(stated) < len(found)
    if settles:
        around = resolved.lubricated.surroundings
        stated += [around.ambient, *([around.oil_inlet] if around.oil_flow else [])]
    return _Hardest(fastest, min(stated), max(stated), settles)


def hardest_running(rows: Catalogue, resolved: Resolved) -> Running:
    """Return what strains the rings most by running: the highest speed, at the coldest and the hottest case.

    Between both the strain changes evenly with the temperature. One that settles with the loads lies between that of
    what cools it and what the steel of the bearing bears, or the bearing is out for its heat.
    """
    return _hardest_running(rows, resolved.fits, resolved.rotating_ring, _hardest(resolved))


def _hardest_running(rows: Catalogue, fits: Fitted, turning: str, hardest: _Hardest) -> Running:
    if hardest.settles:
        hottest = np.fmax(rows.max_temperature, hardest.hottest)
        T = np.stack([np.full(len(rows), hardest.coldest), hottest], axis=-1)
    else:
        T = np.array(sorted({hardest.coldest, hardest.hottest}))
    return _running(fits, turning, np.full(T.shape[-1], hardest.n), T)


def seated(seats: Seats, run: Running) -> Seating:
    """Return everything about the seats that depends on no load."""
    return seating.seat_of(seats.rings, seats.shaft, seats.housing, seats.around, run)


def greatest_tension(seats: Seats, run: Running) -> Floats:
    """Return the greatest tangential tension in either ring at the tight end of its fit [MPa], (n,).

    A ring whose limits are not at hand is left out; on a shaft without a wall the tension has no end.
    """
    return _greatest_tension(seated(seats, run), seats)


def _greatest_tension(both: Seating, seats: Seats) -> Floats:
    tension = np.fmax(np.fmax(both.cone.hoop_greatest, both.cup.hoop_greatest), 0.0)
    return np.where(seats.has_wall, tension, np.inf)


@dataclass(frozen=True)
class Borne:
    """What the classes do to n bearings, (n,) each.

    The greatest tension [MPa], the mean interference of cone and of cup once they are mounted [mm], and the temperature
    at which the cone slides on at the tight end of its fit [deg C].
    """

    tension: Floats
    cone: Floats
    cup: Floats
    heating: Floats


def borne_at(rows: Catalogue, name: str, resolved: Resolved, of: str, level: Codes | None = None) -> Floats:
    """Return one of the figures of `Borne` for the rows of a catalogue on side A or B, (n,); `level` as in `seats_of`.

    Most answers change nothing of it.
    """
    each = borne_by_levels(rows, name, resolved)
    if len(each) == 1:
        return np.asarray(getattr(each[0], of))
    if level is None:
        return np.asarray(getattr(each[USUAL], of))
    return np.asarray(np.choose(level, [getattr(one, of) for one in each]))


def at_level(each: Floats, level: Codes) -> Floats:
    """Return what stands at the load levels (...) in the columns (n, levels), as one column: (..., 1).

    Where there is one column only, no level changes it.
    """
    columns = np.broadcast_to(each, (*level.shape, each.shape[-1]))
    return columns if columns.shape[-1] == 1 else np.take_along_axis(columns, level[..., None], axis=-1)


def borne_by_levels(rows: Catalogue, name: str, resolved: Resolved) -> tuple[Borne, ...]:
    """Return them at each load level, or once where the classes of a side do not follow from it.

    A heavier load never makes a looser fit, so tension, interference and heating never fall from level to level.
    """
    levels = list(_LEVELS) if by_loads(name, resolved) else [None]
    loads, turning = ring_loads(resolved), (resolved.rotating_ring, _hardest(resolved))
    return tuple(_borne(rows, name, _own(name, resolved, one), loads, turning) for one in levels)


@kept_with_rows(most=32)
def _borne(rows: Catalogue, name: str, fits: Fitted, loads: tuple[str, str], running: tuple[str, _Hardest]) -> Borne:
    # of large catalogues the seats of every level are too much to keep
    seats = _made(rows, name, fits, loads)
    both = seated(seats, _hardest_running(rows, fits, *running))
    found = Borne(
        _greatest_tension(both, seats), both.cone.mounted[:, seating.MEAN].copy(),
        both.cup.mounted[:, seating.MEAN].copy(), both.cone.heating,
    )  # fmt: skip
    for column in (found.tension, found.cone, found.cup, found.heating):
        column.flags.writeable = False
    return found
