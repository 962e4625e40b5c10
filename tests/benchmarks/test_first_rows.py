"""From a changed answer to the first rows on the screen of a pty, with 4 million pairs still to be looked through."""

import time

import pytest

from engine.record.document import Record
from engine.record.write import to_text, write
from engine.selection import screen
from engine.selection.first_rows import first_rows
from tests.benchmarks.large_wizard import ROWS, SEED
from tests.benchmarks.stopwatch import median, promised, told
from tests.benchmarks.test_answer_to_count import keys_to
from tests.benchmarks.test_screening import seconds, spectrum, spectrum_answers
from tests.duties import small_catalogue
from tests.terminal.line import Line

pytestmark = pytest.mark.benchmark

LIVES = ("7000 h", "6000 h", "5000 h", "4000 h", "3000 h")
EARLY, EXACT = "looking on", "the first 100"


def seconds_to_rows(line):
    """Take back an answer over the open list; return the seconds until rows of the other duty are on the screen."""
    start = time.perf_counter()
    line.send(b"u")
    line.until(lambda: line.sees(EARLY) and line.sees("   1 "), "the first rows")
    return time.perf_counter() - start


def test_first_rows_on_the_screen(tmp_path):
    """Floor: the engine's own first rows, without thread, screen and terminal."""
    answers = spectrum_answers(20)
    path = tmp_path / "spectrum.toml"
    write(path, to_text(Record(answers), None))
    catalogue, duty = small_catalogue(SEED, ROWS), spectrum(20)
    floor = median([seconds(lambda: first_rows(screen.narrow(catalogue, duty))) for _ in range(len(LIVES))])
    took = []
    with Line(path, program=("-m", "tests.benchmarks.large_wizard")) as line:
        line.until_sees("All checks counted")
        line.settle(0.5)
        keys, _ = keys_to("duty.life", answers, "duty")
        line.type(*keys)
        for life in LIVES:
            line.type(life, "enter", "up")
            line.until_sees(life.replace(" h", ""))
            line.settle(0.5)
        line.type("s")
        line.until_sees(EXACT)
        line.settle(1.0)
        for _ in LIVES:
            took.append(seconds_to_rows(line))
            line.until_sees(EXACT)  # and the exact list takes their place
            line.settle(1.0)
    told("changed answer to first rows on the screen, 20 cases", median(took), "first rows alone", floor)
    told("the slowest of them", max(took), "first rows alone", floor)
    assert median(took) < promised(0.150)
