"""Demand against capacity: the one form, and the checks that need no loads."""

import numpy as np
import pytest

from engine.checks import every, loads, pair, part
from engine.checks.check import Check, Outcome
from engine.sources import COMMON_PRACTICE, Citation
from tests.duties import answered, conditions, random_duty, small_catalogue

CHECK = Check("x", "X", "N", Citation(COMMON_PRACTICE, ""), "demand", "capacity")
INF, NAN = float("inf"), float("nan")


@pytest.mark.parametrize(
    ("demand", "capacity", "utilisation", "passes"),
    [
        (1.0, 2.0, 0.5, True),
        (2.0, 2.0, 1.0, True),
        (3.0, 2.0, 1.5, False),
        (0.0, 0.0, 0.0, True),  # nothing is asked
        (1.0, 0.0, INF, False),
        (1.0, INF, 0.0, True),
        (INF, INF, 0.0, True),
        (1.0, NAN, NAN, False),  # unknown is not a pass
        (NAN, 1.0, NAN, False),
    ],
)
def test_utilisation(demand, capacity, utilisation, passes):
    outcome = Outcome(CHECK, "A", np.asarray(demand), np.asarray(capacity))
    np.testing.assert_equal(float(outcome.utilisation), utilisation)
    assert bool(outcome.passes) is passes


class TestEnvelope:
    def bore(self, typed, d):
        resolved = conditions(answered({"envelope.bore_a": typed})).resolved
        rows = small_catalogue(1, 1)
        object.__setattr__(rows, "d", np.array([d]))
        return next(o for o in part.outcomes(rows, "A", resolved) if o.check.key == "envelope_d")

    @pytest.mark.parametrize(
        ("typed", "d", "passes"),
        [
            ("60", 60.0, True),
            ("60", 60.2, False),
            ("60", 59.8, False),
            ("1 3/8 in", 34.925, True),
            ("34.93", 34.925, True),  # a catalogue prints inch sizes rounded
            ("55..65", 55.0, True),
            ("55..65", 54.9, False),
            (">=55", 2000.0, True),
            ("<=55", 55.02, False),
        ],
    )
    def test_bore(self, typed, d, passes):
        assert bool(self.bore(typed, d).passes[0]) is passes

    def test_the_limit_shown_is_the_one_that_binds(self):
        outcome = self.bore("55..65", 70.0)
        assert (outcome.demand[0], outcome.capacity[0]) == (70.0, 65.0)
        outcome = self.bore("55..65", 50.0)
        assert (outcome.demand[0], outcome.capacity[0]) == (55.0, 50.0)


def test_heat():
    rows = small_catalogue(1, 60)
    resolved = conditions(answered({"steel.peak_temperature": "130"})).resolved
    outcome = next(o for o in part.outcomes(rows, "A", resolved) if o.check.key == "heat")
    assert np.array_equal(outcome.passes, rows.max_temperature >= 130)


def test_without_loads_only_checks_that_need_none_are_made():
    rows = small_catalogue(1, 3)
    evaluated = every.evaluate(rows, rows, conditions(answered({"envelope.bore_a": "50"})))
    assert evaluated.states is None
    keys = {outcome.check.key for outcome in evaluated.outcomes if not outcome.check.advisory}
    assert keys == {"envelope_d", "hoop", "shock", "dirt", "heat"}
    assert {outcome.check.key for outcome in evaluated.outcomes} == keys  # these are metric, so no twin is asked for


def test_cautions_come_last_and_rule_nothing_out():
    rows = small_catalogue(1, 30)
    texts = {"duty.distance": "200", "duty.cases[0].speed": "500", "duty.cases[0].radial_y": "0"}
    evaluated = every.evaluate(rows, rows, conditions(answered(texts)))
    advisory = [outcome.check.advisory for outcome in evaluated.outcomes]
    assert advisory == sorted(advisory) and any(advisory)
    idle = next(o for o in evaluated.outcomes if o.check.key == "minimum_load")
    assert not idle.passes.any()  # without load no roller rolls by itself ...
    assert evaluated.passes.any()  # ... and a preload may cure it


@pytest.mark.parametrize("seed", range(10))
def test_every_check_of_a_loaded_pair_has_a_source_and_a_side(seed):
    rows = small_catalogue(seed, 20)
    evaluated = every.evaluate(rows, rows, conditions(random_duty(seed)))
    for outcome in evaluated.outcomes:
        assert str(outcome.check.source) and outcome.side in {"A", "B", "pair"}
        assert outcome.utilisation.shape == (20,)


def test_a_pair_whose_load_centres_cross_fails_by_its_spread():
    z = np.array([0.0])
    assert not pair.spread(z + 10.0, z).passes[0]
    assert not pair.spread(z, z).passes[0]
    assert pair.spread(z, z + 10.0).passes[0]


def test_standing_cases_ask_for_no_film():
    rows = small_catalogue(2, 10)
    texts = {"duty.distance": "200", "duty.cases[0].speed": "0", "duty.cases[0].radial_y": "5 kN"}
    evaluated = every.evaluate(rows, rows, conditions(answered(texts)))
    film = [o for o in evaluated.outcomes if o.check.key in {loads.METHOD.key, loads.FILM.key}]
    assert all(outcome.passes.all() for outcome in film)
