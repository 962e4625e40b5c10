"""Rows of the catalogue that a designation means, that come near one in the other system, or that differ as wished.

Nearness is a measure of our own, with no source: the weighted root mean square of the differences of the natural
logarithms of d, D, T, Cr and e. Small differences are relative ones, so that 0.05 reads as 5 %. The bore counts most,
since the shaft is there already, then the outside diameter, which the housing fixes.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np

from engine.catalogue.columns import Catalogue
from engine.catalogue.dimension_series import classify
from engine.catalogue.naming.reading import Reading
from engine.numerics import Bools, Floats, Rows

#: Weights of the measure; our own, no source.
WEIGHTS = {"d": 4.0, "D": 3.0, "T": 1.0, "Cr": 1.0, "e": 1.0}
#: What is compared for the wishes: the property that shall change does not count, nor those that follow from it.
_WISH_WEIGHTS: dict[str, dict[str, float]] = {
    "steeper": {"D": 3.0, "T": 1.0, "Cr": 1.0},
    "shallower": {"D": 3.0, "T": 1.0, "Cr": 1.0},
    "lighter": {"Cr": 2.0, "e": 1.0},
}
#: Differences are shown for these columns, in their engine units.
COMPARED = ("d", "D", "T", "B", "C", "Cr", "C0r", "e", "alpha", "a", "mass")
#: An angle differs when it does so by more than this [rad], half a degree.
_ANGLE_STEP = np.radians(0.5)
#: Bores are the same when they differ by less than this [mm], under any tolerance of a bore.
_SAME_BORE = 0.005

Wish = Literal["steeper", "shallower", "lighter"]


@dataclass(frozen=True, eq=False)
class Near:
    """Rows of the catalogue, nearest first: the measure of each, and how far each column lies above the asked row's."""

    rows: Rows
    measure: Floats
    differences: Mapping[str, Floats]

    def __len__(self) -> int:
        return len(self.rows)


def find(catalogue: Catalogue, reading: Reading) -> Rows:
    """Return the rows that have what a reading fixes, in the order of the catalogue; none where it fixes nothing."""
    limits = reading.limits
    if not limits.limits:
        return np.empty(0, dtype=np.intp)
    kept = np.ones(len(catalogue), dtype=np.bool_)
    for name, within in (("d", limits.d), ("D", limits.D), ("T", limits.T), ("alpha", limits.alpha)):
        kept &= within.contains(getattr(catalogue, name))
    if limits.system:
        kept &= catalogue.system == limits.system
    if limits.series:
        kept &= catalogue.series == limits.series
    if limits.name:
        kept &= (
            (catalogue.designation == limits.name) | (catalogue.cone == limits.name) | (catalogue.cup == limits.name)
        )
    rows = np.flatnonzero(kept)
    return rows[_of_series(catalogue, rows, limits.dimension_series)] if limits.dimension_series else rows


def _of_series(catalogue: Catalogue, rows: Rows, series: str) -> Bools:
    """Return which rows lie in a dimension series by their sizes; signs that are reserved match nothing."""
    columns = (getattr(catalogue, name)[rows] for name in ("d", "D", "T", "alpha"))
    return np.asarray(classify(*columns) == series)


def distance(catalogue: Catalogue, row: int, rows: Rows, weights: Mapping[str, float] = WEIGHTS) -> Floats:
    """Return the measure between one row and others; NaN where a row does not know a property that counts."""
    total = np.zeros(len(rows))
    with np.errstate(all="ignore"):
        for name, weight in weights.items():
            column = getattr(catalogue, name)
            total += weight * np.square(np.log(column[rows] / column[row]))
    return np.sqrt(total / sum(weights.values()))


def nearest_in_other_system(catalogue: Catalogue, row: int, count: int) -> Near:
    """Return the assemblies of the other measuring system that come nearest to one, at most so many."""
    return _nearest(catalogue, row, np.flatnonzero(catalogue.system != catalogue.system[row]), count, WEIGHTS)


def like_this_but(catalogue: Catalogue, row: int, wish: Wish, count: int) -> Near:
    """Return assemblies of the same system and bore that are steeper, shallower or lighter, the most alike first."""
    kept = (catalogue.system == catalogue.system[row]) & (np.abs(catalogue.d - catalogue.d[row]) < _SAME_BORE)
    with np.errstate(all="ignore"):
        if wish == "lighter":
            kept &= catalogue.mass < catalogue.mass[row]
        elif wish == "steeper":
            kept &= catalogue.alpha > catalogue.alpha[row] + _ANGLE_STEP
        else:
            kept &= catalogue.alpha < catalogue.alpha[row] - _ANGLE_STEP
    return _nearest(catalogue, row, np.flatnonzero(kept), count, _WISH_WEIGHTS[wish])


def _nearest(catalogue: Catalogue, row: int, rows: Rows, count: int, weights: Mapping[str, float]) -> Near:
    measure = distance(catalogue, row, rows, weights)
    rows, measure = rows[np.isfinite(measure)], measure[np.isfinite(measure)]
    # rows of one measure stand in the order of the catalogue, so that the answer is the same every time
    first = np.argsort(measure, kind="stable")[: max(count, 0)]
    rows, measure = rows[first], measure[first]
    differences = {name: getattr(catalogue, name)[rows] - getattr(catalogue, name)[row] for name in COMPARED}
    return Near(rows, measure, differences)
