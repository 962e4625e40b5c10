"""Everything has a name by which typing finds it: within the first screen of what is found."""

import pytest

from engine.answers.document import CHAPTERS, Answers, all_asked
from tests.duties import small_catalogue
from tests.house.test_uses import PATHS
from tests.wizard.running import until
from tests.wizard.test_questions import by_hand
from wizard import keys
from wizard.commands.recent import Offer
from wizard.screens.finding.things import DOCUMENTS, everything, matching, parts, sessions, with_parts

#: Lines of the list on the smallest terminal.
FIRST_SCREEN = 16
THINGS = everything(Answers(), "chapter")


def found(text, catalogue=None):
    return with_parts(matching(THINGS, text), list(parts(catalogue, text)))[:FIRST_SCREEN]


def labels(things):
    return [one.title.partition(" ")[2].strip() for one in things]


def test_every_question_is_found_by_its_label_also_where_it_is_not_asked_now():
    from engine.answers.document import question_at

    for path in PATHS:
        label = question_at(path.replace("[]", "[0]")).label
        assert label in labels(found(label)), label


def test_every_question_that_is_asked_is_found_by_its_number():
    for item in all_asked(Answers()):
        assert found(item.number)[0].name == item.path


def test_a_chapter_is_found_by_its_number_with_its_questions_behind_it():
    for at, chapter in enumerate(CHAPTERS, 1):
        first, second = found(str(at))[:2]
        assert (first.kind, first.name) == ("chapter", chapter.field)
        assert second.title.startswith(f"{at}.1 ")


def test_every_option_is_found_by_its_words_and_those_of_its_question():
    for item in all_asked(Answers(), every=True):
        for option in getattr(item.question, "options", ()):
            plain = option.label.replace("(", "").replace(")", "")
            assert item.question.label in labels(found(f"{item.question.label} {plain}")), (item.path, option.label)


def test_every_action_is_found_by_its_name():
    for key in keys.KEYS:
        if key.action not in {"find", "back"} and key.place not in {
            "help",
            "find",
            "leaving",
            "start",
            "assumed",
            "small",
        }:
            assert any(one.kind in {"action", "place"} and key.label in one.title for one in found(key.label)), key


@pytest.mark.parametrize(
    ("typed", "title"),
    [
        ("scatter", "d  draw"), ("weights", "w  weigh"), ("sensitivity", "t  hangs on"), ("history", "u  undo"),
        ("compare records", "> Diff with another record"), ("export csv", "> Shortlist as CSV"),
        ("json", "> Record as JSON"), ("verify", "> Verify this record"), ("excel", "> Shortlist as CSV"),
        ("freeze", ""),
    ],
)  # fmt: skip
def test_another_word_for_an_action_typed_whole_finds_it_first(typed, title):
    first = next(iter(found(typed)), None)
    assert (first.title if first is not None else "") == title


@pytest.mark.parametrize(
    ("typed", "title"),
    [
        ("preload", "8.2 Bench setting"), ("end play", "8.2 Bench setting"), ("NLGI", "5.2 Lubricant by name"),
        ("undo", "u  undo"), ("grease", "5.1 Lubricant and supply"), ("rpm", "1.14 Speed"),
        ("m6", "7.2 Shaft fit at A"),
        ("lifetime", "1.5 Required life"), ("report", "> Report as HTML"), ("order line", "> Report as HTML"),
        ("fitter", "> Fitter's sheet as HTML"), ("csv", "1.24 Measured spectrum"), ("tornado", "t  hangs on"),
        ("exit", "q  quit"), ("catalog", "b  catalogue"), ("contamination", "5.11 Cleanliness"),
        ("aluminum", "7.10 Material of the housing"), ("pulley", "- Diameter"),
    ],
)  # fmt: skip
def test_what_else_it_is_called_finds_it_too(typed, title):
    assert title in [one.title for one in found(typed)]


def test_other_sessions_and_the_example_are_found():
    offers = [Offer("new session", "", ""), Offer("hoist", "", "/x/hoist.toml"), Offer("example", "", "demo")]
    listed = sessions(offers)
    for typed, path in (("demo", "demo"), ("hoist", "/x/hoist.toml"), ("resume", "/x/hoist.toml"), ("new", "")):
        assert path in [one.name for _, one in matching(listed, typed)]


def test_every_assembly_of_a_catalogue_is_found_by_its_designation():
    catalogue = small_catalogue(3)
    for name in catalogue.designation.tolist():
        assert found(name, catalogue)[0].title == name


@by_hand
async def test_each_thing_that_is_found_can_be_gone_to(hand):
    await hand.rest()
    for thing in everything(hand.answers, "chapter"):
        if thing.name.endswith((".quit", ".stand_aside")) or thing in DOCUMENTS:
            continue
        hand.app.show_find("chapter")
        await hand.app._opened()
        hand.app.go_to_found(thing, "chapter")
        await hand.app._opened()
        if thing.kind == "question":
            assert hand.app.screen.PLACE == "chapter"
            assert thing.title.startswith("- ") or hand.marked == thing.name
        elif thing.kind == "place" and not thing.name.startswith(("section", "pair")):
            assert hand.app.screen.PLACE in {thing.name.partition(".")[0], "browse", "shortlist"}
        hand.app.to_questions()


@by_hand
async def test_a_chapter_is_gone_to_by_its_number(hand):
    await hand.press("g", "5", "enter")
    assert hand.questions.chapter == "lubrication"
    await hand.press("g", *"preload", "enter")
    await until(lambda: hand.marked == "setting.aim", "the question")


@by_hand
async def test_what_is_done_to_the_whole_catalogue_is_done_once_it_is_open(hand):
    await hand.rest()
    await hand.press("g", *"decode", "enter")
    assert hand.app.screen.PLACE == "browse"
    assert hand.app.screen.entering  # the line in which a designation is typed
