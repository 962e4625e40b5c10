"""Every loosening lets in exactly as many pairs as it promises, counted pair by pair without the search."""

from functools import cache

import numpy as np
import pytest

from engine.answers.document import put
from engine.answers.resolved import resolve
from engine.checks.every import passing
from engine.operating import Conditions
from engine.selection.screen import SearchCancelled, screen
from engine.selection.verdict import outcomes
from engine.selection.what_gives import Trial, newcomers, smallest_pairs, what_gives
from tests.duties import answered, conditions, random_duty, small_catalogue

ROWS = 30
MOST_COUPLES = 300
#: Duties of which a hundred steps are counted pair by pair take a while; most of them stand behind the marker.
QUICK, LONG = (1, 3, 6, 8), (0, 2, 4, 5, 7, 9, 10, 11)


def matrix(catalogue, answers):
    """Return which pairs pass, by evaluating every one of them with every check and wish."""
    n = len(catalogue)
    i, j = (index.ravel() for index in np.indices((n, n)))
    found = outcomes(catalogue.take(i), catalogue.take(j), Conditions.of(resolve(answers)))
    return passing(found, n * n).reshape(n, n)


def changed(answers, steps):
    for step in steps:
        answers = put(answers, step.path, step.value)
    return answers


def level_of(*steps):
    return sum(step.level for step in steps)


def a_hard_duty(seed):
    """Return a duty of which few pairs of a small catalogue are left, or none."""
    pick = np.random.default_rng(seed)
    answers = random_duty(seed, cases=1 + seed % 2)
    answers = put(answers, "envelope.bore_a", answered({"envelope.bore_a": f"{pick.uniform(40, 90):.0f}"})
                  .envelope.bore_a)  # fmt: skip
    if seed % 3:
        typed = f"<={pick.uniform(90, 160):.0f}"
        answers = put(answers, "envelope.outside_b", answered({"envelope.outside_b": typed}).envelope.outside_b)
    return answers


@cache
def told_of(seed):
    return what_gives(small_catalogue(seed, ROWS), a_hard_duty(seed))


@pytest.mark.parametrize("seed", [*QUICK, *(pytest.param(seed, marks=pytest.mark.slow) for seed in LONG)])
def test_every_step_lets_in_what_it_promises(seed):
    catalogue, answers = small_catalogue(seed, ROWS), a_hard_duty(seed)
    before = matrix(catalogue, answers)
    told = told_of(seed)
    assert told.count == before.sum()
    for given in told.singles:
        after = matrix(catalogue, changed(answers, given.steps))
        assert given.newcomers == np.sum(after & ~before), given.steps
        assert given.lost == np.sum(before & ~after)
        assert given.count == after.sum()
    for given in told.pairs:
        after = matrix(catalogue, changed(answers, given.steps))
        assert given.newcomers == np.sum(after & ~before) > 0
        assert len({step.path for step in given.steps}) == 2


@pytest.mark.slow
def test_the_duties_are_hard_and_something_gives():
    told = [told_of(seed) for seed in range(12)]
    assert sum(one.count == 0 for one in told) >= 4
    assert sum(any(given.newcomers for given in one.singles) for one in told) >= 6
    assert any(one.pairs for one in told)


@pytest.mark.parametrize("seed", [3, 6, *(pytest.param(seed, marks=pytest.mark.slow) for seed in (0, 9))])
def test_two_answers_are_changed_only_where_one_is_not_enough_and_as_little_as_can_be(seed):
    """Against trying every pair of steps of every two answers."""
    catalogue, answers = small_catalogue(seed, 16), a_hard_duty(seed)
    trial = Trial(catalogue, answers)
    enough = 1 + max((trial.given(step).newcomers for move in trial.moves for step in move.steps), default=0)
    told = what_gives(catalogue, answers, enough)
    steps = [step for move in trial.moves for step in move.steps]
    couples = [(a, b) for at, a in enumerate(steps) for b in steps[at + 1 :] if a.path != b.path]
    if not told.pairs:  # then no couple does; there are thousands, so that some are picked
        picked = np.random.default_rng(seed).choice(len(couples), min(MOST_COUPLES, len(couples)), replace=False)
        assert not any(trial.given(*couples[at]).newcomers >= enough for at in picked)
        return
    least = min(given.level for given in told.pairs)
    near = [trial.given(a, b) for a, b in couples if level_of(a, b) <= least]
    does = [given for given in near if given.newcomers >= enough]
    assert {given.level for given in does} == {least}
    assert {given.steps for given in told.pairs} == {given.steps for given in does}
    came = [given.newcomers for given in told.pairs]
    assert came == sorted(came, reverse=True)
    assert what_gives(catalogue, answers, 1).pairs == () or enough == 1


def test_a_wider_bore_by_hand():
    """A bore of 60 fixed at both ends; each size within reach lets in the parts that have it, and no others."""
    catalogue = small_catalogue(4, 200)
    answers = answered({"envelope.bore_a": "60", "envelope.bore_b": "60"})
    had = catalogue.availability != "discontinued"
    fits = had & (catalogue.d == 60)
    told = what_gives(catalogue, answers)
    assert told.count == fits.sum() ** 2
    widened = [given for given in told.singles if given.steps[0].path == "envelope.bore_a"]
    assert widened
    for given in widened:
        limits = given.steps[0].value
        now = had & (catalogue.d >= limits.least) & (catalogue.d <= limits.greatest)
        assert given.newcomers == (now.sum() - fits.sum()) * fits.sum()
        # it ends at a size that parts have
        assert {limits.least, limits.greatest} - {60.0} <= set(catalogue.d.tolist())


def test_newcomers_by_hand():
    catalogue = small_catalogue(3, 40)
    before = screen(catalogue, conditions(answered({"envelope.mass": "2 kg"})))
    after = screen(catalogue, conditions(answered({"envelope.mass": "3 kg", "steel.allowed": "case"})))
    pairs = []
    for one in (before, after):
        i, j = np.nonzero(one.passes)
        pairs.append(set(zip(one.rows_A[i].tolist(), one.rows_B[j].tolist(), strict=True)))
    assert newcomers(before, after) == (len(pairs[1] - pairs[0]), len(pairs[0] - pairs[1]))
    assert newcomers(before, before) == (0, 0)


def test_it_tells_each_step_as_it_is_counted_and_can_be_cancelled():
    catalogue, answers = small_catalogue(1, ROWS), a_hard_duty(1)
    reported, shares = [], []
    told = what_gives(catalogue, answers, report=reported.append, progress=lambda _, share: shares.append(share))
    assert tuple(reported) == told.singles and shares[-1] == 1.0
    with pytest.raises(SearchCancelled):
        what_gives(catalogue, answers, cancelled=lambda: len(shares) > 3)


def test_what_was_cancelled_is_gone_on_with_and_tells_the_same(monkeypatch):
    catalogue, answers = small_catalogue(1, ROWS), a_hard_duty(1)
    whole = what_gives(catalogue, answers)
    screened = []
    monkeypatch.setattr("engine.selection.what_gives.screen", lambda *a: screened.append(1) or screen(*a))
    trial, told = Trial(catalogue, answers), []
    with pytest.raises(SearchCancelled):
        what_gives(catalogue, answers, 1, lambda: len(told) >= len(whole.singles) // 2, report=told.append, trial=trial)
    counted, kept = len(screened), len(told)
    assert 0 < kept < len(whole.singles)
    again = []
    assert what_gives(catalogue, answers, report=again.append, trial=trial) == whole
    assert again == list(whole.singles)
    screened_then = len(screened) - counted
    screened.clear()
    what_gives(catalogue, answers)
    assert screened_then <= len(screened) - kept + sum(one.contradicts for one in told) + 1


def test_more_pairs_than_can_be_looked_through_are_said_to_be_the_most_there_are():
    catalogue = small_catalogue(1, 20_000)
    trial = Trial(catalogue, answered({"envelope.bore_a": "60", "envelope.bore_b": "<=200"}))
    widest = next(m for m in trial.moves if m.path == "envelope.bore_a").steps[-1]
    assert not trial.before.too_many
    assert trial.given(widest).too_many == (trial.given(widest).count > 60_000_000)
    trial = Trial(catalogue, answered({}))
    assert all(trial.given(move.steps[0]).too_many for move in trial.moves if move.path == "steel.allowed")
    assert smallest_pairs(Trial(small_catalogue(1, 5), answered({})), enough=100) == ()
