"""A page of text scrolls by its text, and says how much of it there is."""

import asyncio
import re

import pytest

from tests.wizard.running import DUTY, new_session, wizard


def sit(folder, test, size=(80, 24)):
    async def run():
        async with wizard(new_session(folder, DUTY), size=size) as hand:
            await hand.rest()
            await test(hand)

    asyncio.run(run())


def text_of(hand):
    """Return the lines of the page in view, between the two of its head and the footer."""
    return [line.rstrip() for line in hand.screen()[2:-1]]


def whole(hand):
    return ["".join(text for text, _ in one).rstrip() for one in hand.app.screen.rows.lines]


@pytest.mark.parametrize("size", [(80, 24), (60, 20)])
def test_each_key_moves_the_text_by_what_it_says(tmp_path, size):
    async def read(hand):
        await hand.press("question_mark")
        every, shown = whole(hand), size[1] - 3
        last = len(every) - shown
        assert last > 3 * shown
        at = 0
        assert text_of(hand) == every[:shown]
        moves = [("down", 1), ("down", 1), ("j", 1), ("up", -1), ("pagedown", shown - 1), ("pagedown", shown - 1)]
        moves += [("pageup", 1 - shown), ("down", 1), ("up", -1), ("end", len(every)), ("down", 1), ("up", -1)]
        moves += [("home", -len(every)), ("up", -1), ("pagedown", shown - 1)]
        for key, by in moves:
            await hand.press(key)
            at = max(0, min(at + by, last))
            assert text_of(hand) == every[at : at + shown], key

    sit(tmp_path, read, size)


def test_the_rule_says_which_lines_are_in_view_and_where_the_text_ends(tmp_path):
    async def read(hand):
        await hand.press("question_mark")
        every = len(whole(hand))
        assert f" lines 1 to 21 of {every} " in hand.screen()[1]
        await hand.press("pagedown", "down")
        assert f" lines 22 to 42 of {every} " in hand.screen()[1]
        await hand.press("end")
        assert f" lines {every - 20} to {every} of {every}, the end " in hand.screen()[1]
        await hand.pilot.resize_terminal(100, 40)
        await hand.pilot.pause()
        first, last, of = map(int, re.search(r"lines (\d+) to (\d+) of (\d+)", hand.screen()[1]).groups())
        assert last - first + 1 == 37 and of == len(whole(hand))
        assert text_of(hand) == whole(hand)[first - 1 : last]

    sit(tmp_path, read)


def test_a_text_that_is_whole_in_view_says_nothing_and_stays(tmp_path):
    async def read(hand):
        await hand.press("b", "d", "ctrl+u", *"T3DB050", "enter")
        assert "lines" not in hand.screen()[1]
        before = hand.screen()
        await hand.press("down", "pagedown", "end")
        assert hand.screen() == before

    sit(tmp_path, read)
