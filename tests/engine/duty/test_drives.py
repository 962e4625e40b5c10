"""Pulls of belts and chains against published worked examples."""

import numpy as np
import pytest
from hypothesis import given

from engine.duty import drives, mesh
from tests.printed import printed
from tests.strategies import numbers

INCH, POUND = 25.4, 4.4482216152605


class TestBeltWithARatioOfTensions:
    """*Machine Design* (Jindal), example 18-6, read in its companion: 7.5 kW, 1440 rpm, r 0.2 m, T1 = 3.5 T2."""

    def test_tensions_and_pull(self):
        T = mesh.torque_of_power(7500, 1440)
        T1, T2 = drives.strand_tensions(mesh.tangential_force(T, 400), 3.5)
        assert printed("49.74") == T / 1e3
        # the book rounds the torque on the way: 348.15 and 99.47 N where the unrounded ones are 348.14 and 99.47
        assert pytest.approx(348.15, abs=0.02) == T1
        assert printed("99.47") == T2
        pull, across = drives.pull_of_strands(T1, T2, np.pi)
        assert pull == printed("447.6")
        assert across == 0


class TestFlatBelt:
    """*Mechanical Engineering Design*, example 17-1 (recalled): 15 hp, 6 and 18 in pulleys, 8 ft apart, 1750 rpm."""

    def test_angle_of_wrap_and_ratio(self):
        theta = drives.wrap_angle(6 * INCH, 18 * INCH, 96 * INCH)
        assert theta == printed("3.0165")
        assert drives.tension_ratio(0.8, theta, np.pi) == printed("11.17")

    def test_tensions(self):
        # design torque 742.8 lbf in with service factor 1.25 and design factor 1.1; F1 = 420 lbf, F2 = 172.4 lbf
        T = mesh.torque_of_power(15 * 745.6998716 * 1.25 * 1.1, 1750)
        assert printed("742.8") == T / INCH / POUND
        Ft = mesh.tangential_force(T, 6 * INCH) / POUND
        T1, T2 = drives.strand_tensions(Ft, 420 / 172.4)
        assert printed("420") == T1
        assert printed("172.4") == T2


class TestCrossedBelt:
    """Khurmi, *Theory of Machines* (recalled): 450 and 200 mm, 1.95 m apart, crossed, mu 0.25, T1 = 1 kN."""

    theta = 3.477  # 199.2 deg, as printed

    def test_tensions(self):
        # the book prints 2.387 by logarithms; the exponential is 2.385
        ratio = drives.tension_ratio(0.25, self.theta, np.pi)
        assert ratio == pytest.approx(2.387, abs=0.003)
        T1, T2 = drives.strand_tensions(1000 - 419, ratio)
        assert pytest.approx(419, abs=1) == T2
        assert pytest.approx(1000, abs=1) == T1


def test_grooved_pulley():
    # Khurmi, *Theory of Machines* (recalled): groove angle 30 deg, mu 0.12, half a turn: T1/T2 = 4.29
    assert drives.tension_ratio(0.12, np.pi, np.radians(30)) == printed("4.29")


def test_v_belt_of_handbooks():
    # Norton, *Machine Design*, example 9-1 (recalled): 2 hp, 1725 rpm, sheave 6 in, tension ratio 5: the net force is
    # 24.36 lbf and the pull on the shaft 1.5 times that, 36.54 lbf
    Fn = mesh.tangential_force(mesh.torque_of_power(2 * 745.6998716, 1725), 6 * INCH) / POUND
    assert Fn == pytest.approx(24.36, abs=0.01)  # the book rounds the torque to 73.1 lbf in
    assert drives.pull_by_factor(24.36, 1.5) == printed("36.54")
    assert sum(drives.strand_tensions(24.36, 5)) == printed("36.54")


def test_chain():
    # Khurmi, *Machine Design* (recalled): 15 kW, 1000 rpm, 25 teeth of pitch 19.05 mm: printed d = 152 mm and
    # 7.96 m/s; the pull of the tight strand is the power over that speed, worked by hand 1884 N
    d = 19.05 / np.sin(np.pi / 25)
    assert d == printed("152")
    assert np.pi * 152 / 1e3 * 1000 / 60 == printed("7.96")
    Ft = mesh.tangential_force(mesh.torque_of_power(15e3, 1000), 152)
    assert drives.pull_by_factor(Ft, 1.0) == pytest.approx(15e3 / 7.96, rel=1e-3)


def test_the_factors_that_are_taken_lie_in_their_ranges():
    assert set(drives.KINDS) == {"chain", "toothed_belt", "v_belt", "flat_belt"}
    for least, greatest, taken in drives.PULL_FACTORS.values():
        assert 1 <= least <= taken <= greatest


@given(numbers(1, 1e4), numbers(1.1, 20), numbers(1.0, 5.0))
def test_two_strands_as_vectors(Ft, ratio, theta):
    """The pull is the resultant of two forces whose lines meet at the angle pi - theta."""
    T1, T2 = drives.strand_tensions(Ft, ratio)
    along, across = drives.pull_of_strands(T1, T2, theta)
    law_of_cosines = np.sqrt(T1**2 + T2**2 - 2 * T1 * T2 * np.cos(theta))
    assert np.hypot(along, across) == pytest.approx(law_of_cosines, rel=1e-9)
    assert pytest.approx(Ft, rel=1e-9) == T1 - T2


@given(numbers(50, 500), numbers(50, 500), numbers(501, 3000))
def test_the_wraps_of_an_open_belt_make_a_whole_turn(d, d_other, distance):
    both = drives.wrap_angle(d, d_other, distance) + drives.wrap_angle(d_other, d, distance)
    assert both == pytest.approx(2 * np.pi, rel=1e-12)


@pytest.mark.filterwarnings("error")
def test_outside_its_range_a_pull_is_unknown():
    assert np.isnan(drives.strand_tensions([100, -1], [1.0, 3])).all()
    assert np.isnan(drives.pull_by_factor(100, 0.9))
    assert np.isnan(drives.wrap_angle(300, 300, 200))
    assert np.isnan(drives.tension_ratio(0.3, 3, 0))
