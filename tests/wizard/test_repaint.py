"""Only cells that differ are sent, and what is sent shows the very cells that were wanted; judged by a terminal."""

import pyte
import pytest
from hypothesis import HealthCheck, assume, example, given, settings
from hypothesis import strategies as st
from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style

from wizard.repaint import Shown, cells_of

WIDTH = 24
STYLES = [None, Style(bold=True), Style(reverse=True), Style(color="red")]
_TEXT = st.text("ab  é中文e\u0301│─", max_size=14)
_LINES = st.lists(st.tuples(st.integers(0, 3), st.integers(0, WIDTH), st.lists(st.tuples(_TEXT, st.integers(0, 3)))))


def bare(style):
    return style is None


def render(text, style):
    return text if style is None else style.render(text)


def painted(shown, y, x, pieces):
    line = [Segment(text, STYLES[worn]) for text, worn in pieces]
    return shown.paint(y, x, cells_of(line, bare), WIDTH, render)


def cells(screen):
    return [[screen.buffer[y][x] for x in range(WIDTH)] for y in range(screen.lines)]


@settings(suppress_health_check=[HealthCheck.filter_too_much])
@given(_LINES)
@example([(3, 6, [("aa中", 0), ("a" * 14, 0), ("\u0301", 0)]), (0, 0, [("a", 0)])])
@example([(3, 22, [("中\u0301", 0)]), (0, 0, [("a", 0)])])
def test_a_terminal_shows_what_a_whole_repaint_shows(lines):
    """Against pyte: the same pieces painted one after the other, by difference and with nothing remembered."""
    shown, by_difference, whole = Shown(), pyte.Screen(WIDTH, 4), pyte.Screen(WIDTH, 4)
    for y in range(4):  # the first painting of a line is a whole one
        pyte.Stream(by_difference).feed(painted(shown, y, 0, [(" " * WIDTH, 0)]))
    wanted = [[(" ", None)] * WIDTH for _ in range(4)]
    for y, x, pieces in lines:
        pyte.Stream(by_difference).feed(painted(shown, y, x, pieces))
        new = cells_of([Segment(text, STYLES[worn]) for text, worn in pieces], bare)[: WIDTH - x]
        wanted[y] = [*wanted[y][:x], *new, *wanted[y][x + len(new) :]]
    for y, line in enumerate(wanted):
        # half of a wide character, painted over or cut at the edge, is shown in many ways
        halves = [cell_len(cell[0]) == 2 for cell in line]
        assume([False, *halves[:-1]] == [cell[0] == "" for cell in line] and not halves[-1])
        pyte.Stream(whole).feed(Shown().paint(y, 0, line, WIDTH, render))
    assert [[c.data for c in row] for row in cells(by_difference)] == [[c.data for c in row] for row in cells(whole)]
    assert [[c.reverse for c in row] for row in cells(by_difference)] == [
        [c.reverse for c in row] for row in cells(whole)
    ]


def test_nothing_is_sent_for_what_is_shown():
    shown = Shown()
    assert painted(shown, 1, 0, [("bearing", 0), ("  ", 2)])
    assert painted(shown, 1, 0, [("bearing", 0), ("  ", 2)]) == ""
    assert painted(shown, 1, 0, [("bearinG", 0)]) == "\x1b[2;7HG"
    shown.forget()
    assert "bearinG" in painted(shown, 1, 0, [("bearinG", 0)])


def test_blanks_to_the_end_of_a_line_are_erased():
    shown = Shown()
    painted(shown, 0, 0, [("x" * WIDTH, 0)])
    assert painted(shown, 0, 4, [(" " * (WIDTH - 4), 0)]) == "\x1b[1;5H\x1b[K"


class Narrow(pyte.Screen):
    """A terminal that takes one cell for what others take two for, as many do of emoji they do not know."""

    def draw(self, data):
        for character in data:
            if ord(character) >= 0x1F000:
                super().draw("e")
            elif character != "\u200d":
                super().draw(character)


@pytest.mark.parametrize("terminal", [pyte.Screen, Narrow], ids=["wider than here", "narrower than here"])
def test_what_is_typed_around_characters_of_uncertain_width_leaves_nothing_behind(terminal):
    """A hand with a skin colour and a flag, typed before "l" and taken away again from the end."""
    typed = "m \U0001f44d\U0001f3fd\U0001f1e9\U0001f1ea l"
    shown, screen = Shown(), terminal(WIDTH, 1)
    steps = [*(typed[:at] for at in range(len(typed) + 1)), *(typed[:at] for at in range(len(typed) - 1, -1, -1))]
    for text in steps:
        line = text + " " * (WIDTH - cell_len(text))
        pyte.Stream(screen).feed(painted(shown, 0, 0, [(line, 0)]))
        # certain characters stand at their columns, and after the last one there is nothing
        if text.endswith(" l"):
            assert screen.display[0].rstrip().endswith("l")
            assert screen.buffer[0][cell_len(text) - 1].data == "l"
        assert all(screen.buffer[0][x].data == " " for x in range(cell_len(text), WIDTH)), repr(text)
    assert screen.display[0].strip() == ""


def test_letters_of_certain_width_are_still_sent_alone():
    shown = Shown()
    painted(shown, 0, 0, [("中文 é" + " " * (WIDTH - 6), 0)])
    assert painted(shown, 0, 0, [("中文 éa" + " " * (WIDTH - 7), 0)]) == "\x1b[1;7Ha"
