"""What opens the screens of choosing, and the pairs that are marked for a comparison."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from typing import TYPE_CHECKING, Any

from wizard import framework
from wizard.screens.base import KeyedScreen

if TYPE_CHECKING:
    from textual.screen import Screen

    from wizard.screens.choosing import named
    from wizard.screens.choosing.comparing.compare import CompareScreen
    from wizard.screens.choosing.sensitivity import SensitivityScreen
    from wizard.screens.choosing.why import WhyScreen
    from wizard.search import Search
    from wizard.session import Session
    from wizard.standing import Standing
    from wizard.studies.distributions import Pair
    from wizard.studies.inquiry import Inquiries, Word
    from wizard.studies.pairs import Pairs


class ChoosingDoors(framework.OneQueue):
    """The part of the application that opens what chooses among the pairs."""

    standing: Standing
    session: Session

    def __init__(self) -> None:
        super().__init__()
        self.picked: list[Pair] = []

    @property
    def search(self) -> Search:
        """The search."""
        raise NotImplementedError

    @property
    def pairs(self) -> Pairs:
        """What the screens ask of the load distributions."""
        raise NotImplementedError

    @cached_property
    def inquiries(self) -> Inquiries:
        """What answers the questions that take their time; made once one is asked."""
        from wizard.studies.inquiry import Inquiries

        return Inquiries(self._told_elsewhere)

    def room(self, name: str) -> Any:
        """Return a screen by its name, made where it was never open."""
        return self.get_screen(name)

    def open(self, screen: str | Screen[Any]) -> None:
        """Open a screen over the one in front."""
        raise NotImplementedError

    def _told_elsewhere(self, word: Word) -> None:
        # called from the thread of the inquiry; the application may be gone by then
        if self._loop is not None and self._running:
            self._loop.call_soon_threadsafe(self._told, word)

    def _told(self, word: Word) -> None:
        from wizard.studies.inquiry import Ended

        if self.leaving:
            return
        if isinstance(word, Ended) and word.error is not None:
            word = replace(word, wrong=self.mishap("This", word.error)[0])
        for screen in self.screen_stack:  # the one that asked may be covered
            if isinstance(screen, KeyedScreen) and screen.is_mounted:
                screen.follow(word)

    def mishap(self, what: str, error: BaseException) -> tuple[str, str]:
        """Write what stopped something into a file; return what is said of it, in short and in full."""
        raise NotImplementedError

    def mark_pair(self, pair: Pair) -> str:
        """Mark a pair for the comparison, or take its mark away; return what was done in words."""
        from wizard.screens.choosing.named import MOST_COMPARED as MOST

        if pair in self.picked:
            self.picked.remove(pair)
            return f"A {pair[0]}, B {pair[1]} is no longer marked."
        if len(self.picked) >= MOST:
            return f"{MOST} pairs are marked already, which is as many as stand side by side."
        self.picked.append(pair)
        return f"A {pair[0]}, B {pair[1]} is marked, {len(self.picked)} of {MOST}; s sets them side by side."

    def show_why(self, pair: Pair | None = None) -> None:
        """Open why a pair is out or how it ranks; without one, a line to type it in."""
        rows = self.search.catalogue
        asked = None
        if pair is not None and rows is not None:
            from wizard.screens.choosing import named

            asked = named.Named(rows.index_of(pair[0]), rows.index_of(pair[1]))
        self._why(asked)

    def show_why_part(self, row: int) -> None:
        """Open why a part of the catalogue is in no pair that passes."""
        from wizard.screens.choosing import named

        self._why(named.Named(row, None))

    def _why(self, asked: named.Named | None) -> None:
        shown: WhyScreen = self.room("why")
        shown.begin(asked)
        self.open(shown)

    def show_sensitivity(self, pair: Pair | None = None) -> None:
        """Open on what the verdict on a pair hangs; of the one in view, where none is named."""
        shown: SensitivityScreen = self.room("sensitivity")
        shown.begin(pair or self.pairs.in_view(self.session.answers))
        self.open(shown)

    def show_compare(self) -> None:
        """Open the marked pairs side by side; where none is marked, the first ones of the list."""
        from wizard.screens.choosing.named import MOST_COMPARED as MOST

        listed = self.standing.current(self.session.answers)
        pairs = list(self.picked)
        if not pairs and listed is not None:
            first = listed.shortlist.evaluated
            pairs = [
                (str(first.A.designation[at]), str(first.B.designation[at]))
                for at in range(min(MOST, len(listed.shortlist)))
            ]
        shown: CompareScreen = self.room("compare")
        shown.begin(pairs)
        self.open(shown)
