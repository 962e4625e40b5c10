"""What must give: each step with its newcomers, made by Enter, and the promise held."""

import time

import pytest

from engine.answers.resolved import resolve
from engine.operating import Conditions
from engine.selection.loosening import moves
from engine.selection.screen import screen
from engine.selection.what_gives import newcomers, what_gives
from tests.duties import small_catalogue
from tests.wizard.choosing.seated import NOTHING, by_hand, told
from tests.wizard.running import DUTY, PATIENCE
from wizard.screens.choosing.gives import GivesScreen

ROWS = small_catalogue(3)
#: No pair of the small catalogue has such a bore, but a little more room lets in some.
LITTLE = DUTY | {"envelope.bore_a": "<=14"}
#: Room for a pair only where both bores may be larger, under a load that small parts bear.
BOTH = LITTLE | {"envelope.bore_b": "<=14", "duty.cases[0].radial_y": "300 N", "duty.cases[0].axial": "100 N"}
#: Room for no pair by two answers at once.
TWICE = DUTY | {"envelope.bore_a": "<=19", "envelope.bore_b": "<=19", "duty.life": "90000"}


def passing(answers):
    return screen(ROWS, Conditions.of(resolve(answers)))


@by_hand()
async def test_a_step_lets_in_what_it_promises(hand):
    await hand.press("s", "M")
    await told(hand)
    shown = hand.app.screen
    assert isinstance(shown, GivesScreen)
    assert hand.sees("One answer by itself")
    expected = what_gives(ROWS, hand.answers)
    assert shown.singles == list(expected.singles)
    one = shown.given[shown.rows.at]
    assert one.newcomers > 0
    before = hand.answers
    await hand.press("enter")
    assert hand.answers != before
    assert newcomers(passing(before), passing(hand.answers)) == (one.newcomers, one.lost)
    await hand.rest()
    assert hand.app.standing.counted.count == one.count
    await told(hand)
    await hand.press("u")
    assert hand.answers == before
    await hand.press("escape", "escape")


async def an_empty_list_leads_here(hand):
    assert hand.sees("M says what must give")
    await hand.press("M")
    await told(hand)
    assert hand.sees("What must give")
    await hand.press("home", "enter")
    await hand.rest()
    shown = hand.app.screen
    assert isinstance(shown, GivesScreen)


@by_hand(LITTLE)
async def test_an_empty_list_leads_here_from_the_questions(hand):
    await an_empty_list_leads_here(hand)


@pytest.mark.slow
@by_hand(NOTHING)
async def test_an_empty_list_leads_here_where_nothing_lets_in_a_pair(hand):
    await an_empty_list_leads_here(hand)


async def two_are_made_together(hand):
    assert hand.app.standing.counted.count == 0
    begun = time.monotonic()
    expected = what_gives(ROWS, hand.answers)
    alone = time.monotonic() - begun
    await hand.press("M")
    await told(hand, PATIENCE + 4 * alone)  # on a machine that does other work besides
    shown = hand.app.screen
    assert shown.found.pairs == expected.pairs
    if not expected.pairs:
        assert hand.sees("none lets in a pair")
        return
    assert hand.sees("the least change of two")
    one = shown.given[min(shown.given)]
    assert len(one.steps) == 2
    before = hand.answers
    await hand.press("home", "enter")
    assert passing(hand.answers).count == one.count > 0
    await hand.press("u")
    assert hand.answers == before


@by_hand(BOTH)
async def test_where_one_is_not_enough_two_are_made_together(hand):
    """Among few answers, since every couple of them is tried."""

    def few(*given):
        return [move for move in moves(*given) if move.path.startswith(("envelope.bore", "duty.life"))]

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr("engine.selection.what_gives.moves", few)
        await two_are_made_together(hand)
        assert what_gives(ROWS, hand.answers).pairs


@pytest.mark.slow
@by_hand(TWICE)
async def test_of_all_answers_two_are_made_together(hand):
    await two_are_made_together(hand)


@by_hand()
async def test_how_many_are_enough_is_asked_and_bad_counts_are_refused(hand):
    await hand.press("M")
    await told(hand)
    for text in ("", "0", "-3", "many", "1.5", "99999999"):
        await hand.press("e", "ctrl+u")
        await hand.type(text)
        await hand.press("enter")
        assert hand.sees("is no count of pairs"), text
        assert hand.app.screen.enough == 1
        await hand.press("escape")
    await hand.press("e")
    await hand.type("900000")
    await hand.press("enter")
    assert hand.sees("for 900 000 pairs more")
    await hand.press("escape")  # stops; it may be done already
    assert isinstance(hand.app.screen, GivesScreen) or hand.app.screen is hand.questions


@by_hand()
async def test_stopped_it_keeps_what_was_counted(hand):
    await hand.press("M", "escape")
    shown = hand.app.screen
    if shown is hand.questions:  # it was done before the key came
        return
    assert shown.stopped and hand.sees("Stopped")
    await hand.press("x")
    await told(hand)
    assert shown.singles and not shown.stopped
    await hand.press("escape")
    assert hand.app.screen is hand.questions
    # left and opened again, it looks anew
    await hand.press("M")
    await told(hand)
    assert shown.singles


@by_hand({})
async def test_a_new_session_has_it_too(hand):
    await hand.press("M")
    await told(hand)
    assert isinstance(hand.app.screen, GivesScreen)
    await hand.press("home", "end", "pagedown")
