"""One pair with every figure and its clause."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.errors import plain
from wizard.screens import frame
from wizard.screens.detail import Detail, detail
from wizard.screens.every.beside import BesideScreen
from wizard.search import Counted
from wizard.studies.distributions import Done, Progress, Studied
from wizard.widgets.lines import Line, Lines, Rows, fitted, line, wrapped

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from engine.record.result import Result
    from wizard.search import Found


class PairScreen(BesideScreen):
    """Checks and figures of one pair; the clause behind the marked line stands below."""

    PLACE = "pair"

    def __init__(self) -> None:
        super().__init__()
        self.result: Result | None = None
        self.stale = False  # whether the figures are those of answers that have changed since
        self.detail = Detail()

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="side")
        yield Lines(meanings, id="head")
        yield Rows(meanings, id="rows")
        yield Lines(meanings, id="source")
        yield Lines(meanings, id="foot")

    def show_all(self) -> None:
        """Bring every block up to date."""
        width, glyphs = self.width, self.app.glyphs
        if self.result is None or width <= 0:
            return
        whole = self.app.search.studies.known((self.result.bearing_A, self.result.bearing_B))
        result = self.result = whole or self.result
        self.detail = detail(result, glyphs, width)
        self.rows.show_rows(self.detail.lines, self.detail.stops)
        names = f"A {plain(result.bearing_A, 30)}   B {plain(result.bearing_B, 30)}"
        verdict, meaning = self._verdict(result)
        self.block(
            "#head",
            [frame.head(names, "", width), line(fitted(f" {verdict}", width), meaning), frame.rule(glyphs, width)],
        )
        self.show_source()
        self.block("#foot", [frame.foot("pair", width)])
        self.show_side()

    def beside(self, width: int, height: int) -> list[Line]:
        """Return the figures, which would else stand below the checks and out of sight."""
        from wizard.screens.choosing import beside  # only where there is room for it

        return beside.figures(self.result.blocks, width, height) if self.result is not None else []

    def heard(self, found: Found) -> None:
        """Take the load distribution once it is computed, and show how far it is."""
        if self.stale and self.result is not None and isinstance(found, Counted):
            self.stale, pair = False, (self.result.bearing_A, self.result.bearing_B)
            self.result = self.app.pairs.look(pair) or self.app.pairs.at_once(pair)
            self.show_all()
        elif isinstance(found, Studied | Progress | Done):
            self.show_all()

    def changed(self, label: str) -> None:
        """Compute the pair anew once the answers that were taken back or brought back are counted."""
        self.stale = True
        super().changed(label)

    def _verdict(self, result: Result) -> tuple[str, str]:
        """Return the verdict in words, and its meaning for the eye."""
        standing, pair = self.app.standing, (result.bearing_A, result.bearing_B)
        known = self.app.search.studies.known(pair)
        led = standing.leading.get(pair) if known is None and not self.stale else None
        failing = [check.name for check in result.checks if not check.passes and not check.advisory]
        failing += led.failing if led is not None else ()  # known from the list before all of the pair is
        word = "fails" if failing else result.verdict
        meaning = {"passes": "passes", "fails": "fails"}.get(word, "caution")
        verdict = f"The pair {word}" if word != "incomplete" else "Loads are not yet known"
        open_ = [check.name for check in result.not_judged]
        verdict += f": {', '.join(sorted(set(failing)))}" if failing else ""
        verdict += f"; not judged: {', '.join(sorted(set(open_)))}" if open_ else ""
        verdict += "; load distribution not computed" if result.why_no_study else ""
        if open_ or result.why_no_study:
            meaning = "fails" if meaning == "fails" else "caution"
        if result.missing or known is not None:
            return verdict, meaning
        how_far = frame.progress(standing, self.app.glyphs, pair)
        if led is not None and led.failing:  # the room is for what it fails
            return f"{verdict}; {'stopped, x goes on' if standing.halted else f'the rest {how_far}'}", meaning
        more = "stopped, x goes on" if standing.halted else f"load distribution {how_far}"
        return f"{verdict} so far; {more}", "quiet" if meaning == "passes" else meaning

    def show_source(self) -> None:
        """Show the clause behind the marked line."""
        width = self.width
        text = self.detail.sources.get(self.rows.at, "")
        shown: list[Line] = [line(f" {part}", "quiet") for part in wrapped(plain(text, 400), width - 2, 2)]
        title = self.detail.names.get(self.rows.at, "")
        self.block("#source", [frame.rule(self.app.glyphs, width, title), *shown])

    def marked_another(self) -> None:
        """Follow the mark with the clause."""
        self.show_source()

    def action_choose(self) -> None:
        """Choose this pair and go back to the shortlist."""
        if self.result is not None:
            self.app.session.choose(self.result.bearing_A, self.result.bearing_B)
            self.app.answered("")
            self.app.pop_screen()

    def action_setting(self) -> None:
        """See the setting of the pair."""
        if self.result is not None:
            self.app.show_setting((self.result.bearing_A, self.result.bearing_B))

    def action_halt(self) -> None:
        """Stop the computing, or go on with it."""
        pair = (self.result.bearing_A, self.result.bearing_B) if self.result is not None else None
        self.app.pairs.halt_or_resume(self.app.session.answers, pair)
        self.show_all()

    def action_why(self) -> None:
        """See why this pair does not stand first, or fails."""
        if self.result is not None:
            self.app.show_why((self.result.bearing_A, self.result.bearing_B))

    def action_sensitivity(self) -> None:
        """See on which inputs the verdict hangs."""
        if self.result is not None:
            self.app.show_sensitivity((self.result.bearing_A, self.result.bearing_B))

    def action_mark(self) -> None:
        """Mark this pair for the comparison, or take its mark away."""
        if self.result is not None:
            said = self.app.mark_pair((self.result.bearing_A, self.result.bearing_B))
            self.block("#source", [frame.rule(self.app.glyphs, self.width), line(f" {said}")])
