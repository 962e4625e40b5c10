"""The listed pairs by any two criteria, as points in characters; those that no other betters stand out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from engine.errors import plain
from wizard.screens.choosing.asking import InquiryScreen, Work
from wizard.widgets.figures import alike
from wizard.widgets.lines import Line, Lines, Rows, fitted, line
from wizard.widgets.plot import Axis, Curve, legend, plot

if TYPE_CHECKING:
    from collections.abc import Sequence

    from textual.app import ComposeResult

    from engine.selection.criteria import Criterion
    from engine.selection.rank import Shortlist
    from engine.selection.scatter import Scatter
    from wizard.search import Listed

#: Lines of the drawing beside its own three for the axis and one for the legend; lines of the blocks around it.
TALLEST, BELOW, AROUND = 14, 4, 10
DOMINATED, KEPT, HERE = ".", "o", "X"


def drawing(found: Scatter, axes: tuple[Criterion, Criterion], at: int | None, width: int, height: int) -> list[Line]:
    """Return the points, the marked pair over all others."""
    x, y, kept = found.x.tolist(), found.y.tolist(), found.non_dominated.tolist()
    points = [Curve([x[i]], [y[i]], DOMINATED) for i in range(len(x)) if not kept[i]]
    points += [Curve([x[i]], [y[i]], KEPT) for i in range(len(x)) if kept[i]]
    if at is not None:
        points.append(Curve([x[at]], [y[at]], HERE))
    across, up = (Axis(one.label.lower(), "" if one.unit == "-" else one.unit) for one in axes)
    names = [
        Curve([], [], KEPT, "no other betters it"),
        Curve([], [], DOMINATED, "bettered"),
        Curve([], [], HERE, "marked"),
    ]
    return [legend(names, up, width), *plot(points, across, up, width, height)]


class ScatterScreen(InquiryScreen):
    """A drawing, and the pairs in it that no other betters, of which one is marked."""

    PLACE = "scatter"

    def __init__(self) -> None:
        super().__init__()
        self.axes = ("mass", "margin")
        self.listed: Listed | None = None
        self.order: list[int] = []  # the place in the shortlist of each line

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="side")
        yield Lines(meanings, id="top")
        yield Lines(meanings, id="plot")
        yield Rows(meanings, id="rows")
        yield Lines(meanings, id="note")
        for unused in ("entry", "panel"):  # the drawing needs their lines
            block = Lines(meanings, id=unused)
            block.display = False
            yield block
        yield Lines(meanings, id="foot")

    def work(self) -> Work | None:
        """Return the question where the listed pairs lie."""
        catalogue, listed = self.app.search.catalogue, self.app.standing.current(self.app.session.answers)
        if catalogue is None or listed is None or listed.early or not len(listed.shortlist):
            return None
        self.listed, axes, answers = listed, self.axes, self.app.session.answers

        def asked(_ear: Any) -> Scatter:
            from engine.answers.resolved import resolve
            from engine.operating import Conditions
            from engine.selection.scatter import scatter

            return scatter(catalogue, listed.shortlist, Conditions.of(resolve(answers)), *axes)

        return asked

    def show_panel(self) -> None:
        """Draw anew once another list is there."""
        listed = self.app.standing.current(self.app.session.answers)
        if self.listed is not None and listed is not None and listed is not self.listed and not listed.early:
            self.ask()
        super().show_panel()

    def subject(self) -> str:
        """Say what is drawn."""
        x, y = (self._criterion(key) for key in self.axes)
        count = len(self.listed.shortlist) if self.listed is not None and self.found is not None else 0
        return f"{y.label} over {x.label.lower()}, the first {count} of the list"

    @staticmethod
    def _criterion(key: str) -> Criterion:
        from engine.selection.criteria import CRITERIA

        return CRITERIA[key]

    @staticmethod
    def _keys() -> list[str]:
        from engine.selection.criteria import CRITERIA, FRICTION

        return [key for key in CRITERIA if key != "friction" or FRICTION is not None]

    def page(self, width: int) -> tuple[list[Line], Sequence[int]]:
        """Return the pairs that no other betters in both, and after them the others."""
        if self.found is None or self.listed is None:
            self.order = []
            nothing = line(" No pair is listed, so there is nothing to draw.", "caution")
            waits = self.running or self.app.standing.current(self.app.session.answers) is None
            return [self.nothing_yet() if waits else nothing], []
        kept = self.found.non_dominated.tolist()
        self.order = sorted(range(len(kept)), key=lambda at: (not kept[at], self._value(0, at)))
        figures = [alike([self._value(which, at) for at in self.order]) for which in (0, 1)]
        lines = [
            self._row(self.listed.shortlist, at, kept[at], f"{x:>11} {y:>11}", width)
            for at, x, y in zip(self.order, *figures, strict=True)
        ]
        return lines, range(len(lines))

    def _value(self, which: int, at: int) -> float:
        values = self.found.y if which else self.found.x
        return float(values[at])

    @staticmethod
    def _row(listed: Shortlist, at: int, kept: bool, figures: str, width: int) -> Line:
        A, B = listed.evaluated.A.designation[at], listed.evaluated.B.designation[at]
        name = max(10, (width - 33) // 2)
        lead = f" {KEPT if kept else DOMINATED} {at + 1:>3} "
        return ((lead, "plain"), (f"{fitted(plain(A), name)} {fitted(plain(B), name)}", "plain"), (figures, "plain"))

    def show_all(self) -> None:
        """Bring every block up to date, the drawing with the marked pair in it."""
        super().show_all()
        self._draw()

    def _draw(self) -> None:
        if self.width <= 0 or not self.is_mounted:
            return
        whole = self.app.size.height
        height = max(3, min(max(TALLEST, whole // 2 - BELOW), whole - AROUND - BELOW))
        block = self.query_one("#plot", Lines)
        lines: list[Line] = []
        if self.found is not None and self.order:
            at = self.order[self.rows.at] if self.rows.at < len(self.order) else None
            axes = (self._criterion(self.axes[0]), self._criterion(self.axes[1]))
            lines = drawing(self.found, axes, at, self.width, height)
        block.styles.height = height + BELOW
        block.show(lines)

    def marked_another(self) -> None:
        """Follow the mark in the drawing and beside it."""
        super().marked_another()
        self._draw()
        self.show_side()

    def beside(self, width: int, height: int) -> list[Line]:
        """Return the checks and figures of the marked pair, as they were computed to list it."""
        if self.listed is None or self.rows.at >= len(self.order):
            return self.stands(width, height)
        from wizard.screens.choosing import beside  # only where there is room for it

        found, at, pair = self.listed.shortlist.evaluated, self.order[self.rows.at], self._marked()
        known = self.app.search.studies.known(pair) if pair is not None else None
        led = self.app.standing.leading.get(pair) if pair is not None else None
        return beside.listed(found, at, known, (led, []), self.app.glyphs, (width, height))

    def about(self) -> str:
        """Say what the two figures are."""
        x, y = (self._criterion(key) for key in self.axes)
        return f"{x.label}: {x.what}; {y.label.lower()}: {y.what}. Less is better in both."

    # keys

    def _turn(self, which: int, by: int) -> None:
        every = self._keys()
        axes = list(self.axes)
        at = every.index(axes[which])
        # both axes of one criterion would draw a line
        axes[which] = next(
            every[(at + step) % len(every)]
            for step in range(by, by * len(every), by)
            if every[(at + step) % len(every)] != axes[1 - which]
        )
        self.axes = (axes[0], axes[1])
        self.ask()
        self.rows.at = 0
        self.show_all()

    def action_next_across(self) -> None:
        """Draw another criterion across."""
        self._turn(0, 1)

    def action_next_up(self) -> None:
        """Draw another criterion upwards."""
        self._turn(1, 1)

    def _marked(self) -> tuple[str, str] | None:
        if self.listed is None or self.rows.at >= len(self.order):
            return None
        at, found = self.order[self.rows.at], self.listed.shortlist.evaluated
        return str(found.A.designation[at]), str(found.B.designation[at])

    def action_detail(self) -> None:
        """See every figure of the marked pair."""
        pair = self._marked()
        if pair is not None:
            self.app.show_pair(*pair)

    def action_mark(self) -> None:
        """Mark the pair for the comparison, or no longer."""
        pair = self._marked()
        if pair is not None:
            self.say(self.app.mark_pair(pair))

    def action_why(self) -> None:
        """See why the marked pair does not stand first."""
        pair = self._marked()
        if pair is not None:
            self.app.show_why(pair)
