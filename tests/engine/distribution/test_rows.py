"""Roller sets out of the catalogue: places along the axis that the load centre agrees with."""

from dataclasses import replace

import numpy as np
import pytest

from engine.distribution.rollers import RollerSet
from engine.distribution.rows import roller_set
from tests.engine.distribution.bearings import catalogue, rollers


def test_every_row_of_the_invented_range_makes_a_roller_set():
    c = catalogue()
    for row in range(0, len(c), 53):
        one = roller_set(c, row, between_middles=True)
        assert c.Z[row] == one.Z and one.profile in ("plain", "log")
        assert one.inset == pytest.approx(c.T[row] / 2)
        # cone raceway + rollers = cup raceway, as printed in the columns F and E
        assert one.cone_diameter == pytest.approx(c.F[row], abs=0.15 * one.Dwe)
        assert one.cup_diameter == pytest.approx(c.E[row], abs=0.15 * one.Dwe)
        # the printed a lies where the load line through the contact's middle meets the axis
        assert one.middle - one.cup_diameter / 2 * np.tan(one.alpha) == pytest.approx(one.a, abs=0.06 * one.T)


def test_a_profile_that_is_not_known_is_not_taken_for_a_plain_one():
    c = catalogue()
    crowned = replace(c.take([0]), profile=np.array(["crowned"]))
    with pytest.raises(ValueError, match=r"'crowned', accepted are plain, log"):
        roller_set(crowned, 0)


@pytest.mark.parametrize("wrong", [{"profile": "crowned"}, {"Z": 0}, {"Dwe": np.nan}, {"alpha": -0.1}])
def test_what_no_roller_set_can_be(wrong):
    with pytest.raises(ValueError, match=r"accepted are|positive numbers"):
        RollerSet(**{**vars(rollers()), **wrong})
