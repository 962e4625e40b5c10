"""Basic dynamic rating and equivalent dynamic load."""

import numpy as np
import pytest
from hypothesis import given, settings

from engine.rating.dynamic import basic_dynamic_rating_Cr, equivalent_dynamic_load_P, f_c
from engine.rating.geometry import axial_factor_Y, limiting_ratio_e
from tests.printed import printed
from tests.strategies import axial_loads, contact_angles, numbers, radial_loads

# ISO 281:2007 Table 7 (recalled): f_c for gamma = 0.01, 0.02, ... 0.30. The table and the closed form of
# ISO/TR 1281-1 were recalled and read apart from each other; that they agree in 30 rows confirms both.
TABLE_7 = """
52.1 60.8 66.5 70.7 74.1 76.9 79.2 81.2 82.8 84.2
85.4 86.4 87.1 87.7 88.2 88.5 88.7 88.8 88.8 88.7
88.5 88.2 87.9 87.5 87.0 86.4 85.8 85.2 84.5 83.8
"""
ROWS = [(row / 100, text) for row, text in enumerate(TABLE_7.split(), start=1)]

# ISO 281:2007 clause 7.1 with b_m = 1.1, evaluated apart from this code
RATINGS = [
    # Z, Dwe, Lwe, Dpw, alpha deg, i, f_c, Cr
    (17, 8, 11, 46, 14.0361, 1, "88.72", "48080"),
    (17, 8, 11, 46, 14.0361, 2, "88.72", "82433"),
    (20, 13.75, 22, 150, 12, 1, "82.79", "156459"),
    (19, 12, 18, 80, 15.1094, 1, "87.98", "117064"),
]


@pytest.mark.parametrize(("gamma", "expected"), ROWS, ids=[f"ISO 281 table 7, gamma {g:.2f}" for g, _ in ROWS])
def test_f_c_meets_the_table(gamma, expected):
    assert f_c(gamma) == printed(expected)


def test_f_c_is_greatest_between_0_18_and_0_19():
    gamma = np.linspace(0.001, 0.3, 3000)
    assert 0.18 <= gamma[np.argmax(f_c(gamma))] <= 0.19  # where ISO 281 Table 7 has its greatest value, 88.8


@pytest.mark.parametrize("gamma", [0.0, -0.1, 0.3001, 1.0, np.nan])
def test_f_c_outside_the_table_is_no_number(gamma):
    assert np.isnan(f_c(gamma))


@pytest.mark.parametrize(("Z", "Dwe", "Lwe", "Dpw", "alpha", "i", "factor", "Cr"), RATINGS)
def test_rating_checks(Z, Dwe, Lwe, Dpw, alpha, i, factor, Cr):
    alpha = np.radians(alpha)
    assert f_c(Dwe * np.cos(alpha) / Dpw) == printed(factor)
    assert basic_dynamic_rating_Cr(Dwe, Lwe, Z, Dpw, alpha, i) == printed(Cr)


def test_a_second_row_adds_less_than_it_brings():
    # ISO 281, clause 7.1: Cr grows with i^(7/9); 2^(7/9) = 1.7145 by calculator
    one, two = basic_dynamic_rating_Cr(8, 11, 17, 46, 0.25, [1, 2])
    assert two / one == printed("1.7145")


def test_a_bearing_with_impossible_sizes_has_no_rating():
    assert np.isnan(
        basic_dynamic_rating_Cr([0, 8, 8, 8], [11, -1, 11, 11], [17, 17, 0, 17], [46, 46, 46, 20], 0.25)
    ).all()


@given(contact_angles, numbers(1.0, 1e6))
def test_equivalent_load_is_continuous_at_e(alpha, Fr):
    """ISO 281 Table 8: both lines of the single-row bearing give Fr at Fa/Fr = e."""
    e, Y = limiting_ratio_e(alpha), axial_factor_Y(alpha)
    near = equivalent_dynamic_load_P(Fr, Fr * e * np.array([1 - 1e-12, 1.0, 1 + 1e-12]), e, Y)
    assert near == pytest.approx(Fr, rel=1e-11)


@given(contact_angles, radial_loads, radial_loads, axial_loads, axial_loads)
@settings(max_examples=200)
def test_more_load_is_never_less_equivalent_load(alpha, Fr1, Fr2, Fa1, Fa2):
    e, Y = limiting_ratio_e(alpha), axial_factor_Y(alpha)
    less = equivalent_dynamic_load_P(min(Fr1, Fr2), min(Fa1, Fa2), e, Y)
    more = equivalent_dynamic_load_P(max(Fr1, Fr2), max(Fa1, Fa2), e, Y)
    assert less <= more * (1 + 1e-12)


def test_equivalent_load_at_the_edges():
    # worked by hand with Table 8: no load, pure radial, pure axial, below e and above e
    load = equivalent_dynamic_load_P([0, 1000, 0, 1000, 1000], [0, 0, 1000, 374, 500], 0.375, 1.6)
    assert load == pytest.approx([0, 1000, 1600, 1000, 1200])
    assert np.isnan(equivalent_dynamic_load_P([-1, 1, np.nan], [1, -1, 1], 0.375, 1.6)).all()
