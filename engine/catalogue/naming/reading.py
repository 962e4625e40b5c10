"""One reading of a designation, and the limits that it sets to sizes and names."""

import math
from dataclasses import dataclass, field

import numpy as np

from engine.numerics import Array, Bools
from engine.sources import Citation
from engine.units import number_text

#: How the documents of the numberings are known.
RECALLED = "recalled, to be verified against the standard"


@dataclass(frozen=True)
class Range:
    """Values from `low` to `high`; whether each limit itself belongs to it is said apart."""

    low: float = -math.inf
    high: float = math.inf
    low_in: bool = True
    high_in: bool = True

    def contains(self, values: Array) -> Bools:
        """Return which values lie inside; those that are not known (NaN) lie inside only where nothing is limited."""
        values = np.asarray(values, dtype=np.float64)
        above = values >= self.low if self.low_in else values > self.low
        below = values <= self.high if self.high_in else values < self.high
        return (above & below) | (not self.limits)

    @property
    def limits(self) -> bool:
        """Whether there is a limit at all."""
        return math.isfinite(self.low) or math.isfinite(self.high)

    def text(self, unit: str, scale: float = 1.0) -> str:
        """Return it in words: 'over 80 to 83.5 mm'; every number is divided by the scale."""
        low, high = (number_text(value / scale, 5) for value in (self.low, self.high))
        if self.low == self.high:
            return f"{low} {unit}"
        if not math.isfinite(self.high):
            return f"{'' if self.low_in else 'over '}{low} {unit}{' or more' if self.low_in else ''}"
        return f"{'' if self.low_in else 'over '}{low} {'to' if self.high_in else 'to under'} {high} {unit}"


ANY = Range()


@dataclass(frozen=True)
class Limits:
    """What a reading fixes: d, D, T [mm] and alpha [rad], and names that a row must carry ("" where it fixes none).

    `dimension_series` is an ISO 355 series, whole or in its first signs; `series` a series of the catalogue; `name` an
    assembly, cone or cup.
    """

    d: Range = ANY
    D: Range = ANY
    T: Range = ANY
    alpha: Range = ANY
    dimension_series: str = ""
    series: str = ""
    system: str = ""
    name: str = ""

    @property
    def limits(self) -> bool:
        """Whether a row of the catalogue can be sought by anything but its system."""
        named = self.dimension_series or self.series or self.name
        return bool(named) or any(one.limits for one in (self.d, self.D, self.T, self.alpha))


@dataclass(frozen=True)
class Reading:
    """One way to read a designation: `parts` holds (piece of the text, what it means), `unknown` what stays open."""

    title: str
    text: str
    sources: tuple[Citation, ...]
    parts: tuple[tuple[str, str], ...]
    unknown: tuple[str, ...]
    limits: Limits = field(default_factory=Limits)
