"""The pairs that pass, best first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.errors import plain
from wizard import wording
from wizard.screens import frame
from wizard.screens.choosing.listing import MARKED_PIECES, UNBETTERED, Known, by_distribution, marked, table, tightest
from wizard.screens.choosing.why import RANKED
from wizard.screens.every.beside import BesideScreen
from wizard.search import Listed
from wizard.studies.distributions import Led
from wizard.widgets.lines import Line, Lines, Rows, fitted, line, wrapped

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from engine.selection.stages.load_distribution import Leading
    from wizard.search import Found


class ShortlistScreen(BesideScreen):
    """The leading pairs; the marked one can be looked into or chosen."""

    PLACE = "shortlist"

    def __init__(self) -> None:
        super().__init__()
        self.said = ""

    def heard(self, found: Found) -> None:
        """Show a new list, and what the load distribution says of its pairs."""
        if isinstance(found, Listed | Led):
            self.show_all()

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="side")
        yield Lines(meanings, id="head")
        yield Rows(meanings, id="rows", reach=MARKED_PIECES)
        yield Lines(meanings, id="about")
        yield Lines(meanings, id="panel")
        yield Lines(meanings, id="foot")

    @property
    def listed(self) -> Listed | None:
        """The pairs found for the answers as they stand; None while they are still looked for."""
        return self.app.standing.current(self.app.session.answers)

    def show_all(self) -> None:
        """Bring every block up to date."""
        width, glyphs, listed = self.width, self.app.glyphs, self.listed
        if width <= 0:
            return
        weighed = listed is not None and listed.shortlist.score is not None
        title = frame.head(self._title(listed), f"{UNBETTERED} none betters it" if weighed else "", width)
        lines: list[Line] = []
        if listed is None:
            halted = self.app.standing.halted
            heading = line("Stopped; x goes on." if halted else "Looking through the catalogue ...", "quiet")
        else:
            heading, texts = table(listed.shortlist, listed.resolved.life, listed.resolved.loads_known, width)
            lines = marked(texts, [self._known(row) for row in range(len(texts))], glyphs, width)
        self.block("#head", [title, frame.rule(glyphs, width), heading])
        self.rows.show_rows(lines, range(len(lines)))
        self._show_about()
        self.show_panel()
        self.block("#foot", [frame.foot("shortlist", width)])

    def _title(self, listed: Listed | None) -> str:
        ranked = RANKED[self.app.session.answers.choice.rank_by or "mass"]
        if listed is None:
            return f"Shortlist: {ranked}"
        if listed.early:
            return f"Shortlist: {len(listed.shortlist)} of those that pass, looking on"
        return f"Shortlist: the first {len(listed.shortlist)}, {ranked}"

    def _known(self, row: int) -> Known:
        return Known(self._leading(row), self._pair(row) in self.app.picked)

    def on_screen_resume(self) -> None:
        """Show how things stand by now; while the list is looked at, some rows are worth having at once."""
        self.app.search.watched = True
        self.said = ""
        self.show_all()

    def on_screen_suspend(self) -> None:
        """Take word that the list is not looked at any more."""
        self.app.search.watched = False

    def show_panel(self) -> None:
        """Show how many pairs remain."""
        self.block("#panel", frame.panel(self.app.standing, self.app.glyphs, self.width))

    def _leading(self, row: int) -> Leading | None:
        """Return what the load distribution says of a pair, where it is known."""
        if self.listed is None:
            return None
        return self.app.standing.leading.get(self._pair(row))

    def _pair(self, row: int) -> tuple[str, str]:
        assert self.listed is not None
        evaluated = self.listed.shortlist.evaluated
        return str(evaluated.A.designation[row]), str(evaluated.B.designation[row])

    def _show_about(self) -> None:
        """Show what stands out of the marked pair: by the load distribution, then by the closed formulas."""
        title, listed = "", self.listed
        if listed is not None and len(listed.shortlist) and listed.resolved.loads_known and not listed.early:
            row = self.rows.at
            title = by_distribution(self._leading(row), row, self.app.standing.done is None)
        self.block("#about", [frame.rule(self.app.glyphs, self.width, title), self._about(self.width)])
        self.show_side()

    def beside(self, width: int, height: int) -> list[Line]:
        """Return the checks and figures of the marked pair."""
        from wizard.screens.choosing import beside  # only where there is room for it

        if self.listed is None or self.marked is None:
            return []
        evaluated, row = self.listed.shortlist.evaluated, min(self.rows.at, len(self.listed.shortlist) - 1)
        known = self.app.search.studies.known(self.marked)
        one = self._leading(row)
        said = by_distribution(one, row, self.app.standing.done is None) if self.listed.resolved.loads_known else ""
        meaning = "fails" if one is not None and one.word == "fails" else "quiet"
        shown = [line(part, meaning) for part in wrapped(said, width, 2)]
        return beside.listed(evaluated, row, known, (one, shown), self.app.glyphs, (width, height))

    def _about(self, width: int) -> Line:
        listed, counted = self.listed, self.app.standing.counted
        if self.said:
            return line(fitted(plain(self.said), width), "title")
        if listed is None:
            return line("")
        if not len(listed.shortlist):
            many = counted is not None and counted.too_many
            empty = "" if listed.early else wording.TOO_MANY if many else wording.few(0)
            return line(fitted(empty, width), "caution")
        if not listed.resolved.loads_known:
            return line(fitted(wording.NO_LOADS, width), "caution")
        return line(fitted(tightest(listed.shortlist, self.rows.at), width), "quiet")

    def marked_another(self) -> None:
        """Follow the mark with what stands out of the pair."""
        self.said = ""
        self._show_about()

    @property
    def marked(self) -> tuple[str, str] | None:
        """The designations of the marked pair."""
        listed = self.listed
        if listed is None or not len(listed.shortlist):
            return None
        return self._pair(min(self.rows.at, len(listed.shortlist) - 1))

    def say(self, text: str, meaning: str = "title") -> None:  # noqa: ARG002
        """Put a word where the marked pair is described, until the next move."""
        self.said = text
        self._show_about()

    def action_detail(self) -> None:
        """See every figure of the marked pair."""
        if self.marked:
            self.app.show_pair(*self.marked)

    def action_setting(self) -> None:
        """See the setting of the marked pair."""
        if self.marked:
            self.app.show_setting(self.marked)

    def action_choose(self) -> None:
        """Choose the marked pair."""
        if self.marked:
            self.app.session.choose(*self.marked)
            self.app.answered("")
            self.show_panel()

    def action_rank_mass(self) -> None:
        """Lightest first."""
        self._rank("mass")

    def action_rank_size(self) -> None:
        """Smallest first."""
        self._rank("size")

    def action_rank_life(self) -> None:
        """Longest-lived first."""
        self._rank("life")

    def action_rank_cost(self) -> None:
        """Cheapest first."""
        self._rank("cost")

    def action_mark(self) -> None:
        """Mark the pair for the comparison, or no longer."""
        if self.marked:
            said = self.app.mark_pair(self.marked)
            self.show_all()
            self.say(said)

    def action_compare(self) -> None:
        """See the marked pairs side by side."""
        self.app.show_compare()

    def action_why(self) -> None:
        """See why the marked pair does not stand first; without one, why any other is out."""
        self.app.show_why(self.marked)

    def action_why_typed(self) -> None:
        """Type a pair or part to see why it is out."""
        self.app.show_why()

    def action_gives(self) -> None:
        """See what must give for more pairs to pass."""
        self.app.open("gives")

    def action_weigh(self) -> None:
        """Weigh what counts."""
        self.app.open("weights")

    def action_scatter(self) -> None:
        """See the pairs by two criteria."""
        self.app.open("scatter")

    def action_sensitivity(self) -> None:
        """See on what the verdict on the marked pair hangs."""
        self.app.show_sensitivity(self.marked)

    def action_needed(self) -> None:
        """Go to the next question that lives need."""
        listed = self.listed
        if listed is not None and listed.resolved.loads_known:
            self.say("Nothing is missing: lives are computed.")
            return
        self.app.to_questions()
        self.app.questions.action_next_open()

    def action_halt(self) -> None:
        """Stop what is computed, or go on with it."""
        searching = self.app.standing.done is None
        self.app.pairs.halt_or_resume(self.app.session.answers, None)
        self.show_all()
        self.say("Stopping; x goes on." if searching else "")

    def _rank(self, by: str) -> None:
        self.app.session.put("choice.rank_by", by, f"ranking by {by}")
        self.app.answered("")
        self.rows.step("end", -1)
