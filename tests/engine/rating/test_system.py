"""Life of several bearings as one system."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq
from scipy.stats import weibull_min

from engine.rating.system import system_life
from tests.printed import printed
from tests.strategies import lives


# ISO/TR 1281-1 (recalled); evaluated apart from this code
@pytest.mark.parametrize(
    ("life", "beta", "expected"),
    [([15_000, 25_000], 9 / 8, "10086"), ([15_000, 25_000], 1.5, "11630"), ([40_000, 40_000], 9 / 8, "21601")],
)
def test_system_life(life, beta, expected):
    assert system_life(life, beta) == printed(expected)


@pytest.mark.parametrize("reliability", [0.90, 0.99])
@pytest.mark.parametrize("life", [(15_000, 25_000), (300, 40_000), (7_000, 7_000, 9_000)])
def test_the_system_survives_when_all_its_bearings_do(life, reliability):
    # outside reference scipy.stats.weibull_min: the survival of independent bearings multiplies
    one = [weibull_min(c=9 / 8, scale=L / weibull_min.isf(reliability, c=9 / 8)) for L in life]
    expected = brentq(lambda t: np.prod([bearing.sf(t) for bearing in one]) - reliability, 1e-3, max(life), xtol=1e-9)
    assert system_life(life) == pytest.approx(expected, rel=1e-9)


@given(st.lists(lives, min_size=1, max_size=6))
def test_a_system_lives_no_longer_than_its_shortest_bearing(life):
    assert system_life(life) <= min(life)
    assert system_life([*life, np.inf]) == system_life(life)
    assert system_life(life[::-1]) == pytest.approx(system_life(life), rel=1e-12)


def test_edges():
    assert system_life([[0, 5], [0, np.inf]]).tolist() == [0, 0]
    assert np.isposinf(system_life([np.inf, np.inf]))
    assert np.isnan(system_life([[np.nan, 5], [-1, 5]])).all()
    assert np.isnan(system_life([1, 2], beta=0))
    assert system_life(7.0) == 7
    assert system_life([1e-300, 1e-300], beta=30.0) > 0  # where the printed sum would leave the number range
    life = np.array([[10.0, 4.0, 3.0], [30.0, 2.0, 8.0]])
    assert system_life(life, axis=0) == pytest.approx(system_life(life.T))
