"""What lives cannot be computed without, asked one question at a time."""

from engine.answers.document import Answers, put, question_at
from engine.answers.resolved import resolve
from engine.answers.running import needed
from tests.duties import answered

TYPED = {"speed": "1450", "radial_y": "5 kN", "distance": "200"}


def test_the_questions_that_are_needed_answered_in_turn_make_the_loads_known():
    answers, asked = Answers(), []
    while needed(answers):
        assert not resolve(answers).loads_known
        path = needed(answers)[0]
        asked.append(path)
        answers = put(answers, path, question_at(path).parse(TYPED[path.rpartition(".")[2]]))
    assert asked == ["duty.cases[0].speed", "duty.cases[0].radial_y", "duty.distance"]
    assert resolve(answers).loads_known


def test_a_thrust_alone_is_a_load_and_each_case_begun_needs_its_own():
    answers = answered({"duty.cases[0].axial": "3 kN", "duty.cases[1].speed": "100", "duty.distance": "100"})
    assert needed(answers) == ("duty.cases[0].speed", "duty.cases[1].radial_y")
    assert not resolve(answers).loads_known


def test_what_sits_on_the_shaft_stands_for_a_force():
    answers = answered({"shaft.elements[0].kind": "weight", "duty.distance": "100"})
    assert needed(answers) == ("duty.cases[0].speed",)
