"""Basic static rating, equivalent static load, static safety."""

import numpy as np
import pytest
from hypothesis import given

from engine.rating.static import basic_static_rating_C0r, equivalent_static_load_P0, static_safety_s0
from tests.printed import printed
from tests.strategies import axial_loads, numbers, radial_loads


# ISO 76:2006 clause 7.1, evaluated apart from this code
@pytest.mark.parametrize(
    ("Z", "Dwe", "Lwe", "Dpw", "alpha", "i", "C0r"),
    [
        (17, 8, 11, 46, 14.0361, 1, "53084"),
        (17, 8, 11, 46, 14.0361, 2, "106169"),
        (20, 13.75, 22, 150, 12, 1, "237036"),
        (19, 12, 18, 80, 15.1094, 1, "149087"),
    ],
)
def test_rating_checks(Z, Dwe, Lwe, Dpw, alpha, i, C0r):
    assert basic_static_rating_C0r(Dwe, Lwe, Z, Dpw, np.radians(alpha), i) == printed(C0r)


def test_a_bearing_with_impossible_sizes_has_no_rating():
    assert np.isnan(
        basic_static_rating_C0r([0, 8, 8, 8], [11, 0, 11, 11], [17, 17, 0, 17], [46, 46, 46, 7], 0.25)
    ).all()


# ISO 76:2006, single row, Y0 = 0.88 (alpha = 14.0361 deg), worked by hand:
# 0.5 * 10 + 0.88 * 3 = 7.64 kN is less than Fr; 0.5 * 10 + 0.88 * 8 = 12.04 kN is more
@pytest.mark.parametrize(("Fa", "P0"), [(3000, "10000"), (8000, "12040")])
def test_equivalent_static_load(Fa, P0):
    assert equivalent_static_load_P0(10_000, Fa, 0.88) == printed(P0)


@given(radial_loads, axial_loads, numbers(0.3, 2.0), numbers(1.0, 2.0))
def test_more_load_is_never_more_safety(Fr, Fa, Y0, more):
    safety = static_safety_s0(1e6, equivalent_static_load_P0([Fr, Fr * more, Fr], [Fa, Fa, Fa * more], Y0))
    assert (safety[1:] <= safety[0]).all()


def test_safety_at_the_edges():
    assert static_safety_s0([30_000, 30_000], [10_000, 0]).tolist() == [3.0, np.inf]
    assert np.isnan(static_safety_s0([0, -1, np.nan, 1], [1, 1, 1, -1])).all()
    assert np.isnan(equivalent_static_load_P0([-1, 1], [1, -1], 0.88)).all()
