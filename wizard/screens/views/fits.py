"""The fits of a pair in a picture: zones to scale, how tight, and both steels; plus and minus move along the ladder."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from engine.errors import plain
from wizard import wording
from wizard.screens import frame
from wizard.screens.every.text import ReadScreen
from wizard.widgets import fits as drawn
from wizard.widgets.lines import Line, line, wrapped
from wizard.widgets.steels import columns as steel_columns

if TYPE_CHECKING:
    from engine.checks.every import Evaluated
    from engine.operating import Conditions, Loads
    from engine.report.fits.ladder import Ladder
    from wizard.glyphs import Glyphs

#: The seats in the order in which they are walked: ring, side, question.
SEATS = (
    ("cone", "A", "fits.shaft_fit_a"),
    ("cone", "B", "fits.shaft_fit_b"),
    ("cup", "A", "fits.housing_fit_a"),
    ("cup", "B", "fits.housing_fit_b"),
)


class FitsScreen(ReadScreen):
    """One seat at a time of the chosen pair, or of the leading one."""

    PLACE = "fits"

    def __init__(self) -> None:
        super().__init__()
        self.at = 0
        self.pair: tuple[str, str] | None = None  # kept while the fit is moved, so that one pair is compared
        self.chosen = False
        self.ladder: Ladder | None = None
        self.message = ""  # why a step was refused

    def on_screen_resume(self) -> None:
        """Take the pair that is chosen, else the one that leads now, and show it from the top."""
        self.rows.at, self.message = 0, ""
        self.pair, self.chosen = self._wanted()
        self.show_all()

    def _wanted(self) -> tuple[tuple[str, str] | None, bool]:
        standing, session = self.app.standing, self.app.session
        if session.chosen is not None:
            return session.chosen, True
        # the pair that led before the last answer will do while the search goes on
        listed = standing.listed
        if listed is None or listed.answers.choice.catalogue != session.answers.choice.catalogue:
            return None, False
        if not len(listed.shortlist):
            return None, False
        of = listed.shortlist.evaluated
        return (str(of.A.designation[0]), str(of.B.designation[0])), False

    def show_all(self) -> None:
        """Bring every block up to date."""
        width = self.width
        if width <= 0:
            return
        self.show_text(self._lines(width))
        self.show_panel()

    def show_panel(self) -> None:
        """Show whose seat it is, and how many pairs the fit leaves; a pair that has come to lead is taken."""
        if self.pair is None:
            self.pair, self.chosen = self._wanted()
            if self.pair is not None:
                self.show_all()
                return
        width, counted = self.width, self.app.standing.counted
        ring, side, _ = SEATS[self.at]
        name = plain(self.pair["AB".index(side)], 24) if self.pair else ""
        which = "chosen" if self.chosen else "first of the shortlist"
        title = f"{'Cone on the shaft' if ring == 'cone' else 'Cup in the housing'} at {side}"
        title += f": {name}, {which}" if name else ""
        right = wording.counted(counted.count, "pair", "pairs") if counted is not None else ""
        self.show_title(frame.head(title, right, width))

    def _lines(self, width: int) -> list[Line]:
        rows = self.app.search.catalogue
        if rows is None:
            return [line("Reading the catalogue ...", "quiet")]
        if self.pair is None:
            text = "No pair leads yet: choose one in the shortlist (s), or give a bore or a load first."
            return [line(f" {part}", "caution") for part in wrapped(text, width - 2)]
        from engine.answers.resolved import resolve
        from engine.checks.every import evaluate
        from engine.errors import Problems
        from engine.operating import Conditions
        from engine.report.fits.ladder import ladder

        try:
            taken = [rows.take([rows.index_of(name)]) for name in self.pair]
        except Problems as problems:
            return [line(f" {part}", "fails") for part in wrapped(str(problems), width - 2)]
        conditions = Conditions.of(resolve(self.app.session.answers))
        evaluated = evaluate(taken[0], taken[1], conditions)
        ring, side, _ = SEATS[self.at]
        loads = evaluated.loads["AB".index(side)] if evaluated.loads is not None else None
        self.ladder = ladder((taken[0], taken[1]), ring, side, loads, conditions)
        refused = _words(self.message, "fails", width) if self.message else []
        return [
            *refused,
            *_seat_lines(self.ladder, self.app.glyphs, width),
            *self._said(evaluated, loads, conditions, width),
        ]

    def _said(self, evaluated: Evaluated, loads: Loads | None, conditions: Conditions, width: int) -> list[Line]:
        """Return what follows in words: twin limits, both steels, and what the fit rules out of the catalogue."""
        from engine.record.seats import both_steels, cautions, form, steels, twins
        from engine.record.seats.fit import Fit
        from engine.steel.verdict import SIMILAR_LIFE

        ring, side, _ = SEATS[self.at]
        lines: list[Line] = []
        fit = Fit.both(ring, evaluated, conditions)["AB".index(side)]
        of = twins.twins(fit, loads)
        if of is not None:
            lines += drawn.systems(of, twins.lines(of), width)
            lines += _words(f"The metric limits on the inch ring: {of.follows}", "caution", width)
        lines += _words(form.sentence(fit), "plain", width)
        lines.append(line(f" Which steel at {side}: what each is asked of what it allows", "heading"))
        lines += steel_columns(both_steels.side_by_side(evaluated, conditions, side), self.app.glyphs, width)
        lines += _words(SIMILAR_LIFE, "quiet", width)
        for sentence in steels.not_at_hand(evaluated, conditions, side):
            lines += _words(sentence, "caution", width)
        rows = self.app.search.catalogue
        assert rows is not None
        lines += _words(cautions.ruled_out(rows, side, conditions, loads), "quiet", width)
        return lines

    def _step(self, by: int) -> None:
        if self.ladder is None:
            return
        to = self.ladder.at + by
        if not 0 <= to < len(self.ladder.rungs):
            return
        self._put(SEATS[self.at][2], self.ladder.rungs[to].name)

    def _put(self, path: str, name: str | None) -> None:
        from engine.answers.question import Refused

        session = self.app.session
        self.message = ""
        try:
            if name is None:
                session.clear(path)
            else:
                session.answer(path, name)
        except Refused as error:
            self.message = f"{error.wrong}. Accepted: {error.accepted}"
        else:
            self.app.answered()
        self.show_all()

    def action_tighter(self) -> None:
        """Take the next tighter class."""
        self._step(1)

    def action_looser(self) -> None:
        """Take the next looser class."""
        self._step(-1)

    def action_recommended(self) -> None:
        """Go back to the class that is recommended."""
        self._put(SEATS[self.at][2], None)

    def _go(self, by: int) -> None:
        self.at, self.message = (self.at + by) % len(SEATS), ""
        self.rows.at = 0
        self.show_all()

    def action_next_seat(self) -> None:
        """See the next seat."""
        self._go(1)

    def action_previous_seat(self) -> None:
        """See the seat before."""
        self._go(-1)


def _words(text: str, meaning: str, width: int) -> list[Line]:
    first, *rest = wrapped(plain(text, 1000), width - 4)
    return [line(f" {first}", meaning), *(line(f"   {part}", meaning) for part in rest)]


def _seat_lines(ladder: Ladder, glyphs: Glyphs, width: int) -> list[Line]:
    how = "recommended" if ladder.recommended else "answered"
    load = {"point": "point load: need not hold", "circumferential": "the load goes round it"}.get(
        ladder.load, "the load may go round it"
    )
    title = f" {ladder.here.name}, {how}; {ladder.size:g} mm; {load}"
    return [
        line(title, "heading"),
        *drawn.picture(ladder, glyphs, width),
        *drawn.table(ladder, glyphs, width),
        *_words(_of_play(ladder), "quiet", width),
    ]


def _of_play(ladder: Ladder) -> str:
    """Return what the play left running is, and which of its two columns holds as the setting is made."""
    if math.isnan(ladder.here.left[0]):
        return "Play running: not known before loads, distance and the rollers of both bearings are"
    loose, seated = ("", ", as here") if ladder.seated else (", as here", "")
    return (
        f"Play running: end play of the pair in service, preload below 0, from {ladder.bench:.0f} um on the bench, set "
        f"on loose rings before the fit squeezes them{loose}, or on seated ones{seated}"
    )
