"""Pairs that no bound decides: gathered until there are enough to be computed many at once, on all processors."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from engine.numerics import Bools, Rows
from engine.selection.stages.blocks import at_once

#: Pairs in doubt are computed in so many pieces at once.
AT_ONCE = 4
#: Each piece is this fraction of what is usual: some twenty arrays are at work there, and fit into the cache together.
PIECES = 4


@dataclass
class Doubts:
    """Pairs in doubt, of a matrix `passes[i, j]` in which `compute(i, j)` says which of them pass.

    Few pairs at a time would cost more in calls than in numbers, all of them at once more memory than there may be.
    """

    passes: Bools
    compute: Callable[[Rows, Rows], Bools]
    cases: int
    _waiting: list[tuple[Rows, Rows]] = field(default_factory=list)
    _many: int = 0

    def take(self, rows: Rows, doubtful: Bools) -> None:
        """Take the doubtful pairs of some rows of the matrix, with every column."""
        i, j = np.nonzero(doubtful)
        self._waiting.append((rows[i], j))
        self._many += len(j)
        if self._many >= AT_ONCE * at_once(PIECES * self.cases):
            self.settle()

    def settle(self) -> None:
        """Compute the pairs that wait."""
        if self._many:
            i, j = (np.concatenate(parts) for parts in zip(*self._waiting, strict=True))
            self.passes[i, j] = self.compute(i, j)
        self._waiting, self._many = [], 0
