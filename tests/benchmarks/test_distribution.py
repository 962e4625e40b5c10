"""The load distribution of a pair, alone and a thousand at once, against a general root finder on the same model."""

import time
from importlib.resources import files
from pathlib import Path

import numpy as np
import pytest
from scipy import optimize

from engine.answers.resolved import resolve
from engine.catalogue.read import builtin
from engine.distribution.life_curve import Spectrum, life_curve, setting_grid
from engine.distribution.pair_system import ShaftLoads, pair_system, solve
from engine.distribution.rows import roller_set
from engine.distribution.scatter import load_factors, scatter
from engine.operating import Conditions
from engine.pair.arrangement import BACK_TO_BACK
from engine.record.read import read
from engine.record.result import without_setting
from engine.selection.stages.load_distribution import lead
from engine.setting.study import study
from tests.benchmarks.stopwatch import median, promised, row, told
from tests.engine.distribution.bearings import catalogue

pytestmark = pytest.mark.benchmark

CASES, LOOPED, TURNS = 1000, 40, 5
#: What one pair may take, alone and among a thousand [s].
ALONE, AMONG_MANY = 5e-3, 0.5e-3


def seconds(work):
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


@pytest.fixture(scope="module")
def duty():
    """Two medium bearings of about 20 rollers; loads from a tenth of the rating down, play from preload to 0.2 mm."""
    metric = np.flatnonzero(catalogue().system == "metric")
    A, B = roller_set(catalogue(), metric[200]), roller_set(catalogue(), metric[206])
    draw = np.random.default_rng(4)
    size = 0.1 * A.Cr * draw.uniform(0.2, 1.0, CASES)
    loads = ShaftLoads(F_y=size, F_z=0.4 * size, M_y=60 * size, M_z=30 * size, K_a=0.3 * size * draw.normal(size=CASES))
    return pair_system(A, B, BACK_TO_BACK, 150.0), loads, draw.uniform(-0.03, 0.2, CASES)


#: How the cups stand: straight, and as much askew as is taken by default.
STANDING = {"straight": np.zeros(4), "askew by 0.01 deg": np.radians(0.01) * np.array([1.0, -1.0, 1.0, 1.0])}


def by_root_finder(system, f, gap, lean):
    """Return how many of the cases a general root finder settles, started where the linear springs would rest."""
    settled = 0
    for load, one, more in zip(f, gap, lean, strict=True):

        def off(q, load=load, one=one, more=more):
            return system.springs.evaluate(q[None], one[None], more[None]).force[0] - load

        found = optimize.root(off, 2 * np.linalg.solve(system.springs.measure, load))
        settled += bool(np.linalg.norm(off(found.x)) <= 1e-6 * np.linalg.norm(load))
    return settled


@pytest.mark.parametrize("cups", STANDING)
def test_pairs_at_rest(duty, cups):
    system, loads, play = duty
    slopes = STANDING[cups]
    f, (gap, lean) = system.loads(loads), system.gaps(play, np.tile(slopes, (CASES, 1)))
    alone = []
    for i in range(100):
        one = ShaftLoads(*(np.asarray(getattr(loads, name))[i] for name in vars(loads)))
        alone.append(seconds(lambda one=one, i=i: solve(system, one, play[i], slopes)))
    many = [seconds(lambda: solve(system, loads, play, slopes)) for _ in range(TURNS + 1)][1:]
    start = time.perf_counter()
    settled = by_root_finder(system, f[:LOOPED], gap[:LOOPED], lean[:LOOPED])
    # what it spends on cases that it then fails to settle is part of its price
    looped = (time.perf_counter() - start) / settled
    found = solve(system, loads, play, slopes)
    assert np.all(found.solved)
    told(f"one pair at rest, cups {cups}, median of 100", median(alone), "root finder", looped)
    told(f"one pair at rest, cups {cups}, worst of 100", max(alone), "root finder", looped)
    told(f"a pair among 1,000, cups {cups}", median(many) / CASES, "root finder", looped, digits=4)
    row("settled by the root finder", f"{settled} of {LOOPED}", "here", f"{LOOPED}")
    assert median(many) / CASES < looped / 3
    assert median(alone) < promised(ALONE) and min(many) / CASES < promised(AMONG_MANY)


def test_life_over_the_setting(duty):
    system, loads, _ = duty
    three = ShaftLoads(*(np.asarray(getattr(loads, name))[:3] for name in vars(loads)))
    spectrum = Spectrum(three, np.array([0.2, 0.3, 0.5]), np.array([500.0, 1000.0, 1500.0]))
    grid = setting_grid(system)
    curve = [seconds(lambda: life_curve(system, spectrum, grid)) for _ in range(TURNS + 1)][1:]
    bare = [seconds(lambda: solve(system, three, grid[:, None])) for _ in range(TURNS + 1)][1:]
    told(f"life, stiffness, heat at {len(grid)} settings, 3 cases", median(curve), "equilibrium alone", median(bare))
    draws = np.random.default_rng(1).normal(0.02, 0.01, 10_000), load_factors(0.1)
    took = [seconds(lambda: scatter(system, spectrum, draws, 1e4)) for _ in range(3)]
    told("10,000 draws, 3 cases", median(took), "life curve", median(curve))


@pytest.fixture(scope="module")
def example():
    """Read the chosen pair of a shipped example, with the conditions of its duty."""
    record = read(Path(str(files("catalogs") / "examples")) / "peat_harvester_bevel_drive.toml")
    choice, rows = record.answers.choice, builtin()
    A, B = (rows.take([rows.index_of(name)]) for name in (choice.bearing_a, choice.bearing_b))
    return A, B, Conditions.of(resolve(record.answers))


def test_a_study_of_the_setting(example):
    whole = [seconds(lambda: study(*example)) for _ in range(TURNS + 1)][1:]
    leading = [seconds(lambda: lead(*example)) for _ in range(TURNS + 1)][1:]
    closed = [seconds(lambda: without_setting(*example)) for _ in range(TURNS + 1)][1:]
    told("setting of the chosen pair, 10,000 draws", median(whole), "closed formulas", median(closed))
    told("setting of a leading pair", median(leading), "closed formulas", median(closed))
    assert min(leading) < min(whole)
