"""Twin limits: an inch ring sits as its metric twin does; and what the metric limits would do to it.

The expected figures are worked by hand from the printed limits of ISO 286 and the tolerances of the rings.
"""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.seat import interference, iso286, iso492
from engine.seat.limits import (
    housing_limits,
    housing_mistaken,
    ring_limits,
    shaft_limits,
    shaft_mistaken,
    twin_housing_limits,
    twin_shaft_limits,
)

NORMAL = iso492.CLASSES.index("Normal")


def micrometres(*values):
    return tuple(round(float(np.squeeze(value)) * 1e3, 3) for value in values)


def test_worked_example_shaft():
    """One duty, m6 on 63.5 mm: a metric cone of class Normal, and an inch cone of class 4 (2 1/2 in).

    Metric: shaft +30/+11, bore 0/-15, so that the interference is 11 to 45 um. Inch: bore +13/0; the shaft has to be
    +45/+24 for the same 11 to 45 um. With +30/+11 it would be -2 to 30 um: loose in the worst case.
    """
    code = iso286.shaft_code("m6")
    inch = ring_limits("inch", "4", 63.5, 112.7125)
    metric = ring_limits("metric", "Normal", 63.5, 112.7125)
    shaft = shaft_limits(63.5, code, metric)
    assert micrometres(shaft.upper, shaft.lower) == (30, 11)
    twin = shaft_limits(63.5, code, inch)
    assert micrometres(twin.upper, twin.lower) == (45, 24)
    assert twin.made
    ends = [
        micrometres(*interference.interference_limits(of.upper, of.lower, rings.bore_upper, rings.bore_lower))
        for of, rings in ((shaft, metric), (twin, inch))
    ]
    assert ends[0] == ends[1] == (11, 28, 45)
    wrong = micrometres(*interference.interference_limits(shaft.upper, shaft.lower, inch.bore_upper, inch.bore_lower))
    assert wrong == (-2, 14, 30)
    mistaken = shaft_mistaken(63.5, code, inch)
    assert micrometres(mistaken.at_least, mistaken.at_greatest) == (wrong[0] - 11, wrong[2] - 45) == (-13, -15)


def test_worked_example_housing():
    """N7 round 112.7125 mm (4.4375 in), a hub that turns: cup 0/-18 metric, +25/0 inch.

    Metric: housing -10/-45, interference -8 to 45 um. Inch: housing +8/-20 for the same; with -10/-45 it would be
    10 to 70 um, tighter at both ends.
    """
    code = iso286.hole_code("N7")
    inch = ring_limits("inch", "4", 63.5, 112.7125)
    twin = housing_limits(112.7125, code, inch)
    assert micrometres(twin.upper, twin.lower) == (8, -20)
    least, _, greatest = interference.interference_limits(
        inch.outside_upper, inch.outside_lower, twin.upper, twin.lower
    )
    assert micrometres(least, greatest) == (-8, 45)
    mistaken = housing_mistaken(112.7125, code, inch)
    assert micrometres(mistaken.at_least, mistaken.at_greatest) == (18, 25)


@settings(max_examples=100)
@given(
    d=st.floats(15, 150), ratio=st.floats(1.3, 2.0), tolerance=st.sampled_from(["4", "2", "3", "0", "00"]),
    shaft=st.sampled_from(["g6", "h6", "j6", "k6", "m6", "n6", "p6", "r6", "m5"]),
    hole=st.sampled_from(["G7", "H7", "J7", "K7", "M7", "N7", "P7", "K6"]),
)  # fmt: skip
def test_the_same_interference_at_both_ends(d, ratio, tolerance, shaft, hole):
    """Within 1 um at both ends, whatever the class and the size; exactly, but for the last bits."""
    D = d * ratio
    inch, metric = ring_limits("inch", tolerance, d, D), ring_limits("metric", "Normal", d, D)
    on_shaft, in_housing = [], []
    for rings in (metric, inch):
        seat = shaft_limits(d, iso286.shaft_code(shaft), rings)
        on_shaft.append(interference.interference_limits(seat.upper, seat.lower, rings.bore_upper, rings.bore_lower))
        seat = housing_limits(D, iso286.hole_code(hole), rings)
        in_housing.append(
            interference.interference_limits(rings.outside_upper, rings.outside_lower, seat.upper, seat.lower)
        )
    for both in (on_shaft, in_housing):
        assert not np.isnan(both).any()
        assert np.allclose(both[0], both[1], rtol=0, atol=1e-9)  # of a mm: far within 1 um


def test_the_metric_limits_on_an_inch_ring_always_err_the_same_way():
    d = np.array([20.0, 63.5, 150, 300])
    inch = ring_limits("inch", "4", d, d * 1.8)
    code = iso286.shaft_code("k6")
    assert (shaft_mistaken(d, code, inch).at_least < 0).all() and (shaft_mistaken(d, code, inch).at_greatest < 0).all()
    code = iso286.hole_code("H7")
    mistaken = housing_mistaken(d * 1.8, code, inch)
    assert (mistaken.at_least > 0).all() and (mistaken.at_greatest > 0).all()
    metric = ring_limits("metric", "Normal", d, d * 1.8)
    assert not np.any(shaft_mistaken(d, code, metric).at_least)


def test_a_twin_that_cannot_be_made_is_said_so():
    """A bore spread by 127 um cannot sit within the 20 um that a fit of 8 um on 12 um leaves."""
    es, ei = twin_shaft_limits(0.008, 0.0, 0.0, -0.012, 0.127, 0.0)
    assert es < ei
    made = shaft_limits([1300.0, 60.0], iso286.shaft_code("m6"), ring_limits("inch", ["4", "4"], [1300.0, 60.0], 100.0))
    assert made.made.tolist() == [False, True]  # over 1000 mm the metric ring is not at hand
    assert micrometres(*twin_housing_limits(0.0, -0.03, 0.0, -0.018, 0.025, 0.0)) == (18, -5)


@pytest.mark.filterwarnings("error")
def test_unknown_classes_stay_unknown():
    rings = ring_limits("metric", "7", 60.0, 100.0)
    least, _, greatest = interference.interference_limits(0.03, 0.011, rings.bore_upper, rings.bore_lower)
    assert np.isnan(least) and np.isnan(greatest)
