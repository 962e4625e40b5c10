"""The heat balance of pairs and cases, against the same balances solved one by one with scipy."""

import time

import numpy as np
import pytest
from scipy.optimize import brentq

from engine.lubrication import heat
from engine.lubrication.contact import rollers
from engine.lubrication.contact.film import ROUGHNESS_RACEWAY
from engine.lubrication.contact.state import OilAt, Sizes, film_of
from engine.lubrication.cooling import Cooling
from engine.lubrication.friction import flow_term
from engine.lubrication.viscosity import kinematic_viscosity_full
from engine.lubrication.viscosity_ratio import reference_viscosity_nu1, viscosity_ratio_kappa
from engine.operating import Bearings
from engine.warmth.settling import loaded
from tests.benchmarks.stopwatch import median, promised, told
from tests.duties import answered, conditions, small_catalogue

pytestmark = pytest.mark.benchmark

NU40, NU100 = 150.0, 14.54
#: Balances that scipy solves; its time is scaled up to the whole.
SAMPLE = 40


def bearings(pairs, cases, seed):
    """Draw bearings in a housing: sizes per pair, loads per pair and case, speeds per case."""
    draw = np.random.default_rng(seed)
    dm, f0 = draw.uniform(40, 200, (pairs, 1)), draw.choice([3.0, 4.5], (pairs, 1))
    n = np.random.default_rng(5).uniform(60, 4000, (1, cases))
    return dm, f0, draw.uniform(500, 2e4, (pairs, cases)), n


def coupled(pairs, cases):
    """Settle both bearings of each pair in one housing; then kappa and film at the temperature found."""
    sides = [bearings(pairs, cases, seed) for seed in (1, 2)]
    cooling = Cooling(20.0, area=3e5, oil_flow=0.5, oil_inlet=40.0)

    def work():
        made = [heat.losses(f0, dm, P1, n) for dm, f0, P1, n in sides]
        found = heat.settle(made[0] + made[1], cooling, NU40, NU100)
        for dm, _, P1, n in sides:
            kappa = viscosity_ratio_kappa(found.nu, reference_viscosity_nu1(n, dm))
            sizes = Sizes(np.array([[18.0]]), dm / 6, dm / 5, dm, np.array([[0.25]]))
            Q = rollers.roller_load_Q(P1, 0.3 * P1, sizes.alpha, sizes.Z)
            film_of(sizes, Q, n, OilAt(found.T, found.nu, 888.0, "mineral"), kappa, ROUGHNESS_RACEWAY)
        return found

    made = [heat.losses(f0, dm, P1, n) for dm, f0, P1, n in sides]
    return work, made[0] + made[1], cooling


def one_by_one(made, cooling, found):
    """Solve some of the balances with scipy's brentq; return the seconds for each, having compared them."""
    places = np.argwhere(found.status == heat.SETTLED)
    picked = places[np.random.default_rng(9).integers(0, len(places), SAMPLE)]
    start = time.perf_counter()
    for i, k in picked.tolist():
        n, oil, load = made.n[i, k], made.oil[i, k], made.load[i, k]

        def excess(T, n=n, oil=oil, load=load):
            nu = kinematic_viscosity_full(T, NU40, NU100)
            return float(cooling.at(T) - oil * flow_term(nu, n) - load)

        assert brentq(excess, 20.0, 240.0, xtol=1e-9) == pytest.approx(float(found.T[i, k]), abs=1e-6)
    return (time.perf_counter() - start) / SAMPLE


@pytest.mark.parametrize(
    ("pairs", "cases", "most"), [(1, 20, 0.020), (10_000, 20, 3.0)], ids=["one pair", "10,000 pairs"]
)
def test_coupled_solution(pairs, cases, most):
    """Floor: a scipy loop over the heat balance alone. The absolute limits are those that the project promises."""
    work, made, cooling = coupled(pairs, cases)
    times = []
    for _ in range(4):
        start = time.perf_counter()
        found = work()
        times.append(time.perf_counter() - start)
    took = median(times[1:])
    assert np.isin(found.status, (heat.SETTLED, heat.TOO_HOT)).all()
    floor = one_by_one(made, cooling, found) * pairs * cases
    told(f"heat, kappa and film of {pairs} pairs x {cases} cases", took, "a scipy loop over the heat", floor, digits=4)
    assert took <= promised(most)
    assert took / floor <= 0.5


@pytest.mark.parametrize(
    ("pairs", "most"), [(1, 0.020), (10_000, 3.0)], ids=["one pair of a catalogue", "10,000 pairs of a catalogue"]
)
def test_pairs_of_a_catalogue_with_loads_and_lives(pairs, most):
    """As the search computes them: reactions, axial loads, temperatures, films and lives. Floor: the same, stated."""
    case = "duty.cases[{}].{}"
    texts = {"duty.distance": "200", "lubrication.supply": "circulating", "lubrication.oil_flow": "0.5"}
    for at in range(20):
        texts |= {case.format(at, "speed"): f"{100 + 100 * at}", case.format(at, "radial_y"): f"{2000 + 500 * at}",
                  case.format(at, "axial"): f"{300 * at}"}  # fmt: skip
    catalogue = small_catalogue(3, 200)
    took = {}
    for by in ("stated", "settled"):
        duty = conditions(answered(texts | {"lubrication.temperature_by": by}, 20))
        rows = np.arange(pairs) % 200, np.arange(pairs) * 7 % 200
        A, B = (Bearings.of(catalogue, side, duty).take(at) for side, at in zip("AB", rows, strict=True))
        times = []
        for _ in range(4):
            start = time.perf_counter()
            loaded(A, B, duty)
            times.append(time.perf_counter() - start)
        took[by] = median(times[1:])
    told(
        f"{pairs} pairs x 20 cases at settled temperatures", took["settled"], "at stated ones", took["stated"], digits=4
    )
    assert took["settled"] <= promised(most)
