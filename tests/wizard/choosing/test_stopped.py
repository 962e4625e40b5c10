"""What was stopped before its end never reads as if it were all, on any screen that asks the engine something."""

import time

import pytest

from engine.selection.stages.blocks import SearchCancelled
from engine.selection.verdict import verdict
from engine.selection.what_gives import Trial
from tests.duties import answered, small_catalogue
from tests.wizard.choosing.seated import NOTHING, by_hand, told
from tests.wizard.running import DUTY, until
from wizard.screens.choosing.comparing.compare import CompareScreen
from wizard.screens.choosing.gives import GivesScreen
from wizard.screens.choosing.sensitivity import SensitivityScreen
from wizard.screens.choosing.why import WhyScreen
from wizard.screens.choosing.why_lines import Explained
from wizard.studies.inquiry import Answered

ROWS = small_catalogue(3)


def endless(*parts):
    """Return work that tells some parts, says that it is half done, and goes on until it is stopped."""

    def work(ear):
        for part in parts:
            ear.part(part)
        while not ear.cancelled():
            ear.progress("half of it", 0.5)
            time.sleep(0.01)
        raise SearchCancelled

    return lambda _screen: work


@pytest.fixture
def barren(monkeypatch):
    """Count one step that lets in no pair, and then no end."""
    trial = Trial(ROWS, answered(NOTHING))
    steps = (step for move in trial.moves for step in move.steps)
    none = next(one for one in map(trial.given, steps) if not one.newcomers)
    monkeypatch.setattr(GivesScreen, "work", endless(none))


def by_hand_with(texts, *fixtures):
    return lambda test: pytest.mark.usefixtures(*fixtures)(by_hand(texts)(test))


async def half(hand):
    await until(lambda: hand.sees(" 50 %"), "the progress")


@by_hand_with(NOTHING, "barren")
async def test_what_must_give_says_so_far_while_it_runs_and_once_it_is_stopped(hand):
    await hand.press("M")
    await half(hand)
    assert hand.sees("none lets in a pair so far") and not hand.sees("stopped")
    await hand.press("escape")
    assert hand.sees("none lets in a pair so far; stopped")
    assert hand.sees("These let in none so far; stopped")
    assert hand.sees("Stopped before all was looked at")
    assert not hand.sees("Neither does any change of two answers")


@by_hand_with(DUTY | {"duty.life": "2000"}, "barren")
async def test_neither_how_far_it_is_nor_that_it_stopped_is_hidden_by_a_message(hand):
    await hand.press("s", "M")
    await half(hand)
    hand.app.session.take([("duty.life", None)], "required life: open")
    await hand.press("u")
    await until(lambda: hand.sees("Taken back") and hand.sees(" 50 %"), "both lines")
    await hand.press("escape")
    assert hand.sees("Taken back") and hand.sees("Stopped before all was looked at")
    assert hand.sees("so far; stopped")
    # a refusal of two lines leaves room for it too
    await hand.press("e")
    await hand.type("many")
    await hand.press("enter")
    assert hand.sees("is no count of pairs") and hand.sees("Stopped before all was looked at")


@by_hand()
async def test_an_answer_that_came_before_the_wish_to_stop_is_not_called_stopped(hand):
    await hand.press("s", "M")
    await told(hand)
    shown = hand.app.screen
    shown.running = True  # the key came while the last word was on its way
    whole = shown.found
    await hand.press("escape")
    shown.follow(Answered(shown.inquiry, whole))
    await hand.pilot.pause()
    assert not hand.sees("topped") and not hand.sees("so far")


@pytest.mark.parametrize("seat", [SensitivityScreen, CompareScreen])
def test_where_nothing_was_found_it_says_so(seat, monkeypatch, tmp_path):
    monkeypatch.setattr(seat, "work", endless())
    key = "t" if seat is SensitivityScreen else "s"

    @by_hand(DUTY)
    async def sit(hand):
        await hand.press("s", "space", "down", "space", key)
        await until(lambda: isinstance(hand.app.screen, seat), "the screen")
        await half(hand)
        await hand.press("escape")
        assert hand.sees("Nothing found so far; stopped")
        assert hand.sees("Stopped before all was looked at")

    sit(tmp_path)


def test_stopped_the_columns_of_what_was_before_are_not_shown_as_the_change_that_is_tried(monkeypatch, tmp_path):
    @by_hand(DUTY)
    async def sit(hand):
        await hand.press("s", "space", "down", "space", "s")
        await told(hand)
        names = hand.app.picked[0]
        assert hand.sees(names[0]) and not hand.sees("Nothing found")
        monkeypatch.setattr(CompareScreen, "work", endless())
        await hand.press("t")
        await hand.type("required life = 20000 h")
        await hand.press("enter")
        await half(hand)
        assert hand.sees(names[0])  # until the answer is there they stand
        await hand.press("escape")
        assert hand.sees("Trying") and hand.sees("Nothing found so far; stopped")
        assert not hand.sees(names[0])

    sit(tmp_path)


@pytest.mark.parametrize("fails", [True, False])
def test_why_not_says_that_its_changes_and_its_rank_were_not_looked_for_to_the_end(fails, monkeypatch, tmp_path):
    answers = answered(DUTY)
    found = ((row, verdict(ROWS.take([row]), ROWS.take([row]), answers)) for row in range(len(ROWS)))
    row, said = next((row, one) for row, one in found if one.passes is not fails)
    name = str(ROWS.designation[row])
    monkeypatch.setattr(WhyScreen, "work", endless(Explained((name, name), said)))

    @by_hand(DUTY)
    async def sit(hand):
        await hand.press("y")
        await hand.type(f"{name}, {name}")
        await hand.press("enter")
        await half(hand)
        assert hand.sees("looking") and not hand.sees("stopped")
        await hand.press("escape")
        assert hand.sees("not looked for to the end; stopped" if fails else "was not looked for; stopped")
        assert hand.sees("Stopped before all was looked at")

    sit(tmp_path)
