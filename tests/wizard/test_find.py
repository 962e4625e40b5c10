"""Anything is found by typing: questions by number or words, parts, actions."""

from engine.answers.document import Answers
from tests.wizard.running import until
from tests.wizard.test_questions import by_hand
from wizard.screens.find import everything, matching


def test_a_number_comes_before_what_holds_it():
    found = matching(everything(Answers(), "chapter"), "1.2")
    assert found[0].name == "duty.arrangement"


def test_every_word_must_stand_in_it():
    found = matching(everything(Answers(), "chapter"), "bore b")
    assert "envelope.bore_b" in {one.name for one in found}
    assert all("bore" in f"{one.title} {one.about}".casefold() for one in found)
    assert matching(everything(Answers(), "chapter"), "no such thing at all") == []


@by_hand
async def test_a_question_is_gone_to_from_anywhere(hand):
    await hand.press("g", *"reliab", "enter")
    assert hand.marked == "duty.reliability"
    await hand.press("s", "g", *"abrasive", "enter")
    await until(lambda: hand.marked != "duty.reliability", "the question")
    assert hand.marked == "steel.dirt"


@by_hand
async def test_an_action_is_done_where_it_works(hand):
    await hand.press("g", *"add a load", "enter")
    assert len(hand.answers.duty.cases) == 2
    await hand.press("g", "escape")
    assert hand.marked.startswith("duty.cases[1]")


@by_hand
async def test_what_was_typed_last_is_repeated(hand):
    await hand.press("right", "right")
    await hand.go("envelope.bore_a")
    await hand.type("35..60")
    await hand.press("enter")
    await hand.go("envelope.bore_b")
    await hand.press("=")
    assert hand.answers.envelope.bore_b == hand.answers.envelope.bore_a
