"""The one form of every check: name, demand, capacity, unit, utilisation, clause. At most 1 passes.

Screening, ranking, the detail view, the record and the report are written over this form and never know which check
they see.
"""

from dataclasses import dataclass

import numpy as np

from engine.numerics import Bools, Floats
from engine.sources import Citation


@dataclass(frozen=True)
class Check:
    """What is checked: a key for records, a name, the unit of demand and capacity, and where the rule comes from.

    An advisory check cautions and rules no pair out. `margin` says whether room left in it is worth having: room left
    in a life is, room left in a bore is not.
    """

    key: str
    name: str
    unit: str
    source: Citation
    demand_is: str
    capacity_is: str
    advisory: bool = False
    margin: bool = True


@dataclass(frozen=True)
class Outcome:
    """A check carried out on one side ("A", "B") or on the pair, for any number of candidates at once."""

    check: Check
    side: str
    demand: Floats
    capacity: Floats

    @property
    def utilisation(self) -> Floats:
        """Demand over capacity; 0 where nothing is demanded, infinite where there is no capacity."""
        with np.errstate(divide="ignore", invalid="ignore"):
            ratio = np.asarray(self.demand, dtype=np.float64) / self.capacity
        # 0/0 and inf/inf: nothing demanded, or capacity without end
        nothing_asked = (np.asarray(self.demand) == 0) | np.isposinf(self.capacity)
        return np.where(nothing_asked & ~np.isnan(self.capacity), 0.0, ratio)

    @property
    def passes(self) -> Bools:
        """Whether utilisation is known and at most 1."""
        return np.asarray(self.utilisation <= 1.0)
