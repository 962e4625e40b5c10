"""Up to four pairs side by side, and one answer changed for them alone to see all of them move."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from engine.answers import contradiction
from engine.answers.binned import Histogram
from engine.answers.document import asked_at, put, question_at
from engine.answers.question import Refused, Value
from engine.errors import plain
from wizard.screens.choosing import columns
from wizard.screens.choosing.asking import LONGEST, InquiryScreen, Work, cut
from wizard.screens.choosing.named import MOST_COMPARED
from wizard.screens.finding.things import everything, matching
from wizard.studies.distributions import Pair
from wizard.widgets.lines import Line, Lines, Rows

if TYPE_CHECKING:
    from collections.abc import Sequence

    from textual.app import ComposeResult

    from engine.answers.document import Answers
    from engine.answers.lubricated.own import OwnLubricant
    from engine.selection.compare import Comparison, Sandbox
    from engine.selection.compare import Line as Figures

LUBRICANT = "lubrication.lubricant"
TYPED = "a question = an answer, such as  required life = 30000 h  or  1.5 = 30000"


def meant(answers: Answers, text: str) -> tuple[str, str]:
    """Return the path of the question that is typed before '=', and the answer behind it; raise Refused."""
    words, equals, answer = text.partition("=")
    asked = [one for one in everything(answers, "chapter") if one.kind == "question" and one.title[0] != "-"]
    found = [one for _, one in matching(asked, words)] if words.strip() else []
    if not found:
        raise Refused(f'no question is called "{plain(words.strip(), 40)}"', TYPED)
    path = found[0].name
    if not equals:
        raise Refused(f"{found[0].title}: no answer stands behind it", TYPED)
    return path, answer.strip()


def tried(answers: Answers, text: str, own: Sequence[OwnLubricant] = ()) -> tuple[str, Value | None, str]:
    """Return the path, the value (None opens the question) and the words of a change as typed; raise Refused.

    `own` are the lubricants of the user's own list, which are named as the built-in ones are.
    """
    path, answer = meant(answers, text)
    question = question_at(path)
    if isinstance(question, Histogram):
        raise Refused("a spectrum cannot be tried here", "any other question")
    named = [one for one in own if path == LUBRICANT and one.name.casefold() == answer.casefold()]
    value = named[0] if named else question.parse(answer) if answer else None
    contradiction.refuse_new(answers, put(answers, path, value), path)
    return path, value, f"{question.label}: {question.show(value) if value is not None else 'open'}"


class CompareScreen(InquiryScreen):
    """The marked pairs in columns."""

    PLACE = "compare"

    def __init__(self) -> None:
        super().__init__()
        self.pairs: list[Pair] = []
        self.only = False
        self.change: tuple[str, Value | None, str] | None = None
        self.behind: dict[int, Figures] = {}
        self.before: tuple[Comparison, Sandbox | None] | None = None

    def compose(self) -> ComposeResult:
        """Lay out the blocks; the names stay over the columns while these scroll."""
        meanings = self.app.meanings
        yield Lines(meanings, id="side")
        yield Lines(meanings, id="top")
        yield Lines(meanings, id="over")
        yield Rows(meanings, id="rows", reach=1)
        yield Lines(meanings, id="note")
        yield Lines(meanings, id="entry")
        panel = Lines(meanings, id="panel")
        panel.display = False  # the columns need its lines
        yield panel
        yield Lines(meanings, id="foot")

    def begin(self, pairs: list[Pair]) -> None:
        """Take the pairs. Done before the screen opens."""
        self.forget()
        self.pairs, self.change, self.message = pairs[:MOST_COMPARED], None, ("", "plain")
        self.before = None

    def work(self) -> Work | None:
        """Return the question how the pairs compare, as answered or with the change that is tried."""
        catalogue, answers, pairs, change = self.app.search.catalogue, self.app.session.answers, self.pairs, self.change
        if catalogue is None or not pairs:
            return None

        def asked(_ear: Any) -> tuple[Comparison, Sandbox | None]:
            from engine.selection.compare import compare, sandbox

            rows = [(catalogue.index_of(A), catalogue.index_of(B)) for A, B in pairs]
            if change is None:
                return compare(catalogue, rows, answers), None
            tried = sandbox(catalogue, rows, answers, change[0], change[1])
            return tried.after, tried

        return asked

    def ask(self) -> None:
        """Ask; until the answer is there the columns stay as they were."""
        before = self.shown
        super().ask()
        self.before = before

    @property
    def shown(self) -> tuple[Comparison, Sandbox | None] | None:
        """What the columns show; stopped, nothing, since what was found before is not about what was tried."""
        return self.before if self.running else self.found

    def subject(self) -> str:
        """Say what is shown."""
        what = "what differs of " if self.only else ""
        if self.change is not None:
            return f"Trying {self.change[2]} (was {self._was()})"
        return f"Side by side: {what}{len(self.pairs)} pairs" if self.pairs else "No pair is marked yet"

    def _was(self) -> str:
        assert self.change is not None
        item = asked_at(self.app.session.answers, self.change[0])
        if item is None or item.value is None:
            return "open"
        return str(item.question.show(item.value))

    def page(self, width: int) -> tuple[list[Line], Sequence[int]]:
        """Return the columns."""
        self.behind = {}
        if self.shown is None:
            nothing = cut(" Mark up to four pairs with the space bar in the shortlist first.", width, "caution")
            return [self.nothing_yet() if self.pairs else nothing], []
        told, sandbox = self.shown
        glyphs = self.app.glyphs
        lines, self.behind = columns.rows(told, sandbox, self.only, glyphs, width)
        return lines or [cut(" They differ in nothing.", width, "quiet")], list(self.behind)

    def show_all(self) -> None:
        """Bring every block up to date."""
        super().show_all()
        if self.width > 0 and self.is_mounted:
            shown = self.shown
            over = columns.heading(shown[0], self.pairs, self.app.glyphs, self.width) if shown is not None else []
            self.block("#over", over)

    def about(self) -> str:
        """Explain the signs, or say what is behind the marked line."""
        if self.entering:
            return self._offered()
        one = self.behind.get(self.rows.at)
        if one is None or self.shown is None:
            return ""
        before = None
        sandbox = self.shown[1]
        if sandbox is not None and any(sandbox.moved.get(one.key, ())):
            before = next((line for line in sandbox.before.lines if line.key == one.key), None)
        glyphs = self.app.glyphs
        signs = f"{glyphs.differs} differs, {columns.BEST} best, {glyphs.fails} fails"
        if sandbox is not None:
            signs += f", {columns.MOVED} moved"
        return f"{columns.details(one, before)}. {signs}"

    def _offered(self) -> str:
        """Say which question is meant by what is typed so far."""
        answers = self.app.session.answers
        try:
            path, _ = meant(answers, self.entry.text if "=" in self.entry.text else f"{self.entry.text}=")
        except Refused:
            return f"Type {TYPED}"
        question = question_at(path)
        return f"{question.label}: {question.accepted()}. Type {TYPED}"

    # keys

    def action_only(self) -> None:
        """Show only what differs, or everything."""
        self.only = not self.only
        self.rows.at = 0
        self.show_all()

    def action_try(self) -> None:
        """Change one answer for the pairs on the screen alone."""
        if self.pairs:
            self.begin_entry("try", "", LONGEST)
            self.marked_another()

    def action_take(self) -> None:
        """Put the change that is tried into the answers."""
        if self.change is None:
            self.say("No change is tried; t tries one.", "caution")
            return
        path, value, label = self.change
        self.change = None
        self.apply([(path, value)], label)

    def action_drop(self) -> None:
        """Drop the change that is tried."""
        if self.change is None:
            self.say("No change is tried; t tries one.", "caution")
            return
        self.change = None
        self.message = ("Dropped; the answers are as they were.", "plain")
        self.ask()
        self.show_all()

    def action_back(self) -> None:
        """Stop what runs, else drop what is tried, else go back."""
        if self.change is not None and not self.running:
            self.action_drop()
        else:
            super().action_back()

    def action_unmark(self) -> None:
        """Take away the marks of all pairs and go back."""
        self.app.picked.clear()
        self.app.pop_screen()

    def entry_edited(self) -> None:
        """Say which question is meant."""
        self.marked_another()

    def submit_entry(self) -> None:
        """Try what was typed; refused, it says why and leaves it there."""
        from engine.answers.lubricated.own import offered

        try:
            own, _ = offered(self.app.search.lubricants)
            self.change = tried(self.app.session.answers, self.entry.text, own)
        except Refused as error:
            self.refuse(error)
            return
        self.close_entry()
        self.message = ("a takes this change into the answers, Esc drops it.", "caution")
        self.ask()
        self.show_all()

    def leave_entry(self) -> None:
        """Leave it as it was."""
        self.close_entry()
        self.marked_another()
