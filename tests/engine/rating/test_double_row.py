"""Two rows as one unit, against ISO 281 and ISO 76."""

import numpy as np
import pytest
from hypothesis import given

from engine.rating import double_row, dynamic, fatigue_limit, geometry, static
from tests.printed import printed
from tests.strategies import axial_loads, contact_angles, radial_loads

# ISO 281 Table 8 and ISO 76 evaluated at these angles, worked apart from this code: alpha, Y1, Y2
FACTORS = [("10.0000", "2.5521", "3.7998"), ("11.8597", "2.1429", "3.1905"), ("12.9528", "1.9565", "2.9130"),
           ("14.0361", "1.8000", "2.6800"), ("15.6422", "1.6071", "2.3929"), ("20.0000", "1.2364", "1.8408"),
           ("28.8108", "0.8182", "1.2182"), ("30.0000", "0.7794", "1.1605")]  # fmt: skip


@pytest.mark.parametrize(("alpha", "Y1", "Y2"), FACTORS, ids=[f"ISO 281 Table 8, alpha {row[0]}" for row in FACTORS])
def test_axial_factors(alpha, Y1, Y2):
    # the angles are rounded to 0.0001 deg, which can move the last digit of a factor by one
    found = double_row.axial_factors(np.radians(float(alpha)))
    assert found[0] == pytest.approx(float(Y1), abs=1.1e-4)
    assert found[1] == pytest.approx(float(Y2), abs=1.1e-4)


def test_ratings_of_a_unit():
    # 17 rollers 8 x 11 mm on 46 mm at 14.0361 deg, one row and two (worked apart from this code)
    assert double_row.unit_dynamic_rating(48_080) == pytest.approx(82_433, abs=2)  # from the rounded single rating
    assert double_row.unit_static_rating(53_084) == pytest.approx(106_169, abs=1)
    assert double_row.unit_fatigue_limit(6473.7) == printed("12947.4")


def test_ratings_of_a_unit_are_those_of_a_bearing_with_two_rows():
    """ISO 281 rates two bearings side by side as one with i = 2."""
    rollers = {"Dwe": 8, "Lwe": 11, "Z": 17, "Dpw": 46, "alpha": np.radians(14.0361)}
    Cr, C0r = dynamic.basic_dynamic_rating_Cr(**rollers), static.basic_static_rating_C0r(**rollers)
    two = dynamic.basic_dynamic_rating_Cr(**rollers, i=2), static.basic_static_rating_C0r(**rollers, i=2)
    assert double_row.unit_dynamic_rating(Cr) == pytest.approx(two[0], rel=1e-12)
    assert double_row.unit_static_rating(C0r) == pytest.approx(two[1], rel=1e-12)
    Cu = fatigue_limit.fatigue_load_limit_Cu(C0r, 46)
    assert double_row.unit_fatigue_limit(Cu) == pytest.approx(fatigue_limit.fatigue_load_limit_Cu(two[1], 46))


@given(contact_angles, radial_loads)
def test_the_equivalent_load_has_no_step_at_e(alpha, Fr):
    Fa = geometry.limiting_ratio_e(alpha) * Fr
    below, above = double_row.equivalent_dynamic_load(Fr, Fa * np.array([1 - 1e-9, 1 + 1e-9]), alpha)
    # 1 + 0.45 * 1.5 = 1.675 from below, 0.67 + 0.67 * 1.5 = 1.675 from above
    assert below == pytest.approx(above, rel=1e-8)
    assert below == pytest.approx(1.675 * Fr, rel=1e-8)


@given(contact_angles, radial_loads, axial_loads)
def test_a_unit_under_radial_load_alone_carries_that_load(alpha, Fr, Fa):
    assert double_row.equivalent_dynamic_load(Fr, 0, alpha) == Fr
    assert double_row.equivalent_static_load(Fr, 0, alpha) == Fr
    assert double_row.equivalent_dynamic_load(Fr, Fa, alpha) >= Fr * (1 - 1e-12)


def test_static_load():
    # ISO 76, double row: Y0 = 0.44 cot(alpha), at 14.0361 deg 1.76; 10 + 1.76 * 3 = 15.28 kN, worked by hand
    assert double_row.equivalent_static_load(10, 3, np.radians(14.0361)) == printed("15.28")


@pytest.mark.filterwarnings("error")
def test_outside_its_range_nothing_is_known():
    assert np.isnan(double_row.axial_factors([0, -0.1, 1.0])).all()
    assert np.isnan(double_row.equivalent_dynamic_load([-1, 1], [1, -1], 0.2)).all()
    assert np.isnan([double_row.unit_dynamic_rating(0), double_row.unit_static_rating(-1)]).all()
