"""Viscosities at 40 and 100 deg C of an oil that is known at two other temperatures."""

import numpy as np
import pytest
from chemicals.dippr import EQ101, EQ105
from hypothesis import given
from scipy.optimize import brentq

from engine.lubrication.two_points import at_40_and_100
from engine.lubrication.viscosity import kinematic_viscosity_full
from tests.engine.lubrication.test_viscosity import D341
from tests.strategies import numbers


@pytest.mark.parametrize(("nu40", "nu100", "at60", "at80"), [(*row[:3], row[4]) for row in D341])
def test_the_table_of_d341_backwards(nu40, nu100, at60, at80):
    # the table, evaluated apart from this code, prints 4 digits: half the last one moves the ends by less than 0.3 %
    for points in ((60, at60, 80, at80), (80, at80, 60, at60)):
        found = at_40_and_100(*map(float, points))
        assert found == (pytest.approx(nu40, rel=3e-3), pytest.approx(nu100, rel=3e-3))


def test_against_a_measured_liquid():
    # Outside reference: 1,2-propylene glycol of Perry's Handbook, as in test_viscosity.py; there D341 meets it within
    # 3 % between its points, beyond them a little worse
    def measured(T):
        dynamic = EQ101(T + 273.15, -804.54, 30487.0, 130.79, -0.15449, 1.0)  # [Pa s]
        return 1e6 * dynamic / (0.07609442 * EQ105(T + 273.15, 1092.3, 0.26106, 626.0, 0.20459))

    for T_first, T_second in ((20.0, 80.0), (90.0, 25.0), (50.0, 105.0)):
        nu40, nu100 = at_40_and_100(T_first, measured(T_first), T_second, measured(T_second))
        assert nu40 == pytest.approx(measured(40.0), rel=0.05)
        assert nu100 == pytest.approx(measured(100.0), rel=0.05)


@pytest.mark.parametrize("points", [(20, 300, 80, 20), (120, 0.9, 30, 6.0), (-20, 9000, 50, 45), (60, 1.2, 150, 0.4)])
def test_the_line_solved_by_scipy(points):
    # the full form of ASTM D341 (recalled), its line interpolated and solved for nu by bisection
    def ordinate(nu):
        return np.log10(np.log10(nu + 0.7 + np.exp(-1.47 - 1.84 * nu - 0.51 * nu**2)))

    logs = [np.log10(T + 273.15) for T in points[::2]]
    order = np.argsort(logs)
    slope, level = np.polyfit(np.array(logs)[order], ordinate(np.array(points[1::2], dtype=float))[order], 1)
    for T, found in zip((40, 100), at_40_and_100(*points), strict=True):
        there = level + slope * np.log10(T + 273.15)
        assert found == pytest.approx(brentq(lambda nu, there=there: ordinate(nu) - there, 0.2, 1e7), rel=1e-6)


@given(numbers(0.5, 80.0), numbers(1.2, 12.0), numbers(-10.0, 70.0), numbers(5.0, 90.0))
def test_the_line_so_found_leads_back_through_both_points(nu_hot, ratio, T_cold, apart):
    nu40, nu100 = at_40_and_100(T_cold, nu_hot * ratio, T_cold + apart, nu_hot)
    if not np.isnan(nu40):
        back = kinematic_viscosity_full([T_cold, T_cold + apart], nu40, nu100)
        # the inverse printed with the standard is rough by 0.2 % where the oil is thin
        assert back == pytest.approx([nu_hot * ratio, nu_hot], rel=2.5e-3)


@given(numbers(0.5, 80.0), numbers(1.2, 12.0))
def test_points_at_40_and_100_are_what_was_asked_for(nu100, ratio):
    assert at_40_and_100(100, nu100, 40, nu100 * ratio) == pytest.approx((nu100 * ratio, nu100), rel=1e-9)


def test_points_that_no_oil_has():
    cases = [(50, 30, 50, 20), (50, 30, 80, 30), (50, 20, 80, 30), (80, 30, 50, 20), (50, 0.1, 20, 5),
             (50, 30, 80, np.nan), (-300, 30, 80, 10), (50, 30, 80, -5)]  # fmt: skip
    for case in cases:
        assert np.isnan(at_40_and_100(*case)).all(), case
    # so steep a line that it is beyond the chart at 40 deg C
    assert np.isnan(at_40_and_100(140, 1e6, 150, 1.0)).all()
