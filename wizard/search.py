"""One running search: start, drop what is stale, report what was found. Knows no screen.

A thread of its own does the work, so that no key ever waits; numpy and the catalogue are imported and read there,
behind the first frame. A newer request makes the running one stop at its next step.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from engine.answers.document import Answers

if TYPE_CHECKING:
    from engine.answers.resolved import Resolved
    from engine.catalogue.columns import Catalogue
    from engine.operating import Conditions
    from engine.record.result import Result
    from engine.selection.rank import Shortlist


@dataclass(frozen=True)
class Counted:
    """How many pairs remain for some answers, and what had to be assumed."""

    answers: Answers
    count: int
    listed: int
    by_part: int
    resolved: Resolved


@dataclass(frozen=True)
class Listed:
    """The leading pairs for some answers."""

    answers: Answers
    shortlist: Shortlist
    rank_by: str


@dataclass(frozen=True)
class Computed:
    """The chosen pair computed for some answers, or why it cannot be."""

    answers: Answers
    result: Result | None
    trouble: str
    catalogue: tuple[str, str]


@dataclass(frozen=True)
class Failed:
    """The search could not be made; what was wrong, in words."""

    answers: Answers
    wrong: str


Found = Counted | Listed | Computed | Failed


@dataclass
class Search:
    """The search behind the screens. `report` is called from the thread of the search with each thing found."""

    report: Callable[[Found], None]
    most: int = 100
    load: Callable[[], Any] | None = None  # another catalogue than the built-in one
    _wanted: Answers | None = None
    _wake: threading.Condition = field(default_factory=threading.Condition)
    _running: Answers | None = None
    _stopped: bool = False
    _catalogue: Catalogue | None = None
    _hash: str = ""
    _thread: threading.Thread | None = None

    def start(self, answers: Answers) -> None:
        """Search for these answers; what runs for others is dropped."""
        with self._wake:
            if answers is self._running and self._wanted is None:
                return
            self._wanted = answers
            self._wake.notify()
            if self._thread is None:
                # a daemon: leaving the program never waits for a search
                self._thread = threading.Thread(target=self._run, name="search", daemon=True)
                self._thread.start()

    def stop(self) -> None:
        """End the thread at its next step."""
        with self._wake:
            self._stopped = True
            self._wake.notify()

    @property
    def catalogue(self) -> Catalogue | None:
        """The catalogue, once read."""
        return self._catalogue

    def _stale(self) -> bool:
        return self._wanted is not None or self._stopped

    def _run(self) -> None:
        from engine.errors import plain
        from engine.selection.screen import SearchCancelled

        while True:
            with self._wake:
                while self._wanted is None and not self._stopped:
                    self._wake.wait()
                if self._stopped or self._wanted is None:
                    return
                answers, self._running, self._wanted = self._wanted, self._wanted, None
            try:
                self._search(answers)
            except SearchCancelled:
                continue
            except Exception as error:  # the session must survive whatever a catalogue holds
                self.report(Failed(answers, f"{type(error).__name__}: {plain(error)}"))
            finally:
                self._running = None

    def _search(self, answers: Answers) -> None:
        from engine.answers.resolved import resolve
        from engine.operating import Conditions
        from engine.selection import rank, screen

        catalogue = self._read()
        conditions = Conditions.of(resolve(answers))
        found = screen.screen(catalogue, conditions, self._stale)
        self.report(Counted(answers, found.count, found.listed, found.by_part, conditions.resolved))
        self._compute_chosen(answers, catalogue, conditions)
        rank_by = answers.choice.rank_by or "mass"
        listed = rank.shortlist(catalogue, found, conditions, rank_by, self.most, self._stale)
        self.report(Listed(answers, listed, rank_by))

    def _read(self) -> Catalogue:
        if self._catalogue is None:
            from engine.catalogue import read

            self._catalogue = self.load() if self.load else read.builtin()
            self._hash = self._catalogue.content_hash()
        return self._catalogue

    def _compute_chosen(self, answers: Answers, catalogue: Catalogue, conditions: Conditions) -> None:
        choice = answers.choice
        if not (choice.bearing_a and choice.bearing_b):
            return
        from engine.errors import Problems
        from engine.record.result import compute

        name = ("built-in", self._hash)
        try:
            rows = [catalogue.take([catalogue.index_of(one)]) for one in (choice.bearing_a, choice.bearing_b)]
        except Problems as problems:
            self.report(Computed(answers, None, str(problems), name))
            return
        self.report(Computed(answers, compute(rows[0], rows[1], conditions), "", name))
