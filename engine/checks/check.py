"""The one form of every check: name, demand, capacity, unit, utilisation, clause. At most 1 passes.

Screening, ranking, the detail view, the record and the report are written over this form and never know which check
they see.
"""

import math
from dataclasses import dataclass, replace

import numpy as np

from engine.numerics import Bools, Floats
from engine.sources import Citation


@dataclass(frozen=True)
class Check:
    """What is checked: a key for records, a name, the unit of demand and capacity, and where the rule comes from.

    An advisory check cautions and rules no pair out. `spare` says whether room left in it is worth having: room left
    in a life is, room left in a bore is not.
    """

    key: str
    name: str
    unit: str
    source: Citation
    demand_is: str
    capacity_is: str
    advisory: bool = False
    spare: bool = True


@dataclass(frozen=True)
class Outcome:
    """A check carried out on one side ("A", "B") or on the pair, for any number of candidates at once.

    Where it is not `judged`, since what it takes is not at hand, its demand is not known (NaN); it rules nothing out,
    and is said not to be judged wherever it is shown.
    """

    check: Check
    side: str
    demand: Floats
    capacity: Floats
    judged: Bools | None = None  # None where all are

    @property
    def utilisation(self) -> Floats:
        """Demand over capacity; 0 where nothing is demanded or judged, infinite where there is no capacity."""
        with np.errstate(divide="ignore", invalid="ignore"):
            ratio = np.asarray(self.demand, dtype=np.float64) / self.capacity
        # 0/0 and inf/inf: nothing demanded, or capacity without end
        nothing_asked = (np.asarray(self.demand) == 0) | np.isposinf(self.capacity)
        found = np.where(nothing_asked & ~np.isnan(self.capacity), 0.0, ratio)
        return found if self.judged is None else np.where(self.judged, found, 0.0)

    def where_known(self, known: Bools) -> "Outcome":
        """Return it judged where what it takes is known, or where what is known of it fails already."""
        return self if known.all() else self._where(known | ~self.passes)

    def judged_where(self, known: Bools) -> "Outcome":
        """Return it judged where what it takes is known, and nowhere else."""
        return self if known.all() else self._where(known)

    def _where(self, judged: Bools) -> "Outcome":
        return replace(self, demand=np.where(judged, self.demand, np.nan), judged=judged)

    @property
    def passes(self) -> Bools:
        """Whether utilisation is known and at most 1."""
        return np.asarray(self.utilisation <= 1.0)


def weight(utilisation: float, spare: bool) -> float:
    """Return how much a check binds a candidate, for the one that governs: the check of the greatest weight.

    What is unknown binds most. What passes although room in it is not worth having (a bore that just fits) binds
    least.
    """
    if math.isnan(utilisation):
        return math.inf
    return utilisation if spare or utilisation > 1.0 else -1.0
