"""Seats as thick cylinders, against a printed example and against finite elements to 0.1 %."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.seat import interference, pressure, rotation
from engine.seat.material import ALUMINIUM, GREY_IRON, STEEL, Material
from tests.engine.seat.elastic import Rings
from tests.printed import printed

POUNDS = 0.45359237 * 9.80665 / 25.4**2  # psi in MPa
WITHIN = 1e-3


def test_built_up_cylinder_of_a_textbook():
    """Timoshenko, Strength of Materials, Part II, stresses produced by shrink fit, the numerical example; recalled.

    Radii 4, 6 and 8 in, E = 30e6 psi, shrinkage allowance 0.005 in on the radius: p = 4,050 psi; the tangential stress
    at the inner surface of the outer cylinder is 14,500 psi, at the inner surface of the inner one -14,600 psi.
    """
    steel = Material("steel", 30e6 * POUNDS, 0.3, 0.0, 0.0)
    inch = 25.4
    p = pressure.joint_pressure(2 * 0.005 * inch, 8 * inch, 12 * inch, 16 * inch, steel, steel)
    assert float(p) / POUNDS == printed("4.05e3")
    assert float(pressure.hoop_at_bore(p, 12, 16)) / POUNDS == printed("1.45e4")
    assert float(pressure.hoop_under_squeeze_at_bore(p, 8, 12)) / POUNDS == printed("-1.46e4")


# bore of the shaft, bore, raceway [mm], interference [mm], shaft
SHAFTS = [
    (0, 50, 60, 0.030, STEEL), (25, 50, 60, 0.030, STEEL), (60, 180, 210, 0.080, STEEL), (0, 15, 20, 0.012, STEEL),
    (90, 120, 145, 0.050, GREY_IRON),
]  # fmt: skip
# raceway, outside diameter, outside of the housing [mm], interference [mm], housing
HOUSINGS = [(80, 90, 150, 0.020, GREY_IRON), (80, 90, 110, 0.045, ALUMINIUM), (300, 340, 420, 0.060, STEEL)]


@pytest.mark.parametrize(("d_i", "d_j", "d_o", "delta", "shaft"), SHAFTS)
def test_cone_on_a_shaft_by_finite_elements(d_i, d_j, d_o, delta, shaft):
    solved = Rings([d_i, d_j, d_o], [delta], [shaft, STEEL])
    radial, tangential = solved.stress(1)
    p = pressure.joint_pressure(delta, d_i, d_j, d_o, shaft, STEEL)
    assert float(p) == pytest.approx(-radial[0], rel=WITHIN)
    assert float(pressure.hoop_at_bore(p, d_j, d_o)) == pytest.approx(tangential[0], rel=WITHIN)
    assert float(pressure.hoop_at_outside(p, d_j, d_o)) == pytest.approx(tangential[-1], rel=WITHIN)
    assert float(pressure.raceway_growth(p, d_j, d_o, STEEL)) == pytest.approx(solved.change(1, -1), rel=WITHIN)
    at_shaft = solved.stress(0)[1]
    assert float(pressure.hoop_under_squeeze_at_outside(p, d_i, d_j)) == pytest.approx(at_shaft[-1], rel=WITHIN)


@pytest.mark.parametrize(("d_i", "d_j", "d_o", "delta", "housing"), HOUSINGS)
def test_cup_in_a_housing_by_finite_elements(d_i, d_j, d_o, delta, housing):
    solved = Rings([d_i, d_j, d_o], [delta], [STEEL, housing])
    radial, tangential = solved.stress(0)
    p = pressure.joint_pressure(delta, d_i, d_j, d_o, STEEL, housing)
    assert float(p) == pytest.approx(-radial[-1], rel=WITHIN)
    assert float(pressure.hoop_under_squeeze_at_bore(p, d_i, d_j)) == pytest.approx(tangential[0], rel=WITHIN)
    assert float(pressure.hoop_under_squeeze_at_outside(p, d_i, d_j)) == pytest.approx(tangential[-1], rel=WITHIN)
    assert float(pressure.raceway_shrinkage(p, d_i, d_j, STEEL)) == pytest.approx(-solved.change(0, 0), rel=WITHIN)


@pytest.mark.parametrize("delta", [(0.02, 0.03), (0.05, 0.01), (0.0, 0.03)])
def test_sleeve_between_shaft_and_cone_by_finite_elements(delta):
    d, layers = (30, 60, 70, 84), (STEEL, ALUMINIUM, STEEL)
    solved = Rings(d, delta, layers)
    found = pressure.layered_pressures(d, delta, layers)
    for joint in (0, 1):
        assert float(found[joint]) == pytest.approx(-solved.stress(joint + 1)[0][0], rel=WITHIN)


def test_a_joint_that_would_pull_is_open():
    d, layers = np.array([30.0, 60, 70, 84]), (STEEL, STEEL, STEEL)
    # the outer fit squeezes the sleeve; a clearance inside it that stays open leaves the outer one as if alone
    p = pressure.layered_pressures(d, [-0.5, 0.03], layers)
    assert p[0] == 0
    assert float(p[1]) == pytest.approx(float(pressure.joint_pressure(0.03, 60, 70, 84, STEEL, STEEL)))
    # and a small one is closed by it
    assert pressure.layered_pressures(d, [-0.005, 0.05], layers)[0] > 0


def test_layers_one_row_alone_and_among_many():
    draw = np.random.default_rng(3)
    d = np.cumsum(draw.uniform(5, 40, (20, 4)), axis=-1)
    delta = draw.uniform(-0.03, 0.06, (20, 2))
    d[4] = d[4, ::-1]  # not rising
    layers = (STEEL, ALUMINIUM, STEEL)
    at_once = pressure.layered_pressures(d, delta, layers)
    alone = np.stack([pressure.layered_pressures(*row, layers) for row in zip(d, delta, strict=True)])
    assert np.array_equal(at_once, alone, equal_nan=True)
    assert np.isnan(at_once[4]).all() and (np.delete(at_once, 4, axis=0) >= 0).all()
    two = pressure.layered_pressures(d[:, :3], delta[:, :1], layers[:2])[:, 0]
    plain = pressure.joint_pressure(delta[:, 0], *d[:, :3].T, *layers[:2])
    assert np.allclose(two, plain, rtol=1e-12, equal_nan=True)


@pytest.mark.parametrize("n", [1500, 9000])
def test_turning_ring_by_finite_elements(n):
    solved = Rings([80, 100], [], [STEEL], n)
    _, tangential = solved.stress(0)
    assert float(rotation.hoop_of_turning_at_bore(80, 100, n, STEEL)) == pytest.approx(tangential[0], rel=WITHIN)
    assert float(rotation.hoop_of_turning_at_outside(80, 100, n, STEEL)) == pytest.approx(tangential[-1], rel=WITHIN)
    assert float(rotation.growth_at_bore(80, 100, n, STEEL)) == pytest.approx(solved.change(0, 0), rel=WITHIN)
    assert float(rotation.growth_at_outside(80, 100, n, STEEL)) == pytest.approx(solved.change(0, -1), rel=WITHIN)


@pytest.mark.parametrize(("d_i", "material"), [(0, STEEL), (40, STEEL), (40, ALUMINIUM)])
def test_seat_that_turns_by_finite_elements(d_i, material):
    """Fit and rotation together: the pressure that is left, and the stress at the bore of the cone."""
    n, delta = 12_000, 0.05
    solved = Rings([d_i, 80, 96], [delta], [material, STEEL], n)
    left = delta - interference.centrifugal_loss(d_i, 80, 96, n, material, STEEL)
    p = pressure.joint_pressure(left, d_i, 80, 96, material, STEEL)
    assert 0.3 * delta < left < 0.99 * delta
    radial, tangential = solved.stress(1)
    assert float(p) == pytest.approx(-radial[0], rel=WITHIN)
    hoop = pressure.hoop_at_bore(p, 80, 96) + rotation.hoop_of_turning_at_bore(80, 96, n, STEEL)
    assert float(hoop) == pytest.approx(tangential[0], rel=WITHIN)


SIZES = st.tuples(st.floats(10, 400), st.floats(1.05, 1.6), st.floats(0, 0.9))


@settings(max_examples=100)
@given(sizes=SIZES, delta=st.floats(-0.05, 0.2), more=st.floats(0, 0.1))
def test_tighter_never_lowers_pressure_or_stress(sizes, delta, more):
    d_j, ratio, hollow = sizes
    loose, tight = (
        pressure.joint_pressure(x, hollow * d_j, d_j, ratio * d_j, STEEL, STEEL) for x in (delta, delta + more)
    )
    assert 0 <= loose <= tight
    assert pressure.hoop_at_bore(loose, d_j, ratio * d_j) <= pressure.hoop_at_bore(tight, d_j, ratio * d_j)


@settings(max_examples=100)
@given(sizes=SIZES, delta=st.floats(0.001, 0.2))
def test_a_solid_shaft_hands_the_interference_on_in_the_ratio_of_the_diameters(sizes, delta):
    """Reciprocity: with one material the raceway grows by delta d/d_raceway, whatever the thickness."""
    d_j, ratio, _ = sizes
    p = pressure.joint_pressure(delta, 0, d_j, ratio * d_j, STEEL, STEEL)
    assert float(pressure.raceway_growth(p, d_j, ratio * d_j, STEEL)) == pytest.approx(delta / ratio, rel=1e-9)


@pytest.mark.filterwarnings("error")
def test_outside_its_range_there_is_no_value():
    for d_i, d_j, d_o in ((60, 50, 80), (-1, 50, 80), (0, 80, 50), (0, 50, 50), (50, 50, 60), (0, np.nan, 60)):
        assert np.isnan(pressure.joint_pressure(0.02, d_i, d_j, d_o, STEEL, STEEL))
    assert np.isnan(pressure.joint_pressure(np.nan, 0, 50, 60, STEEL, STEEL))
    assert pressure.joint_pressure(-0.02, 0, 50, 60, STEEL, STEEL) == 0
    assert np.isnan(rotation.growth_at_bore(0, 50, 1000, STEEL))


@pytest.mark.parametrize("degrees", [10.0, 17.25, 28.0, 45.0])
def test_end_play_that_a_larger_raceway_closes(degrees):
    """Two straight lines of a drawing: the raceway of the cone moved out by u/2 meets the roller s farther along.

    The cup's line r = z tan(alpha) is met by a roller set that grows by u in diameter where z is larger by s.
    """
    alpha, u = np.radians(degrees), 0.030
    slope = np.tan(alpha)
    crossing = np.linalg.solve([[1.0, -slope], [1.0, 0.0]], [0.0, 50.0 + u / 2])[1]
    s = crossing - 50.0 / slope
    assert float(pressure.end_play_closed(u, alpha)) == pytest.approx(s, rel=1e-9)
    assert np.isnan(pressure.end_play_closed(u, 0.0))
