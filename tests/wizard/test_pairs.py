"""From the questions to the shortlist, to one pair, and back with a choice."""

import asyncio
import functools
import tomllib

import pytest

from engine.record.read import read
from tests.duties import small_catalogue
from tests.wizard.running import DUTY, new_session, until, wizard
from wizard.keeping.shelf import state_folder
from wizard.screens.chapter import ChapterScreen
from wizard.screens.help import HelpScreen
from wizard.screens.pair import PairScreen
from wizard.screens.shortlist import ShortlistScreen
from wizard.search import Computed, Failed


def by_hand(test):
    """Run a coroutine test with a session on a duty that some pairs meet."""

    @functools.wraps(test)
    def run(tmp_path):
        async def sit():
            async with wizard(new_session(tmp_path, DUTY)) as hand:
                await hand.rest()
                await test(hand)

        asyncio.run(sit())

    del run.__wrapped__  # pytest looks there for the fixtures, of which there is only the folder
    return run


def front(hand):
    return type(hand.app.screen)


@by_hand
async def test_the_panel_says_how_many_pairs_remain(hand):
    counted = hand.app.standing.counted
    assert 0 < counted.count < 1600
    assert hand.sees(f"{counted.count} of 1600 pairs remain") or hand.sees(f"{counted.count} of 1 600 pairs remain")


@by_hand
async def test_the_panel_says_what_an_answer_took_away_and_gave_back(hand):
    before = hand.app.standing.counted.count
    await hand.go("duty.life")
    await hand.press(*"30000", "enter")
    await hand.rest()
    after = hand.app.standing.counted.count
    assert after < before
    assert hand.sees(f"Required life: 30 000 h took away {before - after}")
    await hand.press("u")
    await hand.rest()
    assert hand.sees(f"gave back {before - after}")


@by_hand
async def test_s_opens_the_shortlist_and_c_chooses(hand):
    await hand.press("s")
    assert front(hand) is ShortlistScreen
    assert hand.sees("lightest first")
    await hand.press("down")
    wanted = hand.app.screen.marked
    await hand.press("c")
    assert hand.app.session.chosen == wanted
    await hand.rest()
    assert hand.sees(f"Chosen: A {wanted[0]}, B {wanted[1]}  ✓ passes")
    kept = tomllib.loads(hand.app.session.path.read_text())
    assert (kept["result"]["bearing_a"], kept["result"]["bearing_b"]) == wanted
    await hand.press("escape")
    assert front(hand) is ChapterScreen
    assert hand.sees("✓ passes")


@by_hand
async def test_enter_opens_a_pair_and_escape_goes_back(hand):
    await hand.press("s", "down", "down", "enter")
    assert front(hand) is PairScreen
    listed = hand.app.standing.listed.shortlist.evaluated
    assert hand.app.screen.result.bearing_A == listed.A.designation[2]
    assert hand.app.screen.result.bearing_B == listed.B.designation[2]
    assert hand.sees("The pair passes")
    await hand.press("escape")
    assert front(hand) is ShortlistScreen
    assert hand.app.screen.rows.at == 2
    await hand.press("left")
    assert front(hand) is ChapterScreen


@by_hand
async def test_every_figure_of_a_pair_can_be_reached_with_its_clause(hand):
    await hand.press("s", "enter")
    pair = hand.app.screen
    seen = set()
    for _ in range(400):
        source = pair.detail.sources.get(pair.rows.at)
        if source:
            seen.add(pair.rows.at)
            assert hand.app.screen.query_one("#source").lines[1][0][0].strip()[:20] in source
        at = pair.rows.at
        pair.press("down", None)
        if pair.rows.at == at:
            break
    assert seen == set(pair.detail.sources)
    assert any("ISO 281" in source for source in pair.detail.sources.values())


@by_hand
async def test_c_on_a_pair_chooses_it_and_goes_back(hand):
    await hand.press("s", "down", "enter", "c")
    assert front(hand) is ShortlistScreen
    evaluated = hand.app.standing.listed.shortlist.evaluated
    assert hand.app.session.chosen == (str(evaluated.A.designation[1]), str(evaluated.B.designation[1]))
    await hand.rest()
    assert read(hand.app.session.path).stored


@pytest.mark.parametrize(
    ("key", "title"), [("z", "smallest first"), ("l", "longest-lived first"), ("m", "lightest first")]
)
def test_the_shortlist_is_ranked_by_another_measure(tmp_path, key, title):
    async def sit():
        async with wizard(new_session(tmp_path, DUTY)) as hand:
            await hand.rest()
            await hand.press("s", "down", "down", key)
            await hand.rest()
            assert hand.sees(title)
            assert hand.app.screen.rows.at == 0
            listed = hand.app.standing.listed.shortlist
            A, B = listed.evaluated.A, listed.evaluated.B
            measure = {"z": A.D + B.D, "l": -listed.life, "m": A.mass + B.mass}[key].tolist()
            assert measure == sorted(measure)
            assert read(hand.app.session.path).answers == hand.answers

    asyncio.run(sit())


def test_a_duty_that_nothing_meets_says_what_to_loosen(tmp_path):
    async def sit():
        async with wizard(new_session(tmp_path, DUTY | {"envelope.bore_a": "1999"})) as hand:
            await hand.rest()
            assert hand.sees("0 of")
            assert hand.sees("No pair passes: M says what must give")
            await hand.press("s", "enter", "c", "down", "end")  # nothing there to open or to choose
            assert front(hand) is ShortlistScreen
            assert hand.sees("No pair passes: M says what must give")
            assert hand.app.session.chosen is None

    asyncio.run(sit())


@by_hand
async def test_a_changed_answer_computes_the_chosen_pair_again(hand):
    await hand.press("s", "c", "escape")
    await hand.rest()
    await hand.go("duty.life")
    await hand.press(*"9000000", "enter")
    await hand.rest()
    assert hand.sees("✗ fails")
    assert tomllib.loads(hand.app.session.path.read_text())["result"]["verdict"] == "fails"


@by_hand
async def test_what_is_found_too_late_for_other_answers_is_dropped(hand):
    await hand.press("s", "c", "escape")
    await hand.rest()
    late, counted = hand.app.standing.result, hand.app.standing.counted
    before = hand.answers
    await hand.go("duty.life")
    await hand.press(*"9000000", "enter")
    await hand.rest()
    for found in (Computed(before, late, "", ("built-in", "")), Failed(before, "too late"), counted):
        hand.app._found(found)
    assert hand.app.standing.result is not late
    assert hand.app.standing.counted is not counted
    assert hand.app.standing.wrong == ""
    assert tomllib.loads(hand.app.session.path.read_text())["result"]["verdict"] == "fails"


def test_a_chosen_bearing_that_is_not_there_is_said(tmp_path):
    async def sit():
        session = new_session(tmp_path, DUTY)
        session.choose("[bold]V1[/]", str(small_catalogue(3).designation[0]))
        async with wizard(session) as hand:
            await hand.rest()
            assert hand.sees("[bold]V1[/]")
            assert hand.app.standing.trouble
            assert hand.app.standing.result is None

    asyncio.run(sit())


def test_a_catalogue_that_cannot_be_read_is_said_and_answering_goes_on(tmp_path):
    def broken():
        raise ValueError("row 7 [bold]steel[/] \x1b[2J")

    async def sit():
        async with wizard(new_session(tmp_path), load=broken) as hand:
            await until(lambda: hand.sees("The search stopped: an error inside Conewright."), "what is wrong")
            (report,) = state_folder().glob("error-*.txt")
            assert "row 7 [bold]steel[/] \x1b[2J" in report.read_text()  # never on the screen
            assert hand.sees(report.name)
            await hand.go("duty.life")
            await hand.press(*"500", "enter")
            await hand.press("s", "enter", "c", "escape")
            assert read(hand.app.session.path).answers.duty.life.value == 500.0

    asyncio.run(sit())


@by_hand
async def test_the_help_page_begins_with_the_marked_question_and_goes_back_to_it(hand):
    await hand.go("duty.life")
    await hand.press("question_mark")
    assert front(hand) is HelpScreen
    assert hand.sees("Required life")
    await hand.press("end")
    assert hand.sees("engineer")
    await hand.press("question_mark")
    assert front(hand) is HelpScreen
    await hand.press("escape")
    assert front(hand) is ChapterScreen
    assert hand.marked == "duty.life"
    await hand.press("s", "f1")
    assert hand.sees("Shortlist")
    await hand.press("b")
    assert front(hand) is ShortlistScreen


@pytest.mark.parametrize("way", [["s"], ["s", "enter"], ["question_mark"]], ids=" ".join)
def test_q_leaves_from_everywhere(tmp_path, way):
    async def sit():
        async with wizard(new_session(tmp_path, DUTY)) as hand:
            await hand.rest()
            await hand.press(*way, "q")
            return hand.app

    assert asyncio.run(sit()).return_value == 0
