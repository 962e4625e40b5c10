"""What the stages of a screening promise: bounds that hold, pieces that fit, checks of which nothing is known."""

import dataclasses

import numpy as np
import pytest

import engine.selection.screen as screen_module
from engine.answers.document import put
from engine.checks import every
from engine.checks.check import Check, Outcome
from engine.operating import Bearings, pair_loads, state
from engine.selection import rank
from engine.selection.first_rows import first_rows
from engine.selection.screen import decide, narrow, screen
from engine.selection.stages import blocks, bounds
from engine.selection.stages.blocks import SearchCancelled
from engine.selection.stages.side import Side
from engine.sources import COMMON_PRACTICE, Citation
from tests.duties import conditions, random_duty, small_catalogue

#: Falls, rises and falls again with the load: no bound of it is known.
WAVE = Check("wave", "Wave", "-", Citation(COMMON_PRACTICE, "a trial"), "sine of the load", "half")


def wave(evaluated, _conditions):
    """Return a check of the pair that is monotone in nothing."""
    A, B = evaluated.loads
    return [Outcome(WAVE, "pair", 1 + np.sin((A.Fr[:, 0] + 2 * B.Fa[:, -1]) / 500), np.asarray(1.5))]


def with_rounded_factors(catalogue):
    """Return the catalogue with e and Y printed to one decimal, so that both lines of P meet nowhere."""
    return dataclasses.replace(catalogue, e=np.round(catalogue.e, 1), Y=np.round(catalogue.Y, 1))


def by_evaluation(catalogue, duty):
    """Return the whole matrix by the detail view's evaluation of every pair, without a bound."""
    n = len(catalogue)
    i, j = (index.ravel() for index in np.indices((n, n)))
    return every.evaluate(catalogue.take(i), catalogue.take(j), duty).passes.reshape(n, n)


def whole(screening, catalogue):
    matrix = np.zeros((len(catalogue),) * 2, dtype=bool)
    matrix[np.ix_(screening.rows_A, screening.rows_B)] = screening.passes
    return matrix


@pytest.fixture(autouse=True)
def staged(monkeypatch):
    monkeypatch.setattr(screen_module, "FEW_PAIRS", 0)


def eligible(catalogue):
    """Return the matrix of pairs of parts that are to be had."""
    had = catalogue.availability != "discontinued"
    return had[:, None] & had[None, :]


@pytest.mark.parametrize("seed", range(15))
def test_a_check_monotone_in_nothing_is_screened_exactly(seed, monkeypatch):
    monkeypatch.setattr(every, "EXACT_ONLY", (wave,))
    catalogue, duty = small_catalogue(seed, 40), conditions(random_duty(seed))
    found = whole(screen(catalogue, duty), catalogue)
    assert np.array_equal(found, by_evaluation(catalogue, duty) & eligible(catalogue))
    listed = rank.shortlist(catalogue, screen(catalogue, duty), duty, "mass", 30)
    assert listed.evaluated.passes.all()


def test_such_a_check_rules_out_some_and_not_others(monkeypatch):
    before = [screen(small_catalogue(s, 40), conditions(random_duty(s))).count for s in range(15)]
    monkeypatch.setattr(every, "EXACT_ONLY", (wave,))
    after = [screen(small_catalogue(s, 40), conditions(random_duty(s))).count for s in range(15)]
    assert 0.2 * sum(before) < sum(after) < 0.8 * sum(before)


@pytest.mark.parametrize("seed", range(8))
def test_a_check_for_leaders_thins_the_list_and_not_the_count(seed, monkeypatch):
    catalogue, duty = small_catalogue(seed, 60), conditions(random_duty(seed))
    found = screen(catalogue, duty)
    every_pair = rank.shortlist(catalogue, found, duty, "mass", found.count)
    kept = every_pair.evaluated
    passes = every.passing(wave(kept, duty), len(every_pair)) if len(every_pair) else np.zeros(0, dtype=bool)
    monkeypatch.setattr(every, "FOR_LEADERS", (wave,))
    assert screen(catalogue, duty).count == found.count
    listed = rank.shortlist(catalogue, found, duty, "mass", 10)
    assert np.array_equal(listed.rows_A, every_pair.rows_A[passes][:10])
    assert np.array_equal(listed.rows_B, every_pair.rows_B[passes][:10])


@pytest.mark.parametrize("seed", range(20))
def test_bounds_hold_where_the_two_lines_of_P_do_not_meet(seed):
    catalogue, duty = with_rounded_factors(small_catalogue(seed, 40)), conditions(random_duty(seed))
    n = len(catalogue)
    A, B = (Bearings.of(catalogue, side, duty) for side in "AB")
    i, j = (index.ravel() for index in np.indices((n, n)))
    loads = pair_loads(A.take(i), B.take(j), duty)
    apart = (B.z[j] - A.z[i])[:, 0] >= 1.0
    for side, own, at, load in (("A", A, i, loads[0]), ("B", B, j, loads[1])):
        other = Side("B" if side == "A" else "A", catalogue, np.arange(n), duty)
        found = bounds.bound(Side(side, catalogue, np.arange(n), duty), bounds.Partners.of(other, [np.arange(n)]))
        now = state(own.take(at), load, duty)
        exact = bounds.damage(now.life, duty)
        assert np.all((exact >= found.damage_least[0, at])[apart])
        assert np.all((exact <= found.damage_greatest[0, at])[apart])
        used = every.governing(every.own_outcomes(side, own.take(at), now, duty), len(at))
        assert np.all((used >= found.utilisation_least[0, at])[apart])
    assert np.array_equal(whole(screen(catalogue, duty), catalogue),
                          by_evaluation(catalogue, duty) & eligible(catalogue))  # fmt: skip


@pytest.mark.parametrize("seed", range(6))
def test_the_size_of_the_pieces_changes_nothing(seed, monkeypatch):
    catalogue, duty = small_catalogue(seed, 50), conditions(random_duty(seed))
    whole_pieces = screen(catalogue, duty)
    monkeypatch.setattr(blocks, "ELEMENTS", 40)
    monkeypatch.setattr("engine.selection.stages.side.MOST_KEPT", 0)
    small_pieces = screen(catalogue, duty)
    assert np.array_equal(whole(whole_pieces, catalogue), whole(small_pieces, catalogue))
    for rank_by in ("mass", "life"):
        one, other = (rank.shortlist(catalogue, each, duty, rank_by, 20) for each in (whole_pieces, small_pieces))
        assert np.array_equal(one.rows_A, other.rows_A) and np.array_equal(one.rows_B, other.rows_B)


def test_a_search_tells_how_far_it_is_and_stops_when_asked():
    catalogue, duty = small_catalogue(2, 200), conditions(random_duty(2))
    told = []
    screen(catalogue, duty, progress=lambda what, share: told.append((what, share)))
    shares = [share for _, share in told]
    assert shares == sorted(shares) and shares[0] == 0.0 and shares[-1] == 1.0 and len(shares) > 5
    asked = []

    def after(many):
        asked.clear()
        return lambda: asked.append(1) or len(asked) > many

    for many in (0, 3, 8):
        with pytest.raises(SearchCancelled):
            screen(catalogue, duty, after(many))
        assert len(asked) == many + 1  # it stops at once


@pytest.mark.parametrize("seed", range(30))
def test_the_first_rows_pass_and_are_as_many_as_there_are(seed):
    catalogue, duty = small_catalogue(seed, 60), conditions(random_duty(seed))
    field = narrow(catalogue, duty)
    early, found = first_rows(field, 15), decide(field)
    assert early.evaluated.passes.all()
    assert np.all(whole(found, catalogue)[early.rows_A, early.rows_B])
    assert len(early) <= 15 and bool(len(early)) == bool(found.count)
    mass = early.evaluated.A.mass + early.evaluated.B.mass
    assert np.all(np.diff(mass) >= 0)


def test_first_rows_without_loads_are_the_lightest_pairs():
    from tests.duties import answered

    catalogue, duty = small_catalogue(1, 300), conditions(answered({"envelope.mass": "1 kg"}))
    early = first_rows(narrow(catalogue, duty), 20)
    listed = rank.shortlist(catalogue, screen(catalogue, duty), duty, "mass", 20)
    assert len(early) == 20
    np.testing.assert_allclose(early.evaluated.A.mass + early.evaluated.B.mass,
                               listed.evaluated.A.mass + listed.evaluated.B.mass)  # fmt: skip


@pytest.mark.parametrize("by", ["stated", "settled"])
def test_what_is_kept_of_a_side_is_what_its_rows_would_be_by_themselves(by):
    catalogue = small_catalogue(4, 60)
    duty = conditions(put(random_duty(4), "lubrication.temperature_by", by))
    side, index = Side("A", catalogue, np.arange(5, 55), duty), np.array([3, 8, 40])
    side.bearings(slice(0, 2))  # from here on the whole side is known
    kept, alone = (one.bearings(slice(None)) for one in (side.keep(index), Side("A", catalogue, index + 5, duty)))
    for name in ("C", "C0", "Cu", "Y", "z", "kappa", "e_C"):
        assert np.array_equal(getattr(kept, name), getattr(alone, name), equal_nan=True)
