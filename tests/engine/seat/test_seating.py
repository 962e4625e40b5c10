"""Both seats at once: what tighter fits and other steels change, and that many are computed as one alone."""

import itertools
from dataclasses import fields, replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.catalogue.materials import steels
from engine.catalogue.read import builtin
from engine.seat import creep, iso286, limits, recommend, rotation
from engine.seat.material import ALUMINIUM, DUCTILE_IRON, GREY_IRON, STEEL, Material
from engine.seat.seating import (
    GREATEST,
    LEAST,
    MEAN,
    PROBABLE_GREATEST,
    PROBABLE_LEAST,
    Rings,
    Running,
    Seat,
    Surroundings,
    holding,
    in_operation,
    seat_of,
)
from engine.steel.verdict import Asked, demands
from tests.engine.seat import elastic

N = np.array([0.0, 900.0, 3000.0])
RUNNING = Running(N, "cone", N * 0 + 60, N * 0 + 66, N * 0 + 60, N * 0 + 50)


def rings_of(rows):
    return Rings.of(rows.system, rows.tolerance, {name: getattr(rows, name) for name in ("d", "D", "B", "C", "F", "E")})


@pytest.fixture(scope="module")
def rings():
    rows = builtin()
    return rings_of(rows.take(np.arange(0, len(rows), 37)))


def seats(rings, shaft="m6", housing="N7", around=None, running=RUNNING):
    on = limits.shaft_limits(rings.d, iso286.shaft_code(shaft), rings.limits)
    into = limits.housing_limits(rings.D, iso286.hole_code(housing), rings.limits)
    return seat_of(rings, on, into, around or Surroundings(), running)


def floats_of(seat):
    return {one.name: getattr(seat, one.name) for one in fields(Seat) if one.name != "limits"}


@pytest.mark.filterwarnings("error")
def test_shapes_and_order_of_the_ends(rings):
    n = len(rings.d)
    for seat in vars(seats(rings)).values():
        assert seat.cold.shape == seat.mounted.shape == seat.raceway_mounted.shape == (n, 5)
        assert seat.effective.shape == seat.pressure.shape == seat.hoop_seat.shape == seat.raceway.shape == (n, 3, 5)
        assert seat.torque.shape == (n, 3)
        assert seat.heating.shape == seat.force_on.shape == seat.hoop_greatest.shape == (n,)
        for ends in (seat.cold, seat.effective, seat.pressure):
            assert not np.isnan(ends).any()
            assert np.all(np.diff(ends, axis=-1) >= -1e-12)
    # the named places are those of the order: worst, probable, mean, probable, worst
    cold = seats(rings).cone.cold
    assert np.allclose(cold[:, LEAST] + cold[:, GREATEST], 2 * cold[:, MEAN])
    assert np.allclose(cold[:, PROBABLE_LEAST] + cold[:, PROBABLE_GREATEST], 2 * cold[:, MEAN])


def test_a_row_alone_is_the_row_among_many_to_the_last_bit(rings):
    around = Surroundings(shaft_bore=5.0, housing=ALUMINIUM, housing_wall=12.0)
    at_once = seats(rings, around=around)
    for row in (0, 7, 41):
        alone = seats(rings.take([row]), around=around)
        for name, seat in vars(alone).items():
            for what, value in floats_of(seat).items():
                assert np.array_equal(value[0], floats_of(getattr(at_once, name))[what][row], equal_nan=True), what


def test_one_cone_by_finite_elements():
    """60 x 110 mm, m6, hollow steel shaft, 3000 rpm, 6 K hotter than its shaft: stresses at the tight end to 0.1 %.

    The interference is worked by hand: 45 um by the limits (m6 +30/+11 on 0/-15), less 0.8 (2.5 + 1.6) um of smoothing,
    less 60 mm 12e-6 6 K; the growth by turning is left to the finite elements.
    """
    one = Rings.of(["metric"], ["Normal"], {"d": [60], "D": [110], "B": [23], "C": [19], "F": [76], "E": [98]})
    cone = seats(one, around=Surroundings(shaft_bore=20.0)).cone
    standing = 0.045 - 0.8 * 0.0041 - 60 * 12e-6 * 6
    solved = elastic.Rings([20, 60, 76], [standing], [STEEL, STEEL], n=3000)
    radial, tangential = solved.stress(1)
    assert float(cone.pressure[0, 2, GREATEST]) == pytest.approx(-radial[0], rel=1e-3)
    assert float(cone.hoop_seat[0, 2, GREATEST]) == pytest.approx(tangential[0], rel=1e-3)
    assert float(cone.hoop_raceway[0, 2, GREATEST]) == pytest.approx(tangential[-1], rel=1e-3)
    # the raceway grows by the fit and by turning; what is handed on is the part of the fit
    by_turning = rotation.growth_at_outside(60, 76, 3000, STEEL)
    assert float(cone.raceway[0, 2, GREATEST] + by_turning) == pytest.approx(solved.change(1, -1), rel=1e-3)


def test_one_cup_by_finite_elements():
    """N7 in ductile iron of 15 mm wall, cup 10 K hotter than the housing: both materials expand by their own share."""
    one = Rings.of(["metric"], ["Normal"], {"d": [60], "D": [110], "B": [23], "C": [19], "F": [76], "E": [98]})
    cup = seats(one, around=Surroundings(housing=DUCTILE_IRON, housing_wall=15.0)).cup
    # N7 at 110 mm -10/-45, cup 0/-18: 45 um; less 0.8 (6.3 + 1.6) um, cup at 60, housing at 50 deg C
    delta = 0.045 - 0.8 * 0.0079 + 110 * (12e-6 * 40 - 12.5e-6 * 30)
    solved = elastic.Rings([98, 110, 140], [delta], [STEEL, DUCTILE_IRON])
    radial, tangential = solved.stress(0)
    assert float(cup.pressure[0, 1, GREATEST]) == pytest.approx(-radial[-1], rel=1e-3)
    assert float(cup.hoop_raceway[0, 1, GREATEST]) == pytest.approx(tangential[0], rel=1e-3)
    assert float(cup.hoop_seat[0, 1, GREATEST]) == pytest.approx(tangential[-1], rel=1e-3)
    assert float(cup.raceway[0, 1, GREATEST]) == pytest.approx(solved.change(0, 0), rel=1e-3)


LADDER = [f"{letter}6" for letter in recommend.SHAFT_LETTERS]


@settings(max_examples=60, deadline=None)
@given(
    row=st.integers(0, 90), at=st.integers(0, len(LADDER) - 2), load=st.floats(0, 2e5), hollow=st.floats(0, 0.8),
    hotter=st.floats(-10, 40), speed=st.floats(0, 6000),
)  # fmt: skip
def test_tighter_never_lowers_hoop_stress_nor_creep_margin(rings, row, at, load, hollow, hotter, speed):
    one = rings.take([row])
    n = np.array([speed])
    running = Running(n, "cone", n * 0 + 50, n * 0 + 50 + hotter, n * 0 + 50, n * 0 + 45)
    around = Surroundings(shaft_bore=hollow * float(one.d[0]))
    loose, tight = (seats(one, name, around=around, running=running).cone for name in LADDER[at : at + 2])
    assert np.all(tight.hoop_seat >= loose.hoop_seat) and np.all(tight.hoop_greatest >= loose.hoop_greatest)
    assert np.all(tight.hoop_seat_mounted >= loose.hoop_seat_mounted)
    margins = [holding(seat, one.d, one.B, np.array([[load]]), "circumferential", n).margin for seat in (loose, tight)]
    assert np.all(margins[1] >= margins[0])
    assert np.all(tight.torque >= loose.torque) and np.all(tight.raceway >= loose.raceway)


def test_a_tighter_housing_never_lowers_the_pressure_on_the_cup(rings):
    ladder = [seats(rings, housing=f"{letter}7").cup for letter in ("G", "H", "K", "M", "N", "P")]
    for loose, tight in itertools.pairwise(ladder):
        assert np.all(tight.pressure >= loose.pressure) and np.all(tight.raceway <= loose.raceway)


def test_another_steel_changes_the_limits_and_not_the_stresses(rings):
    """Both heat treatments have the elastic constants of steel; only what a ring may bear differs."""
    through = seats(replace(rings, material=STEEL))
    case = seats(replace(rings, material=Material("case-hardened steel", *(STEEL.E, STEEL.nu, STEEL.alpha, STEEL.rho))))
    for what, value in floats_of(through.cone).items():
        assert np.array_equal(value, floats_of(case.cone)[what])
    grades = steels.builtin()
    wall = (rings.F - rings.d) / 2
    spare = through.cone.effective_least[:, MEAN]
    asked = Asked(through.cone.hoop_greatest, spare, rings.d, wall, "none", None, "none", 80, 70, 20_000)
    demand, capacity = demands(asked, grades)
    first = {name: grades.of_treatment(name)[0] for name in ("through", "case")}
    stress = 0
    assert np.array_equal(demand[:, first["through"], stress], demand[:, first["case"], stress])
    assert np.all(capacity[:, first["through"], stress] < capacity[:, first["case"], stress])


def test_an_aluminium_housing_lets_the_cup_go_as_it_warms(rings):
    iron, light = (seats(rings, around=Surroundings(housing=metal)).cup for metal in (GREY_IRON, ALUMINIUM))
    assert np.all(light.effective < iron.effective)
    assert np.array_equal(light.mounted, iron.mounted)


def test_a_hollow_shaft_gives_way(rings):
    solid, hollow = (seats(rings, around=Surroundings(shaft_bore=bore)).cone for bore in (0.0, 10.0))
    assert np.all(hollow.hoop_seat_mounted <= solid.hoop_seat_mounted)
    # a bore that no shaft could have leaves nothing known
    assert np.isnan(seats(rings, around=Surroundings(shaft_bore=1000.0)).cone.hoop_greatest).all()


@pytest.mark.filterwarnings("error")
def test_what_is_not_known_stays_so(rings):
    some = rings.take([0, 1, 2])
    some = replace(some, F=np.array([np.nan, some.F[1], some.d[2] - 1]))
    assert np.isnan(seats(some).cone.hoop_greatest).tolist() == [True, False, True]
    assert not np.isnan(seats(some).cup.hoop_seat).any()


def test_only_a_ring_that_the_load_goes_round_needs_interference(rings):
    cone = seats(rings).cone
    Fr = np.full((len(rings.d), 3), 5000.0)
    point = holding(cone, rings.d, rings.B, Fr, recommend.POINT, N)
    assert np.all(point.needed == 0) and np.all(np.isposinf(point.margin))
    round_it = holding(cone, rings.d, rings.B, Fr, recommend.CIRCUMFERENTIAL, N)
    assert np.all(round_it.needed[:, 0] == 0)  # that case stands still
    assert np.array_equal(round_it.needed[:, 1], creep.interference_against_creep(5000.0, rings.d, rings.B))
    assert round_it.margin.shape == (len(rings.d), 3, 5)


def test_the_interference_in_operation_alone_is_that_of_the_seats(rings):
    on = limits.shaft_limits(rings.d, iso286.shaft_code("m6"), rings.limits)
    into = limits.housing_limits(rings.D, iso286.hole_code("N7"), rings.limits)
    found = in_operation(rings, (on, into), Surroundings(), RUNNING, (LEAST, MEAN))
    for alone, seat in zip(found, vars(seats(rings)).values(), strict=True):
        assert np.array_equal(alone, seat.effective[..., [LEAST, MEAN]])


def test_each_ring_may_have_a_shaft_bore_of_its_own(rings):
    bores = rings.d * np.linspace(0, 0.8, len(rings.d))
    many = seats(rings, around=Surroundings(shaft_bore=bores)).cone
    for at in (0, 20, len(bores) - 1):
        one = seats(rings.take([at]), around=Surroundings(shaft_bore=float(bores[at]))).cone
        assert one.hoop_greatest[0] == many.hoop_greatest[at]
