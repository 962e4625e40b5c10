"""Up to four pairs side by side, and one answer changed for them alone to see all of them move."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from engine.answers.document import asked_at, question_at
from engine.answers.question import Refused, Value
from wizard.screens import frame
from wizard.screens.choosing.asking import LONGEST, InquiryScreen, Work, cut
from wizard.screens.choosing.comparing import columns
from wizard.screens.choosing.comparing.both import Both
from wizard.screens.choosing.comparing.trying import TYPED, meant, tried
from wizard.screens.choosing.named import MOST_COMPARED
from wizard.search import Counted
from wizard.studies.distributions import Done, Led, Pair, Progress
from wizard.widgets.lines import Line, Lines, Rows, fitted

if TYPE_CHECKING:
    from collections.abc import Sequence

    from textual.app import ComposeResult

    from engine.selection.comparing.compare import Comparison, Sandbox
    from engine.selection.comparing.compare import Line as Figures
    from wizard.search import Found


class CompareScreen(InquiryScreen):
    """The marked pairs in columns."""

    PLACE = "compare"

    def __init__(self) -> None:
        super().__init__()
        self.pairs: list[Pair] = []
        self.only = False
        self.change: tuple[str, Value | None, str] | None = None
        self.behind: dict[int, Figures] = {}
        self.kept = ""  # the key of the line that was marked before the lines were made anew
        self.before: tuple[Comparison, Sandbox | None] | None = None
        self.said = Both(())  # what was shown last of the load distributions
        self.wanting = False  # whether the load distributions that are not known are to be computed

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
        self.wanting = True

    def work(self) -> Work | None:
        """Return the question how the pairs compare, as answered or with the change that is tried."""
        catalogue, answers, pairs, change = self.app.search.catalogue, self.app.session.answers, self.pairs, self.change
        if catalogue is None or not pairs:
            return None

        def asked(_ear: Any) -> tuple[Comparison, Sandbox | None]:
            from engine.selection.comparing.compare import compare, sandbox

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
        self.wanting = self.wanting or not self.app.standing.halted
        self.want()

    # the load distributions

    def want(self) -> None:
        """Have the load distributions that are not known computed; those of what is tried are not."""
        if self.wanting and self.change is None:
            self.app.pairs.glance(self.pairs)

    @property
    def both(self) -> Both:
        """What the load distributions say; nothing, while the columns are still those of other answers."""
        standing = self.app.standing
        leading = {} if self.running else standing.leading
        known = tuple(leading.get(pair) for pair in self.pairs)
        return Both(known, self.change is not None, standing.done is None, standing.halted)

    @property
    def computing(self) -> bool:
        """Whether a load distribution is still awaited."""
        counted = self.app.standing.counted
        return counted is not None and counted.resolved.loads_known and self.both.awaited

    def heard(self, found: Found) -> None:
        """Show what the load distributions say as it becomes known, and ask for what is still open."""
        if isinstance(found, Counted | Led):
            self.want()
        if isinstance(found, Counted | Led | Done) and not self.both.same(self.said):
            self.show_all()
        elif isinstance(found, Progress):
            self.show_note()

    def on_screen_resume(self) -> None:
        """Ask for what is not known, or not of these answers."""
        self.want()
        super().on_screen_resume()

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
        marked = self.behind.get(self.rows.at)
        self.kept, self.behind = marked.key if marked is not None else "", {}
        if self.shown is None:
            nothing = cut(" Mark up to four pairs with the space bar in the shortlist first.", width, "caution")
            return [self.nothing_yet() if self.pairs else nothing], []
        told, sandbox = self.shown
        glyphs = self.app.glyphs
        lines, self.behind = columns.rows(told, self.said, sandbox, self.only, glyphs, width)
        return lines or [cut(" They differ in nothing.", width, "quiet")], list(self.behind)

    def held(self) -> int | None:
        """Keep the mark on its line: lines come before it once a load distribution is computed."""
        return next((at for at, one in self.behind.items() if one.key == self.kept), None)

    def show_all(self) -> None:
        """Bring every block up to date."""
        self.said = self.both
        super().show_all()
        if self.width > 0 and self.is_mounted:
            shown, over = self.shown, []
            if shown is not None:
                over = columns.heading(shown[0], self.said, self.pairs, self.app.glyphs, self.width)
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

    def _state(self) -> tuple[str, str]:
        """Say how far the load distributions are, where nothing else is waited for."""
        said, standing = super()._state(), self.app.standing
        if said[0] or not self.pairs or self.change is not None:
            return said
        if self.computing:
            pair = standing.progress.pair if standing.progress is not None else None
            bar = frame.progress(standing, self.app.glyphs, pair if pair in self.pairs else None)
            return fitted(f"load distribution {bar}  x stops it", self.width - 2), "quiet"
        if standing.halted and not self.both.settled:
            return fitted("Load distribution stopped; x goes on.", self.width - 2), "caution"
        return said

    # keys

    def action_halt(self) -> None:
        """Stop what runs, the load distributions too; or go on with them, or begin anew."""
        halted = self.app.standing.halted and self.change is None
        if self.running or self.stopped or not (self.computing or halted):
            super().action_halt()
            return
        self.wanting = not self.computing  # what was found before the halt comes through asks for nothing
        self.app.pairs.halt_or_resume(self.app.session.answers, None)
        self.want()
        self.show_all()

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
