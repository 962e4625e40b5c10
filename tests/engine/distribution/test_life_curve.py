"""Life over the setting: shape, best, band; the heat loop against its own simulation; the fitter's torque."""

import numpy as np
import pytest

from engine.distribution import life_curve as curve
from engine.distribution.load_zone import load_zone
from engine.distribution.pair_system import ShaftLoads, pair_system, solve
from engine.distribution.reference_life import Film, reference_life
from engine.pair.arrangement import ARRANGEMENTS, BACK_TO_BACK
from tests.engine.distribution.bearings import rollers

CASES = ShaftLoads(F_y=np.array([8000.0, 5000.0]), M_y=np.array([8000.0, 5000.0]) * 50, K_a=np.array([500.0, -300.0]))
SPECTRUM = curve.Spectrum(CASES, np.array([0.3, 0.7]), np.array([1000.0, 1500.0]), (Film(1.0, 0.5, 1.0),) * 2)


def system(arrangement=BACK_TO_BACK, profile="log"):
    one = rollers(profile=profile)
    return pair_system(one, one, arrangement, 120.0)


@pytest.mark.parametrize("arrangement", ARRANGEMENTS)
def test_a_little_preload_lives_longest(arrangement):
    """Handbooks of rolling bearings: life over clearance has its summit at a slight preload and falls on both sides."""
    pair = system(arrangement)
    found = curve.life_curve(pair, SPECTRUM, curve.setting_grid(pair))
    best, life = found.best
    assert found.setting[0] < best < 0
    assert life >= found.life.max()
    at = int(np.argmax(found.life))
    assert np.all(np.diff(found.life[: at + 1]) > 0) and np.all(np.diff(found.life[at:]) < 0)
    low, high = found.band()
    assert found.setting[0] < low < best < high < found.setting[-1]
    inside = (found.setting >= low) & (found.setting <= high)
    assert np.all(found.life[inside] >= 0.8999 * life) and np.all(found.life[~inside] < 0.9 * life)
    # beside it: preload is stiffer along the shaft, and warmer
    assert found.stiffness[0, 2] > found.stiffness[at, 2] > found.stiffness[-1, 2]
    assert found.heat[0] > found.heat[at]
    assert np.all(found.solution.solved)


def test_the_lives_are_those_of_the_cases_summed():
    pair = system()
    found = curve.life_curve(pair, SPECTRUM, [-0.01, 0.02])
    hours = []
    for case, n in enumerate(SPECTRUM.n):
        alone = ShaftLoads(F_y=CASES.F_y[case], M_y=CASES.M_y[case], K_a=CASES.K_a[case])
        zone = solve(pair, alone, 0.02).zone("B")
        hours.append(reference_life(zone).L10r * 1e6 / 60 / n)
    # Palmgren and Miner by hand
    assert found.life_B[1] == pytest.approx(1 / (0.3 / hours[0] + 0.7 / hours[1]), rel=1e-9)
    weakest = min(found.life_A[1], found.life_B[1])
    assert 0.5 * weakest < found.life[1] < weakest


def test_summit_and_band_of_a_known_curve():
    x = np.linspace(-1, 1, 41)
    life = 100 * np.exp(-3 * (x - 0.113) ** 2)
    assert curve.summit(x, life) == pytest.approx((0.113, 100.0), rel=1e-9)
    low, high = curve.band_within(x, life)
    reach = np.sqrt(-np.log(0.9) / 3)
    assert (low, high) == pytest.approx((0.113 - reach, 0.113 + reach), abs=2e-3)
    # a curve that ends before it has fallen: the band ends with it
    assert curve.band_within(x[:24], life[:24])[1] == x[23]
    assert curve.summit(x[:10], life[:10]) == (x[9], life[9])


@pytest.mark.parametrize(("cooling", "runs_away"), [(2.0, False), (0.3, True)])
def test_from_a_gain_of_one_on_the_heat_feeds_itself(cooling, runs_away):
    """Follow the temperature in small steps and see whether it settles."""
    setting = np.linspace(-0.2, 0.1, 301)
    heat = np.where(setting < 0, 20 + 8000 * setting**2, 20.0)
    shift = -0.0005  # mm a kelvin
    gain = curve.runaway_gain(setting, heat, shift, cooling)
    assert gain[setting > 0.01] == pytest.approx(0.0)
    temperature = 0.0
    for _ in range(9000):
        here = 0.0 + shift * temperature
        temperature += 0.02 * (np.interp(here, setting, heat) - cooling * temperature)
    rests_at = shift * temperature
    if runs_away:
        assert rests_at < setting[0]
    else:
        assert np.interp(rests_at, setting, gain) < 1
    # 8000 x 2 x s x shift / cooling = 1 at s = -cooling/8 mm: closed form
    crossing = setting[np.flatnonzero(gain >= 1).max()] if np.any(gain >= 1) else -cooling / 8
    assert crossing == pytest.approx(-cooling / 8, abs=0.002)


def test_torque_under_preload_is_the_sum_over_the_ribs():
    one = rollers()
    zone = load_zone(one, [0.0, 0.0, 0.02, 0.0, 0.0])
    by_roller = np.sum(zone.rib) * 0.15 * one.cone_diameter / 2
    assert curve.setting_torque(one, zone.Fa) == pytest.approx(by_roller)
    assert np.isnan(curve.setting_torque(one, -1.0))


def test_alone_and_in_a_row():
    setting, heat = np.linspace(-0.1, 0.1, 9), np.linspace(5, 1, 9) ** 2
    row = curve.runaway_gain(setting, np.stack([heat, heat / 2]), -1e-3, 2.0)
    assert np.array_equal(row[0], curve.runaway_gain(setting, heat, -1e-3, 2.0))
    assert np.isnan(curve.runaway_gain(setting, heat, -1e-3, 0.0)).all()
