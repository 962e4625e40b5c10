"""Start-up and memory."""

import subprocess
import sys
import time

import pytest

from tests.benchmarks.stopwatch import median, row, told, until_bytes
from tests.terminal.line import wizard

pytestmark = pytest.mark.benchmark

TURNS = 7
ROUNDS = 4
#: Bytes that the first frame may come to: 2,300 were measured.
FIRST_FRAME = 2_900


def test_start_to_the_first_full_frame(tmp_path):
    """Floor: the import of the screen framework alone, which no program on it can do without.

    Whatever else the machine does slows some rounds; a program that has grown slow slows all of them.
    """
    assert any(first_frame(tmp_path) <= 2.0 for _ in range(ROUNDS))


def first_frame(tmp_path):
    """Return the median time to the first full frame, in imports of the framework."""
    took = {"wizard": [], "framework": [], "python": []}
    for turn in range(TURNS + 1):
        line, seconds = until_bytes(b" quit", tmp_path / "r.toml")
        with line:
            # everything of the screen is there by then: first and last question in view, help and keys
            assert len(line.raw) <= FIRST_FRAME  # bytes
            for text in ("Duty 0/", "1.1  Job", "1.10", "r.toml is new", "q quit"):
                assert line.sees(text), line.text()
        program, importing = ("-c", "print('ready', flush=True)"), "import textual.app; print('ready', flush=True)"
        framework, floor = until_bytes(b"ready", program=("-c", importing))
        python, bare = until_bytes(b"ready", program=program)
        for other in (framework, python):
            with other:
                other.status()
        if turn:  # the first turn only fills the disk cache
            for name, value in (("wizard", seconds), ("framework", floor), ("python", bare)):
                took[name].append(value)
    first, floor, bare = (median(took[name]) for name in ("wizard", "framework", "python"))
    told("start to first full frame", first, "import textual.app", floor)
    told("start to first full frame", first, "python -c print", bare)
    return first / floor


def test_start_to_the_first_count(tmp_path):
    """Floor: the first frame; the count may come later, since nothing waits for it."""
    frames, counts = [], []
    for turn in range(TURNS + 1):
        line, seconds = until_bytes(b" quit", tmp_path / "r.toml")
        with line:
            line.drawing = False
            line.until(lambda line=line: b"pairs remain" in line.raw, "the count")
            if turn:
                frames.append(seconds)
                counts.append(time.perf_counter() - line.started)
    count, frame = median(counts), median(frames)
    told("start to first count, built-in catalogue", count, "first frame", frame)
    assert count / frame <= 5.0


def test_import_of_the_command_line():
    """Floor: an interpreter that does nothing."""

    def seconds(code):
        start = time.perf_counter()
        subprocess.run([sys.executable, "-c", code], check=True, cwd=".")
        return time.perf_counter() - start

    imports, floors = [], []
    for turn in range(2 * TURNS + 1):
        found, floor = seconds("import wizard.cli"), seconds("pass")
        if turn:
            imports.append(found)
            floors.append(floor)
    found, floor = median(imports), median(floors)
    told("import wizard.cli", found, "python -c pass", floor)
    assert found / floor <= 5.0


def test_memory_of_a_running_wizard():
    """Floor: what the framework and numpy take by themselves."""
    code = "import textual.app, numpy; print('ready', flush=True); input()"
    line, _ = until_bytes(b"ready", program=("-c", code))
    with line:
        floor = line.peak_memory()
    with wizard("demo") as line:
        line.until_sees("passes")
        line.type("s")
        line.until_sees("lightest first", "   1 ")
        line.type("enter")
        line.until_sees("The pair")
        peak = line.peak_memory()
    row(
        "peak memory, shortlist and a pair computed",
        f"{peak:.0f} MiB",
        f"textual.app and numpy {floor:.0f} MiB",
        f"{peak / floor:.2f} x",
    )
    assert peak < 150
