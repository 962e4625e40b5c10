"""Flow control of a serial line: what a full terminal sends by itself is obeyed and means nothing else.

XOFF and XON are DC3 and DC1 of ITU-T T.50, 0x13 and 0x11.
"""

import os
import signal
import time

import pytest

from engine.answers.question import Quantity
from engine.record.read import read
from tests.terminal.line import Line, wizard
from tests.terminal.test_mishaps import LIFE, answer_life

pytestmark = pytest.mark.terminal

XOFF, XON = b"\x13", b"\x11"
VT220 = {"TERM": "vt220", "LC_ALL": "C"}
#: The wizard on a line whose own flow control was turned off before.
DEAF = (
    "import runpy, sys, termios; flags = termios.tcgetattr(0); flags[0] &= ~(termios.IXON | termios.IXOFF)\n"
    "termios.tcsetattr(0, termios.TCSANOW, flags); sys.argv = ['conewright', 'r.toml']\n"
    "runpy.run_module('wizard', run_name='__main__')"
)


def test_nothing_is_sent_after_xoff_and_xon_goes_on(tmp_path):
    with wizard(tmp_path / "r.toml", **VT220) as line:
        line.type("down", "down", "45")
        line.until_sees("> 45")
        line.settle()
        line.send(XOFF)
        sent = len(line.raw)
        line.type("67", "enter")
        line.settle(0.3)
        assert len(line.raw) == sent
        assert read(tmp_path / "r.toml").answers.duty.distance == Quantity(4567.0, "4567")  # taken and saved meanwhile
        line.send(XON)
        line.until_sees("4567 mm")
        line.type("q")
        assert line.status() == 0
        assert line.restored()


@pytest.mark.parametrize("sent", [XOFF, XON])
def test_both_mean_nothing_where_the_line_does_not_obey_them(tmp_path, sent):
    with Line(program=("-c", DEAF), folder=tmp_path, **VT220) as line:
        line.until_sees("pairs remain", "quit")
        line.send(sent)
        line.type("down", "down", "45")
        line.until_sees("> 45")
        line.send(sent)
        line.type("67")
        line.until_sees("> 4567")
        line.type("enter")
        line.until_sees("4567 mm")
        line.type("q")
        assert line.status() == 0


def test_what_is_sent_while_the_line_stands_is_only_the_last_state(tmp_path):
    with wizard(tmp_path / "r.toml") as line:
        line.settle()
        line.send(XOFF)
        sent = len(line.raw)
        for _ in range(60):
            line.type("right")  # chapter after chapter, each a screen full
            time.sleep(0.01)
        line.type("home", "down", "left", "right")
        line.send(XON)
        line.until_sees("7.1")  # 61 steps on in nine chapters
        line.settle()
        assert len(line.raw) - sent < 40_000  # sixty screens are twice as much
        shown = line.cells()
        line.send(b"\x0c")  # painted from nothing, it is the same
        line.settle()
        assert line.cells() == shown


@pytest.mark.parametrize(("number", "status"), [("SIGTERM", 143), pytest.param("SIGHUP", 129, marks=pytest.mark.slow)])
def test_a_signal_ends_the_wizard_on_a_stopped_line(tmp_path, number, status):
    with wizard(tmp_path / "r.toml") as line:
        answer_life(line)
        line.settle()
        line.send(XOFF)
        line.type(*["right", "left"] * 50, "95", "enter")  # painting all this would be more than may wait
        line.until(lambda: b"95" in (tmp_path / "r.toml").read_bytes(), "the answer in its file")
        began = time.monotonic()
        line.signal(getattr(signal, number))
        assert line.status() == status
        assert time.monotonic() - began < 6.0
        assert line.restored()  # the line was let go on for that
        assert line.input_mode()["ICANON"]
    answers = read(tmp_path / "r.toml").answers
    assert (answers.duty.life, answers.duty.reliability) == (LIFE, Quantity(95.0, "95"))


@pytest.mark.slow
def test_a_signal_ends_the_wizard_on_a_line_that_takes_nothing_more(tmp_path):
    """A line that nobody reads any more, as one that hangs somewhere on its way: there XON would not help."""
    with wizard(tmp_path / "r.toml") as line:
        answer_life(line)
        line.settle()
        for _ in range(300):
            os.write(line.process.fd, b"\x0c")
            time.sleep(0.005)
        line.signal(signal.SIGTERM)
        end = time.monotonic() + 8.0
        while line.process.isalive() and time.monotonic() < end:
            time.sleep(0.05)
        assert line.process.exitstatus == 143
    assert read(tmp_path / "r.toml").answers.duty.life == LIFE
