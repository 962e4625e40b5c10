"""The pairs that pass, best first."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding

from engine.errors import plain
from engine.units import number_text
from wizard import keys, wording
from wizard.framework import LeanScreen
from wizard.screens import frame
from wizard.widgets.lines import Line, Lines, Rows, fitted, line

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.events import Resize

    from engine.selection.rank import Shortlist
    from wizard.app import Conewright

_RANKED = {"mass": "lightest first", "size": "smallest first", "life": "longest-lived first"}


def table(found: Shortlist, required: float, loads_known: bool, width: int) -> tuple[Line, list[Line]]:
    """Return the heading and a line for each pair: names, mass, sizes, life and its margin, the tightest check."""
    name = max(12, min(22, (width - 44) // 2))
    tail = (
        f"{'mass kg':>8} {'D mm':>11} {'life h':>10} {'margin':>7}" if width >= 72 else f"{'mass kg':>8} {'margin':>7}"
    )
    heading = line(
        fitted(f"     {fitted('bearing at A', name)} {fitted('bearing at B', name)} {tail}", width), "heading"
    )
    A, B = found.evaluated.A, found.evaluated.B
    lines = []
    for row in range(len(found)):
        lead = f"{row + 1:>4} {fitted(plain(A.designation[row]), name)} {fitted(plain(B.designation[row]), name)}"
        sizes = f"{number_text(A.D[row], 4)}/{number_text(B.D[row], 4)}"
        life = number_text(float(found.life[row]), 3) if loads_known else "-"
        margin = number_text(float(found.life[row] / required), 3) if loads_known else "-"
        mass = number_text(float(A.mass[row] + B.mass[row]), 3)
        figures = f"{mass:>8} {sizes:>11} {life:>10} {margin:>7}" if width >= 72 else f"{mass:>8} {margin:>7}"
        lines.append(line(fitted(f"{lead} {figures}", width)))
    return heading, lines


class ShortlistScreen(LeanScreen):
    """The leading pairs; the marked one can be looked into or chosen."""

    BINDINGS: ClassVar = [
        Binding(",".join(key.keys), key.action, key.label, show=False) for key in keys.at("shortlist")
    ]

    app: Conewright

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="head")
        yield Rows(meanings, id="rows")
        yield Lines(meanings, id="about")
        yield Lines(meanings, id="panel")
        yield Lines(meanings, id="foot")

    def on_mount(self) -> None:
        """Take the keys."""
        self.rows.focus()

    def on_screen_resume(self) -> None:
        """Show what is found by now."""
        self.rows.focus()
        self.call_after_refresh(self.show_all)

    def on_resize(self, event: Resize) -> None:  # noqa: ARG002
        """Lay the text out for the new width."""
        self.call_after_refresh(self.show_all)

    @property
    def rows(self) -> Rows:
        """The list of pairs."""
        return self.query_one("#rows", Rows)

    def show_all(self) -> None:
        """Bring every block up to date."""
        standing, width, glyphs = self.app.standing, self.size.width, self.app.glyphs
        listed, counted = standing.listed, standing.counted
        if width <= 0:
            return
        ranked = _RANKED[self.app.session.answers.choice.rank_by or "mass"]
        title = frame.head(f"Shortlist, {ranked}", "", width)
        lines: list[Line] = []
        if listed is None or counted is None:
            heading = line("Looking through the catalogue ...", "quiet")
        else:
            heading, lines = table(listed.shortlist, counted.resolved.life, counted.resolved.loads_known, width)
        self.query_one("#head", Lines).show([title, frame.rule(glyphs, width), heading])
        self.rows.show_rows(lines, range(len(lines)))
        self.query_one("#about", Lines).show([frame.rule(glyphs, width), self._about(width)])
        self.show_panel()
        self.query_one("#foot", Lines).show([frame.foot("shortlist", width)])

    def show_panel(self) -> None:
        """Show how many pairs remain."""
        self.query_one("#panel", Lines).show(frame.panel(self.app.standing, self.app.glyphs, self.size.width))

    def _about(self, width: int) -> Line:
        listed, counted = self.app.standing.listed, self.app.standing.counted
        if listed is None or counted is None:
            return line("")
        if not len(listed.shortlist):
            return line(fitted(wording.EMPTY, width), "caution")
        if not counted.resolved.loads_known:
            return line(fitted("Loads are not yet known: only space, speed and steel are checked.", width), "caution")
        first = f"The first {len(listed.shortlist)} of {wording.counted(counted.count, 'pair', 'pairs')}. "
        return line(fitted(first + "Margin is life over required life; check the supplier's data.", width), "quiet")

    @property
    def marked(self) -> tuple[str, str] | None:
        """The designations of the marked pair."""
        listed = self.app.standing.listed
        if listed is None or not len(listed.shortlist):
            return None
        evaluated, row = listed.shortlist.evaluated, self.rows.at
        return str(evaluated.A.designation[row]), str(evaluated.B.designation[row])

    def action_detail(self) -> None:
        """See every figure of the marked pair."""
        if self.marked:
            self.app.show_pair(*self.marked)

    def action_choose(self) -> None:
        """Choose the marked pair."""
        if self.marked:
            self.app.session.choose(*self.marked)
            self.app.answered("choice")
            self.show_panel()

    def action_rank(self, by: str) -> None:
        """Rank by another measure."""
        self.app.session.put("choice.rank_by", by, f"ranking by {by}")
        self.app.answered("ranking")
        self.rows.mark(0)

    def action_back(self) -> None:
        """Go back to the questions."""
        self.app.pop_screen()

    def action_help(self) -> None:
        """See the keys."""
        self.app.show_help_page("shortlist")

    def action_quit(self) -> None:
        """Leave."""
        self.app.leave()
