"""Directions of gear forces: published shafts, symmetry, and action against reaction of two gears in space."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.duty.element import Element, Place
from engine.duty.machine import gears
from engine.duty.machine.turning import Turning, by_power, by_torque
from engine.duty.shaft import bearing_loads, reduced
from engine.pair.arrangement import FACE_TO_FACE
from engine.pair.equilibrium import axial_loads, induced_axial_load_us
from engine.rating.dynamic import equivalent_dynamic_load_P
from tests.printed import printed
from tests.strategies import numbers

DEG = np.pi / 180
signs = st.sampled_from((1, -1))
PARTS = ("F_y", "F_z", "F_a", "M_y", "M_z", "T")


def parts(element: Element) -> np.ndarray:
    return np.array([getattr(element, name) for name in PARTS])


def in_space(element: Element, e_a, e_y) -> np.ndarray:
    """Return the force as a vector, from two axes of the shaft's right-handed system."""
    e_a, e_y = np.array(e_a, float), np.array(e_y, float)
    return element.F_a * e_a + element.F_y * e_y + element.F_z * np.cross(e_a, e_y)


class TestIdler:
    """*Mechanical Engineering Design*, example 13-7 (recalled): idler 3 between gears 2 and 4, a right angle apart.

    The pinion transmits 2.5 kW at 1750 rpm; the shaft of the idler takes 0.491 kN.
    """

    def test_force_on_the_shaft(self):
        turning = by_power(2500, 1750, rotation=1, driving=False)
        d = 50  # the torque is that of the pinion, so its diameter gives the same tangential force
        in_mesh = gears.spur(Place(0, math.pi), turning, d, 20 * DEG)
        out_mesh = gears.spur(Place(0, -math.pi / 2), replace(turning, driving=True), d, 20 * DEG)
        F = reduced([in_mesh, out_mesh])
        assert F.T == 0
        R = math.hypot(F.still[0], F.still[1])
        assert printed("0.491") == R / 1e3
        # 0.347 kN in each direction
        assert abs(F.still[0]) / 1e3 == printed("0.347")
        assert abs(F.still[1]) / 1e3 == printed("0.347")


class TestBevelShaft:
    """*Mechanical Engineering Design*, example 13-8 (recalled): the gear's shaft on bearings C and D, forces in lbf.

    Wt = 406, Wr = 46.6, Wa = 140 at 3.88 in radius, 3.79 in from C, the bearings 6.13 in apart; D takes 277 lbf.
    """

    def test_bearing_loads(self):
        turning = by_torque(406 * 3.88, rotation=1, driving=False)
        gear = gears.straight_bevel(Place(2.5 + 1.293), turning, 2 * 3.88, math.atan(math.hypot(140, 46.6) / 406),
                                    math.atan(140 / 46.6), apex=-1)  # fmt: skip
        assert gear.F_a == printed("140")
        assert gear.F_y == printed("-46.6")
        C, D = bearing_loads(reduced([gear]), 0, 6.13)
        # worked by hand: 406 * 3.79 / 6.13 = 251; (46.6 * 3.79 + 140 * 3.88) / 6.13 = 117.4
        assert abs(D.R_z) == printed("251")
        assert abs(D.R_y) == printed("117.4")
        assert D.Fr == printed("277")
        assert abs(C.R_z) == printed("155")


class TestGearShaft:
    """*Mechanical Engineering Design*, helical gear between two tapered bearings (type of example 11-8, recalled).

    Wt = 3980, Wr = 1770, Wa = 1690 N at 200 mm, 100 mm from A and 50 mm from B; from the drawing to both bearings.
    """

    def shaft(self):
        beta = math.atan(1690 / 3980)
        alpha_n = math.atan(1770 / 3980 * math.cos(beta))
        turning = by_torque(3980 * 100, rotation=1, driving=True)
        # seen from A the mate meshes below: its radial force lifts the gear
        return gears.helical(Place(100, math.pi), turning, 200, alpha_n, beta, gears.LEFT)

    def test_forces_of_the_gear(self):
        gear = self.shaft()
        assert gear.F_y == printed("1770")
        assert abs(gear.F_z) == printed("3980")
        assert gear.F_a == printed("-1690")
        assert gear.M_y == printed("-169000")

    def test_radial_loads_of_the_bearings(self):
        A, B = bearing_loads(reduced([self.shaft()]), 0, 150)
        assert A.Fr == printed("2169.6")
        assert B.Fr == printed("2653.9")
        assert (A.R_y, abs(A.R_z)) == (printed("1716.7"), printed("1326.7"))
        assert (B.R_y, abs(B.R_z)) == (printed("53.3"), printed("2653.3"))

    def test_both_bearings_to_their_equivalent_loads(self):
        forces = reduced([self.shaft()])
        Fr = np.array([load.Fr for load in bearing_loads(forces, 0, 150)])
        Fa = np.array(axial_loads(FACE_TO_FACE, *induced_axial_load_us(Fr, 1.5), forces.F_a))
        P_A, P_B = equivalent_dynamic_load_P(Fr, Fa, 0.4, 1.5)
        assert printed("4650") == P_A
        assert printed("2654") == P_B


@st.composite
def helicals(draw):
    place = Place(draw(numbers(-300, 600)), draw(numbers(-3.1, 3.1)))
    turning = by_torque(draw(numbers(1, 1e6)), draw(signs), draw(st.booleans()))
    angles = draw(numbers(0.2, 0.5)), draw(numbers(0.05, 0.7))
    return place, turning, draw(numbers(20, 400)), *angles, draw(signs)


@given(helicals())
def test_reversing_the_rotation_of_a_helical_mesh(drawn):
    """Thrust and tangential force turn round, the radial force stays."""
    place, turning, d, alpha_n, beta, hand = drawn
    place = replace(place, angle=0.0)  # radial force in plane y, tangential in plane z
    one = gears.helical(place, turning, d, alpha_n, beta, hand)
    other = gears.helical(place, turning.reversed, d, alpha_n, beta, hand)
    assert (other.F_y, other.F_z, other.F_a, other.T) == (one.F_y, -one.F_z, -one.F_a, -one.T)
    assert one.F_y < 0 and one.F_a


@given(helicals())
def test_the_hand_turns_the_thrust_alone(drawn):
    place, turning, d, alpha_n, beta, hand = drawn
    one = gears.helical(place, turning, d, alpha_n, beta, hand)
    other = gears.helical(place, turning, d, alpha_n, beta, -hand)
    assert np.array_equal(parts(other), parts(one) * [1, 1, -1, -1, -1, 1])


def test_a_right_hand_driver_that_turns_like_a_screw_is_pushed_the_way_the_screw_goes():
    # right-hand rule of handbooks (recalled): fingers in the sense of rotation, thumb where the driver is pushed
    driver = gears.helical(Place(0), by_torque(1e4, 1, driving=True), 50, 0.35, 0.3, gears.RIGHT)
    assert driver.F_a > 0
    driven = gears.helical(Place(0), by_torque(1e4, 1, driving=False), 50, 0.35, 0.3, gears.RIGHT)
    assert driven.F_a < 0


# thrust of a spiral bevel gear by its spiral, its rotation seen from the back, and its part (handbook table, recalled)
THRUST = [
    ("driver", "right", "clockwise", "towards the apex"),
    ("driver", "right", "counterclockwise", "away"),
    ("driver", "left", "clockwise", "away"),
    ("driver", "left", "counterclockwise", "towards the apex"),
    ("driven", "right", "clockwise", "away"),
    ("driven", "right", "counterclockwise", "towards the apex"),
    ("driven", "left", "clockwise", "towards the apex"),
    ("driven", "left", "counterclockwise", "away"),
]


@pytest.mark.parametrize("apex", [1, -1], ids=("apex towards B", "apex towards A"))
@pytest.mark.parametrize(("part", "spiral", "turns", "pushed"), THRUST, ids=[" ".join(row) for row in THRUST])
def test_thrust_of_a_spiral_bevel_pinion(part, spiral, turns, pushed, apex):
    # clockwise seen from A is +1; a gear with its apex towards A shows its back to B
    clockwise = 1 if turns == "clockwise" else -1
    turning = by_torque(1e5, clockwise * apex, driving=part == "driver")
    hand = gears.RIGHT if spiral == "right" else gears.LEFT
    pinion = gears.spiral_bevel(Place(0), turning, 80, 20 * DEG, 35 * DEG, 20 * DEG, hand, apex)
    assert ("away" if pinion.F_a * apex < 0 else "towards the apex") == pushed


class TestActionAndReaction:
    """The forces of two gears in mesh are opposite, built up in space from each gear's own shaft."""

    @given(helicals())
    def test_parallel_shafts(self, drawn):
        place, turning, d, alpha_n, beta, hand = drawn
        mate = Turning(2.5 * turning.T, -turning.rotation, not turning.driving)
        one = gears.helical(place, turning, d, alpha_n, beta, hand)
        other = gears.helical(replace(place, angle=place.angle + math.pi), mate, 2.5 * d, alpha_n, beta, -hand)
        assert parts(other)[:3] == pytest.approx(-parts(one)[:3], abs=1e-9 * np.abs(parts(one)[:3]).max())

    @given(signs, signs, signs, st.booleans(), numbers(0.1, 1.4), numbers(0.0, 0.7))
    def test_bevel_gears_at_a_right_angle(self, rotation, hand, apex, driving, delta, beta):
        # Shaft 1 lies on X, shaft 2 on Y, both apexes at the origin, the mesh at negative x and y. Frames: shaft 1 has
        # its axis towards B along X and plane y along Y; shaft 2 its axis along apex * Y and plane y along X.
        d_m = 100.0
        one = gears.spiral_bevel(
            Place(0, math.pi), by_torque(1e5, rotation, driving), d_m, 0.35, beta, delta, hand, apex=1
        )
        ratio = 1 / math.tan(delta)
        mate = by_torque(1e5 * ratio, -rotation * apex, not driving)
        other = gears.spiral_bevel(
            Place(0, math.pi), mate, ratio * d_m, 0.35, beta, math.pi / 2 - delta, -hand, apex=apex
        )
        F1 = in_space(one, (1, 0, 0), (0, 1, 0))
        F2 = in_space(other, (0, apex, 0), (1, 0, 0))
        assert pytest.approx(-F1, abs=1e-8 * np.abs(F1).max()) == F2

    @given(signs, signs, st.booleans(), numbers(0.2, 1.0), numbers(0.0, 0.1))
    def test_worm_and_wheel(self, rotation, hand, driving, gamma_m, mu):
        # the worm on X, the wheel's axis along Z below it; a right-hand worm that turns +1 moves its thread towards -X
        worm = gears.worm(Place(0, math.pi), by_torque(1e4, rotation, driving), 50, 0.35, gamma_m, hand, mu)
        turns = rotation * hand  # speed of the wheel's rim at the mesh: -turns * X
        mate = by_torque(abs(worm.F_a) * 300 / 2, turns, not driving)
        wheel = gears.worm_wheel(Place(0, math.pi / 2), mate, 300, 0.35, gamma_m, hand, mu)
        F1 = in_space(worm, (1, 0, 0), (0, 1, 0))
        F2 = in_space(wheel, (0, 0, 1), (1, 0, 0))
        assert pytest.approx(-F1, abs=1e-8 * np.abs(F1).max()) == F2


@given(helicals(), numbers(0.1, 1.4), signs, st.booleans())
def test_a_mirrored_machine_has_mirrored_forces(drawn, delta, apex, across):
    """A mirror turns hands round. One across the shaft swaps its ends; one along it swaps left and right."""
    place, turning, d, alpha_n, beta, hand = drawn
    gear = gears.spiral_bevel(place, turning, d, alpha_n, beta, delta, hand, apex)
    if across:  # seen from A, what is left and right stays: so does the sense of rotation, which is counted that way
        mirrored = gears.spiral_bevel(replace(place, z=-place.z), turning, d, alpha_n, beta, delta, -hand, -apex)
        expected = parts(gear) * [1, 1, -1, -1, -1, 1]
    else:
        mirrored = gears.spiral_bevel(
            replace(place, angle=-place.angle), turning.reversed, d, alpha_n, beta, delta, -hand, apex
        )
        expected = parts(gear) * [1, -1, 1, 1, -1, -1]
    assert parts(mirrored) == pytest.approx(expected, abs=1e-9 * np.abs(expected).max())


@given(helicals())
def test_a_machine_turned_end_for_end(drawn):
    """Half a turn about y: hands stay, A and B change places, the rotation is seen from the other side."""
    place, turning, d, alpha_n, beta, hand = drawn
    gear = gears.helical(place, turning, d, alpha_n, beta, hand)
    turned = gears.helical(Place(-place.z, -place.angle), turning.reversed, d, alpha_n, beta, hand)
    expected = parts(gear) * [1, -1, -1, -1, 1, -1]
    assert parts(turned) == pytest.approx(expected, abs=1e-9 * np.abs(expected).max())


@given(helicals())
def test_every_figure_is_unfolded(drawn):
    place, turning, d, alpha_n, beta, hand = drawn
    gear = gears.helical(place, turning, d, alpha_n, beta, hand)
    shown = {step.symbol: step for step in gear.steps}
    for name in ("F_y", "F_z", "F_a", "M_y", "M_z"):
        assert shown[name].value == getattr(gear, name)
    for step in gear.steps:
        assert bool(step.formula) == bool(step.source)
    assert shown["Ft"].formula == "Ft = 2 T / d"
    assert shown["Fr"].formula == "Fr = Ft tan(alpha_n) / cos(beta)"
    assert shown["Fa"].formula == "Fa = Ft tan(beta)"


def test_what_is_outside_a_formula_is_not_known():
    gear = gears.helical(Place(0), by_torque(1e4, 1, True), 50, 0.35, 95 * DEG, gears.RIGHT)
    assert not gear.known
    assert gears.helical(Place(0), by_torque(1e4, 1, True), 50, 0.35, 9.5 * DEG, gears.RIGHT).known


def test_a_sign_that_is_none():
    with pytest.raises(ValueError, match="accepted are 1 and -1"):
        by_torque(1e4, 0, True)
    with pytest.raises(ValueError, match="hand is 0"):
        gears.helical(Place(0), by_torque(1e4, 1, True), 50, 0.35, 0.3, 0)
