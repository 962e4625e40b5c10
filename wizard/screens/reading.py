"""What a designation says: its readings, where each rule comes from, and what in the catalogue has those sizes."""

from __future__ import annotations

from engine.errors import plain
from wizard.screens import frame
from wizard.screens.every.text import ReadScreen
from wizard.widgets.lines import Line, cut, line, wrapped


class ReadingScreen(ReadScreen):
    """A page to read."""

    PLACE = "reading"

    def __init__(self) -> None:
        super().__init__()
        self.text = ""

    def show_all(self) -> None:
        """Bring every block up to date."""
        width = self.width
        self.show_text(self._lines(width))
        self.show_title(frame.head(f"Designation {plain(self.text, 60)}", "", width))

    def _lines(self, width: int) -> list[Line]:
        from engine.catalogue.designation import decode, refusal
        from engine.report.reading import WIDTH, by_name, described, names

        rows = self.app.search.catalogue
        if rows is None:
            return [line("Reading the catalogue ...", "quiet")]
        readings = decode(self.text)
        named = [] if readings else by_name(self.text, rows)
        if named:
            return [line(cut(named[0], width), "heading"), *(line(cut(text, width)) for text in named[1:])]
        if not readings:
            return [line(f" {part}", "caution") for part in wrapped(str(refusal(self.text, names(rows))), width - 2)]
        lines: list[Line] = []
        for reading in readings:
            title, *rest = described(reading, rows, min(width, WIDTH))
            lines += [line(cut(title, width), "heading"), *(line(cut(text, width)) for text in rest), line("")]
        return lines[:-1]
