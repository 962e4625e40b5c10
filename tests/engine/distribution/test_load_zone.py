"""One bearing under a displacement: load-zone integrals, published single cases, and the tangent stiffness."""

import numpy as np
import pytest
from scipy import integrate

from engine.distribution.balance import balanced
from engine.distribution.contact import cL
from engine.distribution.load_zone import load_zone
from engine.distribution.springs import Springs
from tests.engine.distribution.bearings import rollers
from tests.printed import printed

#: Load-zone integrals for line contact, as handbooks of rolling bearing analysis tabulate them (recalled):
#: extent parameter, Fr tan(alpha)/Fa, J_r, J_a. They were made with the exponent 1.1; the standard's line has 10/9.
ZONE_TABLE = [
    (0.1, 0.9613, 0.1268, 0.1319),
    (0.2, 0.9215, 0.1737, 0.1885),
    (0.3, 0.8805, 0.2055, 0.2334),
    (0.4, 0.8380, 0.2286, 0.2728),
    (0.5, 0.7939, 0.2453, 0.3090),
    (0.6, 0.7480, 0.2568, 0.3433),
    (0.7, 0.6999, 0.2636, 0.3766),
    (0.8, 0.6486, 0.2658, 0.4098),
    (0.9, 0.5920, 0.2628, 0.4439),
    (1.0, 0.5238, 0.2523, 0.4817),
    (1.25, 0.3598, 0.2078, 0.5775),
    (5 / 3, 0.2340, 0.1589, 0.6790),
    (2.5, 0.1372, 0.1075, 0.7837),
    (5.0, 0.0611, 0.0544, 0.8909),
]
EACH_ROW = pytest.mark.parametrize("row", ZONE_TABLE, ids=[f"epsilon {row[0]:.2f}" for row in ZONE_TABLE])


def integrals(epsilon, exponent=10 / 9):
    """Return J_r and J_a by quadrature of [1 - (1 - cos(phi))/(2 epsilon)]^exponent."""
    edge = np.arccos(np.clip(1 - 2 * epsilon, -1, 1))

    def load(phi):
        return max(1 - (1 - np.cos(phi)) / (2 * epsilon), 0.0) ** exponent

    J_r = integrate.quad(lambda phi: load(phi) * np.cos(phi), 0, edge)[0] / np.pi
    J_a = integrate.quad(load, 0, edge)[0] / np.pi
    return J_r, J_a


def zone_at(epsilon, count=360):
    one = rollers(Z=count, profile="plain")
    u_r = 0.02 / np.cos(one.alpha) / (1 + (2 * epsilon - 1))
    u_a = (2 * epsilon - 1) * u_r * np.cos(one.alpha) / np.sin(one.alpha)
    return one, load_zone(one, [u_r, 0.0, u_a, 0.0, 0.0])


@EACH_ROW
def test_load_zone_integrals_as_tabulated(row):
    epsilon, ratio, J_r, J_a = row
    one, zone = zone_at(epsilon)
    most = one.Z * zone.Q.max()
    assert zone.Fr / (most * np.cos(one.alpha)) == pytest.approx(J_r, rel=0.01)
    assert zone.Fa / (most * np.sin(one.alpha)) == pytest.approx(J_a, rel=0.01)
    assert zone.Fr * np.tan(one.alpha) / zone.Fa == pytest.approx(ratio, rel=0.01)


@EACH_ROW
def test_the_table_agrees_with_quadrature(row):
    epsilon, ratio, J_r, J_a = row
    found = integrals(epsilon, 1.1)
    assert found == pytest.approx((J_r, J_a), abs=2e-4)
    # the printed ratio is the quotient of the two rounded integrals
    assert found[0] / found[1] == pytest.approx(ratio, abs=4e-4)


@EACH_ROW
def test_load_zone_by_quadrature(row):
    epsilon = row[0]
    one, zone = zone_at(epsilon)
    most = one.Z * zone.Q.max()
    found = zone.Fr / (most * np.cos(one.alpha)), zone.Fa / (most * np.sin(one.alpha))
    # 360 rollers stand for the integral over the circle
    assert found == pytest.approx(integrals(epsilon), rel=2e-4)
    extent = 2 * np.arccos(max(1 - 2 * epsilon, -1.0))
    assert zone.extent == pytest.approx(extent, abs=2 * np.radians(1))


def radial_bearing(places, lengthwise, laminae):
    """Return a cylindrical roller bearing without profile over one radial coordinate."""
    xi = np.linspace(-1, 1, laminae)
    count = len(places)
    return Springs(
        G_a=np.cos(places)[None],
        G_b=np.zeros((1, count)),
        c=np.full(count, float(cL(lengthwise)) / laminae),
        crown=np.zeros(count),
        S=np.zeros((1, 1)),
        xi=xi,
        shape=np.zeros(laminae),
    )


def test_published_case_13_places_31_slices():
    """PyPI `tribology` 0.5.16, unit test: 3000 N, 10 mm long, diametral clearance 0.0184 mm; largest roller 967.7 N."""
    springs = radial_bearing(np.linspace(0, 2 * np.pi, 13), 10.0, 31)
    gap = np.full((1, 13), 0.0184 / 2)
    rest = balanced(springs, np.array([[3000.0]]), gap)
    answer = springs.evaluate(rest.q, gap)
    assert rest.q[0, 0] == printed("0.015324")
    assert answer.Q.max() == pytest.approx(967.7, abs=0.1)


def test_two_of_six_rollers_carry_the_load():
    """Closed form: at +-30 degrees each carries Fr/(2 cos 30) = 577.35 N; the ring moves by 3.474 um."""
    springs = radial_bearing(np.radians(30 + 60 * np.arange(6)), 13.6, 30)
    rest = balanced(springs, np.array([[1000.0]]), np.zeros((1, 6)))
    Q = springs.evaluate(rest.q, np.zeros((1, 6))).Q[0]
    assert Q[[0, 5]] == printed("577.35")
    assert np.all(np.abs(Q[1:5]) < 1e-9)
    assert rest.q[0, 0] * 1000 == printed("3.474")


def test_17_rollers_over_half_the_circle():
    # handbooks: Qmax = 4.08 Fr/(Z cos(alpha)) for line contact
    one = rollers()
    zone = load_zone(one, [0.01, 0.0, 0.0, 0.0, 0.0])
    assert zone.Q.max() * one.Z * np.cos(one.alpha) / zone.Fr == pytest.approx(4.08, rel=0.005)


@pytest.mark.parametrize("profile", ["plain", "log"])
@pytest.mark.parametrize("sense", [1.0, -1.0])
def test_stiffness_is_the_derivative_of_the_force(profile, sense):
    one = rollers(profile=profile)
    draw = np.random.default_rng(3)
    for _ in range(20):
        u = draw.normal(size=5) * np.array([0.02, 0.02, 0.05, 5e-4, 5e-4]) + [0, 0, 0.05 * sense, 0, 0]
        zone = load_zone(one, u, 0.01, sense)
        steps = np.diag([1e-7, 1e-7, 1e-7, 1e-9, 1e-9])
        both = [load_zone(one, u + sign * steps, 0.01, sense).force for sign in (1, -1)]
        numeric = ((both[0] - both[1]) / (2 * np.diag(steps)[:, None])).T
        size = np.sqrt(np.outer(np.diag(zone.stiffness), np.diag(zone.stiffness)))
        assert np.all(np.abs(numeric - zone.stiffness) <= 2e-5 * size + 1e-9)
        assert np.allclose(zone.stiffness, zone.stiffness.T)
        values = np.linalg.eigvalsh(zone.stiffness)
        assert values.min() >= -1e-12 * max(values.max(), 1.0)


def test_turned_by_one_roller_everything_turns_along():
    one = rollers(profile="log")
    u = np.array([0.02, 0.005, 0.03, 4e-4, -2e-4])
    step = 2 * np.pi / one.Z
    turn = np.array([[np.cos(step), -np.sin(step)], [np.sin(step), np.cos(step)]])
    turned = np.concatenate([turn @ u[:2], u[2:3], turn @ u[3:]])
    here, there = load_zone(one, u), load_zone(one, turned)
    assert pytest.approx(np.roll(here.Q, 1)) == there.Q
    assert there.Fr == pytest.approx(here.Fr)
    assert there.stiffness[2, 2] == pytest.approx(here.stiffness[2, 2])


def test_forces_are_the_sums_of_the_lamina_loads():
    one = rollers(profile="log")
    zone = load_zone(one, np.array([[0.02, 0.0, 0.03, 4e-4, 0.0], [0.0, 0.01, 0.1, 0.0, 1e-3]]), [0.0, -0.02])
    phi = 2 * np.pi * np.arange(17) / 17
    assert zone.force[:, 0] == pytest.approx(np.sum(zone.Q * np.cos(phi), axis=-1) * np.cos(one.alpha))
    assert zone.force[:, 2] == pytest.approx(np.sum(zone.Q, axis=-1) * np.sin(one.alpha))
    assert zone.rib == pytest.approx(zone.Q * np.sin(2 * one.nu))


def test_a_tilt_loads_the_ends_and_the_log_profile_relieves_them():
    tilt = [0.02, 0.0, 0.03, 1.5e-3, 0.0]
    plain, log = (load_zone(rollers(profile=profile), tilt) for profile in ("plain", "log"))
    assert plain.p_edge > 1.5 * plain.p_max / np.sqrt(2.33)
    assert log.p_edge < plain.p_edge


def test_one_displacement_alone_and_in_a_batch():
    one = rollers(profile="log")
    u = np.random.default_rng(5).normal(size=(7, 3, 5)) * [0.02, 0.02, 0.05, 5e-4, 5e-4]
    many = load_zone(one, u, 0.01)
    alone = load_zone(one, u[4, 2], 0.01)
    assert many.force.shape == (7, 3, 5) and many.q.shape == (7, 3, 17, 30)
    assert many.force[4, 2] == pytest.approx(alone.force, rel=1e-12)
    assert many.stiffness[4, 2] == pytest.approx(alone.stiffness, rel=1e-12)
