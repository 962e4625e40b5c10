"""The order of the shortlist against a plain sort of every passing pair."""

import numpy as np
import pytest

import engine.selection.screen as screen_module
from engine.selection import rank
from engine.selection.screen import screen
from engine.selection.stages import leaders
from tests.duties import conditions, random_duty, settling_duty, small_catalogue


def brute(catalogue, screening, duty, rank_by):
    """Evaluate every passing pair and sort them all in Python."""
    i, j = np.nonzero(screening.passes)
    rows_A, rows_B = screening.rows_A[i], screening.rows_B[j]
    listed = rank.of_rows(catalogue, rows_A, rows_B, duty, "mass", len(rows_A))
    A, B = listed.evaluated.A, listed.evaluated.B
    keys = []
    for k in range(len(listed)):
        mass, size, life = (A.mass[k] + B.mass[k],), (A.D[k] + B.D[k], A.T[k] + B.T[k]), (-listed.life[k],)
        cost = (A.cost[k] + B.cost[k],)
        order = {"mass": mass + size, "size": size + mass, "life": life + mass, "cost": cost + mass}[rank_by]
        keys.append((*order, listed.rows_A[k], listed.rows_B[k]))
    return [key[-2:] for key in sorted(keys)]


@pytest.mark.parametrize("rank_by", ["mass", "size", "life", "cost"])
@pytest.mark.parametrize("seed", range(12))
def test_the_leaders_are_the_first_of_all_pairs_sorted(seed, rank_by, monkeypatch):
    monkeypatch.setattr(screen_module, "FEW_PAIRS", 0)
    monkeypatch.setattr(leaders, "BAND", 7)
    catalogue, duty = small_catalogue(seed, 50), conditions(random_duty(seed))
    found = screen(catalogue, duty)
    listed = rank.shortlist(catalogue, found, duty, rank_by, 25)
    expected = brute(catalogue, found, duty, rank_by)[:25]
    assert [(int(a), int(b)) for a, b in zip(listed.rows_A, listed.rows_B, strict=True)] == expected


@pytest.mark.parametrize("seed", range(8))
def test_the_longest_lived_at_their_settled_temperatures_lead(seed, monkeypatch):
    monkeypatch.setattr(screen_module, "FEW_PAIRS", 0)
    catalogue, duty = small_catalogue(seed, 50), conditions(settling_duty(seed))
    found = screen(catalogue, duty)
    listed = rank.shortlist(catalogue, found, duty, "life", 25)
    expected = brute(catalogue, found, duty, "life")[:25]
    assert [(int(a), int(b)) for a, b in zip(listed.rows_A, listed.rows_B, strict=True)] == expected


def test_the_order_is_the_same_every_time():
    catalogue, duty = small_catalogue(2, 60), conditions(random_duty(2))
    lists = [rank.shortlist(catalogue, screen(catalogue, duty), duty, "mass", 50) for _ in range(2)]
    assert np.array_equal(lists[0].rows_A, lists[1].rows_A) and np.array_equal(lists[0].rows_B, lists[1].rows_B)


def test_a_search_can_be_cancelled():
    catalogue, duty = small_catalogue(2, 200), conditions(random_duty(2))
    found = screen(catalogue, duty)
    with pytest.raises(screen_module.SearchCancelled):
        rank.shortlist(catalogue, found, duty, "mass", 50, cancelled=lambda: True)
