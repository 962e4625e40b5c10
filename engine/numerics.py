"""The few numeric tools that every formula shares."""

from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

#: What a formula takes: a number or anything numpy can broadcast.
Array = ArrayLike
#: What a formula gives back: float64 of the broadcast shape (0-d for scalars, so that scalar and array agree).
Floats = NDArray[np.float64] | Any
#: A mask over candidates or pairs.
Bools = NDArray[np.bool_]
#: Row numbers.
Rows = NDArray[np.intp]


def by_case(column: Floats, cases: int) -> Floats:
    """Return a column (n, 1) repeated over the cases, (n, k), one case after the other in memory.

    What is computed from it lies the same way, so that numpy's inner loops run along the many bearings and not along
    the few cases, which takes a fraction of the time.
    """
    column = np.asarray(column, dtype=np.float64)
    if column.ndim < 2 or cases == 0:
        return column
    return np.repeat(np.moveaxis(column, -1, 0), cases, axis=0).transpose(*range(1, column.ndim), 0)


def some_rows(values: Any, index: Any) -> Any:
    """Return some rows (a slice or row numbers) of (n,) or (n, k), the columns one after the other in memory."""
    if isinstance(index, slice):
        return values[index]
    return np.take(values.T, index, axis=-1).T


def at_places(column: Floats, places: Rows) -> Floats:
    """Return what stands at places (..., k) of a column (m,), laid out case by case."""
    return np.moveaxis(column.take(np.moveaxis(places, -1, 0)), 0, -1)


def as_arrays(*values: ArrayLike) -> list[Floats]:
    """Return the values as float64 arrays, so that one formula serves scalars, columns and (pairs x cases) alike."""
    return [np.asarray(value, dtype=np.float64) for value in values]


#: Along a last axis of at most so many numbers, column by column is faster than numpy's own reduction; it adds up so
#: few in this very order itself, so no figure depends on which of the two was taken.
FEW = 7


def _columns(values: Floats, over: np.ufunc) -> Floats:
    found = values[..., 0]
    for at in range(1, values.shape[-1]):
        found = over(found, values[..., at])
    return found


def _reduced(values: Floats, over: np.ufunc) -> Floats:
    if values.ndim > 1 and 0 < values.shape[-1] <= FEW:
        return _columns(values, over)
    return over.reduce(values, axis=-1)


def added_up(values: Floats) -> Floats:
    """Return the sums along the last axis, as numpy's own `sum` gives them; of shape (..., k).

    However they lie in memory: numpy adds up many numbers in an order that hangs on it.
    """
    return _reduced(values if values.shape[-1] <= FEW else np.ascontiguousarray(values), np.add)


def least(values: Floats) -> Floats:
    """Return the least along the last axis, NaN where there is one; of shape (..., k)."""
    return _reduced(values, np.minimum)


def greatest(values: Floats) -> Floats:
    """Return the greatest along the last axis, NaN where there is one; of shape (..., k)."""
    return _reduced(values, np.maximum)


def every_one(values: Bools) -> Bools:
    """Return whether all along the last axis are true; of shape (..., k)."""
    return np.asarray(_reduced(values, np.logical_and))
