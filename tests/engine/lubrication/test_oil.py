"""Density, dynamic viscosity, pressure-viscosity coefficient."""

import numpy as np
import pytest
from chemicals.dippr import EQ105
from hypothesis import given

from engine.lubrication.lubricant import BASES
from engine.lubrication.oil import density, dynamic_viscosity_eta, pressure_viscosity_alpha_p
from tests.strategies import numbers


def test_density_against_a_measured_hydrocarbon():
    # outside reference: n-hexadecane, the liquid density of Perry's Handbook as in the library `chemicals`; D1250's
    # lubricating oils expand within 1 % of it up to 100 deg C
    def measured(T):
        return 0.22645 * EQ105(T + 273.15, 232.89, 0.23659, 723.0, 0.28571)

    for T in (40, 60, 80, 100):
        assert density(T, measured(15)) == pytest.approx(measured(T), rel=0.01)


def test_density_where_it_is_known():
    assert density(15, 885) == 885
    # common practice: a mineral oil loses about 0.65 kg/m3 a kelvin
    assert density(65, 885) == pytest.approx(885 - 50 * 0.65, rel=0.003)
    assert np.isnan(density([20, 20, 300, np.nan], [600, 1300, 880, 880])).all()


def test_dynamic_viscosity():
    # water at 20 deg C: 1.004 mm2/s, 998.2 kg/m3, 1.002 mPa s (any table of water)
    assert dynamic_viscosity_eta(1.004, 998.2) == pytest.approx(1.002, abs=0.001)
    assert np.isnan(dynamic_viscosity_eta([0, 1], [900, 0])).all()


# Pressure-viscosity coefficients measured at 38 and 99 deg C, with viscosities in mm2/s, in the review of lubrication
# of machine elements by Hamrock (NASA, 1984; recalled): [1e-8 m2/N]. One formula for all oils of a base can only be
# near: it stays below these within a third, which makes the film up to a fifth thinner.
MEASURED = [
    ("ester", 25.3, 0.99, 1.28),
    ("ester", 4.75, 0.94, 0.987),
    ("mineral", 68.1, 0.87, 2.51),
    ("mineral", 6.86, 0.83, 1.54),
    ("pao", 414.0, 0.84, 1.99),
    ("pao", 34.3, 0.81, 1.51),
]


@pytest.mark.parametrize(("base", "nu", "rho", "alpha"), MEASURED)
def test_pressure_coefficient_against_measured_oils(base, nu, rho, alpha):
    here = pressure_viscosity_alpha_p(nu * rho, base) * 100  # 1/MPa to 1e-8 m2/N
    assert 2 / 3 * alpha <= here <= alpha


@pytest.mark.parametrize(
    ("base", "k", "s"), [("mineral", 2.657e-8, 0.1348), ("pao", 1.466e-8, 0.0507), ("pag", 1.392e-8, 0.1572)]
)
def test_the_same_formula_in_other_units(base, k, s):
    # ISO/TR 15144-1 (recalled) prints it for eta in N s/m2 and alpha in m2/N
    for eta in (5.0, 50.0, 500.0):
        assert pressure_viscosity_alpha_p(eta, base) * 1e-6 == pytest.approx(k * (eta / 1000) ** s, rel=3e-3)


@given(numbers(0.5, 5000.0), numbers(1.01, 5.0))
def test_a_thicker_oil_stiffens_no_less(eta, more):
    for base in BASES:
        assert pressure_viscosity_alpha_p(eta * more, base) > pressure_viscosity_alpha_p(eta, base)
    assert np.isnan(pressure_viscosity_alpha_p(0.0, "pag"))
