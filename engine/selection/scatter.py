"""Two things that can be weighed set against each other, as points and as cells of a picture in characters."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.numerics import Bools, Floats, Rows
from engine.operating import Conditions
from engine.selection.rank import Shortlist
from engine.selection.weighing import non_dominated, values_of

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


@dataclass(frozen=True)
class Scatter:
    """One point a listed pair; `non_dominated` are those that no listed pair equals in both and betters in one."""

    x: Floats
    y: Floats
    non_dominated: Bools

    def ranges(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Return the least and the greatest finite value of x and of y; (0, 0) where there is none."""
        return _range(self.x), _range(self.y)

    def cells(self, columns: int, rows: int) -> tuple[Rows, Rows]:
        """Return the column (from the left) and the row (from below) of each point in a picture of such a size.

        -1 where a value is not known or not finite.
        """
        return _cells(self.x, columns), _cells(self.y, rows)

    def counts(self, columns: int, rows: int) -> Rows:
        """Return how many points fall into each cell, of shape (rows, columns), the first row lowest."""
        at_x, at_y = self.cells(columns, rows)
        drawn = (at_x >= 0) & (at_y >= 0)
        found = np.zeros((rows, columns), dtype=np.intp)
        np.add.at(found, (at_y[drawn], at_x[drawn]), 1)
        return found


def scatter(catalogue: Catalogue, listed: Shortlist, conditions: Conditions, x: str, y: str) -> Scatter:
    """Return the listed pairs by two criteria (keys of criteria.CRITERIA)."""
    values = values_of(catalogue, listed.rows_A, listed.rows_B, listed.evaluated, conditions, [x, y])
    return Scatter(values[x], values[y], non_dominated([values[x], values[y]], len(listed)))


def _range(values: Floats) -> tuple[float, float]:
    finite = values[np.isfinite(values)]
    return (float(finite.min()), float(finite.max())) if finite.size else (0.0, 0.0)


def _cells(values: Floats, many: int) -> Rows:
    low, high = _range(values)
    with np.errstate(divide="ignore", invalid="ignore"):
        share = np.where(high > low, (values - low) / (high - low), 0.5)
    finite = np.isfinite(values)
    # the greatest value belongs to the last cell, not to one of its own
    at = np.minimum(np.where(finite, share, 0.0) * many, many - 1).astype(np.intp)
    return np.where(finite, at, -1)
