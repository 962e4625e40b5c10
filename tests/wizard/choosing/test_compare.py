"""Pairs side by side, one answer tried for them alone, and what a verdict hangs on."""

import numpy as np
import pytest

from engine.answers.document import put, question_at
from engine.answers.lubricated.own import own
from engine.answers.question import Refused
from engine.selection.comparing.compare import compare
from engine.selection.comparing.distributed import GROUP
from engine.selection.sensitivity import tornado, with_setting
from tests.duties import answered, small_catalogue
from tests.engine.catalogue.lubricants.test_read import GOOD
from tests.wizard.choosing.seated import NOTHING, by_hand, pair, told
from tests.wizard.running import DUTY
from wizard.screens.choosing.comparing.compare import CompareScreen
from wizard.screens.choosing.comparing.trying import tried
from wizard.screens.choosing.sensitivity import SensitivityScreen

ROWS = small_catalogue(3)
ANSWERS = answered(DUTY)


def rows_of(pairs):
    return [tuple(ROWS.index_of(name) for name in one) for one in pairs]


def test_a_change_is_typed_by_words_or_number():
    path, value, label = tried(ANSWERS, "required life = 20000 h")
    assert path == "duty.life" and value.value == 20000 and "20 000 h" in label
    number = "1.2"
    path, value, _ = tried(ANSWERS, f"{number} = face")
    assert path == "duty.arrangement" and value == "face_to_face"
    path, value, _ = tried(ANSWERS, "bore at a = 40..60")
    assert path == "envelope.bore_a" and (value.least, value.greatest) == (40, 60)
    # nothing behind the sign opens the question
    assert tried(ANSWERS, "required life =")[:2] == ("duty.life", None)


@pytest.mark.parametrize(
    "text", ["", "=", "= 5", "no such question = 5", "required life", "required life = soon", "required life = -1 h",
             "bore at a = 70..40", "measured spectrum = x", "[b]=[/]", "\x1b = 1"]
)  # fmt: skip
def test_what_cannot_be_tried_is_refused(text):
    with pytest.raises(Refused) as error:
        tried(ANSWERS, text)
    assert error.value.accepted and str(error.value).isprintable()


def test_a_lubricant_of_ones_own_is_tried_by_its_name(tmp_path):
    (tmp_path / "plant.toml").write_text(GOOD)
    mine = own(tmp_path / "plant.toml")
    path, value, label = tried(ANSWERS, "lubricant by name = My Grease", mine)
    assert (path, value) == ("lubrication.lubricant", mine[1]) and "my grease" in label
    assert tried(ANSWERS, "lubricant by name = grease NLGI 3, lithium, mineral VG 100", mine)[1].startswith(
        "grease NLGI 3"
    )
    with pytest.raises(Refused):
        tried(ANSWERS, "lubricant by name = my grease")


@by_hand()
async def test_marked_pairs_stand_side_by_side_in_the_order_of_marking(hand):
    await hand.press("s", "down", "down", "space", "up", "space", "s")
    await told(hand)
    wanted = [pair(hand, 2), pair(hand, 1)]
    assert hand.app.picked == wanted
    assert hand.sees("Side by side: 2 pairs")
    expected = compare(ROWS, rows_of(wanted), hand.answers)
    assert hand.app.screen.found[0] == expected
    assert hand.sees(wanted[0][0]) and hand.sees("passes")
    differing = {line.key for line in expected.lines if line.differs}
    await hand.press("o")
    closed = {one.key for one in hand.app.screen.behind.values() if one.group != GROUP}
    assert closed == {key for key in differing if not key.startswith("part.designation")}
    # every figure of every line is behind it
    await hand.press("o", "end", "home", "pagedown")
    await hand.press("c")
    assert hand.app.picked == []
    assert hand.sees("Shortlist")


@by_hand()
async def test_up_to_four_are_marked_and_a_mark_is_taken_away(hand):
    await hand.press("s", *["space", "down"] * 4)
    assert len(hand.app.picked) == 4
    assert sum("*" in line[:6] for line in hand.screen()) == 4
    await hand.press("space")
    assert hand.sees("as many as stand side by side") and len(hand.app.picked) == 4
    await hand.press("home", "space")
    assert len(hand.app.picked) == 3 and hand.sees("no longer marked")
    # the pair's own screen marks too
    await hand.press("enter", "space", "escape")
    assert hand.app.picked[-1] == pair(hand, 0)


@by_hand()
async def test_without_a_mark_the_first_four_are_compared(hand):
    await hand.press("s", "s")
    await told(hand)
    assert hand.app.screen.pairs == [pair(hand, at) for at in range(4)]


@by_hand()
async def test_a_change_tried_moves_the_columns_and_nothing_else(hand):
    await hand.press("s", "s")
    await told(hand)
    shown, before = hand.app.screen, hand.answers
    assert isinstance(shown, CompareScreen)
    await hand.press("a")
    assert hand.sees("No change is tried")
    await hand.press("t")
    await hand.type("required life = ")
    assert hand.sees("Required life:")
    await hand.type("90 furlong")
    await hand.press("enter")
    assert hand.sees("Accepted") and shown.change is None
    await hand.press("ctrl+u")
    await hand.type("required life = 90000 h")
    await hand.press("enter")
    await told(hand)
    assert hand.sees("Trying Required life: 90 000 h (was 3000 h)")
    assert hand.answers is before and hand.app.standing.done is before
    told_now, sandbox = shown.found
    value = question_at("duty.life").parse("90000 h")
    assert told_now == compare(ROWS, rows_of(shown.pairs), put(before, "duty.life", value))
    assert any(sandbox.moved["check.life.A"]) and not any(sandbox.moved["pair.mass"])
    assert any("^" in line for line in hand.screen())
    # Esc drops it and stays
    await hand.press("escape")
    await told(hand)
    assert hand.app.screen is shown and shown.change is None and hand.answers is before
    await hand.press("d")
    assert hand.sees("No change is tried")
    # once more, and taken
    await hand.press("t")
    await hand.type("required life = 4000")
    await hand.press("enter")
    await told(hand)
    await hand.press("a")
    assert hand.answers.duty.life.value == 4000
    await told(hand)
    assert hand.sees("Side by side: 4 pairs")
    await hand.press("u")
    assert hand.answers == before
    await told(hand)
    await hand.press("t", "x", "escape", "escape")
    assert hand.sees("Shortlist")


@by_hand(NOTHING)
async def test_an_empty_list_says_how_pairs_are_marked(hand):
    await hand.press("s", "space", "s")
    assert hand.sees("Mark up to four pairs")
    await hand.press("t", "a", "o", "end", "escape", "t")
    assert hand.sees("Choose a pair, or mark one")
    await hand.press("escape")
    assert hand.sees("Shortlist")


@by_hand()
async def test_the_tornado_is_that_of_the_marked_pair(hand):
    await hand.press("s", "down", "t")
    await told(hand)
    shown = hand.app.screen
    assert isinstance(shown, SensitivityScreen)
    assert shown.pair == pair(hand, 1)
    rows = rows_of([shown.pair])[0]
    expected = with_setting(tornado(ROWS, *rows, hand.answers), ROWS, *rows, hand.answers)
    assert [bar.input.label for bar in shown.found.bars] == [bar.input.label for bar in expected.bars]
    np.testing.assert_equal(shown.found.stands.margin, expected.stands.margin)
    for bar in expected.bars:
        assert hand.sees(bar.input.label[:20])
    assert all("|" in line for line in hand.screen()[3 : 3 + len(expected.bars)])
    await hand.press("down")
    assert hand.sees("less: margin")
    await hand.press("home", *["down"] * [bar.input.key for bar in expected.bars].index("setting"))
    assert hand.sees("as it is: margin") and hand.sees("mm tighter")
    await hand.press("escape", "enter", "t")
    await told(hand)
    assert hand.app.screen.pair == pair(hand, 1)


@by_hand({})
async def test_without_loads_nothing_hangs_on_anything(hand):
    await hand.press("s", "t")
    await told(hand)
    assert isinstance(hand.app.screen, SensitivityScreen)
    await hand.press("end", "home")


@by_hand()
async def test_the_new_actions_are_found_by_typing(hand):
    for words, place in (
        ("must give", "gives"), ("side by side", "compare"), ("weigh margin", "weights"), ("two criteria", "scatter"),
        ("hangs", "sensitivity"),
    ):  # fmt: skip
        await hand.press("g")
        await hand.type(words)
        await hand.press("enter")
        assert place == hand.app.screen.PLACE, words
        if hasattr(hand.app.screen, "running"):
            await told(hand)
        await hand.press("escape", "escape")
        assert hand.app.screen is hand.questions
    await hand.press("s", "g")
    await hand.type("must give")
    await hand.press("enter")
    assert hand.app.screen.PLACE == "gives"


@by_hand()
async def test_help_explains_every_key_of_these_screens(hand):
    for key, words in (("w", "Let the marked criterion count more."), ("M", "Make the marked change."),
                       ("s", "Drop the change that is tried."), ("d", "Draw the next criterion across.")):  # fmt: skip
        await hand.press("s", key)
        await hand.press("question_mark")
        assert hand.sees(words)
        await hand.press("escape", "escape", "escape", "escape")
        assert hand.app.screen is hand.questions
