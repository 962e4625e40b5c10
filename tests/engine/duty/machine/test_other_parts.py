"""Pulls, weights, unbalance, wheels, thrusts: directions and moments on the shaft."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.duty import drives
from engine.duty.element import ALWAYS, LOAD, SPEED, Place
from engine.duty.machine import flows, gears, pulls, weights
from engine.duty.machine.turning import by_power, by_torque
from engine.duty.shaft import bearing_loads, reduced
from tests.printed import printed
from tests.strategies import numbers

UP, DOWN = Place(0, 0.0), Place(0, math.pi)
signs = st.sampled_from((1, -1))


class TestBelt:
    def test_sum_of_strands_of_a_published_example(self):
        # *Machine Design* (Jindal), example 18-6: T1 = 3.5 T2, sum 447.6 N, 1.8 times the force transmitted
        belt = pulls.pull_by_ratio(UP, by_power(7500, 1440, 1, True), 400, 3.5, math.pi)
        assert belt.F_y == printed("447.6")
        assert belt.F_z == 0
        assert pytest.approx(-49.74e3, abs=5) == belt.T

    @given(signs, st.booleans(), numbers(1.5, 6), numbers(100, 300), numbers(100, 300))
    def test_strands_as_forces_at_the_rim(self, rotation, driving, ratio, d, d_other):
        """The two strands, each along the common tangent of the two pulleys, seen from A with y up and z right."""
        distance, T = 500.0, 1e5
        wrap = float(drives.wrap_angle(d, d_other, distance))
        belt = pulls.pull_by_ratio(UP, by_torque(T, rotation, driving), d, ratio, wrap)
        T1, T2 = drives.strand_tensions(2 * T / d, ratio)
        # the other pulley stands at y = distance; the strand on side z = +1 or -1 touches both rims on that side
        lean = math.asin((d_other - d) / 2 / distance)
        torque, force = 0.0, np.zeros(2)
        # a pulley that turns from y to z takes in the belt on its side z (+1) and lets it out on the other
        for side in (1, -1):
            comes_in = side == rotation
            tension = T1 if comes_in == driving else T2
            along = np.array([math.cos(lean), side * math.sin(lean)])
            touch = d / 2 * np.array([-math.sin(lean), side * math.cos(lean)])
            force += tension * along
            torque += tension * (touch[0] * along[1] - touch[1] * along[0])
        assert (belt.F_y, belt.F_z) == (pytest.approx(force[0], rel=1e-9), pytest.approx(force[1], abs=1e-9 * T1))
        assert pytest.approx(torque, rel=1e-9) == belt.T

    @pytest.mark.parametrize("kind", drives.KINDS)
    def test_factor_of_a_kind_and_a_factor_of_ones_own(self, kind):
        turning = by_torque(1e5, -1, driving=False)
        usual = pulls.pull_by_factor(DOWN, turning, 200, kind)
        assert usual.F_y == pytest.approx(-1000 * drives.PULL_FACTORS[kind][2])
        assert pulls.pull_by_factor(DOWN, turning, 200, kind, 1.05).F_y == pytest.approx(-1050)
        assert usual.T == -1e5

    def test_no_such_kind(self):
        with pytest.raises(ValueError, match="accepted are chain"):
            pulls.pull_by_factor(DOWN, by_torque(1, 1, True), 200, "rope")


class TestWheel:
    def test_off_its_middle_it_is_the_same_load_where_it_stands(self):
        shifted = pulls.wheel(Place(100, 0.7), 5000, 800, 300, offset=30)
        there = pulls.wheel(Place(130, 0.7), 5000, 800, 300)
        for one, other in zip(bearing_loads(reduced([shifted]), 0, 80), bearing_loads(reduced([there]), 0, 80),
                              strict=True):  # fmt: skip
            assert one.Fr == pytest.approx(other.Fr, rel=1e-12)

    def test_side_force_of_a_wheel_on_the_ground(self):
        # 5 kN up from the ground, 1 kN towards B at radius 150, on bearings at 0 and 100, the wheel at 50: the side
        # force makes 150 N m, 1.5 kN up or down at 100 mm, and lifts the load of B: worked by hand 4.0 and 1.0 kN
        A, B = bearing_loads(reduced([pulls.wheel(Place(50, math.pi), 5000, 1000, 300)]), 0, 100)
        assert (B.R_y, A.R_y) == (pytest.approx(4000), pytest.approx(1000))

    def test_a_plain_force_and_moment(self):
        element = pulls.plain(Place(20, math.pi / 2), 300, Fa=-70, M=9000)
        assert (element.F_y, element.F_z, element.F_a, element.M_y, element.M_z) == (0, 300, -70, 0, 9000)
        # the couple of two forces: 90 N more at 100 mm further towards B
        alone = bearing_loads(reduced([pulls.plain(Place(20, 0), 0, M=9000)]), 0, 250)
        couple = [pulls.plain(Place(20, 0), -90), pulls.plain(Place(120, 0), 90)]
        for one, other in zip(alone, bearing_loads(reduced(couple), 0, 250), strict=True):
            assert one.R_y == pytest.approx(other.R_y, rel=1e-12)


class TestWeight:
    def test_it_hangs_down(self):
        element = weights.weight(DOWN, 100)
        assert element.F_y == printed("-980.665")
        assert (element.F_z, element.F_a, element.follows) == (0, 0, ALWAYS)

    def test_upright_with_B_below(self):
        element = weights.weight(DOWN, 100, math.pi / 2)
        assert element.F_a == printed("980.665")
        assert abs(element.F_y) < 1e-10

    def test_scaling_a_case_leaves_it(self):
        assert weights.weight(DOWN, 100).scaled(0.3, 2) == weights.weight(DOWN, 100)


class TestUnbalance:
    def test_of_a_grade(self):
        # G 6.3 at 3000 rpm: 20 micrometres, on 100 kg 198 N, a fifth of the weight (worked by hand)
        element = weights.unbalance_of_grade(UP, 100, 6.3, 3000)
        assert element.F_y == printed("198")
        assert element.rotating and element.follows == SPEED
        assert element.scaled(7, 2).F_y == pytest.approx(4 * element.F_y)

    @given(numbers(-3.1, 3.1), numbers(10, 1000))
    def test_turning_adds_by_its_amount(self, angle, F):
        """Wherever the unbalance lies, the bearing takes it once a turn on top of what stands."""
        still = pulls.plain(Place(50, 0.4), 800)
        turning = weights.unbalance(Place(50, angle), 1, F / 1e-3 / (math.pi * 3000 / 30) ** 2, 3000)
        A, B = bearing_loads(reduced([still, turning]), 0, 100)
        assert A.Fr == pytest.approx(400 + F / 2, rel=1e-9)
        assert B.turning == pytest.approx(F / 2, rel=1e-9)
        # the greatest length of the sum over a turn, found by turning it
        turns = np.exp(1j * np.linspace(0, 2 * np.pi, 2001))
        assert np.abs(400 + F / 2 * turns).max() == pytest.approx(A.Fr, rel=1e-6)

    def test_a_couple_of_two_unbalances_is_felt_at_both_bearings(self):
        pair = [weights.unbalance(Place(z, angle), 1, 0.1, 3000) for z, angle in ((20, 0), (80, math.pi))]
        A, B = bearing_loads(reduced(pair), 0, 100)
        F = pair[0].F_y
        assert (A.Fr, B.Fr) == (pytest.approx(0.6 * F), pytest.approx(0.6 * F))


class TestThrust:
    def test_an_impeller_is_pushed_to_its_side(self):
        towards_A = flows.impeller_axial(UP, 1, 100, 40, towards_B=-1)
        assert towards_A.F_a == printed("-4948")
        assert towards_A.follows == LOAD
        assert flows.ram(UP, 30, 90, 1).F_a / 1e3 == printed("190.9")

    def test_radial_thrust_points_along_its_angle(self):
        element = flows.impeller_radial(Place(0, math.pi / 2), 0.3, 300, 50, 0)
        assert (element.F_y, element.F_z) == (0, pytest.approx(0.36 * 0.3 * 300 * 50))

    def test_a_screw_is_pushed_the_way_it_would_go(self):
        # *Mechanical Engineering Design*, example 8-1 (recalled): 15.94 N m on the thread lift 6.4 kN
        element = flows.screw(UP, by_torque(15.94e3, 1, driving=True), 30, 8, 0.08, gears.RIGHT)
        assert element.F_a == pytest.approx(6400, abs=5)
        left = flows.screw(UP, by_torque(15.94e3, 1, driving=True), 30, 8, 0.08, gears.LEFT)
        assert left.F_a == -element.F_a

    def test_no_such_side(self):
        with pytest.raises(ValueError, match="accepted are 1 and -1"):
            flows.ram(UP, 1, 1, 0)


def test_every_part_unfolds_to_what_it_puts_on_the_shaft():
    turning = by_power(5e3, 900, 1, True)
    place = Place(10, 1.0)
    every = [
        pulls.pull_by_factor(place, turning, 200, "v_belt"), pulls.pull_by_ratio(place, turning, 200, 3, 2.8),
        pulls.wheel(place, 100, 20, 300, 15), pulls.plain(place, 10, 20, 500, r=30), weights.weight(place, 5, 0.2),
        weights.unbalance_of_grade(place, 5, 2.5, 900), flows.impeller_radial(place, 1, 300, 30, 0.5),
        flows.impeller_axial(place, 1, 90, 30, 1), flows.ram(place, 1, 30, -1),
        flows.screw(place, turning, 30, 8, 0.1, gears.LEFT), gears.spur(place, turning, 80, 0.35),
        gears.straight_bevel(place, turning, 80, 0.35, 0.5, 1),
        gears.spiral_bevel(place, turning, 80, 0.35, 0.6, 0.5, gears.LEFT, 1),
        gears.worm(place, turning, 50, 0.35, 0.2, gears.RIGHT, 0.05),
        gears.worm_wheel(place, turning, 250, 0.35, 0.2, gears.RIGHT, 0.05),
    ]  # fmt: skip
    for element in every:
        assert element.known
        shown = {step.symbol: step.value for step in element.steps if step.formula}
        assert (shown["F_y"], shown["F_z"]) == (element.F_y, element.F_z)
        assert (shown.get("M_y", 0), shown.get("M_z", 0)) == (element.M_y, element.M_z)
        # nothing that a source says is without its formula, and nothing made is without its source
        assert all(bool(step.formula) == bool(step.source) for step in element.steps)
        assert len({step.name for step in element.steps}) == len(element.steps)
