"""Temperatures that settle in pairs: against scipy, against the same temperatures stated, and in what must hold."""

import dataclasses
import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.answers.document import put
from engine.answers.question import Quantity
from engine.answers.resolved import resolve
from engine.checks.every import evaluate
from engine.lubrication.cleanliness import LEVELS
from engine.lubrication.heat import NO_COOLING, SETTLED, TOO_HOT
from engine.operating import Bearings, Conditions
from engine.warmth.settling import loaded
from tests.duties import answered, conditions, settling_duty, small_catalogue
from tests.engine.selection import one_balance
from tests.engine.selection.second import rows_of
from tests.strategies import numbers

CATALOGUE = small_catalogue(3, 60)
SHAFT = {"duty.distance": "200", "duty.cases[0].speed": "900", "duty.cases[0].radial_y": "9 kN",
         "duty.cases[0].axial": "3 kN", "lubrication.temperature_by": "settled"}  # fmt: skip


def pair_under(answers, i=10, j=20):
    duty = conditions(answers)
    A, B = (Bearings.of(CATALOGUE.take([row]), side, duty) for row, side in ((i, "A"), (j, "B")))
    return loaded(A, B, duty), duty


def under(**texts):
    return pair_under(answered(SHAFT | {f"lubrication.{name}": text for name, text in texts.items()}))


@pytest.mark.parametrize("seed", range(12))
def test_against_scipy(seed):
    """The same balance in plain Python, from the printed formulas (one_balance.py)."""
    duty = conditions(settling_duty(seed))
    rows, i, j = rows_of(CATALOGUE), np.arange(0, 60, 7), np.arange(59, 0, -7)
    A, B = (Bearings.of(CATALOGUE.take(at), side, duty) for at, side in ((i, "A"), (j, "B")))
    found = loaded(A, B, duty)
    for row, pair in enumerate(zip(i, j, strict=True)):
        for case in range(len(duty.cases)):
            loads = [(float(load.Fr[row, case]), float(load.Fa[row, case])) for load in found.loads]
            n = float(duty.cases.n[case])
            expected = one_balance.settled([rows[one] for one in pair], loads, n, duty.resolved)
            got = [float(T[row, case]) for T in found.warmth.T]
            assert got == pytest.approx(expected, abs=1e-6, nan_ok=True)


@pytest.mark.parametrize("seed", range(6))
def test_a_settled_temperature_stated_gives_the_same_life(seed):
    answers = settling_duty(seed)
    found, _ = pair_under(put(answers, "lubrication.housing", "one"))
    if np.isnan(found.warmth.T[0]).any():
        pytest.skip("too hot to be stated")
    for case, T in enumerate(found.warmth.T[0][0]):
        answers = put(answers, f"duty.cases[{case}].temperature", Quantity(float(T)))
    again, then = pair_under(answers)
    assert not then.settling.any() and again.warmth.balance is None
    for one, other in zip(found.states, again.states, strict=True):
        np.testing.assert_allclose(one.life, other.life, rtol=1e-12)


def test_in_one_housing_both_are_as_warm_as_one_another_and_apart_each_by_itself():
    one, _ = under(housing="one")
    each, _ = under(housing="each")
    assert one.warmth.T[0] == one.warmth.T[1]
    low, high = sorted(float(T[0, 0]) for T in each.warmth.T)
    # by the seats alone: the warmer one warms the other
    assert low < one.warmth.T[0][0, 0] < high


def test_no_temperature_settles_is_said_and_rules_the_pair_out():
    found, duty = under(area="0.001", other_heat="900 W", lubricant="NLGI 3")
    assert found.warmth.balance[0].status == TOO_HOT and np.isnan(found.warmth.T[0])
    evaluated = evaluate(CATALOGUE.take([10]), CATALOGUE.take([20]), duty)
    assert not evaluated.passes
    hot = {o.check.key for o in evaluated.outcomes if not o.passes and not o.check.advisory}
    assert {"settled_heat", "lubricant_heat", "life"} <= hot
    assert NO_COOLING not in found.warmth.balance[0].status


def test_a_case_that_states_its_temperature_keeps_it():
    texts = SHAFT | {"duty.cases[1].speed": "100", "duty.cases[1].radial_y": "9 kN", "duty.cases[1].temperature": "93"}
    found, duty = pair_under(answered(texts, 2))
    assert duty.settling.tolist() == [True, False]
    assert found.warmth.T[0][0, 1] == 93 and found.warmth.T[0][0, 0] != 93
    assert found.warmth.nu[0][0, 1] == duty.nu[1]


def test_two_rows_a_side_make_twice_the_oil_friction():
    pair, _ = under()
    unit, duty = pair_under(answered(SHAFT | {"duty.locating": "unit_a"}))
    assert unit.bearings[0].thermal.flow == 2 * pair.bearings[0].thermal.flow
    assert unit.bearings[0].thermal.conductance == 2 * pair.bearings[0].thermal.conductance
    assert unit.warmth.balance[0].status == SETTLED and duty.resolved.per_side == 2


@given(numbers(-20.0, 50.0), numbers(0.5, 40.0))
def test_warmer_air_never_makes_a_thicker_film(ambient, more):
    cool, _ = under(ambient=f"{ambient}")
    warm, _ = under(ambient=f"{ambient + more}")
    for one, other in zip(cool.bearings, warm.bearings, strict=True):
        assert other.kappa <= one.kappa


@given(numbers(20.0, 120.0), numbers(0.5, 60.0))
def test_hotter_oil_is_never_thicker(T, more):
    texts = {"temperature_by": "stated"}
    cool, hot = (under(**texts, temperature=f"{at}") for at in (T, T + more))
    assert hot[1].nu <= cool[1].nu
    assert all(b.kappa <= a.kappa for a, b in zip(cool[0].bearings, hot[0].bearings, strict=True))


@given(st.sampled_from(["grease", "bath", "circulating"]), st.sampled_from(["stated", "settled"]), numbers(5.0, 3000.0))
def test_cleaner_never_shortens_life(supply, by, speed):
    lives = []
    for level in LEVELS:
        texts = SHAFT | {"lubrication.supply": supply, "lubrication.temperature_by": by,
                         "duty.cases[0].speed": f"{speed}", "lubrication.cleanliness": level}  # fmt: skip
        found, _ = pair_under(answered(texts))
        lives.append([float(state.life[0]) for state in found.states])
    for cleaner, dirtier in itertools.pairwise(lives):
        assert all(not a < b for a, b in zip(cleaner, dirtier, strict=True))


def test_kappa_is_1_where_the_oil_has_the_reference_viscosity():
    """By definition: nu1 of ISO 281 equation (28) for these sizes, given as the oil at the temperature of its data."""
    Dpw, n = float(CATALOGUE.Dpw[10]), 900.0
    nu1 = 45_000 * n**-0.83 * Dpw**-0.5
    texts = SHAFT | {"lubrication.temperature_by": "stated", "lubrication.temperature": "40",
                     "lubrication.nu40": f"{nu1!r}", "lubrication.nu100": f"{nu1 / 5!r}"}  # fmt: skip
    found, _ = pair_under(answered(texts))
    # the printed inverse of D341 is good to 0.03 %
    assert float(found.bearings[0].kappa[0, 0]) == pytest.approx(1.0, rel=5e-4)


def test_a_bearing_by_itself_and_among_many_to_the_last_bit():
    answers = settling_duty(2)
    duty = Conditions.of(resolve(answers))
    i, j = np.arange(60), np.arange(60)[::-1].copy()
    A, B = (Bearings.of(CATALOGUE.take(at), side, duty) for at, side in ((i, "A"), (j, "B")))
    many = loaded(A, B, duty)
    for row in (0, 31, 59):
        alone = loaded(A.take([row]), B.take([row]), duty)
        for one, whole in zip(alone.states, many.states, strict=True):
            for field in dataclasses.fields(one):
                got, expected = getattr(one, field.name)[0], getattr(whole, field.name)[row]
                assert np.array_equal(got, expected, equal_nan=True)
