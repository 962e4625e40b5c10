"""Explanations are true: what is said to admit a pair admits it, and a little less does not."""

from functools import cache

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.answers.document import all_asked, put, question_at
from engine.answers.question import Limits, Quantity
from engine.answers.resolved import resolve
from engine.selection.alike import BUT, alike
from engine.selection.loosening import moves, places, rays
from engine.selection.screen import SearchCancelled, screen
from engine.selection.verdict import verdict
from engine.selection.why_not import why_not, why_not_part
from tests.duties import answered, conditions, random_duty, small_catalogue
from tests.strategies import numbers

#: A duty takes some seconds; half of them stand behind the marker.
SEEDS = [*range(3), *(pytest.param(seed, marks=pytest.mark.slow) for seed in range(3, 12))]


def whole(screening, catalogue):
    matrix = np.zeros((len(catalogue),) * 2, dtype=bool)
    matrix[np.ix_(screening.rows_A, screening.rows_B)] = screening.passes
    return matrix


def a_failing_pair(seed):
    """Return a catalogue, answers, and a pair that fails by as little as any of some."""
    catalogue, answers = small_catalogue(seed, 40), random_duty(seed)
    fails = np.argwhere(~whole(screen(catalogue, conditions(answers)), catalogue))
    pick = np.random.default_rng(seed)
    some = [tuple(map(int, fails[at])) for at in pick.integers(0, len(fails), 30)]
    row_A, row_B = min(some, key=lambda p: (len(on(catalogue, p, answers).failing), -on(catalogue, p, answers).margin))
    return catalogue, answers, row_A, row_B


@cache
def told_of(seed):
    """Return what `a_failing_pair` returns, and why it fails."""
    catalogue, answers, row_A, row_B = a_failing_pair(seed)
    heard = []
    told = why_not(catalogue, row_A, row_B, answers, report=heard.append)
    assert heard == list(told.changes)  # each as it is found, nothing else
    return catalogue, answers, (row_A, row_B), told


def on(catalogue, pair, answers):
    return verdict(catalogue.take([pair[0]]), catalogue.take([pair[1]]), answers)


def less_far(answers, change):
    """Return the answers with an answer a little less far changed than to where it turns."""
    given = next(p for p in places(answers, resolve(answers)) if p.path == change.step.path)
    ways = [ray for ray in rays(given) if (change.turns - ray.start) * ray.sign > 0 and end_moves(ray, change)]
    (ray,) = ways
    near = change.turns - ray.sign * 3e-6 * max(abs(change.turns), 1e-6)
    return put(answers, given.path, ray.exactly(near)) if (near - ray.start) * ray.sign > 0 else None


def end_moves(ray, change):
    value = change.step.value
    return not isinstance(value, Limits) or getattr(value, ray.end_of) != ray.start


@pytest.mark.parametrize("seed", SEEDS)
def test_every_change_admits_and_a_little_less_does_not(seed):
    catalogue, answers, pair, told = told_of(seed)
    assert told.failing
    for change in told.changes:
        assert change.admits
        changed = put(answers, change.step.path, change.step.value)
        assert on(catalogue, pair, changed).passes
        # not only by the verdict on the pair: the search lists it too
        assert whole(screen(catalogue, conditions(changed)), catalogue)[pair]
        if change.turns is not None:
            less = less_far(answers, change)
            assert less is None or not on(catalogue, pair, less).passes


@pytest.mark.parametrize("seed", SEEDS)
def test_a_change_can_be_typed_as_it_is_shown(seed):
    for change in told_of(seed)[-1].changes:
        question, value = question_at(change.step.path), change.step.value
        if isinstance(value, Quantity | Limits):
            assert question.parse(value.typed) == value


@pytest.mark.parametrize("seed", SEEDS)
def test_changes_together_admit_as_well(seed):
    catalogue, answers, pair, told = told_of(seed)
    changed = answers
    for change in told.together:
        changed = put(changed, change.step.path, change.step.value)
    if told.together:
        assert not told.changes and on(catalogue, pair, changed).passes


@pytest.mark.slow
def test_most_failing_pairs_are_told_a_way_in():
    told = [told_of(seed)[-1] for seed in range(12)]
    assert sum(bool(one.changes) for one in told) >= 6
    assert sum(bool(one.changes or one.together) for one in told) >= 9


#: Every pair of so many rows is judged by itself: of few rows always, of more with the soaks.
FEW, MANY = 10, 14
JUDGED = [*((seed, FEW) for seed in range(4)), *(pytest.param(n, MANY, marks=pytest.mark.slow) for n in range(20))]


@pytest.mark.parametrize(("seed", "rows"), JUDGED)
def test_the_verdict_on_a_pair_is_that_of_the_search(seed, rows):
    catalogue, answers = small_catalogue(seed, rows), random_duty(seed)
    answers = put(answers, "envelope.same_on_both_sides", seed % 4 == 0)
    answers = put(answers, "envelope.availability", ("stocked", "any", "current")[seed % 3])
    answers = put(answers, "steel.allowed", ("either", "case")[seed % 2])
    found = whole(screen(catalogue, conditions(answers)), catalogue)
    for i in range(rows):
        for j in range(rows):
            assert on(catalogue, (i, j), answers).passes == found[i, j]


def test_a_life_too_short_by_hand():
    """The life that admits is the life that the pair reaches, which the check itself names as its capacity."""
    texts = {"duty.distance": "200", "duty.cases[0].speed": "400", "duty.cases[0].radial_y": "9 kN",
             "duty.life": "1 yr"}  # fmt: skip
    catalogue, answers = small_catalogue(5, 40), answered(texts)
    reaches = []
    for row in range(40):
        stands = on(catalogue, (row, row), put(answers, "duty.life", Quantity(10_000_000.0)))
        only = {one.check.key for one in stands.failing} <= {"life", "system_life"}
        reaches.append(next(f.capacity for f in stands.findings if f.check.key == "system_life") if only else np.nan)
    row = int(np.nanargmin(np.abs(np.array(reaches) - 5000)))
    assert reaches[row] < 8760
    told = why_not(catalogue, row, row, answers)
    life = next(change for change in told.changes if change.step.path == "duty.life")
    assert life.turns == pytest.approx(reaches[row], rel=2e-6)
    assert life.step.value.value <= reaches[row] * (1 + 1e-6)
    # in the unit that was typed, with few digits
    assert life.step.value.typed.endswith(" yr") and len(life.step.value.typed) <= len("0.123 yr")


def test_a_bore_in_inches_is_widened_to_just_hold_the_part():
    catalogue, answers = small_catalogue(5, 40), answered({"envelope.bore_a": "1 .. 2 in", "envelope.mass": "1 t"})
    row = int(np.flatnonzero(catalogue.d > 60)[0])
    told = why_not(catalogue, row, 0, answers)
    widened = next(change for change in told.changes if change.step.path == "envelope.bore_a")
    value = widened.step.value
    assert value.least == 25.4 and value.typed.endswith(" in")
    # a dimension matches to a hundredth of a millimetre
    assert catalogue.d[row] - 0.0101 <= value.greatest < catalogue.d[row] * 1.02


def test_a_wish_is_among_what_fails():
    catalogue, answers = small_catalogue(5, 40), answered({"steel.allowed": "case"})
    through = int(np.flatnonzero((catalogue.steel == "through") & (catalogue.availability != "discontinued"))[0])
    case = int(np.flatnonzero((catalogue.steel == "case") & (catalogue.availability != "discontinued"))[0])
    told = why_not(catalogue, through, case, answers)
    assert [one.key for one in told.failing] == [("wanted_steel", "A")]
    assert {(change.step.path, change.step.value) for change in told.changes} == {
        ("steel.allowed", "either"),
    }
    both = why_not(catalogue, through, through, answers)
    assert {("steel.allowed", "either"), ("steel.allowed", "through")} == {
        (change.step.path, change.step.value) for change in both.changes
    }


def test_a_passing_pair_needs_nothing():
    catalogue, answers = small_catalogue(3, 40), random_duty(3)
    passing = np.argwhere(whole(screen(catalogue, conditions(answers)), catalogue))[0]
    told = why_not(catalogue, *map(int, passing), answers)
    assert told.verdict.passes and told.failing == told.changes == told.together == ()


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("side", "AB")
def test_a_part_is_judged_by_the_partner_that_serves_it_best(seed, side):
    catalogue, answers = small_catalogue(seed, 30), random_duty(seed)
    found = whole(screen(catalogue, conditions(answers)), catalogue)
    found = found if side == "A" else found.T
    for row in range(0, 30, 6):
        told = why_not_part(catalogue, row, side, answers, cancelled=lambda: False) if found[row].any() else None
        if told is not None:
            assert told.verdict.passes
            assert (told.row_A if side == "A" else told.row_B) == row


def test_an_explanation_can_be_cancelled():
    catalogue, answers, *pair = a_failing_pair(3)
    with pytest.raises(SearchCancelled):
        why_not(catalogue, *pair, answers, cancelled=lambda: True)


class TestLoosening:
    def test_every_way_declared_fits_the_kind_of_its_question(self):
        ways = {"measure": {"up", "down", "both", "nearer_zero"}, "span": {"wider"},
                "choice": {"options", "ordered", "towards_first"}, "yes_no": {"options"}, "text": set()}  # fmt: skip
        declared = [item.question for item in all_asked(answered({})) if item.question.loosen]
        assert len(declared) > 15
        assert all(question.loosen in ways[question.kind] for question in declared)

    @pytest.mark.parametrize("seed", range(6))
    def test_every_step_is_an_answer_of_its_question_and_another_than_before(self, seed):
        answers = random_duty(seed)
        for move in moves(answers, resolve(answers)):
            for step in move.steps:
                assert step.after != step.before
                question = question_at(step.path)
                typed = getattr(step.value, "typed", None)
                assert question.parse(typed if typed is not None else question.show(step.value)) == step.value
            assert [step.level for step in move.steps] == sorted(step.level for step in move.steps)

    def test_what_is_assumed_may_give_too(self):
        answers = answered({"duty.distance": "200"})
        shown = {step.path: step.before for move in moves(answers, resolve(answers)) for step in move.steps}
        assert shown["duty.life"] == "20 000 h" and shown["duty.static_safety"] == "1.5"
        assert "envelope.bore_a" not in shown  # no limit: nothing to give

    def test_a_fixed_bore_gives_both_ways_and_each_end_by_itself(self):
        answers = answered({"envelope.bore_b": "2 in"})
        found = [move.steps[0].value for move in moves(answers, resolve(answers)) if move.path == "envelope.bore_b"]
        # a tenth of half the bore, to three digits in inches
        assert [one.typed for one in found] == ["2 in .. 2.1 in", "1.9 in .. 2 in"]
        assert [(one.least, one.greatest) for one in found] == [(50.8, 53.34), (48.26, 50.8)]

    def test_cleaner_is_the_only_way_that_dirt_gives(self):
        answers = answered({"lubrication.cleanliness": "severe"})
        (clean,) = [move for move in moves(answers, resolve(answers)) if move.path == "lubrication.cleanliness"]
        assert [step.value for step in clean.steps] == ["slight", "normal", "high"]

    def test_a_shaft_fit_gives_way_to_looser_and_tighter_letters_of_its_grade(self):
        answers = answered({"fits.shaft_fit_a": "m5", "fits.shaft_fit_b": "j7"})
        found = {}
        for move in moves(answers, resolve(answers)):
            found.setdefault(move.path, []).append([step.value for step in move.steps])
        assert sorted(found["fits.shaft_fit_a"]) == [["k5", "js5", "h5", "g5"], ["n5", "p5", "r5"]]
        assert "fits.shaft_fit_b" not in found and "fits.housing_fit_a" not in found

    @given(value=numbers(1.0, 1e5), far=numbers(1.001, 3.0), unit=st.sampled_from(["N", "kN", "lbf"]))
    def test_rounding_outward_never_falls_short(self, value, far, unit):
        answers = answered({"duty.distance": "200", "duty.cases[0].speed": "9", "duty.cases[0].axial": f"{value:f} N"})
        answers = put(answers, "duty.cases[0].axial", Quantity(value, f"{value:f} {unit}"))
        given = next(p for p in places(answers, resolve(answers)) if p.path == "duty.cases[0].axial")
        (ray,) = rays(given)
        goal = value / far
        rounded = ray.typed(goal, 3, outward=True)
        assert rounded is not None
        answer, at = rounded
        assert answer.typed.endswith(f" {unit}")
        assert goal * (1 - 0.011) <= at <= goal * (1 + 1e-12)


class TestAlike:
    @pytest.mark.parametrize("but", BUT)
    def test_they_differ_as_asked(self, but, catalogue):
        row = len(catalogue) // 3
        found = alike(catalogue, row, but)
        columns = {"steeper": "alpha", "shallower": "alpha", "wider": "T", "narrower": "T", "larger outside": "D",
                   "smaller outside": "D", "larger bore": "d", "smaller bore": "d"}  # fmt: skip
        assert len(found) and row not in found
        if but in columns:
            column = getattr(catalogue, columns[but])
            more = but in {"steeper", "wider", "larger outside", "larger bore"}
            assert np.all(column[found] > column[row]) if more else np.all(column[found] < column[row])

    def test_steeper_ones_keep_the_bore(self, catalogue):
        row = int(np.flatnonzero((catalogue.system == "metric") & (catalogue.d == 60))[0])
        found = alike(catalogue, row, "steeper", 3)
        assert np.all(np.abs(catalogue.d[found] / 60 - 1) < 0.05)
