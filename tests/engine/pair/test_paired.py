"""A locating unit and its floating partner: where the unit carries, and who takes the thrust."""

import numpy as np
import pytest
from hypothesis import given

from engine.duty.element import Element
from engine.duty.shaft import bearing_loads, reduced
from engine.pair.arrangement import BACK_TO_BACK, FACE_TO_FACE, load_centres
from engine.pair.paired import located_loads, unit_load_centre
from engine.rating.double_row import equivalent_dynamic_load
from tests.printed import printed
from tests.strategies import numbers, thrusts

sizes = numbers(5, 80)


@given(numbers(-20, 60), sizes, numbers(0, 40))
def test_the_middle_of_a_unit_is_midway_between_its_load_centres(a, T, spacer):
    """Back to back the inner faces meet, face to face the outer ones; the middle of both load centres is the same."""
    whole = 2 * T + spacer
    # back to back: back faces at the middle, spacer apart; the load centres lie apart to both sides
    beyond = T + np.array([0, spacer])
    z = load_centres(FACE_TO_FACE, spacer, a, a) if spacer else (-a, a)
    assert np.mean(z) + T == pytest.approx(unit_load_centre("A", 500, T, spacer), abs=1e-9)
    assert np.mean(beyond) == pytest.approx(whole / 2)
    # face to face: back faces at the ends of the unit
    z = load_centres(BACK_TO_BACK, whole, a, a)
    assert np.mean(z) == pytest.approx(unit_load_centre("A", 500, T, spacer), abs=1e-9)


@given(sizes, numbers(0, 40), numbers(200, 900))
def test_a_unit_on_the_other_side_is_the_mirror_image(T, spacer, distance):
    A, B = (unit_load_centre(side, distance, T, spacer, 3.0) for side in "AB")
    assert pytest.approx(distance - A) == B


def test_measured_from_the_middle_of_the_unit():
    assert unit_load_centre("A", 300, 25, 10, inset=30) == 0
    assert unit_load_centre("B", 300, 25, 10, inset=30) == 300


@given(thrusts)
def test_the_unit_takes_the_thrust_and_nothing_else_does(K_a):
    Fa_A, Fa_B = located_loads("B", K_a)
    assert (Fa_A, Fa_B) == (0, abs(K_a))
    assert located_loads("A", K_a) == (abs(K_a), 0)


def test_a_shaft_on_a_unit_and_a_partner():
    # worked by hand: 6 kN across and 2 kN along, 200 mm from the middle of a unit on A, partner 500 mm from it: 3.6 kN
    # on the unit, 2.4 kN on the partner; alpha with cot 4: Y1 = 1.8, e = 0.375, 2/3.6 = 0.556 > e, Y2 = 2.68:
    # 0.67 * 3.6 + 2.68 * 2 = 7.772 kN
    forces = reduced([Element("gear", 200, F_y=6000, F_a=-2000)])
    unit, partner = bearing_loads(forces, 0, 500)
    Fa_unit, Fa_partner = located_loads("A", forces.F_a)
    assert (unit.Fr, partner.Fr, Fa_partner) == (printed("3600"), printed("2400"), 0)
    assert equivalent_dynamic_load(unit.Fr, Fa_unit, np.arctan(0.25)) == printed("7772")


def test_no_such_side():
    with pytest.raises(ValueError, match="accepted are A and B"):
        located_loads("C", 1)
    with pytest.raises(ValueError, match="accepted are A and B"):
        unit_load_centre("C", 1, 1)
