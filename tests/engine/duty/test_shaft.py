"""A shaft's elements on two supports: any number, overhung, in two planes, scaled to cases, and their diagrams."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from indeterminatebeam import Beam, PointLoadV, PointTorque, Support

from engine.duty.element import Element
from engine.duty.shaft import bearing_loads, reduced, unfolded
from engine.duty.shear import diagram, section_loads
from engine.duty.statics import direction
from engine.pair.arrangement import ARRANGEMENTS, load_centres
from tests.printed import printed
from tests.strategies import forces, moments, numbers, places


@st.composite
def elements(draw):
    parts = draw(st.tuples(places, forces, forces, forces, moments, moments))
    return Element("force", *parts, rotating=draw(st.booleans()), follows=draw(st.sampled_from(("load", "always"))))


shafts = st.lists(elements(), min_size=1, max_size=6)


def test_inclined_and_overhung_loads():
    # worked by hand: 1 kN at 30 deg from plane y, 50 mm beyond B on bearings 0 and 100: B takes 1.5, A -0.5 of it
    angle = np.radians(30)
    load = Element("force", 150, 1000 * np.cos(angle), 1000 * np.sin(angle))
    A, B = bearing_loads(reduced([load]), 0, 100)
    assert (A.Fr, B.Fr) == (printed("500"), printed("1500"))
    assert np.degrees(B.angle) == pytest.approx(30)
    assert np.degrees(A.angle) == pytest.approx(-150)


@pytest.mark.parametrize("arrangement", ARRANGEMENTS)
def test_on_the_load_centres_of_both_arrangements(arrangement):
    # 3 kN in the middle of bearings that stand 100 mm apart, a = 20 mm for A and 10 mm for B. In O, the load centres
    # lie at 20 and 90; in X at -20 and 110. By hand: B takes 3 kN (50 - z_A) / (z_B - z_A)
    z_A, z_B = load_centres(arrangement, 100, 20, 10)
    A, B = bearing_loads(reduced([Element("force", 50, 3000)]), z_A, z_B)
    by_hand = {"back_to_back": 3000 * 30 / 70, "face_to_face": 3000 * 70 / 130}[arrangement]
    assert B.Fr == pytest.approx(by_hand)
    assert A.Fr + B.Fr == pytest.approx(3000)


@given(shafts, numbers(1, 600))
def test_a_mirrored_shaft_has_mirrored_reactions(shaft, distance):
    """Both ends swapped: what A took, B takes."""
    one = bearing_loads(reduced(shaft), 0, distance)
    mirrored = [
        Element("force", distance - e.z, e.F_y, e.F_z, -e.F_a, -e.M_y, -e.M_z, rotating=e.rotating) for e in shaft
    ]
    other = bearing_loads(reduced(mirrored), 0, distance)
    size = sum((abs(e.F_y) + abs(e.F_z)) * (1 + 1e3 / distance) + (abs(e.M_y) + abs(e.M_z)) / distance for e in shaft)
    for mine, theirs in zip(one, reversed(other), strict=True):
        assert mine.Fr == pytest.approx(theirs.Fr, abs=1e-11 * size + 1e-9)
    assert reduced(mirrored).F_a == -reduced(shaft).F_a


@given(shafts, numbers(0, 4), numbers(0, 4))
def test_a_scaled_case_is_that_of_scaled_elements(shaft, load, speed):
    at_once = reduced(shaft, [1.0, load], [1.0, speed])
    alone = reduced([element.scaled(load, speed) for element in shaft])
    for of_cases, of_one in zip((*at_once.still, *at_once.turning, at_once.F_a),
                                (*alone.still, *alone.turning, alone.F_a), strict=True):  # fmt: skip
        assert of_cases[1] == pytest.approx(float(of_one), rel=1e-12, abs=1e-6)


def test_pairs_against_cases():
    shaft = [Element("a", 30, 1000, -200, 50), Element("b", 70, 0, 900, rotating=True, follows="speed")]
    z_A, z_B = np.array([[0.0], [5.0], [10.0]]), np.array([[100.0], [110.0], [90.0]])
    load, speed = np.array([1.0, 0.5, 2.0, 0.0]), np.array([1.0, 3.0, 0.2, 1.0])
    at_once = bearing_loads(reduced(shaft, load, speed), z_A, z_B)
    assert at_once[0].Fr.shape == (3, 4)
    for pair in range(3):
        for case in range(4):
            alone = bearing_loads(reduced(shaft, load[case], speed[case]), z_A[pair, 0], z_B[pair, 0])
            for mine, theirs in zip(at_once, alone, strict=True):
                assert mine.Fr[pair, case] == pytest.approx(float(theirs.Fr), rel=1e-12)


def test_a_reversed_load_is_refused():
    with pytest.raises(ValueError, match="case of its own"):
        reduced([Element("a", 0)], [1, -1])
    with pytest.raises(ValueError, match="case of its own"):
        Element("a", 0).scaled(-1)


def test_a_case_unfolds_to_its_bearing_loads():
    # the gear of the textbook (type of example 11-8) with 30 N of unbalance in its plane; sums worked by hand
    shaft = [Element("gear", 100, F_y=1770, F_z=3980, M_y=-169e3), Element("unbalance", 100, F_y=30, rotating=True)]
    steps = {step.symbol: step for step in unfolded(reduced(shaft), 0, 150)}
    for symbol, value in (("F_y", "1770"), ("M_y", "8000"), ("R_By", "53.3"), ("R_Ay", "1716.7"), ("R_Bz", "2653.3"),
                          ("R_A", "2169.6"), ("R_B", "2653.9"), ("R_By'", "20"), ("R_Ay'", "10"),
                          ("Fr_A", "2179.6"), ("Fr_B", "2673.9")):  # fmt: skip
        assert steps[symbol].value == printed(value)
    A, _ = bearing_loads(reduced(shaft), 0, 150)
    assert steps["Fr_A"].value == A.Fr
    assert all(bool(step.formula) == bool(step.source) for step in steps.values())
    assert "Fr_A" not in {step.symbol for step in unfolded(reduced(shaft[:1]), 0, 150)}


def test_direction():
    assert direction([1, 0, -1, -1, 0], [0, 1, 0, -0.0, 0])[:4] == pytest.approx([0, np.pi / 2, np.pi, np.pi])
    assert np.isnan(direction(0, 0))


class TestDiagram:
    def test_the_gear_shaft_of_a_textbook(self):
        # *Mechanical Engineering Design* (type of example 11-8), plane of the radial force: by hand 1716.7 N over
        # 100 mm give 171.67 N m, and the couple of 169 N m leaves 2.67 N m, which 53.3 N take back over 50 mm
        shaft = [Element("gear", 100, F_y=1770, M_y=-169e3)]
        drawn = diagram(shaft, 0, 150)
        assert drawn.x.tolist() == [0, 0, 100, 100, 150, 150]
        assert drawn.V_y[[1, 3]] == pytest.approx([-1716.67, 53.33], abs=0.01)
        assert drawn.M_y[2] / 1e3 == printed("-171.67")
        assert drawn.M_y[3] / 1e3 == printed("-2.67")
        assert drawn.M_y[[0, -1]] == pytest.approx([0, 0], abs=1e-6)

    @pytest.mark.parametrize("seed", range(6))
    def test_against_indeterminatebeam(self, seed):
        # outside reference: the general-purpose library indeterminatebeam, in the same sense as ours. Its own queries
        # step aside by 1e-7 m, so the functions behind them are asked
        draw = np.random.default_rng(seed)
        x_A, x_B = draw.uniform(0.1, 0.4), draw.uniform(0.5, 0.9)
        x, F = draw.uniform(0, 1, 4), draw.uniform(-5e3, 5e3, 4)
        M, x_M = draw.uniform(-200, 200, 2), draw.uniform(0, 1, 2)
        beam = Beam(1.0)
        beam.add_supports(Support(float(x_A), (1, 1, 0)), Support(float(x_B), (0, 1, 0)))
        beam.add_loads(*(PointLoadV(float(one), float(place)) for one, place in zip(F, x, strict=True)))
        beam.add_loads(*(PointTorque(float(one), float(place)) for one, place in zip(M, x_M, strict=True)))
        beam.analyse()
        shaft = [Element("force", 1e3 * place, F_y=force) for place, force in zip(x, F, strict=True)]
        shaft += [Element("moment", 1e3 * place, M_y=1e3 * one) for place, one in zip(x_M, M, strict=True)]
        drawn = diagram(shaft, 1e3 * x_A, 1e3 * x_B)
        between = (drawn.x[1:-1:2] + drawn.x[2::2]) / 2
        V, bent = (np.interp(between, drawn.x, of) for of in (drawn.V_y, drawn.M_y))
        size_V, size_M = np.abs(drawn.V_y).max(), np.abs(drawn.M_y).max()
        shear_at, moment_at = (beam._plotting_vectors[kind]["y_lam"] for kind in ("sf", "bm"))
        for at, shear, moment in zip(between, V, bent, strict=True):
            assert shear == pytest.approx(float(shear_at(at / 1e3)), abs=1e-9 * size_V)
            assert moment == pytest.approx(1e3 * float(moment_at(at / 1e3)), abs=1e-9 * size_M)

    @given(shafts, places, numbers(1, 600))
    def test_it_closes_at_the_end(self, shaft, z_A, spread):
        drawn = diagram(shaft, z_A, z_A + spread)
        size = sum(abs(e.F_y) * 1e3 * (1 + 1e3 / spread) + abs(e.M_y) * (1 + 1e3 / spread) for e in shaft)
        assert drawn.V_y[-1] == pytest.approx(0, abs=1e-10 * size / spread + 1e-9)
        assert drawn.M_y[-1] == pytest.approx(0, abs=1e-10 * size + 1e-9)

    def test_a_section_counts_what_lies_before_it(self):
        V, M = section_loads([0, 5, 10], [0, 5], [100, -100], [0, 30])
        assert V.tolist() == [0, 100, 0]
        assert M.tolist() == [0, 500, 470]
