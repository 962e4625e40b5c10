"""Sides and signs of a pair."""

import numpy as np
import pytest
from hypothesis import given

from engine.pair.arrangement import (
    BACK_TO_BACK,
    FACE_TO_FACE,
    effective_spread,
    load_centres,
    loaded_by_positive_thrust,
)
from tests.strategies import arrangements, numbers

lengths = numbers(0.0, 300.0)
distances_a = numbers(-30.0, 60.0)


# drawn on paper: bearings 20 mm wide, load centre 4 mm inside the back face, 100 mm from back face to back face
@pytest.mark.parametrize(
    ("arrangement", "distance", "inset", "z"),
    [
        (BACK_TO_BACK, 100, 0, (4, 96)),
        (FACE_TO_FACE, 100, 0, (-4, 104)),
        # the same bearings with the distance taken between their middles: back faces 10 mm outboard or inboard
        (BACK_TO_BACK, 80, 10, (-6, 86)),
        (FACE_TO_FACE, 120, 10, (6, 114)),
    ],
)
def test_load_centres_on_paper(arrangement, distance, inset, z):
    assert load_centres(arrangement, distance, 4, 4, inset, inset) == z


def test_back_to_back_has_the_wider_spread():
    # every handbook: with the same middles, 80 mm apart, O gives the wider support; a = 4 mm, half width 10 mm
    wide = effective_spread(*load_centres(BACK_TO_BACK, 80, 4, 4, 10, 10))
    narrow = effective_spread(*load_centres(FACE_TO_FACE, 80, 4, 4, 10, 10))
    assert (wide, narrow) == (92, 68)


def test_a_load_centre_beyond_the_back_face():
    # a = -5: in O it moves outboard of the back face, in X inboard
    assert load_centres(BACK_TO_BACK, 100, -5, -5) == (-5, 105)
    assert load_centres(FACE_TO_FACE, 100, -5, -5) == (5, 95)


@given(arrangements, lengths, distances_a, distances_a, lengths, lengths)
def test_the_choice_of_reference_plane_changes_nothing(arrangement, distance, a_A, a_B, inset_A, inset_B):
    """Measured between middles or between back faces, it is the same pair with the same spread."""
    shift = 1 if arrangement == BACK_TO_BACK else -1
    from_middles = load_centres(arrangement, distance, a_A, a_B, inset_A, inset_B)
    from_backs = load_centres(arrangement, distance + shift * (inset_A + inset_B), a_A, a_B)
    assert effective_spread(*from_middles) == pytest.approx(effective_spread(*from_backs), abs=1e-9)
    assert from_middles[0] + shift * inset_A == pytest.approx(from_backs[0], abs=1e-9)


def test_which_side_takes_the_thrust():
    # machine design handbooks: a shaft pushed to the right loads the left bearing of O and the right one of X
    assert loaded_by_positive_thrust(BACK_TO_BACK) == "A"
    assert loaded_by_positive_thrust(FACE_TO_FACE) == "B"


def test_a_word_that_is_no_arrangement():
    with pytest.raises(ValueError, match="back_to_back, face_to_face"):
        loaded_by_positive_thrust("tandem")
    with pytest.raises(ValueError, match="accepted are"):
        load_centres("O", 100, 4, 4)


def test_pairs_in_columns():
    z_A, z_B = load_centres(BACK_TO_BACK, 100, np.array([[4.0], [-2.0]]), np.array([[3.0], [np.nan]]))
    assert z_A.tolist() == [[4], [-2]]
    assert z_B[0] == 97 and np.isnan(z_B[1])
