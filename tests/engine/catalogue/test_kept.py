"""What is computed of a catalogue and asked for again is kept with it, and goes with it."""

import gc
import weakref

import numpy as np

from engine.catalogue.invention.invent import synthetic
from engine.catalogue.kept import kept_with_rows


def counting(most):
    calls = []

    @kept_with_rows(most)
    def bores(rows, factor=1.0):
        calls.append(factor)
        return rows.d * factor

    return bores, calls


def test_what_was_asked_before_is_not_computed_again_however_many_others_were_asked():
    rows = synthetic(30, 1)
    bores, calls = counting(2)
    first = bores(rows, 2.0)
    for one in range(30):
        bores(rows.take([one]), 2.0)
    assert bores(rows, 2.0) is first
    assert np.array_equal(first, rows.d * 2.0)
    assert len(calls) == 31


def test_no_more_is_kept_of_each_than_was_said():
    rows = synthetic(5, 1)
    bores, calls = counting(2)
    for factor in (1.0, 2.0, 3.0, 1.0):
        bores(rows, factor)
    assert calls == [1.0, 2.0, 3.0, 1.0]


def test_what_is_kept_holds_no_catalogue():
    rows = synthetic(5, 1)
    bores, _ = counting(2)
    bores(rows)
    there = weakref.ref(rows)
    del rows
    gc.collect()
    assert there() is None
