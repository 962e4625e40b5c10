"""One seat in both measuring systems: the metric ring, the inch ring, and the inch ring on the metric limits.

Limits are worked so that both rings sit alike; the third column is the error that the metric limits would make.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from engine import fitting
from engine.checks import holding
from engine.checks.fits import UM
from engine.numerics import Floats
from engine.operating import Conditions, Loads
from engine.record.seats.fit import Fit
from engine.seat import limits
from engine.seat.limits import SeatLimits, ring_limits
from engine.seat.recommend import POINT
from engine.seat.seating import GREATEST, LEAST, MEAN, Seat
from engine.warmth import in_service as service

if TYPE_CHECKING:
    from engine.fitting import Seats

#: The class of the metric ring that is set beside an inch one, and of the inch ring beside a metric one.
METRIC_CLASS, INCH_CLASS = "Normal", "4"


@dataclass(frozen=True)
class Case:
    """One ring on one seat: what it is, its deviations and the limits of the seat (upper, lower), and what follows.

    All in um: interference by the limits (least, greatest), in operation at the mean in the hardest case, and by how
    much the raceway changes by the mean fit, a cone's growing. `margin` is that against creep at the mean, None where
    no load is known or none goes round the ring.
    """

    name: str
    ring: tuple[float, float]
    seat: tuple[float, float]
    cold: tuple[float, float]
    running: float
    raceway: float
    margin: float | None


@dataclass(frozen=True)
class Twins:
    """The same seat in both systems, and the inch ring on the limits that the metric ring has."""

    ring: str
    side: str
    class_name: str
    metric: Case
    inch: Case
    mistaken: Case

    @property
    def cases(self) -> tuple[Case, Case, Case]:
        """All three, in the order in which they are shown."""
        return self.metric, self.inch, self.mistaken

    @property
    def errors(self) -> tuple[float, float]:
        """By how much the metric limits would change the fit of the inch ring, loose end and tight end [um]."""
        wrong, right = self.mistaken.cold, self.inch.cold
        return wrong[0] - right[0], wrong[1] - right[1]

    @property
    def follows(self) -> str:
        """What using the metric limits on the inch ring would lead to."""
        low, high = sorted(abs(round(error)) for error in self.errors)
        looser = self.errors[0] < 0
        parts = [f"{low} to {high} um {'looser' if looser else 'tighter'} than meant"]
        wrong, right = self.mistaken, self.inch
        if wrong.cold[0] < 0 <= right.cold[0]:
            parts.append("play at the loose end")
        if wrong.cold[0] >= 0 > right.cold[0]:
            parts.append("no play left to slide in")
        if wrong.margin is not None and right.margin is not None and wrong.margin < 1.0 <= right.margin:
            parts.append("it creeps even at the mean")
        more = wrong.raceway - right.raceway
        if abs(more) >= 0.5:
            moves = "grows" if self.ring == "cone" else "is squeezed"
            parts.append(f"the raceway {moves} {abs(more):.0f} um {'less' if looser else 'more'}")
        return ", ".join(parts)


def twins(fit: Fit, loads: Loads | None) -> Twins | None:
    """Return one seat in both systems; None where limits are not at hand.

    Beside an inch ring stands a metric one of class Normal, beside a metric ring an inch one of class 4.
    """
    own = fit.seats.rings
    inch = own.limits if fit.from_plus else ring_limits(["inch"], [INCH_CLASS], own.d, own.D)
    metric = ring_limits(["metric"], [METRIC_CLASS], own.d, own.D)
    name = (str(fit.rows.tolerance[0]) if fit.from_plus else "") or INCH_CLASS
    on_metric, on_inch = (_with_rings(fit.seats, of) for of in (metric, inch))
    wrong = replace(on_inch, shaft=on_metric.shaft, housing=on_metric.housing)
    made = [
        _case(words, fit, seats, loads)
        for words, seats in (
            (f"metric, {METRIC_CLASS}", on_metric), (f"inch, class {name}", on_inch),
            ("inch on the metric limits", wrong),
        )
    ]  # fmt: skip
    if not np.isfinite([value for one in made for value in (*one.ring, *one.seat)]).all():
        return None
    return Twins(fit.ring, fit.side, fit.class_name, *made)


def _with_rings(seats: Seats, of: limits.RingLimits) -> Seats:
    return fitting.with_classes(replace(seats.rings, limits=of), seats.around, seats.shaft_code, seats.housing_code)


def _case(name: str, fit: Fit, seats: Seats, loads: Loads | None) -> Case:
    conditions = fit.conditions
    seat: Seat = getattr(fitting.seated(seats, service.in_service(fit.rows, loads, conditions)), fit.ring)
    made = seats.shaft if fit.is_cone else seats.housing
    of = seats.rings.limits
    ring = (of.bore_upper, of.bore_lower) if fit.is_cone else (of.outside_upper, of.outside_lower)
    running = seat.effective[..., MEAN]
    return Case(
        name, (_um(ring[0]), _um(ring[1])), _ends(made), (_um(seat.cold[:, LEAST]), _um(seat.cold[:, GREATEST])),
        _um(running.min(axis=-1)), abs(_um(seat.raceway_mounted[:, MEAN])), _margin(fit, running, loads, conditions),
    )  # fmt: skip


def _margin(fit: Fit, running: Floats, loads: Loads | None, conditions: Conditions) -> float | None:
    """Return how many times the interference at the mean covers what the load needs, in the hardest case."""
    if loads is None or fit.load == POINT:
        return None
    needed = holding.needed_by(fit.rows, fit.ring, loads, conditions)
    if not needed.max() > 0:
        return None
    with np.errstate(divide="ignore"):
        return float(np.min(np.where(needed > 0, np.maximum(running, 0.0) / needed, np.inf)))


def _ends(made: SeatLimits) -> tuple[float, float]:
    return _um(made.upper), _um(made.lower)


def _um(length: Floats) -> float:
    return round(float(np.ravel(length)[0]) * UM, 6) + 0.0


def lines(of: Twins) -> tuple[tuple[str, tuple[str, str, str]], ...]:
    """Return the comparison as a table: what each line is about, and the three cases in words."""
    cone = of.ring == "cone"
    found = [
        ("bore" if cone else "outside diameter", [_zone(one.ring) for one in of.cases]),
        (f"{'shaft' if cone else 'housing'} to make", [_zone(one.seat) for one in of.cases]),
        ("interference", [f"{one.cold[0]:.0f} to {one.cold[1]:.0f}" for one in of.cases]),
        ("in operation, mean", [f"{one.running:.0f}" for one in of.cases]),
        ("raceway grows" if cone else "raceway squeezed", [f"{one.raceway:.0f}" for one in of.cases]),
    ]
    if all(one.margin is not None for one in of.cases):
        found.append(("creep margin, mean", [f"{one.margin:.1f}" for one in of.cases]))
    return tuple((name, (values[0], values[1], values[2])) for name, values in found)


def _zone(ends: tuple[float, float]) -> str:
    upper, lower = (f"{round(end):+d}" if round(end) else "0" for end in ends)
    return f"{upper}/{lower}"
