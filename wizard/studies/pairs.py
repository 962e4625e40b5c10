"""What the screens ask of the load distributions: a pair to be looked at, a halt, and how far things are."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.studies.distributions import Done, Led, Pair, Progress, Studied, chosen_pair

if TYPE_CHECKING:
    from collections.abc import Sequence

    from engine.answers.document import Answers
    from engine.record.result import Result
    from wizard.search import Search
    from wizard.standing import Standing


class Pairs:
    """Between the screens and the search: asks for pairs, and keeps what the screens show up to date."""

    def __init__(self, search: Search, standing: Standing) -> None:
        self._search = search
        self._standing = standing

    def look(self, pair: Pair) -> Result | None:
        """Return a pair with its load distribution; None where that is computed only now, and reported later."""
        if not self._may_ask:
            return None
        known = self._search.look(pair)
        if known is None:
            self._standing.going_on()
        return known

    def glance(self, pairs: Sequence[Pair]) -> None:
        """Ask for what the load distribution says of some pairs where it is not known; it is reported later.

        Where a chance is asked for, which may rule a pair out, it is drawn once the rest is known.
        """
        said = {pair: self._standing.leading.get(pair) for pair in pairs}
        new = [pair for pair, one in said.items() if one is None]
        if not self._may_ask:
            return
        if new:
            self._search.glance(new)
            self._standing.going_on()
        for pair, one in said.items():
            if one is not None and one.word == "open":
                self.look(pair)

    @property
    def _may_ask(self) -> bool:
        """Whether there is something to compute, and nothing was stopped that comes before it."""
        counted = self._standing.counted
        if counted is None or not counted.resolved.loads_known:
            return False
        # stopped before the list was there, nothing goes on until the user says so
        return not self._standing.halted or self._search.searched

    def at_once(self, pair: Pair) -> Result | None:
        """Return all that is known of a pair without computing its load distribution; None before the first count."""
        from engine.operating import Conditions
        from engine.record.result import without_setting

        catalogue, counted = self._search.catalogue, self._standing.counted
        if catalogue is None or counted is None:
            return None
        known = self._search.studies.known(pair)
        if known is not None:
            return known
        rows = [catalogue.take([catalogue.index_of(name)]) for name in pair]
        return without_setting(rows[0], rows[1], Conditions.of(counted.resolved))

    def in_view(self, answers: Answers) -> Pair | None:
        """Return the chosen pair, else the first one of the shortlist."""
        listed, chosen = self._standing.current(answers), chosen_pair(answers)
        if chosen is not None or listed is None or not len(listed.shortlist):
            return chosen
        first = listed.shortlist.evaluated
        return str(first.A.designation[0]), str(first.B.designation[0])

    def halt_or_resume(self, answers: Answers, pair: Pair | None) -> None:
        """Stop what is being searched and computed, or go on with it, this pair first, where it was stopped."""
        if self._standing.done is None:
            self._search.halt()
        elif self._standing.halted:
            self._standing.going_on()
            self._search.start(answers)
            if pair is not None:
                self._search.look(pair)

    def take(self, found: Progress | Studied | Led | Done) -> None:
        """Keep what was found."""
        if isinstance(found, Progress):
            self._standing.progress = found
        elif isinstance(found, Led):
            self._standing.leading = found.leading
        elif isinstance(found, Done):
            self._standing.finished(found.answers, found.halted)
