"""Neighbours in the catalogue against a plain loop, scipy's distance and what the wishes say."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.distance import cdist

from engine.catalogue.equivalents import COMPARED, WEIGHTS, distance, find, like_this_but, nearest_in_other_system
from engine.catalogue.naming.reading import Limits, Range, Reading
from engine.catalogue.read import builtin

ALL = builtin()
rows_of_all = st.integers(0, len(ALL) - 1)


def reading(limits: Limits) -> Reading:
    return Reading("", "x", (), (), (), limits)


def by_scipy(row: int) -> np.ndarray:
    """Weighted Euclidean distance of the logarithms, out of scipy."""
    logs = np.log(np.column_stack([getattr(ALL, name) for name in WEIGHTS]))
    weights = np.array(list(WEIGHTS.values()))
    return cdist(logs[[row]], logs, "euclidean", w=weights / weights.sum())[0]


@pytest.mark.parametrize("row", [0, 77, 200, len(ALL) - 1])
def test_the_measure_is_the_weighted_distance_that_scipy_gives(row):
    assert distance(ALL, row, np.arange(len(ALL))) == pytest.approx(by_scipy(row), abs=1e-12)


@settings(max_examples=40, deadline=None)
@given(row=rows_of_all, count=st.integers(0, 12))
def test_the_nearest_are_of_the_other_system_and_none_left_out_is_nearer(row, count):
    near = nearest_in_other_system(ALL, row, count)
    assert len(near) == count
    assert np.all(ALL.system[near.rows] != ALL.system[row])
    assert np.all(np.diff(near.measure) >= 0)
    measure = by_scipy(row)
    left = np.setdiff1d(np.flatnonzero(ALL.system != ALL.system[row]), near.rows)
    if count:
        assert near.measure[-1] <= measure[left].min() + 1e-12


@given(one=rows_of_all, other=rows_of_all)
def test_the_measure_is_the_same_both_ways_and_zero_to_itself(one, other):
    there, back = distance(ALL, one, np.array([other]))[0], distance(ALL, other, np.array([one]))[0]
    assert there == pytest.approx(back, abs=1e-12)
    assert distance(ALL, one, np.array([one]))[0] == 0


def test_differences_are_the_other_less_the_asked_one():
    row = ALL.index_of("V050-3DB-C")
    near = nearest_in_other_system(ALL, row, 3)
    assert tuple(near.differences) == COMPARED
    for name in COMPARED:
        for place, other in enumerate(near.rows.tolist()):
            column = getattr(ALL, name)
            assert near.differences[name][place] == column[other] - column[row]


def test_a_small_difference_in_one_size_reads_as_its_share():
    # our own measure: sqrt(weight / sum of weights) times the relative difference; here 1 % in the bore
    wider = ALL.take([0])
    columns = {name: getattr(wider, name) for name in ("d", "D", "T", "Cr", "e")}
    columns["d"] = columns["d"] * 1.01
    pair = type("Pair", (), {name: np.array([getattr(ALL, name)[0], columns[name][0]]) for name in columns})
    share = math.sqrt(WEIGHTS["d"] / sum(WEIGHTS.values()))
    assert distance(pair, 0, np.array([1]))[0] == pytest.approx(0.01 * share, rel=6e-3)


def test_a_row_without_a_rating_is_not_offered():
    import dataclasses

    row = ALL.index_of("V050-3DB-C")
    best = nearest_in_other_system(ALL, row, 1).rows[0]
    Cr = ALL.Cr.copy()
    Cr[best] = np.nan
    assert best not in nearest_in_other_system(dataclasses.replace(ALL, Cr=Cr), row, 5).rows


@settings(max_examples=60, deadline=None)
@given(row=rows_of_all, wish=st.sampled_from(["steeper", "shallower", "lighter"]))
def test_a_wish_keeps_bore_and_system_and_is_fulfilled(row, wish):
    near = like_this_but(ALL, row, wish, 10)
    assert np.all(ALL.system[near.rows] == ALL.system[row])
    assert np.all(np.abs(near.differences["d"]) < 0.005)
    change = near.differences["mass" if wish == "lighter" else "alpha"]
    assert np.all(change > 0 if wish == "steeper" else change < 0)
    assert np.all(np.diff(near.measure) >= 0)
    assert row not in near.rows


def test_every_wish_has_answers_for_a_middle_size():
    row = ALL.index_of("V050-3DB-C")
    assert all(len(like_this_but(ALL, row, wish, 3)) for wish in ("steeper", "shallower", "lighter"))


def test_find_keeps_to_every_limit_at_once_as_a_plain_loop_does():
    limits = Limits(d=Range(25, 60), D=Range(high=100), alpha=Range(math.radians(11), math.radians(20)), system="inch")
    wanted = [
        row
        for row in range(len(ALL))
        if 25 <= ALL.d[row] <= 60
        and ALL.D[row] <= 100
        and math.radians(11) <= ALL.alpha[row] <= math.radians(20)
        and ALL.system[row] == "inch"
    ]
    assert wanted
    assert find(ALL, reading(limits)).tolist() == wanted


def test_a_dimension_series_without_bore_finds_the_rows_that_are_named_so():
    found = find(ALL, reading(Limits(dimension_series="3DB", system="metric")))
    assert found.tolist() == np.flatnonzero(ALL.series == "3DB").tolist()


def test_nothing_is_found_where_nothing_is_fixed():
    assert len(find(ALL, reading(Limits(system="inch")))) == 0
