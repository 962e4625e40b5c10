"""printed(): half a unit of the last printed digit, no more and no less."""

import numpy as np
import pytest

from tests.printed import printed


@pytest.mark.parametrize(
    ("text", "inside", "outside"),
    [
        ("0.64", [0.6379, 0.635, 0.645, 0.64], [0.646, 0.6349, 0.6451, -0.64]),
        ("1250", [1250.4, 1249.5], [1250.6, 1249.4]),
        ("0.640", [0.6404], [0.6406, 0.6379]),
        ("27 700", [27_700.4], [27_701]),
        ("1.5e3", [1549, 1451], [1551]),
        ("-3.10", [-3.104], [-3.106, 3.10]),
    ],
)
def test_tolerance_is_half_the_last_digit(text, inside, outside):
    for value in inside:
        assert value == printed(text)
    for value in outside:
        assert value != printed(text)


def test_what_is_unknown_is_never_as_printed():
    for value in (np.nan, np.inf, -np.inf):
        assert printed("0.64") != value


def test_an_array_is_as_printed_where_every_element_is():
    assert printed("0.64") == np.array([0.639, 0.641])
    assert printed("0.64") != np.array([0.639, 0.66])


def test_what_is_not_a_number_cannot_be_printed():
    with pytest.raises(ArithmeticError):
        printed("about two")
