"""The shaft with its forces, one load case and one plane at a time."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from engine.errors import Problems, plain
from wizard.screens import frame
from wizard.screens.base import PageScreen
from wizard.screens.onshaft import seen
from wizard.screens.onshaft.page import ARRANGED, Acting, Page, View, page
from wizard.widgets.lines import line
from wizard.widgets.shaft import Mark

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue
    from engine.duty.element import Element
    from engine.operating import Conditions
    from engine.record.loads.reactions import Reactions


#: Lines of the head and the foot.
AROUND = 3


class ShaftScreen(PageScreen):
    """A picture, the loads on the bearings, the forces with their steps, and the diagrams."""

    PLACE = "shaft"

    def __init__(self) -> None:
        super().__init__()
        self.case = 0
        self.plane = "y"
        self.both = False
        self.unfolded: frozenset[str] = frozenset()
        self.page: Page | None = None
        self._conditions: Conditions | None = None
        self._of: object = None  # the answers that the conditions belong to

    def show_all(self) -> None:
        """Bring every block up to date."""
        width, glyphs = self.width, self.app.glyphs
        if width <= 0:
            return
        if self.app.standing.counted is None:
            # what computes is being loaded by the search; no key waits for that
            self.block("#top", [frame.head("Shaft", "", width), frame.rule(glyphs, width)])
            self.rows.show_rows([line(" Reading the catalogue ...", "quiet")], [0])
            self.block("#foot", [frame.foot("shaft", width)])
            return
        conditions = self._current()
        cases = conditions.resolved.cases
        self.case = max(0, min(self.case, len(cases) - 1))
        view = self._view(conditions)
        self.page = page(view, glyphs, width)
        # what would stay blank below goes to the two diagrams
        spare = self.app.size.height - AROUND - len(self.page.lines)
        if spare > 1:
            self.page = page(replace(view, tall=view.tall + spare // 2), glyphs, width)
        self.rows.show_rows(self.page.lines, self.page.stops)
        name = ""
        if cases:
            case = cases[self.case]
            name = f": load case {case.number}, {plain(case.name, 30)}" if case.name else f": load case {case.number}"
            name += " at level 1 of its spectrum" if case.bins is not None else ""
        title = f"Shaft{name}, plane {self.plane}"
        right = f"{self.case + 1} of {len(cases)}" if len(cases) > 1 else ""
        self.block("#top", [frame.head(title, right, width), frame.rule(glyphs, width)])
        self.block("#foot", [frame.foot("shaft", width)])

    def show_panel(self) -> None:
        """Follow what the search found: the leading pair, or that there is one at all."""
        self.show_all()

    def _current(self) -> Conditions:
        """Return the conditions of the answers as they stand, made once."""
        from engine.answers.resolved import resolve
        from engine.operating import Conditions

        answers = self.app.session.answers
        if self._conditions is None or self._of is not answers:
            self._conditions, self._of = Conditions.of(resolve(answers)), answers
        return self._conditions

    def _view(self, conditions: Conditions) -> View:
        from engine.checks.bending import MINUTES
        from engine.duty import onshaft
        from engine.duty.deflection import USUAL_LIMITS
        from engine.record.loads import of_duty

        resolved, answers = conditions.resolved, self.app.session.answers
        rows, about = self._pair()
        if not resolved.cases:
            return View(seen.drawn(answers), self.plane, "", missing=resolved.missing)
        acting = onshaft.numbered(resolved.shaft, resolved.cases[self.case])
        arranged = self._arranged(conditions, rows)
        drawn = seen.drawn(answers, acting, arranged[0][1].z if arranged[0][1] is not None and rows else None)
        return View(
            drawn=replace(drawn, supports=_supports(arranged[0][1])),
            plane=self.plane,
            about=f"{about}; {ARRANGED[resolved.arrangement]}" if not resolved.locating else about,
            acting=tuple(self._told(number, element) for number, element in acting),
            arranged=arranged,
            limit=USUAL_LIMITS[0] * MINUTES,
            unfolded=self.unfolded,
            torques=of_duty.balances(conditions)[self.case],
        )

    def _arranged(
        self, conditions: Conditions, rows: tuple[Catalogue, Catalogue] | None
    ) -> tuple[tuple[str, Reactions | None], ...]:
        from engine.record.loads.reactions import reactions

        chosen = conditions.resolved.arrangement
        wanted = [chosen, *(one for one in ARRANGED if one != chosen and self.both)]
        return tuple((one, reactions(conditions, self.case, one, rows)) for one in wanted)

    def _told(self, number: int, element: Element) -> Acting:
        from engine.answers.chapters.element import told

        if not number:
            return Acting(seen.OF_CASE, "forces stated in the case", element)
        answered = self.app.session.answers.shaft.elements[number - 1]
        return Acting(seen.label(number, answered.kind), told(answered), element)

    def _pair(self) -> tuple[tuple[Catalogue, Catalogue] | None, str]:
        """Return the chosen pair, else the leading one, each bearing as a catalogue of one row, and whose they are."""
        catalogue, standing = self.app.search.catalogue, self.app.standing
        listed = standing.current(self.app.session.answers)
        if catalogue is not None and standing.chosen is not None:
            try:
                rows = [catalogue.take([catalogue.index_of(name)]) for name in standing.chosen]
            except Problems:
                pass
            else:
                return (rows[0], rows[1]), _named("chosen pair", rows)
        if catalogue is not None and listed is not None and len(listed.shortlist):
            rows = [catalogue.take([at[0]]) for at in (listed.shortlist.rows_A, listed.shortlist.rows_B)]
            return (rows[0], rows[1]), _named("first pair of the shortlist", rows)
        return None, "No pair yet: the shaft rests on the planes that the distance is measured between"

    def action_next_case(self) -> None:
        """Show the next load case."""
        self._turn(1)

    def action_previous_case(self) -> None:
        """Show the load case before."""
        self._turn(-1)

    def _turn(self, by: int) -> None:
        cases = self._current().resolved.cases if self.page is not None else ()
        if len(cases) > 1:
            self.case = (self.case + by) % len(cases)
            self.show_all()

    def action_plane(self) -> None:
        """Change between the two planes."""
        self.plane = "z" if self.plane == "y" else "y"
        self.show_all()

    def action_arrangement(self) -> None:
        """Set the other arrangement beside this one, or take it away."""
        self.both = not self.both
        self.show_all()

    def action_unfold(self) -> None:
        """Unfold the marked line, or fold it again."""
        fold = self.page.folds.get(self.rows.at, "") if self.page is not None else ""
        if fold:
            self.unfolded = self.unfolded ^ {fold}
            self.show_all()


def _named(what: str, rows: list[Catalogue]) -> str:
    names = (f"{side} {plain(one.designation[0], 24)}" for side, one in zip("AB", rows, strict=True))
    return f"Load centres of the {what}: {', '.join(names)}"


def _supports(made: Reactions | None) -> tuple[Mark, ...]:
    """Return what the bearings put on the shaft: the opposite of what they take."""
    if made is None:
        return ()
    return tuple(
        Mark(side, z, -float(load.R_y), -float(load.R_z))
        for side, z, load in zip("AB", made.z, made.loads, strict=True)
    )
