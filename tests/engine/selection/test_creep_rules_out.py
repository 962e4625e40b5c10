"""Pairs of which a ring creeps at the mean of its fit, or grows out of it: by plain Python and by the search."""

import dataclasses

import numpy as np
import pytest

import engine.selection.screen as screen_module
from engine.answers.document import put, question_at
from engine.checks import every, holding
from engine.selection.screen import screen
from engine.selection.stages import bounds
from engine.selection.stages.side import Side
from tests.duties import conditions, random_duty, settling_duty, small_catalogue
from tests.engine.selection import second
from tests.engine.selection.test_screen import whole

ROWS = 14


@pytest.fixture
def always_staged(monkeypatch):
    """Send even small catalogues through the bounds."""
    monkeypatch.setattr(screen_module, "FEW_PAIRS", 0)


def creeping_duty(seed, settles=False, shaft="steel"):
    """Return a random duty of lives and loads that many pairs bear, in which loose, hot or soft seats let rings go.

    What tension another shaft than one of steel puts into a cone is not in the second calculation.
    """
    pick = np.random.default_rng(seed + 2000)
    texts = {
        "duty.life": f"{pick.uniform(100, 600):.0f}",
        "duty.static_safety": "0.5",
        "duty.cases[0].application_factor": f"{pick.uniform(1, 4):.2f}",
        "fits.adjusted": pick.choice(["none", "cone at B", "cups"]),
        "fits.level": pick.choice(["by the loads of each bearing", "normal", "heavy"]),
        "fits.shaft_fit_a": pick.choice(["recommended", "k5", "k6", "m6"]),
        "fits.shaft_fit_b": pick.choice(["recommended", "k6", "m5"]),
        "fits.housing_fit_b": pick.choice(["recommended", "K7", "J7"]),
        "fits.shaft_material": shaft,
        "fits.housing_material": pick.choice(["grey cast iron", "aluminium", "steel"], p=[0.4, 0.1, 0.5]),
        "fits.shaft_bore": f"{pick.choice([0, 12])}",
        "fits.cone_hotter": f"{pick.choice([-5, 0, 5])}",
        "fits.cup_hotter": f"{pick.choice([0, 5])}",
        "fits.shaft_roughness": f"{pick.choice([1.6, 2.5, 6.3])}",
        "speed.rotating_ring": pick.choice(["1", "2"], p=[0.6, 0.4]),
        "speed.load_direction": pick.choice(["1", "2", "3", "4"], p=[0.7, 0.1, 0.1, 0.1]),
        "fits.creeping": pick.choice(["1", "1", "1", "2"]),
    }
    made = settling_duty(seed) if settles else random_duty(seed)
    for path, text in texts.items():
        made = put(made, path, question_at(path).parse(str(text)))
    return made


def nu_of(duty):
    return float("nan") if duty.settling.any() else float(duty.nu[0])


@pytest.mark.usefixtures("always_staged")
@pytest.mark.parametrize("settles", [False, True], ids=["stated", "settled"])
@pytest.mark.parametrize("seed", range(24))
def test_screening_equals_a_second_calculation_pair_by_pair(seed, settles):
    rows = ROWS if not settles else 9  # each pair's heat balance is solved by scipy
    catalogue, duty = small_catalogue(seed, rows), conditions(creeping_duty(seed, settles))
    expected, _, edge = second.matrix(catalogue, duty, nu_of(duty), 1e-6 if settles else 1e-9)
    found = whole(screen(catalogue, duty), catalogue)
    assert np.array_equal(found[~edge], expected[~edge])


@pytest.mark.parametrize("settles", [False, True], ids=["stated", "settled"])
@pytest.mark.parametrize("shaft", ["steel", "aluminium"])
@pytest.mark.parametrize("seed", range(24))
def test_stages_drop_only_what_the_exact_check_drops(seed, shaft, settles, monkeypatch):
    catalogue, duty = small_catalogue(seed, 50), conditions(creeping_duty(seed, settles, shaft))
    monkeypatch.setattr(screen_module, "FEW_PAIRS", 0)
    staged = whole(screen(catalogue, duty), catalogue)
    monkeypatch.setattr(screen_module, "FEW_PAIRS", 10**9)
    assert np.array_equal(staged, whole(screen(catalogue, duty), catalogue))
    # and those that pass are those of the detail view
    i, j = np.divmod(np.random.default_rng(seed).permutation(50**2)[:200], 50)
    evaluated = every.evaluate(catalogue.take(i), catalogue.take(j), duty)
    wanted = screen_module.part.eligible(catalogue, duty.resolved)
    assert np.array_equal(staged[i, j], evaluated.passes & wanted[i] & wanted[j])


def counts(seed):
    """Return how many pairs pass as answered, and how many where creep only cautions."""
    catalogue, made = small_catalogue(seed, 40), put(creeping_duty(seed), "fits.creeping", "fails")
    return [screen(catalogue, conditions(put(made, "fits.creeping", how))).count for how in ("fails", "cautions")]


def test_creep_rules_some_out_and_not_all():
    each = [counts(seed) for seed in range(36)]
    assert all(ruled <= free for ruled, free in each)
    assert sum(0 < ruled < free for ruled, free in each) > 5


@pytest.mark.parametrize("settles", [False, True], ids=["stated", "settled"])
@pytest.mark.parametrize("seed", range(12))
def test_bounds_hold_the_use_of_every_pair_between_them(seed, settles):
    """What surely creeps creeps with every partner, and what surely holds holds with every one."""
    catalogue, duty = small_catalogue(seed, 30), conditions(creeping_duty(seed, settles))
    sides = {name: Side(name, catalogue, np.arange(30), duty) for name in "AB"}
    i, j = np.divmod(np.arange(900), 30)
    found = every.under_loads(catalogue.take(i), catalogue.take(j), duty)
    apart = (found.bearings[1].z - found.bearings[0].z)[:, 0] >= 1.0
    for at, (side, other, own) in enumerate((("A", "B", i), ("B", "A", j))):
        bounded = bounds.bound(sides[side], bounds.Partners.of(sides[other], [np.arange(30)]))
        rows = dataclasses.replace(found.bearings[at], strain=None)
        passes = every.passing(every.own_outcomes(side, rows, found.states[at], duty), len(own))
        if not found.bearings[at].strain:
            assert not np.any(bounded.never[0, own] & passes & apart)
        assert not np.any(bounded.always[0, own] & ~passes & apart)


def test_a_ring_whose_limits_are_not_at_hand_is_not_judged():
    catalogue = small_catalogue(3, 30)
    strange = catalogue.take(np.arange(30))
    object.__setattr__(strange, "tolerance", np.array(["A"] * 30))
    duty = conditions(put(random_duty(3), "fits.adjusted", "none"))
    found = every.evaluate(strange, strange, duty)
    asked = [one for one in found.outcomes if one.check in (*holding.MEAN.values(), holding.STABILITY)]
    assert asked and all(one.passes.all() and one.judged is not None and not one.judged.any() for one in asked)


def test_a_cup_of_a_hub_that_turns_has_no_play():
    """By the printed table H7 and J7 leave play at their mean, and N7 none; warm aluminium loses any of them."""
    hub = {"speed.rotating_ring": "cup", "duty.arrangement": "back_to_back"}
    catalogue = small_catalogue(3, 30)
    catalogue = catalogue.take(np.flatnonzero(catalogue.D < 300))  # turning widens the housings of larger ones
    for fit, housing, left in (("H7", "steel", 0), ("J7", "steel", 0), ("N7", "steel", 1), ("P7", "aluminium", 0)):
        fits = {"fits.housing_fit_a": fit, "fits.housing_fit_b": fit, "fits.housing_material": housing}
        made = random_duty(3)
        for path, text in (hub | fits | {"fits.cup_hotter": "0", "lubrication.temperature": "90 degC"}).items():
            made = put(made, path, question_at(path).parse(text))
        asked = [
            one for one in every.evaluate(catalogue, catalogue, conditions(made)).outcomes if one.check == holding.PLAY
        ]
        assert [one.side for one in asked] == ["A", "B"]
        assert all(one.passes.mean() == left for one in asked), fit


def test_a_ring_that_must_slide_only_cautions():
    catalogue, made = small_catalogue(3, 30), put(random_duty(3), "duty.arrangement", "back_to_back")
    for adjusted, ruling in (("none", {"A", "B"}), ("cone_b", {"A"}), ("cones", set())):
        duty = conditions(put(made, "fits.adjusted", adjusted))
        asked = [
            one for one in every.evaluate(catalogue, catalogue, duty).outcomes if one.check.key == "creep_cone_mean"
        ]
        assert {one.side for one in asked} == {"A", "B"}
        assert {one.side for one in asked if not one.check.advisory} == ruling
