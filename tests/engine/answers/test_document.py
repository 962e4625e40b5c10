"""One path to every answer."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.answers.chapters.duty import LoadCase
from engine.answers.document import (
    CHAPTERS,
    Answers,
    all_asked,
    asked,
    get,
    put,
    question_at,
    with_items,
)
from engine.answers.question import Limits, Quantity
from tests.engine.answers.typed import answer_for, answers


def two_cases() -> Answers:
    return with_items(Answers(), "duty.cases", (LoadCase(name="one"), LoadCase(name="two")))


def test_an_open_document_holds_no_answer_and_one_empty_load_case():
    assert all(item.value is None for item in all_asked(Answers()))
    assert Answers().duty.cases == (LoadCase(),)


def test_questions_are_numbered_in_asking_order_within_their_chapter():
    for number, chapter in enumerate(CHAPTERS, 1):
        numbers = [item.number for item in asked(two_cases(), chapter.field)]
        assert numbers == [f"{number}.{at}" for at in range(1, len(numbers) + 1)]


def test_load_cases_come_last_and_know_which_they_are():
    items = list(asked(two_cases(), "duty"))
    in_case = [item for item in items if item.listed == "cases"]
    assert items[-len(in_case) :] == in_case
    assert {item.item for item in in_case} == {0, 1}
    assert all(item.path.startswith(f"duty.cases[{item.item}].") for item in in_case)


def test_put_changes_one_answer_and_leaves_the_old_document_as_it_was():
    before = two_cases()
    after = put(before, "duty.cases[1].speed", Quantity(1450.0, "1450"))
    assert get(after, "duty.cases[1].speed") == Quantity(1450.0, "1450")
    assert get(before, "duty.cases[1].speed") is None
    assert get(after, "duty.cases[0].speed") is None
    assert put(after, "duty.cases[1].speed", None) == before


@given(answers(), st.data())
def test_what_was_put_is_got_and_nothing_else_changes(made, data):
    item = data.draw(st.sampled_from(list(all_asked(made))))
    value = data.draw(answer_for(item.question))
    changed = put(made, item.path, value)
    assert get(changed, item.path) == value
    others = {one.path: one.value for one in all_asked(changed, every=True) if one.path != item.path}
    assert others == {one.path: one.value for one in all_asked(made, every=True) if one.path != item.path}


@given(answers())
def test_every_path_leads_to_its_question(made):
    for item in all_asked(made):
        assert question_at(item.path) is item.question
        assert get(made, item.path) == item.value


@pytest.mark.parametrize(
    "path",
    ["", ".", "duty", "duty.", "duty.nonsense", "nonsense.life", "duty.cases", "duty.cases[0]", "duty.cases[0].life",
     "duty.cases[x].speed", "duty.cases[-1].speed", "__class__.x", "duty.__class__", "envelope.cases[0].speed"],
)  # fmt: skip
def test_a_path_to_nowhere_is_a_key_error(path):
    for look in (lambda: get(Answers(), path), lambda: question_at(path), lambda: put(Answers(), path, None)):
        with pytest.raises(KeyError):
            look()


def test_a_load_case_that_is_not_there_cannot_be_looked_at():
    # the question is known whatever the number, the answer is not
    assert question_at("duty.cases[7].speed").label == "Speed"
    with pytest.raises(KeyError):
        get(Answers(), "duty.cases[7].speed")


def test_there_is_never_no_load_case():
    assert with_items(two_cases(), "duty.cases", ()).duty.cases == (LoadCase(),)


def test_limits_are_values_like_any_other():
    limits = Limits(55.0, 65.0, "55..65")
    assert get(put(Answers(), "envelope.bore_a", limits), "envelope.bore_a") == limits
