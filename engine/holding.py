"""What is left in service of the interference of rings that the load goes round, for very many pairs at once.

Only rings that must hold are looked at: those that creep rules out. The class, and with it the interference, may
follow from the load level of each bearing; the temperature may be its own. Both are handed in, exactly or as bounds.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING

import numpy as np

from engine import fitting
from engine.answers.chapters.fits import CREEP_FAILS
from engine.answers.resolved import Resolved
from engine.numerics import Bools, Floats, Rows, some_rows
from engine.seat import interference
from engine.seat.material import STEEL, Material
from engine.seat.recommend import CIRCUMFERENTIAL
from engine.steel import growth

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: Widening of what is left between two temperatures, so that rounding never decides; its sums may cancel [mm].
ROUNDING = 1e-9


def rings_held(side: str, resolved: Resolved) -> tuple[str, ...]:
    """Return the rings of a side that creep rules out: those that the load goes round and that need not slide."""
    if resolved.fits.creeping != CREEP_FAILS:
        return ()
    seat = resolved.fits.side(side)
    rings = zip(("cone", "cup"), fitting.ring_loads(resolved), (seat.cone_slides, seat.cup_slides), strict=True)
    return tuple(ring for ring, load, slides in rings if load == CIRCUMFERENTIAL and not slides)


@dataclass(frozen=True)
class Grip:
    """One ring of n bearings on its seat.

    `mounted` (n, levels) [mm] is the interference at the mean of the fit once smoothed, one column where no load level
    changes it; `turning` (n, 1) [mm] what turning at 1 rpm takes of it, `size` and `width` (n, 1) [mm]. `known` (n,)
    says whether the limits of ring and seat are at hand, and the raceway that what turning takes follows from.
    """

    ring: str
    mounted: Floats
    turning: Floats
    size: Floats
    width: Floats
    known: Bools
    inner: Material
    outer: Material

    def take(self, index: Floats) -> Grip:
        """Return some of the rows."""
        return replace(self, **{name: some_rows(getattr(self, name), index) for name in _OF_ROWS})

    def left(self, level: Rows, T: Floats, n: Floats, resolved: Resolved) -> Floats:
        """Return what is left in service [mm], (..., k), at load levels (...) and temperatures (k,) or (..., k)."""
        mean = fitting.at_level(self.mounted, level)
        fits = resolved.fits
        inside, around = (T - fits.cone_hotter, T) if self.ring == "cone" else (T, T - fits.cup_hotter)
        warm = interference.thermal_change(self.size, inside, around, self.inner, self.outer)
        turns = n if resolved.rotating_ring == self.ring else np.zeros_like(n)
        return np.asarray(mean + (warm - self.turning * np.square(turns)))


_OF_ROWS = ("mounted", "turning", "size", "width", "known")


@dataclass(frozen=True)
class Hold:
    """The rings of n bearings that must hold, and how much their steel grows.

    `austenite` [%] and `limit` [deg C] of the steel are (n,); so is `strain` [-], by how much the cone has grown over
    the life, where that is known without a pair. `bounds` holds, ring by ring, what is left in service where that is
    handed in as a bound.
    """

    grips: tuple[Grip, ...]
    austenite: Floats
    limit: Floats
    strain: Floats | None = None
    bounds: tuple[Floats, ...] | None = None

    @classmethod
    def of(cls, rows: Catalogue, side: str, resolved: Resolved, T: Floats | None) -> Hold | None:
        """Return the columns of some rows of a catalogue; None where no ring must hold.

        T is the mean temperature over the life [deg C], None where each pair has its own.
        """
        held = rings_held(side, resolved)
        if not held:
            return None
        seats = fitting.seats_of(rows, side, resolved)
        borne = fitting.borne_by_levels(rows, side, resolved)
        grips = tuple(_grip(ring, seats, np.stack([getattr(one, ring) for one in borne], axis=-1)) for ring in held)
        austenite, limit = (fitting.of_steel(rows, name) for name in ("austenite", "temperature"))
        strain = None if T is None else growth.growth_strain(austenite, resolved.life, T, limit)
        return cls(grips, austenite, limit, strain)

    @property
    def of_known_steel(self) -> Bools:
        """Whether it is known how much the steel grows, (n,)."""
        return np.asarray(np.isfinite(self.austenite) & np.isfinite(self.limit))

    def take(self, index: Floats) -> Hold:
        """Return some of the rows."""
        assert self.bounds is None  # these belong to pairs
        columns = {
            one.name: some_rows(getattr(self, one.name), index)
            for one in fields(self)
            if one.name not in {"grips", "bounds"} and getattr(self, one.name) is not None
        }
        return Hold(tuple(grip.take(index) for grip in self.grips), **columns)

    def left(self, level: Rows, T: Floats, n: Floats, resolved: Resolved) -> tuple[Floats, ...]:
        """Return what is left in service of each ring [mm], exactly, or the bounds that were handed in."""
        if self.bounds is not None:
            return self.bounds
        return tuple(grip.left(level, T, n, resolved) for grip in self.grips)

    def grown(self, T: Floats, share: Floats, resolved: Resolved) -> Floats:
        """Return the strain by which the cones grow over the life [-], at the temperatures of the cases, (..., k)."""
        if self.strain is not None:
            return self.strain
        mean = mean_temperature(T, share)
        return growth.growth_strain(self.austenite, resolved.life, mean, self.limit)

    def between(self, level: Rows, ends: Sequence[Floats], n: Floats, resolved: Resolved, most: bool) -> Hold:
        """Return it with bounds for all temperatures between two, `ends`: the most that may be left, else the least.

        What a temperature changes it changes evenly, so that both bounds lie at an end. The end that is not known
        (NaN) bounds nothing.
        """
        found = []
        for grip in self.grips:
            one, other = (grip.left(level, T, n, resolved) for T in ends)
            if most:
                bound = np.maximum(one, other)
                found.append(np.where(np.isnan(bound), np.inf, bound + ROUNDING * (1.0 + np.abs(bound))))
            else:
                bound = np.minimum(one, other)
                found.append(bound - ROUNDING * (1.0 + np.abs(bound)))
        return replace(self, bounds=tuple(found))


def mean_temperature(T: Floats, share: Floats) -> Floats:
    """Return the mean of the temperatures of the cases (..., k) by their shares of the running time (k,) [deg C]."""
    return np.average(T, axis=-1, weights=share)


def _grip(ring: str, seats: fitting.Seats, mounted: Floats) -> Grip:
    rings, around = seats.rings, seats.around
    if ring == "cone":
        inner, outer = around.shaft, STEEL
        sizes = np.broadcast_to(around.shaft_bore, rings.d.shape), rings.d, rings.F, rings.B
    else:
        inner, outer = STEEL, around.housing
        sizes = rings.E, rings.D, around.housing_outside(rings.D), rings.C
    d_i, d_j, d_o, width = sizes
    turning = interference.centrifugal_loss(d_i, d_j, d_o, 1.0, inner, outer)
    known = np.isfinite(mounted).all(axis=-1) & np.isfinite(turning)
    return Grip(ring, mounted, turning[:, None], d_j[:, None], width[:, None], known, inner, outer)
