"""What a user can weigh, and the one number that the weights make of it.

The score of a pair is the sum over the criteria of weight times penalty. Sizes, mass, friction and cost count by the
logarithm of their sum over both bearings, so that each per cent more counts alike, whatever the unit, and the order of
two pairs does not depend on which others there are. Utilisation counts by the share of its capacity that the governing
check uses, from 0 to 1. Stock, sameness and system count 0 where all is as wished and 1 where nothing is.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.numerics import Floats, Rows
from engine.selection.stages.bounds import FrictionLoss
from engine.selection.stages.friction_loss import friction_loss

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


@dataclass(frozen=True)
class Criterion:
    """One thing to weigh: less is better. `of_loads` tells those that need the pair to be computed."""

    key: str
    label: str
    unit: str
    what: str
    proportional: bool = True
    of_loads: bool = False


CRITERIA = {
    one.key: one
    for one in (
        # called by the key of its weight in records
        Criterion(
            "margin",
            "Utilisation",
            "-",
            "of the governing check, demand over capacity",
            proportional=False,
            of_loads=True,
        ),
        Criterion("mass", "Mass", "kg", "both bearings"),
        Criterion("outside", "Outside diameter", "mm", "sum of both"),
        Criterion("width", "Width", "mm", "sum of both"),
        Criterion("friction", "Friction loss", "W", "both bearings, averaged over the running time", of_loads=True),
        Criterion("cost", "Cost", "-", "sum of both, in the catalogue's unit"),
        Criterion("availability", "Availability", "-", "0: both stocked, 1: both discontinued", proportional=False),
        Criterion("same", "Same bearing on both sides", "-", "0: yes, 1: no", proportional=False),
        Criterion("system", "One system", "-", "0: both metric or both inch, 1: mixed", proportional=False),
    )
}
#: How far from being had; what is not stated counts as on request.
_STOCK = {"stocked": 0.0, "discontinued": 1.0}
_COLUMNS = {"mass": "mass", "outside": "D", "width": "T", "cost": "cost"}
#: Proportional criteria of nothing at all count as this much: the logarithm of 0 would swallow all others.
LEAST = 1e-9

#: The friction loss of bearings; None where none is known, and friction then cannot be weighed.
FRICTION: FrictionLoss | None = friction_loss


class UnknownCriterion(ValueError):  # noqa: N818 - named for what happened
    """A weight for something that cannot be weighed, or a negative one."""


def weighed(weights: Mapping[str, float]) -> dict[str, float]:
    """Return the weights that count, in the order of CRITERIA; raise UnknownCriterion."""
    known = {key: one for key, one in CRITERIA.items() if key != "friction" or FRICTION is not None}
    for key, weight in weights.items():
        if key not in known:
            raise UnknownCriterion(f"{key} cannot be weighed; accepted: {', '.join(known)}")
        if not 0 <= weight < float("inf"):
            raise UnknownCriterion(f"the weight of {key} is {weight}; accepted: 0 or more")
    return {key: float(weights[key]) for key in known if weights.get(key, 0.0) > 0}


def penalty(key: str, value: Floats) -> Floats:
    """Return what a value of a criterion counts, before its weight; it grows with the value, strictly."""
    return np.log(np.maximum(value, LEAST)) if CRITERIA[key].proportional else np.asarray(value, dtype=np.float64)


def score(weights: Mapping[str, float], values: Mapping[str, Floats]) -> Floats:
    """Return the weighed sum; the order of adding is that of the weights."""
    total: Floats = 0.0
    for key, weight in weights.items():
        total = total + weight * penalty(key, values[key])
    return np.asarray(total)


class OfParts:
    """The criteria that need no loads, for any pairs of a catalogue's rows."""

    def __init__(self, catalogue: Catalogue) -> None:
        self._columns = {key: _known(getattr(catalogue, name)) for key, name in _COLUMNS.items()}
        stock = np.full(len(catalogue), 0.5)
        for word, step in _STOCK.items():
            stock[catalogue.availability == word] = step
        self._columns["availability"] = stock / 2
        self._inch = catalogue.system == "inch"

    def value(self, key: str, rows_A: Rows, rows_B: Rows) -> Floats:
        """Return the values of a criterion for pairs of rows."""
        if key == "same":
            return (rows_A != rows_B).astype(np.float64)
        if key == "system":
            return (self._inch[rows_A] != self._inch[rows_B]).astype(np.float64)
        column = self._columns[key]
        return column[rows_A] + column[rows_B]


def _known(column: Floats) -> Floats:
    """Return a column in which what is not stated counts as the greatest that is: it must not win by silence."""
    stated = column[~np.isnan(column)]
    return np.where(np.isnan(column), stated.max() if stated.size else 1.0, column)
