"""The ladder of temperatures against the solved balances: they lie between its rungs, and its verdicts are theirs."""

import numpy as np
import pytest

from engine.operating import Bearings, pair_loads
from engine.selection import screen
from engine.warmth.ladder import Ladder
from engine.warmth.settling import at_rung, places_of, warmed
from tests.duties import conditions, settling_duty, small_catalogue

ROWS = 40


def every_pair(seed):
    """Return the bearings of every pair of a small catalogue, and the conditions."""
    catalogue, duty = small_catalogue(seed, ROWS), conditions(settling_duty(seed))
    i, j = (index.ravel() for index in np.indices((ROWS, ROWS)))
    return Bearings.of(catalogue, "A", duty).take(i), Bearings.of(catalogue, "B", duty).take(j), duty


@pytest.mark.parametrize("seed", range(40))
def test_balances_settle_between_the_two_rungs(seed):
    A, B, duty = every_pair(seed)
    loads, ladder = pair_loads(A, B, duty), Ladder.of(duty)
    found = warmed(A, B, loads, duty)[1]
    apart = (B.z - A.z)[:, 0] >= 1.0
    for rows, places, T, nu in zip((A, B), places_of(A, B, loads, duty, ladder), found.T, found.nu, strict=True):
        cold, hot = (at_rung(rows, end, places, duty).thermal for end in (ladder.cold, ladder.hot))
        settles = duty.settling & apart[:, None]
        known = settles & ~np.isnan(T)
        assert np.all(cold.T[known] < T[known])
        assert np.all(cold.nu[known & ~np.isnan(nu)] >= nu[known & ~np.isnan(nu)])
        # a hottest end that is not known is none: such a pair is never taken for sure
        bounded = known & ~np.isnan(hot.T)
        assert np.all(hot.T[bounded] > T[bounded])
        assert np.all((hot.T - cold.T)[bounded] < 1.1)
        assert np.isnan(hot.T[settles & np.isnan(T)]).all()
        assert np.all(~(hot.nu[bounded] > nu[bounded]))
        assert bounded.any() or not known.any()


@pytest.mark.parametrize("seed", range(40))
def test_verdicts_by_the_ladder_are_those_of_the_solved_balances(seed):
    A, B, duty = every_pair(seed)
    with np.errstate(invalid="ignore"):
        assert np.array_equal(screen.settled(A, B, duty, Ladder.of(duty)), screen.exact(A, B, duty))


def test_hardly_any_pair_is_left_to_be_solved(monkeypatch):
    """Else it would save nothing."""
    solved, exact = [], screen.exact
    monkeypatch.setattr(screen, "exact", lambda A, B, duty: (solved.append(len(A.C)), exact(A, B, duty))[1])
    for seed in range(20):
        A, B, duty = every_pair(seed)
        screen.settled(A, B, duty, Ladder.of(duty))
    assert 0 < sum(solved) < 0.05 * 20 * ROWS**2
