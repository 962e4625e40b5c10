"""Bytes for a key at 80x24: what a slow line has to carry.

Bytes do not depend on the machine, so a program that has begun to paint more than `recorded.py` allows fails here.
"""

import pytest

from tests.benchmarks.recorded import kept
from tests.benchmarks.stopwatch import at_rest, median, row
from tests.terminal.line import wizard

pytestmark = pytest.mark.benchmark

USUAL_AND_MOST = {
    "row move": ("bytes: row move", "bytes: row move, most"),
    "row move that scrolls": ("bytes: scroll", "bytes: scroll, most"),
    "line of a page that scrolls": ("bytes: page", "bytes: page, most"),
    "entry line opened and left": ("bytes: focus", "bytes: focus, most"),
    "typed character": ("bytes: typed", "bytes: typed, most"),
    "change of chapter": ("bytes: chapter", "bytes: chapter, most"),
    "shortlist row move": ("bytes: list row", "bytes: list row, most"),
}


def bytes_of(line, keys):
    """Return the bytes that each key led to."""
    found = []
    for key in keys:
        before = len(line.raw)
        line.type(key)
        line.until(lambda before=before: len(line.raw) > before, "an answer to the key")
        line.settle(0.2)
        found.append(len(line.raw) - before)
    return found


def measured(what, found, floor):
    """Hold the bytes of the usual key, and those of the wordiest, to what they may come to by the cells painted."""
    row(f"bytes, {what}: median (least to most)", f"{median(found):.0f} ({min(found)}-{max(found)})")
    usual, most = USUAL_AND_MOST[what]
    kept(usual, median(found) / floor)
    kept(most, max(found) / floor)


def test_bytes_of_a_key():
    """Floors: the cells that must change, a byte each: 1 typed, 2 rows, all but the frame of the chapter."""
    with wizard("demo") as line:
        at_rest(line)
        measured("row move", bytes_of(line, ["down"] * 6 + ["up"] * 4), 2 * 80)
        measured("row move that scrolls", bytes_of(line, ["end", "home"]), 11 * 80)
        line.type("down", "down")
        line.settle(0.2)
        # the footer says what the keys do in the entry line, and then what they do outside it
        measured("entry line opened and left", bytes_of(line, ["enter", "esc"] * 3), 1)
        line.type("enter")
        line.until_sees("▸ ")
        line.type("ctrl+u")
        line.settle(0.2)
        measured("typed character", bytes_of(line, list("123456789012")), 1)
        line.type("esc")
        line.until(lambda: not line.sees("▸"), "the entry closed")
        line.settle(0.2)
        measured("change of chapter", bytes_of(line, ["right"] * 5 + ["left"] * 2), 24 * 80)
        shortlist = bytes_of(line, ["s"])
        line.until_sees("lightest first")
        line.settle(0.2)
        kept("bytes: list", shortlist[0] / (24 * 80))
        measured("shortlist row move", bytes_of(line, ["down"] * 6 + ["up"] * 3), 2 * 80)
        line.type("?")
        line.until_sees("lines 1 to 21 of")
        line.settle(0.2)
        measured("line of a page that scrolls", bytes_of(line, ["down"] * 6 + ["up"] * 3), 22 * 80)
        before = len(line.raw)
        while line.take(2.0):
            pass
        row("bytes, idle for 2 s", str(len(line.raw) - before), "nothing to paint 0")
        assert len(line.raw) == before
