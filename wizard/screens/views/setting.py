"""The setting of one pair: what the load distribution says of it, or how far its computing is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.errors import plain
from wizard.screens import frame
from wizard.screens.every.text import ReadScreen
from wizard.screens.views.setting_lines import View, page, worst_case
from wizard.search import Counted
from wizard.studies.distributions import Done, Led, Progress, Studied
from wizard.widgets.lines import Line, line, wrapped

if TYPE_CHECKING:
    from engine.record.result import Result
    from wizard.search import Found


class SettingScreen(ReadScreen):
    """A page to read; it fills when the load distribution has been computed."""

    PLACE = "setting"

    def __init__(self) -> None:
        super().__init__()
        self.pair: tuple[str, str] | None = None
        self.result: Result | None = None
        self.view = View()
        self.stale = False  # whether the answers have changed since

    def show_pair(self, pair: tuple[str, str] | None) -> None:
        """Take the pair to be shown; what is not known of it is computed next."""
        self.pair = pair
        self._take(self.app.pairs.look(pair) if pair is not None else None)

    def _take(self, result: Result | None) -> None:
        self.result = result
        if result is not None and result.study is not None:
            self.view = View(worst_case(result.study), self.view.inch)

    def heard(self, found: Found) -> None:
        """Show what was found meanwhile."""
        if self.stale and isinstance(found, Counted):
            self.stale = False
            self.show_pair(self.pair)
            self.show_all()
        elif isinstance(found, Progress | Studied | Led | Done) and self._waits_for(found):
            self.show_all()

    def changed(self, label: str) -> None:
        """Compute the setting anew once the answers that were taken back or brought back are counted."""
        self.stale, self.result = True, None
        super().changed(label)

    def _waits_for(self, found: Found) -> bool:
        return self.result is None or (isinstance(found, Studied) and found.pair == self.pair)

    def show_all(self) -> None:
        """Bring every block up to date."""
        width = self.width
        if width <= 0:
            return
        if self.result is None and self.pair is not None:
            # it may have been found before this screen was in front
            self._take(self.app.search.studies.known(self.pair))
        names = "no pair" if self.pair is None else f"A {plain(self.pair[0], 24)}, B {plain(self.pair[1], 24)}"
        self.show_text(self._lines(width))
        self.show_title(frame.head(f"Setting: {names}", "", width))

    def _lines(self, width: int) -> list[Line]:
        standing = self.app.standing
        if self.result is not None and self.result.study is not None:
            return page(self.result.study, self.view, self.app.glyphs, width)
        if self.pair is None:
            text = "No pair is chosen and none is listed yet: answer the duty, then look again."
            return [line(f" {part}", "caution") for part in wrapped(text, width - 2)]
        if self.result is not None:
            found = [*self.result.missing, *self.result.cautions[-1:]]
            return [line(f" {part}", "caution") for one in found for part in wrapped(plain(one, 300), width - 2)]
        if standing.counted is not None and not standing.counted.resolved.loads_known:
            return [line(" The loads are not yet known.", "caution")]
        if standing.halted:
            return [line(" Stopped before it was computed; x goes on.", "caution")]
        bar = frame.progress(standing, self.app.glyphs, self.pair)
        text = f"load distribution {bar}   x stops it, Esc leaves it running"
        return [line(f" {text}"[:width], "quiet")]

    def action_next_case(self) -> None:
        """Show the rollers in the next load case."""
        if self.result is not None and self.result.study is not None:
            cases = len(self.result.study.conditions.cases)
            self.view = View((self.view.case + 1) % cases, self.view.inch)
            self.show_all()

    def action_units(self) -> None:
        """Change between millimetres and inches."""
        self.view = View(self.view.case, not self.view.inch)
        self.show_all()

    def action_halt(self) -> None:
        """Stop the computing, or go on with it."""
        self.app.pairs.halt_or_resume(self.app.session.answers, self.pair if self.result is None else None)
        self.show_all()
