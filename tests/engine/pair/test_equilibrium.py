"""Axial load of each bearing of a pair."""

import numpy as np
import pytest
from hypothesis import given

from engine.pair.arrangement import BACK_TO_BACK, FACE_TO_FACE
from engine.pair.equilibrium import K_factor, axial_loads, induced_axial_load_S, induced_axial_load_us
from engine.rating.geometry import axial_factor_Y
from tests.printed import printed
from tests.strategies import arrangements, contact_angles, numbers, thrusts
from tests.strategies import axial_loads as sizes

# handbook rule (recalled) with A the bearing that the thrust loads, as in O with a thrust towards B:
#   S_A <= S_B, any K_a               Fa_A = S_B + K_a, Fa_B = S_B
#   S_A >  S_B, K_a >= S_A - S_B      Fa_A = S_B + K_a, Fa_B = S_B
#   S_A >  S_B, K_a <  S_A - S_B      Fa_A = S_A,       Fa_B = S_A - K_a
HANDBOOK = [
    ("case 1", 700, 1000, 300, 1300, 1000),
    ("case 1, no thrust", 700, 1000, 0, 1000, 1000),
    ("case 2", 1000, 700, 500, 1200, 700),
    ("case 3", 1000, 700, 200, 1000, 800),
    ("case 3, no thrust", 1000, 700, 0, 1000, 1000),
]


@pytest.mark.parametrize(("S_A", "S_B", "K_a", "Fa_A", "Fa_B"), [c[1:] for c in HANDBOOK], ids=[c[0] for c in HANDBOOK])
def test_handbook_rule(S_A, S_B, K_a, Fa_A, Fa_B):
    assert axial_loads(BACK_TO_BACK, S_A, S_B, K_a) == (Fa_A, Fa_B)
    # the same thrust loads the other bearing of X, so that the sides of the rule change names
    assert axial_loads(FACE_TO_FACE, S_B, S_A, K_a) == (Fa_B, Fa_A)


@given(arrangements, sizes, sizes, thrusts)
def test_the_shaft_is_in_equilibrium(arrangement, S_A, S_B, K_a):
    """The bearing that the thrust loads carries it in excess of the other: A in O, B in X."""
    Fa_A, Fa_B = axial_loads(arrangement, S_A, S_B, K_a)
    sign = 1 if arrangement == BACK_TO_BACK else -1
    assert Fa_A - Fa_B == pytest.approx(sign * K_a, rel=1e-12, abs=1e-9)
    assert Fa_A >= S_A and Fa_B >= S_B
    # without preload one of the two is left with no more than it induces itself
    assert pytest.approx(S_A, rel=1e-12) == Fa_A or pytest.approx(S_B, rel=1e-12) == Fa_B


@given(sizes, sizes, thrusts)
def test_reversing_the_thrust_is_turning_the_arrangement(S_A, S_B, K_a):
    assert axial_loads(BACK_TO_BACK, S_A, S_B, K_a) == axial_loads(FACE_TO_FACE, S_A, S_B, -K_a)


@given(arrangements, sizes, sizes, thrusts, numbers(1.0, 3.0))
def test_more_induced_load_never_unloads_a_bearing(arrangement, S_A, S_B, K_a, more):
    before, after = (axial_loads(arrangement, S, S_B, K_a) for S in (S_A, S_A * more))
    assert after[0] >= before[0] and after[1] >= before[1]


def test_the_two_formulas_of_induced_load():
    # K = 0.389 cot(alpha) by calculator; 0.47 Fr/K = 1.208 tan(alpha) Fr against Fr/(2 Y) = 1.25 tan(alpha) Fr
    assert K_factor(np.radians([10.0]))[0] == printed("2.2061")
    assert K_factor(np.radians([15.6422]))[0] == printed("1.3893")
    assert K_factor(np.radians([30.0]))[0] == printed("0.6738")


@given(contact_angles, numbers(1.0, 1e6))
def test_the_two_formulas_differ_by_the_same_little_at_every_angle(alpha, Fr):
    # by calculator 0.47 / (0.389 * 1.25) = 0.9666; whatever the angle, the two handbook formulas differ by 3.3 %
    ratio = induced_axial_load_us(Fr, K_factor(alpha)) / induced_axial_load_S(Fr, axial_factor_Y(alpha))
    assert ratio == printed("0.9666")


def test_outside():
    assert np.isnan(induced_axial_load_S([-1, 1, 1, np.nan], [1.6, 0, -1, 1.6])).all()
    assert np.isnan(induced_axial_load_us([-1, 1, 1, np.nan], [1.5, 0, -1, 1.5])).all()
    assert np.isnan(K_factor([0, -0.1, 0.8, np.nan])).all()
    for Fa in axial_loads(BACK_TO_BACK, [-1, np.nan, 1], [1, 1, -1], 0):
        assert np.isnan(Fa).all()
    with pytest.raises(ValueError, match="accepted are"):
        axial_loads("tandem", 1, 1, 1)
