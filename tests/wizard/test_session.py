"""The document being edited: every accepted change is on the disk, a refused one changes nothing."""

import os
import time
import tomllib
from datetime import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.answers.chapters.duty import MOST_CASES, LoadCase
from engine.answers.document import Answers, get
from engine.answers.question import Quantity, Refused
from engine.operating import Conditions
from engine.record.document import Record
from engine.record.read import read
from engine.record.result import compute
from tests.duties import answered, conditions, small_catalogue
from tests.wizard.running import DUTY, new_session
from wizard.commands import open_session, recent
from wizard.keeping.shelf import KEPT, new_path, prune, state_folder, unfinished
from wizard.session import Session


@pytest.fixture
def session(tmp_path):
    return new_session(tmp_path)


def on_disk(session):
    """Return the answers that somebody would find who opened the file now."""
    return read(session.path).answers


def computed(answers):
    """Return a result of some pair under answers with known loads."""
    catalogue = small_catalogue(3)
    return compute(catalogue.take([5]), catalogue.take([7]), Conditions.of(conditions(answers).resolved))


# answering


@pytest.mark.parametrize(
    ("path", "text", "value"),
    [
        ("duty.job", "  Winch  ", "Winch"),
        ("duty.arrangement", "1", "back_to_back"),
        ("duty.distance", "6 in", Quantity(152.4, "6 in")),
        ("duty.cases[0].radial_y", "-4 kN", Quantity(-4000.0, "-4 kN")),
        ("envelope.same_on_both_sides", "yes", True),
        ("lubrication.grade", "220", "220"),
    ],
)
def test_an_answer_is_taken_and_on_the_disk_at_once(session, path, text, value):
    session.answer(path, text)
    assert get(session.answers, path) == value
    assert on_disk(session) == session.answers
    assert not session.trouble
    assert not session.empty


@pytest.mark.parametrize(
    ("path", "text"),
    [
        ("duty.distance", "6 furlong"),
        ("duty.distance", "-1"),
        ("duty.distance", ""),
        ("duty.arrangement", "3"),
        ("duty.job", "x" * 61),
        ("duty.job", "bell\x07"),
        ("duty.cases[0].speed", "nan"),
        ("envelope.bore_a", "65..55"),
        ("envelope.same_on_both_sides", "perhaps"),
    ],
)
def test_a_refused_answer_changes_nothing(session, path, text):
    session.answer("duty.life", "500")
    before, bytes_before, label = session.answers, session.path.read_bytes(), session.last_change
    with pytest.raises(Refused) as refused:
        session.answer(path, text)
    assert refused.value.wrong
    assert refused.value.accepted
    assert session.answers is before
    assert session.path.read_bytes() == bytes_before
    assert session.last_change == label
    assert session.undo() == label  # the refusal is no step of its own
    assert session.empty


def test_an_unknown_question_is_an_error_of_the_program(session):
    for path in ("duty.colour", "paint.colour", "duty.cases[0].colour"):
        with pytest.raises(KeyError):
            session.answer(path, "1")
    assert session.empty


def test_the_same_answer_again_is_no_step(session):
    session.answer("duty.distance", "160")
    same = session.answers
    session.answer("duty.distance", "160")
    assert session.answers is same
    session.undo()
    assert session.empty


def test_clearing_opens_the_question_again(session):
    session.answer("duty.distance", "160")
    session.clear("duty.distance")
    assert session.answers.duty.distance is None
    assert "opened" in session.last_change
    assert on_disk(session).duty.distance is None
    session.undo()
    assert session.answers.duty.distance == Quantity(160.0, "160")


# load cases


def test_load_cases_are_added_copied_and_removed(session):
    session.answer("duty.cases[0].speed", "100")
    session.answer("duty.cases[0].share", "30")
    session.answer("duty.cases[0].name", "lifting")
    assert session.add_item("duty.cases") == 1
    assert session.answers.duty.cases[1] == LoadCase()
    assert session.add_item("duty.cases", like=0) == 2
    copy = session.answers.duty.cases[2]
    # shares that were copied would no longer add up to the whole, and two cases of one name cannot be told apart
    assert (copy.speed, copy.share, copy.name) == (Quantity(100.0, "100"), None, None)
    session.remove_item("duty.cases", 0)
    assert [case.speed for case in session.answers.duty.cases] == [None, Quantity(100.0, "100")]
    session.remove_item("duty.cases", 0)
    session.remove_item("duty.cases", 0)
    assert session.answers.duty.cases == (LoadCase(),)  # never none at all
    for _ in range(3):
        session.undo()
    assert session.answers.duty.cases[0].name == "lifting"
    assert on_disk(session) == session.answers


def test_there_is_a_last_load_case(tmp_path):
    full = answered({}, MOST_CASES)
    session = Session(Record(full), tmp_path / "full.toml", named=True)
    assert session.add_item("duty.cases") == MOST_CASES - 1
    assert session.answers is full
    assert session.undo() == ""


# history


def test_undo_and_redo_walk_the_same_steps(session):
    states = [session.answers]
    for life in range(1, 301):
        session.answer("duty.life", str(life))
        states.append(session.answers)
    for state in reversed(states[:-1]):
        assert session.undo().startswith("Required life")
        assert session.answers is state
    assert session.undo() == ""
    for state in states[1:]:
        assert session.redo().startswith("Required life")
        assert session.answers is state
    assert session.redo() == ""
    assert on_disk(session) == states[-1]


def test_a_new_answer_ends_what_could_be_brought_back(session):
    session.answer("duty.life", "1000")
    session.answer("duty.life", "2000")
    session.undo()
    session.answer("duty.distance", "160")
    assert session.redo() == ""
    assert session.answers.duty.life == Quantity(1000.0, "1000")


STEPS = st.lists(st.sampled_from(["life 1", "life 2", "speed", "add", "copy", "remove", "clear", "undo", "redo"]))


@given(steps=STEPS)
def test_undoing_everything_leads_back_and_redoing_it_forth(tmp_path_factory, steps):
    """Inverse: whatever was done, as many undos as steps give the first document, as many redos the last."""
    session = new_session(tmp_path_factory.mktemp("session"))
    session.save = lambda: True  # the disk has tests of its own
    does = {
        "life 1": lambda: session.answer("duty.life", "1000"),
        "life 2": lambda: session.answer("duty.life", "2000"),
        "speed": lambda: session.answer("duty.cases[0].speed", "55"),
        "add": lambda: session.add_item("duty.cases"),
        "copy": lambda: session.add_item("duty.cases", like=0),
        "remove": lambda: session.remove_item("duty.cases", 0),
        "clear": lambda: session.clear("duty.life"),
        "undo": session.undo,
        "redo": session.redo,
    }
    for step in steps:
        does[step]()
    last, taken_back = session.answers, 0
    while session.undo():
        taken_back += 1
    assert session.answers == Answers()
    for _ in range(taken_back):
        assert session.redo()
    assert session.answers is last


# the file


def test_an_empty_unnamed_session_leaves_no_file(tmp_path):
    session = Session(Record(Answers()), tmp_path / "state" / "session-1.toml", named=False)
    assert session.save()
    assert list(tmp_path.glob("state/*")) == []
    session.answer("duty.life", "1000")
    assert session.path.exists()
    session.undo()
    assert on_disk(session) == Answers()  # the file does not keep what was taken back


def test_a_session_that_cannot_be_saved_goes_on(tmp_path):
    """A file where the folder should be: nobody can write there, not even root."""
    (tmp_path / "state").write_text("in the way")
    session = Session(Record(Answers()), tmp_path / "state" / "session-1.toml", named=False)
    session.answer("duty.life", "1000")
    assert session.trouble.startswith("NOT SAVED: ")
    session.answer("duty.life", "2000")
    session.undo()
    assert session.answers.duty.life == Quantity(1000.0, "1000")
    (tmp_path / "state").unlink()
    session.answer("duty.distance", "160")
    assert session.trouble == ""
    assert on_disk(session) == session.answers


def test_trouble_is_one_line_whatever_the_file_is_called(tmp_path):
    session = Session(Record(Answers()), tmp_path / "no\x1b[31m" / "such\nfolder" / "r.toml", named=True)
    session.answer("duty.life", "1000")
    assert session.trouble
    assert session.trouble.isprintable()


def test_saving_under_a_name_moves_an_unnamed_session(tmp_path):
    session = new_session(tmp_path, named=False)
    session.answer("duty.life", "1000")
    unnamed = session.path
    assert session.save_as(tmp_path / "winch.toml")
    assert session.named
    assert not unnamed.exists()
    session.answer("duty.life", "2000")
    assert read(tmp_path / "winch.toml").answers.duty.life == Quantity(2000.0, "2000")


def test_saving_under_another_name_keeps_the_first_one(tmp_path):
    session = new_session(tmp_path)
    session.answer("duty.life", "1000")
    first = session.path
    assert session.save_as(tmp_path / "other.toml")
    session.answer("duty.life", "2000")
    assert read(first).answers.duty.life == Quantity(1000.0, "1000")


@pytest.mark.parametrize("name", ["missing/winch.toml", "nul\0byte.toml", "x" * 300 + ".toml"])
def test_a_name_that_cannot_be_written_leaves_the_session_where_it_was(tmp_path, name):
    session = new_session(tmp_path, named=False)
    session.answer("duty.life", "1000")
    unnamed = session.path
    assert not session.save_as(tmp_path / name)
    assert session.trouble
    assert (session.path, session.named) == (unnamed, False)
    session.answer("duty.life", "2000")
    assert session.trouble == ""
    assert on_disk(session) == session.answers


# the result


def test_a_result_is_saved_until_an_answer_changes(tmp_path):
    session = new_session(tmp_path, DUTY)
    result = computed(session.answers)
    session.choose(result.bearing_A, result.bearing_B)
    session.set_result(result, ("built-in", "12ab"))
    kept = tomllib.loads(session.path.read_text())
    assert kept["result"]["bearing_a"] == result.bearing_A
    assert kept["made_with"]["catalogue_sha256"] == "12ab"
    assert read(session.path).stored

    session.answer("duty.life", "9000")
    assert session.result is None
    assert "result" not in tomllib.loads(session.path.read_text())


@pytest.mark.parametrize("change", ["undo", "redo", "add", "clear"])
def test_no_change_keeps_a_result_of_other_answers(tmp_path, change):
    session = new_session(tmp_path, DUTY)
    session.answer("duty.life", "4000")
    if change == "redo":
        session.undo()
    session.set_result(computed(session.answers), ("built-in", ""))
    {"undo": session.undo, "redo": session.redo, "add": lambda: session.add_item("duty.cases"),
     "clear": lambda: session.clear("duty.life")}[change]()  # fmt: skip
    assert session.result is None
    assert "result" not in tomllib.loads(session.path.read_text())


def test_chosen_needs_both_bearings(session):
    assert session.chosen is None
    session.put("choice.bearing_a", "N1", "half a choice")
    assert session.chosen is None
    session.choose("N1", "N2")
    assert session.chosen == ("N1", "N2")
    assert on_disk(session) == session.answers
    session.undo()
    assert session.chosen is None


# the folder of unnamed sessions


@pytest.mark.parametrize(
    ("environ", "folder"),
    [
        ({"XDG_STATE_HOME": "/x/state", "HOME": "/home/me"}, "/x/state/conewright"),
        ({"XDG_STATE_HOME": "", "HOME": "/home/me"}, "/home/me/.local/state/conewright"),
        ({"HOME": "/home/me"}, "/home/me/.local/state/conewright"),
    ],
)
def test_unnamed_sessions_are_kept_where_the_state_of_programs_belongs(environ, folder):
    """XDG Base Directory Specification: $XDG_STATE_HOME, or $HOME/.local/state where that is unset or empty."""
    assert str(state_folder(environ)) == folder


def test_new_sessions_of_one_second_get_names_of_their_own(tmp_path):
    now = datetime(2024, 2, 29, 23, 59, 58)
    names = []
    for _ in range(3):
        names.append(new_path(tmp_path, now))
        names[-1].touch()
    assert [name.name for name in names] == [
        "session-20240229-235958.toml", "session-20240229-235958-2.toml", "session-20240229-235958-3.toml",
    ]  # fmt: skip


DAY = 86400.0
A_YEAR_AGO = time.time() - 365 * DAY


def aged(folder, count, first=1e9):
    """Make session files, the oldest first, a second between them."""
    made = []
    for at in range(count):
        path = folder / f"session-{at:03}.toml"
        path.write_text("")
        os.utime(path, (first + at, first + at))
        made.append(path)
    return made


def test_the_newest_unfinished_session_is_offered(tmp_path):
    assert unfinished(tmp_path) is None
    assert unfinished(tmp_path / "missing") is None
    made = aged(tmp_path, 3)
    (tmp_path / "winch.toml").write_text("")  # a record of somebody's own is not offered
    assert unfinished(tmp_path) == made[-1]
    assert unfinished(tmp_path, but=made[-1]) == made[-2]


def left(folder):
    return sorted(folder.glob("session-*.toml"))


def test_only_the_oldest_sessions_go(tmp_path):
    made = aged(tmp_path, KEPT + 5, first=A_YEAR_AGO)
    (tmp_path / "winch.toml").write_text("")
    prune(tmp_path)
    assert sorted(tmp_path.glob("session-*.toml")) == made[5:]
    assert (tmp_path / "winch.toml").exists()
    prune(tmp_path)
    assert len(list(tmp_path.glob("session-*.toml"))) == KEPT
    prune(tmp_path / "missing")


def test_a_session_of_this_month_stays_however_many_came_after_it(tmp_path):
    aged(tmp_path, 3 * KEPT, first=time.time() - 29 * DAY)
    prune(tmp_path)
    assert len(left(tmp_path)) == 3 * KEPT
    aged(tmp_path, 3 * KEPT, first=time.time() - 31 * DAY)
    prune(tmp_path)
    assert len(left(tmp_path)) == KEPT


@pytest.mark.parametrize("clock", [10.0, time.time() - 400 * DAY], ids=["1970", "a year ago"])
def test_a_clock_set_back_makes_the_newest_session_neither_old_nor_lost(tmp_path, clock):
    aged(tmp_path, KEPT + 5, first=A_YEAR_AGO)
    session = Session(Record(Answers()), new_path(tmp_path, datetime(1970, 1, 1)), named=False)
    session.answer("duty.life", "1000")
    os.utime(session.path, (clock, clock))
    assert unfinished(tmp_path) == session.path
    offered = [offer.path for offer in recent.offers(tmp_path)]
    assert offered[1] == str(session.path)
    for at in range(KEPT):  # then the clock is right again, and more is worked on than is kept
        later = Session(Record(Answers()), tmp_path / f"session-later-{at:02}.toml", named=False)
        later.answer("duty.life", "2000")
        prune(tmp_path)
    assert unfinished(tmp_path) == later.path
    assert len(left(tmp_path)) <= KEPT + 1


def test_a_session_written_under_a_clock_that_was_never_set_is_not_taken_for_old(tmp_path):
    """Nothing tells its age: it may have been noted by no run, as those of older versions were not."""
    path = tmp_path / "session-19700101-000010.toml"
    path.write_text("")
    os.utime(path, (10, 10))
    aged(tmp_path, KEPT + 5, first=A_YEAR_AGO)
    prune(tmp_path)
    assert path in left(tmp_path)


def test_a_session_gone_on_with_is_the_newest_again_without_a_clock(tmp_path):
    paths = [tmp_path / f"session-{name}.toml" for name in ("one", "two")]
    for path in paths:
        Session(Record(Answers()), path, named=False).answer("duty.life", "1000")
    again = Session(read(paths[0]), paths[0], named=False)
    again.answer("duty.life", "1500")
    for path in paths:
        os.utime(path, (10, 10))
    assert unfinished(tmp_path) == paths[0]


def test_a_look_at_the_example_leaves_no_file(home):
    session, _ = open_session.demo()
    session.set_result(computed(session.answers), ("", ""))
    assert session.save()
    assert not session.path.exists()
    session.answer("duty.life", "1000")
    assert on_disk(session) == session.answers
    assert sorted(path.suffix for path in (home / "state" / "conewright").iterdir()) == [".toml", ".txt"]


def test_items_of_a_list_are_moved_and_the_move_is_taken_back(tmp_path):
    session = Session(
        Record(answered({"duty.cases[0].name": "one", "duty.cases[1].name": "two"}, 2)), tmp_path / "r.toml", True
    )
    assert session.move_item("duty.cases", 0, 1) == 1
    assert [case.name for case in session.answers.duty.cases] == ["two", "one"]
    assert session.move_item("duty.cases", 1, 1) == 1  # already the last
    assert session.undo() == "moving load case 1"
    assert [case.name for case in session.answers.duty.cases] == ["one", "two"]


def test_more_than_the_whole_time_is_refused_and_nothing_is_lost(tmp_path):
    session = Session(Record(answered({"duty.cases[0].share": "60"}, 2)), tmp_path / "r.toml", True)
    with pytest.raises(Refused, match="load cases 1 to 2 add up to 110 %"):
        session.answer("duty.cases[1].share", "50")
    assert session.answers.duty.cases[1].share is None
    session.answer("duty.cases[1].share", "40")
    with pytest.raises(Refused, match="110 %"):
        session.answer("duty.cases[0].share", "70")
    assert session.answers.duty.cases[0].share.value == 60.0


def test_what_another_program_wrote_is_never_overwritten(tmp_path):
    session = new_session(tmp_path, {"duty.life": "3000"})
    session.answer("duty.distance", "150")
    theirs = session.path
    theirs.write_text("# somebody else was here\n")
    session.answer("duty.distance", "160")
    assert theirs.read_text() == "# somebody else was here\n"
    assert session.path != theirs
    assert "changed by another program" in session.notice
    assert read(session.path).answers.duty.distance == Quantity(160.0, "160")
    session.answer("duty.distance", "170")  # and so it goes on, in the file beside it
    assert read(session.path).answers.duty.distance == Quantity(170.0, "170")


def test_two_sessions_on_one_record_keep_both_sets_of_answers(tmp_path):
    first = new_session(tmp_path, {"duty.life": "3000"})
    first.answer("duty.distance", "150")
    second = Session(read(first.path), first.path, named=True)
    second.answer("duty.distance", "200")
    first.answer("duty.life", "5000")
    assert read(second.path).answers.duty.distance == Quantity(200.0, "200")
    assert read(first.path).answers.duty.life == Quantity(5000.0, "5000")
    assert first.path != second.path


def test_a_file_that_is_gone_is_written_again(tmp_path):
    session = new_session(tmp_path)
    session.answer("duty.distance", "150")
    session.path.unlink()
    session.answer("duty.distance", "160")
    assert session.path.exists()
    assert session.notice == ""
