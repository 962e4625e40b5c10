"""Lubrication by hand: a lubricant from the list, words on dirt, and advice that a digit carries out."""

import asyncio

import pytest

from tests.wizard.running import DUTY, new_session, until, wizard

#: A thin oil, so that the figures ask for a thicker one.
THIN = DUTY | {"lubrication.grade": "22", "lubrication.supply": "oil bath"}


def by_hand(texts):
    """Run a test with the wizard on some answers, the lubrication chapter in front."""

    def decorate(test):
        def run(tmp_path):
            async def sit():
                async with wizard(new_session(tmp_path, texts)) as hand:
                    await hand.press("right", "right", "right", "right")
                    await test(hand)

            asyncio.run(sit())

        return run

    return decorate


async def drawn(hand):
    """Wait until what is drawn belongs to the answers as they stand."""
    await hand.rest()
    standing = hand.app.standing
    await until(lambda: standing.drawn is not None and standing.drawn.answers is hand.answers, "the drawing")
    await hand.pilot.pause()


@by_hand(DUTY)
async def test_a_lubricant_is_chosen_from_the_list(hand):
    await hand.go("lubrication.lubricant")
    await hand.press("enter")
    assert hand.sees("Lubricants for grease") and hand.sees("polyurea")
    await hand.type("lithium pao 460")
    assert not hand.sees("polyurea")
    await hand.press("enter")
    assert hand.answers.lubrication.lubricant == "grease NLGI 2 EP, lithium complex, PAO VG 460"
    # what the list knows is asked no more
    assert hand.questions.form.line_of("lubrication.grade") is None
    assert hand.marked == "lubrication.temperature_by"
    await hand.press("up", "enter", "escape")
    assert hand.answers.lubrication.lubricant.startswith("grease NLGI 2 EP")


@by_hand(DUTY)
async def test_an_oil_by_name_is_refused_while_the_supply_is_grease(hand):
    await hand.go("lubrication.lubricant")
    await hand.press("enter")
    await hand.type("pag")
    assert hand.sees("No grease is called that")
    await hand.press("enter")
    assert hand.answers.lubrication.lubricant is None
    await hand.press("escape")
    await hand.go("lubrication.supply")
    await hand.press("2")
    await hand.press("enter")
    await hand.type("pag 220")
    await hand.press("enter")
    assert hand.answers.lubrication.lubricant == "PAG oil VG 220"
    await hand.go("lubrication.supply")
    await hand.press("1")
    assert hand.sees("is an oil") and hand.answers.lubrication.supply == "bath"


@by_hand(DUTY)
async def test_what_words_on_dirt_became_is_shown_at_once(hand):
    await hand.go("lubrication.cleanliness_by")
    await hand.press("3")
    await hand.go("lubrication.air")
    await hand.press("4")
    assert hand.sees("Cleanliness becomes slight (fresh grease: normal; lip seals, abrasive air:")
    await hand.go("lubrication.cleanliness_by")
    await hand.press("2")
    await hand.go("lubrication.code")
    await hand.press("enter")
    await hand.type("12/15")
    await hand.press("enter")
    assert hand.sees("is not a cleanliness code")
    await hand.press("ctrl+u")
    await hand.type("18/15/12")
    await hand.press("enter")
    assert hand.sees("Cleanliness becomes normal (code 18/15/12: normal).")


@by_hand(THIN)
async def test_a_digit_makes_the_change_and_the_count_moves(hand):
    await drawn(hand)
    before = hand.app.standing.counted.count
    await hand.press("v")
    assert hand.sees("What the figures ask for") and hand.sees("1 ISO VG")
    await hand.press("1")
    grade = hand.answers.lubrication.grade
    assert int(grade) > 22
    await drawn(hand)
    assert hand.app.standing.counted.count > before
    assert hand.sees(f"ISO VG {grade} gave back")
    await hand.press("u")
    assert hand.answers.lubrication.grade == "22"
    await drawn(hand)
    assert hand.app.standing.counted.count == before
    assert hand.sees("Taken back: ISO VG")
    # the marked one, by Enter
    await hand.press("home", "enter")
    assert hand.answers.lubrication.grade == grade
    # a digit without a proposal, and one pressed before the figures are there, do nothing
    answers = hand.answers
    await hand.press("9")
    assert hand.answers is answers
    await hand.press("escape")
    assert hand.sees("ISO VG of the (base) oil")


@by_hand(DUTY | {"lubrication.temperature_by": "settled", "lubrication.area": "0.1"})
async def test_the_settled_temperature_is_drawn_and_said(hand):
    await drawn(hand)
    await hand.press("v")
    assert hand.sees("Viscosity of ISO VG 150 over temperature")
    await hand.press("end", "up", "up")
    assert hand.sees("carried away") and hand.sees("X settled")
    assert hand.sees("settles at") and hand.sees("each pair its own")


@by_hand({})
async def test_without_a_pair_the_oil_alone_is_drawn(hand):
    await hand.press("v")
    assert hand.sees("Computing") or hand.sees("ISO VG 150")
    await drawn(hand)
    assert hand.sees("Viscosity of ISO VG 150")


@pytest.mark.parametrize("size", [(80, 24), (60, 20), (20, 6), (140, 40)])
def test_it_fits_any_terminal(tmp_path, size):
    async def sit():
        async with wizard(new_session(tmp_path, THIN), size=size) as hand:
            await drawn(hand)
            await hand.press("right", "right", "right", "right", "v", "end", "pageup", "home")
            assert all(len(line) <= size[0] for line in hand.screen())

    asyncio.run(sit())


@by_hand(DUTY)
async def test_another_chapter_says_what_is_drawn(hand):
    await hand.press("left", "v")
    assert hand.sees("these have one: Duty, Shaft, Lubrication, Fits,")
