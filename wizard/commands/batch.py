"""`conewright calc` over many records or a CSV of duties: on all cores, one line of results each."""

from __future__ import annotations

import csv
import io
import json
import os
import signal
import sys
import time
from collections import deque
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Any, TextIO

from engine.errors import Problem, Problems, plain
from wizard.commands.output import ended, refuse_same, show
from wizard.commands.own import lubricants
from wizard.commands.own.catalog import active
from wizard.exit_codes import Exit

if TYPE_CHECKING:
    from concurrent.futures import Future

    from engine.record.document import Record
    from engine.record.many.duties import Duties, Row
    from engine.record.many.outcome import Bench, Outcome

#: Duties handed to a core at a time: enough that handing over costs nothing, few enough that no core waits at the end.
CHUNK = 32
#: With fewer duties than this a second core costs more than it brings.
FEW = 2 * CHUNK
INTERRUPTED = 130


def run(paths: Sequence[Path], base: str | None, jobs: str | None, output: str | None, as_json: bool) -> int:
    """Compute records or rows of duties and write a table of results; raise Problems where nothing can be read."""
    duties, work, record = _work(paths, base)
    cores = _cores(jobs)
    lines = as_json or bool(output and output.endswith(".jsonl"))
    target = Path(os.path.expanduser(output)) if output and output != "-" else None
    if target is not None:
        refuse_same(target, *paths, *([Path(base)] if base else []))
    if duties is not None:
        for note in duties.notes:
            print(note, file=sys.stderr)
    progress = _Progress(len(work), cores, sys.stderr)
    outcomes = progress.watched(computed(work, duties, active(), cores))
    passing = written(outcomes, lines, show) if target is None else _to_file(outcomes, lines, target)
    progress.end()
    if progress.done < len(work):
        print(f"conewright: interrupted; {progress.done} of {len(work)} stand in the table", file=sys.stderr)
        return INTERRUPTED
    if progress.unused:
        told = "hold keys that were not used, and may be answers misspelt: see the column problem"
        print(f"conewright: MIND: {progress.unused} of the records {told}", file=sys.stderr)
    status = ended(passing == len(work), *([record] if record else []))
    return Exit.NOT_USED if status == Exit.PASSES and progress.unused else status


def _work(paths: Sequence[Path], base: str | None) -> tuple[Duties | None, list[Row] | list[str], Record | None]:
    """Return the table of duties, what is to be computed, and the record that lies under the table."""
    tables = [path for path in paths if path.suffix.lower() == ".csv"]
    if not tables:
        if base is not None:
            wrong = "goes with a CSV file of duties, not with records"
            raise Problems([Problem("", None, "--base", wrong, "conewright calc DUTIES.csv --base RECORD.toml")])
        return None, [str(path) for path in paths], None
    if len(paths) > 1:
        wrong = f"{len(paths)} files were given"
        raise Problems([Problem(str(tables[0]), None, "", wrong, "one CSV file of duties, or any number of records")])
    from engine.answers.lubricated.own import own
    from engine.record.many.duties import read
    from engine.record.read import read as read_record

    record = read_record(Path(base)) if base else None
    duties = read(paths[0], record, own(lubricants_file) if (lubricants_file := lubricants.active()) else ())
    return duties, list(duties.rows), record


def _cores(jobs: str | None) -> int:
    if jobs is None:
        return os.cpu_count() or 1
    if not jobs.isascii() or not jobs.isdigit() or not 1 <= int(jobs[:6]) <= 512:
        raise Problems([Problem("", None, "--jobs", f'"{plain(jobs)}" is no number of cores', "1 to 512")])
    return int(jobs)


# computing


def computed(
    work: Sequence[Row] | Sequence[str], duties: Duties | None, otherwise: Path | None, cores: int
) -> Iterator[Outcome]:
    """Yield the outcome of every duty in order, computed by so many processes."""
    if cores == 1 or len(work) < FEW:
        from engine.record.many.outcome import Bench

        bench = Bench(duties, otherwise)
        yield from map(bench.outcome, work)
        return
    import multiprocessing
    from concurrent.futures import ProcessPoolExecutor

    # a fresh process knows nothing of the threads of this one, which a forked copy would wait for
    methods = multiprocessing.get_all_start_methods()
    fresh = multiprocessing.get_context("forkserver" if "forkserver" in methods else "spawn")
    pool = ProcessPoolExecutor(cores, fresh, _prepare, (duties, otherwise))
    try:
        yield from _in_order(pool, work, cores)
    except BaseException:
        pool.shutdown(wait=False, cancel_futures=True)
        raise
    pool.shutdown()


def _in_order(pool: Any, work: Sequence[Any], cores: int) -> Iterator[Outcome]:
    chunks = (work[at : at + CHUNK] for at in range(0, len(work), CHUNK))
    running: deque[Future[list[Outcome]]] = deque(pool.submit(_some, chunk) for chunk in islice(chunks, 4 * cores))
    while running:
        found = running.popleft().result()
        running.extend(pool.submit(_some, chunk) for chunk in islice(chunks, 1))
        yield from found


_bench: Bench | None = None


def _prepare(duties: Duties | None, otherwise: Path | None) -> None:
    """Make a process ready: an interruption is the business of the one that started it."""
    global _bench  # noqa: PLW0603 - what an initializer hands to the calls that follow it
    from engine.record.many.outcome import Bench

    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _bench = Bench(duties, otherwise)


def _some(chunk: Sequence[Any]) -> list[Outcome]:
    assert _bench is not None
    return [_bench.outcome(one) for one in chunk]


# writing


def _to_file(outcomes: Iterable[Outcome], lines: bool, target: Path) -> int:
    """Write beside the target and rename at the end, or when interrupted: never half a line under its name."""
    beside = target.with_name(f".{target.name[:40]}.{os.getpid()}.part")
    try:
        with beside.open("w", encoding="utf-8", newline="") as file:
            passing = written(outcomes, lines, file.write)
        os.replace(beside, target)
    except (OSError, ValueError) as error:
        beside.unlink(missing_ok=True)
        reason = plain(getattr(error, "strerror", None) or error)
        raise Problems(
            [Problem(str(target), None, "", f"cannot be written ({reason})", "a file in a folder")]
        ) from None
    print(f"Written: {plain(target, 1000)}", file=sys.stderr)
    return passing


def written(outcomes: Iterable[Outcome], lines: bool, write: Any) -> int:
    """Write a line an outcome; return how many pass."""
    from engine.record.many.outcome import COLUMNS

    buffer = io.StringIO()
    rows = csv.DictWriter(buffer, COLUMNS, restval="", lineterminator="\n")
    passing = 0
    if not lines:
        rows.writeheader()
    for outcome in outcomes:
        passing += outcome.passes
        if lines:
            buffer.write(_json_line(outcome))
        else:
            rows.writerow({key: _cell(value) for key, value in outcome.columns.items()})
        write(buffer.getvalue())
        buffer.seek(0)
        buffer.truncate()
    write(buffer.getvalue())
    return passing


def _json_line(outcome: Outcome) -> str:
    from engine.report.compared import finite

    tables = finite(outcome.columns | {"checks": outcome.checks})
    return json.dumps(tables, ensure_ascii=True, allow_nan=False) + "\n"


def _cell(value: object) -> object:
    return repr(value) if isinstance(value, float) else value


@contextmanager
def _interruptible() -> Iterator[list[int]]:
    """Give a list that an interruption fills: as an exception it may be raised where nobody can catch it.

    The processes that compute pay no heed to it, so that the work at hand is soon done. A second one ends at once.
    """
    seen: list[int] = []

    def note(number: int, _: object) -> None:
        seen.append(number)
        signal.signal(signal.SIGINT, signal.default_int_handler)

    before = signal.signal(signal.SIGINT, note)
    try:
        yield seen
    except KeyboardInterrupt:
        return
    finally:
        signal.signal(signal.SIGINT, before)


class _Progress:
    """A line on a terminal that says how far the work is, and at the end how fast it went."""

    def __init__(self, total: int, cores: int, out: TextIO | None) -> None:
        self.total, self.cores, self.out = total, cores, out
        self.done = self.unused = 0
        self._drawn = bool(out and out.isatty())
        self._start = self._last = time.perf_counter()

    def watched(self, outcomes: Iterator[Outcome]) -> Iterator[Outcome]:
        with _interruptible() as interrupted:
            for outcome in outcomes:
                self.done += 1
                self.unused += outcome.unused
                self._draw()
                yield outcome
                if interrupted:
                    return  # what is done is written

    def _draw(self) -> None:
        now = time.perf_counter()
        if not self._drawn or self.out is None or now - self._last < 0.1:
            return
        self._last = now
        rate = self.done / (now - self._start)
        left = (self.total - self.done) / rate
        bar = "#" * (24 * self.done // self.total)
        self.out.write(f"\r[{bar:<24}] {self.done} of {self.total}, {rate:.0f} a second, {left:.0f} s left ")
        self.out.flush()

    def end(self) -> None:
        if self.out is None:
            return
        seconds = max(time.perf_counter() - self._start, 1e-9)
        cores = "1 core" if self.cores == 1 or self.total < FEW else f"{self.cores} cores"
        clear = "\r" + " " * 79 + "\r" if self._drawn else ""
        rate = self.done / seconds
        print(f"{clear}{self.done} computed in {seconds:.1f} s, {rate:.0f} a second on {cores}", file=self.out)
