"""One running search: start, drop what is stale, report what was found. Knows no screen.

A thread of its own does the work, so that no key ever waits; numpy and the catalogue are imported and read there,
behind the first frame. A newer request makes the running one stop at its next step.
"""

from __future__ import annotations

import os
import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from engine.answers.document import Answers
from wizard.studies.distributions import LEADING, Computed, Done, Halted, Led, Pair, Progress, Studied, Studies

if TYPE_CHECKING:
    from engine.advising.view import View
    from engine.answers.resolved import Resolved
    from engine.catalogue.columns import Catalogue
    from engine.catalogue.source import Source
    from engine.operating import Conditions
    from engine.record.result import Result
    from engine.selection.rank import Shortlist
    from engine.selection.screen import Screening

#: So many rows are shown before all are known.
EARLY = 20
#: Progress is told no more often than this [s].
PAUSE = 0.1


@dataclass(frozen=True)
class Counted:
    """How many pairs remain for some answers, and what had to be assumed."""

    answers: Answers
    count: int
    listed: int
    too_many: bool
    resolved: Resolved


@dataclass(frozen=True)
class Listed:
    """The leading pairs for some answers; `early` where they are only the first ones found that pass, by mass."""

    answers: Answers
    shortlist: Shortlist
    rank_by: str
    resolved: Resolved
    early: bool = False


@dataclass(frozen=True)
class Searching:
    """How far the search for some answers is, from 0 to 1."""

    answers: Answers
    share: float


@dataclass(frozen=True)
class Failed:
    """The search could not be made; what was wrong, in words."""

    answers: Answers
    wrong: str
    error: Exception | None = None  # where it is none of the user's


@dataclass(frozen=True)
class Drawn:
    """The lubrication of the chosen or else the leading pair, drawn for some answers."""

    answers: Answers
    view: View


Found = Counted | Listed | Searching | Computed | Drawn | Progress | Studied | Led | Done | Failed


@dataclass
class Search:
    """The search behind the screens. `report` is called from the thread of the search with each thing found."""

    report: Callable[[Found], None]
    most: int = 100
    load: Callable[[], Any] | None = None  # what stands in for the built-in catalogue
    default: Path | None = None  # the catalogue where the answers name none; None is the built-in one
    lubricants: Path | None = None  # the list of lubricants that is offered beside the built-in one
    folder: Path = Path()  # from where the answers name a file
    _wanted: Answers | None = None
    _wake: threading.Condition = field(default_factory=threading.Condition)
    _running: Answers | None = None
    _stopped: bool = False
    _source: Source | None = None
    _path: Path | None = None
    _thread: threading.Thread | None = None
    _answers: Answers | None = None  # for which everything up to the shortlist has been found
    _screened: tuple[Catalogue, Resolved, Screening] | None = None  # the last one: ranking anew needs no other
    watched: bool = False  # whether the list is looked at, so that some rows at once are worth their time
    _halt: bool = False

    def __post_init__(self) -> None:
        self.studies = Studies(self._tell, self._stale)

    def _tell(self, found: Found) -> None:
        # looked up each time: tests put another report in its place
        self.report(found)

    def start(self, answers: Answers) -> None:
        """Search for these answers; what runs for others is dropped."""
        with self._wake:
            if answers is self._running and self._wanted is None:
                return
            self._wanted, self._halt = answers, False
            self.studies.forget_wishes()
            self._wake.notify()
            if self._thread is None:
                # a daemon: leaving the program never waits for a search
                self._thread = threading.Thread(target=self._run, name="search", daemon=True)
                self._thread.start()

    def look(self, pair: Pair) -> Result | None:
        """Return a pair with its load distribution where that is known; else it is computed next and reported."""
        with self._wake:
            if self._wanted is None and (known := self.studies.known(pair)) is not None:
                return known
            self.studies.wish(pair)
            self._wake.notify()
            return None

    def glance(self, pairs: Sequence[Pair]) -> None:
        """Have what the load distribution says of some pairs computed next and reported, without their chances."""
        with self._wake:
            self.studies.glance(pairs)
            self._wake.notify()

    def halt(self) -> None:
        """Stop searching and computing for the answers at hand, at its next step; `start` goes on."""
        self._halt = True
        self.studies.halt()

    def stop(self) -> None:
        """End the thread at its next step."""
        with self._wake:
            self._stopped = True
            self._wake.notify()

    @property
    def searched(self) -> bool:
        """Whether everything up to the shortlist has been found, so that pairs can be computed."""
        return self._answers is not None

    @property
    def catalogue(self) -> Catalogue | None:
        """The catalogue, once read."""
        return self._source.rows if self._source is not None else None

    def _stale(self) -> bool:
        return self._wanted is not None or self._stopped

    def _cancelled(self) -> bool:
        return self._stale() or self._halt

    def _run(self) -> None:
        from engine.errors import Problems
        from engine.selection.screen import SearchCancelled

        while True:
            with self._wake:
                while self._wanted is None and not self.studies.wishes and not self._stopped:
                    self._wake.wait()
                if self._stopped:
                    return
                fresh = self._wanted is not None
                if self._wanted is not None:
                    self._running, self._wanted = self._wanted, None
                else:
                    self._running = self._answers
                answers = self._running
            if answers is None:  # a pair was asked for before anything could be searched
                self.studies.forget_wishes()
                continue
            try:
                self._go(answers, fresh)
            except SearchCancelled:
                if self._halt and not self._stale():
                    self.report(Done(answers, halted=True))
            except Problems as problems:
                # the panel has few columns, and the folder of the record is known
                self.report(Failed(answers, str(problems).replace(f"{self.folder}{os.sep}", "")))
            except Exception as error:  # the session must survive whatever a catalogue holds
                self.report(Failed(answers, type(error).__name__, error))
            finally:
                self._running = None

    def _go(self, answers: Answers, fresh: bool) -> None:
        """Search where the answers are new, then compute the load distributions that are wanted."""
        try:
            if fresh:
                self._answers = None
            listed = self._search(answers) if fresh else ()
            self._answers = answers
            self.studies.run(answers, listed)
        except Halted:
            self.report(Done(answers, halted=True))
        else:
            self.report(Done(answers))

    def _search(self, answers: Answers) -> tuple[Pair, ...]:
        """Report the count, the chosen pair by the closed formulas and the shortlist; return its leading pairs."""
        from engine.answers.resolved import resolve
        from engine.operating import Conditions
        from engine.selection import weighing

        catalogue = self._read(answers)
        wrong = self._say_wrong_names(answers, catalogue)
        conditions = Conditions.of(resolve(answers))
        assert self._source is not None
        self.studies.begin(conditions, catalogue, (self._source.name, self._source.content))
        found = self._screen(answers, catalogue, conditions)
        self.report(Counted(answers, found.count, found.listed, found.too_many, conditions.resolved))
        if not wrong:
            self.studies.compute_chosen(answers)
        rank_by = answers.choice.rank_by or "mass"
        listed = weighing.wished_shortlist(
            catalogue, found, conditions, answers.choice, self.most, self._cancelled
        )  # fmt: skip
        self.report(Listed(answers, listed, rank_by, conditions.resolved))
        self._draw(answers, catalogue, listed)
        if not conditions.resolved.loads_known:
            return ()
        first = range(min(len(listed), LEADING))
        A, B = listed.evaluated.A.designation, listed.evaluated.B.designation
        return tuple((str(A[at]), str(B[at])) for at in first)

    def _screen(self, answers: Answers, catalogue: Catalogue, conditions: Conditions) -> Screening:
        """Return the pairs that pass, with some of them reported before all are known where the list is looked at."""
        from engine.selection import screen
        from engine.selection.first_rows import first_rows

        resolved = conditions.resolved
        if self._screened is not None and self._screened[0] is catalogue and self._screened[1] == resolved:
            return self._screened[2]
        self._screened = None
        field = screen.narrow(catalogue, conditions, self._cancelled)
        # fewer pairs than this are all computed by the time that some would be
        early, told = field.pairs <= screen.FEW_PAIRS, time.monotonic()

        def progress(_what: str, share: float) -> None:
            nonlocal early, told
            if self.watched and not early:
                early = True
                rows = first_rows(field, EARLY, self._cancelled)
                self.report(Listed(answers, rows, "mass", resolved, early=True))
            if time.monotonic() - told >= PAUSE:
                told = time.monotonic()
                self.report(Searching(answers, share))

        progress("", 0.0)
        found = screen.decide(field, self._cancelled, progress)
        self._screened = catalogue, resolved, found
        return found

    def _read(self, answers: Answers) -> Catalogue:
        """Return the catalogue that the answers ask for; it is read again only where they ask for another."""
        from engine.catalogue import read, source

        path = source.placed(answers.choice.catalogue, self.folder, self.default)
        if self._source is None or path != self._path:
            self._source, self._path = source.opened(path, self.load or read.builtin), path
        return self._source.rows

    def _say_wrong_names(self, answers: Answers, catalogue: Catalogue) -> bool:
        """Report a designation that the catalogue does not have, before anything is searched; return whether one is."""
        from engine.catalogue.designation import no_assembly

        named = {"A": answers.choice.bearing_a, "B": answers.choice.bearing_b}
        said = {side: no_assembly(name, catalogue) for side, name in named.items() if name}
        wrong = "; ".join(f"{side}: {words}" for side, words in said.items() if words)
        if wrong:
            assert self._source is not None
            self.report(Computed(answers, None, wrong, (self._source.name, self._source.content)))
        return bool(wrong)

    def _draw(self, answers: Answers, catalogue: Catalogue, listed: Shortlist) -> None:
        """Draw the lubrication of the chosen pair, or of the one that leads the list."""
        import numpy as np

        from engine.advising.view import view
        from engine.answers.lubricated.own import offered
        from engine.selection.screen import SearchCancelled

        def pause() -> None:
            if self._cancelled():
                raise SearchCancelled

        choice = answers.choice
        rows = [np.flatnonzero(catalogue.designation == name) for name in (choice.bearing_a, choice.bearing_b)]
        chosen = bool(choice.bearing_a and choice.bearing_b) and all(len(found) for found in rows)
        if chosen:
            pair = catalogue.take(rows[0][:1]), catalogue.take(rows[1][:1])
        elif len(listed):
            pair = catalogue.take(listed.rows_A[:1]), catalogue.take(listed.rows_B[:1])
        else:
            pair = None
        self.report(Drawn(answers, view(answers, pair, chosen, pause, offered(self.lubricants)[0])))
