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


def as_arrays(*values: ArrayLike) -> list[Floats]:
    """Return the values as float64 arrays, so that one formula serves scalars, columns and (pairs x cases) alike."""
    return [np.asarray(value, dtype=np.float64) for value in values]
