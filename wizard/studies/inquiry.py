"""Questions to the engine that take their time, in a thread of their own: neither keys nor the search wait for them.

One is answered at a time: a newer one makes the running one stop at its next step, and so does the user. Knows no
screen.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from engine.answers.document import Answers

#: Progress is told no more often than this [s].
PAUSE = 0.1


@dataclass(frozen=True, eq=False)
class Inquiry:
    """A question on some answers: what answers it, given an ear for progress, for parts, and for a wish to stop."""

    answers: Answers
    work: Callable[[Ear], Any]


@dataclass(frozen=True)
class Going:
    """How far an inquiry is, from 0 to 1, and what is being looked at."""

    inquiry: Inquiry
    what: str
    share: float


@dataclass(frozen=True)
class Part:
    """A part of what an inquiry finds, before all of it is there."""

    inquiry: Inquiry
    part: Any


@dataclass(frozen=True)
class Answered:
    """What an inquiry found."""

    inquiry: Inquiry
    found: Any


@dataclass(frozen=True)
class Ended:
    """An inquiry that found nothing: it was stopped, or something was wrong."""

    inquiry: Inquiry
    wrong: str = ""
    error: Exception | None = None  # where it is none of the user's


Word = Going | Part | Answered | Ended


@dataclass
class Ear:
    """What a running inquiry tells and asks."""

    inquiry: Inquiry
    report: Callable[[Word], None]
    cancelled: Callable[[], bool]
    _told: float = field(default_factory=time.monotonic)

    def progress(self, what: str, share: float) -> None:
        """Take how far the work is."""
        if time.monotonic() - self._told >= PAUSE:
            self._told = time.monotonic()
            self.report(Going(self.inquiry, what, share))

    def part(self, found: Any) -> None:
        """Take a part of what is found."""
        self.report(Part(self.inquiry, found))


class Inquiries:
    """The thread that answers; `report` is called from it."""

    def __init__(self, report: Callable[[Word], None]) -> None:
        self.report = report
        self._wake = threading.Condition()
        self._wanted: Inquiry | None = None
        self._running: Inquiry | None = None
        self._dropped: Inquiry | None = None
        self._stopped = False
        self._thread: threading.Thread | None = None

    def ask(self, inquiry: Inquiry) -> None:
        """Answer this; what runs is dropped."""
        with self._wake:
            self._wanted = inquiry
            self._wake.notify()
            if self._thread is None:
                # a daemon: leaving the program never waits for an answer
                self._thread = threading.Thread(target=self._run, name="inquiry", daemon=True)
                self._thread.start()

    def drop(self, inquiry: Inquiry) -> None:
        """Stop answering this one, at its next step; the end is reported where it had begun."""
        with self._wake:
            self._dropped = inquiry
            if self._wanted is inquiry:
                self._wanted = None
                self.report(Ended(inquiry))

    def stop(self) -> None:
        """End the thread at its next step."""
        with self._wake:
            self._stopped = True
            self._wake.notify()

    def _run(self) -> None:
        while True:
            with self._wake:
                self._running = None
                while self._wanted is None and not self._stopped:
                    self._wake.wait()
                if self._stopped:
                    return
                self._running, self._wanted = self._wanted, None
                inquiry = self._running
            if inquiry is not None:
                self.report(self._answer(inquiry))

    def _answer(self, inquiry: Inquiry) -> Word:
        from engine.errors import Problems
        from engine.selection.stages.blocks import SearchCancelled

        def cancelled() -> bool:
            return self._wanted is not None or self._dropped is inquiry or self._stopped

        try:
            return Answered(inquiry, inquiry.work(Ear(inquiry, self.report, cancelled)))
        except SearchCancelled:
            return Ended(inquiry)
        except Problems as problems:
            return Ended(inquiry, str(problems))
        except Exception as error:  # the session must survive whatever a catalogue holds
            return Ended(inquiry, type(error).__name__, error)
