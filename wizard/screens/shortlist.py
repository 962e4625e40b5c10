"""The pairs that pass, best first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.errors import plain
from engine.units import number_text
from wizard import wording
from wizard.screens import frame
from wizard.screens.base import KeyedScreen
from wizard.studies.distributions import LEADING
from wizard.widgets.lines import Line, Lines, Rows, fitted, line

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from engine.catalogue.columns import Catalogue
    from engine.selection.rank import Shortlist
    from engine.selection.stages.load_distribution import Leading
    from wizard.glyphs import Glyphs
    from wizard.search import Listed

_RANKED = {"mass": "lightest first", "size": "smallest first", "life": "longest-lived first", "cost": "cheapest first"}


def table(found: Shortlist, required: float, loads_known: bool, width: int) -> tuple[Line, list[str]]:
    """Return the heading and the text for each pair behind its number: names, mass, sizes, life and its margin."""
    name = max(12, min(24, (width - 48 if width >= 72 else width - 24) // 2))
    tail = (
        f"{'mass kg':>8} {'D mm':>11} {'life h':>10} {'margin':>7}" if width >= 72 else f"{'mass kg':>8} {'margin':>7}"
    )
    heading = line(
        fitted(f"      {fitted('bearing at A', name)} {fitted('bearing at B', name)} {tail}", width), "heading"
    )
    A, B = found.evaluated.A, found.evaluated.B
    lines = []
    for row in range(len(found)):
        lead = f"{fitted(plain(A.designation[row]), name)} {fitted(plain(B.designation[row]), name)}"
        sizes = f"{number_text(A.D[row], 4)}/{number_text(B.D[row], 4)}"
        life = number_text(float(found.life[row]), 3) if loads_known else "-"
        margin = _margin(float(found.life[row] / required)) if loads_known else "-"
        guessed = A.is_estimated("mass")[row] or B.is_estimated("mass")[row]
        mass = f"{'~' if guessed else ''}{A.mass[row] + B.mass[row]:.2f}"
        figures = f"{mass:>8} {sizes:>11} {life:>10} {margin:>7}" if width >= 72 else f"{mass:>8} {margin:>7}"
        lines.append(f"{lead} {figures}")
    return heading, lines


def marked(lines: list[str], known: list[Leading | None], glyphs: Glyphs, width: int) -> list[Line]:
    """Return the lines of the table, numbered, with a mark for what the load distribution says of each pair."""
    found: list[Line] = []
    for at, (text, one) in enumerate(zip(lines, known, strict=True), 1):
        sign, meaning = " ", "plain"
        if one is not None:
            sign, meaning = (glyphs.passes, "passes") if one.passes else (glyphs.fails, "fails")
            if not one.known:
                sign, meaning = glyphs.caution, "caution"
        found.append(((f"{at:>4} ", "plain"), (sign, meaning), (fitted(text, max(0, width - 6)), "plain")))
    return found


def by_distribution(one: Leading | None, row: int, computing: bool) -> str:
    """Return what the load distribution says of a pair, or why it says nothing."""
    if one is None:
        waited = row < LEADING and computing
        return (
            "load distribution: being computed" if waited else f"load distribution: for the first {LEADING} only, see v"
        )
    if not one.known:
        return f"load distribution: {one.why_not}"
    said = "passes" if one.passes else f"FAILS: {', '.join(one.failing)}"
    return f"load distribution: {number_text(one.life, 3)} h, {number_text(one.p_max, 3)} MPa, {said}"


def _margin(ratio: float) -> str:
    """Return a margin with its decimal point always at the same place."""
    return f"{ratio:.2f}" if ratio < 1000 else number_text(ratio, 3)


def _supply(rows: Catalogue, row: int) -> str:
    """Return what stands out in how a bearing is supplied; an ordinary set off the shelf needs no word."""
    words = ["formed"] if rows.listed[row] == "formed" else []
    stock = {"on_request": "on request", "discontinued": "discontinued"}.get(str(rows.availability[row]))
    return " ".join([*words, *([stock] if stock else [])])


def tightest(found: Shortlist, row: int) -> str:
    """Return what stands out of one pair: widths, static safety, and the check with the least room."""
    A, B, states = found.evaluated.A, found.evaluated.B, found.evaluated.states
    parts = [f"T {number_text(A.T[row], 4)}/{number_text(B.T[row], 4)} mm"]
    if states is not None:
        parts.append(f"s0 {number_text(states[0].s0[row], 3)}/{number_text(states[1].s0[row], 3)}")
    binding = [outcome for outcome in found.evaluated.outcomes if not outcome.check.advisory]
    uses = [float(outcome.utilisation[row]) for outcome in binding]
    worst = binding[uses.index(max(uses))]
    where = "" if worst.side == "pair" else f" at {worst.side}"
    supplied = [f"{side} {word}" for side, rows in zip("AB", (A, B), strict=True) if (word := _supply(rows, row))]
    return ", ".join([*parts, *supplied, f"tightest: {worst.check.name}{where} {max(uses):.2f}"])


class ShortlistScreen(KeyedScreen):
    """The leading pairs; the marked one can be looked into or chosen."""

    PLACE = "shortlist"

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="head")
        yield Rows(meanings, id="rows")
        yield Lines(meanings, id="about")
        yield Lines(meanings, id="panel")
        yield Lines(meanings, id="foot")

    @property
    def listed(self) -> Listed | None:
        """The pairs found for the answers as they stand; None while they are still looked for."""
        return self.app.standing.current(self.app.session.answers)

    def show_all(self) -> None:
        """Bring every block up to date."""
        standing, width, glyphs = self.app.standing, self.width, self.app.glyphs
        listed, counted = self.listed, standing.counted
        if width <= 0:
            return
        ranked = _RANKED[self.app.session.answers.choice.rank_by or "mass"]
        first = f"the first {len(listed.shortlist)}, " if listed is not None else ""
        title = frame.head(f"Shortlist: {first}{ranked}", "", width)
        lines: list[Line] = []
        if listed is None or counted is None:
            heading = line("Looking through the catalogue ...", "quiet")
        else:
            loads_known = counted.resolved.loads_known
            heading, texts = table(listed.shortlist, counted.resolved.life, loads_known, width)
            lines = marked(texts, [self._leading(row) for row in range(len(texts))], glyphs, width)
        self.block("#head", [title, frame.rule(glyphs, width), heading])
        self.rows.show_rows(lines, range(len(lines)))
        self._show_about()
        self.show_panel()
        self.block("#foot", [frame.foot("shortlist", width)])

    def show_panel(self) -> None:
        """Show how many pairs remain."""
        self.block("#panel", frame.panel(self.app.standing, self.app.glyphs, self.width))

    def _leading(self, row: int) -> Leading | None:
        """Return what the load distribution says of a pair, where it is known."""
        if self.listed is None:
            return None
        evaluated = self.listed.shortlist.evaluated
        return self.app.standing.leading.get((str(evaluated.A.designation[row]), str(evaluated.B.designation[row])))

    def _show_about(self) -> None:
        """Show what stands out of the marked pair: by the load distribution, then by the closed formulas."""
        title, listed, counted = "", self.listed, self.app.standing.counted
        if listed is not None and len(listed.shortlist) and counted is not None and counted.resolved.loads_known:
            row = self.rows.at
            title = by_distribution(self._leading(row), row, self.app.standing.done is None)
        self.block("#about", [frame.rule(self.app.glyphs, self.width, title), self._about(self.width)])

    def _about(self, width: int) -> Line:
        listed, counted = self.listed, self.app.standing.counted
        if listed is None or counted is None:
            return line("")
        if not len(listed.shortlist):
            return line(fitted(wording.TOO_MANY if counted.too_many else wording.EMPTY, width), "caution")
        if not counted.resolved.loads_known:
            return line(fitted("Loads are not yet known: only space, speed and steel are checked.", width), "caution")
        return line(fitted(tightest(listed.shortlist, self.rows.at), width), "quiet")

    def marked_another(self) -> None:
        """Follow the mark with what stands out of the pair."""
        self._show_about()

    @property
    def marked(self) -> tuple[str, str] | None:
        """The designations of the marked pair."""
        listed = self.listed
        if listed is None or not len(listed.shortlist):
            return None
        evaluated, row = listed.shortlist.evaluated, self.rows.at
        return str(evaluated.A.designation[row]), str(evaluated.B.designation[row])

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

    def _rank(self, by: str) -> None:
        self.app.session.put("choice.rank_by", by, f"ranking by {by}")
        self.app.answered("")
        self.rows.step("end", -1)
