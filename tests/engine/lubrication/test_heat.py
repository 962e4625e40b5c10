"""Heat balance, against a balance of its own solved by scipy, and in what it must always do."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from engine.lubrication import heat
from engine.lubrication.cooling import Cooling
from engine.lubrication.heat import NO_COOLING, SETTLED, TOO_HOT, UNKNOWN, losses, oil_flow_needed, settle
from engine.lubrication.viscosity_index import nu100_of_index
from tests.strategies import numbers


def reference(f0, dm, P1, n, nu40, nu100, area, flow):
    """Settle a balance in plain Python with scipy: D341 forwards, so that the printed inverse is checked too."""

    def ordinate(nu):
        return math.log10(math.log10(nu + 0.7 + math.exp(-1.47 - 1.84 * nu - 0.51 * nu**2)))

    def viscosity(T):
        along = math.log((T + 273.15) / 313.15) / math.log(373.15 / 313.15)
        wanted = ordinate(nu40) + along * (ordinate(nu100) - ordinate(nu40))
        return brentq(lambda nu: ordinate(nu) - wanted, 0.2, 1e9, xtol=1e-13)

    def excess(T):
        M = f0 * 1e-7 * max((viscosity(T) * n) ** (2 / 3), 160) * dm**3 + 0.0004 * P1 * dm
        free = 1.42 * (abs(T - 20) / (math.sqrt(area / 6) / 1000)) ** 0.25 * area * 1e-6
        shed = free * (T - 20) + 0.9 * 5.670374e-14 * area * ((T + 273.15) ** 4 - 293.15**4)
        return shed + 28.6 * flow * (T - 35) - M * math.pi * n / 30e3

    return brentq(excess, 20, 250, xtol=1e-10), viscosity


BEARINGS = [
    # f0, dm, P1, n, VG, VI, area, flow
    (3.0, 46.0, 2000.0, 1500.0, 150, 95, 6e4, 0.0),
    (4.5, 70.0, 5000.0, 1500.0, 220, 95, 1.5e5, 0.0),
    (4.5, 140.0, 20e3, 1000.0, 320, 150, 4e5, 1.0),
    (6.75, 140.0, 20e3, 3000.0, 46, 100, 4e5, 8.0),
    (3.0, 300.0, 1e5, 60.0, 460, 95, 2e6, 0.0),
    (3.0, 60.0, 1e3, 5.0, 460, 95, 1e5, 0.0),
]


@pytest.mark.parametrize("bearing", BEARINGS)
def test_against_scipy(bearing):
    f0, dm, P1, n, VG, VI, area, flow = bearing
    nu100 = float(nu100_of_index(VG, VI))
    T, viscosity = reference(f0, dm, P1, n, VG, nu100, area, flow)
    found = settle(losses(f0, dm, P1, n), Cooling(20.0, area=area, oil_flow=flow, oil_inlet=35.0), VG, nu100)
    assert found.status == SETTLED
    assert float(found.T) == pytest.approx(T, abs=0.02)  # the printed inverse of D341 is good to 0.03 %
    assert found.nu == pytest.approx(viscosity(float(found.T)), rel=5e-4)
    assert abs(found.residual) <= 1e-6 * found.heat
    assert 1 <= found.steps <= 15


balances = st.tuples(
    numbers(1.0, 9.0), numbers(10.0, 800.0), numbers(0.0, 1e6), numbers(0.0, 2e4), numbers(0.0, 1e6), numbers(0.0, 30.0)
)


@given(balances, st.sampled_from([10, 46, 150, 680, 3200]), numbers(-40.0, 60.0))
def test_it_always_ends_and_says_how(balance, VG, ambient):
    f0, dm, P1, n, area, flow = balance
    made = losses(f0, dm, P1, n)
    cooling = Cooling(ambient, area=area, oil_flow=flow, oil_inlet=40.0)
    found = settle(made, cooling, VG, nu100_of_index(VG, 95))
    if found.status == SETTLED:
        assert min(ambient, 40.0 if flow else ambient) <= found.T <= heat.T_TOP
        if not np.isnan(found.residual):
            assert abs(found.residual) <= 1e-6 * max(float(found.heat), 1.0)
        assert found.steps <= heat._STEPS
    else:
        # more heat than cooling even at the top, with the thinnest oil that the balance knows there
        assert found.status in (TOO_HOT, NO_COOLING)
        assert np.isnan(found.T) and np.isnan(found.nu)
        assert made.load + made.other + made.oil * 160 > 0
        assert (found.status == NO_COOLING) == (cooling.at(heat.T_TOP) <= 0)


def test_no_stable_temperature():
    made = losses(4.5, 70.0, 5000.0, 3000.0)
    found = settle(made, Cooling([20.0, 20.0, 20.0, np.nan], area=[0.0, 1e3, 1e5, 1e5]), 150.0, 14.5)
    assert found.status.tolist() == [NO_COOLING, TOO_HOT, SETTLED, UNKNOWN]
    assert np.isnan(found.T).tolist() == [True, True, False, True]
    assert len(heat.SAID) == 4
    # the limit of what is looked at is the caller's
    assert settle(made, Cooling(20.0, area=1e5), 150.0, 14.5, T_top=40.0).status == TOO_HOT
    assert settle(made, Cooling(20.0, area=1e5), 10.0, 14.5).status == UNKNOWN  # an oil that thickens as it warms


def test_a_bearing_at_rest_is_as_warm_as_its_surroundings():
    for cooling in (Cooling(20.0), Cooling(20.0, area=1e5)):
        assert settle(losses(4.5, 70.0, 5000.0, 0.0), cooling, 150.0, 14.5).T == 20


def test_in_one_housing_both_heats_count():
    one, other = losses(4.5, 70.0, 5000.0, 1500.0), losses(3.0, 60.0, 2000.0, 1500.0)
    cooling = Cooling(20.0, area=1e5)
    together = settle(one + other, cooling, 150.0, 14.5)
    assert together.T > settle(one, cooling, 150.0, 14.5).T
    assert together.heat == pytest.approx(float(one.at(together.nu) + other.at(together.nu)))
    # two of the same in one housing settle where one does in half of it, but for the shape of the housing
    alone = settle(one, Cooling(20.0, conductance=2.0), 150.0, 14.5)
    twice = settle(one + one, Cooling(20.0, conductance=4.0), 150.0, 14.5)
    assert float(twice.T) == pytest.approx(float(alone.T))


@given(numbers(40.0, 200.0), numbers(100.0, 3e4), numbers(50.0, 4000.0), numbers(1.01, 3.0))
def test_what_makes_it_hotter(dm, P1, n, more):
    def T(made, cooling, nu40=150.0, nu100=14.5):
        found = settle(made, cooling, nu40, nu100)
        return np.inf if found.status in (TOO_HOT, NO_COOLING) else float(found.T)

    cooling = Cooling(20.0, area=2e5, oil_flow=0.2, oil_inlet=20.0)
    base, hair = T(losses(4.5, dm, P1, n), cooling), 1e-6
    assert T(losses(4.5, dm, P1 * more, n), cooling) >= base - hair
    assert T(losses(4.5, dm, P1, n * more), cooling) >= base - hair
    assert T(losses(4.5, dm, P1, n, 50.0), cooling) >= base - hair
    assert T(losses(4.5, dm, P1, n), cooling, 150.0 * more, 14.5 * more) >= base - hair
    assert T(losses(4.5, dm, P1, n), dataclasses.replace(cooling, area=2e5 * more)) <= base + hair
    assert T(losses(4.5, dm, P1, n), dataclasses.replace(cooling, oil_flow=0.2 * more)) <= base + hair
    assert T(losses(4.5, dm, P1, n), dataclasses.replace(cooling, air_speed=more)) <= base + hair


@given(numbers(60.0, 200.0), numbers(1000.0, 3e4), numbers(500.0, 4000.0), numbers(50.0, 90.0))
def test_the_flow_that_holds_a_temperature_does(dm, P1, n, T):
    made = losses(6.75, dm, P1, n)
    cooling = Cooling(20.0, area=1e5, oil_inlet=40.0)
    flow = oil_flow_needed(made, cooling, T, 68.0, 8.6)
    found = settle(made, dataclasses.replace(cooling, oil_flow=flow), 68.0, 8.6)
    if flow > 0:
        assert float(found.T) == pytest.approx(T, abs=1e-6)
    else:
        assert found.T <= T


def test_flow_needed_at_the_edges():
    made, cooling = losses(6.75, 100.0, 1e4, 2000.0), Cooling(20.0, oil_inlet=60.0)
    flow = oil_flow_needed(made, cooling, [50.0, 60.0, 70.0, np.nan], 68.0, 8.6)
    assert np.isinf(flow[:2]).all() and flow[2] > 0 and np.isnan(flow[3])
    assert oil_flow_needed(made, Cooling(20.0, conductance=1e4), 70.0, 68.0, 8.6) == 0


def test_one_alone_and_among_many():
    draw = np.random.default_rng(3)
    shape = (37, 5)
    figures = [draw.uniform(*limits, shape) for limits in ((1, 9), (10, 400), (0, 1e5), (0, 8000))]
    area, nu40 = draw.uniform(0, 5e5, shape), draw.uniform(20, 500, shape)
    whole = settle(losses(*figures), Cooling(20.0, area=area), nu40, nu40 / 8)
    for place in np.ndindex(shape):
        alone = settle(
            losses(*(figure[place].item() for figure in figures)),
            Cooling(20.0, area=area[place].item()), nu40[place].item(), nu40[place].item() / 8,
        )  # fmt: skip
        for name in ("T", "nu", "heat", "residual", "steps", "status"):
            assert np.array_equal(getattr(alone, name), getattr(whole, name)[place], equal_nan=True), name


def test_losses_outside():
    for wrong in ((0, 1, 1, 1), (1, 0, 1, 1), (1, 1, -1, 1), (1, 1, 1, -1), (1, 1, 1, 1, -1)):
        assert np.isnan(losses(*wrong).at(10.0))
