"""Answers that cannot stand beside one another: each kind refused as it is typed, and nothing lost by it."""

import pytest

from engine.answers.contradiction import contradictions, refuse_new
from engine.answers.document import get, put, question_at
from engine.answers.question import Refused
from engine.answers.resolved import resolve
from engine.record.document import Record
from tests.duties import answered
from wizard.session import Session

THIRDS = {f"duty.cases[{at}].share": "33.3 %" for at in range(3)}
GEAR = {"shaft.elements[0].kind": "spur gear", "shaft.elements[0].position": "80", "shaft.elements[0].diameter": "90"}
STEPS = {"shaft.start": "-20", "shaft.sections[0].length": "120", "shaft.sections[0].diameter": "50",
         "shaft.sections[1].length": "150", "shaft.sections[1].diameter": "40"}  # fmt: skip

#: Answers, the one that goes against them, what the refusal says, and what it says is accepted.
REFUSED = {
    "shares": (
        {"duty.cases[0].share": "70 %", "duty.cases[1].share": "20 %"}, "duty.cases[1].share", "45 %",
        "add up to 115 %", "100 % in all",
    ),
    "power and torque": (
        GEAR | {"shaft.elements[0].power": "5 kW"}, "shaft.elements[0].torque", "20 N m",
        "power and torque of element 1 on the shaft are both given", "one of them; clear the other",
    ),
    "eccentricity and grade": (
        {"shaft.elements[0].kind": "unbalance", "shaft.elements[0].balance_grade": "2.5"},
        "shaft.elements[0].eccentricity", "10 um",
        "eccentricity and balance grade of element 1 on the shaft are both given", "one of them; clear the other",
    ),
    "power at standstill": (
        GEAR | {"shaft.elements[0].power": "5 kW"}, "duty.cases[0].speed", "0",
        "load case 1 stands still, where the power of element 1 gives no torque", "a torque for that element",
    ),
    "standstill, then power": (
        GEAR | {"duty.cases[1].speed": "0"}, "shaft.elements[0].power", "5 kW",
        "load case 2 stands still", "or a speed above 0",
    ),
    "outside the shaft": (
        GEAR | STEPS | {"duty.distance": "200"}, "shaft.elements[0].position", "260",
        "element 1 at 260 mm lies outside the shaft", "-20 to 250 mm, or other steps of the shaft",
    ),
    "the shaft begins behind it": (
        GEAR | STEPS | {"shaft.elements[0].position": "-15"}, "shaft.start", "0",
        "element 1 at -15 mm lies outside the shaft", "0 to 270 mm",
    ),
    "no wall": (
        STEPS, "shaft.sections[1].bore", "40",
        "the bore of step 2 of the shaft leaves no wall", "less than its diameter, 40 mm",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", REFUSED)
def test_a_contradiction_is_refused_with_the_reason_and_nothing_is_lost(name, tmp_path):
    texts, path, text, wrong, accepted = REFUSED[name]
    before = answered(texts, 2)
    assert contradictions(before) == ()
    session = Session(Record(before), tmp_path / "r.toml", named=True)
    with pytest.raises(Refused) as refused:
        session.answer(path, text)
    assert wrong in refused.value.wrong
    assert accepted in refused.value.accepted
    assert session.answers is before
    assert not session.undo()


@pytest.mark.parametrize("name", REFUSED)
def test_a_record_that_holds_a_contradiction_is_read_and_computes_no_loads(name):
    texts, path, text, wrong, _ = REFUSED[name]
    made = put(answered(texts, 2), path, question_at(path).parse(text))
    assert any(wrong in str(one) for one in contradictions(made))
    resolved = resolve(made)
    assert not resolved.loads_known
    assert any(wrong in missing for missing in resolved.missing)


@pytest.mark.parametrize("name", REFUSED)
def test_a_way_out_of_a_contradiction_is_not_refused(name):
    """In a record that holds one already, any other answer is still taken."""
    texts, path, text, *_ = REFUSED[name]
    made = put(answered(texts, 2), path, question_at(path).parse(text))
    refuse_new(made, put(made, "duty.life", question_at("duty.life").parse("900")), "duty.life")
    refuse_new(made, put(made, path, None), path)
    assert get(put(made, path, None), path) is None


def test_steps_are_given_one_after_the_other(tmp_path):
    """An element that the first steps do not reach yet is no reason to refuse them."""
    before = answered(GEAR | {"duty.distance": "200", "shaft.elements[0].position": "230",
                              "shaft.sections[2].length": "60"})  # fmt: skip
    session = Session(Record(before), tmp_path / "r.toml", named=True)
    for at, length in enumerate(("80", "100", "30")):
        session.answer(f"shaft.sections[{at}].length", length)
    # now they reach B, so that the gear beyond B is seen to hang in the air
    assert [one.path for one in contradictions(session.answers)] == ["shaft.elements[0].position"]
    session.answer("shaft.sections[2].length", "60")
    assert contradictions(session.answers) == ()


def test_what_is_not_asked_contradicts_nothing():
    made = answered(GEAR | {"shaft.elements[0].power": "5 kW", "duty.cases[0].speed": "100"})
    weight = put(made, "shaft.elements[0].kind", "weight")
    still = put(weight, "duty.cases[0].speed", question_at("duty.cases[0].speed").parse("0"))
    assert contradictions(still) == ()
    # the power is kept, should the gear come back
    assert get(still, "shaft.elements[0].power").value == 5


@pytest.mark.parametrize(
    ("path", "text", "wrong"),
    [("helix_angle", "95 deg", "95 deg is out of bounds"), ("position", "50 m", "out of bounds"),
     ("pressure_angle", "0", "out of bounds"), ("power", "-3 kW", "out of bounds"),
     ("kind", "belt", "may mean several"),
     ("kind", "anchor", "is not one of the options"), ("angle", "400", "out of bounds")],
)  # fmt: skip
def test_nonsense_is_refused_with_what_is_accepted(path, text, wrong):
    with pytest.raises(Refused) as refused:
        question_at(f"shaft.elements[0].{path}").parse(text)
    assert wrong in refused.value.wrong
    assert refused.value.accepted


@pytest.mark.parametrize(
    ("text", "kind"),
    [("spur", "spur"), ("v", "v_belt"), ("toothed", "toothed_belt"), ("worm", "worm"), ("wheel of", "worm_wheel"),
     ("sheave", "wheel"), ("ext", "ram"), ("spiral", "spiral_bevel"), ("unb", "unbalance"), ("screw", "screw")],
)  # fmt: skip
def test_a_kind_by_the_beginning_of_a_word(text, kind):
    assert question_at("shaft.elements[0].kind").parse(text) == kind


def test_shares_of_rounded_percentages_are_the_whole():
    assert contradictions(answered(THIRDS, 3)) == ()
    assert contradictions(answered(THIRDS | {"duty.cases[2].share": "34 %"}, 3)) == ()


@pytest.mark.parametrize(("first", "second", "wrong"), [("60", "60", "120 %"), ("100", "2", "102 %")])
def test_more_than_the_whole_time_is_named_and_no_loads_are_computed(first, second, wrong):
    made = answered(
        {"duty.distance": "200", "duty.cases[0].share": first, "duty.cases[0].speed": "100",
         "duty.cases[0].radial_y": "1 kN", "duty.cases[1].share": second, "duty.cases[1].speed": "100",
         "duty.cases[1].radial_y": "1 kN"}, 2)  # fmt: skip
    (found,) = contradictions(made)
    assert found.path == "duty.cases[1].share"
    assert wrong in found.wrong
    resolved = resolve(made)
    assert not resolved.loads_known
    assert any(wrong in missing for missing in resolved.missing)
