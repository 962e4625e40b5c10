"""What fit and steel rule out, row by row, against a calculation in plain Python (one_ring.py)."""

import numpy as np
import pytest

from engine import fitting
from engine.answers.document import put, question_at
from engine.checks import every, fits, part
from engine.selection.screen import screen
from tests.duties import conditions, random_duty, small_catalogue
from tests.engine.selection import one_ring
from tests.engine.selection.one_part import fit_and_steel

SHAFT = ["recommended", "k6", "m6", "n6", "p6", "r6"]


def random_fits(seed):
    """Return a random duty with fits of which some are too tight for some steels."""
    pick = np.random.default_rng(seed + 1000)
    texts = {
        "fits.shaft_fit_a": pick.choice(SHAFT), "fits.shaft_fit_b": pick.choice(SHAFT),
        "fits.level": pick.choice(["light", "normal", "heavy", "heavy with shock"]),
        "fits.shaft_bore": f"{pick.choice([0, 12, 30])}",
        "fits.cone_hotter": f"{pick.choice([-10, 0, 5, 20])}",
        "fits.shaft_roughness": f"{pick.choice([1.6, 2.5, 6.3])}",
        "steel.dirt": pick.choice(["kept out", "some gets in", "much gets in"]),
        "speed.rotating_ring": pick.choice(["1", "2"]),
    }  # fmt: skip
    made = random_duty(seed)
    for path, text in texts.items():
        made = put(made, path, question_at(path).parse(str(text)))
    return made


@pytest.mark.parametrize("seed", range(40))
def test_rows_that_fit_and_steel_rule_out(seed):
    catalogue, duty = small_catalogue(seed, 60), conditions(random_fits(seed))
    for side in "AB":
        outcomes = fits.binding(catalogue, side, duty.resolved)
        stays = np.logical_and.reduce([np.broadcast_to(one.passes, len(catalogue)) for one in outcomes])
        for at, (expected, margin) in enumerate(fit_and_steel(catalogue, side, duty.resolved)):
            if margin > 1e-9:
                assert stays[at] == expected, (side, at)


@pytest.mark.parametrize("seed", range(12))
def test_a_temperature_that_settles_rules_out_the_same_rows(seed):
    """A steel ring on a steel shaft grows with it, so the press fit is as tight at any temperature."""
    catalogue = small_catalogue(seed, 60)
    duty = conditions(put(random_fits(seed), "lubrication.temperature_by", "settled"))
    for side in "AB":
        outcomes = fits.binding(catalogue, side, duty.resolved)
        assert not any(np.isnan(one.demand).any() for one in outcomes)
        stays = np.logical_and.reduce([np.broadcast_to(one.passes, len(catalogue)) for one in outcomes])
        expected = [bears or margin <= 1e-9 for bears, margin in fit_and_steel(catalogue, side, duty.resolved)]
        assert np.array_equal(stays, expected)


@pytest.mark.parametrize("seed", range(40))
def test_screening_keeps_no_row_that_they_rule_out_and_drops_none_for_them_that_stays(seed):
    catalogue, duty = small_catalogue(seed, 60), conditions(random_fits(seed))
    found = screen(catalogue, duty)
    keys = {fits.HOOP.key, fits.SHOCK.key, fits.DIRT.key}
    for side, rows in (("A", found.rows_A), ("B", found.rows_B)):
        expected = np.array([stays for stays, _ in fit_and_steel(catalogue, side, duty.resolved)])
        assert expected[rows].all()
        if not duty.resolved.loads_known:
            others = part.eligible(catalogue, duty.resolved)
            for outcome in every.part_outcomes(catalogue, side, duty.resolved):
                others &= outcome.passes if outcome.check.key not in keys else True
            assert np.array_equal(rows, np.flatnonzero(others & expected))


def test_random_fits_rule_out_some_and_not_all():
    shares = []
    for seed in range(40):
        catalogue, duty = small_catalogue(seed, 60), conditions(random_fits(seed))
        outcomes = fits.binding(catalogue, "A", duty.resolved)
        shares.append(np.logical_and.reduce([np.broadcast_to(one.passes, 60) for one in outcomes]).mean())
    assert sum(0 < share < 1 for share in shares) > 10


def test_a_turning_cup_is_strained_by_turning_alone():
    """Against the flat rotating ring of one_ring.py, on a shaft that stands: a loose cup at high speed."""
    catalogue = small_catalogue(3, 60)
    texts = {
        "speed.rotating_ring": "2", "speed.overspeed": "9000", "fits.housing_fit_a": "G7", "fits.shaft_fit_a": "g6",
        "fits.cup_hotter": "-60", "fits.cone_hotter": "60",
    }  # fmt: skip
    made = random_duty(3)
    for path, text in texts.items():
        made = put(made, path, question_at(path).parse(text))
    resolved = conditions(made).resolved
    tension, seen = fits.binding(catalogue, "A", resolved)[0].demand, 0
    mounted = fitting.seated(fitting.seats_of(catalogue, "A", resolved), fitting.hardest_running(catalogue, resolved))
    for at in range(len(catalogue)):
        row = {name: float(getattr(catalogue, name)[at]) for name in ("D", "E")}
        if mounted.cone.hoop_greatest[at] < tension[at]:
            seen += 1
            assert tension[at] == pytest.approx(one_ring.tension_of_cup_turning(row, resolved), rel=1e-12)
    assert seen > 10
