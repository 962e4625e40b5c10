"""Viscosity at temperature and the ISO viscosity grades."""

import numpy as np
import pytest
from chemicals import viscosity_index
from chemicals.dippr import EQ101, EQ105
from hypothesis import given
from scipy.optimize import brentq

from engine.lubrication.lubricant import ISO_VG
from engine.lubrication.viscosity import (
    NU100_AT_VI_95,
    kinematic_viscosity,
    nu40_of_grade,
    nu100_of_grade,
)
from tests.printed import printed
from tests.strategies import numbers

# ASTM D341 with the constant 0.7, evaluated apart from this code
D341 = [
    # nu40, nu100, at 60, 70, 80 deg C
    (220, 19, "78.82", "51.70", "35.60"),
    (100, 11.1, "39.68", "27.18", "19.47"),
    (46, 6.8, "20.62", "14.85", "11.10"),
    (32, 5.4, "15.19", "11.19", "8.53"),
    (68, 8.6, "28.49", "19.97", "14.59"),
]


@pytest.mark.parametrize(("nu40", "nu100", "at60", "at70", "at80"), D341)
def test_two_point_table(nu40, nu100, at60, at70, at80):
    for T, expected in ((60, at60), (70, at70), (80, at80)):
        assert kinematic_viscosity(T, nu40, nu100) == printed(expected)


def test_against_a_measured_liquid():
    # Outside reference: viscosity and density of 1,2-propylene glycol as tabulated in Perry's Handbook, 8th ed.
    # (tables 2-313 and 2-105 by the count of the general-purpose library `chemicals`, where the constants were read
    # and whose equations are used). D341 is made for petroleum oils; the glycol, one of the few pure liquids of the
    # handbook that stay above 2 mm2/s at 100 deg C, is met within 3 %. A straight line of log nu over 1/T misses it
    # by up to 10 %.
    def measured(T):
        kelvin = T + 273.15
        dynamic = EQ101(kelvin, -804.54, 30487.0, 130.79, -0.15449, 1.0)  # [Pa s]
        density = 0.07609442 * EQ105(kelvin, 1092.3, 0.26106, 626.0, 0.20459)  # [kg/mol] [mol/m3]
        return 1e6 * dynamic / density

    for T in (50, 60, 70, 80, 90):
        assert kinematic_viscosity(T, measured(40), measured(100)) == pytest.approx(measured(T), rel=0.03)


@pytest.mark.parametrize(("nu40", "nu100"), [(220, 19), (46, 6.8), (10, 2.637), (6, 2.0)])
def test_the_constant_alone_is_enough_above_2_mm2_s(nu40, nu100):
    # The full form of ASTM D341 (recalled) adds exp(-1.47 - 1.84 nu - 0.51 nu^2) to nu + 0.7; solved here with scipy.
    # It departs from the two-point form by less than 0.1 % down to 2 mm2/s, which is why that is the stated limit.
    def ordinate(nu):
        return np.log10(np.log10(nu + 0.7 + np.exp(-1.47 - 1.84 * nu - 0.51 * nu**2)))

    for T in (20, 60, 80, 95):
        along = (np.log(T + 273.15) - np.log(313.15)) / (np.log(373.15) - np.log(313.15))
        wanted = ordinate(nu40) + along * (ordinate(nu100) - ordinate(nu40))
        full = brentq(lambda nu, wanted=wanted: ordinate(nu) - wanted, 1.9, 1e5)
        assert kinematic_viscosity(T, nu40, nu100) == pytest.approx(full, rel=1e-3)


@given(numbers(2.0, 100.0), numbers(1.5, 20.0), numbers(0.0, 150.0), numbers(0.1, 50.0))
def test_a_warmer_oil_is_thinner(nu100, ratio, T, warmer):
    nu = kinematic_viscosity([T, T + warmer], nu100 * ratio, nu100)
    assert np.isnan(nu).any() or nu[1] < nu[0]


@given(numbers(2.0, 100.0), numbers(1.1, 20.0))
def test_the_line_goes_through_both_points(nu100, ratio):
    nu40 = nu100 * ratio
    assert kinematic_viscosity([40, 100], nu40, nu100) == pytest.approx([nu40, nu100], rel=1e-10)


def test_outside():
    # thicker when warm, too thin at 100 deg C, too thin or too thick at T, below absolute zero
    nu40, nu100 = [10, 10, 10, 46, 46, 46, np.nan], [10, 12, 1.9, 6.8, 6.8, 6.8, 6.8]
    assert np.isnan(kinematic_viscosity([60, 60, 60, 250, -100, -300, 60], nu40, nu100)).all()


@pytest.mark.parametrize("VG", NU100_AT_VI_95, ids=[f"ASTM D2270, VG {VG}" for VG in NU100_AT_VI_95])
def test_each_grade_has_the_viscosity_index_95(VG):
    # outside reference: the general-purpose library `chemicals`, which takes m2/s; 4 digits leave it within 0.1
    index = viscosity_index(VG * 1e-6, float(nu100_of_grade(VG)) * 1e-6, rounding=False)
    assert index == pytest.approx(95, abs=0.5)


def test_the_vg_32_oil_of_iso_15312_at_70_deg_c():
    # ISO 15312 (recalled) takes an ISO VG 32 oil as 12 mm2/s at 70 deg C. The mid-point oil of viscosity index 95 has
    # 11.0, 8 % less, and the thickest oil of the grade, 10 % above the mid-point, just reaches it.
    assert kinematic_viscosity(70, 32, nu100_of_grade(32)) == printed("11.0")
    thickest = brentq(lambda nu100: viscosity_index(35.2e-6, nu100 * 1e-6, rounding=False) - 95, 4, 8)
    assert kinematic_viscosity(70, 35.2, thickest) == printed("12")


def test_grades_of_iso_3448():
    # ISO 3448 (recalled): twenty grades, each about half as thick again as the one before
    assert len(ISO_VG) == 20
    steps = np.array(ISO_VG[1:]) / np.array(ISO_VG[:-1])
    assert (steps > 1.39).all() and (steps < 1.68).all()
    assert tuple(NU100_AT_VI_95) == ISO_VG[4:]


def test_a_number_that_is_no_grade():
    assert np.isnan(nu100_of_grade([7, 33, 5000, np.nan, -10])).all()
    assert np.isnan(nu40_of_grade([4, 33, 5000, np.nan, -10])).all()
    assert nu40_of_grade([10, 46, 3200]).tolist() == [10, 46, 3200]


def test_the_four_thinnest_grades_by_their_limits():
    # ISO 3448 (recalled) prints the limits of VG 2, 3, 5, 7 as 1.98 to 2.42, 2.88 to 3.52, 4.14 to 5.06, 6.12 to 7.48
    limits = [(1.98, 2.42), (2.88, 3.52), (4.14, 5.06), (6.12, 7.48)]
    assert nu40_of_grade([2, 3, 5, 7]).tolist() == pytest.approx([sum(both) / 2 for both in limits])
