"""Weight, unbalance, thrust of fluids and screws, and the application factor, against printed figures."""

import numpy as np
import pytest
from hypothesis import given

from engine.duty import fluid, masses
from engine.rating import application
from tests.printed import printed
from tests.strategies import numbers

INCH, POUND, FOOT_OF_WATER = 25.4, 4.4482216152605, 1 / 2.31 * 0.006894757293168


class TestUnbalance:
    def test_permissible_eccentricity(self):
        # the diagram of ISO 21940-11 (recalled): G 2.5 at 3000 rpm permits about 8 micrometres
        assert masses.permissible_eccentricity(2.5, 3000) * 1e3 == printed("8")

    def test_permissible_unbalance_as_balancers_print_it(self):
        # U_per = 9549 G m / n in g mm (recalled, the trade's form of ISO 21940-11): 40 kg, G 6.3, 1500 rpm: 1604 g mm
        U_per = 40e3 * masses.permissible_eccentricity(6.3, 1500)
        assert U_per == printed("1604")

    def test_force(self):
        # as balancers print it (recalled): an ounce inch makes 1.77 lbf at 1000 rpm, growing with the speed squared;
        # 1.77 is cut off, not rounded, from 1.775
        ounce = 0.45359237 / 16
        assert masses.unbalance_force(ounce, INCH, 1000) / POUND == pytest.approx(1.775, abs=0.0005)
        doubled = masses.unbalance_force(ounce, INCH, 2000)
        assert doubled == pytest.approx(4 * masses.unbalance_force(ounce, INCH, 1000))

    def test_grades_grow(self):
        assert list(masses.GRADES) == sorted(masses.GRADES)


@given(numbers(0.1, 1e4), numbers(-np.pi / 2, np.pi / 2))
def test_weight_keeps_its_amount_at_every_tilt(m, tilt):
    across, along = masses.weight_forces(m, tilt)
    assert np.hypot(across, along) == pytest.approx(9.80665 * m, rel=1e-12)
    mirrored = masses.weight_forces(m, -tilt)
    assert mirrored == (across, -along)


def test_weight_of_horizontal_and_upright_shafts():
    # by definition of standard gravity a kilogram weighs 9.80665 N
    assert masses.weight_forces(1, 0) == (9.80665, 0)
    across, along = masses.weight_forces(1, np.pi / 2)
    assert abs(across) < 1e-14 and along == 9.80665


def test_radial_thrust_as_the_pump_book_prints_it():
    # P = K H D2 B2 s / 2.31 with P in lbf, H in ft, D2 and B2 in inches, K = 0.36 (1 - q^2) (Stepanoff, recalled): at
    # shut-off, 100 ft of water, 12 in and 2 in: 0.36 * 100 * 24 / 2.31 = 374 lbf
    thrust = fluid.impeller_radial_thrust(100 * FOOT_OF_WATER, 12 * INCH, 2 * INCH, 0)
    assert thrust / POUND == printed("374")
    half = fluid.impeller_radial_thrust(100 * FOOT_OF_WATER, 12 * INCH, 2 * INCH, 0.5)
    assert half / POUND == pytest.approx(374.03 * 0.75, rel=1e-4)
    assert fluid.impeller_radial_thrust(1, 300, 50, 1) == 0


def test_power_screw():
    # *Mechanical Engineering Design*, example 8-1 (recalled): d 32 mm, pitch 4 mm, two threads, f = 0.08, F = 6.4 kN:
    # the thread takes 15.94 N m of the 26.18 N m, the collar the rest
    for T, F in ((15.94e3 - 5, "less"), (15.94e3 + 5, "more")):
        assert (fluid.screw_thrust(T, 30, 8, 0.08) < 6400) == (F == "less")


def test_pressure():
    # an extruder of 90 mm at 300 bar: 190.9 kN, worked by hand
    assert fluid.pressure_thrust(30, 90) / 1e3 == printed("190.9")
    # a ring of 100 mm around a shaft of 40 mm at 1 MPa, three quarters behind: 4948 N, worked by hand
    assert fluid.impeller_axial_thrust(1, 100, 40, 0.75) == printed("4948")


@pytest.mark.filterwarnings("error")
def test_outside_its_range_a_force_is_unknown():
    assert np.isnan(masses.weight_forces([1, -1], [2, 0])).all()
    assert np.isnan(masses.permissible_eccentricity(2.5, 0))
    assert np.isnan(masses.unbalance_force(1, -1, 100))
    assert np.isnan(fluid.impeller_radial_thrust(1, 300, 50, 1.6))
    assert np.isnan(fluid.impeller_axial_thrust(1, 40, 100, 0.75))
    assert np.isnan(fluid.screw_thrust(1, 30, 8, 20))


# ISO 6336-6 Table B.1, the same values as in DIN 3990 (recalled)
KA = [
    ("uniform", "1.00", "1.25", "1.50", "1.75"),
    ("light", "1.10", "1.35", "1.60", "1.85"),
    ("moderate", "1.25", "1.50", "1.75", "2.00"),
    ("heavy", "1.50", "1.75", "2.00", "2.25"),
]


@pytest.mark.parametrize("row", KA, ids=[f"ISO 6336-6 Table B.1, {row[0]}" for row in KA])
def test_application_factor(row):
    for driven, text in zip(("uniform", "light", "moderate", "heavy"), row[1:], strict=True):
        assert application.application_factor_KA(row[0], driven) == printed(text)


def test_a_machine_that_is_not_in_the_table():
    with pytest.raises(ValueError, match="accepted are uniform, light"):
        application.application_factor_KA("jet", "uniform")
