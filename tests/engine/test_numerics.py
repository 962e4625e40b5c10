"""Reductions along few columns: to the last bit what numpy's own give, whatever the shape."""

import numpy as np
import pytest

from engine.numerics import added_up, every_one, greatest, least

RNG = np.random.default_rng(11)
SHAPES = [(7, k) for k in range(1, 12)] + [(3, 5, 2), (4, 0), (5,), (1, 1), (0, 3)]


def values(shape):
    """Return numbers of very different sizes, so that another order of adding up would show."""
    return RNG.normal(size=shape) * 10.0 ** RNG.uniform(-9, 9, size=shape)


def same(one, other):
    return one.shape == other.shape and np.array_equal(one, other, equal_nan=True)


@pytest.mark.parametrize("shape", SHAPES)
def test_sums_are_those_of_numpy_to_the_last_bit(shape):
    for _ in range(200):
        x = values(shape)
        assert same(added_up(x), np.sum(x, axis=-1))


@pytest.mark.parametrize("shape", [shape for shape in SHAPES if shape[-1]])
@pytest.mark.parametrize(("own", "numpys"), [(least, np.min), (greatest, np.max)])
def test_the_ends_are_those_of_numpy_with_what_is_not_known(shape, own, numpys):
    for unknown in (0.0, 0.3):
        x = values(shape)
        x[RNG.uniform(size=shape) < unknown] = np.nan
        assert same(own(x), numpys(x, axis=-1))


@pytest.mark.parametrize("shape", SHAPES)
def test_all_are_true_where_numpy_says_so(shape):
    x = RNG.uniform(size=shape) < 0.7
    assert same(every_one(x), np.all(x, axis=-1))


def test_columns_that_share_their_memory_add_up_alike():
    x = np.broadcast_to(values((6, 1)), (6, 7))
    assert same(added_up(x), np.sum(x, axis=-1))
