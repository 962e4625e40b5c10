"""Life modification factor a_ISO."""

import numpy as np
import pytest
from hypothesis import given, settings

from engine.rating.modified_life import a_iso, a_iso_with_ep
from tests.printed import printed
from tests.strategies import contaminations, kappas, numbers

# spot values stated in the tests of open code that implements ISO 281, with e_C Cu/P as one number
SPOTS = [(2, 0.5, "3.08"), (2, 0.1, "0.52"), (1, 0.5, "1.71"), (4, 0.5, "5.59")]

# ISO 281:2007 equations (34) to (36), evaluated apart from this code
LOADS = [0.005, 0.01, 0.05, 0.1, 0.2, 0.5, 1, 2, 5]
TABLE = {
    0.1: "0.1000 0.1000 0.1000 0.1000 0.1000 0.1000 0.0999 0.0999 0.0999",
    0.2: "0.1067 0.1089 0.1178 0.1242 0.1333 0.1518 0.1742 0.2094 0.2964",
    0.4: "0.1136 0.1184 0.1384 0.1539 0.1773 0.2313 0.3075 0.4541 0.9697",
    0.5: "0.1217 0.1298 0.1653 0.1952 0.2443 0.3737 0.5947 1.1407 4.2916",
    1: "0.1485 0.1692 0.2797 0.3986 0.6505 1.7141 5.3106 30.3571 50.0000",
    1.5: "0.1547 0.1787 0.3123 0.4640 0.8040 2.4132 8.8905 50.0000 50.0000",
    2: "0.1592 0.1856 0.3374 0.5161 0.9337 3.0813 12.9267 50.0000 50.0000",
    3: "0.1656 0.1957 0.3755 0.5987 1.1515 4.3595 22.2018 50.0000 50.0000",
    4: "0.1701 0.2030 0.4048 0.6644 1.3350 5.5869 32.9195 50.0000 50.0000",
}


@pytest.mark.parametrize(("kappa", "load", "expected"), SPOTS)
def test_spot_values_of_open_code(kappa, load, expected):
    assert a_iso(kappa, load, 1.0, 1.0) == printed(expected)


@pytest.mark.parametrize("kappa", TABLE, ids=[f"ISO 281 equations 34 to 36, kappa {kappa}" for kappa in TABLE])
def test_table(kappa):
    for load, expected in zip(LOADS, TABLE[kappa].split(), strict=True):
        assert a_iso(kappa, 0.5, 2 * load, 1.0) == printed(expected)


@pytest.mark.parametrize(("kappa", "expected"), [(0.4, "0.2313"), (1.0, "1.7141")])
def test_neighbouring_equations_meet(kappa, expected):
    for one in (np.nextafter(kappa, 0), kappa):
        assert a_iso(one, 0.5, 1.0, 1.0) == printed(expected)


@given(kappas, contaminations, numbers(1.0, 1e5), numbers(1.0, 1e6), numbers(1.0, 3.0))
@settings(max_examples=200)
def test_more_load_never_raises_the_factor_and_more_of_anything_good_never_lowers_it(kappa, e_C, Cu, P, more):
    here = a_iso(kappa, e_C, Cu, P)
    slack = 1 + 1e-9
    # the printed constants let a_ISO fall by up to 0.1 % where kappa is 0.1, hence only from 0.11 on
    if kappa >= 0.11:
        assert a_iso(kappa, e_C, Cu, P * more) <= here * slack
        assert a_iso(kappa, min(e_C * more, 1.0), Cu, P) >= here / slack
        assert a_iso(kappa, e_C, Cu * more, P) >= here / slack
    assert a_iso(kappa * more, e_C, Cu, P) >= here / slack


@given(numbers(0.1, 0.999), contaminations, numbers(1.0, 1e5), numbers(1.0, 1e6))
def test_ep_additives(kappa, e_C, Cu, P):
    """ISO 281: kappa = 1 may be used where kappa < 1 and e_C >= 0.2, up to a_ISO = 3, never below the plain value."""
    plain, helped = a_iso(kappa, e_C, Cu, P), a_iso_with_ep(kappa, e_C, Cu, P, ep=True)
    assert a_iso_with_ep(kappa, e_C, Cu, P, ep=False) == plain
    if e_C < 0.2:
        assert helped == plain
    else:
        assert plain <= helped <= max(3.0, plain)


def test_ep_additives_by_hand():
    # at kappa = 1 and e_C Cu/P = 0.5 the table above says 1.7141, at 1 it says 5.3106 (capped to 3);
    # at kappa = 0.5 without additives 0.3737
    assert a_iso_with_ep(0.5, 0.5, 1.0, 1.0, ep=True) == printed("1.7141")
    assert a_iso_with_ep(0.5, 0.5, 2.0, 1.0, ep=True) == printed("3.0000")
    assert a_iso_with_ep(0.5, 0.5, 1.0, 1.0, ep=[True, False])[1] == printed("0.3737")
    assert a_iso_with_ep(2.0, 0.5, 1.0, 1.0, ep=True) == printed("3.0813")


def test_edges():
    assert a_iso(4, 0.5, 1, 1) == a_iso(7, 0.5, 1, 1)
    assert a_iso([0.1, 1, 4], 0.5, 100, 0).tolist() == [50, 50, 50]
    assert a_iso(1, 0, 100, 0) == pytest.approx(0.1)
    outside = a_iso([0.09, np.nan, 1, 1, 1, 1], [0.5, 0.5, np.nan, 1.1, 0.5, 0.5], 1, [1, 1, 1, 1, -1, np.nan])
    assert np.isnan(outside).all()
    assert np.isnan(a_iso_with_ep(0.05, 0.5, 1, 1, ep=True))
