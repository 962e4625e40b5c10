"""A CSV file of duties to records: one row a duty, over what a base record says of all of them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import msgspec

from engine.answers.document import Answers, items_at, listing_at, with_items
from engine.answers.lubricated.kinds import FromList
from engine.answers.lubricated.own import OwnLubricant
from engine.answers.question import Refused
from engine.catalogue.intake.text import LARGEST_FILE, Headers, table_of
from engine.catalogue.trouble import Trouble
from engine.errors import Problem, Problems
from engine.record.document import Record
from engine.record.many.columns import Column, columns_of, known_in

_HEADERS = Headers(known_in, 1, "duty.distance_mm, duty.cases[0].speed_rpm, duty.cases[0].radial_y_N")


@dataclass(frozen=True)
class Row:
    """One row of a file: its line, what its cells hold, and how many they are where that is more than the header's."""

    line: int
    cells: tuple[str, ...]
    overlong: int = 0


@dataclass(frozen=True)
class Duties:
    """A file of duties read as text; each row becomes a record when its turn comes."""

    file: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    base: Answers
    decimal_comma: bool
    notes: tuple[str, ...]
    own: Mapping[str, OwnLubricant] = field(default_factory=dict)  # lubricants of the user's own, by name

    def name_of(self, row: Row) -> str:
        """Return what the row calls itself, or ""."""
        return next((row.cells[one.at].strip() for one in self.columns if one.place is None and row.cells), "")

    def record(self, row: Row) -> Record:
        """Return the record of a row; raise Problems with its line and columns."""
        if row.overlong:
            wrong = f"{row.overlong} cells are more than the header has"
            raise Problems([Problem(self.file, row.line, "", wrong, "a cell for each header")])
        tables: dict[_At, dict[str, dict[str, Any]]] = {}
        for one in self.columns:
            text = row.cells[one.at].strip()
            if one.place is not None and text:
                at = (one.place.chapter, one.place.listed, one.item)
                stated = tables.setdefault(at, {}).setdefault(one.place.name, {})
                stated[one.place.key] = one.value(text, self.decimal_comma)
        problems: list[Problem] = []
        answers = self.base
        for at, stated in tables.items():
            answers = _answered(answers, at, self._values(at, stated, row.line, problems))
        if problems:
            raise Problems(problems)
        return Record(answers)

    def _values(
        self, at: "_At", stated: Mapping[str, Mapping[str, Any]], line: int, problems: list[Problem]
    ) -> dict[str, Any]:
        """Return the answers of one table; what a row states of a question takes the place of all the base says."""
        found: dict[str, Any] = {}
        for name, table in stated.items():
            columns = [one for one in self.columns if one.place and (*_at(one), one.place.name) == (*at, name)]
            question = next(one.place.question for one in columns if one.place)
            try:
                chosen = self.own.get(str(table.get(name))) if isinstance(question, FromList) else None
                found[name] = chosen or question.from_plain(name, table)
            except Refused as error:
                header = next(one.header for one in columns if one.place and one.place.key in table)
                wrong = f"{question.label}: {error.wrong}"
                problems.append(Problem(self.file, line, header, wrong, error.accepted, is_column=True))
        return found


_At = tuple[str, str, int]


def _at(column: Column) -> _At:
    assert column.place is not None
    return column.place.chapter, column.place.listed, column.item


def _answered(answers: Answers, at: _At, values: Mapping[str, Any]) -> Answers:
    """Return the answers with some of one table changed, items added up to the one that is meant."""
    chapter, listed, item = at
    if not listed:
        changed = msgspec.structs.replace(getattr(answers, chapter), **values)
        return msgspec.structs.replace(answers, **{chapter: changed})
    path = f"{chapter}.{listed}"
    items = list(items_at(answers, path))
    items += [listing_at(path).of() for _ in range(item + 1 - len(items))]
    items[item] = msgspec.structs.replace(items[item], **values)
    return with_items(answers, path, items)


def read(path: Path, base: Record | None = None, own: Sequence[OwnLubricant] = ()) -> Duties:
    """Return the duties in a file; raise Problems where its header or the file as a whole cannot be used.

    `own` are lubricants of the user's own list, which a cell may name as it may a built-in one.
    """
    trouble = Trouble(str(path))
    table = table_of(str(path), trouble.content_of(path, LARGEST_FILE), trouble, _HEADERS)
    columns = columns_of(table.header, table.header_line, trouble)
    rows = [Row(line, tuple(cells)) for line, cells in zip(table.lines, table.rows, strict=True)]
    rows += [Row(line, (), count) for line, count in table.overlong]
    rows.sort(key=lambda row: row.line)
    answers = base.answers if base is not None else Answers()
    offered = {one.name: one for one in own}
    return Duties(str(path), tuple(columns), tuple(rows), answers, table.delimiter == ";", table.notes, offered)
