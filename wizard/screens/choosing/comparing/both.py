"""Pairs side by side by both ways of computing: the verdict over each column, and how the load distribution stands."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.errors import plain
from engine.selection.comparing import distributed
from engine.selection.comparing.compare import Line as Figures
from wizard.widgets.lines import Line, fitted

if TYPE_CHECKING:
    from engine.selection.comparing.compare import Comparison
    from engine.selection.stages.load_distribution import Leading
    from wizard.glyphs import Glyphs

#: The line that says what the load distribution comes to, or how far it is.
STATE = "setting.state"
#: What is said of a pair: in a column, in a sentence, and its meaning for the eye.
_Said = tuple[str, str, str]


@dataclass(frozen=True)
class Both:
    """What the load distribution says of each pair as far as it is known; `tried`: a change is, which none is of."""

    known: tuple[Leading | None, ...]
    tried: bool = False
    computing: bool = False
    halted: bool = False

    def same(self, other: Both) -> bool:
        """Whether another one says the same, so that nothing has to be shown anew."""
        ours, theirs = ((one.tried, one.computing, one.halted) for one in (self, other))
        return ours == theirs and [*map(id, self.known)] == [*map(id, other.known)]

    @property
    def awaited(self) -> bool:
        """Whether more is to come."""
        return self.computing and not self.tried and any(one is None or one.word == "open" for one in self.known)

    def lines(self) -> list[Figures]:
        """Return how it stands with each pair; then figures and checks, of which there are none of what is tried."""
        words = tuple(full for _, full, _ in map(self.said, self.known))
        nothing = (False,) * len(words)
        state = Figures(STATE, distributed.GROUP, "Load distribution", "pair", "", words, len(set(words)) > 1, nothing)
        return [state, *([] if self.tried else distributed.lines(self.known))]

    @property
    def settled(self) -> bool:
        """Whether the load distribution of every pair has its last word."""
        return not self.tried and all(one is not None and one.word in {"passes", "fails"} for one in self.known)

    def said(self, one: Leading | None) -> _Said:
        """Return what is said of one pair."""
        if one is not None and one.word == "passes":
            return "passes", "passes", "passes"
        if one is not None and one.word == "fails":
            return "fails", f"fails: {', '.join(one.failing)}", "fails"
        if one is not None and one.word == "unknown":
            return "unknown", f"not computed: {plain(one.why_not, 200)}", "caution"
        if self.halted:
            return "stopped", "stopped", "caution"
        if one is not None:  # all but the chance
            return "so far", "passes, with the chance still to be drawn", "quiet"
        return ("computing", "being computed", "quiet") if self.computing else ("unknown", "not computed", "caution")

    def state(self, glyphs: Glyphs, name: int, column: int, differs: bool) -> Line:
        """Return the line that says how it stands with each pair."""
        sign = glyphs.differs if differs else " "
        words = [_signed(short, meaning, glyphs, column) for short, _, meaning in map(self.said, self.known)]
        return ((f"{sign} {fitted('Load distribution', name)}", "plain"), *words)

    def verdicts(self, told: Comparison, glyphs: Glyphs, name: int, column: int) -> Line:
        """Return the verdict on each pair: by both, or only by the closed formulas where nothing else is computed."""
        counted = told.loads_known and not self.tried
        label = "verdict" if counted else "closed formulas" if told.loads_known else "before any load"
        words = []
        for closed, one in zip(told.passes, self.known, strict=True):
            verdict = distributed.passes(closed, one) if counted else closed
            if verdict is not None:
                word = "passes" if verdict else "fails"
                words.append(_signed(word, word, glyphs, column))
            else:
                words.append(_signed("passes so far" if column > len("! passes so far") else "so far", "caution",
                                     glyphs, column))  # fmt: skip
        return ((f"  {fitted(label, name)}", "plain"), *words)


def _signed(word: str, meaning: str, glyphs: Glyphs, column: int) -> tuple[str, str]:
    sign = {"passes": glyphs.passes, "fails": glyphs.fails, "caution": glyphs.caution}.get(meaning, "")
    return fitted(f"{sign} {word}".strip(), column - 1, right=True) + " ", meaning
