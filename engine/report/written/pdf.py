"""A report as PDF: the same sections, tables and drawings, set by a library that is installed on demand."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from functools import partial
from typing import TYPE_CHECKING, Any

from engine.errors import Problem, Problems, plain
from engine.report.drawn.shapes import PENS, TALLEST, Area, Circle, Drawing, Line, Pen, Words
from engine.report.parts import Formula, Items, Part, Pictures, Report, Table, Text
from engine.report.written.head import places
from engine.report.written.outline import Outline

if TYPE_CHECKING:
    from fpdf import FPDF

#: A font with more letters than the built-in one, where the system has it.
_FONTS = tuple(
    os.path.join(folder, "DejaVuSans{}.ttf")
    for folder in ("/usr/share/fonts/truetype/dejavu", "/usr/share/fonts/TTF", "/usr/share/fonts/dejavu-sans-fonts",
                   "/Library/Fonts", "C:/Windows/Fonts")
)  # fmt: skip
_POINT = 25.4 / 72
_GREY, _BLACK = (68, 68, 68), (26, 26, 26)
_COLOURS = {"passes": (44, 95, 44), "near": (122, 90, 0), "caution": (122, 90, 0), "fails": (156, 42, 32)}
_MARGIN = 14.0
#: On a sheet of one page a drawing is at most so high [mm]; letters and gaps shrink by these steps until it is one.
_TALLEST_OF_ONE = 42.0
_SHRINKING = (1.0, 0.95, 0.9, 0.85, 0.8, 0.74, 0.68)
#: A number or short word of a table is never broken; a column asks for so much of its longest text at most [mm].
_UNBROKEN, _WIDEST, _BY_HAND = 16, 60.0, 30.0


def written(report: Report) -> bytes:
    """Return the report as PDF; raise Problems where the library is not installed."""
    try:
        from fpdf import FPDF
    except ImportError:
        wrong = "needs a library that is not installed"
        raise Problems(
            [Problem("", None, "--pdf", wrong, "--html, or pip install '.[pdf]' in the folder of the project")]
        ) from None
    for scale in _SHRINKING if report.one_page else (1.0,):
        sheet = _Sheet(FPDF(format="A4", unit="mm"), report, scale)
        sheet.fill()
        if sheet.pdf.page_no() == 1:
            break
    return sheet.content()


class _Sheet:
    """The pages as they fill."""

    def __init__(self, pdf: FPDF, report: Report, scale: float = 1.0) -> None:
        self.pdf, self.report, self.scale = pdf, report, scale
        pdf.set_title(report.title)
        pdf.set_margins(_MARGIN, 9.0 if report.one_page else 14.0)
        pdf.set_auto_page_break(True, 15.0 if report.one_page else 18.0)
        self.font, self.wide = self._font()
        pdf.footer = self._footer  # type: ignore[method-assign]
        pdf.alias_nb_pages()
        self.small = 7.0 * scale if report.one_page else 7.5

    def _font(self) -> tuple[str, bool]:
        for name in _FONTS:
            if os.path.exists(name.format("")) and os.path.exists(name.format("-Bold")):
                self.pdf.add_font("wide", "", name.format(""))
                self.pdf.add_font("wide", "B", name.format("-Bold"))
                return "wide", True
        return "Helvetica", False

    def fill(self) -> None:
        self.pdf.add_page()
        self._write(self.report.title, 16.0, bold=True)
        self._write(self.report.subtitle, 9.0)
        outline = Outline(self.pdf, self.report, self._set, _MARGIN)
        outline.head()
        for section, place in zip(self.report.sections, places(self.report.sections), strict=True):
            self._heading(section.title, partial(outline.section, section, place))
            for part in section.parts:
                self._part(part)
        outline.close()

    def content(self) -> bytes:
        return bytes(self.pdf.output())

    def _text(self, text: str) -> str:
        if self.wide:
            return text
        return text.encode("latin-1", "backslashreplace").decode("latin-1")

    def _write(self, text: str, size: float, bold: bool = False, colour: tuple[int, int, int] = _BLACK) -> None:
        size *= self.scale
        self.pdf.set_font(self.font, "B" if bold else "", size)
        self.pdf.set_text_color(*colour)
        self.pdf.multi_cell(0, size * _POINT * 1.35, self._text(text), align="L", new_x="LMARGIN", new_y="NEXT")

    def _set(self, text: str, size: float, bold: bool) -> str:
        """Set the font for a text; return the text as the font has it."""
        self.pdf.set_font(self.font, "B" if bold else "", size * self.scale)
        self.pdf.set_text_color(*_BLACK)
        return self._text(text)

    def _heading(self, title: str, noted: Callable[[], None]) -> None:
        if not self.report.one_page and self.pdf.will_page_break(26.0):
            self.pdf.add_page()
        self.pdf.ln(1.4 * self.scale if self.report.one_page else 4.0)
        noted()
        self._write(title, 11.5, bold=True)
        y = self.pdf.get_y() + 0.6
        self.pdf.set_draw_color(*_BLACK)
        self.pdf.set_line_width(0.3)
        self.pdf.line(_MARGIN, y, self.pdf.w - _MARGIN, y)
        self.pdf.set_y(y + 1.4 * self.scale)

    def _part(self, part: Part) -> None:
        if isinstance(part, Text):
            self._write(part.words, 9.0, bool(part.state), _COLOURS.get(part.state, _BLACK))
            self.pdf.ln(self.scale)
        elif isinstance(part, Items):
            for words in part.words:
                self._write(f"-  {words}", 8.5)
            self.pdf.ln(self.scale)
        elif isinstance(part, Pictures):
            self._pictures(part)
        elif isinstance(part, Formula):
            self._write(part.head, 8.0)
            self.pdf.set_left_margin(_MARGIN + 5.0)
            self._write("\n".join(part.lines), 8.0, bold=True)
            self.pdf.set_left_margin(_MARGIN)
            self._write(part.symbols, 7.5, colour=_GREY)
            self.pdf.ln(1.6)
        else:
            self._table(part)

    def _table(self, table: Table) -> None:
        self.pdf.set_font(self.font, "", self.small)
        self.pdf.set_text_color(*_BLACK)
        self.pdf.set_draw_color(200, 200, 200)
        self.pdf.set_line_width(0.1)
        numbers = tuple("RIGHT" if at in table.numbers else "LEFT" for at in range(len(table.head)))
        with self.pdf.table(
            col_widths=tuple(self._widths(table)), text_align=numbers, line_height=self.small * _POINT * 1.3,
            borders_layout="HORIZONTAL_LINES", padding=(0.5, 0.8), first_row_as_headings=True,
        ) as made:  # fmt: skip
            made.row([self._text(head) for head in table.head])
            for cells in table.rows:
                row = made.row()
                for cell in cells:
                    row.cell(self._text(cell.text))
        if table.caption:
            self._write(table.caption, 7.0, colour=_GREY)
        self.pdf.ln(1.5 * self.scale)

    def _widths(self, table: Table) -> list[float]:
        """Return the widths of the columns: what must not break fits, and the rest goes where texts are long."""
        room = self.pdf.w - 2 * _MARGIN
        least, wished = [], []
        for at, head in enumerate(table.head):
            self.pdf.set_font(self.font, "B", self.small)
            widest = [self._width_of(head, at in table.numbers)]
            self.pdf.set_font(self.font, "", self.small)
            texts = [cells[at].text for cells in table.rows]
            widest += [self._width_of(text, at in table.numbers) for text in texts]
            # a column left empty is one to write in by hand
            whole = [self.pdf.get_string_width(self._text(text)) for text in texts if text] or [_BY_HAND]
            least.append(max(widest) + 2.4)
            wished.append(min(max(whole), _WIDEST) + 2.4)
        spare = max(room - sum(least), 0.0)
        more = [max(wish - low, 0.0) for wish, low in zip(wished, least, strict=True)]
        total = sum(more) or 1.0
        return [low + spare * extra / total for low, extra in zip(least, more, strict=True)]

    def _width_of(self, text: str, number: bool) -> float:
        pieces = [text] if number and len(text) <= _UNBROKEN else text.split() or [""]
        return float(max(self.pdf.get_string_width(self._text(piece[:_UNBROKEN])) for piece in pieces))

    def _pictures(self, part: Pictures) -> None:
        room = self.pdf.w - 2 * _MARGIN
        tallest = max(one.height for one in part.drawings)
        scale = min(1.0, room / sum(one.width for one in part.drawings), TALLEST / tallest)
        if self.report.one_page:
            scale = min(scale, self.scale * _TALLEST_OF_ONE / tallest)
        height = tallest * scale
        if self.pdf.will_page_break(height + 6.0):
            self.pdf.add_page()
        x, y = _MARGIN, self.pdf.get_y()
        for one in part.drawings:
            self._drawing(one, x, y, scale)
            x += one.width * scale
        self.pdf.set_dash_pattern()
        self.pdf.set_fill_color(255, 255, 255)
        self.pdf.set_y(y + height + 1.0)
        if part.caption:
            self._write(part.caption, 7.0, colour=_GREY)
        self.pdf.ln(1.5 * self.scale)

    def _drawing(self, drawing: Drawing, x: float, y: float, scale: float) -> None:
        for shape in drawing.shapes:
            if isinstance(shape, Words):
                self._words(shape, x, y, scale)
                continue
            style = self._pen(PENS[shape.pen], closed=not isinstance(shape, Line))
            if isinstance(shape, Line | Area):
                points = [(x + scale * px, y + scale * py) for px, py in shape.points]
                if isinstance(shape, Line):
                    self.pdf.polyline(points)
                elif style:
                    self.pdf.polygon(points, style=style)
            elif isinstance(shape, Circle) and style:
                self.pdf.circle(x + scale * shape.x, y + scale * shape.y, scale * shape.radius, style=style)

    def _pen(self, pen: Pen, closed: bool) -> str:
        """Set the colours of a pen; return how fpdf names what it draws."""
        if pen.stroke:
            self.pdf.set_draw_color(*_rgb(pen.stroke))
            self.pdf.set_line_width(pen.width)
        self.pdf.set_dash_pattern(*_dash(pen))
        if closed and pen.fill:
            self.pdf.set_fill_color(*_rgb(pen.fill))
        return ("D" if pen.stroke else "") + ("F" if closed and pen.fill else "")

    def _words(self, words: Words, x: float, y: float, scale: float) -> None:
        size = words.size * scale / _POINT
        self.pdf.set_font(self.font, "", size)
        self.pdf.set_text_color(*_BLACK)
        text = self._text(words.text)
        left = {"start": 0.0, "middle": 0.5, "end": 1.0}[words.anchor] * self.pdf.get_string_width(text)
        at = x + scale * words.x, y + scale * words.y
        if words.upright:
            with self.pdf.rotation(90, *at):
                self.pdf.text(at[0] - left, at[1], text)
        else:
            self.pdf.text(at[0] - left, at[1], text)

    def _footer(self) -> None:
        self.pdf.set_y(-14.0)
        self.pdf.set_font(self.font, "", 6.0)
        self.pdf.set_text_color(*_GREY)
        text = self._text(f"{plain(self.report.foot, 400)}  Page {self.pdf.page_no()} of {{nb}}")
        self.pdf.multi_cell(0, 2.6, text, align="L")


def _rgb(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def _dash(pen: Pen) -> Iterator[Any]:
    """Return dash and gap; of a dash-dot line its dash, since the format of the library knows one of each."""
    if pen.dash:
        yield from pen.dash[:2]
