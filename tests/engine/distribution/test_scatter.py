"""Draws, survival and probability: against scipy's distributions, the table of a1, and the equilibrium itself."""

from dataclasses import replace

import numpy as np
import pytest
from scipy import stats

from engine.distribution.reference_life import Film
from engine.distribution.scatter import Warming, drawn, load_factors, scatter, settings_drawn, survival, warmer
from engine.distribution.setting_chain import Conditions, no_scatter
from tests.engine.distribution.test_life_curve import SPECTRUM, system
from tests.engine.distribution.test_setting_chain import FITTED, mounting
from tests.printed import printed

#: ISO 281:2007, Table 12 (recalled): reliability in percent, a1.
A1_TABLE = [("90", 1.0), ("95", 0.64), ("96", 0.55), ("97", 0.47), ("98", 0.37), ("99", 0.25)]
NOMINAL = Conditions(0.05, 0.02, 0.0, 0.02, 0.0, T_cone=60.0, T_shaft=60.0, T_cup=55.0, T_housing=50.0)
WITHOUT_FILM = replace(SPECTRUM, film=(Film(), Film()))
HALF = no_scatter(bench=0.02, cone_fit_A=0.006, cone_fit_B=0.006, T_cone=5.0, T_housing=5.0)


@pytest.mark.parametrize(("percent", "a1"), A1_TABLE, ids=[f"ISO 281 Table 12, {row[0]} %" for row in A1_TABLE])
def test_survival_is_the_table_of_a1_read_backwards(percent, a1):
    assert 100 * survival(a1 * 4000.0, 4000.0) == printed(percent)


def test_survival_at_the_ends():
    assert survival(0.0, 1000.0) == 1.0 == survival(50.0, 1000.0) == survival(1.0, np.inf)
    assert survival(1e6, 1000.0) == pytest.approx(0.0, abs=1e-9)
    assert np.isnan(survival(1.0, 0.0))


def test_draws_are_normal_and_end_at_the_half_range():
    bench = drawn(NOMINAL, HALF, 40_000, seed=1).bench
    reference = stats.truncnorm(-3, 3, loc=0.05, scale=0.02 / 3)
    assert np.abs(bench - 0.05).max() <= 0.02
    assert stats.kstest(bench, reference.cdf).pvalue > 0.01
    assert bench.std() == pytest.approx(reference.std(), rel=0.02)


def test_the_same_seed_gives_the_same_draws_whatever_else_scatters():
    one, other = drawn(NOMINAL, HALF, 100, 7), drawn(NOMINAL, no_scatter(bench=0.02), 100, 7)
    assert np.array_equal(one.bench, other.bench)
    assert not np.array_equal(one.bench, drawn(NOMINAL, HALF, 100, 8).bench)
    assert np.all(other.T_cone == 60.0)
    assert abs(np.corrcoef(one.bench, one.T_cone)[0, 1]) < 0.3


def test_settings_spread_as_their_variances_add():
    one = mounting(seats=FITTED, measured_mounted=False)
    settings = settings_drawn(one, NOMINAL, HALF, 20_000)
    alone = [settings_drawn(one, NOMINAL, no_scatter(**{name: getattr(HALF, name)}), 20_000).std()
             for name in ("bench", "cone_fit_A", "cone_fit_B", "T_cone", "T_housing")]  # fmt: skip
    assert settings.std() == pytest.approx(np.sqrt(np.sum(np.square(alone))), rel=0.03)


def test_interpolated_lives_are_those_of_the_equilibrium():
    pair = system()
    draws = settings_drawn(mounting(), NOMINAL, HALF, 300), load_factors(0.15, 300)
    exact = scatter(pair, SPECTRUM, draws, 1.0, exact=True)
    required = float(np.median(exact.modified))
    table, exact = (scatter(pair, SPECTRUM, draws, required, exact=way) for way in (False, True))
    assert table.life == pytest.approx(exact.life, rel=0.005)
    assert table.modified == pytest.approx(exact.modified, rel=0.01)
    assert table.survival == pytest.approx(exact.survival, abs=0.002)
    assert table.reached == pytest.approx(exact.reached, abs=0.01)
    assert 0 < exact.reached < 1


def thinned(shift):
    """Return films that thin by 4 % a kelvin, for both bearings alike."""
    one = Film(1.0 * 0.96 ** np.asarray(shift)[:, None] * np.ones(2), np.full((len(shift), 2), 0.5), 1.0)
    return one, one


def test_interpolated_lives_follow_the_film_of_each_draw():
    pair = system()
    draws = settings_drawn(mounting(), NOMINAL, HALF, 300), load_factors(0.15, 300)
    shift = np.random.default_rng(3).uniform(-20, 20, 300)
    warming = Warming(shift, thinned)
    table, exact = (scatter(pair, SPECTRUM, draws, 1.0, warming, exact=way) for way in (False, True))
    assert table.modified == pytest.approx(exact.modified, rel=0.01)
    # each draw is that of a spectrum with the film of its own temperature; the basic life knows no film
    steady = scatter(pair, SPECTRUM, draws, 1.0, exact=True)
    assert exact.life == pytest.approx(steady.life) and table.life == pytest.approx(exact.life, rel=0.005)
    for i in (0, 7):
        at = replace(SPECTRUM, film=(Film(0.96 ** shift[i], 0.5, 1.0),) * 2)
        alone = scatter(pair, at, (draws[0][i : i + 1], draws[1][i : i + 1]), 1.0, exact=True)
        assert exact.modified[i] == pytest.approx(alone.modified[0])
    assert np.all((exact.modified > steady.modified) == (shift < 0))


def test_bearings_are_warmer_by_the_mean_of_cone_and_cup():
    drawn_at = replace(NOMINAL, T_cone=np.array([64.0, 60.0]), T_cup=np.array([55.0, 49.0]), T_shaft=90.0)
    assert warmer(NOMINAL, drawn_at).tolist() == [2.0, -3.0]


def test_without_scatter_the_chance_is_that_of_the_two_bearings():
    pair = system()
    settings, factors = np.full(50, 0.01), np.ones(50)
    sure = scatter(pair, WITHOUT_FILM, (settings, factors), 1.0)
    assert sure.survival == 1.0 and sure.reached == 1.0
    life = sure.life[0]
    assert np.ptp(sure.life) <= 1e-9 * life
    # the system life is the one that 90 % of pairs survive, by a slope of 9/8; the bearings' own 1.5 differs a little
    assert scatter(pair, WITHOUT_FILM, (settings, factors), float(life)).survival == pytest.approx(0.9, abs=0.03)


@pytest.mark.parametrize("a1", [row[1] for row in A1_TABLE[1:]])
def test_the_chance_does_not_depend_on_the_reliability_that_the_rating_is_stated_for(a1):
    pair, once = system(), (np.full(5, 0.01), np.ones(5))
    at = tuple(replace(film, a1=a1) for film in SPECTRUM.film)
    both = scatter(pair, replace(SPECTRUM, film=at), once, 1.0)
    plain = scatter(pair, SPECTRUM, once, 1.0)
    assert both.modified == pytest.approx(a1 * plain.modified)
    # the chance is one of the loads and the film, whatever reliability the rating life is stated for
    required = float(plain.modified[0]) / 3
    assert scatter(pair, replace(SPECTRUM, film=at), once, required).survival == pytest.approx(
        scatter(pair, SPECTRUM, once, required).survival, abs=1e-12
    )


def test_more_scatter_widens_and_percentiles_are_in_order():
    pair = system()
    draws = settings_drawn(mounting(), NOMINAL, HALF, 2000), load_factors(0.3, 2000)
    found = scatter(pair, SPECTRUM, draws, 130_000.0)
    settings, lives = found.percentiles([0.01, 0.5, 0.99])
    assert np.all(np.diff(settings) > 0) and np.all(np.diff(lives) > 0)
    steady = scatter(pair, SPECTRUM, (draws[0], np.ones(2000)), 130_000.0)
    assert np.std(steady.life) < np.std(found.life)
