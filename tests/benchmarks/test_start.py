"""Start-up and memory."""

import subprocess
import sys
import time

import pytest

from tests.benchmarks.recorded import kept, kept_by_the_best
from tests.benchmarks.stopwatch import median, row, told, until_bytes
from tests.terminal.line import Line, wizard

pytestmark = pytest.mark.benchmark

TURNS = 7
#: Ways to begin: the words behind the command, and what its first frame shows, the last of it last.
STARTS = {
    "start: first frame, a record": (["r.toml"], (b"1.1  Job", b"1.10", b"r.toml is new", b" quit")),
    "start: first frame, no name": ([], (b"new session", b"example", b" quit")),
}


@pytest.fixture
def compiled(tmp_path):
    """Return an environment in which every module is compiled once and kept, ours and the framework's alike.

    An installed program is compiled; a checkout whose environment forbids it would time the compiler.
    """
    return {"PYTHONPYCACHEPREFIX": str(tmp_path / "compiled"), "PYTHONDONTWRITEBYTECODE": ""}


def test_start_to_the_first_full_frame(tmp_path, home, compiled):
    """Floor: the import of the screen framework alone, in turns, which no program on it can do without.

    The quickest of each counts: whatever else the machine does slows some turns, and it slows both alike.
    """
    kept_by_the_best(lambda: first_frames(tmp_path, compiled))
    assert home


def first_frames(folder, compiled):
    """Return the shortest times to the first full frame by that of the import, and the bytes by the cells."""
    took = {name: [] for name in (*STARTS, "framework", "python")}
    importing, saying = "import textual.app; print('ready', flush=True)", "print('ready', flush=True)"
    for turn in range(TURNS + 1):
        seconds = {"framework": ready(importing, compiled), "python": ready(saying, compiled)}
        for name, (words, shown) in STARTS.items():
            line, seconds[name] = until_bytes(shown[-1], *words, folder=folder, **compiled)
            with line:
                assert all(text in line.raw for text in shown), line.text()
        if turn:  # the first turn only compiles, and fills the disk cache
            for name, value in seconds.items():
                took[name].append(value)
    floor = min(took["framework"])
    for name in STARTS:
        told(name, min(took[name]), "import textual.app", floor)
        told(f"{name}, median", median(took[name]), "python -c print", median(took["python"]))
    return {name: min(took[name]) / floor for name in STARTS}


def ready(code, compiled):
    """Return the seconds until a few lines of Python say that they are ready."""
    line, seconds = until_bytes(b"ready", program=("-c", code), **compiled)
    with line:
        line.status()
    return seconds


def test_bytes_of_the_first_full_frame(tmp_path):
    """Floor: all cells of the screen."""
    with Line("r.toml", folder=tmp_path) as line:
        line.drawing = False
        line.until(lambda: b" quit" in line.raw, "the first frame")
        first = line.raw.index(b" quit") + len(b" quit")
        line.drawing = True
        line.draw()
        # everything of the screen is there by then: first and last question in view, help and keys
        for text in ("Duty 0/", "1.1  Job", "1.10", "r.toml is new", "q quit"):
            assert line.sees(text), line.text()
    kept("start: bytes of the first frame", first / (24 * 80))


def test_start_to_the_first_count(tmp_path):
    """Floor: the first frame; the count may come later, since nothing waits for it."""
    kept_by_the_best(lambda: first_count(tmp_path))


def first_count(folder):
    """Return the time to the first count by that to the first frame."""
    frames, counts = [], []
    for turn in range(TURNS + 1):
        line, seconds = until_bytes(b" quit", folder / "r.toml")
        with line:
            line.drawing = False
            line.until(lambda line=line: b"pairs remain" in line.raw, "the count")
            if turn:
                frames.append(seconds)
                counts.append(time.perf_counter() - line.started)
    count, frame = median(counts), median(frames)
    told("start to first count, built-in catalogue", count, "first frame", frame)
    return {"start: first count": count / frame}


def test_import_of_the_command_line():
    """Floor: an interpreter that does nothing."""
    kept_by_the_best(command_line)


def command_line():
    """Return the time of the import by that of the interpreter."""

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
    return {"start: command line": found / floor}


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
    kept("start: memory", peak / floor)
