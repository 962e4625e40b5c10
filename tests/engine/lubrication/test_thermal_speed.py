"""Thermal reference speed, thermally safe operating speed, speed factor."""

import numpy as np
import pytest
from hypothesis import given
from scipy.optimize import brentq

from engine.lubrication import thermal_speed
from engine.lubrication.cooling import Cooling, reference_conductance
from engine.lubrication.heat import losses, settle
from engine.lubrication.viscosity import kinematic_viscosity_full
from tests.printed import printed
from tests.strategies import numbers

# ISO 15312, solved apart from this code: d, D, T, C0r, f0, A_r, q_r A_r, n
TABLE = [
    (30, 62, 17.25, 40e3, 3.0, "4985.7", "79.77", "7838"),
    (50, 90, 24.75, 100e3, 4.5, "10885.6", "174.17", "4580"),
    (100, 180, 49, 450e3, 4.5, "43102.7", "689.64", "2638.6"),
]


@pytest.mark.parametrize(("d", "D", "T", "C0r", "f0", "area", "heat", "n"), TABLE)
def test_three_bearings(d, D, T, C0r, f0, area, heat, n):
    A_r = thermal_speed.reference_area(d, D, T)
    assert A_r == printed(area)
    assert thermal_speed.reference_heat_flow_density(A_r) * A_r == printed(heat)
    assert thermal_speed.thermal_reference_speed_of(d, D, T, C0r, f0) == printed(n)


@pytest.mark.parametrize(("d", "D", "T", "C0r", "f0"), [(*row[:5],) for row in TABLE] + [(300, 460, 100, 3e6, 3.0)])
def test_re_derived_from_the_reference_conditions(d, D, T, C0r, f0):
    """ISO 15312: at that speed the bearing settles at 70 deg C in air of 20 deg C.

    With an oil of 12 mm2/s at 70 deg C, a radial load of 0.05 C0r, and the reference heat flow, 0.016 W/mm2 at 50 K (of
    the larger surfaces less), through pi T (d + D).
    """
    area = np.pi * T * (d + D)
    density = 0.016 if area <= 50_000 else 0.016 * (area / 50_000) ** -0.34
    n = thermal_speed.thermal_reference_speed_of(d, D, T, C0r, f0)
    nu40 = brentq(lambda nu40: kinematic_viscosity_full(70.0, nu40, 5.5) - 12, 20, 60)
    found = settle(losses(f0, (d + D) / 2, 0.05 * C0r, n), Cooling(20.0, density * area / 50), nu40, 5.5)
    assert float(found.T) == pytest.approx(70.0, abs=1e-6)
    assert found.nu == pytest.approx(12.0)
    assert reference_conductance(area) == pytest.approx(density * area / 50)


@given(numbers(1e-2, 10.0), numbers(0.0, 10.0))
def test_ratio_of_speeds(KL, KP):
    f = thermal_speed.speed_ratio(KL, KP)
    assert f == pytest.approx(brentq(lambda f: KL * f ** (5 / 3) + KP * f - 1, 0, 100), rel=1e-9)


@given(numbers(0.05, 0.95))
def test_at_the_reference_conditions_the_ratio_is_1(KL):
    """DIN 732: KL + KP = 1 at the reference conditions, f = 1."""
    assert thermal_speed.speed_ratio(KL, 1 - KL) == pytest.approx(1.0)


def test_against_the_textbooks_approximation():
    # textbooks print an approximation of the solution (recalled): f = 490.77 / (1 + 498.78 KL^0.599 + 852.88 KP^0.963
    # - 504.5 KL^0.055 KP^0.832), for 0.01 to 10; it is within 3 % of the exact one there
    for KL in (0.02, 0.1, 0.5, 2.0, 8.0):
        for KP in (0.02, 0.1, 0.5, 2.0, 8.0):
            printed_f = 490.77 / (1 + 498.78 * KL**0.599 + 852.88 * KP**0.963 - 504.5 * KL**0.055 * KP**0.832)
            assert thermal_speed.speed_ratio(KL, KP) == pytest.approx(printed_f, rel=0.05)


def test_safe_speed():
    d, D, T, C0r, f0 = TABLE[1][:5]
    n, dm = 4580.0, (d + D) / 2
    n_ref = thermal_speed.thermal_reference_speed_of(d, D, T, C0r, f0)
    A_r = thermal_speed.reference_area(d, D, T)
    Phi = thermal_speed.heat_flow(A_r, 50.0, 0.0, 0.0)
    assert Phi == printed("174.17")
    same = thermal_speed.thermally_safe_speed(n_ref, f0, 12.0, 0.0004, 0.05 * C0r, dm, Phi)
    assert same == pytest.approx(n_ref) and same == pytest.approx(n, abs=1)
    # a thicker oil or a greater load makes it slower, circulating oil faster; nothing to carry heat away: no speed
    for worse in ((f0, 30.0, 0.0004, 0.05 * C0r), (f0, 12.0, 0.0004, 0.1 * C0r), (2 * f0, 12.0, 0.0004, 0.05 * C0r)):
        assert thermal_speed.thermally_safe_speed(n_ref, *worse, dm, Phi) < n_ref
    more = thermal_speed.heat_flow(A_r, 50.0, 1.0, 20.0)
    assert more - Phi == pytest.approx(1.716e3 / 60 * 20, rel=1e-3)  # 1 l/min of oil of 1.716 kJ/(l K), 20 K
    assert thermal_speed.thermally_safe_speed(n_ref, f0, 12.0, 0.0004, 0.05 * C0r, dm, more) > n_ref
    assert thermal_speed.thermally_safe_speed(n_ref, f0, 12.0, 0.0004, 1.0, dm, 0.0) == 0


def test_outside():
    assert np.isnan(thermal_speed.reference_area([0, 50, 30], [62, 40, 62], [1, 1, 0])).all()
    assert np.isnan(thermal_speed.reference_heat_flow_density([0, -1, np.nan])).all()
    assert np.isnan(thermal_speed.thermal_reference_speed([0, 1, 1], 0.0004, [1, -1, 1], [1, 1, 0], 1)).all()
    assert np.isnan(thermal_speed.speed_ratio([0, 1], [1, -1])).all()
    assert np.isnan(thermal_speed.heat_flow(1.0, 1.0, -1.0, 1.0))
    assert np.isnan(thermal_speed.thermal_reference_speed_of(30, 62, 17, -1, 3))


def test_speed_factor():
    assert thermal_speed.speed_factor(1500, 70) == 105_000
    assert np.isnan(thermal_speed.speed_factor([-1, 1], [1, 0])).all()
