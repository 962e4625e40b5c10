"""A terminal that is resized several times at once, while the machine is slow: the last size counts."""

import random
import signal
import subprocess
import sys
import time

import pytest

from tests.terminal.line import Line, wizard

pytestmark = pytest.mark.terminal

#: Reading the size of the terminal takes its time, so that the next change comes meanwhile.
SLOW = (
    "import os, runpy, sys, time; read = os.get_terminal_size\n"
    "def slow(*file):\n"
    "    size = read(*file)\n"
    "    time.sleep(0.05)\n"
    "    return size\n"
    "os.get_terminal_size = slow\n"
    "sys.argv = ['conewright', 'r.toml']; runpy.run_module('wizard', run_name='__main__')"
)
#: Changes that end at the usual size.
CHANGES = [
    [(132, 43), (100, 30), (80, 24)],
    [(132, 43), (80, 24)],
    [(60, 20), (132, 43), (80, 24), (132, 43), (100, 24), (80, 24)],
    [(20, 5), (80, 24)],
]


def opened(line):
    """Wait for the first count; return what is shown."""
    line.until_sees("pairs remain", "quit")
    line.settle()
    return line.cells()


def test_sizes_that_come_while_one_is_read(tmp_path):
    with Line(program=("-c", SLOW), folder=tmp_path) as line:
        shown = opened(line)
        for sizes in CHANGES:
            for size in sizes:
                line.resize(*size)
                time.sleep(0.01)
            line.screen.reset()  # a terminal moves its text about
            line.until(lambda: line.cells() == shown, "all of the screen, for the last size")


def test_a_stop_that_comes_unasked(tmp_path):
    with wizard(tmp_path / "r.toml") as line:
        opened(line)
        line.signal(signal.SIGSTOP)
        line.resize(132, 43)
        line.resize(80, 24)
        line.screen.reset()
        line.signal(signal.SIGCONT)
        line.until_sees("pairs remain", "quit")
        line.type("down", "down", "down", "down", "1234", "enter")
        line.until_sees("1234 h")
        line.type("q")
        assert line.status() == 0  # nothing still reads the line
        assert line.restored()


@pytest.mark.slow
@pytest.mark.parametrize("stopped", [False, True], ids=["busy", "stopped"])
def test_many_changes_at_any_moment(tmp_path, stopped):
    rng = random.Random(20)
    busy = [subprocess.Popen([sys.executable, "-c", "while True: pass"]) for _ in range(2)]
    try:
        with wizard(tmp_path / "r.toml") as line:
            shown = opened(line)
            for _ in range(60 if stopped else 400):
                if stopped:
                    line.signal(signal.SIGSTOP)
                for size in rng.choice(CHANGES):
                    line.resize(*size)
                    time.sleep(rng.choice([0, 0.00005, 0.0005, 0.005, 0.02]))
                if stopped:
                    line.signal(signal.SIGCONT)
                line.until(lambda: line.cells() == shown, "the screen for the last size")
    finally:
        for one in busy:
            one.kill()
            one.wait()
