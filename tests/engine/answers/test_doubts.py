"""A clean lubricant claimed beside answers on dirt: both stand, and a caution says why they do not go together."""

import pytest

from engine.answers.resolved import resolve
from engine.record.result import compute
from tests.duties import answered, conditions, small_catalogue

CODE = {"lubrication.supply": "bath", "lubrication.cleanliness_by": "code", "lubrication.code": "-/13/10"}
DIRTY = {"lubrication.air": "abrasive", "lubrication.seals": "none"}


def doubts(texts):
    return resolve(answered(texts)).lubricated.doubts


def test_a_clean_code_beside_open_seals_in_grit_is_doubted_with_the_reason():
    (said,) = doubts(CODE | DIRTY)
    assert "Cleanliness high is claimed" in said and "would make it very severe" in said
    assert "seals: none" in said and "in the air: hard dust or grit" in said


@pytest.mark.parametrize(
    "texts",
    [
        CODE,
        DIRTY,  # the words are not even asked while the level is known
        CODE | {"lubrication.code": "-/19/16"} | DIRTY,  # no more than one level apart
        CODE | {"lubrication.air": "clean", "lubrication.seals": "lip", "lubrication.filter": "fine"},
        DIRTY | {"lubrication.cleanliness_by": "words"},  # these are the level
        {"steel.dirt": "kept out", "lubrication.cleanliness": "high"},
        {"steel.dirt": "some", "lubrication.cleanliness": "slight"},
        {"steel.dirt": "much", "lubrication.cleanliness": "very severe"},
    ],
)
def test_what_goes_together_is_not_doubted(texts):
    claimed = texts if "lubrication.cleanliness_by" in texts else {"lubrication.cleanliness": "severe"} | texts
    assert doubts(claimed) == ()


@pytest.mark.parametrize(
    ("dirt", "level", "best"), [("some", "normal", "slight"), ("much", "slight", "severe"), ("much", "high", "severe")]
)
def test_abrasive_dirt_at_the_rings_makes_a_clean_level_doubtful(dirt, level, best):
    (said,) = doubts({"steel.dirt": dirt, "lubrication.cleanliness": level})
    assert f"Cleanliness {level} beside abrasive dirt" in said and f"{best} is the best to be expected" in said


def test_the_caution_stands_in_the_result():
    catalogue = small_catalogue(3)
    duty = {"duty.distance": "200", "duty.cases[0].speed": "900", "duty.cases[0].radial_y": "6 kN"}
    dirty = conditions(answered(duty | {"steel.dirt": "much"}))
    result = compute(catalogue.take([0]), catalogue.take([0]), dirty)
    assert any("abrasive dirt at the rings" in one for one in result.cautions)
