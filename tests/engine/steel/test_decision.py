"""The computed verdict on both heat treatments: what decides, and that it is never a bare rule.

The expected verdicts are those that handbooks on steels for tapered roller bearings give (recalled): tight fits above
about 175 MPa of tension and heavy shock call for case-hardening, hard particles favour it, mild duties take either,
heat above 120 or 150 deg C calls for stabilised rings.
"""

import itertools
from dataclasses import replace

import numpy as np
import pytest

from engine.catalogue.materials import steels
from engine.steel.grades import grade_of, of_rows
from engine.steel.verdict import CHECKS, CONDITION, DOES_NOT, SUITS, Asked, demands, verdicts

MILD = Asked(
    hoop=np.array([100.0]), spare=np.array([0.01]), size=np.array([60.0]), wall=np.array([8.0]), shock="none",
    shock_factor=None, dirt="none", peak_temperature=80, temperature=70, life=20_000,
)  # fmt: skip
# change, outcome for through- and case-hardened, what decides for through-hardened
DUTIES = {
    "mild": ({}, SUITS, SUITS, "heat"),
    "tight": ({"hoop": np.array([240.0])}, DOES_NOT, SUITS, "hoop"),
    "a little too tight": ({"hoop": np.array([190.0])}, CONDITION, SUITS, "hoop"),
    "tighter than anything bears": ({"hoop": np.array([400.0])}, DOES_NOT, DOES_NOT, "hoop"),
    "heavy shock": ({"shock": "heavy"}, DOES_NOT, SUITS, "toughness"),
    "tight and shocked": ({"hoop": np.array([170.0]), "shock_factor": 2.5}, CONDITION, SUITS, "toughness"),
    "some dirt": ({"dirt": "some"}, SUITS, SUITS, "dirt"),
    "much dirt": ({"dirt": "much"}, DOES_NOT, SUITS, "dirt"),
    "warm": ({"peak_temperature": 140}, CONDITION, CONDITION, "heat"),
    "hot all the time": ({"peak_temperature": 180, "temperature": 150}, CONDITION, CONDITION, "stability"),
    "hotter than any": ({"peak_temperature": 300}, DOES_NOT, DOES_NOT, "heat"),
    "warm for long": ({"temperature": 115, "life": 50_000}, CONDITION, SUITS, "stability"),
    "thick": ({"wall": np.array([110.0])}, DOES_NOT, SUITS, "wall"),
}  # fmt: skip


@pytest.mark.parametrize(("change", "through", "case", "deciding"), DUTIES.values(), ids=DUTIES)
def test_duties(change, through, case, deciding):
    told = verdicts(replace(MILD, **change), steels.builtin())
    assert told.outcome.tolist() == [[through, case]]
    assert list(CHECKS)[told.deciding[0, 0]] == deciding


def test_a_dirty_ring_of_the_right_kind_is_close_to_nothing():
    told = verdicts(replace(MILD, dirt="much"), steels.builtin())
    assert told.utilisation[0, told.steel[0, 1]].max() == 1.0
    assert told.outcome[0, 1] == SUITS


def test_a_condition_names_what_the_usual_steel_lacks():
    told = verdicts(replace(MILD, peak_temperature=180), steels.builtin())
    sentence = told.sentence(0, "through")
    assert sentence.startswith("suits with a condition: made to order")
    assert "stabilised to 200 degC" in sentence and "highest temperature" in sentence and "1.50" in sentence


def test_a_thick_ring_in_heat_is_made_to_order_for_the_heat():
    """A steel made to stock hardens 40 mm through; only the heat asks for another."""
    told = verdicts(replace(MILD, wall=np.array([40.0]), peak_temperature=140), steels.builtin())
    assert told.outcome[0, 0] == CONDITION
    assert "highest temperature is at 1.17 of what 100CrMnSi6-4, martensitic allows" in told.sentence(0, "through")


def test_close_to_a_limit_is_a_condition():
    told = verdicts(replace(MILD, hoop=np.array([330.0])), steels.builtin())
    assert told.outcome[0, 1] == CONDITION
    assert "if nothing gets worse: tension of the fit is at 0.96" in told.sentence(0, "case")
    assert "1.57 of what" in told.sentence(0, "through") and "would help" in told.sentence(0, "through")


def test_each_sentence_gives_a_reason():
    for change in DUTIES.values():
        told = verdicts(replace(MILD, **change[0]), steels.builtin())
        for treatment in ("through", "case"):
            assert any(reason in told.sentence(0, treatment) for reason, _ in CHECKS.values())


def test_a_harsher_duty_never_gets_a_better_verdict():
    grades = steels.builtin()
    steps = {
        "hoop": [np.array([x]) for x in (50.0, 150, 200, 350)], "dirt": ["none", "some", "much"],
        "shock": ["none", "moderate", "heavy"], "peak_temperature": [80, 130, 190, 260],
        "life": [1e3, 1e4, 1e5], "temperature": [60, 100, 120],
    }  # fmt: skip
    for (name, values), other in itertools.product(steps.items(), ({}, {"hoop": np.array([160.0])}, {"dirt": "some"})):
        ranks = [verdicts(replace(MILD, **(other | {name: value})), grades).outcome[0] for value in values]
        # a condition may be worse or better than another; being ruled out is not undone
        for milder, harsher in itertools.pairwise(ranks):
            assert np.all(harsher >= milder)


@pytest.mark.filterwarnings("error")
def test_what_is_not_known_does_not_suit():
    told = verdicts(replace(MILD, hoop=np.array([np.nan])), steels.builtin())
    assert told.outcome.tolist() == [[DOES_NOT, DOES_NOT]]
    assert "tension of the fit at an unknown share" in told.sentence(0, "case")


def test_many_at_once_are_as_one_by_one():
    draw = np.random.default_rng(5)
    columns = {"hoop": draw.uniform(0, 400, 50), "spare": draw.uniform(-0.02, 0.04, 50),
               "size": draw.uniform(15, 400, 50), "wall": draw.uniform(3, 70, 50)}  # fmt: skip
    asked = replace(MILD, **columns, shock="moderate", temperature=100)
    grades = steels.builtin()
    many = verdicts(asked, grades)
    for row in range(50):
        one = verdicts(replace(asked, **{name: column[row : row + 1] for name, column in columns.items()}), grades)
        assert np.array_equal(one.utilisation[0], many.utilisation[row])
        for name in ("outcome", "steel", "usual", "deciding"):
            assert np.array_equal(getattr(one, name)[0], getattr(many, name)[row])
    assert demands(asked, grades)[0].shape == (50, len(grades), len(CHECKS))


def test_which_steel_a_ring_of_the_catalogue_is_taken_to_be_of():
    grades = steels.builtin()
    names = [grades.rows[place].name for place in grade_of(
        grades, ["through", "through", "through", "case", "case", "through"],
        [120, 120, 200, 150, 200, 400], [10, 40, 10, 10, 10, 10])]  # fmt: skip
    assert names == [
        "100Cr6, martensitic", "100CrMnSi6-4, martensitic", "100CrMnSi6-4, martensitic, stabilised to 200 degC",
        "20NiCrMo2-2, case-hardened", "18CrNiMo7-6, case-hardened, stabilised to 200 degC",
        "100CrMnSi6-4, martensitic, stabilised to 250 degC",
    ]  # fmt: skip
    assert grade_of(grades, "other", 120, 10) == -1
    assert np.isnan(of_rows(grades, np.array([-1]), "hoop")).all()
