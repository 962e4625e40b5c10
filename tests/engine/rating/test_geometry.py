"""Factors that follow from the contact angle."""

import numpy as np
import pytest
from hypothesis import given

from engine.rating.geometry import (
    axial_factor_Y,
    contact_angle_of_e,
    gamma,
    limiting_ratio_e,
    static_axial_factor_Y0,
)
from tests.printed import printed
from tests.strategies import contact_angles

# ISO 281:2007 Table 8 and ISO 76:2006, formulas evaluated with a pocket calculator, apart from this code
FACTORS = [
    # alpha deg, e, Y, Y0
    ("10.0000", "0.2645", "2.2685", "1.2477"),
    ("11.8597", "0.3150", "1.9048", "1.0476"),
    ("12.9528", "0.3450", "1.7391", "0.9565"),
    ("14.0361", "0.3750", "1.6000", "0.8800"),
    ("15.6422", "0.4200", "1.4286", "0.7857"),
    ("20.0000", "0.5460", "1.0990", "0.6044"),
    ("28.8108", "0.8250", "0.7273", "0.4000"),
    ("30.0000", "0.8660", "0.6928", "0.3811"),
]


@pytest.mark.parametrize(("alpha", "e", "Y", "Y0"), FACTORS, ids=[f"ISO 281 table 8, {row[0]} deg" for row in FACTORS])
def test_factors_over_the_range_of_angles(alpha, e, Y, Y0):
    angle = np.radians(float(alpha))
    assert limiting_ratio_e(angle) == printed(e)
    assert axial_factor_Y(angle) == printed(Y)
    assert static_axial_factor_Y0(angle) == printed(Y0)


@pytest.mark.parametrize(
    ("degrees", "minutes", "seconds", "e"),
    [
        (11, 51, 35, "0.3150"),
        (12, 57, 10, "0.3450"),
        (14, 2, 10, "0.3750"),
        (15, 38, 32, "0.4200"),
        (28, 48, 39, "0.8250"),
    ],
    ids=str,
)
def test_the_angles_of_iso_355_belong_to_round_values_of_e(degrees, minutes, seconds, e):
    # ISO 355 lists its angles to the second (recalled); they are the arcs of tan(alpha) = 0.21, 0.23, 0.25, 0.28, 0.55
    assert limiting_ratio_e(np.radians(degrees + minutes / 60 + seconds / 3600)) == printed(e)


def test_gamma_of_the_rating_check():
    assert gamma(8, np.radians(14.0361), 46) == printed("0.1687")  # calculator
    assert gamma(12, np.radians(15.1094), 80) == printed("0.1448")


@given(contact_angles)
def test_e_times_Y_and_Y0_over_Y_hold_at_every_angle(alpha):
    """In ISO 281 Table 8 and ISO 76, e Y = 0.6 and Y0 / Y = 0.55 whatever the angle."""
    assert limiting_ratio_e(alpha) * axial_factor_Y(alpha) == pytest.approx(0.6, rel=1e-12)
    assert static_axial_factor_Y0(alpha) / axial_factor_Y(alpha) == pytest.approx(0.55, rel=1e-12)


@given(contact_angles)
def test_the_angle_comes_back_from_e(alpha):
    assert contact_angle_of_e(limiting_ratio_e(alpha)) == pytest.approx(alpha, rel=1e-12)


@pytest.mark.parametrize("alpha", [0.0, -0.1, 0.8, np.nan])
def test_no_radial_bearing_has_this_angle(alpha):
    for function in (limiting_ratio_e, axial_factor_Y, static_axial_factor_Y0):
        assert np.isnan(function(alpha))


def test_edges_of_the_range():
    assert limiting_ratio_e(np.pi / 4) == pytest.approx(1.5)
    assert np.isnan(contact_angle_of_e([0.0, 1.6, np.nan])).all()
    assert np.isnan(gamma([0, 8, 8, 8], [0.2, 0.2, -0.1, 0.8], [46, 0, 46, 46])).all()
