"""Limits on what both bearings sum up to, mass and cost: against a plain loop, at every stage of the search."""

import dataclasses
import math

import numpy as np
import pytest

from engine.answers.document import put, question_at
from engine.checks.every import evaluate
from engine.selection import rank
from engine.selection import screen as screen_module
from engine.selection.first_rows import first_rows
from engine.selection.screen import decide, narrow, screen
from engine.selection.what_gives import what_gives
from tests.duties import answered, conditions, random_duty, small_catalogue

ROWS = 40


def with_costs(seed, unstated=True):
    """Return a small catalogue with costs of its own, some of them not stated."""
    catalogue, draw = small_catalogue(seed, ROWS), np.random.default_rng(seed)
    cost = np.round(draw.uniform(1, 20, ROWS), 2)
    if unstated:
        cost[draw.random(ROWS) < 0.2] = math.nan
    return dataclasses.replace(catalogue, cost=cost)


def passing_pairs(screening):
    i, j = np.nonzero(screening.passes)
    return set(zip(screening.rows_A[i].tolist(), screening.rows_B[j].tolist(), strict=True))


def asked(seed, texts):
    """Return a random duty with more answers."""
    answers = random_duty(seed)
    for path, text in texts.items():
        answers = put(answers, path, question_at(path).parse(text))
    return answers


@pytest.mark.parametrize("few_pairs", [0, 10**9], ids=["by bounds", "pair by pair"])
@pytest.mark.parametrize("seed", range(12))
def test_the_limit_on_cost_drops_the_pairs_that_cost_more_and_no_other(seed, few_pairs, monkeypatch):
    monkeypatch.setattr(screen_module, "FEW_PAIRS", few_pairs)
    catalogue = with_costs(seed)
    free = passing_pairs(screen(catalogue, conditions(asked(seed, {}))))
    duty = conditions(asked(seed, {"envelope.cost": "18.5"}))
    found = screen(catalogue, duty)
    # a sum that is not known is no sum under the limit
    assert passing_pairs(found) == {(i, j) for i, j in free if catalogue.cost[i] + catalogue.cost[j] <= 18.5}
    listed = rank.shortlist(catalogue, found, duty, "cost", 500)
    assert len(listed) == min(found.count, 500) and listed.evaluated.passes.all()


def test_some_pairs_keep_the_limit_and_others_do_not():
    kept = dropped = 0
    for seed in range(12):
        catalogue = with_costs(seed)
        free = screen(catalogue, conditions(asked(seed, {}))).count
        held = screen(catalogue, conditions(asked(seed, {"envelope.cost": "18.5"}))).count
        kept, dropped = kept + held, dropped + free - held
    assert kept > 100 and dropped > 100


@pytest.mark.parametrize("seed", range(6))
def test_the_first_rows_keep_it_too(seed):
    catalogue, duty = with_costs(seed), conditions(asked(seed, {"envelope.cost": "18.5"}))
    field = narrow(catalogue, duty)
    early, found = first_rows(field, 15), passing_pairs(decide(field))
    assert set(zip(early.rows_A.tolist(), early.rows_B.tolist(), strict=True)) <= found
    assert bool(len(early)) == bool(found)


def test_the_check_says_what_the_pair_costs():
    # by hand: 3.25 and 4.5 are 7.75; of a paired unit on each side there are two of each, 15.5
    catalogue = dataclasses.replace(small_catalogue(1, 3), cost=np.array([3.25, 4.5, math.nan]))
    pairs = catalogue.take([0, 0]), catalogue.take([1, 2])
    for more, cost in (({}, 7.75), ({"duty.locating": "unit_a"}, 15.5)):
        outcomes = evaluate(*pairs, conditions(answered({"envelope.cost": "8"} | more))).outcomes
        (outcome,) = (one for one in outcomes if one.check.key == "cost")
        assert (outcome.demand[0], outcome.capacity) == (cost, 8)
        assert outcome.passes.tolist() == [cost <= 8, False]
    outcomes = evaluate(*pairs, conditions(answered({}))).outcomes
    assert not [one for one in outcomes if one.check.key in {"cost", "mass"}]


def test_a_limit_on_cost_may_give():
    catalogue = with_costs(3, unstated=False)
    answers = answered({"envelope.cost": "5"})
    told = what_gives(catalogue, answers)
    (given, *_) = (one for one in told.singles if one.steps[0].path == "envelope.cost")
    limit = given.steps[0].value.value
    sums = catalogue.cost[:, None] + catalogue.cost[None, :]
    assert limit > 5 and given.newcomers == ((sums > 5) & (sums <= limit)).sum() > 0
