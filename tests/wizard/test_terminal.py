"""What a terminal can show, read from its environment."""

import os

import pytest

from wizard.terminal import SMALLEST, Abilities, abilities, prepare, refusal

UTF8 = {"LANG": "en_GB.UTF-8"}

# environment, whether only ASCII, whether without colour
TERMINALS = [
    ({"TERM": "xterm-256color"} | UTF8, False, False),
    ({"TERM": "xterm-256color", "LANG": "de_DE.utf8"}, False, False),
    ({"TERM": "xterm-256color", "LANG": "C"}, True, False),
    ({"TERM": "xterm-256color"}, True, False),
    ({"TERM": "xterm-256color", "LANG": "de_DE.ISO-8859-1"}, True, False),
    # LC_ALL over LC_CTYPE over LANG (POSIX.1-2017, Base Definitions, 8.2); an empty one counts as unset
    ({"TERM": "xterm", "LC_ALL": "C"} | UTF8, True, False),
    ({"TERM": "xterm", "LC_ALL": "C.UTF-8", "LANG": "C"}, False, False),
    # PEP 538: this is what Python makes of the locale C, and of no locale at all, before a program sees it
    ({"TERM": "xterm", "LC_CTYPE": "C.UTF-8", "LANG": "C"}, True, False),
    ({"TERM": "xterm", "LC_CTYPE": "C.UTF-8", "LANG": "POSIX"}, True, False),
    ({"TERM": "xterm", "LC_CTYPE": "C.UTF-8"}, True, False),
    ({"TERM": "xterm", "LC_CTYPE": "C.utf8", "LANG": ""}, True, False),
    ({"TERM": "xterm", "LC_CTYPE": "UTF-8"}, True, False),
    ({"TERM": "xterm", "LC_CTYPE": "C.UTF-8"} | UTF8, False, False),
    ({"TERM": "xterm", "LANG": "C.UTF-8"}, False, False),
    ({"TERM": "xterm", "LC_CTYPE": "de_DE.UTF-8"}, False, False),
    ({"TERM": "xterm", "LC_CTYPE": "C"} | UTF8, True, False),
    ({"TERM": "xterm", "LC_ALL": "", "LC_CTYPE": ""} | UTF8, False, False),
    ({"TERM": "vt220"} | UTF8, True, True),
    ({"TERM": "vt100", "LC_ALL": "C"}, True, True),
    ({"TERM": "ansi"} | UTF8, True, False),
    ({"TERM": "linux"} | UTF8, False, False),
    ({"TERM": "xterm-mono"} | UTF8, False, True),
    # no-color.org: present and not empty, whatever its value
    ({"TERM": "xterm", "NO_COLOR": "1"} | UTF8, False, True),
    ({"TERM": "xterm", "NO_COLOR": "0"} | UTF8, False, True),
    ({"TERM": "xterm", "NO_COLOR": ""} | UTF8, False, False),
    ({}, True, False),
]


@pytest.mark.parametrize(
    ("environ", "ascii_only", "mono"), TERMINALS, ids=lambda v: str(v) if isinstance(v, dict) else ""
)
def test_abilities(environ, ascii_only, mono):
    can = abilities(environ)
    assert (can.ascii, can.mono) == (ascii_only, mono)


@pytest.mark.parametrize(
    ("begun", "ascii_only"),
    [(None, True), ({}, True), ({"LC_CTYPE": "C"}, True), ({"LC_CTYPE": "C.UTF-8"}, False)],
    ids=str,
)
def test_a_locale_that_the_user_set_is_told_from_what_python_set(begun, ascii_only):
    """PEP 538 sets LC_CTYPE before a program runs; what stood there when the process began is the user's own word."""
    environ = {"TERM": "xterm", "LC_CTYPE": "C.UTF-8", "LANG": "C"}
    assert abilities(environ, begun=begun).ascii is ascii_only


def test_an_empty_no_color_is_kept_from_the_framework():
    """The framework takes any NO_COLOR for a wish (8.2.8); by no-color.org an empty one is none."""
    environ = {"TERM": "xterm", "NO_COLOR": ""} | UTF8
    prepare(environ, abilities(environ))
    assert "NO_COLOR" not in environ
    environ = {"TERM": "xterm", "NO_COLOR": "0"} | UTF8
    prepare(environ, abilities(environ))
    assert environ["NO_COLOR"]


def test_ascii_may_be_asked_for_and_asked_away():
    assert abilities({"TERM": "xterm"} | UTF8, True).ascii
    assert not abilities({"TERM": "vt220"}, False).ascii


@pytest.mark.parametrize(
    ("environ", "standard", "colour_claim_kept"),
    [
        ({"TERM": "xterm-256color", "COLORTERM": "truecolor"}, False, True),
        ({"TERM": "screen-256color", "COLORTERM": "truecolor"}, False, True),
        ({"TERM": "screen", "COLORTERM": "truecolor"}, True, False),
        ({"TERM": "linux", "COLORTERM": "truecolor"}, True, False),
        ({"TERM": "vt220"}, True, False),
        ({"TERM": "xterm-16color"}, True, False),
    ],
    ids=lambda v: v["TERM"] if isinstance(v, dict) else "",
)
def test_no_more_colours_than_the_terminal_has(environ, standard, colour_claim_kept):
    environ = dict(environ)
    prepare(environ, Abilities(ascii=False, mono=False))
    assert (environ.get("TEXTUAL_COLOR_SYSTEM") == "standard") == standard
    assert ("COLORTERM" in environ) == colour_claim_kept
    assert environ["TEXTUAL_ANIMATIONS"] == "none"
    assert environ["TEXTUAL_THEME"] == "ansi-dark"
    assert "NO_COLOR" not in environ


def test_a_terminal_without_colour_gets_none():
    environ = {"TERM": "vt220"}
    prepare(environ, Abilities(ascii=True, mono=True))
    assert environ["NO_COLOR"] == "1"


@pytest.mark.parametrize(("term", "off"), [("linux", True), ("vt220", True), ("xterm-256color", False)])
def test_the_newer_keyboard_protocol_is_not_asked_of_old_terminals(term, off):
    environ = {"TERM": term}
    prepare(environ, Abilities(ascii=False, mono=False))
    assert ("TEXTUAL_DISABLE_KITTY_KEY" in environ) == off


def test_how_long_escape_waits_can_be_set_from_outside():
    environ = {"TERM": "xterm", "ESCDELAY": "25"}
    prepare(environ, Abilities(ascii=False, mono=False))
    assert environ["ESCDELAY"] == "25"


class Stream:
    """A stream with or without a terminal behind it."""

    def __init__(self, tty):
        self.tty = tty

    def isatty(self):
        return self.tty

    def fileno(self):
        return 1


TTY, PIPE = Stream(True), Stream(False)


@pytest.mark.parametrize(
    "streams",
    [(PIPE, TTY, TTY), (TTY, PIPE, TTY), (TTY, TTY, PIPE), (None, TTY, TTY), (TTY, None, TTY), (TTY, TTY, None)],
    ids=["input piped", "output piped", "errors piped", "input closed", "output closed", "errors closed"],
)
def test_all_three_streams_must_be_a_terminal(streams):
    # the framework draws on the error stream: with that one in a file the screen would stay black
    assert "needs a terminal" in refusal(streams, {"TERM": "xterm"})


@pytest.mark.parametrize("term", ["dumb", "unknown", "", None])
def test_a_terminal_without_a_cursor_is_refused(term):
    environ = {} if term is None else {"TERM": term}
    assert "TERM" in refusal((TTY, TTY, TTY), environ)


@pytest.mark.parametrize(
    ("columns", "lines", "refused"),
    [(80, 24, False), (*SMALLEST, False), (SMALLEST[0] - 1, 24, True), (80, SMALLEST[1] - 1, True), (0, 0, False)],
)
def test_a_terminal_that_is_too_small_is_refused(monkeypatch, columns, lines, refused):
    """A serial line has no size (0 x 0): it is not refused."""
    monkeypatch.setattr(os, "get_terminal_size", lambda _: os.terminal_size((columns, lines)))
    said = refusal((TTY, TTY, TTY), {"TERM": "xterm"})
    assert bool(said) == refused
    if refused:
        assert f"{columns} x {lines}" in said
        assert said.isprintable()


def test_a_terminal_that_does_not_tell_its_size_is_not_refused(monkeypatch):
    def unknown(_):
        raise OSError(25, "Inappropriate ioctl for device")

    monkeypatch.setattr(os, "get_terminal_size", unknown)
    assert refusal((TTY, TTY, TTY), {"TERM": "xterm"}) == ""


@pytest.mark.parametrize(
    ("term", "wanted", "mouse"),
    [("xterm-256color", True, True), ("tmux", True, True), ("xterm", False, False),
     ("linux", True, False), ("vt220", True, False)],
)  # fmt: skip
def test_a_mouse_is_asked_for_where_the_terminal_may_have_one(term, wanted, mouse):
    assert abilities({"TERM": term, "LANG": "C.UTF-8"}, mouse_wanted=wanted).mouse is mouse
