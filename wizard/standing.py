"""How things stand with the search: the last count, what the last answer did, and the chosen pair. Knows no screen."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.answers.document import CHAPTERS, Answers
from wizard import wording

if TYPE_CHECKING:
    from engine.record.result import Result
    from wizard.search import Counted, Drawn, Listed


@dataclass
class Standing:
    """What the screens show of the search. Kept by the application, changed as things are found."""

    counted: Counted | None = None
    listed: Listed | None = None
    drawn: Drawn | None = None
    change: str = ""
    counting: bool = False
    chosen: tuple[str, str] | None = None
    result: Result | None = None
    trouble: str = ""
    wrong: str = ""

    def take_count(self, counted: Counted, labels: list[str]) -> None:
        """Take a new count; `labels` name the changes since the one before, of which fast typing makes several."""
        named = [label for label in labels if label]
        if self.counted is not None and named:
            who = named[0] if len(named) == 1 else f"The last {len(named)} changes"
            self.change = wording.change(who, self.counted.count, counted.count)
        self.counted = counted
        self.counting = False
        self.wrong = ""

    def current(self, answers: Answers) -> Listed | None:
        """Return the shortlist where it belongs to these answers, whatever was chosen or ranked since; else None."""
        listed = self.listed
        if listed is None or listed.answers.choice.catalogue != answers.choice.catalogue:
            return None
        duty = [c.field for c in CHAPTERS if c.field != "choice"]
        same = all(getattr(listed.answers, field) is getattr(answers, field) for field in duty)
        return listed if same else None

    @property
    def verdict(self) -> tuple[str, str]:
        """The chosen pair's verdict in a word, and its meaning for the eye."""
        if self.result is None:
            return "", "quiet"
        verdict = self.result.verdict
        failing = dict.fromkeys(c.name for c in self.result.checks if not c.passes and not c.advisory)
        words = f"{verdict}: {', '.join(failing)}" if failing else verdict
        return words, {"passes": "passes", "fails": "fails"}.get(verdict, "caution")
