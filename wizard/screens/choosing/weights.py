"""What counts how much: a weight for each criterion, and what comes first by them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.answers.document import asked_at, get, question_at
from engine.answers.question import Quantity, Refused
from engine.errors import plain
from engine.units import number_text
from wizard.screens import frame
from wizard.screens.base import EntryScreen
from wizard.screens.every.beside import BesideScreen
from wizard.search import Listed
from wizard.studies.distributions import Led
from wizard.widgets.figures import aligned, figure
from wizard.widgets.lines import Line, Lines, Rows, fitted, line, wrapped

if TYPE_CHECKING:
    from collections.abc import Sequence

    from textual.app import ComposeResult

    from engine.answers.document import Answers
    from engine.selection.criteria import Criterion
    from wizard.glyphs import Glyphs
    from wizard.search import Found


#: By so much a key moves a weight.
STEP = 0.5
LONGEST = 16
#: Leading pairs at least, and the lines of what stands around them and the criteria.
LEADERS, AROUND = 3, 12


def path_of(key: str) -> str:
    """Return where the weight of a criterion is answered."""
    return f"choice.weigh_{key}"


def weight(answers: Answers, key: str) -> float:
    """Return a weight, as answered or as assumed."""
    value = get(answers, path_of(key))
    return float((question_at(path_of(key)).default if value is None else value).value)


def rows(every: Sequence[Criterion], answers: Answers, listed: Listed | None, glyphs: Glyphs, width: int) -> list[Line]:
    """Return each criterion with its weight, and its value for the first of the list."""
    weights = aligned([figure(weight(answers, one.key)) for one in every])
    values = [listed.shortlist.values.get(one.key) if listed is not None else None for one in every]
    firsts = aligned([figure(float(of[0])) if of is not None and len(of) else "" for of in values])
    return [
        _row(one, answers, weighed, f"{first} {one.unit if first.strip() and one.unit != '-' else ''}", glyphs, width)
        for one, weighed, first in zip(every, weights, firsts, strict=True)
    ]


def _row(one: Criterion, answers: Answers, weighed: str, first: str, glyphs: Glyphs, width: int) -> Line:
    counts, assumed = weight(answers, one.key), get(answers, path_of(one.key)) is None
    bar = glyphs.bar_full * round(counts) if counts else ""
    mark = glyphs.open if assumed else " "
    name = max(16, min(30, width - 40))
    return (
        (f" {fitted(one.label, name)}", "plain"),
        (f" {mark} {weighed:>6} ", "quiet" if assumed else "answered"),
        (fitted(bar, 11), "plain"),
        (fitted(first, max(0, width - name - 23)), "quiet"),
    )


class WeightsScreen(BesideScreen, EntryScreen):
    """The nine criteria; the shortlist behind follows each weight."""

    PLACE = "weights"

    def __init__(self) -> None:
        super().__init__()
        self.message: tuple[str, str] = ("", "plain")
        self.last_typed = ""  # the last weight that was taken, as it was typed

    def heard(self, found: Found) -> None:
        """Show a new list, and what the load distribution says of its pairs."""
        if isinstance(found, Listed | Led):
            self.show_all()

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="side")
        yield Lines(meanings, id="top")
        yield Rows(meanings, id="rows", reach=1)
        yield Lines(meanings, id="note")
        yield Lines(meanings, id="entry")
        yield Lines(meanings, id="panel")
        yield Lines(meanings, id="foot")

    @property
    def criteria(self) -> list[Criterion]:
        """What can be weighed."""
        from engine.selection.criteria import CRITERIA, FRICTION

        return [one for one in CRITERIA.values() if one.key != "friction" or FRICTION is not None]

    @property
    def listed(self) -> Listed | None:
        """The pairs ranked by the weights as they stand."""
        listed = self.app.standing.listed
        return listed if listed is not None and listed.answers is self.app.session.answers else None

    @property
    def by_weights(self) -> bool:
        """Whether the list is ranked by weights at all."""
        return self.app.session.answers.choice.rank_by == "weights"

    def show_all(self) -> None:
        """Bring every block up to date."""
        width, glyphs, answers = self.width, self.app.glyphs, self.app.session.answers
        if width <= 0 or not self.is_mounted:
            return
        listed = self.listed if self.by_weights else None
        lines: list[Line] = rows(self.criteria, answers, listed, glyphs, width)
        stops = range(len(lines))
        if listed is not None:
            lines += self._leaders(listed, width)
        self.rows.show_rows(lines, stops)
        now = "" if self.by_weights else "; not yet ranked by them, w does that"
        title = frame.head(f"Weights: what counts how much{now}", "", width)
        self.block("#top", [title, frame.rule(glyphs, width)])
        self.show_note()
        self.show_entry()
        self.show_panel()

    def _leaders(self, listed: Listed, width: int) -> list[Line]:
        found = listed.shortlist
        lines = [line(fitted(" First by these weights", width), "heading")]
        if not len(found):
            return [*lines, line("  none passes", "caution")]
        A, B = found.evaluated.A.designation, found.evaluated.B.designation
        most = max(LEADERS, self.app.size.height - AROUND - len(self.criteria))  # as many as need no scrolling
        for at in range(min(most, len(found))):
            score = f"score {float(found.score[at]):.3f}" if found.score is not None else ""
            names = "  ".join(fitted(plain(of[at], 60), min(24, (width - 22) // 2)) for of in (A, B))
            lines.append(line(fitted(f" {at + 1:>3}  {names}  {score}", width)))
        return lines

    def show_panel(self) -> None:
        """Show how many pairs remain; the values of the first follow the search."""
        self.block("#panel", frame.panel(self.app.standing, self.app.glyphs, self.width))
        self.show_side()

    def beside(self, width: int, height: int) -> list[Line]:
        """Return the checks and figures of the pair that comes first."""
        listed = self.listed
        if listed is None or not len(listed.shortlist):
            return self.stands(width, height)
        from wizard.screens.choosing import beside  # only where there is room for it

        evaluated = listed.shortlist.evaluated
        pair = str(evaluated.A.designation[0]), str(evaluated.B.designation[0])
        said = [line(fitted("The first of the list as it stands", width), "quiet")]
        by = self.app.standing.leading.get(pair), said
        return beside.listed(evaluated, 0, self.app.search.studies.known(pair), by, self.app.glyphs, (width, height))

    def show_note(self) -> None:
        """Show what is wrong, or what the marked criterion is."""
        text, meaning = self.message if self.message[0] else (self._about(), "quiet")
        parts = [*wrapped(text, self.width - 2, 2), "", ""][:2]
        self.block("#note", [frame.rule(self.app.glyphs, self.width), *(line(f" {part}", meaning) for part in parts)])

    def _about(self) -> str:
        one = self.marked
        if one is None:
            return ""
        question = question_at(path_of(one.key))
        waits = ""
        counted = self.app.standing.counted
        if one.of_loads and counted is not None and not counted.resolved.loads_known:
            waits = " It counts once the loads are known."
        return f"{question.why}{waits} Accepted: {question.accepted()}."

    @property
    def marked(self) -> Criterion | None:
        """The marked criterion."""
        found = self.criteria
        return found[self.rows.at] if self.rows.at < len(found) else None

    def marked_another(self) -> None:
        """Follow the mark."""
        self.message = ("", "plain")
        self.show_note()

    # keys

    def typed(self, text: str) -> None:
        """Begin a weight by its first digit; take pasted text while one is typed."""
        if self.entering:
            self.edit(self.entry.typed(text))
        elif text and text[0] in "0123456789.":
            self.action_edit()
            self.edit(self.entry.typed(text))

    def action_edit(self) -> None:
        """Type the marked weight."""
        one = self.marked
        if one is not None:
            self.begin_entry(one.key, "", LONGEST)

    def action_more(self) -> None:
        """Let the marked criterion count more."""
        self._step(STEP)

    def action_less(self) -> None:
        """Let the marked criterion count less."""
        self._step(-STEP)

    def _step(self, by: float) -> None:
        one = self.marked
        if one is None:
            return
        question = question_at(path_of(one.key))
        wanted = weight(self.app.session.answers, one.key) + by
        try:
            self._put(one.key, question.parse(number_text(max(0.0, wanted))))
        except Refused as error:
            self._say(error)

    def action_clear(self) -> None:
        """Take back the marked weight to what is assumed."""
        one = self.marked
        if one is not None and get(self.app.session.answers, path_of(one.key)) is not None:
            self._put(one.key, None)

    def action_help(self) -> None:
        """See the keys, with the help on the weight of the marked criterion."""
        path = path_of(self.marked.key) if self.marked is not None else ""
        self.app.show_help_page("typing" if self.entering else "weights", asked_at(self.app.session.answers, path))

    def action_repeat(self) -> None:
        """Give the marked criterion the weight that was typed last."""
        if self.marked is None or not self.last_typed:
            self.say("No weight has been typed yet; = repeats the last one on another criterion.", "caution")
        else:
            self._put(self.marked.key, question_at(path_of(self.marked.key)).parse(self.last_typed))

    def action_rank(self) -> None:
        """Rank by the weights as they stand."""
        self.app.session.put("choice.rank_by", "weights", "ranking by weights")
        self._changed(None)

    def submit_entry(self) -> None:
        """Take the weight; refused, it says why and leaves it there."""
        key = self.entering
        try:
            value = question_at(path_of(key)).parse(self.entry.text)
        except Refused as error:
            self._say(error)
            return
        self.last_typed = self.entry.text
        self.close_entry()
        self._put(key, value)

    def _say(self, error: Refused) -> None:
        self.message = (f"{error.wrong}. Accepted: {error.accepted}", "fails")
        self.show_note()

    def leave_entry(self) -> None:
        """Leave the weight as it was."""
        self.close_entry()
        self.marked_another()

    def _put(self, key: str, value: object) -> None:
        """Set a weight, and rank by weights, in one step."""
        question = question_at(path_of(key))
        assert value is None or isinstance(value, Quantity)
        shown = f"{question.label}: {question.show(value)}" if value is not None else f"{question.label} opened"
        self.app.session.take([(path_of(key), value), ("choice.rank_by", "weights")], shown)
        self._changed(None)

    def changed(self, label: str) -> None:
        """Show what a change came to that was taken back or brought back."""
        self._changed(label)

    def say(self, text: str, meaning: str = "plain") -> None:
        """Put a message where the marked criterion is described, until the next move."""
        self.message = (plain(text, 400), meaning)
        self.show_note()

    def _changed(self, label: str | None) -> None:
        self.message = ("", "plain")
        self.app.answered(label)
        self.show_all()
