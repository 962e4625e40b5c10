"""The screening against a second calculation, pair by pair in plain Python, and against the sense of the trade."""

import msgspec
import numpy as np
import pytest

import engine.selection.screen as screen_module
from engine.answers.chapters.fits import Fits
from engine.answers.document import put
from engine.answers.question import Quantity
from engine.operating import Bearings, pair_loads, state
from engine.selection import rank
from engine.selection.screen import Screening, screen
from engine.selection.stages import bounds
from engine.selection.stages.side import Side
from tests.duties import answered, conditions, random_duty, small_catalogue
from tests.engine.selection import second

SEEDS = range(60)
#: Of the 200 duties of the pair-by-pair comparison the first are run always, the rest with the soaks.
COMPARED = [*SEEDS, *(pytest.param(seed, marks=pytest.mark.slow) for seed in range(60, 200))]
#: The lists cost more than the pairs, so those of a few duties are compared always.
LISTS_COMPARED = [0, 30, *(pytest.param(seed, marks=pytest.mark.slow) for seed in range(200) if seed not in (0, 30))]
COMPARED_ROWS, LISTED = 17, 12


@pytest.fixture
def always_staged(monkeypatch):
    """Send even small catalogues through the bounds."""
    monkeypatch.setattr(screen_module, "FEW_PAIRS", 0)


def whole(screening, catalogue):
    matrix = np.zeros((len(catalogue),) * 2, dtype=bool)
    matrix[np.ix_(screening.rows_A, screening.rows_B)] = screening.passes
    return matrix


DUTIES = {"loads stated": {}, "paired units": {"units": True}, "on the shaft": {"elements": True},
          "units and on the shaft": {"units": True, "elements": True}}  # fmt: skip


@pytest.mark.usefixtures("always_staged")
@pytest.mark.parametrize("seed", COMPARED)
@pytest.mark.parametrize("what", DUTIES)
def test_screening_equals_a_second_calculation_pair_by_pair(seed, what):
    """Against plain-Python loops over the printed formulas (second.py), independent of the engine's code.

    Every pair of rows of the catalogue is compared, so that no stage can lose a part unseen.
    """
    catalogue, duty = small_catalogue(seed, COMPARED_ROWS), conditions(random_duty(seed, **DUTIES[what]))
    screening = screen(catalogue, duty)
    expected, _, edge = second.matrix(catalogue, duty, float(duty.nu[0]), 1e-9)
    # a decision nearer than rounding may go either way
    expected = np.where(edge, whole(screening, catalogue), expected)
    assert np.array_equal(whole(screening, catalogue), expected)


@pytest.mark.usefixtures("always_staged")
@pytest.mark.parametrize("seed", LISTS_COMPARED)
@pytest.mark.parametrize("what", DUTIES)
def test_lists_equal_the_second_calculation_sorted_row_for_row(seed, what):
    catalogue, duty = small_catalogue(seed, COMPARED_ROWS), conditions(random_duty(seed, **DUTIES[what]))
    screening = screen(catalogue, duty)
    expected, life, edge = second.matrix(catalogue, duty, float(duty.nu[0]), 1e-9)
    expected = np.where(edge, whole(screening, catalogue), expected)
    i, j = np.nonzero(expected)
    leads = np.zeros_like(expected)
    leads[i, j] = rank._leaders_pass(catalogue, Screening(i, j, expected, 0, 0), duty, *(np.arange(len(i)),) * 2)
    for by in ("mass", "size"):
        listed = rank.shortlist(catalogue, screening, duty, by, LISTED)
        found = list(zip(listed.rows_A.tolist(), listed.rows_B.tolist(), strict=True))
        assert found == second.ordered(catalogue, leads, life, by)[:LISTED]
    if duty.resolved.loads_known:
        # lives that differ by rounding only may change places, so the lives themselves are compared
        listed = rank.shortlist(catalogue, screening, duty, "life", LISTED)
        wanted = [life[pair] for pair in second.ordered(catalogue, leads, life, "life")[:LISTED]]
        np.testing.assert_allclose(listed.life, wanted, rtol=1e-9)
        np.testing.assert_allclose([life[pair] for pair in zip(listed.rows_A, listed.rows_B, strict=True)], wanted,
                                   rtol=1e-9)  # fmt: skip


@pytest.mark.parametrize("what", DUTIES)
def test_random_duties_let_some_pairs_pass_and_not_others(what):
    duties = (conditions(random_duty(s, **DUTIES[what])) for s in SEEDS)
    shares = [screen(small_catalogue(s, 24), duty).count / 24**2 for s, duty in zip(SEEDS, duties, strict=True)]
    assert sum(0 < share < 0.9 for share in shares) > len(shares) / 3


@pytest.mark.parametrize("seed", range(30))
@pytest.mark.parametrize("what", DUTIES)
def test_stages_drop_only_what_the_exact_check_drops(seed, what, monkeypatch):
    catalogue, duty = small_catalogue(seed, 60), conditions(random_duty(seed, **DUTIES[what]))
    monkeypatch.setattr(screen_module, "FEW_PAIRS", 0)
    staged = whole(screen(catalogue, duty), catalogue)
    monkeypatch.setattr(screen_module, "FEW_PAIRS", 10**9)
    assert np.array_equal(staged, whole(screen(catalogue, duty), catalogue))


@pytest.mark.parametrize("seed", range(30))
@pytest.mark.parametrize("what", DUTIES)
def test_bounds_hold_every_pair_between_them(seed, what):
    catalogue, duty = small_catalogue(seed, 40), conditions(random_duty(seed, **DUTIES[what]))
    A, B = (Bearings.of(catalogue, side, duty) for side in "AB")
    i, j = (index.ravel() for index in np.indices((40, 40)))
    loads = pair_loads(A.take(i), B.take(j), duty)
    apart = (B.z[j] - A.z[i])[:, 0] >= 1.0
    for side, own, at, load in (("A", A, i, loads[0]), ("B", B, j, loads[1])):
        partners = Side("B" if side == "A" else "A", catalogue, np.arange(40), duty)
        found = bounds.bound(Side(side, catalogue, np.arange(40), duty), bounds.Partners.of(partners, [np.arange(40)]))
        exact = bounds.damage(state(own.take(at), load, duty).life, duty)
        assert np.all((exact >= found.damage_least[0, at])[apart])
        assert np.all((exact <= found.damage_greatest[0, at])[apart])


@pytest.mark.parametrize("seed", range(20))
def test_swapping_the_sides_of_a_mirrored_duty_swaps_the_pairs(seed):
    """Mirror: positions measured from the other end, thrust to the other side, limits of A and B exchanged."""
    catalogue, answers = small_catalogue(seed, 30), random_duty(seed)
    duty = answers.duty

    def turned(case):
        return msgspec.structs.replace(
            case,
            position=Quantity(duty.distance.value - case.position.value),
            axial_towards={"A": "B", "B": "A"}[case.axial_towards],
        )

    e = answers.envelope
    mirrored = msgspec.structs.replace(
        answers,
        duty=msgspec.structs.replace(duty, cases=tuple(turned(c) for c in duty.cases)),
        envelope=msgspec.structs.replace(e, bore_a=e.bore_b, bore_b=e.bore_a),
        # the ring that slides is at B unless answered otherwise
        fits=Fits(adjusted="cup_a" if duty.arrangement == "face_to_face" else "cone_a"),
    )
    one, other = (whole(screen(catalogue, conditions(a)), catalogue) for a in (answers, mirrored))
    assert np.mean(one != other.T) < 0.002  # positions are rounded, so a decision on the edge may turn


def test_same_on_both_sides_keeps_the_diagonal():
    catalogue, answers = small_catalogue(3, 50), random_duty(3)
    free = screen(catalogue, conditions(answers))
    same = screen(catalogue, conditions(put(answers, "envelope.same_on_both_sides", True)))
    assert np.array_equal(np.diag(whole(free, catalogue)), np.diag(whole(same, catalogue)))
    assert same.count == np.trace(whole(free, catalogue))


@pytest.mark.parametrize(
    "texts",
    [
        {"duty.distance": "200", "duty.cases[0].speed": "500", "duty.cases[0].radial_y": "0"},
        {"duty.distance": "200", "duty.cases[0].speed": "0", "duty.cases[0].radial_y": "5 kN"},
        {"duty.distance": "5", "duty.arrangement": "face_to_face", "duty.cases[0].speed": "500",
         "duty.cases[0].radial_y": "5 kN"},
        {"duty.distance": "200", "duty.cases[0].speed": "1", "duty.cases[0].radial_y": "5 kN"},
        {"duty.distance": "200", "duty.cases[0].speed": "500", "duty.cases[0].axial": "50 MN"},
        {"envelope.bore_a": "1999"},
    ],
    ids=["no load", "standing", "load centres too close", "no film", "hopeless thrust", "no such bore"],
)  # fmt: skip
@pytest.mark.usefixtures("always_staged")
def test_hard_duties_are_screened_and_listed(texts):
    catalogue, duty = small_catalogue(1, 80), conditions(answered(texts))
    found = screen(catalogue, duty)
    for rank_by in ("mass", "size", "life"):
        listed = rank.shortlist(catalogue, found, duty, rank_by, 20)
        assert len(listed) == min(found.count, 20)
        assert listed.evaluated.passes.all()


@pytest.mark.usefixtures("always_staged")
def test_a_catalogue_of_one_row():
    catalogue, duty = small_catalogue(1, 1), conditions(answered({"duty.distance": "200"}))
    assert screen(catalogue, duty).count == 1


def test_two_identical_cases_equal_one():
    """Splitting a load case in two equal halves changes nothing."""
    catalogue = small_catalogue(5, 60)
    case = {"speed": "400", "radial_y": "9 kN", "axial": "3 kN", "position": "40"}
    one = answered({"duty.distance": "200"} | {f"duty.cases[0].{k}": v for k, v in case.items()})
    halves = answered(
        {"duty.distance": "200"}
        | {f"duty.cases[{at}].{k}": v for at in (0, 1) for k, v in (case | {"share": "50"}).items()},
        2,
    )
    listed = [
        rank.shortlist(catalogue, screen(catalogue, conditions(a)), conditions(a), "life", 30) for a in (one, halves)
    ]
    assert np.array_equal(listed[0].rows_A, listed[1].rows_A) and np.array_equal(listed[0].rows_B, listed[1].rows_B)
    np.testing.assert_allclose(listed[0].life, listed[1].life, rtol=1e-13)


@pytest.mark.parametrize("path", ["radial_y", "axial"])
def test_more_load_never_admits_a_pair(path):
    catalogue = small_catalogue(7, 60)
    counts = []
    for force in ("2 kN", "6 kN", "18 kN", "54 kN"):
        texts = {"duty.distance": "200", "duty.cases[0].speed": "400", f"duty.cases[0].{path}": force}
        counts.append(screen(catalogue, conditions(answered(texts))).count)
    assert counts == sorted(counts, reverse=True) and counts[0] > counts[-1]


@pytest.mark.parametrize(
    ("texts", "too_many"),
    [
        ({}, True),
        ({"envelope.same_on_both_sides": "yes"}, True),
        ({"duty.distance": "200", "duty.cases[0].speed": "500", "duty.cases[0].radial_y": "5 kN"}, True),
        ({"duty.distance": "200", "duty.cases[0].speed": "500", "duty.cases[0].radial_y": "5 kN",
          "envelope.bore_a": "60", "envelope.bore_b": "50"}, False),
    ],
    ids=["nothing asked", "same on both sides", "loads", "loads and bores"],
)  # fmt: skip
def test_a_hundred_thousand_rows_are_counted_or_said_to_be_too_many(texts, too_many):
    catalogue, duty = small_catalogue(1, 100_000), conditions(answered(texts))
    found = screen(catalogue, duty)
    assert found.too_many is too_many
    assert 0 < found.count <= found.listed
    assert len(rank.shortlist(catalogue, found, duty, "mass", 20)) == (0 if too_many else 20)
