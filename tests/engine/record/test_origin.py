"""Each figure that was not computed says whether it was answered or assumed, as the list of assumptions has it."""

from dataclasses import replace

import pytest

from engine.answers.document import put, question_at
from engine.record.computed import compute
from engine.record.read import read
from tests.house.tree import ROOT

EXAMPLES = ROOT / "catalogs" / "examples"


def computed(name, **answers):
    path = EXAMPLES / f"{name}.toml"
    record = read(path)
    found = record.answers
    for where, value in answers.items():
        found = put(found, where.replace("__", ".").replace("_0_", "[0].").replace("_1_", "[1]."), value)
    return compute(replace(record, answers=found), str(path))


def sources(one):
    return {f"{block.key}.{figure.key}": figure.source for block in one.result.blocks for figure in block.figures}


def test_what_was_answered_says_so():
    found = sources(computed("ropeway_sheave"))
    for key in ("case_1.share", "case_1.n", "case_1.temperature", "case_1_on_shaft_1.case_1_on_shaft_1_z",
                "lubricant.lubricant", "lubricant.supply"):  # fmt: skip
        assert found[key] == "answer", key


def test_what_was_left_open_says_that_it_was_assumed():
    opened = {f"duty__cases_0_{name}": None for name in ("position", "share", "application_factor")}
    one = computed("ropeway_sheave", **opened, lubrication__grade="320", duty__cases_0_load_level=None)
    found = sources(one)
    assert found["case_1.share"] == "assumed"
    assert found["lubricant.base"] == found["lubricant.rho15"] == "assumed"
    assert found["lubricant.nu100"].endswith("viscosity index: assumed")
    assert "(assumed)" in found["setting.T_cone"]


@pytest.mark.parametrize(
    ("path", "key", "typed"),
    [
        ("setting.cone_over_cup", "setting.T_cone", "6 K"),
        ("lubrication.vi", "lubricant.nu100", "98"),
        ("speed.load_direction", "fit_cone.cone_load", None),
    ],
)
def test_answering_and_opening_a_question_moves_what_is_said_of_its_figure(path, key, typed):
    question = question_at(path)
    value = question.parse(typed) if typed else None
    before = sources(computed("ropeway_sheave"))
    after = sources(computed("ropeway_sheave", **{path.replace(".", "__"): value}))
    first, then = ("assumed", "answer") if typed else ("answer", "assumed")
    assert first in before[key] and then not in before[key].replace("answered", "")
    assert then in after[key]


def test_figures_of_an_element_say_which_of_them_were_assumed():
    one = computed("sawmill_log_conveyor")
    found = {
        (figure.name, figure.source)
        for block in one.result.blocks if block.key.startswith("case_1_on_shaft_1")
        for figure in block.figures
    }  # fmt: skip
    assert ("pressure angle", "answer") in found and ("radius at which it acts", "derived from the answers") in found
    answers = one.record.answers
    assert answers.shaft.elements[0].pressure_angle is not None
    opened = replace(one.record, answers=put(answers, "shaft.elements[0].pressure_angle", None))
    opened = replace(opened, answers=put(opened.answers, "shaft.elements[0].hand", None))
    again = compute(opened, "x")
    names = {
        figure.name: figure.source
        for block in again.result.blocks if block.key == "case_1_on_shaft_1" for figure in block.figures
    }  # fmt: skip
    assert names["pressure angle"] == names["right-hand (+1) or left-hand (-1)"] == "assumed"
    assert names["helix angle"] == names["power"] == "answer"


@pytest.mark.parametrize("name", ["ropeway_sheave", "sawmill_log_conveyor", "peat_harvester_bevel_drive"])
def test_no_figure_is_called_an_answer_whose_question_stands_among_the_assumptions(name):
    one = computed(name)
    assumed = {item.path for item in one.conditions.resolved.assumptions}
    assert not assumed & one.conditions.resolved.answered
    for case in range(len(one.record.answers.duty.cases)):
        key = f"case_{case + 1}.share"
        if f"duty.cases[{case}].share" in assumed:
            assert sources(one)[key] != "answer"
