"""Reductions along few columns: to the last bit what numpy's own give, whatever the shape."""

import numpy as np
import pytest

from engine.numerics import added_up, by_case, every_one, greatest, least, some_rows

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


@pytest.mark.parametrize("cases", [1, 2, 7, 8, 30, 400])
def test_sums_do_not_hang_on_how_the_numbers_lie(cases):
    for _ in range(20):
        x = values((9, cases))
        assert same(added_up(np.asfortranarray(x)), np.sum(x, axis=-1))
        assert same(added_up(np.asfortranarray(x)[4:5]), np.sum(x, axis=-1)[4:5])


@pytest.mark.parametrize("shape", [(6, 1), (3, 6, 1), (1, 1), (0, 1)])
@pytest.mark.parametrize("cases", [0, 1, 3])
def test_a_column_laid_out_by_cases_is_the_column_repeated(shape, cases):
    column = values(shape)
    found = by_case(column, cases)
    assert np.array_equal(np.broadcast_arrays(found, column)[0], np.broadcast_to(column, np.shape(found)))
    if cases > 1 and shape[-2] > 1:
        made = found * np.arange(1.0, cases + 1)
        assert made.strides[-1] == max(made.strides)  # and what follows from it lies the same way
        assert made.strides[-2] == made.itemsize


@pytest.mark.parametrize("index", [slice(2, 5), np.array([3, 3, 0]), np.zeros(0, dtype=np.intp)])
@pytest.mark.parametrize("shape", [(6,), (6, 1), (6, 4)])
def test_some_rows_are_those_that_numpy_takes(shape, index):
    x = values(shape)
    for laid in (x, np.asfortranarray(x)):
        assert np.array_equal(some_rows(laid, index), x[index])
    if len(shape) > 1 and not isinstance(index, slice) and len(index):
        assert some_rows(x, index).strides[0] == x.itemsize
