"""Why a pair or a part is not listed: what it fails, by how much, and the smallest change that admits it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from engine.answers.question import Refused
from engine.errors import plain
from wizard.screens.choosing import named, why_lines
from wizard.screens.choosing.asking import LONGEST, InquiryScreen, Work
from wizard.screens.choosing.why_lines import Beside, Distributed, Explained
from wizard.studies.distributions import Done, Led
from wizard.studies.inquiry import Answered

if TYPE_CHECKING:
    from collections.abc import Sequence

    from engine.answers.document import Answers
    from engine.catalogue.columns import Catalogue
    from engine.selection.rank import Shortlist
    from engine.selection.why_not import Change
    from wizard.search import Found
    from wizard.studies.inquiry import Ear, Word
    from wizard.widgets.lines import Line

RANKED = {
    "mass": "lightest first",
    "size": "smallest first",
    "life": "longest-lived first",
    "cost": "cheapest first",
    "weights": "by weights",
}


def explain(
    catalogue: Catalogue, asked: named.Named, answers: Answers, listed: Shortlist | None, ear: Ear
) -> Explained:
    """Return why a pair is out, or how it ranks; the verdict is told first, then each change as it is found."""
    from engine.selection.verdict import verdict
    from engine.selection.why_not import nearest_partner, why_not

    row_A, row_B = asked.row_A, asked.row_B
    if row_A is None:
        assert row_B is not None
        row_A = nearest_partner(catalogue, row_B, "B", answers, ear.cancelled)
    elif row_B is None:
        row_B = nearest_partner(catalogue, row_A, "A", answers, ear.cancelled)
    names = str(catalogue.designation[row_A]), str(catalogue.designation[row_B])
    said = Explained(names, verdict(catalogue.take([row_A]), catalogue.take([row_B]), answers))
    ear.part(said)
    if said.verdict.failing:
        so_far: list[Change] = []

        def found(change: Change) -> None:
            so_far.append(change)
            ear.part(replace(said, so_far=tuple(so_far)))

        return replace(said, why=why_not(catalogue, row_A, row_B, answers, ear.cancelled, ear.progress, found))
    return _ranked(catalogue, (row_A, row_B), answers, listed, said) if listed is not None and len(listed) else said


def _ranked(
    catalogue: Catalogue, pair: tuple[int, int], answers: Answers, listed: Shortlist, said: Explained
) -> Explained:
    """Set a passing pair beside the first of the list."""
    from engine.answers.resolved import resolve
    from engine.operating import Conditions
    from engine.selection.comparing.compare import compare
    from engine.selection.criteria import CRITERIA
    from engine.selection.weighing import criteria_of

    pairs = list(zip(listed.rows_A.tolist(), listed.rows_B.tolist(), strict=True))
    values = criteria_of(catalogue, [pair, pairs[0]], Conditions.of(resolve(answers)))
    beside = tuple(
        Beside(CRITERIA[key].label, CRITERIA[key].unit, float(two[0]), float(two[1])) for key, two in values.items()
    )
    if not said.verdict.missing:
        own, other = compare(catalogue, [pair, pairs[0]], answers).line("pair.life").cells
        beside = (Beside("Governing life", "h", float(own), float(other), more=True), *beside)
    first = str(catalogue.designation[pairs[0][0]]), str(catalogue.designation[pairs[0][1]])
    place = pairs.index(pair) + 1 if pair in pairs else None
    return replace(said, place=place, beside=beside, first=first, ranked=RANKED[answers.choice.rank_by or "mass"])


class WhyScreen(InquiryScreen):
    """One pair or part, and what is said of it."""

    PLACE = "why"

    def __init__(self) -> None:
        super().__init__()
        self.asked: named.Named | None = None
        self.side = "A"
        self.shown: why_lines.Page | None = None

    def begin(self, asked: named.Named | None) -> None:
        """Take what is asked about; nothing, where it is to be typed. Done before the screen opens."""
        self.forget()
        self.asked, self.message = asked, ("", "plain")
        if asked is None:
            self.begin_typing("")

    def begin_typing(self, text: str) -> None:
        """Open the line in which a pair or part is typed."""
        from wizard.widgets.entry import Entry

        self.entering, self.entry = "named", Entry(longest=LONGEST).typed(text)

    # asking

    def work(self) -> Work | None:
        """Return the question about what was asked for."""
        asked, answers, catalogue = self.asked, self.app.session.answers, self.app.search.catalogue
        if asked is None or catalogue is None:
            return None
        current = self.app.standing.current(answers)
        listed = current.shortlist if current is not None and not current.early else None
        return lambda ear: explain(catalogue, asked, answers, listed, ear)

    def take_part(self, part: Any) -> None:
        """Take the verdict, and what was found so far, before the rest is there."""
        self.found = part

    # the load distribution, which may rule out what the closed formulas let pass

    def follow(self, word: Word) -> None:
        """Take what is told; of a pair that passes by the closed formulas, ask for the load distribution."""
        super().follow(word)
        if word.inquiry is self.inquiry and isinstance(word, Answered) and not self.found.verdict.failing:
            self.app.pairs.glance([self.found.names])

    def heard(self, found: Found) -> None:
        """Show what the load distribution says once it is known."""
        if isinstance(found, Led | Done):
            self.show_all()

    @property
    def by(self) -> Distributed:
        """What the load distribution says of the pair, and of the first of the list."""
        standing = self.app.standing
        if not isinstance(self.found, Explained):
            return Distributed()
        own, first = (standing.leading.get(one) for one in (self.found.names, self.found.first))
        return Distributed(own, first, standing.done is None)

    @property
    def computing(self) -> bool:
        """Whether the load distribution of the pair is still awaited."""
        passes = isinstance(self.found, Explained) and not self.found.verdict.failing and not self.found.verdict.missing
        by = self.by
        return passes and by.computing and (by.own is None or by.own.word == "open")

    # what is shown

    def subject(self) -> str:
        """Return the names."""
        if isinstance(self.found, Explained):
            word = "Why not" if self.found.verdict.failing else "How it ranks"
            return f"{word}: A {self.found.names[0]}, B {self.found.names[1]}{self._partner()}"
        return "Why not"

    def _partner(self) -> str:
        if self.asked is None or (self.asked.row_A is not None and self.asked.row_B is not None):
            return ""
        part, other = ("B", "A") if self.asked.row_A is None else ("A", "B")
        return f" ({part} with its nearest {other})"

    def page(self, width: int) -> tuple[list[Line], Sequence[int]]:
        """Return what is said."""
        if not isinstance(self.found, Explained):
            self.shown = None
            return [self.nothing_yet()], []
        self.shown = why_lines.page(self.found, self.running, bool(self.so_far), self.app.glyphs, width, self.by)
        return self.shown.lines, self.shown.stops

    def at_hand(self) -> tuple[str, str] | None:
        """Return the pair that is explained."""
        return self.found.names if isinstance(self.found, Explained) else None

    def about(self) -> str:
        """Return what the marked line means, or what can be typed."""
        if self.entering:
            return f"{named.ACCEPTED}: {named.words()}"
        note = self.asked.note if self.asked is not None and self.asked.note else ""
        meant = self.shown.meant.get(self.rows.at, "") if self.shown is not None else ""
        return "; ".join(part for part in (plain(note, 200), meant) if part)

    # keys

    def action_apply(self) -> None:
        """Put the marked change, or the whole set that is needed, into the answers."""
        changes = self.shown.changes.get(self.rows.at, ()) if self.shown is not None else ()
        if not changes:
            self.say("Mark a change first; Enter then puts it into the answers.", "caution")
        elif self.stale:
            self.say("The answers have changed since; x looks anew.", "caution")
        else:
            self.apply([(one.step.path, one.step.value) for one in changes], why_lines.steps_of(changes))

    def action_name(self) -> None:
        """Type a pair or a part."""
        self.begin_entry("named", "", LONGEST)
        self.marked_another()

    def action_alike(self) -> None:
        """Look for one like this but different."""
        names = self._names()
        self.begin_entry("named", f"{', '.join(names)} but " if names else "", LONGEST)
        self.marked_another()

    def _names(self) -> list[str]:
        rows = self.app.search.catalogue
        if self.asked is None or rows is None:
            return []
        return [str(rows.designation[row]) for row in (self.asked.row_A, self.asked.row_B) if row is not None]

    def action_other_side(self) -> None:
        """Ask about the part on the other side; of a pair, about it turned round."""
        if self.asked is not None:
            self.side = "B" if self.side == "A" else "A"
            self.asked = replace(self.asked, row_A=self.asked.row_B, row_B=self.asked.row_A)
            self.ask()
            self.show_all()

    def action_mark(self) -> None:
        """Mark the pair for the comparison, or no longer."""
        if isinstance(self.found, Explained):
            self.say(self.app.mark_pair(self.found.names))

    def action_compare(self) -> None:
        """See the marked pairs side by side."""
        self.app.show_compare()

    def submit_entry(self) -> None:
        """Ask about what was typed; where nothing is called that, say so and leave it there."""
        rows = self.app.search.catalogue
        if rows is None:
            self.say("The catalogue is still being read.", "caution")
            return
        try:
            self.asked = named.read(self.entry.text, rows, self.side)
        except Refused as error:
            self.refuse(error)
            return
        self.taken()

    def leave_entry(self) -> None:
        """Leave what was asked before; where nothing was, go back."""
        self.left_as_it_was(self.asked is not None)

    def entry_edited(self) -> None:
        """Say again what can be typed."""
        self.marked_another()
