"""The fits made complete: what stands in for an open answer, and what is said to stand in for it."""

import pytest

from engine.answers.chapters.shaft import Section
from engine.answers.contradiction import contradictions
from engine.answers.document import put, question_at, with_items
from engine.answers.question import Quantity, Refused
from engine.answers.resolved import resolve
from tests.duties import answered

HOLLOW = {"steel.hollow_shaft": "yes"}


def fits(texts, cases=1):
    return resolve(answered(texts, cases)).fits


def assumed(texts):
    return {one.path: (one.shown, one.why) for one in resolve(answered(texts)).assumptions}


def test_defaults_are_noted():
    found = assumed({})
    assert found["fits.shaft_fit_a"][0] == found["fits.housing_fit_b"][0] == "recommended"
    assert found["fits.shaft_roughness"][0] == "2.5 um"
    assert found["fits.shaft_bore"] == ("0 mm", "solid shaft")
    assert fits({}).shaft_Rz == 0.0025 and fits({}).housing_Rz == pytest.approx(0.0063)


@pytest.mark.parametrize(
    ("texts", "ring", "why"),
    [
        ({}, "cone at B", "back to back"),
        ({"duty.arrangement": "face to face"}, "cup at B", "face to face"),
        ({"duty.locating": "a paired unit at A"}, "cup at B", "floats"),
        ({"duty.locating": "a paired unit at B"}, "cup at A", "floats"),
        ({"duty.locating": "a paired unit at A", "speed.rotating_ring": "2"}, "cone at B", "floats"),
        ({"duty.locating": "a paired unit at A", "speed.load_direction": "turns with the cone"}, "cone at B", "floats"),
    ],
)
def test_which_ring_slides(texts, ring, why):
    shown, reason = assumed(texts)["fits.adjusted"]
    assert shown == ring and why in reason
    found = fits(texts)
    sliding = {f"{kind} at {name}" for name in "AB" for kind in ("cone", "cup")
               if getattr(found.side(name), f"{kind}_slides")}  # fmt: skip
    assert sliding == {ring}


def test_both_rings_may_slide_or_none():
    found = fits({"fits.adjusted": "both cups"})
    assert found.A.cup_slides and found.B.cup_slides and not found.A.cone_slides
    none = fits({"fits.adjusted": "none"})
    assert not any((none.A.cone_slides, none.B.cone_slides, none.A.cup_slides, none.B.cup_slides))


class TestBoreOfTheShaft:
    def test_answered(self):
        assert fits({"fits.shaft_bore": "1 in"}).A.shaft_bore == 25.4

    def test_hollow_in_a_word_is_half_of_the_seat(self):
        assert fits(HOLLOW).hollow_share == 0.5
        assert "half of each seat" in assumed(HOLLOW)["fits.shaft_bore"]

    def test_taken_from_the_steps_under_each_seat(self):
        steps = tuple(
            Section(length=Quantity(length), diameter=Quantity(60.0), bore=Quantity(bore) if bore else None)
            for length, bore in ((100.0, 20.0), (300.0, None), (100.0, 32.0))
        )
        made = answered({"duty.distance": "400", "shaft.start": "-50"})
        found = resolve(with_items(made, "shaft.sections", steps))
        assert (found.fits.A.shaft_bore, found.fits.B.shaft_bore) == (20.0, 32.0)
        (note,) = [one for one in found.assumptions if one.path == "fits.shaft_bore"]
        assert note.shown == "20 mm at A and 32 mm at B"


def test_a_heavy_interference_in_a_word_is_the_tightest_of_the_ladder_where_the_fit_is_open():
    found = fits({"steel.heavy_interference": "yes", "fits.shaft_fit_b": "p6"})
    assert (found.A.shaft, found.B.shaft, found.A.housing) == ("r6", "p6", "recommended")


@pytest.mark.parametrize(
    ("texts", "factor"),
    [
        ({}, None),
        ({"duty.cases[0].speed": "5"}, None),
        ({"duty.cases[0].application_factor": "1.5"}, 1.5),
        ({"duty.cases[0].application_factor": "1.5", "duty.cases[1].shock_factor": "2"}, 2.0),
        ({"duty.cases[0].application_factor": "1.5", "duty.cases[0].shock_factor": "2"}, 3.0),
    ],
)
def test_the_shock_factor_is_that_of_the_worst_case_where_one_is_stated(texts, factor):
    assert fits(texts, 2).shock_factor == factor


def test_the_table_by_driver_and_machine_counts_as_stated():
    made = answered({"duty.driver": "1"})
    assert resolve(made).fits.shock_factor == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("texts", "path", "word"),
    [
        ({"fits.shaft_bore": "20", "steel.hollow_shaft": "no"}, "fits.shaft_bore", "not to be hollow"),
        ({"fits.shaft_bore": "60", "envelope.bore_a": "60"}, "fits.shaft_bore", "leaves no wall"),
        ({"fits.shaft_bore": "60", "envelope.bore_b": "50..60"}, "fits.shaft_bore", "at B"),
        ({"fits.shaft_fit_b": "k6", "steel.heavy_interference": "yes"}, "fits.shaft_fit_b", "heavy interference"),
        ({"fits.shaft_fit_a": "js5", "steel.heavy_interference": "yes"}, "fits.shaft_fit_a", "js5 at A"),
    ],
)
def test_what_cannot_be_true_together(texts, path, word):
    (found,) = contradictions(answered(texts))
    assert found.path == path and word in found.wrong and found.accepted


@pytest.mark.parametrize(
    "texts",
    [
        {"fits.shaft_bore": "20", "steel.hollow_shaft": "yes"},
        {"fits.shaft_bore": "0", "steel.hollow_shaft": "no"},
        {"fits.shaft_bore": "59", "envelope.bore_a": "60"},
        {"fits.shaft_fit_b": "p8", "steel.heavy_interference": "yes"},
        {"fits.shaft_fit_b": "r6", "steel.heavy_interference": "yes"},
        {"fits.shaft_fit_a": "recommended", "steel.heavy_interference": "yes"},
    ],
)
def test_what_may_stand_together(texts):
    assert contradictions(answered(texts)) == ()


@pytest.mark.parametrize(("path", "typed"), [
    ("fits.shaft_fit_a", "x6"), ("fits.housing_fit_a", "r6"), ("fits.shaft_fit_a", "j8"), ("fits.housing_fit_b", "J5"),
    ("fits.shaft_roughness", "2.5 mm"),
    ("fits.cone_hotter", "500"), ("fits.housing_wall", "0"), ("fits.shaft_bore", "-1"),
])  # fmt: skip
def test_nonsense_is_refused_with_what_is_accepted(path, typed):
    with pytest.raises(Refused) as refused:
        question_at(path).parse(typed)
    assert refused.value.accepted


def test_classes_are_typed_in_either_case():
    assert question_at("fits.housing_fit_a").parse("n7") == "N7"
    assert question_at("fits.shaft_fit_a").parse("M6") == "m6"
    assert put(answered({}), "fits.shaft_fit_a", "m6").fits.shaft_fit_a == "m6"


@pytest.mark.parametrize("ring", ["shaft", "housing"])
def test_a_beginning_that_fits_several_classes_names_them(ring):
    with pytest.raises(Refused) as refused:
        question_at(f"fits.{ring}_fit_a").parse("m")
    few = ("m4", "m5", "m6", "m7", "m8") if ring == "shaft" else ("M5", "M6", "M7", "M8")
    assert refused.value.accepted == ", ".join(few)
