"""What leads a reader of the PDF: the fields at its head, the list of contents with pages, and the bookmarks."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING

from engine.report.written.head import contents, places

if TYPE_CHECKING:
    from fpdf import FPDF

    from engine.report.parts import Report, Section

_COLUMNS, _LINE, _NUMBER = 2, 4.0, 9.0
_SMALLEST = 3.0
_LABEL, _FIELD = 32.0, 5.6


class Outline:
    """Fields and contents are laid out first; the pages are written into the contents when they are known.

    `set_text` sets a text in a size and returns it as the font has it; `margin` is that of both sides [mm].
    """

    def __init__(self, pdf: FPDF, report: Report, set_text: Callable[[str, float, bool], str], margin: float) -> None:
        self.pdf, self.report, self.set_text, self.margin = pdf, report, set_text, margin
        self.links = {place: pdf.add_link() for place in places(report.sections)}
        self.pages: dict[str, int] = {}
        self.listed: list[tuple[str, int, float, float]] = []
        self.group = ""

    def head(self) -> None:
        """Lay out fields and contents where the page stands; nothing for a report without fields."""
        if self.report.papers:
            self._fields()
            self._contents()

    def _column(self) -> float:
        return float(self.pdf.w - 2 * self.margin) / _COLUMNS

    def _fields(self) -> None:
        top, wide = self.pdf.get_y() + 2.0, self._column()
        self.pdf.set_draw_color(136, 136, 136)
        self.pdf.set_line_width(0.1)
        for at, (name, said) in enumerate(self.report.papers):
            x, y = self.margin + wide * (at % _COLUMNS), top + _FIELD * (at // _COLUMNS)
            self._cell(x, y, _LABEL, name)
            self._cell(x + _LABEL, y, wide - _LABEL - 4.0, said, bold=True)
            self.pdf.line(x, y + _FIELD - 0.6, x + wide - 4.0, y + _FIELD - 0.6)
        self.pdf.set_xy(self.margin, top + _FIELD * math.ceil(len(self.report.papers) / _COLUMNS) + 2.0)

    def _contents(self) -> None:
        lines: list[tuple[str, str]] = []
        for group, listed in contents(self.report.sections):
            lines += [(group, ""), *listed]
        room = int((self.pdf.h - self.pdf.b_margin - self.pdf.get_y()) / _LINE)
        while lines:
            here, lines = lines[: _COLUMNS * room], lines[_COLUMNS * room :]
            deep = min(room, math.ceil(len(here) / _COLUMNS))
            self._columns(here, deep)
            if lines:
                self.pdf.add_page()
                room = int((self.pdf.h - self.pdf.b_margin - self.pdf.get_y()) / _LINE)

    def _columns(self, lines: list[tuple[str, str]], deep: int) -> None:
        top, wide = self.pdf.get_y(), self._column()
        for at, (words, place) in enumerate(lines):
            x, y = self.margin + wide * (at // deep), top + _LINE * (at % deep)
            if not place:
                self._cell(x, y, wide - _NUMBER, words, bold=True)
                continue
            self._cell(x + 3.0, y, wide - _NUMBER - 6.0, words, link=self.links[place])
            self.listed.append((place, self.pdf.page, x + wide - _NUMBER - 3.0, y))
        self.pdf.set_xy(self.margin, top + _LINE * deep + 1.0)

    def _cell(self, x: float, y: float, wide: float, words: str, bold: bool = False, link: int | None = None) -> None:
        text = self.set_text(words, 8.0, bold)
        whole = self.pdf.get_string_width(text)
        if whole > wide - 2.0:  # smaller letters rather than words cut off
            text = self.set_text(words, max(8.0 * (wide - 2.0) / whole, _SMALLEST), bold)
        self.pdf.set_xy(x, y)
        self.pdf.cell(wide, _LINE, text, link=link or "")

    def section(self, section: Section, place: str) -> None:
        """Note that a section begins here, and put its bookmark."""
        self.pdf.set_link(self.links[place])
        self.pages[place] = self.pdf.page
        if not self.report.papers:
            return
        if section.group != self.group:
            self.group = section.group
            self.pdf.start_section(section.group, 0)
        self.pdf.start_section(section.title, 1)

    def close(self) -> None:
        """Write the pages into the contents."""
        last = self.pdf.page
        for place, page, x, y in self.listed:
            self.pdf.page = page
            self.set_text("", 8.0, False)
            self.pdf.set_xy(x, y)
            self.pdf.cell(_NUMBER, _LINE, str(self.pages[place]), align="R", link=self.links[place])
        self.pdf.page = last
