"""The first of very many passing pairs by some measure, without sorting them all."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from engine.numerics import Floats, Rows
from engine.selection.screen import Screening
from engine.selection.stages.blocks import Cancelled, go_on

#: Rows of the matrix of pairs looked at together.
BAND = 256

#: A number for each pair, given as row and column numbers of the matrix of pairs; less is better.
Measure = Callable[[Rows, Rows], Floats]


@dataclass(frozen=True)
class Sums:
    """A measure of pairs that is the sum of one number a side."""

    of_A: Floats
    of_B: Floats

    @classmethod
    def of(cls, column: Floats, screening: Screening) -> Sums:
        """Return the sums of a column of the catalogue."""
        return cls(column[screening.rows_A], column[screening.rows_B])

    def __call__(self, i: Rows, j: Rows) -> Floats:
        """Return the sums of some pairs."""
        return self.of_A[i] + self.of_B[j]


class Leaders:
    """The pairs with the least measure seen so far, ties at the end broken by a second measure, then by order."""

    def __init__(self, most: int) -> None:
        self.most = most
        self.i = self.j = np.zeros(0, dtype=np.intp)
        self.first = self.then = np.zeros(0)

    @property
    def pairs(self) -> tuple[Rows, Rows]:
        """Row and column numbers, best first."""
        return self.i, self.j

    @property
    def worst(self) -> float:
        """The measure that a newcomer must reach to matter."""
        return float(self.first[-1]) if len(self.first) >= self.most else float("inf")

    def add(self, i: Rows, j: Rows, first: Floats, then: Floats) -> None:
        """Take in some pairs with both their measures."""
        near = first <= self.worst
        found = [np.concatenate(both) for both in (
            (self.i, i[near]), (self.j, j[near]), (self.first, first[near]), (self.then, then[near]))]  # fmt: skip
        if len(found[2]) > 8 * self.most:  # a cheap cut before the sort
            inside = found[2] <= np.partition(found[2], self.most - 1)[self.most - 1]
            found = [values[inside] for values in found]
        order = np.lexsort((found[1], found[0], found[3], found[2]))[: self.most]
        self.i, self.j, self.first, self.then = (values[order] for values in found)


def leading(screening: Screening, first: Measure, then: Measure, most: int, cancelled: Cancelled) -> Leaders:
    """Return the first pairs by a measure that is cheap for every pair."""
    leaders = Leaders(most)
    for i, j in _bands(screening, cancelled):
        measure = first(i, j)
        near = measure <= leaders.worst
        leaders.add(i[near], j[near], measure[near], then(i[near], j[near]))
    return leaders


def leading_by_bound(
    screening: Screening, possible: Measure, exactly: Measure, then: Measure, most: int, cancelled: Cancelled
) -> Leaders:
    """Return the first pairs by a measure that is dear, of which `possible` is a lower bound.

    Those that look best by the bound are computed; then only pairs that could still beat the worst of these are
    computed as well, so that the result is that of computing all.
    """
    leaders = Leaders(most)
    if not screening.count:
        return leaders
    promising = leading(screening, possible, then, most, cancelled)
    worst = float(exactly(*promising.pairs).max()) if len(promising.i) == most else float("inf")
    for i, j in _bands(screening, cancelled):
        near = possible(i, j) <= min(worst, leaders.worst)
        near_i, near_j = i[near], j[near]
        leaders.add(near_i, near_j, exactly(near_i, near_j), then(near_i, near_j))
    return leaders


def _bands(screening: Screening, cancelled: Cancelled) -> Iterator[tuple[Rows, Rows]]:
    """Walk the passing pairs in bands of rows, as row and column numbers of the matrix of pairs."""
    for start in range(0, len(screening.rows_A), BAND):
        go_on(cancelled)
        i, j = np.nonzero(screening.passes[start : start + BAND])
        if len(i):
            yield i + start, j
