"""Screening where each pair's own temperature settles: against scipy pair by pair, and with bounds against without."""

import dataclasses

import numpy as np
import pytest

import engine.selection.screen as screen_module
from engine.operating import Bearings, pair_loads, state
from engine.selection import criteria
from engine.selection.screen import screen
from engine.selection.stages import bounds
from engine.selection.stages.friction_loss import friction_loss
from engine.selection.stages.side import Side
from engine.selection.weighing import weighed_shortlist
from engine.warmth.settling import loaded, warmed
from tests.duties import conditions, settling_duty, small_catalogue
from tests.engine.selection import second
from tests.engine.selection.test_screen import whole


@pytest.fixture
def always_staged(monkeypatch):
    """Send even small catalogues through the bounds."""
    monkeypatch.setattr(screen_module, "FEW_PAIRS", 0)


@pytest.mark.usefixtures("always_staged")
@pytest.mark.parametrize("seed", range(14))
def test_screening_equals_a_second_calculation_pair_by_pair(seed):
    """Against plain-Python loops with each pair's heat balance solved by scipy (one_balance.py), every pair of rows."""
    catalogue, duty = small_catalogue(seed, 13), conditions(settling_duty(seed))
    found = whole(screen(catalogue, duty), catalogue)
    expected, _, edge = second.matrix(catalogue, duty, float("nan"), 1e-6)  # two root finders agree to about 1e-9 K
    assert np.array_equal(found[~edge], expected[~edge])


@pytest.mark.parametrize("seed", range(40))
def test_stages_drop_only_what_the_exact_check_drops(seed, monkeypatch):
    catalogue, duty = small_catalogue(seed, 50), conditions(settling_duty(seed))
    monkeypatch.setattr(screen_module, "FEW_PAIRS", 0)
    staged = whole(screen(catalogue, duty), catalogue)
    monkeypatch.setattr(screen_module, "FEW_PAIRS", 10**9)
    assert np.array_equal(staged, whole(screen(catalogue, duty), catalogue))


def test_random_duties_let_some_pairs_run_cool_enough_and_not_others():
    shares, hot = [], 0
    for seed in range(40):
        catalogue, duty = small_catalogue(seed, 24), conditions(settling_duty(seed))
        shares.append(screen(catalogue, duty).count / 24**2)
        A, B = (Bearings.of(catalogue, side, duty) for side in "AB")
        hot += not (loaded(A, B, duty).warmth.T[0][:, duty.cases.running] < 120).all()
    assert sum(0 < share < 0.9 for share in shares) > len(shares) / 3
    assert hot > 8


@pytest.mark.parametrize("seed", range(30))
def test_bounds_hold_every_pair_between_them(seed):
    catalogue, duty = small_catalogue(seed, 40), conditions(settling_duty(seed))
    A, B = (Bearings.of(catalogue, side, duty) for side in "AB")
    i, j = (index.ravel() for index in np.indices((40, 40)))
    loads = pair_loads(A.take(i), B.take(j), duty)
    warm, warmth = warmed(A.take(i), B.take(j), loads, duty)
    apart = (B.z[j] - A.z[i])[:, 0] >= 1.0
    for at_side, (side, at, load, rows) in enumerate((("A", i, loads[0], warm[0]), ("B", j, loads[1], warm[1]))):
        own, partners = (Side(one, catalogue, np.arange(40), duty) for one in (side, "BA"["AB".index(side)]))
        found = bounds.bound(own, bounds.Partners.of(partners, [np.arange(40)]), friction=friction_loss)
        exact = bounds.damage(state(rows, load, duty).life, duty)
        assert np.all((exact >= found.damage_least[0, at])[apart])
        assert np.all((exact <= found.damage_greatest[0, at])[apart])
        settled = dataclasses.replace(duty, nu=warmth.nu[at_side])
        lost = friction_loss(catalogue.take(at), load, settled)
        assert np.all((lost >= found.friction_least[0, at] * (1 - 1e-9))[apart & ~np.isnan(lost)])


@pytest.mark.usefixtures("always_staged")
@pytest.mark.parametrize("seed", range(6))
def test_the_least_friction_leads_at_the_settled_temperatures(seed, monkeypatch):
    monkeypatch.setattr(criteria, "FRICTION", friction_loss)
    catalogue, duty = small_catalogue(seed, 40), conditions(settling_duty(seed))
    found = screen(catalogue, duty)
    listed = weighed_shortlist(catalogue, found, duty, {"friction": 1.0}, 10)
    i, j = np.nonzero(found.passes)
    rows_A, rows_B = found.rows_A[i], found.rows_B[j]
    A = Bearings.of(catalogue.take(rows_A), "A", duty)
    B = Bearings.of(catalogue.take(rows_B), "B", duty)
    under = loaded(A, B, duty)
    every = sum(
        friction_loss(catalogue.take(rows), load, dataclasses.replace(duty, nu=nu))
        for rows, load, nu in zip((rows_A, rows_B), under.loads, under.warmth.nu, strict=True)
    )
    assert listed.values["friction"].tolist() == sorted(every.tolist())[:10]
