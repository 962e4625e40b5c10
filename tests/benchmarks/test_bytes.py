"""Bytes for a key at 80x24: what a slow line has to carry.

A ceiling is what was once measured and a fifth more, or the limit that was set for the line where that is less: bytes
do not depend on the machine, so a program that has begun to paint more fails here.
"""

import pytest

from tests.benchmarks.stopwatch import median, row
from tests.terminal.line import wizard

pytestmark = pytest.mark.benchmark


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


def measured(what, found, floor, usual, most):
    """Print a row; the usual key may lead to `usual` bytes, any to `most`."""
    row(f"bytes, {what}: median (least to most)", f"{median(found):.0f} ({min(found)}-{max(found)})",
        f"cells painted {floor}", f"{median(found) / floor:.2f} x")  # fmt: skip
    assert median(found) <= usual
    assert max(found) <= most


def test_bytes_of_a_key():
    """Floors: the cells that must change, a byte each: 1 typed, 2 rows, all but the frame of the chapter."""
    with wizard("demo") as line:
        line.until_sees("passes")
        line.settle(0.4)
        measured("row move", bytes_of(line, ["down"] * 6 + ["up"] * 4), 2 * 80, 340, 480)  # with its help
        measured("row move that scrolls", bytes_of(line, ["end", "home"]), 11 * 80, 1300, 1500)
        line.type("down", "down")
        line.settle(0.2)
        # the footer says what the keys do in the entry line, and then what they do outside it
        measured("entry line opened and left", bytes_of(line, ["enter", "esc"] * 3), 2 * 2, 230, 250)
        line.type("enter")
        line.until_sees("▸ ")
        line.type("ctrl+u")
        line.settle(0.2)
        measured("typed character", bytes_of(line, list("123456789012")), 1, 30, 340)
        line.type("esc")
        line.until(lambda: not line.sees("▸"), "the entry closed")
        line.settle(0.2)
        measured("change of chapter", bytes_of(line, ["right"] * 5 + ["left"] * 2), 24 * 80, 1600, 7500)
        shortlist = bytes_of(line, ["s"])
        line.until_sees("lightest first")
        line.settle(0.2)
        measured("shortlist opened", shortlist, 24 * 80, 2700, 2700)
        measured("shortlist row move", bytes_of(line, ["down"] * 6 + ["up"] * 3), 2 * 80, 340, 340)
        before = len(line.raw)
        while line.take(2.0):
            pass
        row("bytes, idle for 2 s", str(len(line.raw) - before), "nothing to paint 0")
        assert len(line.raw) == before
