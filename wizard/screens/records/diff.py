"""The record of the session held against another one: answers, choice, figures."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from engine.errors import Problems, plain
from wizard.screens.choosing.asking import Work
from wizard.screens.records.told import ToldScreen
from wizard.session import record_path
from wizard.widgets.entry import Entry
from wizard.widgets.lines import Line, line

if TYPE_CHECKING:
    from collections.abc import Sequence

    from engine.record.compared.difference import Difference
    from engine.record.document import Record

LONGEST_PATH = 300
WHAT_IS_TYPED = "File name of the other record (.toml); Enter compares, Esc leaves it as it was."


class DiffScreen(ToldScreen):
    """What `conewright diff` says of the session's record, A, and another, B, whose file is typed."""

    PLACE = "diff"

    found: tuple[Difference, list[str]] | None

    def __init__(self) -> None:
        super().__init__()
        self.other: tuple[Record, Path] | None = None

    def begin(self) -> None:
        """Begin with an empty line. Done before the screen opens: the next keys may already be on their way."""
        self.forget()
        self.other, self.message = None, ("", "plain")
        self.entering, self.entry = "other", Entry(longest=LONGEST_PATH)

    def work(self) -> Work | None:
        """Return the question how the two differ."""
        compared, session, other = self.app.beginning.compared, self.app.session, self.other
        return None if compared is None or other is None else lambda _: compared(session, *other)

    def subject(self) -> str:
        """Say what is compared."""
        with_what = f" with {plain(self.other[1].name, 60)}" if self.other is not None else " with another record"
        return f"Diff of {plain(self.app.session.path.name, 60)}{with_what}"

    @property
    def good(self) -> bool:
        """Whether nothing differs."""
        return self.found is not None and self.found[0].same

    def text(self, width: int) -> str:
        """Return the difference in words."""
        from engine.report.compared import difference_text

        assert self.found is not None and self.other is not None
        difference, notes = self.found
        record, path = self.other
        unused = [f"{path.name}: {one}" for one in record.unused.cautions]
        return difference_text(difference, (self.app.session.path.name, str(path)), [*notes, *unused], width)

    def page(self, width: int) -> tuple[list[Line], Sequence[int]]:
        """Return what is told; before a file is named, nothing."""
        return super().page(width) if self.other is not None else ([line("")], [])

    def about(self) -> str:
        """Say what can be typed."""
        return WHAT_IS_TYPED if self.entering else ""

    # keys

    def action_name(self) -> None:
        """Type the file of another record."""
        self.begin_entry("other", str(self.other[1]) if self.other is not None else "", LONGEST_PATH)
        self.marked_another()

    def submit_entry(self) -> None:
        """Compare with the record in the file typed; where it cannot be read, say why and leave the name there."""
        from engine.record.read import read

        text = self.entry.text.strip()
        if not text:
            self.leave_entry()
            return
        path = record_path(text)
        try:
            record = read(path)
        except Problems as problems:
            first, more = problems.problems[0], len(problems.problems) + problems.more - 1
            # where it lies stands in the entry line
            self.say(f"{replace(first, path=path.name)}{f', and {more} more' if more else ''}", "fails")
            return
        self.other = record, path
        self.taken()

    def leave_entry(self) -> None:
        """Leave what was compared before; where nothing was, go back."""
        self.left_as_it_was(self.other is not None)

    def entry_edited(self) -> None:
        """Say again what can be typed."""
        self.marked_another()
