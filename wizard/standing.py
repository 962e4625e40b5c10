"""How things stand with the search: the last count, what the last answer did, and the chosen pair. Knows no screen."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wizard import wording

if TYPE_CHECKING:
    from engine.record.result import Result
    from wizard.search import Counted, Listed


@dataclass
class Standing:
    """What the screens show of the search. Kept by the application, changed as things are found."""

    counted: Counted | None = None
    listed: Listed | None = None
    change: str = ""
    counting: bool = False
    chosen: tuple[str, str] | None = None
    result: Result | None = None
    trouble: str = ""
    wrong: str = ""

    def take_count(self, counted: Counted, label: str) -> None:
        """Take a new count; `label` names the answer that led to it."""
        if self.counted is not None and label:
            self.change = wording.change(label, self.counted.count, counted.count)
        self.counted = counted
        self.counting = False
        self.wrong = ""

    @property
    def verdict(self) -> tuple[str, str]:
        """The chosen pair's verdict in a word, and its meaning for the eye."""
        if self.result is None:
            return "", "quiet"
        verdict = self.result.verdict
        return verdict, {"passes": "passes", "fails": "fails"}.get(verdict, "caution")
