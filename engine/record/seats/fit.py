"""One ring of a pair on its seat, with all that is told of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine import fitting
from engine.answers.chapters.fits import RECOMMENDED
from engine.checks.every import Evaluated
from engine.numerics import Floats
from engine.operating import Conditions
from engine.seat import iso286, limits
from engine.seat.limits import FormLimits, form_limits
from engine.seat.seating import Seat
from engine.warmth import in_service as service

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


@dataclass(frozen=True)
class Fit:
    """One ring of one bearing on its seat, with all that is shown of it; diameters and widths in mm."""

    ring: str
    side: str
    rows: Catalogue
    seats: fitting.Seats
    seat: Seat
    conditions: Conditions

    @classmethod
    def both(cls, ring: str, evaluated: Evaluated, conditions: Conditions) -> tuple[Fit, Fit]:
        """Return the fit of a ring at A and at B, in the cases answered, else in the hardest running known."""
        found = []
        for side, rows, loads in zip("AB", (evaluated.A, evaluated.B), evaluated.loads or (None, None), strict=True):
            seats = service.seats_of(rows, side, loads, conditions)
            run = service.in_service(rows, loads, conditions)
            found.append(cls(ring, side, rows, seats, getattr(fitting.seated(seats, run), ring), conditions))
        return found[0], found[1]

    @property
    def is_cone(self) -> bool:
        """Whether it is the cone on its shaft, and not the cup in its housing."""
        return self.ring == "cone"

    @property
    def size(self) -> Floats:
        """Diameter of the seat."""
        return self.seats.rings.d if self.is_cone else self.seats.rings.D

    @property
    def from_plus(self) -> bool:
        """Whether the ring lies at 0/plus, so that its seat has twin limits."""
        return bool(self.seats.rings.limits.from_plus[0])

    @property
    def load(self) -> str:
        """How the load goes round the ring."""
        return fitting.ring_loads(self.conditions.resolved)[0 if self.is_cone else 1]

    @property
    def code(self) -> fitting.Codes:
        """Place of the class in the table of ISO 286."""
        return self.seats.shaft_code if self.is_cone else self.seats.housing_code

    @property
    def class_name(self) -> str:
        """The class, or "-" where none is known."""
        classes = iso286.SHAFT_CLASSES if self.is_cone else iso286.HOLE_CLASSES
        return classes[int(self.code[0])] if self.code[0] >= 0 else "-"

    @property
    def chosen(self) -> str:
        """Whether the class was recommended or answered."""
        side = self.conditions.resolved.fits.side(self.side)
        wanted = side.shaft if self.is_cone else side.housing
        return RECOMMENDED if wanted == RECOMMENDED else "answered"

    def ring_limits(self) -> tuple[Floats, Floats]:
        """Return upper and lower deviation of the ring."""
        of = self.seats.rings.limits
        return (of.bore_upper, of.bore_lower) if self.is_cone else (of.outside_upper, of.outside_lower)

    @property
    def form(self) -> FormLimits:
        """Widths and runouts that the class of the bearing allows it."""
        return form_limits(self.rows.system, self.rows.tolerance, self.rows.d, self.rows.D)

    def zones(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Return upper and lower deviations of the part inside and of the part around it [mm]."""
        seat = self.seats.shaft if self.is_cone else self.seats.housing
        of_seat = float(seat.upper[0]), float(seat.lower[0])
        upper, lower = self.ring_limits()
        of_ring = float(upper[0]), float(lower[0])
        return (of_seat, of_ring) if self.is_cone else (of_ring, of_seat)

    def metric_limits(self) -> tuple[Floats, Floats]:
        """Return the limits of the class as printed, for a ring at 0/minus."""
        return (iso286.shaft_limits if self.is_cone else iso286.hole_limits)(self.size, self.code)

    def mistaken(self) -> limits.Mistaken:
        """Return what using these on a ring at 0/plus would change."""
        of = limits.shaft_mistaken if self.is_cone else limits.housing_mistaken
        return of(self.size, self.code, self.seats.rings.limits)
