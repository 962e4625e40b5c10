"""The chain from bench to service: fits, temperatures with their sign limits, growth, scatter and the way back."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.distribution.setting_chain import (
    Conditions,
    Mounting,
    Seats,
    bench_band,
    chain,
    fit_after_growth,
    no_scatter,
    play_lost,
    service_range,
)
from engine.pair.arrangement import ARRANGEMENTS, BACK_TO_BACK, FACE_TO_FACE
from tests.engine.distribution.bearings import rollers
from tests.printed import printed
from tests.strategies import arrangements, numbers

LOOSE = Seats(d=30.0, D=62.0, cone_ratio=0.0, cup_ratio=0.0)
FITTED = Seats(d=50.0, D=90.0, cone_ratio=25.0 / 30.0, cup_ratio=15.9 / 20.0)
#: Expansion of steel and cast iron per kelvin, for figures that can be followed by hand.
STEEL_IN_IRON = {"shaft": 11.5e-6, "housing": 10.5e-6, "rings": 11.5e-6}
each_arrangement = pytest.mark.parametrize("arrangement", ARRANGEMENTS)


def mounting(arrangement=BACK_TO_BACK, distance=120.0, seats=LOOSE, **changed):
    A, B = rollers(), rollers(Z=15, alpha=np.radians(20.0), middle=13.0, T=20.0)
    return Mounting((A, B), arrangement, distance, (seats, seats), **STEEL_IN_IRON | changed)


@pytest.mark.parametrize(
    ("growth", "alpha", "loss"), [(0.025, 14.0361, "0.0500"), (0.0159, 14.0361, "0.0318"), (0.025, 28.8108, "0.0227")]
)
def test_growth_over_tan_alpha(growth, alpha, loss):
    """Handbooks: 0.5 K/0.389 times the change of diameter, K = 0.389 cot(alpha); tan(alpha) = 1/4 doubles it."""
    assert play_lost(growth, 0.0, np.radians(alpha)) == printed(loss)
    K = 0.389 / np.tan(np.radians(alpha))
    assert 0.5 * K / 0.389 * growth == printed(loss)


def test_a_spacer_ground_with_loose_rings_loses_the_fits_and_a_reading_on_the_machine_does_not():
    """30 um on a 50 mm shaft: a 60 mm raceway grows by 25.0 um; 20 um in a 90 mm housing: an 80 mm one shrinks by 15.9.

    (Thick-walled cylinders, textbook; bore 0, housing 150 mm.)
    """
    given = Conditions(bench=0.2, cone_fit_A=0.030, cup_fit_A=0.020)
    loose = chain(mounting(seats=FITTED, measured_mounted=False), given)
    assert loose.bench - loose.mounted == pytest.approx((0.025 + 0.0159) / 2 / 0.25, rel=1e-4)
    on_machine = chain(mounting(seats=FITTED), given)
    assert on_machine.mounted == on_machine.bench == on_machine.service == 0.2


@each_arrangement
@given(numbers(-60.0, 150.0), numbers(50.0, 400.0), numbers(-0.1, 0.3))
def test_one_material_heated_evenly_changes_nothing_but_scale(arrangement, T, distance, bench):
    one = mounting(arrangement, distance, FITTED, shaft=11.5e-6, housing=11.5e-6, rings=11.5e-6)
    warm = Conditions(
        bench, 0.03, 0.02, 0.03, 0.02, T_cone=T, T_shaft=T, T_cup=T, T_housing=T
    )  # fmt: skip
    # what is left out is the setting's own expansion, 11.5e-6 a kelvin: 5e-6 mm on 0.3 mm and 130 K
    assert chain(one, warm).service == pytest.approx(bench, abs=1e-12)


def apexes(arrangement, distance, A, B):
    """Return where the raceway cones of both cups meet the axis: on the side of the small ends."""
    reach = [one.cup_diameter / 2 / np.tan(one.alpha) for one in (A, B)]
    if arrangement == BACK_TO_BACK:
        return A.middle + reach[0], distance - B.middle - reach[1]
    return -A.middle - reach[0], distance + B.middle + reach[1]


def test_back_to_back_with_one_apex_is_thermally_neutral():
    A, B = rollers(), rollers(Z=15, alpha=np.radians(20.0), middle=13.0, T=20.0)
    distance = sum(one.middle + one.cup_diameter / 2 / np.tan(one.alpha) for one in (A, B))
    at_A, at_B = apexes(BACK_TO_BACK, distance, A, B)
    assert at_A == pytest.approx(at_B)
    # shaft, cones and rollers warm, cups and housing cold; rollers take the mean, so their part is taken out
    inner = Conditions(0.1, T_cone=70.0, T_shaft=70.0, T_cup=20.0)
    rollers_lag = sum(11.5e-6 * 25.0 * (one.cup_diameter - one.cone_diameter) / 2 / np.tan(one.alpha) for one in (A, B))

    def change(distance):
        one = Mounting((A, B), BACK_TO_BACK, distance, (LOOSE, LOOSE), **STEEL_IN_IRON)
        return chain(one, inner).service - 0.1 - rollers_lag

    assert change(distance) == pytest.approx(0.0, abs=1e-12)
    # apexes that overlap: preload when the shaft is warm; apart: end play
    assert change(distance - 50) == pytest.approx(-50 * 11.5e-6 * 50)
    assert change(distance + 50) == pytest.approx(50 * 11.5e-6 * 50)


def test_face_to_face_always_closes_when_the_shaft_is_warmer_and_more_so_the_longer_it_is():
    warm = Conditions(0.1, T_cone=60.0, T_shaft=60.0, T_cup=40.0, T_housing=40.0)
    near, far = (chain(mounting(FACE_TO_FACE, distance, housing=11.5e-6), warm).service for distance in (80.0, 300.0))
    assert 0.1 > near > far
    assert near - far == pytest.approx(220 * 11.5e-6 * 20)


@each_arrangement
def test_an_aluminium_housing_opens_one_arrangement_and_closes_the_other(arrangement):
    even = {"T_cone": 80.0, "T_shaft": 80.0, "T_cup": 80.0, "T_housing": 80.0}
    change = chain(mounting(arrangement, housing=23e-6), Conditions(0.1, **even)).service - 0.1
    # loose cups: only the length counts, 11.5e-6 x 60 K more between the cup back faces
    A, B = mounting().rollers
    between = 120.0 - A.T - B.T if arrangement == BACK_TO_BACK else 120.0 + A.T + B.T
    sign = -1 if arrangement == BACK_TO_BACK else 1
    assert change == pytest.approx(sign * 11.5e-6 * 60 * between)


def test_a_light_housing_lets_go_of_its_cup():
    # 20 um of interference in 90 mm are gone at 20 um/(90 x 11.5e-6) = 19.3 K above the bench
    assert fit_after_growth(0.020, 90.0, 11.5e-6 * 19.3, 23e-6 * 19.3) == pytest.approx(0.0, abs=3e-5)
    assert fit_after_growth(0.020, 90.0, 11.5e-6 * 60, 23e-6 * 60) == 0.0
    assert fit_after_growth(-0.010, 90.0, 0.0, 0.0) == 0.0


def test_cones_that_grow_with_time_take_play():
    # 1e-4 of lasting growth on a 38.3 mm cone raceway at tan(alpha) = 1/4: 7.7 um in A
    one = mounting()
    grown = chain(one, Conditions(0.1, growth_cone=1e-4))
    assert grown.warm == 0.1 > grown.service
    radial = sum(1e-4 * r.cone_diameter / 2 / np.tan(r.alpha) for r in one.rollers)
    axial = 1e-4 * (one.rollers[0].middle + one.rollers[1].middle)
    # back to back, wider cones bring the contacts closer together, which closes the pair
    assert grown.service == pytest.approx(0.1 - radial - axial)


@given(arrangements, st.lists(numbers(-20.0, 120.0), min_size=4, max_size=4), numbers(0.0, 0.05))
def test_mirrored_pair_has_the_mirrored_chain(arrangement, T, fit):
    here = mounting(arrangement, seats=FITTED)
    there = replace(here, rollers=here.rollers[::-1])
    temperatures = dict(zip(("T_cone", "T_shaft", "T_cup", "T_housing"), T, strict=True))
    seen = chain(here, Conditions(0.1, cone_fit_A=fit, cup_fit_B=fit / 2, **temperatures)).service
    behind = chain(there, Conditions(0.1, cone_fit_B=fit, cup_fit_A=fit / 2, **temperatures)).service
    assert seen == pytest.approx(behind, abs=1e-12)


NOMINAL = Conditions(0.12, 0.02, 0.0, 0.02, 0.0, T_cone=70.0, T_shaft=65.0, T_cup=60.0, T_housing=50.0)
SCATTER = no_scatter(bench=0.02, cone_fit_A=0.01, cone_fit_B=0.01, T_cone=5.0, T_housing=8.0)


def test_range_holds_every_corner_and_the_root_sum_lies_within():
    one = mounting(seats=FITTED, measured_mounted=False)
    reach = service_range(one, NOMINAL, SCATTER)
    assert set(reach.parts) == {"bench", "cone_fit_A", "cone_fit_B", "T_cone", "T_housing"}
    assert reach.parts["bench"] == pytest.approx(0.02)
    assert reach.worst[0] < reach.rss[0] < reach.nominal < reach.rss[1] < reach.worst[1]
    names = list(reach.parts)
    for signs in np.ndindex(*[2] * len(names)):
        moved = {n: getattr(NOMINAL, n) + (2 * s - 1) * getattr(SCATTER, n) for n, s in zip(names, signs, strict=True)}
        assert reach.worst[0] - 1e-12 <= chain(one, replace(NOMINAL, **moved)).service <= reach.worst[1] + 1e-12


def test_back_through_the_chain():
    one = mounting(seats=FITTED, measured_mounted=False)
    low, high = bench_band(one, NOMINAL, no_scatter(), (0.0, 0.05))
    assert chain(one, replace(NOMINAL, bench=low)).service == pytest.approx(0.0, abs=1e-12)
    assert chain(one, replace(NOMINAL, bench=high)).service == pytest.approx(0.05, abs=1e-12)
    narrow = bench_band(one, NOMINAL, SCATTER, (0.0, 0.2))
    worst = bench_band(one, NOMINAL, SCATTER, (0.0, 0.2), rss=False)
    assert low < narrow[0] < worst[0] and worst[1] < narrow[1]
    # scatter wider than what is wanted leaves no band, seen by its ends changing places
    crossed = bench_band(one, NOMINAL, SCATTER, (0.0, 0.01), rss=False)
    assert crossed[0] > crossed[1]


def test_arrays_go_through_at_once():
    T = np.linspace(20, 100, 5)
    many = chain(mounting(seats=FITTED), replace(NOMINAL, T_cone=T, bench=np.array([[0.1], [0.2]])))
    assert many.service.shape == (2, 5)
    alone = chain(mounting(seats=FITTED), replace(NOMINAL, T_cone=float(T[3]), bench=0.2))
    assert many.service[1, 3] == alone.service


def test_outside_the_range_there_is_no_value():
    assert np.isnan(play_lost(0.01, 0.0, 0.0))
