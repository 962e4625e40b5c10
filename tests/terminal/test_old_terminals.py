"""What is sent to a terminal that knows less, byte by byte."""

import re

import pytest

from tests.terminal.line import Line

pytestmark = pytest.mark.terminal

#: Commands to the window system (xterm, Operating System Commands), the keyboard protocol of newer emulators, and
#: questions after a mode (DECRQM, which came with the VT300): of none of these has a VT220 or a Linux console heard.
TOO_NEW = {
    "OSC": rb"\x1b\]", "DCS, PM, APC": rb"\x1b[P^_]", "keyboard protocol": rb"\x1b\[[<=>][0-9;]*u",
    "question after a mode": rb"\x1b\[\?[0-9;]*\$p",
}  # fmt: skip
COLOUR = re.compile(rb"\x1b\[(?:[0-9]+;)*(?:3[0-8]|4[0-8]|9[0-7]|10[0-7])(?:;[0-9]+)*m")


def whole_session(path, **environ):
    """Return every byte of a session that opens a record, answers, looks at the list, stops and leaves."""
    with Line(path, **environ) as line:
        line.until_sees("pairs remain", "quit")
        line.type("down", "down", "160", "enter")
        line.until_sees("160 mm")
        line.type("s")
        line.until_sees("Enter detail")
        line.type("esc")
        line.until_sees("160 mm")
        line.type("q")
        assert line.status() == 0
        assert line.restored()
        return bytes(line.raw)


def found(raw):
    return [name for name, pattern in TOO_NEW.items() if re.search(pattern, raw)]


@pytest.mark.parametrize("term", ["vt100", "vt220", "linux", "ansi"])
def test_an_old_terminal_is_sent_nothing_that_it_would_print(tmp_path, term):
    assert found(whole_session(tmp_path / "r.toml", TERM=term, LC_ALL="C.UTF-8")) == []


def test_a_newer_terminal_is_asked_what_it_knows(tmp_path):
    raw = whole_session(tmp_path / "r.toml", TERM="xterm-256color", LC_ALL="C.UTF-8")
    assert {"keyboard protocol", "question after a mode"} <= set(found(raw))


@pytest.mark.parametrize(("no_color", "coloured"), [(None, True), ("", True), ("1", False), ("0", False)])
def test_no_color_counts_where_it_is_not_empty(tmp_path, no_color, coloured):
    wish = {} if no_color is None else {"NO_COLOR": no_color}
    raw = whole_session(tmp_path / "r.toml", TERM="xterm-256color", LC_ALL="C.UTF-8", **wish)
    assert bool(COLOUR.search(raw)) is coloured
