"""A mouse does what keys do: mark, enter, scroll, whatever the footer names; nothing follows one that only moves."""

import asyncio

import pytest
from textual.events import MouseDown, MouseMove, MouseScrollDown, MouseScrollUp

from tests.wizard.running import DUTY, new_session, wizard


def by_mouse(test):
    def run(tmp_path):
        async def sit():
            async with wizard(new_session(tmp_path, DUTY)) as hand:
                await test(hand)

        asyncio.run(sit())

    return run


async def click(hand, x, y, kind=MouseDown):
    """Press a button (or turn the wheel) at a cell, as the driver reports it."""
    await hand.app.on_event(kind(None, x, y, 0, 0, 1, False, False, False, screen_x=x, screen_y=y))
    await hand.pilot.pause()


def place_of(hand, text):
    """Return the cell where a text stands."""
    return next((at.index(text), y) for y, at in enumerate(hand.screen()) if text in at)


@by_mouse
async def test_a_click_marks_a_line_and_another_enters_it(hand):
    x, y = place_of(hand, "Required life ")
    await click(hand, x + 40, y)
    assert hand.marked == "duty.life" and not hand.questions.entering
    await click(hand, x, y)
    assert hand.questions.entering == "duty.life"


@by_mouse
async def test_a_heading_cannot_be_marked(hand):
    await hand.press("end", "up")
    before = hand.marked
    await click(hand, *place_of(hand, "Load case"))
    assert hand.marked == before


@by_mouse
async def test_a_click_on_a_chapter_shows_it(hand):
    await click(hand, *place_of(hand, "Envelope"))
    assert hand.questions.chapter == "envelope"
    x, y = place_of(hand, "│Lubrication")
    await click(hand, x, y)  # what parts two names is neither
    assert hand.questions.chapter == "envelope"


@by_mouse
async def test_a_click_in_the_footer_does_what_stands_there(hand):
    await click(hand, *place_of(hand, "s pairs"))
    assert hand.app.screen.PLACE == "shortlist"
    await click(hand, *place_of(hand, "? help"))
    assert hand.app.screen.PLACE == "help"


@by_mouse
async def test_the_wheel_moves_the_mark_and_ends_at_the_ends(hand):
    stops = hand.questions.form.stops
    await click(hand, 5, 5, MouseScrollDown)
    assert hand.questions.rows.at == stops[3]
    await click(hand, 5, 5, MouseScrollUp)
    await click(hand, 5, 5, MouseScrollUp)
    assert hand.questions.rows.at == stops[0]


@by_mouse
async def test_a_mouse_that_only_moves_and_clicks_on_nothing_change_nothing(hand):
    before = hand.screen()
    for x, y in [(0, 0), (79, 23), (40, 18), (3, 2), (200, 90)]:
        await click(hand, x, y, MouseMove)
        if y not in {0, 23}:
            await click(hand, x, y)
    assert hand.screen() == before


@pytest.mark.parametrize("size", [(60, 20), (20, 5), (200, 50)])
def test_a_click_anywhere_at_any_size_is_harmless(tmp_path, size):
    async def sit():
        async with wizard(new_session(tmp_path, DUTY), size=size) as hand:
            for keys in ([], ["right"], ["s"], ["escape", "b"], ["escape", "g"], ["escape", "question_mark"]):
                await hand.press(*keys)
                for y in range(0, size[1], 2):
                    await click(hand, size[0] // 3, y)
            assert hand.app.is_running

    asyncio.run(sit())
