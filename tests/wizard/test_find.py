"""Anything is found by typing: questions by number or words, parts, actions."""

import pytest

from engine.answers.document import Answers
from engine.catalogue.read import builtin
from tests.wizard.running import until
from tests.wizard.test_questions import by_hand
from wizard.screens.finding import things as finding
from wizard.screens.finding.things import everything, parts


def matching(things, text):
    return [one for _, one in finding.matching(things, text)]


def test_a_number_comes_before_what_holds_it():
    found = matching(everything(Answers(), "chapter"), "1.2")
    assert found[0].name == "duty.arrangement"


def test_every_word_must_stand_in_it():
    found = matching(everything(Answers(), "chapter"), "bore b")
    assert "envelope.bore_b" in {one.name for one in found}
    assert all("bore" in " ".join([one.title, one.about, *one.words]).casefold() for one in found)
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


@pytest.mark.parametrize(
    ("text", "title"),
    [
        ("V050-3DB-C", "V050-3DB-C"),
        ("Q112.6", "Q112.1+6"),
        ("v050-3db-c.o", "V050-3DB-C"),
        ("Q112.1/Q112.6", "Q112.1+6"),
        ("ISO 355 3DB 050", "V050-3DB-C"),
        ("Q112", "Q112.1+6"),
    ],
)
def test_an_assembly_is_found_by_the_usual_ways_to_write_it(text, title):
    assert next(parts(builtin(), text)).title == title


def test_words_that_name_no_part_find_none():
    assert list(parts(builtin(), "load case")) == []


@by_hand
async def test_a_designation_typed_takes_the_place_of_the_marked_name(hand):
    await hand.press("b")
    await until(lambda: hand.app.screen.PLACE == "browse" and hand.app.screen.marked is not None, "the catalogue")
    await hand.press("d")
    marked = hand.app.screen.entry.text
    assert marked
    await hand.press(*"3DB")
    assert hand.app.screen.entry.text == "3DB"
    await hand.press("escape", "d", "backspace", "x")
    assert hand.app.screen.entry.text == f"{marked[:-1]}x"
    await hand.press("escape", "d")
    hand.app.screen.typed("T3DB050")
    assert hand.app.screen.entry.text == "T3DB050"


@by_hand
async def test_help_is_read_while_finding_and_what_was_typed_is_still_there(hand):
    await hand.press("g", *"reliab")
    assert hand.screen()[-1].startswith("Enter go there  Esc back  Ctrl-G help  Ctrl-C quit")
    await hand.press("f1")
    assert hand.sees("Keys: Find")
    await hand.press("g")  # from the page: back to the line
    assert hand.app.screen.PLACE == "find"
    assert hand.app.screen.entry.text == "reliab"
    await hand.press("f1", "escape", "enter")
    assert hand.marked == "duty.reliability"
