"""The screen of questions: what each key does, with the answers looked up in the session and in the file."""

import asyncio
import functools

import pytest

from engine.answers.chapters.duty import LoadCase
from engine.answers.document import CHAPTERS, Answers
from engine.answers.question import Limits, Quantity
from engine.record.document import Record
from engine.record.read import read
from tests.wizard.running import DUTY, new_session, wizard
from wizard.session import Session


def by_hand(test):
    """Run a coroutine test with a new session."""

    @functools.wraps(test)
    def run(tmp_path):
        async def sit():
            async with wizard(new_session(tmp_path)) as hand:
                await test(hand)

        asyncio.run(sit())

    del run.__wrapped__  # pytest looks there for the fixtures, of which there is only the folder
    return run


@by_hand
async def test_a_digit_begins_an_entry_and_enter_takes_it_and_moves_on(hand):
    await hand.go("duty.distance")
    await hand.press("1")
    assert hand.questions.entering == "duty.distance"
    await hand.type("60 mm")
    assert hand.sees("▸ 160 mm")
    assert hand.answers.duty.distance is None
    await hand.press("enter")
    assert hand.answers.duty.distance == Quantity(160.0, "160 mm")
    assert hand.questions.entering == ""
    assert hand.marked == "duty.distance_between"
    assert read(hand.app.session.path).answers == hand.answers


@by_hand
async def test_keys_typed_as_fast_as_a_line_brings_them_all_arrive(hand):
    await hand.go("duty.distance")
    await hand.press(*"160", "enter", "2", *"1500 h", "enter", *"95", "enter")
    assert hand.answers.duty.distance == Quantity(160.0, "160")
    assert hand.answers.duty.distance_between == "middles"
    assert hand.answers.duty.life == Quantity(1500.0, "1500 h")
    assert hand.answers.duty.reliability == Quantity(95.0, "95")


@by_hand
async def test_a_wrong_value_says_what_is_wrong_and_what_is_accepted_and_keeps_what_was_typed(hand):
    await hand.go("duty.distance")
    await hand.type("3 furlong")
    await hand.press("enter")
    assert hand.sees("furlong")
    assert hand.sees("Accepted:")
    assert hand.sees("▸ 3 furlong")
    assert hand.questions.entering == "duty.distance"
    assert hand.answers == Answers()
    assert not hand.app.session.path.exists()
    for _ in "furlong":
        await hand.press("backspace")
    await hand.type("in")
    await hand.press("enter")
    assert hand.answers.duty.distance == Quantity(76.2, "3 in")


@by_hand
async def test_escape_leaves_an_entry_with_the_answer_as_it_was(hand):
    await hand.go("duty.distance")
    await hand.press(*"160", "enter", "up")
    await hand.press("enter")
    assert hand.sees("▸ 160")
    await hand.type("9")
    await hand.press("escape")
    assert hand.answers.duty.distance == Quantity(160.0, "160")
    assert hand.marked == "duty.distance"
    assert not hand.sees("▸ 1609")


@by_hand
async def test_an_entry_is_edited_in_the_middle(hand):
    await hand.go("duty.distance")
    await hand.press(*"1600", "left", "left", "delete", "home", "delete", "2", "end", "backspace", "5", "enter")
    assert hand.answers.duty.distance == Quantity(265.0, "265")


@by_hand
async def test_delete_opens_a_question_again(hand):
    await hand.go("duty.distance")
    await hand.press("delete")
    assert hand.app.session.last_change == ""  # nothing to open
    await hand.press(*"160", "enter", "up", "delete")
    assert hand.answers.duty.distance is None
    assert hand.marked == "duty.distance"
    assert read(hand.app.session.path).answers.duty.distance is None


@by_hand
async def test_an_emptied_entry_opens_the_question_too(hand):
    await hand.go("duty.distance")
    await hand.press(*"160", "enter", "up", "enter", "ctrl+u", "enter")
    assert hand.answers.duty.distance is None


@by_hand
async def test_a_digit_picks_an_option(hand):
    await hand.go("duty.arrangement")
    await hand.press("1")
    assert hand.answers.duty.arrangement == "back_to_back"
    assert hand.marked == "duty.distance"
    await hand.press("up", "9")
    assert hand.answers.duty.arrangement == "back_to_back"
    assert hand.sees("not one of the options")


@by_hand
async def test_where_options_are_numbers_a_digit_is_part_of_one(hand):
    await hand.press("right", "right", "right", "right")
    await hand.go("lubrication.grade")
    await hand.press(*"220", "enter")
    assert hand.answers.lubrication.grade == "220"


@by_hand
async def test_a_range_begins_with_its_sign(hand):
    await hand.press("right", "right")
    await hand.go("envelope.outside_a")
    await hand.type("<=120")
    await hand.press("enter")
    assert hand.answers.envelope.outside_a == Limits(None, 120.0, "<=120")


@by_hand
async def test_words_begin_with_enter(hand):
    assert hand.marked == "duty.job"
    await hand.press("1")
    assert hand.questions.entering == ""
    await hand.press("enter", *"1 winch, q?", "enter")
    assert hand.answers.duty.job == "1 winch, q?"  # letters in an entry are letters, not commands
    assert hand.sees("Conewright  1 winch, q?")


@by_hand
async def test_right_and_left_change_the_chapter_and_come_round(hand):
    fields = [chapter.field for chapter in CHAPTERS]
    seen = []
    for _ in range(len(fields) + 1):
        seen.append(hand.questions.chapter)
        await hand.press("right")
    assert seen == [*fields, fields[0]]
    await hand.press("left", "left")
    assert hand.questions.chapter == fields[-1]
    assert hand.sees(f"{len(fields)}.1")


@by_hand
async def test_a_chapter_is_found_where_it_was_left(hand):
    await hand.go("duty.life")
    await hand.press("tab", "down", "shift+tab")
    assert hand.marked == "duty.life"
    await hand.press("right")
    assert hand.marked == "shaft.tilt"


@by_hand
async def test_the_mark_stays_on_the_screen_wherever_it_goes(hand):
    for key in ("end", "home", "pagedown", "pagedown", "pagedown", "pageup", "k", "j"):
        await hand.press(key)
        rows = hand.questions.rows
        assert rows.top <= rows.at < rows.top + rows.size.height
        assert hand.sees(hand.questions.marked.question.label)


@by_hand
async def test_next_open_goes_to_what_is_not_answered(hand):
    await hand.press("enter", *"winch", "enter", "home", "n")
    assert hand.marked == "duty.cases[0].speed"  # what lives need comes first
    assert hand.sees("Needed for lives, 3 to go")
    await hand.press("n")
    assert hand.marked == "duty.cases[0].radial_y"
    await hand.press("up", "n", *"400", "enter", *"9", "enter", "n", *"200", "enter", "home", "n")
    assert hand.marked == "duty.arrangement"
    await hand.press("n")
    assert hand.marked == "duty.distance_between"


# load cases


@by_hand
async def test_load_cases_come_and_go_by_a_c_and_x(hand):
    await hand.press("a")
    assert len(hand.answers.duty.cases) == 2
    assert hand.marked == "duty.cases[1].name"
    await hand.go("duty.cases[1].speed")
    await hand.press(*"400", "enter", "c")
    assert [case.speed for case in hand.answers.duty.cases] == [None, Quantity(400.0, "400"), Quantity(400.0, "400")]
    assert hand.marked == "duty.cases[2].name"
    await hand.press("x")
    assert len(hand.answers.duty.cases) == 2
    assert hand.sees("Load case 3 removed; u brings it back.")
    await hand.press("u")
    assert len(hand.answers.duty.cases) == 3
    assert read(hand.app.session.path).answers == hand.answers


@by_hand
async def test_c_and_x_say_where_they_work(hand):
    for key in ("c", "x"):
        await hand.press("home", key)
        assert hand.sees("Mark a line of a load case first")
    assert hand.answers == Answers()


@by_hand
async def test_the_last_case_is_emptied_not_removed(hand):
    await hand.go("duty.cases[0].speed")
    await hand.press(*"400", "enter", "x")
    assert hand.answers.duty.cases == (LoadCase(),)


# history


@by_hand
async def test_u_and_r_go_back_and_forth_and_say_so(hand):
    await hand.press("u")
    assert hand.sees("There is nothing more to take back.")
    await hand.go("duty.distance")
    await hand.press(*"160", "enter")
    await hand.press("u")
    assert hand.answers == Answers()
    assert hand.sees("Taken back: Distance between the bearings: 160 mm")
    await hand.press("r")
    assert hand.answers.duty.distance == Quantity(160.0, "160")
    assert hand.sees("Brought back: Distance between the bearings")
    await hand.press("r")
    assert hand.sees("There is nothing to bring back.")
    await hand.rest()


# files


@by_hand
async def test_w_saves_under_a_name_and_asks_before_it_replaces(hand):
    session = hand.app.session
    folder = session.path.parent
    (folder / "taken.toml").write_text("somebody's own")
    await hand.go("duty.life")
    await hand.press(*"500", "enter")
    await hand.press("w", "ctrl+u")
    hand.app.questions.typed(str(folder / "taken"))
    await hand.press("enter")
    assert (folder / "taken.toml").read_text() == "somebody's own"
    assert "Enter again replaces it" in " ".join(" ".join(hand.screen()).split())
    await hand.press("enter")
    assert read(folder / "taken.toml").answers == hand.answers
    assert session.path == folder / "taken.toml"
    await hand.press(*"800", "enter")  # goes on at the next question, Reliability: refused
    await hand.press("escape", "up", *"900", "enter")
    assert read(folder / "taken.toml").answers.duty.life == Quantity(900.0, "900")


@pytest.mark.parametrize("name", [".", "..", "/", "~nobody-of-that-name/x", "missing/x", "/dev/null/x"])
def test_w_with_a_name_that_cannot_be_says_so_and_goes_on(tmp_path, monkeypatch, name):
    monkeypatch.chdir(tmp_path)

    async def sit():
        async with wizard(new_session(tmp_path)) as hand:
            await hand.go("duty.life")
            await hand.press(*"500", "enter", "w", "ctrl+u", *name)
            await hand.press("enter")
            assert hand.questions.entering == "save"
            assert hand.app.session.path == tmp_path / "record.toml"
            await hand.press("escape", *"95", "enter")
            assert hand.answers.duty.reliability == Quantity(95.0, "95")
            assert read(tmp_path / "record.toml").answers == hand.answers

    asyncio.run(sit())


@by_hand
async def test_w_without_a_name_changes_nothing(hand):
    await hand.press("w", "ctrl+u", "enter")
    assert hand.questions.entering == ""
    assert hand.app.session.path.name == "record.toml"


def test_o_goes_on_with_the_session_left_unfinished(home):
    folder = home / "state" / "conewright"
    folder.mkdir(parents=True)
    left = Session(Record(Answers()), folder / "session-20200101-000000.toml", named=False)
    left.answer("duty.job", "left behind")

    async def sit():
        fresh = Session(Record(Answers()), folder / "session-20240101-000000.toml", named=False)
        async with wizard(fresh) as hand:
            assert hand.sees("An unfinished session is kept (session-20200101-000000.toml); press o")
            await hand.press("o")
            assert hand.answers.duty.job == "left behind"
            assert hand.sees("Going on with session-20200101-000000.toml")
            await hand.rest()
            await hand.press("enter", "!", "enter")
        assert read(left.path).answers.duty.job == "left behind!"
        assert not fresh.path.exists()

    asyncio.run(sit())


def test_o_with_a_damaged_session_says_what_is_wrong_with_it(home):
    folder = home / "state" / "conewright"
    folder.mkdir(parents=True)
    (folder / "session-20200101-000000.toml").write_text("schema = ")

    async def sit():
        fresh = Session(Record(Answers()), folder / "session-20240101-000000.toml", named=False)
        async with wizard(fresh) as hand:
            await hand.press("o")
            assert "not TOML" in " ".join(" ".join(hand.screen()).split())
            assert hand.app.session is fresh

    asyncio.run(sit())


@by_hand
async def test_o_without_anything_unfinished(hand):
    await hand.press("o")
    assert hand.sees("There is no unfinished session.")


# leaving


@pytest.mark.parametrize("key", ["q", "f10", "ctrl+c"])
def test_every_quitting_key_leaves_with_everything_saved(tmp_path, key):
    async def sit():
        async with wizard(new_session(tmp_path)) as hand:
            await hand.go("duty.life")
            await hand.press(*"500", "enter")
            await hand.press(key)
            return hand.app

    app = asyncio.run(sit())
    assert app.return_value == 0
    assert app.return_code == 0
    assert read(tmp_path / "record.toml").answers.duty.life == Quantity(500.0, "500")


@pytest.mark.parametrize("key", ["f10", "ctrl+c"])
def test_a_person_who_wants_out_gets_out_while_typing(tmp_path, key):
    async def sit():
        async with wizard(new_session(tmp_path)) as hand:
            await hand.go("duty.life")
            await hand.press(*"500", key)
            return hand.app

    assert asyncio.run(sit()).return_value == 0


# what somebody else wrote


STRANGE = "[bold]x[/] [red on blue]"


def test_text_that_looks_like_markup_is_shown_as_it_is(tmp_path):
    """In the job, in a load case and in the name of the file."""

    async def sit():
        session = new_session(tmp_path, DUTY | {"duty.job": STRANGE, "duty.cases[0].name": "[i]case[/i]"})
        session.path = tmp_path / "[u]r.toml"
        async with wizard(session) as hand:
            assert hand.sees(f"Conewright  {STRANGE}")
            assert hand.sees("[u]r.toml")
            await hand.press("end")
            assert hand.sees("Load case 1: [i]case[/i]")
            await hand.press("home", "enter")
            assert hand.sees(f"▸ {STRANGE}")
            await hand.press("escape")

    asyncio.run(sit())


def test_characters_that_command_a_terminal_are_shown_as_what_they_are(tmp_path):
    """A file may be called anything; such characters in an answer are refused already when the record is read."""

    async def sit():
        session = new_session(tmp_path, DUTY)
        session.path = tmp_path / "e\x1b[2Jx.toml"
        session.choose("V\x1b[31m", "W\x07")
        async with wizard(session) as hand:
            await hand.rest()
            text = "".join(hand.screen())
            assert "\x1b" not in text
            assert "\x07" not in text
            assert hand.sees("e\\x1b[2Jx.toml")
            assert hand.sees("V\\x1b[31m")

    asyncio.run(sit())


@by_hand
async def test_a_pasted_text_is_one_line_and_no_longer_than_an_answer(hand):
    await hand.go("duty.distance")
    hand.app.questions.typed("1" * 10_000 + "\n2")
    assert len(hand.questions.entry.text) == 64
    await hand.press("ctrl+u")
    hand.app.questions.typed("160\x1b[31m mm\r\nq")
    assert hand.questions.entry.text == "160[31m mm"
    assert hand.app.is_running


@by_hand
async def test_while_typing_the_footer_says_what_keys_do_there_and_f1_opens_help_without_losing_it(hand):
    await hand.go("duty.distance")
    assert hand.screen()[-1].startswith("Enter answer")
    await hand.type("160 m")
    assert hand.screen()[-1].split("  ")[:4] == ["Enter take it", "Esc leave it", "F1 help", "Ctrl-C quit"]
    await hand.press("f1")
    assert hand.sees("Distance") and "Keys: While something is typed" in hand.whole()
    assert hand.app.cursor_position == (0, 0)
    await hand.press("escape")
    assert hand.sees("▸ 160 m")
    assert hand.app.cursor_position != (0, 0)
    await hand.press("m", "enter")
    assert hand.answers.duty.distance == Quantity(160.0, "160 mm")
    assert hand.screen()[-1].startswith("Enter answer")


@by_hand
async def test_help_read_in_the_midst_of_an_answer_may_lead_elsewhere(hand):
    await hand.go("duty.distance")
    await hand.press("1", "f1", "g", *"reliab", "enter")
    assert hand.marked == "duty.reliability"
    assert hand.questions.entering == ""
    assert hand.answers.duty.distance is None


@by_hand
async def test_the_lines_of_other_screens_have_help_and_their_keys_in_the_footer_too(hand):
    await hand.press("b", "slash", *"d=6")
    assert hand.screen()[-1].startswith("Enter take it  Esc leave it  F1 help  Ctrl-C quit")
    await hand.press("f1", "escape", "0")
    assert hand.app.screen.entry.text == "d=60"


@by_hand
async def test_help_on_a_question_shows_its_formula_with_symbols_and_source(hand):
    await hand.go("duty.reliability")
    await hand.press("?")
    assert "Formula and source" in hand.whole()
    assert "Lnm = a1 a_ISO L10" in hand.whole()
    assert "Source: ISO 281:2007, clause 9.1" in hand.whole()
    assert "recalled" in hand.whole()  # how the source is known
    await hand.press("escape")
    await hand.go("duty.job")
    await hand.press("?")
    assert hand.sees("What it is used for")
    assert hand.sees("Enters no formula")
