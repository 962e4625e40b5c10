"""One assembly: its section to scale, and its neighbours in the other measuring system and in angle."""

from __future__ import annotations

from engine.errors import plain
from wizard.screens import frame, parts
from wizard.screens.base import PageScreen
from wizard.widgets.lines import Line, line, wrapped
from wizard.widgets.profile import Sizes
from wizard.widgets.section import LEAST_HEIGHT, section

#: Lines of the drawing on a screen of the usual height, and lines of the head, the foot and what follows the drawing
#: up to the first neighbour, which all show at once.
DRAWING, BESIDE, LOW = 16, 6, 24
NEIGHBOURS = 5


class SectionScreen(PageScreen):
    """A drawing and a list of neighbours that can be opened in turn."""

    PLACE = "section"

    def __init__(self) -> None:
        super().__init__()
        self.at = 0  # the catalogue row
        self.inch = False
        self.neighbours: dict[int, int] = {}  # line to catalogue row

    def show_all(self) -> None:
        """Bring every block up to date."""
        rows, width, glyphs = self.app.search.catalogue, self.width, self.app.glyphs
        if rows is None:
            return
        title = plain(rows.designation[self.at], 60)
        self.block("#top", [frame.head(title, "", width), frame.rule(glyphs, width)])
        told = [parts.about, parts.masses, parts.execution]
        words = [part for of in told for part in wrapped(of(rows, self.at), width - 2)]
        # on a low screen what is told follows the neighbours, so that the drawing is whole
        whole = self.app.size.height
        before = words if whole >= LOW else []
        height = max(LEAST_HEIGHT, min(max(DRAWING, whole // 2), whole - BESIDE - len(before)))
        drawn = section(Sizes.of(rows, self.at), max(20, width - 2), height, glyphs, self.inch)
        lines: list[Line] = [line(text) for text in drawn]
        lines.append(line(f" {parts.chamfers(rows, self.at, self.inch)}"))
        lines += [line(f" {part}") for part in before]
        self.neighbours = {}
        for heading, found in self._neighbours():
            lines.append(line(f" {heading}", "heading"))
            for at in found:
                self.neighbours[len(lines)] = at
                lines.append(parts.row_line(rows, at, parts.View(inch=self.inch), width))
            if not found:
                lines.append(line("  none", "quiet"))
        stops = list(self.neighbours)
        if not before:
            lines.append(line(" What it is", "heading"))
            stops += range(len(lines), len(lines) + len(words))
            lines += [line(f" {part}") for part in words]
        self.rows.show_rows(lines, stops)
        self.block("#foot", [frame.foot("section", width)])

    def _neighbours(self) -> list[tuple[str, list[int]]]:
        from engine.catalogue import equivalents

        rows = self.app.search.catalogue
        assert rows is not None
        other = equivalents.nearest_in_other_system(rows, self.at, NEIGHBOURS)
        found = [("Nearest in the other system", [int(at) for at in other.rows])]
        for how in ("steeper", "shallower", "lighter"):
            near = equivalents.like_this_but(rows, self.at, how, NEIGHBOURS)
            found.append((f"Like this one but {how}", [int(at) for at in near.rows]))
        return found

    def action_units(self) -> None:
        """Change between millimetres and inches."""
        self.inch = not self.inch
        self.show_all()

    def action_open(self) -> None:
        """Look at the marked neighbour."""
        at = self.neighbours.get(self.rows.at)
        if at is not None:
            self.at = at
            self.rows.at = 0
            self.show_all()

    def action_why(self) -> None:
        """See why this part is in no pair that passes."""
        self.app.show_why_part(self.at)
