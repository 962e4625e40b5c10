"""How tight: every class of a seat side by side: what it does to tension, creep, raceway and the play left running."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from engine import fitting
from engine.answers.chapters.fits import HOUSING_LADDER, RECOMMENDED, SHAFT_LADDER
from engine.catalogue.materials import steels
from engine.checks import fits, holding
from engine.holding import rings_held
from engine.numerics import Floats
from engine.operating import Conditions, Loads
from engine.report.fits import running
from engine.seat import creep, iso286, pressure, recommend
from engine.seat.seating import GREATEST, LEAST, MEAN
from engine.steel import grades
from engine.steel.grades import TREATMENTS
from engine.warmth import in_service as service

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


@dataclass(frozen=True)
class Rung:
    """One class of a seat; lengths in um, stress in MPa, use of each heat treatment as a share of what it bears."""

    name: str
    seat: tuple[float, float]  # lower and upper limit of the seat
    cold: tuple[float, float, float]  # interference by the limits: least, mean, greatest
    mounted: float  # mean once smoothing has taken its part
    running: tuple[float, float, float]  # in operation: least of all cases, mean of the hardest one, greatest of all
    tension: float  # of the ring, at the tight end; of a cup at its raceway, negative
    use: tuple[float, ...]  # of TREATMENTS; empty for a cup
    margins: tuple[float, float]  # against creep at the loose end and at the mean; NaN where no load is known
    lost: bool  # whether the ring creeps at the mean so that it rules the pair out
    raceway: float  # change of the raceway diameter by the fit at its mean: a cone grows, a cup shrinks (-)
    end_play: float  # end play that this closes
    #: End play of the pair in service, negative for preload: from a bench setting of loose rings, and of seated ones.
    left: tuple[float, float] = (math.nan, math.nan)


@dataclass(frozen=True)
class Ladder:
    """The classes of one seat from loose to tight, of which `at` is the one answered or recommended."""

    ring: str
    side: str
    rungs: tuple[Rung, ...]
    at: int
    recommended: bool
    zone: tuple[float, float]  # lower and upper deviation of the ring [um]
    size: float  # diameter of the seat [mm]
    load: str  # how the load goes round the ring
    needed: float  # interference that the hardest case asks for [um]; NaN where no load is known
    bench: float = 0.0  # bench setting that the end play left is followed from [um]
    seated: bool = True  # whether that is measured with the rings on their seats, as the setting is made

    @property
    def here(self) -> Rung:
        """The class as it stands."""
        return self.rungs[self.at]


def ladder(
    pair: tuple[Catalogue, Catalogue], ring: str, side: str, loads: Loads | None, conditions: Conditions
) -> Ladder:
    """Return the classes of one seat of a pair, given as catalogues of one row; `loads` are those of its side."""
    cone, resolved, rows = ring == "cone", conditions.resolved, pair["AB".index(side)]
    seats = service.seats_of(rows, side, loads, conditions)
    codes, at = _classes(seats, cone)
    many = rows.take(np.zeros(len(codes), dtype=np.intp))
    rings = fitting.rings_of(many)
    around = fitting.surroundings(rings, resolved.fits.side(side), resolved.fits)
    both = [seats.shaft_code.repeat(len(codes)), seats.housing_code.repeat(len(codes))]
    both[0 if cone else 1] = codes
    every = fitting.with_classes(rings, around, *both)
    chosen = resolved.fits.side(side).shaft if cone else resolved.fits.side(side).housing
    of = rings.limits
    ends = (of.bore_lower, of.bore_upper) if cone else (of.outside_lower, of.outside_upper)
    many_loads = _repeated(loads, len(codes))
    rungs, needed = _rungs(many, every, (ring, side), many_loads, conditions)
    return Ladder(
        ring, side, _with_play(rungs, pair, (ring, side), conditions), at, chosen == RECOMMENDED,
        (_um(ends[0][0]), _um(ends[1][0])), float((rings.d if cone else rings.D)[0]),
        fitting.ring_loads(resolved)[0 if cone else 1], needed,
        _um(running.bench_of(conditions)), resolved.setting.measured_mounted,
    )  # fmt: skip


def _with_play(
    rungs: tuple[Rung, ...], pair: tuple[Catalogue, Catalogue], seat: tuple[str, str], conditions: Conditions
) -> tuple[Rung, ...]:
    """Return the rungs with the end play that each leaves in service, where it is known."""
    mounted = np.array([rung.mounted for rung in rungs]) / fits.UM
    left = running.left(pair, seat, mounted, conditions) if np.isfinite(mounted).all() else None
    if left is None:
        return rungs
    return tuple(
        replace(rung, left=(_um(loose), _um(seated)))
        for rung, loose, seated in zip(rungs, left.loose, left.seated, strict=True)
    )


def _repeated(loads: Loads | None, times: int) -> Loads | None:
    if loads is None:
        return None
    T = loads.T.repeat(times, axis=0) if loads.T is not None and loads.T.ndim == 2 else loads.T
    level = loads.level.repeat(times) if loads.level is not None else None
    return Loads(loads.Fr.repeat(times, axis=0), loads.Fa.repeat(times, axis=0), T, level)


def _um(length: Floats | float) -> float:
    return round(float(length) * fits.UM, 6)


def _classes(seats: fitting.Seats, cone: bool) -> tuple[fitting.Codes, int]:
    """Return the ladder of the grade that is taken as places of classes, and where that class stands on it."""
    letters, usual = (SHAFT_LADDER, "6") if cone else (HOUSING_LADDER, "7")
    size = (seats.rings.d if cone else seats.rings.D)[0]
    of = fitting.shaft_code if cone else fitting.housing_code
    taken = int((seats.shaft_code if cone else seats.housing_code)[0])
    classes = iso286.SHAFT_CLASSES if cone else iso286.HOLE_CLASSES
    grade = classes[taken][-1] if taken >= 0 else usual
    codes = np.array([int(of(f"{letter}{grade}", size)) for letter in letters])
    if taken < 0:
        return codes, len(letters) // 2
    # js6 stands where j6 does
    at = letters.index(classes[taken][0])
    codes[at] = taken
    return codes, at


def _rungs(
    rows: Catalogue, seats: fitting.Seats, of: tuple[str, str], loads: Loads | None, conditions: Conditions
) -> tuple[tuple[Rung, ...], float]:
    (ring, side), resolved = of, conditions.resolved
    cone = ring == "cone"
    hardest = fitting.hardest_running(rows, resolved)
    seat = getattr(fitting.seated(seats, service.in_service(rows, loads, conditions)), ring)
    tension = fitting.greatest_tension(seats, hardest) if cone else seat.hoop_raceway[..., GREATEST].min(axis=-1)
    margins, needed = _margins(rows, seat.effective, ring, loads, conditions)
    # a cone is lost where it is short at the mean, a cup where it has play there
    lost = (margins[:, 1] < 1.0 if cone else margins[:, 1] == 0.0) & (ring in rings_held(side, resolved))
    change = seat.raceway_mounted[:, MEAN]
    closed = pressure.end_play_closed(np.abs(change), rows.alpha)
    limits = seats.shaft if cone else seats.housing
    codes, classes = (seats.shaft_code, iso286.SHAFT_CLASSES) if cone else (seats.housing_code, iso286.HOLE_CLASSES)
    use = _uses(rows, tension) if cone else np.zeros((len(rows), 0))
    least, mean, greatest = (
        seat.effective[..., end].min(axis=-1) if end < GREATEST else seat.effective[..., end].max(axis=-1)
        for end in (LEAST, MEAN, GREATEST)
    )
    return tuple(
        Rung(
            name=classes[int(codes[at])] if codes[at] >= 0 else "-",
            seat=(_um(limits.lower[at]), _um(limits.upper[at])),
            cold=(_um(seat.cold[at, LEAST]), _um(seat.cold[at, MEAN]), _um(seat.cold[at, GREATEST])),
            mounted=_um(seat.mounted[at, MEAN]),
            running=(_um(least[at]), _um(mean[at]), _um(greatest[at])),
            tension=float(tension[at]),
            use=tuple(use[at].tolist()),
            margins=(float(margins[at, 0]), float(margins[at, 1])),
            lost=bool(lost[at]),
            raceway=_um(change[at]),
            end_play=_um(closed[at]),
        )
        for at in range(len(rows))
    ), needed


def _uses(rows: Catalogue, tension: Floats) -> Floats:
    """Return tension over what the usual steel of each heat treatment bears, (n, treatments)."""
    table, wall = steels.builtin(), fitting.wall_of(fitting.rings_of(rows))
    allowed = [grades.of_rows(table, grades.grade_of(table, name, 0.0, wall), "hoop") for name in TREATMENTS]
    return np.asarray(tension[:, None] / np.stack(allowed, axis=-1))


def _margins(
    rows: Catalogue, effective: Floats, ring: str, loads: Loads | None, conditions: Conditions
) -> tuple[Floats, float]:
    """Return the least margins over the cases at the loose end and at the mean, and what the hardest case needs."""
    if loads is None:
        return np.full((len(rows), 2), np.nan), np.nan
    if fitting.ring_loads(conditions.resolved)[0 if ring == "cone" else 1] == recommend.POINT:
        return np.full((len(rows), 2), np.inf), 0.0
    needed = holding.needed_by(rows, ring, loads, conditions)
    margins = creep.creep_margin(effective, needed[..., None])[..., [LEAST, MEAN]].min(axis=1)
    return margins, _um(needed.max())
