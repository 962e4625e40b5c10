"""Interference: its spread, and what surfaces, temperature and turning leave of it."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from engine.seat.interference import (
    interference_limits,
    probable_limits,
    sampled_interference,
    sampled_limits,
    smoothed,
    thermal_change,
)
from engine.seat.material import ALUMINIUM, STEEL
from tests.printed import printed

SHAFT, BORE = (0.030, 0.011), (0.0, -0.015)


def test_limits():
    """m6 on 60 mm in a bore 0/-15, by hand: least 11, greatest 45, mean 28; root sum square half of (19, 15): 12.1."""
    assert [float(one) * 1e3 == printed(told) for one, told in zip(
        interference_limits(*SHAFT, *BORE), ("11.0", "28.0", "45.0"), strict=True)] == [True] * 3  # fmt: skip
    assert [float(one) * 1e3 == printed(told) for one, told in zip(
        probable_limits(*SHAFT, *BORE), ("15.9", "40.1"), strict=True)] == [True] * 2  # fmt: skip


def test_the_probable_limits_hold_all_but_3_in_1000():
    """Against scipy's normal distribution, and against the draw."""
    spread = stats.norm(0.028, np.hypot(0.019, 0.015) / 6)
    least, greatest = probable_limits(*SHAFT, *BORE)
    assert float(spread.cdf(least)) == pytest.approx(0.00135, abs=1e-5)
    assert float(spread.sf(greatest)) == pytest.approx(0.00135, abs=1e-5)
    drawn = sampled_interference(SHAFT, BORE, 200_000)
    # inspection cuts the tails of both sizes, so a little less lies outside
    assert 0.0010 < np.mean((drawn < least) | (drawn > greatest)) < 0.0027
    assert drawn.min() >= 0.011 - 1e-12 and drawn.max() <= 0.045 + 1e-12
    assert stats.kstest(drawn, spread.cdf).statistic < 5e-3


def test_a_draw_is_sorted_and_the_same_each_time():
    drawn = sampled_interference(SHAFT, BORE, 500)
    assert drawn.shape == (500,) and np.all(np.diff(drawn) >= 0)
    assert np.array_equal(drawn, sampled_interference(SHAFT, BORE, 500))
    assert not np.array_equal(drawn, sampled_interference(SHAFT, BORE, 500, seed=2))


def test_smoothing():
    """DIN 7190-1: 0.8 of the sum of the depths, recalled; Rz 4 and 2.5 um take 5.2 um."""
    assert float(smoothed(0.030, 0.004, 0.0025)) * 1e3 == printed("24.8")
    # neither is a clearance widened nor an interference turned into one
    assert smoothed([-0.01, 0.0, 0.003], 0.004, 0.0025).tolist() == [-0.01, 0.0, 0.0]


def test_an_aluminium_housing_lets_go():
    """90 mm, both parts at 80 deg C, 23.5e-6 against 12e-6 1/K: 62.1 um, worked by hand."""
    assert float(thermal_change(90, 80, 80, STEEL, ALUMINIUM)) * 1e3 == printed("-62.1")
    assert thermal_change(90, 20, 20, STEEL, ALUMINIUM) == 0
    # 20 K between cone and shaft of 50 mm
    assert float(thermal_change(50, 60, 80, STEEL, STEEL)) * 1e3 == printed("-12.0")


@settings(max_examples=100)
@given(delta=st.floats(-0.1, 0.2), more=st.floats(0, 0.1), Rz=st.floats(0, 0.02))
def test_smoothing_keeps_the_order(delta, more, Rz):
    assert smoothed(delta, Rz, Rz) <= smoothed(delta + more, Rz, Rz)
    assert smoothed(delta, Rz, Rz) <= delta


def test_the_range_of_drawn_sizes_lies_within_the_worst_cases_and_beside_the_root_sum_square():
    """Sizes sorted out at the ends of their zones: the same range by integrating both cut normal densities, scipy."""
    zones = (0.030, 0.011), (0.0, -0.015)
    cut = stats.truncnorm(-3, 3)
    x = np.linspace(-3, 3, 4001)
    spread = np.linspace(0.0112, 0.0448, 2001)
    middle = [(upper + lower) / 2 for upper, lower in zones]
    # the chance that shaft less bore is at most so much
    below = [
        np.trapezoid(cut.pdf(x) * cut.cdf((at - middle[0] + middle[1] + x * 0.015 / 6) / (0.019 / 6)), x)
        for at in spread
    ]
    told = [np.interp(share, below, spread) for share in (0.00135, 0.99865)]
    found = sampled_limits(*zones)
    assert found == pytest.approx(told, abs=3e-4)
    assert 0.011 < found[0] < 0.028 < found[1] < 0.045
    assert found == pytest.approx([float(one) for one in probable_limits(*zones[0], *zones[1])], abs=1e-3)
    assert np.isnan(sampled_limits((np.nan, np.nan), zones[1])).all()
