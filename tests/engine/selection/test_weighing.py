"""The weighed order and the non-dominated pairs, against plain Python over every passing pair."""

import math

import numpy as np
import pytest

import engine.selection.screen as screen_module
from engine.answers.document import put
from engine.checks import every
from engine.selection import criteria, rank
from engine.selection.screen import screen
from engine.selection.stages.friction_loss import friction_loss
from engine.selection.weighing import criteria_of, non_dominated, weighed_shortlist, weights_of, wished_shortlist
from tests.duties import answered, conditions, random_duty, small_catalogue

WEIGHTS = [
    {"mass": 1.0},
    {"margin": 1.0},
    {"mass": 1.0, "margin": 2.0, "outside": 0.5},
    {"cost": 1.0, "availability": 0.3, "same": 0.2, "system": 0.1, "width": 1.0},
    {"margin": 0.2, "mass": 0.5, "friction": 1.0},
]


def friction(rows, loads, _conditions):
    """Stand in for a friction loss [W]: it grows with both loads."""
    return 0.001 * rows.D * (loads.Fr + 2 * loads.Fa).mean(axis=-1)


@pytest.fixture(autouse=True)
def staged(monkeypatch):
    monkeypatch.setattr(screen_module, "FEW_PAIRS", 0)
    monkeypatch.setattr(criteria, "FRICTION", friction)


def everything(catalogue, screening, duty):
    """Return the rows of every passing pair, with what can be weighed of it as a dictionary."""
    i, j = np.nonzero(screening.passes)
    rows_A, rows_B = screening.rows_A[i], screening.rows_B[j]
    evaluated = every.evaluate(catalogue.take(rows_A), catalogue.take(rows_B), duty)
    stock = {"stocked": 0.0, "discontinued": 1.0}
    found = []
    for k, (a, b) in enumerate(zip(rows_A.tolist(), rows_B.tolist(), strict=True)):
        used = [float(np.broadcast_to(o.utilisation, len(rows_A))[k]) for o in evaluated.outcomes
                if o.check.spare and not o.check.advisory]  # fmt: skip
        one = {
            "mass": catalogue.mass[a] + catalogue.mass[b],
            "margin": max(used),
            "outside": catalogue.D[a] + catalogue.D[b],
            "width": catalogue.T[a] + catalogue.T[b],
            "cost": catalogue.cost[a] + catalogue.cost[b],
            "availability": sum(stock.get(str(catalogue.availability[row]), 0.5) for row in (a, b)) / 2,
            "same": float(a != b),
            "system": float(catalogue.system[a] != catalogue.system[b]),
            "friction": sum(
                0.001 * catalogue.D[row] * float((at.Fr[k] + 2 * at.Fa[k]).mean())
                for row, at in zip((a, b), evaluated.loads, strict=True)
            ),
        }
        found.append(((a, b), one))
    return found


def score(weights, one):
    proportional = {"mass", "outside", "width", "cost", "friction"}
    return sum(w * (math.log(one[key]) if key in proportional else one[key]) for key, w in weights.items())


@pytest.mark.parametrize("weights", WEIGHTS, ids="+".join)
@pytest.mark.parametrize("seed", range(10))
def test_the_list_is_that_of_all_pairs_sorted(seed, weights):
    catalogue, duty = small_catalogue(seed, 50), conditions(random_duty(seed))
    found = screen(catalogue, duty)
    listed = weighed_shortlist(catalogue, found, duty, weights, 25)
    pairs = everything(catalogue, found, duty)
    ordered = sorted(pairs, key=lambda pair: (score(weights, pair[1]), pair[1]["mass"], pair[0]))[:25]
    expected = [score(weights, one) for _, one in ordered]
    np.testing.assert_allclose(listed.score, expected, rtol=1e-12, atol=1e-12)
    # equal scores may differ in their last digit, so rows are compared where they are told apart
    rows = [(int(a), int(b)) for a, b in zip(listed.rows_A, listed.rows_B, strict=True)]
    told_apart = np.abs(np.diff([-np.inf, *expected])) > 1e-9
    told_apart &= np.abs(np.diff([*expected, np.inf])) > 1e-9
    if told_apart.size:
        told_apart[-1] = False  # its equals may lie just outside the list
    assert [r for r, apart in zip(rows, told_apart, strict=True) if apart] == [
        pair for (pair, _), apart in zip(ordered, told_apart, strict=True) if apart
    ]
    assert set(listed.values) == set(weights)


@pytest.mark.parametrize("weights", WEIGHTS[2:], ids="+".join)
@pytest.mark.parametrize("seed", range(10))
def test_non_dominated_in_the_list_are_so_among_all_that_pass(seed, weights):
    """Against comparing each with each, over every passing pair and not only over the list."""
    catalogue, duty = small_catalogue(seed, 40), conditions(random_duty(seed))
    found = screen(catalogue, duty)
    listed = weighed_shortlist(catalogue, found, duty, weights, 20)
    pairs = dict(everything(catalogue, found, duty))
    keys = [key for key in criteria.CRITERIA if key in weights]
    table = {pair: [round(one[key], 9) for key in keys] for pair, one in pairs.items()}
    for a, b, marked in zip(listed.rows_A.tolist(), listed.rows_B.tolist(), listed.non_dominated, strict=True):
        own = table[a, b]
        beaten = any(other != own and all(x <= y for x, y in zip(other, own, strict=True)) for other in table.values())
        assert marked == (not beaten)


def test_some_are_dominated_and_some_are_not():
    catalogue, duty = small_catalogue(3, 60), conditions(random_duty(3))
    weights = {"mass": 1.0, "margin": 1.0, "outside": 1.0}
    marked = weighed_shortlist(catalogue, screen(catalogue, duty), duty, weights, 50).non_dominated
    assert marked[0] and 0 < marked.sum() < 50


def test_non_dominated_by_hand():
    x, y = np.array([1.0, 2.0, 3.0, 2.0, 1.0]), np.array([3.0, 2.0, 1.0, 3.0, 3.0])
    # (2, 3) is beaten by (2, 2) and by (1, 3); equal ones do not beat each other
    assert non_dominated([x, y], 5).tolist() == [True, True, True, False, True]


def test_the_order_of_two_pairs_does_not_depend_on_the_others():
    catalogue, duty = small_catalogue(3, 120), conditions(random_duty(3))
    weights = {"mass": 1.0, "cost": 1.0, "outside": 1.0}
    long = weighed_shortlist(catalogue, screen(catalogue, duty), duty, weights, 5000)
    half = catalogue.take(np.arange(0, 120, 2))
    short = weighed_shortlist(half, screen(half, duty), duty, weights, 5000)
    names = [list(zip(each.evaluated.A.designation.tolist(), each.evaluated.B.designation.tolist(), strict=True))
             for each in (long, short)]  # fmt: skip
    common = [name for name in names[0] if name in set(names[1])]
    assert common == [name for name in names[1] if name in set(names[0])] and len(common) > 10


def test_the_order_is_the_same_every_time():
    catalogue, duty = small_catalogue(2, 60), conditions(random_duty(2))
    weights = {"same": 1.0}  # nearly all are equal
    lists = [weighed_shortlist(catalogue, screen(catalogue, duty), duty, weights, 80) for _ in "12"]
    assert np.array_equal(lists[0].rows_A, lists[1].rows_A) and np.array_equal(lists[0].rows_B, lists[1].rows_B)
    mass = lists[0].values["same"] * 1e6 + lists[0].evaluated.A.mass + lists[0].evaluated.B.mass
    assert np.all(np.diff(mass) >= 0)


def test_without_loads_what_needs_them_is_passed_over():
    catalogue, duty = small_catalogue(2, 60), conditions(answered({"envelope.bore_a": "60..90"}))
    found = screen(catalogue, duty)
    listed = weighed_shortlist(catalogue, found, duty, {"margin": 1.0, "mass": 1.0}, 30)
    plain = rank.shortlist(catalogue, found, duty, "mass", 30)
    assert list(listed.values) == ["mass"]
    np.testing.assert_allclose(listed.evaluated.A.mass + listed.evaluated.B.mass,
                               plain.evaluated.A.mass + plain.evaluated.B.mass)  # fmt: skip


def test_no_weights_list_in_the_order_of_mass():
    catalogue, duty = small_catalogue(2, 60), conditions(random_duty(2))
    found = screen(catalogue, duty)
    listed = weighed_shortlist(catalogue, found, duty, {}, 30)
    mass = listed.evaluated.A.mass + listed.evaluated.B.mass
    assert np.all(np.diff(mass) >= 0) and len(listed) == min(30, found.count) and listed.non_dominated.all()


@pytest.mark.parametrize("weights", [{"beauty": 1.0}, {"mass": -1.0}, {"mass": math.nan}, {"mass": math.inf}])
def test_weights_that_cannot_be_are_refused(weights):
    with pytest.raises(criteria.UnknownCriterion, match=r"accepted"):
        criteria.weighed(weights)


def test_friction_cannot_be_weighed_where_none_is_known(monkeypatch):
    monkeypatch.setattr(criteria, "FRICTION", None)
    with pytest.raises(criteria.UnknownCriterion, match="friction"):
        criteria.weighed({"friction": 1.0})


@pytest.mark.parametrize("seed", range(1, 4))
def test_the_friction_loss_by_hand(seed, monkeypatch):
    """Against the two moments of ISO 15312 in plain Python, for grease (f0 as in an oil bath)."""
    monkeypatch.setattr(criteria, "FRICTION", friction_loss)
    answers = put(random_duty(seed), "lubrication.supply", "grease")
    catalogue, duty = small_catalogue(seed, 40), conditions(answers)
    found = screen(catalogue, duty)
    listed = weighed_shortlist(catalogue, found, duty, {"friction": 1.0}, 10)
    assert len(listed)
    for k in range(len(listed)):
        total = 0.0
        for rows, loads in zip((listed.evaluated.A, listed.evaluated.B), listed.evaluated.loads, strict=True):
            d, D, T, alpha = (float(getattr(rows, name)[k]) for name in ("d", "D", "T", "alpha"))
            light = D - d <= max(0.955 * d**0.9, 4.94 * d**0.5) or (
                T / (D - d) ** 0.95 <= 0.68 and alpha <= math.radians(27)
            )
            f0, dm = (3.0 if light else 4.5), (d + D) / 2
            for case, (n, share) in enumerate(zip(duty.cases.n, duty.cases.share, strict=True)):
                turns = float(duty.nu[case]) * n
                M0 = f0 * 1e-7 * max(turns ** (2 / 3), 160.0) * dm**3
                P1 = max(2 * float(rows.Y[k]) * loads.Fa[k, case], loads.Fr[k, case])
                running = sum(s for s, m in zip(duty.cases.share, duty.cases.n, strict=True) if m > 0)
                if n > 0:
                    total += share / running * (M0 + 0.0004 * P1 * dm) * math.pi * n / 30_000
        assert listed.values["friction"][k] == pytest.approx(total, rel=1e-9)


def test_weights_are_those_answered_and_else_those_assumed():
    answers = answered({"choice.rank_by": "weights", "choice.weigh_cost": "2.5", "choice.weigh_mass": "0"})
    assert weights_of(answers.choice) == dict.fromkeys(criteria.CRITERIA, 0.0) | {"margin": 1.0, "cost": 2.5}


@pytest.mark.parametrize("by", ["mass", "size", "life", "cost", "weights", None])
def test_the_list_is_ranked_as_the_answers_wish(by):
    catalogue, answers = small_catalogue(3), put(random_duty(3), "choice.rank_by", by)
    answers = put(answers, "choice.weigh_outside", answered({"choice.weigh_outside": "3"}).choice.weigh_outside)
    duty = conditions(answers)
    found = screen(catalogue, duty)
    listed = wished_shortlist(catalogue, found, duty, answers.choice, 30)
    if by == "weights":
        expected = weighed_shortlist(catalogue, found, duty, {"margin": 1.0, "mass": 1.0, "outside": 3.0}, 30)
    else:
        expected = rank.shortlist(catalogue, found, duty, by or "mass", 30)
    assert listed.rows_A.tolist() == expected.rows_A.tolist()
    assert listed.rows_B.tolist() == expected.rows_B.tolist()
    assert (listed.score is not None) == (by == "weights")


def test_every_criterion_of_single_pairs_is_that_of_the_list():
    catalogue, duty = small_catalogue(4, 50), conditions(random_duty(4))
    found = screen(catalogue, duty)
    listed = weighed_shortlist(catalogue, found, duty, dict.fromkeys(criteria.CRITERIA, 1.0), 12)
    pairs = list(zip(listed.rows_A.tolist(), listed.rows_B.tolist(), strict=True))
    assert pairs
    told = criteria_of(catalogue, pairs, duty)
    assert told.keys() == criteria.CRITERIA.keys()
    for key, values in told.items():
        np.testing.assert_allclose(values, listed.values[key], rtol=1e-12)
