"""Rows of figures, and processes timed in a pty."""

import statistics
import subprocess
import sys
import time
from functools import cache

from tests.terminal.line import Line


def row(what, figure, floor="", ratio=""):
    """Print one row of the table."""
    print(f"\n| {what:<52} | {figure:>16} | {floor:>34} | {ratio:>8} |", end="", flush=True)


def told(what, seconds, floor_is, floor, digits=2):
    """Print a time, its floor and their ratio."""
    row(what, f"{seconds * 1e3:.1f} ms", f"{floor_is} {floor * 1e3:.1f} ms", f"{seconds / floor:.{digits}f} x")


#: Seconds that a process takes to import the screen framework, on the machine that times are promised for.
IMPORT_THERE = 0.130


def pace_now(times=3):
    """Return how many times longer the machine takes right now than the one that times are promised for, at least 1.

    Pace is nothing but the import of textual.app, timed here and divided by its time there: it stands for the machine
    and for whatever else runs on it at the moment. It assumes that the rest is slowed as an import is, which holds for
    one thread of Python roughly; so every time that is held to a promise is printed unscaled as well.
    """
    took = []
    for _ in range(times):
        start = time.perf_counter()
        subprocess.run([sys.executable, "-c", "import textual.app"], check=True)
        took.append(time.perf_counter() - start)
    return max(1.0, statistics.median(took) / IMPORT_THERE)


@cache
def pace():
    """Return the pace of this machine, measured once: see `pace_now`."""
    slower = pace_now(7)
    row("this machine", f"{slower:.2f} x", f"import textual.app {IMPORT_THERE * 1e3:.0f} ms")
    return slower


def promised(seconds):
    """Return what a time promised for a machine of the usual pace comes to on this one."""
    return seconds * pace()


def median(values):
    return statistics.median(values)


def percentile(values, share):
    """Return the value below which a share of the values lies, by nearest rank."""
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))]


def until_bytes(marker, *words, **how):
    """Start a program in a pty; return it and the seconds from its start until some bytes came out of it."""
    line = Line(*words, **how)
    line.drawing = False
    line.until(lambda: marker in line.raw, marker)
    seconds = time.perf_counter() - line.started
    line.drawing = True
    line.draw()
    return line, seconds


def at_rest(line):
    """Wait until the example has been computed to its end, so that nothing but keys leads to bytes."""
    line.until_sees("passes")
    line.until(lambda: not line.sees("so far"), "the load distribution of the chosen pair")
    line.settle(1.5)
