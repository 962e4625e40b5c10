"""How long a filling of grease lasts and how much it is: rules of the trade, worked by hand."""

import numpy as np
import pytest
from hypothesis import given

from engine.lubrication.grease import fill, interval
from engine.lubrication.grease.interval import Place, regreasing_interval
from tests.printed import printed
from tests.strategies import numbers


def test_base_interval():
    # common practice: 14e6/(1500 sqrt(60)) - 4 60 = 1205 - 240 = 965 h, a number that maintenance tables print as about
    # six weeks
    assert interval.base_interval(1500, 60) == printed("965")
    assert interval.base_interval([0, 1e6], 60).tolist() == [np.inf, 0]
    assert np.isnan(interval.base_interval([-1, 1], [60, 0])).all()


def test_each_factor():
    base = interval.base_interval(1500, 60)
    for place, factor in [
        (Place(), 1), (Place(contamination="severe_abrasive"), 0.2), (Place(moisture="splashed"), 0.1),
        (Place(vibration="heavy"), 0.3), (Place(position="vertical"), 0.3), (Place(outer_ring_turns=True), 0.5),
        (Place("light_abrasive", "condensing", "rough", "inclined"), 0.4 * 0.4 * 0.6 * 0.5),
    ]:  # fmt: skip
        assert regreasing_interval(1500, 60, 60.0, place) == pytest.approx(base * factor)
        assert np.prod(list(place.factors().values())) == pytest.approx(factor)


def test_temperature_factor():
    assert interval.temperature_factor([20, 65, 66, 80, 81, 93, 94, 120]).tolist() == [
        1, 1, 0.5, 0.5, 0.2, 0.2, 0.1, 0.1]  # fmt: skip
    assert np.isnan(interval.temperature_factor(np.nan))
    # common practice: each 15 K halve the life of a grease; the steps follow that within a factor of 2
    for T in (70, 85, 100):
        assert 0.5 <= interval.temperature_factor(T) / 0.5 ** ((T - 60) / 15) <= 2


@given(numbers(1.0, 1e4), numbers(5.0, 500.0), numbers(0.0, 150.0), numbers(1.0, 3.0))
def test_faster_larger_hotter_never_lasts_longer(n, d, T, more):
    t = regreasing_interval(n, d, T, Place())
    assert regreasing_interval(n * more, d, T, Place()) <= t
    assert regreasing_interval(n, d * more, T, Place()) <= t
    assert regreasing_interval(n, d, T * more, Place()) <= t


def test_over_cases():
    # half the time at 1000 h, half at 500 h: 1/(0.5/1000 + 0.5/500) = 666.7 h
    assert interval.interval_over_cases([0.5, 0.5], [1000, 500]) == printed("666.7")
    assert interval.interval_over_cases([1.0, 0.0], [1000, 0]) == 1000
    assert interval.interval_over_cases([0.5, 0.5], [1000, 0]) == 0
    assert interval.interval_over_cases([0.5, 0.5], [[np.inf, 100], [np.inf, np.inf]]).tolist() == [200, np.inf]
    assert np.isnan(interval.interval_over_cases([1.5, -0.5], [1000, 500]))


def test_free_space_and_fill():
    # a standardised 50 x 90 x 21.75 mm bearing weighs about 0.55 kg: 95.7 cm3 of ring, 70.1 cm3 of steel
    V = fill.free_space(50, 90, 21.75, 0.55)
    assert float(V) / 1000 == pytest.approx(95.66 - 70.06, abs=0.02)
    assert fill.first_fill(V, 0.5) == pytest.approx(11.5, abs=0.1)
    assert np.isnan(fill.free_space([50, 90, 50], [90, 50, 90], 20, [5.0, 0.1, np.nan])).all()
    assert np.isnan(fill.first_fill([-1, 1], [0.5, 1.5])).all()


def test_share_falls_with_speed():
    share = fill.fill_share([0, 6e4, 1e5, 2e5, 3e5, 9e5])
    assert share.tolist() == [0.9, 0.9, 0.5, 0.35, 0.25, 0.25]
    assert np.isnan(fill.fill_share([-1, np.nan])).all()


def test_refill():
    # common practice, G = 0.005 D B: 90 mm by 20 mm take 9 g
    assert fill.refill(90, 20) == 9
    assert fill.refill(90, 20, "weekly") < fill.refill(90, 20, "monthly") < fill.refill(90, 20, "yearly") < 9
    assert np.isnan(fill.refill([0, 90], [20, -1])).all()


@pytest.mark.parametrize(
    ("place", "nlgi", "bleed"),
    [
        ((1e5, 60, 10, "horizontal", "calm", False), 2, "medium"),
        ((1e5, 60, 10, "vertical", "calm", False), 3, "low"),
        ((1e5, 60, 10, "horizontal", "heavy", False), 3, "medium"),
        ((2.5e5, 60, 10, "horizontal", "calm", False), 3, "low"),
        ((1e5, 60, -35, "horizontal", "calm", False), 1, "high"),
        ((1e4, 60, 10, "vertical", "calm", True), 1, "medium"),
    ],
)
def test_consistency(place, nlgi, bleed):
    found = fill.consistency(*place)
    assert (found.nlgi, found.bleed) == (nlgi, bleed)
    assert found.reasons
