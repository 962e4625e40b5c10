"""Reactions of a rigid shaft on two supports."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from indeterminatebeam import Beam, PointLoadV, PointTorque, Support

from engine.duty.statics import radial_load, reactions
from tests.printed import printed
from tests.strategies import forces, moments, numbers, places

# checked with indeterminatebeam when they were written down; the couple of the third belongs to a textbook example
CASES = [
    # id, x, F, M, x_A, x_B, R_A, R_B
    ("overhung beyond B", [250], [1000], [], 0, 150, "-666.67", "1666.67"),
    ("gear, tangential", [100], [3980], [], 0, 150, "1326.67", "2653.33"),
    ("gear, separating and couple", [100], [1770], [-169e3], 0, 150, "1716.67", "53.33"),
    ("both ends overhung", [0, 200, 400], [500, 2000, 800], [], 100, 300, "1350", "1950"),
]


@pytest.mark.parametrize(("x", "F", "M", "x_A", "x_B", "R_A", "R_B"), [c[1:] for c in CASES], ids=[c[0] for c in CASES])
def test_check_values(x, F, M, x_A, x_B, R_A, R_B):
    at_A, at_B = reactions(x, F, M, x_A, x_B)
    assert at_A == printed(R_A)
    assert at_B == printed(R_B)


@pytest.mark.parametrize("seed", range(30))
def test_random_shafts_against_indeterminatebeam(seed):
    # outside reference: the general-purpose library indeterminatebeam, whose reactions point against the load
    draw = np.random.default_rng(seed)
    x_A, x_B = (float(place) for place in draw.permutation([draw.uniform(0.1, 0.4), draw.uniform(0.5, 0.9)]))
    x, F = draw.uniform(0, 1, 5), draw.uniform(-5e3, 5e3, 5)
    M, x_M = draw.uniform(-200, 200, 3), draw.uniform(0, 1, 3)
    beam = Beam(1.0)
    beam.add_supports(Support(x_A, (1, 1, 0)), Support(x_B, (0, 1, 0)))
    beam.add_loads(*(PointLoadV(float(one), float(place)) for one, place in zip(F, x, strict=True)))
    beam.add_loads(*(PointTorque(float(one), float(place)) for one, place in zip(M, x_M, strict=True)))
    beam.analyse()
    at_A, at_B = reactions(1e3 * x, F, 1e3 * M, 1e3 * x_A, 1e3 * x_B)
    size = np.abs(F).sum()
    assert at_A == pytest.approx(-float(beam.get_reaction(x_A, "y")), rel=1e-9, abs=1e-12 * size)
    assert at_B == pytest.approx(-float(beam.get_reaction(x_B, "y")), rel=1e-9, abs=1e-12 * size)


loads = st.lists(st.tuples(places, forces), min_size=1, max_size=8)


@given(loads, st.lists(moments, max_size=4), places, numbers(1.0, 800.0))
def test_the_supports_carry_the_load_and_its_moment(load, M, x_A, spread):
    """Equilibrium: sum of forces, and sum of moments about any place."""
    x, F = np.array(load).T
    x_B = x_A + spread
    at_A, at_B = reactions(x, F, M, x_A, x_B)
    size = np.abs(F).sum() * (1 + 1500 / spread) + np.abs(M).sum() / spread
    assert at_A + at_B == pytest.approx(F.sum(), abs=1e-12 * size + 1e-9)
    about_origin = (F * x).sum() + np.sum(M)
    assert at_A * x_A + at_B * x_B == pytest.approx(about_origin, abs=1e-11 * size * 1500 + 1e-9)


def test_many_pairs_and_cases_at_once():
    # columns of pairs (supports) against cases (rows of forces): every cell as if computed alone
    x, F = np.array([[0.0, 50.0], [10.0, 90.0], [5.0, 70.0]]), np.array([[100.0, 7.0], [-3.0, 40.0], [0.0, 9.0]])
    M = np.array([[5.0], [0.0], [-7.0]])
    x_A, x_B = np.array([[0.0], [5.0]]), np.array([[100.0], [80.0]])
    at_A, at_B = reactions(x, F, M, x_A, x_B)
    assert at_A.shape == at_B.shape == (2, 3)
    for pair in range(2):
        for case in range(3):
            alone = reactions(x[case], F[case], M[case], x_A[pair, 0], x_B[pair, 0])
            assert (at_A[pair, case], at_B[pair, case]) == alone


def test_supports_in_one_place_carry_nothing_that_can_be_told():
    at_A, at_B = reactions([10], [100], [], [0, 50], [100, 50])
    assert np.isnan(at_A).tolist() == np.isnan(at_B).tolist() == [False, True]


def test_radial_load():
    assert radial_load(3, -4) == 5
    assert radial_load([1326.7], [1716.7]) == printed("2169.6")  # textbook gear shaft
