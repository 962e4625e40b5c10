"""Undo and redo work on every screen and leave the hand where it was; the last answer can be repeated elsewhere."""

import asyncio

import pytest

from tests.wizard.running import DUTY, new_session, wizard

#: The keys from the questions to each screen.
WAYS = {
    "chapter": [],
    "shortlist": ["s"],
    "pair": ["s", "enter"],
    "setting": ["s", "v"],
    "compare": ["s", "s"],
    "why": ["s", "y"],
    "gives": ["s", "M"],
    "scatter": ["s", "d"],
    "sensitivity": ["s", "t"],
    "weights": ["s", "w"],
    "shaft": ["v"],
    "lubrication": ["right"] * 4 + ["v"],
    "fits": ["right"] * 6 + ["v"],
    "browse": ["b"],
    "section": ["b", "enter"],
    "assumed": ["t"],
    "help": ["question_mark"],
}


def sit(folder, test):
    async def run():
        async with wizard(new_session(folder, DUTY)) as hand:
            await hand.rest()
            await test(hand)

    asyncio.run(run())


async def change_life(hand):
    hand.questions.go_to("duty.life")
    await hand.press(*"4000", "enter")
    assert hand.answers.duty.life.value == 4000


def test_the_last_change_is_taken_back_and_brought_back_on_every_screen(tmp_path):
    async def back_and_forth(hand):
        await change_life(hand)
        await hand.rest()
        # what is found after each change is no matter here
        hand.app.search.start = hand.app.inquiries.ask = hand.app.pairs.look = lambda _: None
        for place, way in WAYS.items():
            hand.app.to_questions()
            hand.questions.go_to("duty.life")
            await hand.press(*way)
            assert place == hand.app.screen.PLACE
            await hand.press("u")
            assert hand.answers.duty.life.value == 3000, place
            assert hand.sees("Taken back: Required life"), place
            await hand.press("R")
            assert hand.answers.duty.life.value == 4000, place
            assert hand.sees("Brought back: Required life"), place
            await hand.press("R")
            assert hand.sees("There is nothing to bring back."), place
            assert place == hand.app.screen.PLACE
            await hand.press("up", "down")
            if place in {"pair", "shaft", "fits", "browse", "help"}:  # those that say it where their title stands
                assert not hand.sees("There is nothing to bring back."), place

    sit(tmp_path, back_and_forth)


@pytest.mark.parametrize(("place", "label"), [("pair", "Life of the bearing, A"), ("setting", "life")])
def test_what_is_shown_of_a_pair_follows_the_answer_that_was_taken_back(tmp_path, place, label):
    async def follow(hand):
        await change_life(hand)
        await hand.rest()
        await hand.press(*WAYS[place])
        await hand.rest()
        assert label in hand.whole()
        before = hand.app.screen.result
        await hand.press("u")
        await hand.rest()
        after = hand.app.screen.result
        assert after is not None and after is not before
        demands = [next(one.demand for one in of.checks if one.key == "life") for of in (before, after)]
        assert demands == [4000, 3000]

    sit(tmp_path, follow)


def test_the_last_weight_is_repeated_on_another_criterion(tmp_path):
    async def repeat(hand):
        await hand.press("s", "w", "=")
        assert hand.sees("No weight has been typed yet")
        await hand.press("2", ".", "5", "enter", "down", "=")
        given = [one for one in hand.app.session.answers.choice.__struct_fields__ if one.startswith("weigh_")]
        values = [getattr(hand.answers.choice, one) for one in given]
        assert [one.value for one in values if one is not None] == [2.5, 2.5]

    sit(tmp_path, repeat)


def test_the_last_answer_is_repeated_from_the_list_of_what_is_assumed(tmp_path):
    async def repeat(hand):
        hand.questions.go_to("duty.cases[0].application_factor")
        await hand.press(*"1.2", "enter", "t")
        paths = [one.path for one in hand.app.screen.assumptions]
        hand.app.screen.rows.mark(paths.index("duty.cases[0].shock_factor"))
        await hand.press("=")
        assert hand.app.screen.PLACE == "chapter"
        assert hand.answers.duty.cases[0].shock_factor.value == 1.2

    sit(tmp_path, repeat)


@pytest.mark.parametrize(("place", "path"), [("assumed", ""), ("weights", "choice.weigh_margin")])
def test_help_on_a_list_of_questions_begins_with_the_marked_one(tmp_path, place, path):
    async def ask(hand):
        await hand.press(*WAYS[place])
        wanted = path or hand.app.screen.assumptions[0].path
        await hand.press("question_mark")
        assert hand.app.screen.item.path == wanted
        assert hand.sees(hand.app.screen.item.question.label)

    sit(tmp_path, ask)
