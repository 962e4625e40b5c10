"""Forces of gear teeth against published worked examples and a published table."""

import numpy as np
import pytest
from hypothesis import given

from engine.duty import mesh
from tests.printed import printed
from tests.strategies import numbers

DEG = np.pi / 180
INCH, POUND = 25.4, 4.4482216152605
HORSEPOWER = 33_000 * 12 * INCH * POUND / 1e3 / 60  # 33 000 ft lbf a minute, in W


class TestSpurGear:
    """*Mechanical Engineering Design*, example 13-7 (recalled): 2.5 kW, 1750 rpm, 20 teeth of module 2.5 mm, 20 deg."""

    def test_forces(self):
        Ft = mesh.tangential_force(mesh.torque_of_power(2500, 1750), 20 * 2.5)
        assert Ft / 1e3 == printed("0.546")
        # the book goes on with the rounded 0.546: 0.199; the unrounded force gives 0.1986
        assert mesh.spur_radial_force(546, 20 * DEG) / 1e3 == printed("0.199")
        assert mesh.spur_radial_force(Ft, 20 * DEG) / 1e3 == printed("0.199")


class TestHelicalGear:
    """*Mechanical Engineering Design*, example 13-9 (recalled): 1 hp, 1800 rpm, 18 teeth, 12 to the inch, 30/20 deg."""

    d = 18 / (12 * np.cos(30 * DEG)) * INCH

    def forces(self):
        Ft = mesh.tangential_force(mesh.torque_of_power(HORSEPOWER, 1800), self.d)
        return np.array([Ft, *mesh.helical_forces(Ft, 20 * DEG, 30 * DEG)]) / POUND

    def test_pitch_diameter(self):
        assert self.d / INCH == printed("1.732")

    def test_forces(self):
        Wt, Wr, Wa = self.forces()
        # the book rounds the speed of the pitch line first and prints 40.4, 17.0, 23.3 lbf
        assert Wt == printed("40.4")
        assert Wr == printed("17.0")
        assert Wa == printed("23.3")
        assert np.sqrt(Wt**2 + Wr**2 + Wa**2) == printed("49.7")

    def test_worked_by_hand_in_metric_units(self):
        # 15 kW, 1000 rpm, d 70 mm, beta 0.5 rad, alpha_n 0.35 rad: results worked by hand
        Ft = mesh.tangential_force(mesh.torque_of_power(15e3, 1000), 70)
        Fr, Fa = mesh.helical_forces(Ft, 0.35, 0.5)
        assert (Ft, Fr, Fa) == (printed("4092.6"), printed("1702.3"), printed("2235.8"))


class TestStraightBevelGear:
    """*Mechanical Engineering Design*, example 13-8 (recalled): 5 hp, 600 rpm, 15 and 45 teeth, 20 deg."""

    Gamma = 71.6 * DEG  # of the gear, as printed

    def test_mean_radii(self):
        # pitch diameters 3 and 9 in, five teeth to the inch; the face that gives the pinion its printed mean radius of
        # 1.293 in gives the gear its printed 3.88 in
        pinion, gear = np.arctan(15 / 45), np.arctan(45 / 15)
        face = (1.5 - 1.293) * 2 / np.sin(pinion)
        assert mesh.mean_cone_diameter(3 * INCH, face * INCH, pinion) / INCH / 2 == printed("1.293")
        assert mesh.mean_cone_diameter(9 * INCH, face * INCH, gear) / INCH / 2 == printed("3.88")

    def test_forces_of_the_gear(self):
        Ft = mesh.tangential_force(mesh.torque_of_power(5 * HORSEPOWER, 600), 2 * 1.293 * INCH) / POUND
        assert Ft == printed("406")
        Wr, Wa = mesh.straight_bevel_forces(406, 20 * DEG, self.Gamma)
        assert Wr == printed("46.6")
        assert Wa == printed("140")


# Forces of spiral bevel gears with shafts at 90 deg, alpha_n 20 deg, beta 35 deg, in percent of the tangential force:
# axial and radial, driving on the concave and on the convex flank. Table of an open gear handbook, recalled.
SPIRAL = [
    # ratio, concave axial, radial, convex axial, radial
    ("1.0", "80.9", "-18.1", "-18.1", "80.9"),
    ("1.5", "82.9", "-1.9", "-33.6", "75.8"),
    ("2.0", "82.5", "8.4", "-42.8", "71.1"),
    ("2.5", "81.5", "15.2", "-48.5", "67.3"),
    ("3.0", "80.5", "20.0", "-52.4", "64.3"),
]


@pytest.mark.parametrize(("ratio", *"abcd"), SPIRAL, ids=[f"ratio {row[0]}" for row in SPIRAL])
def test_spiral_bevel_gear_table(ratio, a, b, c, d):
    delta = np.arctan(1 / float(ratio))
    concave = mesh.spiral_bevel_forces(100, 20 * DEG, 35 * DEG, delta, 1)
    convex = mesh.spiral_bevel_forces(100, 20 * DEG, 35 * DEG, delta, -1)
    # 15.2 stands for 15.2502: the tolerance of the table is one more digit there
    for value, text in zip((concave[1], concave[0], convex[1], convex[0]), (a, b, c, d), strict=True):
        assert value == pytest.approx(float(text), abs=0.0505)


class TestWorm:
    """*Mechanical Engineering Design*, example 13-10 (recalled): 1 hp, 1200 rpm, two threads, 30 teeth, 14.5 deg."""

    d, lead = 2 * INCH, 1.0472 * INCH
    alpha_n, mu = 14.5 * DEG, 0.03

    def test_lead_angle(self):
        assert mesh.lead_angle(self.lead, self.d) / DEG == printed("9.46")

    def test_forces(self):
        gamma_m = mesh.lead_angle(self.lead, self.d)
        Ft = mesh.tangential_force(mesh.torque_of_power(HORSEPOWER, 1200), self.d)
        Fr, Fa = mesh.worm_forces(Ft, self.alpha_n, gamma_m, self.mu)
        assert Ft / POUND == printed("52.5")
        # the book rounds the tooth force to 278 lbf and goes on with 69.6 and 264; unrounded it is 278.2 and 69.67
        assert Fr / POUND == pytest.approx(69.6, abs=0.1)
        assert Fa / POUND == printed("264")

    def test_the_wheel_has_the_same_three_forces(self):
        gamma_m = mesh.lead_angle(self.lead, self.d)
        Fr, Fa = mesh.worm_forces(52.5, self.alpha_n, gamma_m, self.mu)
        of_wheel = mesh.worm_wheel_forces(Fa, self.alpha_n, gamma_m, self.mu)
        assert of_wheel == (pytest.approx(Fr, rel=1e-12), pytest.approx(52.5, rel=1e-12))


def test_torque_of_power():
    # 9549.3 N m for 1 kW at 1 rpm, as handbooks print it
    assert mesh.torque_of_power(1000, 1) / 1e3 == printed("9549.3")


acute = numbers(0.01, 1.4)


@given(numbers(1, 1e5), acute, acute)
def test_without_a_spiral_it_is_the_straight_bevel_gear(Ft, alpha_n, delta):
    for sigma in (1, -1):
        spiral = mesh.spiral_bevel_forces(Ft, alpha_n, 0, delta, sigma)
        straight = mesh.straight_bevel_forces(Ft, alpha_n, delta)
        assert np.array(spiral) == pytest.approx(np.array(straight), rel=1e-12)


@given(numbers(1, 1e5), acute, acute)
def test_a_cone_of_no_angle_is_the_helical_gear(Ft, alpha_n, beta):
    for sigma in (1, -1):
        Fr, Fa = mesh.spiral_bevel_forces(Ft, alpha_n, beta, 0, sigma)
        helical = mesh.helical_forces(Ft, alpha_n, beta)
        assert np.array([Fr, sigma * Fa]) == pytest.approx(np.array(helical), rel=1e-12)


@pytest.mark.filterwarnings("error")
def test_outside_its_range_a_force_is_unknown():
    assert np.isnan(mesh.torque_of_power([-1, 1, 1], [1, 0, -1])).all()
    assert np.isnan(mesh.tangential_force([-1, 1], [1, 0])).all()
    assert np.isnan(mesh.helical_forces(1, 0.35, [np.pi / 2, 95 * DEG, -0.1])).all()
    assert np.isnan(mesh.spiral_bevel_forces(1, 0.35, 0.6, 0.5, 0)).all()
    # a wheel cannot drive a worm whose lead angle is below the angle of friction
    assert np.isnan(mesh.worm_forces(1, 0.35, 0.05, -0.1)).all()
