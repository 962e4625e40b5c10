"""Lubrication of one pair drawn: viscosity and heat over temperature, and the changes that its figures ask for."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from engine.errors import plain
from engine.units import number_text
from wizard.screens import frame
from wizard.screens.base import KeyedScreen
from wizard.search import Drawn
from wizard.widgets.lines import Line, Lines, Rows, fitted, line, wrapped
from wizard.widgets.plot import Axis, Curve, legend, plot

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from engine.advising.curves import Heats, Place, Viscosities
    from engine.advising.view import View
    from wizard.search import Found

#: Lines of the plots: whole powers of ten need more, and of heat more is said below.
TALL, HEAT = 11, 8
_TEMPERATURE = Axis("temperature", "degC")


def page(view: View, fresh: bool, width: int) -> tuple[list[Line], list[int], dict[int, int]]:
    """Return the lines, those that can be marked, and which proposal stands on which line."""
    lines: list[Line] = []
    stops: list[int] = []
    at: dict[int, int] = {}
    heading = "What the figures ask for; a digit does it, u undoes it" if fresh else "Computing anew ..."
    lines.append(line(fitted(f" {heading}", width), "heading"))
    for number, one in enumerate(view.proposals):
        first, *more = wrapped(f"{one.label}: {one.effect}", width - 5)
        at[len(lines)] = number
        stops.append(len(lines))
        lines.append(((f"  {number + 1} ", "key"), (fitted(plain(first, 300), width - 4), "plain")))
        lines += [line(f"    {plain(part, 300)}") for part in more]
    if not view.proposals:
        stops.append(len(lines))
        lines.append(line(f"  {'Nothing' if view.names[0] else 'No pair is known yet, so nothing'}.", "quiet"))
    for block in (_viscosity(view.viscosities, width), *(_heat(one, width) for one in view.heats), _clean(view, width)):
        lines.append(line(""))
        stops.append(len(lines))
        lines += block
        stops.append(len(lines) - 1)  # the last line, so that the whole block can be brought into view
    return lines, sorted(set(stops)), at


def _viscosity(found: Viscosities, width: int) -> list[Line]:
    curves = [Curve(found.T.tolist(), found.nu.tolist(), "*", "the oil")]
    ends = [float(found.T[0]), float(found.T[-1])]
    for place, sign in zip(found.places, "=-", strict=False):
        if math.isfinite(place.nu1):
            curves.append(Curve(ends, [place.nu1] * 2, sign, f"nu1 of {place.side}"))
    curves += [Curve([place.T], [place.nu], place.side) for place in found.places]
    up = Axis("viscosity", "mm2/s", log=True)
    lines = [line(fitted(f" Viscosity of {plain(found.name)} over temperature", width), "heading")]
    lines += [legend(curves, up, width), *plot(curves, _TEMPERATURE, up, width, TALL)]
    lines += [line(fitted(_said(place), width)) for place in found.places]
    return lines


def _said(place: Place) -> str:
    if not math.isfinite(place.T):
        return f" {place.side}, {plain(place.case, 30)}: no temperature settles"
    return (
        f" {place.side} at {place.T:.0f} degC ({plain(place.case, 24)}): nu {number_text(place.nu, 3)}, "
        f"nu1 {number_text(place.nu1, 3)} mm2/s, kappa {number_text(place.kappa, 3)}"
    )


def _heat(found: Heats, width: int) -> list[Line]:
    T = found.T.tolist()
    curves = [Curve(T, found.made.tolist(), "*", "made"), Curve(T, found.shed.tolist(), "o", "carried away")]
    settles = math.isfinite(found.settled)
    if settles:
        at = min(range(len(T)), key=lambda i: abs(T[i] - found.settled))
        curves.append(Curve([found.settled], [float(found.shed[at])], "X", "settled"))
    if math.isfinite(found.stated):
        curves.append(Curve([found.stated], [found.made_there], "S", "stated"))
    # the axis ends where the heat made does, else cooling alone would fill the plot
    most = 1.3 * max([*found.made.tolist(), found.made_there if math.isfinite(found.made_there) else 0.0, 1e-9])
    up = Axis("heat", "W", least=0.0, greatest=most)
    where = "both bearings in one housing" if found.side == "both" else f"the housing of {found.side}"
    lines = [line(fitted(f" Heat of {where} over temperature, {plain(found.case, 24)}", width), "heading")]
    lines += [legend(curves, up, width), *plot(curves, _TEMPERATURE, up, width, HEAT)]
    told = f"settles at {found.settled:.0f} degC" if settles else found.said
    texts = [f"Cooled by {found.by}: {told}."]
    if math.isfinite(found.stated):
        texts.append(
            f"The checks use the stated {found.stated:.0f} degC; there friction makes "
            f"{number_text(found.made_there, 3)} W. Answer 'settled by heat balance' to use each pair's own instead."
        )
    else:
        texts.append("The checks use this temperature, each pair its own.")
    lines += [line(f" {part}") for text in texts for part in wrapped(plain(text, 400), width - 2)]
    return lines


def _clean(view: View, width: int) -> list[Line]:
    lines = [line(" How clean it is", "heading")]
    lines += [line(fitted(f" {plain(said, 60)}: {level}", width)) for said, level in view.cleanliness]
    return lines


class LubricationScreen(KeyedScreen):
    """The chosen or leading pair's lubrication; a digit makes one of the proposed changes."""

    PLACE = "lubrication"

    def heard(self, found: Found) -> None:
        """Show a new drawing."""
        if isinstance(found, Drawn):
            self.show_all()

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="top")
        yield Rows(meanings, id="rows")
        yield Lines(meanings, id="panel")
        yield Lines(meanings, id="foot")

    @property
    def view(self) -> View | None:
        """What was computed last."""
        drawn = self.app.standing.drawn
        return drawn.view if drawn is not None else None

    @property
    def fresh(self) -> bool:
        """Whether what is shown belongs to the answers as they stand."""
        drawn = self.app.standing.drawn
        return drawn is not None and drawn.answers is self.app.session.answers

    def on_screen_resume(self) -> None:
        """Show from the top what has been computed."""
        self.rows.at = 0
        self.show_all()

    def show_all(self) -> None:
        """Bring every block up to date."""
        width, view = self.width, self.view
        if width <= 0 or not self.is_mounted:
            return
        self.places: dict[int, int] = {}
        if view is None:
            title, lines, stops = "Lubrication", [line(" Computing ...", "quiet")], [0]
        else:
            lines, stops, self.places = page(view, self.fresh, width)
            which = "chosen" if view.chosen else "leading"
            title = f"Lubrication: {which} A {view.names[0]}, B {view.names[1]}" if view.names[0] else "Lubrication"
        self.block("#top", [frame.head(plain(title, 200), "", width), frame.rule(self.app.glyphs, width)])
        self.rows.show_rows(lines, stops)
        self.show_panel()
        self.block("#foot", [frame.foot(self.PLACE, width)])

    def show_panel(self) -> None:
        """Show how many pairs remain."""
        self.block("#panel", frame.panel(self.app.standing, self.app.glyphs, self.width))

    def typed(self, text: str) -> None:
        """Make the change of a digit."""
        if text in set("123456789"):
            self._apply(int(text) - 1)

    def action_apply(self) -> None:
        """Make the marked change."""
        self._apply(self.places.get(self.rows.at))

    def _apply(self, number: int | None) -> None:
        view = self.view
        if number is None or view is None or not self.fresh or number >= len(view.proposals):
            return
        proposal = view.proposals[number]
        self.app.session.take(proposal.changes, proposal.label)
        self.app.answered()
        self.rows.step("end", -1)
        self.show_all()
