"""From the first key to the saved record in a real pty, on good terminals and on poor ones."""

import re
import subprocess
import sys

import pytest

from engine.answers.question import Limits, Quantity
from engine.record.read import read
from tests.terminal.line import Line, wizard

pytestmark = pytest.mark.terminal

#: Parameters of SGR that set no colour: reset, bold, dim, italic, underline, reverse, their ends, and 39 and 49, which
#: ask for the colours that the terminal has by itself (ECMA-48, 8.3.117).
COLOURLESS = {"", *map(str, (0, 1, 2, 3, 4, 7, 21, 22, 23, 24, 27, 39, 49))}
SGR = re.compile(rb"\x1b\[([0-9;:]*)m")


def colours(raw):
    """Return the SGR sequences that set a colour."""
    return [found for found in SGR.findall(raw) if not set(found.decode().split(";")) <= COLOURLESS]


def whole_session(line, name):
    """Answer, look at the shortlist and a pair, choose it, save under a name, leave."""
    line.type("enter", "Löwe ✓", "enter")
    line.until(lambda: line.sees("Conewright  Löwe ✓") or line.sees("Conewright  L?we +"), "the job")
    line.type("1")
    line.until_sees("back to back (O)")
    line.type("160 mm", "enter", "2", "4000 h", "enter")
    line.until_sees("the bearing middles", "4000 h")
    # the first two questions of load case 1 stay open
    line.type(*["down"] * 8, "540", "enter", "-34 kN", "enter")
    line.until_sees("All checks counted", "took away")
    line.type("right", "right", "down", "down", "35..60", "enter")
    line.until_sees("35 to 60 mm")
    line.type("s")
    line.until_sees("lightest first", "   1 ")
    line.type("down", "enter")
    line.until_sees("The pair passes")
    line.type("c")
    line.until_sees("Chosen: A ", "passes")
    line.type("esc")
    line.until_sees("Envelope 1")
    line.type("w")
    line.until_sees("File name")
    line.type(str(name), "enter")
    line.until_sees("Saved in")
    # the result of the pair is kept once its load distribution has been computed
    line.until(lambda: read(name).stored, "the result in the record")
    line.type("q")


TERMINALS = {
    "utf8": {},
    "vt220 in the C locale": {"TERM": "vt220", "LC_ALL": "C"},
    "linux console": {"TERM": "linux", "LC_ALL": "C.UTF-8", "COLORTERM": "truecolor"},
    "no colour": {"TERM": "xterm-256color", "LC_ALL": "C.UTF-8", "NO_COLOR": "1"},
}


@pytest.mark.parametrize("kind", TERMINALS)
def test_a_whole_session(tmp_path, kind):
    name = tmp_path / "winch.toml"
    with wizard(**TERMINALS[kind]) as line:
        whole_session(line, name)
        assert line.status() == 0
        assert line.restored()
        assert f"Saved in {name}" in line.farewell()
        raw = bytes(line.raw)
    answers = read(name).answers
    # of all that tells a terminal something beside its text only the shape of the pointer: no title, so no name in one
    assert set(re.findall(rb"\x1b\]([^;\x07]*)", raw)) <= {b"22"}
    assert answers.duty.job == "Löwe ✓"  # what is drawn with stand-ins is kept as it was typed
    assert answers.duty.arrangement == "back_to_back"
    assert answers.duty.distance == Quantity(160.0, "160 mm")
    assert answers.duty.life == Quantity(4000.0, "4000 h")
    assert answers.duty.cases[0].speed == Quantity(540.0, "540")
    assert answers.duty.cases[0].radial_y == Quantity(-34000.0, "-34 kN")
    assert answers.envelope.bore_a == Limits(35.0, 60.0, "35..60")
    assert answers.choice.bearing_a
    assert read(name).stored
    if kind == "vt220 in the C locale":
        assert max(raw) <= 0x7F
        assert colours(raw) == []
    elif kind == "no colour":
        assert colours(raw) == []
    elif kind == "linux console":
        # its 16 colours only: no 38 or 48, which begin a colour of 256 or 16 million
        assert colours(raw)
        assert not any({"38", "48"} & set(found.decode().split(";")) for found in colours(raw))
    else:
        assert "▸".encode() in raw
        assert colours(raw)


def test_without_colour_the_marked_line_the_entry_and_the_chapter_are_still_seen(tmp_path):
    with wizard(tmp_path / "r.toml", TERM="vt220", LC_ALL="C") as line:
        line.type("down", "down")
        line.until_sees("load centres")
        reversed_text = ["".join(cell.data for cell in row if cell.reverse).strip() for row in line.cells()]
        assert any("Duty 0/" in text for text in reversed_text)
        assert any("Distance between the bearings" in text for text in reversed_text)
        line.type("160")
        line.until_sees("> 160")
        # the terminal's own cursor stands behind what was typed
        assert (line.screen.cursor.x, line.screen.cursor.hidden) == (5, False)
        assert line.screen.display[line.screen.cursor.y].startswith("> 160")


@pytest.mark.parametrize("term", ["dumb", "unknown", ""])
def test_a_terminal_without_a_cursor_gets_one_clear_line(term):
    with Line(TERM=term, LC_ALL="C.UTF-8") as line:
        assert line.status() == 2
        said = bytes(line.raw).decode()
        assert said.strip().startswith("conewright: TERM")
        assert said.count("\n") == 1
        assert "\x1b" not in said


def test_a_terminal_that_is_too_small_gets_one_clear_line():
    with Line(columns=59, lines=24) as line:
        assert line.status() == 2
        assert b"the terminal is 59 x 24" in line.raw
        assert line.raw.count(b"\n") == 1


def test_a_screen_that_would_go_into_a_file_is_refused(tmp_path):
    """The framework draws on the error stream; `conewright 2>log` would leave the screen black."""
    script = tmp_path / "run.sh"
    script.write_text(f'exec "{sys.executable}" -m wizard 2>"{tmp_path}/log"\n')
    with Line(script, program=("-c", "import os, sys; os.execvp('bash', ['bash', sys.argv[1]])")) as line:
        assert line.status() == 2
    assert "needs a terminal" in (tmp_path / "log").read_text()


#: Keys, and what must be on the screen once they are dealt with.
PIECES = [
    (["down", "down", "160", "enter"], "160 mm left the count as it was"),
    (["down", "5 furlong", "enter"], "▸ 5 furlong"),
    (["esc", "end"], "Of the bearings while this case runs"),
    (["right", "right", "down"], "One part to order and stock"),
    (["s", "pgdn", "pgdn"], "  29 "),
    (["enter", "pgdn", "pgdn", "up"], "Loads are not yet known"),
]


def test_what_is_painted_piece_by_piece_equals_a_whole_repaint(tmp_path):
    """Only what changed is sent; a repaint of everything, as after a resize, must show the very same cells."""
    with wizard(tmp_path / "r.toml") as line:
        for keys, seen in PIECES:
            line.type(*keys)
            line.until_sees(seen)
            line.settle(0.3)
            piecewise, cursor = line.cells(), (line.screen.cursor.x, line.screen.cursor.y)
            # a screen of another width is painted as a whole, and so is the one of the width before
            for columns in (81, 80):
                before = len(line.raw)
                line.resize(columns, 24)
                line.until(lambda before=before: len(line.raw) - before > 2000, "a whole repaint")
                line.settle(0.3)
            line.until(lambda whole=piecewise: line.cells() == whole, f"the same cells after {keys}")
            if "▸" in line.text():
                assert (line.screen.cursor.x, line.screen.cursor.y) == cursor


def test_the_record_of_a_session_computes_without_a_screen(tmp_path):
    name = tmp_path / "demo.toml"
    with wizard("demo") as line:
        line.until_sees("passes")
        line.type("w")
        line.until_sees("File name")
        line.type(str(name), "enter")
        line.until_sees("Saved in")
        line.type("q")
        assert line.status() == 0
        assert b"conewright calc" in line.raw
    run = subprocess.run([sys.executable, "-m", "wizard", "calc", name], capture_output=True, text=True, timeout=120)
    assert run.returncode == 0, run.stderr
    assert "The pair PASSES every check" in run.stdout
