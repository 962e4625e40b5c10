"""How things stand with the search: the last count, what the last answer did, and the chosen pair. Knows no screen."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from engine.answers.document import CHAPTERS, Answers
from wizard import wording

if TYPE_CHECKING:
    from engine.record.result import Result
    from engine.selection.stages.load_distribution import Leading
    from wizard.search import Counted, Drawn, Listed
    from wizard.studies.distributions import Pair, Progress


@dataclass
class Standing:
    """What the screens show of the search. Kept by the application, changed as things are found."""

    counted: Counted | None = None
    listed: Listed | None = None
    drawn: Drawn | None = None
    change: str = ""
    counting: bool = False
    searched: float = 0.0  # share of the search done
    chosen: tuple[str, str] | None = None
    result: Result | None = None
    whole: bool = False  # whether the result holds the load distribution
    progress: Progress | None = None  # of the load distribution being computed
    leading: dict[Pair, Leading] = field(default_factory=dict)
    done: Answers | None = None  # the answers for which everything has been found
    halted: bool = False  # by the user, before everything was found
    trouble: str = ""
    wrong: str = ""
    centres: tuple[float, float] | None = None  # load centres of the chosen pair, else of the leading one [mm]

    def take_count(self, counted: Counted, labels: list[str]) -> None:
        """Take a new count; `labels` name the changes since the one before, of which fast typing makes several."""
        named = [label for label in labels if label]
        if self.counted is not None and named:
            who = named[0] if len(named) == 1 else f"The last {len(named)} changes"
            self.change = wording.change(who, self.counted.count, counted.count)
        self.counted = counted
        self.counting, self.searched = False, 0.0
        self.wrong = ""

    def take_list(self, listed: Listed) -> None:
        """Take a new shortlist."""
        self.listed = listed
        if self.chosen is not None or listed.early:
            return
        bearings = listed.shortlist.evaluated.bearings if len(listed.shortlist) else None
        self.centres = (float(bearings[0].z[0, 0]), float(bearings[1].z[0, 0])) if bearings is not None else None

    def take_result(self, result: Result | None) -> None:
        """Take the figures of the chosen pair."""
        self.result = result
        figures = [figure for block in result.blocks for figure in block.figures] if result is not None else []
        found = next((figure for figure in figures if figure.key == "z"), None)
        known = found is not None and isinstance(found.A, float) and isinstance(found.B, float)
        self.centres = (found.A, found.B) if known else None  # type: ignore[union-attr, assignment]

    def started(self) -> None:
        """Forget what was found of the pair chosen before; a new search begins."""
        self.result, self.whole, self.progress = None, False, None
        self.done, self.halted, self.leading = None, False, {}
        self.searched = 0.0

    def failed(self, answers: Answers, wrong: str) -> None:
        """Take word that nothing could be found."""
        self.wrong = wrong
        self.finished(answers, halted=False)

    def going_on(self) -> None:
        """Take word that more is being computed."""
        self.done, self.halted = None, False

    def finished(self, answers: Answers, halted: bool) -> None:
        """Take word that nothing more will be found, or that the user had it stopped."""
        self.counting = False
        self.done, self.halted, self.progress = answers, halted, None

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
        led = self.leading.get(self.chosen) if self.chosen is not None and not self.whole else None
        if led is not None and led.failing:  # known from the list before all of the pair is
            verdict, failing = "fails", failing | dict.fromkeys(led.failing)
        words = f"{verdict}: {', '.join(failing)}" if failing else verdict
        return words, {"passes": "passes", "fails": "fails"}.get(verdict, "caution")
