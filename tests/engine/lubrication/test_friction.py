"""Friction torque."""

import numpy as np
import pytest
from hypothesis import given

from engine.lubrication import friction
from tests.printed import printed
from tests.strategies import axial_loads, numbers, radial_loads

# ISO 15312 model, M0 and M1 evaluated apart from this code at the thermal reference speeds of three bearings
TABLE = [
    # f0, n, dm, P1, M0, M1 [N mm]
    (3.0, 7838, 46, 0.05 * 40e3, "60.39", "36.8"),
    (4.5, 4580, 70, 0.05 * 100e3, "223.1", "140"),
    (4.5, 2638.6, 140, 0.05 * 450e3, "1235.9", "1260"),
]


@pytest.mark.parametrize(("f0", "n", "dm", "P1", "M0", "M1"), TABLE)
def test_moments(f0, n, dm, P1, M0, M1):
    assert friction.load_independent_M0(f0, 12, n, dm) == printed(M0)
    assert friction.load_dependent_M1(friction.F1, P1, dm) == printed(M1)


def test_slow_oil():
    # printed for nu n < 2000: 160e-7 f0 dm^3
    assert friction.load_independent_M0(3, 100, 10, 50) == pytest.approx(160e-7 * 3 * 50**3)
    assert friction.load_independent_M0(3, 100, 0, 50) == pytest.approx(160e-7 * 3 * 50**3)
    # where the printed lines change, at nu n = 2000, they differ by 0.8 %
    assert friction.load_independent_M0(3, 1, 2000, 50) == pytest.approx(1e-7 * 3 * 2000 ** (2 / 3) * 50**3, rel=0.009)


# Boundary dimensions of the standardised metric series and the f0 that ISO 15312 Table A.1 gives the series
SERIES = [
    ((30, 62, 17.25), 14, 3.0, "series 02"),
    ((30, 72, 20.75), 12, 3.0, "series 03"),
    ((30, 55, 17), 15, 3.0, "series 20"),
    ((30, 47, 12), 12, 3.0, "series 29"),
    ((100, 150, 32), 15, 3.0, "series 20, larger"),
    ((30, 62, 21.25), 14, 4.5, "series 22"),
    ((30, 72, 28.75), 12, 4.5, "series 23"),
    ((30, 72, 20.75), 28.8, 4.5, "series 13"),
    ((40, 75, 26), 13, 4.5, "series 31"),
    ((30, 62, 25), 12, 4.5, "series 32"),
    ((20, 42, 15), 14, 3.0, "series 20, smallest"),
    ((80, 125, 36), 12.6, 3.0, "series 30"),
    ((120, 180, 38), 16, 3.0, "series 20, 120 mm"),
    ((120, 180, 48), 12, 3.0, "series 30, 120 mm"),
    ((200, 310, 70), 16, 3.0, "series 20, 200 mm"),
    ((300, 460, 100), 16, 3.0, "series 20, 300 mm"),
    ((50, 85, 26), 14, 4.5, "series 31, 50 mm"),
    ((80, 130, 37), 14, 4.5, "series 31, 80 mm"),
    ((110, 180, 56), 15, 4.5, "series 31, 110 mm"),
    ((200, 360, 104), 15, 4.5, "series 22, 200 mm"),
]


@pytest.mark.parametrize(
    ("sizes", "degrees", "f0", "series"), SERIES, ids=[f"ISO 15312 A.1, {row[3]}" for row in SERIES]
)
def test_f0_of_the_series(sizes, degrees, f0, series):
    assert friction.f0_of_section(*sizes, np.radians(degrees)) == f0, series


def test_f0_by_supply():
    by_supply = [friction.f0_with_supply(4.5, supply) for supply in ("mist", "bath", "grease", "circulating")]
    assert by_supply == [2.25, 4.5, 4.5, 6.75]
    assert friction.f0_with_supply(3, "bath", vertical=True) == 4.5
    assert friction.f0_with_supply(3, "grease", vertical=True) == 3


def test_power():
    # 1 N m at 1000 rpm: 104.72 W
    assert friction.friction_power(1000, 1000) == printed("104.72")


@given(radial_loads, axial_loads, numbers(0.6, 2.4))
def test_load_of_friction(Fr, Fa, Y):
    """The larger of 2 Y Fa and Fr."""
    assert friction.friction_load_P1(Fr, Fa, Y) in (Fr, pytest.approx(2 * Y * Fa))
    assert friction.friction_load_P1(Fr, Fa, Y) >= Fr


@given(numbers(0.3, 1e4), numbers(0.0, 1e4), numbers(1.0, 10.0))
def test_thicker_or_faster_never_brakes_less(nu, n, more):
    M0 = friction.load_independent_M0(3, nu, n, 50)
    assert friction.load_independent_M0(3, nu * more, n, 50) >= M0
    assert friction.load_independent_M0(3, nu, n * more, 50) >= M0


def test_outside():
    assert np.isnan(friction.load_independent_M0([0, 1, 1, 1], [1, 0, 1, 1], [1, 1, -1, 1], [1, 1, 1, 0])).all()
    assert np.isnan(friction.load_dependent_M1([0, 1, 1], [1, -1, 1], [1, 1, 0])).all()
    assert np.isnan(friction.friction_load_P1([-1, 1, 1], [1, -1, 1], [1, 1, 0])).all()
    assert np.isnan(friction.friction_power([-1, 1], [1, -1])).all()
    assert np.isnan(friction.f0_of_section([0, 50, 30], [62, 40, 62], [17, 17, 0], 0.2)).all()
    assert np.isnan(friction.f0_with_supply(-1, "bath"))
