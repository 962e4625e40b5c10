"""What was measured, what was set as a limit, and so what may be measured: the one home of the benchmarks' figures.

Every figure is a ratio to a floor of the same run, or a count of bytes, so that it says little of the machine. It may
come to its limit, and to a fifth more than what is recorded here, whichever is less: who makes the program slower or
wordier by more than that must change this table, where it is seen. Times still waver where a machine does other work
besides; they are measured again, up to so many rounds, and the best round counts: other work slows some rounds, a
program that has grown slow slows all of them.
"""

from collections.abc import Callable
from dataclasses import dataclass

from tests.benchmarks.stopwatch import row

REGRESSION = 1.2
ROUNDS = 5


@dataclass(frozen=True)
class Ratio:
    """What is measured against which floor; what was recorded last, and the limit that was set for it."""

    what: str
    floor: str
    recorded: float
    limit: float

    @property
    def most(self) -> float:
        """What may be measured."""
        return min(self.limit, REGRESSION * self.recorded)


#: What must change on the screen, a byte a cell.
_ROWS, _ECHO, _CELLS = "2 rows of 80 cells", "a cell", "all 1,920 cells"
IMPORT, PROMISE = "import of textual.app", "the promise, by pace"
RATIOS = {
    "start: first frame, a record": Ratio("start to the first full frame", IMPORT, 1.35, 1.6),
    "start: first frame, no name": Ratio("start to the ways to begin", IMPORT, 1.40, 1.6),
    "start: bytes of the first frame": Ratio("bytes of the first frame", _CELLS, 2304 / 1920, 6500 / 1920),
    "start: first count": Ratio("start to the first count", "first frame", 2.0, 5.0),
    "start: command line": Ratio("import of the command line", "python -c pass", 3.6, 5.0),
    "start: memory": Ratio("peak memory, a pair computed", "textual.app and numpy", 1.75, 3.4),
    "count: median": Ratio("answer to count, median", f"{PROMISE} 50 ms", 0.86, 1.0),
    "count: 95 of 100": Ratio("answer to count, 95 of 100", f"{PROMISE} 120 ms", 0.80, 1.0),
    "keys: median": Ratio("key to first paint, median", "one entry line", 0.98, 3.0),
    "keys: 95 of 100": Ratio("key to first paint, 95 of 100", "one entry line", 1.10, 3.0),
    "keys: 9,600 baud": Ratio("bytes of 8 typed characters", "what the line carries in 1 s", 195 / 960, 1.0),
    "keys: 100 kB": Ratio("100 kB as if typed", f"{PROMISE} 3 s", 0.22, 1.0),
    "bytes: row move": Ratio("row move, median", _ROWS, 318 / 160, 340 / 160),
    "bytes: row move, most": Ratio("row move with the longest help", _ROWS, 406 / 160, 480 / 160),
    "bytes: scroll": Ratio("row move that scrolls, median", "11 rows of 80 cells", 1078 / 880, 3000 / 880),
    "bytes: scroll, most": Ratio("row move that scrolls, most", "11 rows of 80 cells", 1108 / 880, 3000 / 880),
    "bytes: page": Ratio("page to read, a line down, median", "22 rows of 80 cells", 1286 / 1760, 3000 / 1760),
    "bytes: page, most": Ratio("page to read, a line down, most", "22 rows of 80 cells", 1315 / 1760, 3000 / 1760),
    "bytes: focus": Ratio("entry line opened and left, median", _ECHO, 191.0, 250.0),
    "bytes: focus, most": Ratio("entry line opened and left, most", _ECHO, 223.0, 250.0),
    "bytes: typed": Ratio("typed character, median", _ECHO, 24.0, 340.0),
    "bytes: typed, most": Ratio("typed character, most", _ECHO, 26.0, 340.0),
    "bytes: chapter": Ratio("change of chapter, median", _CELLS, 1327 / 1920, 7500 / 1920),
    "bytes: chapter, most": Ratio("change of chapter, most", _CELLS, 1665 / 1920, 7500 / 1920),
    "bytes: list": Ratio("shortlist opened", _CELLS, 2245 / 1920, 7500 / 1920),
    "bytes: list row": Ratio("shortlist row move, median", _ROWS, 287 / 160, 340 / 160),
    "bytes: list row, most": Ratio("shortlist row move, most", _ROWS, 339 / 160, 340 / 160),
}


def kept(key: str, ratio: float) -> None:
    """Fail where a ratio is above what it may come to; print it beside what is recorded."""
    one = RATIOS[key]
    known = f"recorded {one.recorded:.2f}, limit {one.limit:.2f}"
    row(f"{one.what}, by {one.floor}", f"{ratio:.3f} x", known, f"{one.most:.3f}")
    assert ratio <= one.most, f"{key}: {ratio:.3f} of {one.floor}, at most {one.most:.3f}"


def kept_by_the_best(measure: Callable[[], dict[str, float]], rounds: int = ROUNDS) -> None:
    """Measure ratios until each has once come to no more than it may, or the rounds are over; then the best counts."""
    best: dict[str, float] = {}
    for _ in range(rounds):
        for key, ratio in measure().items():
            best[key] = min(ratio, best.get(key, ratio))
        if all(ratio <= RATIOS[key].most for key, ratio in best.items()):
            break
    for key, ratio in best.items():
        kept(key, ratio)
