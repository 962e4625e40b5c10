"""From a key to its paint, and a slow serial line: what typing feels like."""

import os
import select
import time

import pytest

from tests.benchmarks.recorded import kept, kept_by_the_best
from tests.benchmarks.stopwatch import at_rest, median, pace_now, percentile, row, told
from tests.terminal.line import Line, wizard

pytestmark = pytest.mark.benchmark

KEYS = "12345678901234567890"
#: The least that the framework can do: an application of one entry line.
ONE_ENTRY = """
from textual.app import App
from textual.widgets import Input

class One(App):
    def compose(self):
        yield Input(compact=True)

One().run(mouse=False)
"""
#: Seconds that a paste of 100 kB may take, key by key.
PASTED = 3.0
BAUD = 9600
#: A byte on a serial line takes ten bits: start, eight, stop.
A_SECOND = BAUD / 10


def paint_times(line):
    """Return the seconds from each typed character to the first byte that it led to."""
    took = []
    for key in KEYS:
        line.settle(0.15)
        line.drawing = False
        start = time.perf_counter()
        os.write(line.process.fd, key.encode())
        assert select.select([line.process.fd], [], [], 10)[0]
        took.append(time.perf_counter() - start)
        line.drawing = True
        line.take(0.05)
    return took


def open_entry(line):
    at_rest(line)
    line.type("down", "down", "enter", "ctrl+u")
    line.until_sees("▸ ")


def test_a_key_to_its_first_paint():
    """Floor: an application of one entry line in the same framework; 3 times that at 95 of 100 keys is the limit."""
    kept_by_the_best(paint_ratios)


def paint_ratios():
    """Return the times to the first paint by those of the floor, measured in turns."""
    own, floor = [], []
    for _ in range(3):
        with Line(program=("-c", ONE_ENTRY)) as line:
            line.until(lambda line=line: len(line.raw) > 1000, "the entry line")
            floor += paint_times(line)
        with wizard("demo") as line:
            open_entry(line)
            own += paint_times(line)
    told("key to first paint, median", median(own), "one entry line", median(floor))
    told("key to first paint, 95 of 100", percentile(own, 0.95), "one entry line", percentile(floor, 0.95))
    late = percentile(own, 0.95) / percentile(floor, 0.95)
    return {"keys: median": median(own) / median(floor), "keys: 95 of 100": late}


def carry(line, seconds):
    """Carry for so many seconds what a line of 9,600 baud carries; return when the last byte came, or None."""
    last, end = None, time.perf_counter() + seconds
    while (now := time.perf_counter()) < end:
        if select.select([line.process.fd], [], [], 0)[0]:
            data = os.read(line.process.fd, int(A_SECOND / 100))
            line.raw += data
            last = time.perf_counter()
        time.sleep(max(0.0, 0.01 - (time.perf_counter() - now)))
    return last


def test_typing_over_9600_baud():
    """Eight characters, a quarter of a second apart: all of it is on the screen a second after the last at most."""
    with wizard("demo") as line:
        open_entry(line)
        line.settle(0.5)
        before = len(line.raw)
        for key in KEYS[:8]:
            os.write(line.process.fd, key.encode())
            pressed = time.perf_counter()
            last = carry(line, 0.25)
        last = carry(line, 2.0) or last
        line.draw()
        assert line.sees(KEYS[:8])
    sent = len(line.raw) - before
    late = max(0.0, (last or pressed) - pressed)
    row("8 characters at 9,600 baud: last key to last byte", f"{late * 1e3:.0f} ms", f"{sent} bytes on the line")
    assert late <= 1.0
    kept("keys: 9,600 baud", sent / A_SECOND)


def test_100_kB_that_the_terminal_does_not_bracket():
    """As a serial line or a vt220 pastes it: key by key. It is through, and the next key answered, within seconds."""
    kept_by_the_best(paste_ratio)


def paste_ratio():
    text = b"12345678" * 12_500
    before = pace_now()
    with wizard("demo") as line:
        open_entry(line)
        start, sent = time.perf_counter(), len(line.raw)
        line.send(text + b"\x1b")
        line.until(lambda: not line.sees("▸"), "the entry closed by the key behind it")
        seconds = time.perf_counter() - start
    scaled = seconds / ((before + pace_now()) / 2)
    row("100 kB as if typed: to the answer of the next key", f"{seconds:.2f} s", f"by pace {scaled:.2f} s")
    assert len(line.raw) - sent <= 2_000  # what is left out is not painted
    return {"keys: 100 kB": scaled / PASTED}
