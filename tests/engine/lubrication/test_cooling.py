"""How heat leaves a housing."""

import numpy as np
import pytest
from hypothesis import given

from engine.lubrication import cooling
from engine.lubrication.cooling import Cooling
from tests.printed import printed
from tests.strategies import numbers


def test_moved_air_against_a_textbook():
    # Holman, Heat Transfer, example of a plate in air of 27 deg C at 2 m/s, first 40 cm, plate at 60 deg C (recalled):
    # 8.698 W/(m2 K) with the properties at 43.5 deg C; those at 50 deg C make it 0.5 % less
    assert cooling.moved_air_h(2.0, 400.0) == pytest.approx(8.698, rel=0.01)
    # mixed flow at Re = 1e6: (0.037 Re^0.8 - 871) Pr^(1/3) = 1302, by hand
    assert cooling.moved_air_h(1e6 * cooling.AIR_NU, 1000.0) == pytest.approx(1302 * 0.0278, rel=0.002)


def test_still_air_against_the_full_correlation():
    # Churchill and Chu's correlation for a vertical plate, any textbook; the simplified one stays within 15 %
    for L, rise in ((0.1, 20.0), (0.2, 50.0), (0.4, 30.0)):
        Ra = 9.81 / 323 * rise * L**3 / (1.80e-5 * 1.80e-5 / 0.704)
        Nu = 0.68 + 0.670 * Ra**0.25 / (1 + (0.492 / 0.704) ** (9 / 16)) ** (4 / 9)
        assert cooling.still_air_h(rise, 1000 * L) == pytest.approx(Nu * 0.0278 / L, rel=0.15)


def test_radiation():
    # a black square metre at 100 deg C towards 20 deg C: 5.670e-8 (373.15^4 - 293.15^4) = 680.6 W; the rest is air
    both = Cooling(20.0, area=1e6, emissivity=1.0).at(100.0) - Cooling(20.0, area=1e6, emissivity=0.0).at(100.0)
    assert both == printed("680.6")


def test_oil_and_conductance():
    # 2 l/min of an oil of 1.716 kJ/(l K), 25 K warmer on its way out: 1430 W
    assert Cooling(20.0, oil_flow=2.0, oil_inlet=45.0).at(70.0) == pytest.approx(1430, rel=1e-3)
    assert Cooling(20.0, conductance=3.0).at(70.0) == 150
    assert Cooling(20.0).at(90.0) == 0


def test_rule_of_thumb_for_a_housing():
    # common practice: a housing in a hall sheds 10 to 20 W/(m2 K) in all
    assert 10 < Cooling(20.0, area=2e5).at(60.0) / (0.2 * 40) < 20


figures = numbers(0.0, 3.0), numbers(0.0, 1e6), numbers(0.0, 20.0), numbers(0.0, 1.0), numbers(0.0, 10.0)


@given(*figures, numbers(-20.0, 200.0), numbers(0.1, 50.0))
def test_a_warmer_housing_sheds_more_and_the_slope_is_one(G, area, v, emissivity, flow, T, warmer):
    here = Cooling(25.0, G, area, v, emissivity, flow, 40.0)
    assert here.at(T + warmer) >= here.at(T)
    step = 1e-4
    if abs(T - 25.0) > 0.1:
        slope = cooling.carried(T, *here.arrays())[1]
        assert slope == pytest.approx((here.at(T + step) - here.at(T - step)) / (2 * step), rel=1e-4, abs=1e-5)


@given(numbers(0.0, 20.0), numbers(0.0, 10.0), numbers(10.0, 2000.0))
def test_more_wind_never_cools_less(v, more, L):
    assert cooling.moved_air_h(v + more, L) >= cooling.moved_air_h(v, L)


def test_outside():
    assert np.isnan(cooling.moved_air_h([-1, 1], [1, 0])).all()
    assert np.isnan(cooling.still_air_h(10, 0))
    for wrong in ({"area": -1.0}, {"conductance": -1.0}, {"oil_flow": -1.0}, {"emissivity": 2.0}, {"air_speed": -1.0}):
        assert np.isnan(Cooling(20.0, **wrong).at(50.0))
