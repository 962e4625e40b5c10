"""What goes wrong at a terminal: a line that drops, a signal, a stop, a resize, stray bytes. Nothing typed is lost."""

import os
import shutil
import signal
import time

import pytest

from engine.answers.question import Quantity
from engine.record.read import read
from tests.terminal.line import Line, wizard
from wizard.exit_codes import Exit

pytestmark = pytest.mark.terminal

LIFE = Quantity(1234.0, "1234")


def answer_life(line):
    """Answer one question and see that it was taken."""
    line.until_sees("pairs remain")
    line.type("down", "down", "down", "down", "1234", "enter")
    line.until_sees("1234 h", "left the count as it was")


def sessions(home):
    return sorted((home / "state" / "conewright").glob("session-*.toml"))


@pytest.mark.parametrize(("number", "status"), [("SIGHUP", 129), ("SIGTERM", 143), ("SIGINT", 130)])
def test_a_signal_saves_and_restores_the_terminal(home, number, status):
    with wizard() as line:
        mode = {"ICANON": True, "ECHO": True, "ISIG": True}
        assert line.input_mode() == dict.fromkeys(mode, False)
        answer_life(line)
        line.type("99")  # half an answer stands in the entry line
        line.until_sees("▸ 99")
        line.signal(getattr(signal, number))
        assert line.status() == status
        assert line.restored()
    (kept,) = sessions(home)
    assert read(kept).answers.duty.life == LIFE


def gone_within(pid, seconds):
    """Whether a process ends within so many seconds; it is a child of ours."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if os.waitpid(pid, os.WNOHANG)[0]:
            return True
        time.sleep(0.02)
    return False


def test_a_line_that_drops_with_a_signal(home):
    line = wizard()
    answer_life(line)
    os.close(line.process.fd)  # the kernel sends SIGHUP to what runs there
    assert gone_within(line.process.pid, 4.0)
    (kept,) = sessions(home)
    assert read(kept).answers.duty.life == LIFE


def test_a_line_that_drops_without_a_signal(home):
    """Under nohup or a wrapper no SIGHUP arrives; an orphan must not spin for ever."""
    code = (
        "import asyncio.unix_events as u, runpy, signal, sys; signal.signal(signal.SIGHUP, signal.SIG_IGN)\n"
        "kept = u._UnixSelectorEventLoop.add_signal_handler\n"
        "deaf = lambda self, number, *rest: None if number == signal.SIGHUP else kept(self, number, *rest)\n"
        "u._UnixSelectorEventLoop.add_signal_handler = deaf\n"
        "sys.argv = ['conewright']; runpy.run_module('wizard', run_name='__main__')"
    )
    line = Line(program=("-c", code))
    line.until_sees("Esc new session")
    line.type("enter")
    line.until_sees("quit", "1.1")
    answer_life(line)
    os.close(line.process.fd)
    assert gone_within(line.process.pid, 4.0)
    (kept,) = sessions(home)
    assert read(kept).answers.duty.life == LIFE


@pytest.mark.parametrize("typing", [False, True], ids=["on a question", "while typing"])
def test_ctrl_z_stops_the_wizard_and_what_was_typed_is_there_again(tmp_path, typing):
    with wizard(tmp_path / "r.toml") as line:
        answer_life(line)
        if typing:
            line.type("97")
            line.until_sees("▸ 97")
        line.settle()
        shown = line.cells()
        line.send(b"\x1a")
        line.until(line.restored, "the terminal restored")
        _, status = os.waitpid(line.process.pid, os.WUNTRACED)
        assert os.WIFSTOPPED(status)
        assert line.input_mode() == dict.fromkeys(("ICANON", "ECHO", "ISIG"), True)
        line.screen.reset()
        line.signal(signal.SIGCONT)
        line.until(lambda: line.cells() == shown, "the screen as it was")
        assert not line.input_mode()["ICANON"]
        line.type(*(["enter"] if typing else ["97", "enter"]))
        line.until_sees("97 %")
        line.type("q")
        assert line.status() == 0
        assert line.restored()


@pytest.mark.parametrize("follower", ["=", "2", "t", "[", "O"])
def test_a_key_right_behind_esc_is_a_key_of_its_own(tmp_path, follower):
    """Within the time that a function key may take to arrive, as a fast typist or a slow line sends them."""
    with wizard(tmp_path / "r.toml", ESCDELAY="2000") as line:
        line.type("down", "down", "1")
        line.until_sees("▸ 1")
        line.send(b"\x1b" + follower.encode())
        after = {"=": "Nothing has been typed yet", "2": "▸ 2", "t": "Assumed: ", "[": None, "O": None}
        line.until(lambda: not line.sees("▸ 1"), "the entry closed")
        if after[follower]:
            line.until_sees(after[follower])
        line.settle()
        assert line.sees("▸") == (follower == "2")  # nothing was typed into a line but the digit that opens one


def test_a_stopped_wizard_gives_the_terminal_back_and_paints_again(tmp_path):
    with wizard(tmp_path / "r.toml") as line:
        answer_life(line)
        line.until_sees("Required life: 1234 h left the count as it was")
        line.settle()
        shown = line.cells()
        line.signal(signal.SIGTSTP)
        line.until(line.restored, "the terminal restored")
        _, status = os.waitpid(line.process.pid, os.WUNTRACED)
        assert os.WIFSTOPPED(status)
        assert line.input_mode()["ICANON"]
        line.screen.reset()
        line.signal(signal.SIGCONT)
        line.until(lambda: line.cells() == shown, "the screen as it was")
        line.type("95", "enter")  # it is alive: Reliability is the next question
        line.until_sees("95 %")
        line.type("q")
        assert line.status() == 0
        assert line.restored()


def test_a_terminal_made_small_and_large_again(tmp_path):
    with wizard(tmp_path / "r.toml") as line:
        answer_life(line)
        for columns, lines in ((40, 10), (20, 5), (1, 1), (132, 50), (40, 10)):
            line.resize(columns, lines)
            line.settle(0.1)
            assert not line.ended
            line.type("down", "up")  # keys harm nothing at any size
        # a size takes another way than a key, and may come after it
        line.until_sees("Too small: 60 columns by 20", "lines are", "needed. Nothing is lost.")
        line.type("enter", *"77")
        line.settle()
        line.until_sees("Too small: 60 columns by 20")
        line.resize(132, 50)
        line.until_sees("? help  q quit")
        line.type("enter", "ctrl+u", *"96")
        line.until_sees("\N{BLACK RIGHT-POINTING SMALL TRIANGLE} 96")
        line.resize(59, 24)
        line.until_sees("Too small: 60 columns by 20")
        line.type("enter")  # does nothing, as every key but those that leave
        line.settle()  # a size takes another way than a key, and may come before it
        line.resize(80, 24)
        line.until_sees("\N{BLACK RIGHT-POINTING SMALL TRIANGLE} 96")
        line.type("esc")
        # a size that came between two keys may have moved the mark, so what is marked is not asked
        line.until_sees("1.6  Reliability", "pairs remain", "? help  q quit")
        line.type("right")
        line.until_sees("2.1")


def test_a_byte_that_is_not_utf8_is_left_out_with_a_word(tmp_path):
    with wizard(tmp_path / "r.toml") as line:
        line.type("enter")
        for sent in (b"M\xe9lange ", b"\xff", b"\x1b[200~\xc3\xa9\xe2\x28\xef\xbf\xbd\x1b[201~"):
            line.send(sent)  # a Latin-1 e-acute, noise, and a paste with e-acute in UTF-8 and more noise
            line.until_sees("What came is no character that can be read; it was left out.")
            line.settle()
        line.until_sees("▸ Mlange é(")
        line.type("enter")
        line.until(lambda: not line.sees("▸"), "the entry closed")
        line.type("down", "160", "enter")
        line.until_sees("160 mm")
        line.send(b"\xe9\xe9")  # where nothing is typed
        line.until_sees("What came is no character")
        line.type("q")
        assert line.status() == 0
    answers = read(tmp_path / "r.toml").answers
    assert answers.duty.distance == Quantity(160.0, "160")
    assert answers.duty.job == "Mlange é("


def test_what_stands_in_a_record_for_no_character_is_shown_and_kept(tmp_path):
    path = tmp_path / "r.toml"
    path.write_text('schema = "1.0"\n[answers.duty]\njob = "M\ufffdlange"\n', encoding="utf-8")
    with wizard(path) as line:
        line.until_sees("M\ufffdlange")
        line.type("enter", "s", "enter")
        line.until_sees("M\ufffdlanges")
        line.type("q")
        assert line.status() == 0
    assert read(path).answers.duty.job == "M\ufffdlanges"


@pytest.mark.parametrize("bracketed", [True, False], ids=["bracketed", "as if typed"])
def test_a_large_text_pasted_into_an_entry(tmp_path, bracketed):
    text = b"12345678" * 12_500
    with wizard(tmp_path / "r.toml") as line:
        answer_life(line)
        line.type("home", "down", "down", "1")
        line.until_sees("▸ 1")
        line.send(b"\x1b[200~" + text + b"\x1b[201~" if bracketed else text)
        line.until_sees("▸ 1123456781234567812345678", "The line holds 64 characters; what came behind them was left")
        line.type("esc")
        line.until(lambda: not line.sees("▸"), "the entry closed")
        line.type("160", "enter")
        line.until_sees("160 mm")
        line.type("q")
        assert line.status() == 0
    duty = read(tmp_path / "r.toml").answers.duty
    assert (duty.life, duty.distance) == (LIFE, Quantity(160.0, "160"))


@pytest.mark.parametrize(
    ("locale", "ascii_only"),
    [
        ({"LANG": "C"}, True), ({"LANG": "POSIX"}, True), ({"LC_CTYPE": "C"}, True), ({}, True),
        ({"LC_ALL": "C"}, True), ({"LANG": "C.UTF-8"}, False), ({"LC_ALL": "C.UTF-8"}, False),
        # Python itself sets LC_CTYPE to this under the locale C; here the user did
        ({"LC_CTYPE": "C.UTF-8"}, False), ({"LC_CTYPE": "C.UTF-8", "LANG": "C"}, False),
    ],
    ids=str,
)  # fmt: skip
def test_only_ascii_is_sent_where_the_locale_has_nothing_else(tmp_path, locale, ascii_only):
    with Line(tmp_path / "r.toml", TERM="xterm", **locale) as line:
        line.until_sees("pairs remain", "quit")
        line.type("s")
        line.until_sees("Enter detail")
        assert bytes(line.raw).isascii() is ascii_only


def test_what_was_killed_is_offered_again(home):
    with wizard() as line:
        answer_life(line)
        line.until(lambda: sessions(home), "the file")
        line.signal(signal.SIGKILL)
        assert line.status() == -signal.SIGKILL
    (kept,) = sessions(home)
    with Line() as line:
        line.until_sees("unnamed, begun ", "Esc new session")
        line.type("down", "enter")
        line.until_sees("Going on with", "1234 h")
        line.type("q")
        assert line.status() == 0
    assert sessions(home) == [kept]
    assert read(kept).answers.duty.life == LIFE


def test_a_record_opened_changed_and_left_holds_the_change(tmp_path):
    name = tmp_path / "winch.toml"
    with wizard(name) as line:
        line.until_sees("winch.toml is new: there is no file of this name yet", "winch.toml (new)")
        answer_life(line)
        line.type("q")
        assert line.status() == 0
    with wizard(name) as line:
        line.until_sees("1234 h")
        line.type("down", "down", "160", "enter")
        line.until_sees("160 mm")
        line.type("q")
        assert line.status() == 0
        assert f"Saved in {name}" in line.farewell()
    answers = read(name).answers
    assert (answers.duty.life, answers.duty.distance) == (LIFE, Quantity(160.0, "160"))


def test_a_damaged_record_opens_no_screen_and_stays_as_it_is(tmp_path):
    name = tmp_path / "r.toml"
    name.write_text('schema = "1.0"\n[answers.duty]\nlife_h = -3.0\n')
    with Line(name) as line:
        assert line.status() == 2
        assert b"answers.duty.life_h" in line.raw
        assert b"\x1b" not in line.raw
    assert "life_h = -3.0" in name.read_text()


def test_a_folder_that_cannot_be_written_is_said_and_the_session_goes_on(home, tmp_path, monkeypatch):
    (home / "state").write_text("a file in the way")
    (tmp_path / "tmp").mkdir()
    monkeypatch.setenv("TMPDIR", str(tmp_path / "tmp"))
    with wizard() as line:
        answer_life(line)
        line.until_sees("NOT SAVED")
        line.type("95", "enter")
        line.until_sees("95 %")
        line.type("q")
        assert line.status() == Exit.NOT_SAVED == 74
        assert "conewright: NOT SAVED" in line.farewell()
    assert read(rescued(line, tmp_path)).answers.duty.life == LIFE


def rescued(line, folder):
    """Return the file in which the answers are said to be, which must be the only one of the temporary folder."""
    (found,) = rescued_in(folder)
    assert f"Saved instead in {found}" in line.farewell()
    assert found.parent.stat().st_mode & 0o077 == 0  # nobody else reads it
    return found


def rescued_in(folder):
    return list((folder / "tmp").glob("conewright-*/session-*.toml"))


def test_what_was_killed_in_a_folder_for_temporary_files_is_offered_again(home, tmp_path, monkeypatch):
    (home / "state").write_text("a file in the way")
    (tmp_path / "tmp").mkdir()
    monkeypatch.setenv("TMPDIR", str(tmp_path / "tmp"))
    with wizard() as line:
        answer_life(line)
        line.until_sees("NOT SAVED")
        line.signal(signal.SIGKILL)
        assert line.status() == -signal.SIGKILL
    (kept,) = rescued_in(tmp_path)
    assert read(kept).answers.duty.life == LIFE
    with Line() as line:
        line.until_sees("unnamed, begun ", "Esc new session")
        line.type("down", "enter")
        line.until_sees("Going on with", "1234 h")
        line.type("q")
        assert line.status() == 0
    assert rescued_in(tmp_path) == [kept]


@pytest.mark.parametrize("named", [True, False], ids=["by its name", "from the list"])
def test_what_was_killed_while_it_could_not_be_saved_is_offered_again(home, tmp_path, named):
    folder = tmp_path / "disk"
    folder.mkdir()
    path = folder / "r.toml"
    with wizard(path) as line:
        line.type("down", "down", "160", "enter")
        line.until_sees("160 mm left the count as it was")
        folder.rename(tmp_path / "gone")
        folder.write_text("a file where the folder was")
        answer_life_again(line)
        line.until_sees("kept in session-", "which the next start offers")
        (kept,) = sessions(home)
        assert read(kept).answers.duty.life == LIFE
        line.type("95", "enter")  # every further one goes there as well
        line.until_sees("95 %")
        line.until(lambda: read(kept).answers.duty.reliability == Quantity(95.0, "95"), "the answer in the file")
        line.signal(signal.SIGKILL)
        assert line.status() == -signal.SIGKILL
    assert sessions(home) == [kept]
    folder.unlink()
    (tmp_path / "gone").rename(folder)
    with Line(*([path] if named else [])) as line:
        if named:
            line.until_sees("160 mm", "could not be saved here", "o goes on with them")
            line.type("o")
        else:
            line.until_sees("not saved in", "Esc new session")
            line.type("2")
        line.until_sees("1234 h", "w and Enter save it")
        line.type("w")
        line.until_sees("File name for the record")
        line.type("enter")
        line.until_sees("exists.")  # what follows may be broken over lines: the folder has a long name
        line.type("enter")
        line.until_sees("Saved in ")
        line.type("q")
        assert line.status() == 0
    assert sessions(home) == []
    duty = read(path).answers.duty
    assert (duty.life, duty.reliability, duty.distance) == (LIFE, Quantity(95.0, "95"), Quantity(160.0, "160"))


def answer_life_again(line):
    line.type("home", *["down"] * 4, "1234", "enter")
    line.until_sees("1234 h")


def test_what_can_be_saved_again_is_kept_nowhere_else(home, tmp_path):
    folder = tmp_path / "disk"
    folder.mkdir()
    with wizard(folder / "r.toml") as line:
        folder.rmdir()
        answer_life(line)
        line.until_sees("kept in session-")
        assert len(sessions(home)) == 1
        folder.mkdir()
        line.type("95", "enter")
        line.until_sees("95 %")
        line.until(lambda: not line.sees("NOT SAVED"), "the trouble gone")
        line.type("q")
        assert line.status() == 0
    assert sessions(home) == []
    assert read(folder / "r.toml").answers.duty.life == LIFE


@pytest.mark.parametrize(("number", "status"), [("SIGHUP", 129), ("SIGTERM", 143)])
def test_a_signal_saves_elsewhere_what_cannot_be_saved_where_it_belongs(home, tmp_path, monkeypatch, number, status):
    (home / "state").write_text("a file in the way")
    (tmp_path / "tmp").mkdir()
    monkeypatch.setenv("TMPDIR", str(tmp_path / "tmp"))
    with wizard() as line:
        answer_life(line)
        line.until_sees("NOT SAVED")
        line.signal(getattr(signal, number))
        assert line.status() == status
    assert read(rescued(line, tmp_path)).answers.duty.life == LIFE


def test_a_record_whose_folder_is_gone_is_saved_among_the_sessions(home, tmp_path):
    folder = tmp_path / "gone"
    folder.mkdir()
    with wizard(folder / "r.toml") as line:
        shutil.rmtree(folder)
        answer_life(line)
        line.until_sees("NOT SAVED")
        line.type("q")
        assert line.status() == Exit.NOT_SAVED
    (kept,) = sessions(home)
    assert f"Saved instead in {kept}" in line.farewell()
    assert read(kept).answers.duty.life == LIFE
    with Line() as line:  # and it is offered at the next start
        line.until_sees("unnamed, begun ", "Esc new session")


#: A disk that is full, without needing one: no file may hold a byte (Python ignores the signal that comes with it).
FULL = (
    "import resource, runpy, sys; resource.setrlimit(resource.RLIMIT_FSIZE, (0, 0)); sys.dont_write_bytecode = True\n"
    "sys.argv = ['conewright', 'r.toml']; runpy.run_module('wizard', run_name='__main__')"
)


def test_a_full_disk_is_asked_about_before_anything_is_lost(tmp_path):
    with Line(program=("-c", FULL), folder=tmp_path) as line:
        answer_life(line)
        line.until_sees("NOT SAVED")
        for stays in ("n", "esc"):
            line.type("q")
            line.until_sees("Leave without saving?", "y leave without saving")
            line.type("q")  # pressed twice by mistake
            line.type("?")
            line.until_sees("Keys: Leaving without saving")
            line.type("q")  # from a page over the question: asked again, not answered
            line.until_sees("Leave without saving?")
            line.type(stays)
            line.until_sees("1234 h", "pairs remain")
        line.type("q")
        line.until_sees("Leave without saving?")
        line.type("y")
        assert line.status() == Exit.NOT_SAVED
        assert line.restored()
        assert "conewright: NOT SAVED" in line.farewell()
    assert list(tmp_path.glob("*.toml")) == []


def test_a_full_disk_with_nothing_answered_is_left_at_once(tmp_path):
    with Line(program=("-c", FULL), folder=tmp_path) as line:
        line.until_sees("pairs remain")
        line.type("q")
        assert line.status() == 0
        # nothing was to be saved, so there is nothing to say
        assert "space" not in line.farewell() and b"Traceback" not in line.raw


def test_a_file_name_that_is_not_text_is_no_stumbling_block(tmp_path):
    name = os.fsencode(tmp_path) + b"/r\xe9.toml"
    with wizard(os.fsdecode(name)) as line:
        answer_life(line)
        line.type("q")
        assert line.status() == 0
        assert b"Traceback" not in line.raw
    assert os.path.exists(name)


def test_a_record_open_in_another_session_is_said_on_opening(tmp_path):
    path = tmp_path / "r.toml"
    with wizard(path) as first:
        answer_life(first)
        (tmp_path / "link.toml").symlink_to(path)
        with wizard(tmp_path / "link.toml") as second:  # the same one by another name
            second.until_sees("is open in another session too", f"(process {first.process.pid}, since ")
            second.type("q")
            assert second.status() == 0
        first.signal(signal.SIGKILL)
        assert first.status() == -signal.SIGKILL
    with wizard(path) as line:  # what a kill left behind says nothing
        line.until_sees("1234 h")
        line.settle()
        assert not line.sees("another session")
        line.type("q")
        assert line.status() == 0
    assert list((tmp_path / "home" / "state" / "conewright" / "open").iterdir()) == []


#: An error inside, in the thread that searches.
BROKEN = (
    "import runpy, sys, wizard.search\n"
    "def broken(*_): raise ZeroDivisionError('[bold]in the thread[/]')\n"
    "wizard.search.Search._screen = broken\n"
    "sys.argv = ['conewright', 'r.toml']; runpy.run_module('wizard', run_name='__main__')"
)


def test_an_error_inside_the_search_is_said_calmly_and_written_down_once(home, tmp_path):
    with Line(program=("-c", BROKEN), folder=tmp_path) as line:
        line.until_sees("The search stopped: an error inside Conewright. Your answers are saved.", "error-")
        wanted = "please send that file to whoever keeps Conewright"
        line.until(lambda: wanted in " ".join(line.text().split()), wanted)
        line.type("down", "down", "160", "enter")  # answering goes on, and the search stops again
        line.until_sees("160 mm", "The search stopped: an error inside Conewright. Your answers are saved.")
        (report,) = (home / "state" / "conewright").glob("error-*.txt")
        line.until_sees(report.name)
        line.type("q")
        assert line.status() == 0
        assert b"ZeroDivisionError" not in line.raw and b"in the thread" not in line.raw
    assert "ZeroDivisionError: [bold]in the thread[/]" in report.read_text()
    assert read(tmp_path / "r.toml").answers.duty.distance == Quantity(160.0, "160")


def test_a_mistyped_name_is_noticed_before_anything_is_answered(tmp_path):
    for name in ("Shredder.toml", "winch.toml"):
        (tmp_path / name).write_text('schema = "1.0"\n')
    with wizard(tmp_path / "shreder.toml") as line:
        line.until_sees("shreder.toml is new: there is no file of this name yet. Did you mean", " Shredder.toml? It is")
        line.type("q")
        assert line.status() == 0
    assert not (tmp_path / "shreder.toml").exists()
    with wizard(tmp_path / "pump.toml") as line:  # nothing is like it
        line.until_sees("pump.toml is new: there is no file of this name yet. It is written")
