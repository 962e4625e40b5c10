"""Answers to plain tables and back, and every problem by its key path."""

import pytest
from hypothesis import given

from engine.answers.chapters.duty import MOST_CASES
from engine.answers.document import Answers, get, items_at, put, with_items
from engine.answers.plain import from_plain, to_plain
from engine.answers.question import Limits, Quantity
from engine.units import parse
from tests.engine.answers.typed import answers


@given(answers())
def test_every_answer_comes_back(made):
    again, problems = from_plain(to_plain(made))
    assert problems == []
    assert again == without_trailing_empty(made, again)


def without_trailing_empty(made: Answers, again: Answers) -> Answers:
    """Return the document with lists whose items are all open, which a record leaves out, as they then are."""
    for path in ("duty.cases", "shaft.elements", "shaft.sections"):
        if all(item == type(item)() for item in items_at(made, path)):
            made = with_items(made, path, items_at(again, path))
    return made


@given(answers())
def test_tables_hold_only_what_a_text_file_can(made):
    def walk(value):
        if isinstance(value, dict):
            assert all(isinstance(key, str) for key in value)
            for item in value.values():
                walk(item)
        elif isinstance(value, list):
            for item in value:
                walk(item)
        else:
            assert isinstance(value, bool | float | int | str)

    walk(to_plain(made))


def test_open_questions_are_left_out():
    assert to_plain(Answers()) == {}
    assert to_plain(put(Answers(), "duty.life", Quantity(5000.0))) == {"duty": {"life_h": 5000.0}}


def test_the_keys_carry_the_unit_and_what_was_typed_stands_beside_it():
    made = put(Answers(), "duty.distance", Quantity(152.4, "6 in"))
    made = put(made, "envelope.bore_a", Limits(None, 65.0, "<=65"))
    made = put(made, "lubrication.nu40", Quantity(100.0))
    assert to_plain(made) == {
        "duty": {"distance_mm": 152.4, "distance_typed": "6 in"},
        "envelope": {"bore_a_to_mm": 65.0, "bore_a_typed": "<=65"},
        "lubrication": {"nu40_mm2_per_s": 100.0},
    }


def test_what_was_typed_is_enough():
    made, problems = from_plain({"duty": {"distance_typed": "6 in"}, "envelope": {"bore_a_typed": "55..65"}})
    assert problems == []
    assert get(made, "duty.distance") == Quantity(parse("6 in", _length()), "6 in")
    assert get(made, "envelope.bore_a") == Limits(55.0, 65.0, "55..65")


def _length():
    from engine.units import LENGTH

    return LENGTH


def test_a_whole_number_is_taken_as_a_value():
    made, problems = from_plain({"duty": {"distance_mm": 150}})
    assert (problems, get(made, "duty.distance").value) == ([], 150.0)


def duty(**table):
    return {"duty": table}


# tables, the key path that is named, what is said
DAMAGE = [
    (duty(distnace_mm=1.0), "answers.duty.distnace_mm", "no question has this key"),
    ({"dooty": {}}, "answers.dooty", "no question has this key"),
    ({"duty": 5}, "answers.duty", "this is not a table"),
    ({"duty": [{}]}, "answers.duty", "this is not a table"),
    (duty(distance_mm="150"), "answers.duty.distance_mm", "is not a number"),
    (duty(distance_mm=True), "answers.duty.distance_mm", "is not a number"),
    (duty(distance_mm=[1.0]), "answers.duty.distance_mm", "is not a number"),
    (duty(distance_mm=float("nan")), "answers.duty.distance_mm", "is not a finite number"),
    (duty(distance_mm=float("inf")), "answers.duty.distance_mm", "is not a finite number"),
    (duty(distance_mm=10**400), "answers.duty.distance_mm", "is not a finite number"),
    (duty(distance_mm=1.0), "answers.duty.distance_mm", "out of bounds"),
    (duty(distance_mm=150.0, distance_typed="6 in"), "answers.duty.distance_mm", "disagrees with what was typed"),
    (duty(distance_mm=150.0, distance_typed="six"), "answers.duty.distance_mm", "does not begin with a number"),
    (duty(distance_mm=150.0, distance_typed=6), "answers.duty.distance_mm", "distance_typed is not a text"),
    (duty(distance_mm=150.0, distance_typed="15\x1b0"), "answers.duty.distance_mm", "not printable"),
    (duty(distance_mm=150.0, distance_typed=" " * 65), "answers.duty.distance_mm", "longer than 64"),
    (duty(arrangement="side_by_side"), "answers.duty.arrangement", "is not one of the options"),
    (duty(arrangement=1), "answers.duty.arrangement", "is not one of the options"),
    # the label is for the screen; a record keeps the value
    (duty(arrangement="face to face (X)"), "answers.duty.arrangement", "is not one of the options"),
    (duty(job="x" * 61), "answers.duty.job", "longer than 60"),
    (duty(job=["a"]), "answers.duty.job", "is not a text"),
    (duty(cases={}), "answers.duty.cases", "not a list of tables"),
    (duty(cases=[1]), "answers.duty.cases", "not a list of tables"),
    (duty(cases=[{}] * (MOST_CASES + 1)), "answers.duty.cases", "are too many"),
    (duty(cases=[{}, {"speed_rpm": -1.0}]), "answers.duty.cases[1].speed_rpm", "out of bounds"),
    (duty(cases=[{"sped_rpm": 1.0}]), "answers.duty.cases[0].sped_rpm", "no question has this key"),
    ({"envelope": {"system": "metrical"}}, "answers.envelope.system", "is not one of the options"),
    ({"envelope": {"same_on_both_sides": "yes"}}, "answers.envelope.same_on_both_sides", "is not true or false"),
    ({"envelope": {"same_on_both_sides": 1}}, "answers.envelope.same_on_both_sides", "is not true or false"),
    ({"envelope": {"bore_a_from_mm": 65.0, "bore_a_to_mm": 55.0}}, "answers.envelope.bore_a_from_mm", "is above"),
    ({"envelope": {"bore_a_to_mm": 0.0}}, "answers.envelope.bore_a_to_mm", "out of bounds"),
    (
        {"envelope": {"bore_a_from_mm": 50.0, "bore_a_typed": "<=50"}},
        "answers.envelope.bore_a_from_mm",
        "disagrees",
    ),
    (
        {"envelope": {"bore_a_from_mm": 50.0, "bore_a_to_mm": 60.0, "bore_a_typed": "50..70"}},
        "answers.envelope.bore_a_from_mm",
        "disagrees",
    ),
    ({"lubrication": {"grade": 220}}, "answers.lubrication.grade", "is not one of the options"),
    ({"choice": {"bearing_a": "a\nb"}}, "answers.choice.bearing_a", "not printable"),
]


@pytest.mark.parametrize(("tables", "path", "wrong"), DAMAGE, ids=[f"{d[1]}: {d[2]}-{i}" for i, d in enumerate(DAMAGE)])
def test_damage_is_named_by_its_key(tables, path, wrong):
    made, problems = from_plain(tables, "a.toml")
    assert [problem.field for problem in problems] == [path]
    (problem,) = problems
    assert problem.path == "a.toml"
    assert wrong in problem.wrong
    assert problem.accepted
    assert isinstance(made, Answers)


def test_nearest_spelling_is_offered():
    spelled = {
        "dooty": ({"dooty": {}}, "duty"),
        "distnace_mm": (duty(distnace_mm=1.0), "distance_mm"),
        "speed": (duty(cases=[{"speed": 1.0}]), "speed_rpm"),
        "zzz": (duty(zzz=1), ""),
    }
    for tables, nearest in spelled.values():
        _, (problem,) = from_plain(tables)
        assert problem.nearest == nearest


def test_all_problems_are_told_at_once_and_the_rest_is_kept():
    tables = {
        "duty": {"distance_mm": -1.0, "life_h": 9000.0, "lif_h": 1.0, "cases": [{"speed_rpm": "x", "axial_N": 5.0}]},
        "steel": {"shock": "heavy", "dirt": "dirty"},
        "stell": {},
    }
    made, problems = from_plain(tables)
    assert {problem.field for problem in problems} == {
        "answers.duty.distance_mm", "answers.duty.lif_h", "answers.duty.cases[0].speed_rpm", "answers.steel.dirt",
        "answers.stell",
    }  # fmt: skip
    assert get(made, "duty.life") == Quantity(9000.0)
    assert get(made, "duty.cases[0].axial") == Quantity(5.0)
    assert get(made, "steel.shock") == "heavy"
    assert get(made, "duty.distance") is None


@pytest.mark.parametrize("blank", ["", "  "])
def test_words_that_say_nothing_leave_the_question_open(blank):
    made, problems = from_plain({"duty": {"job": blank}, "choice": {"bearing_b": blank}})
    assert problems == []
    assert made == Answers()
