"""Headers of a table of duties: each is the key path of an answer as a record writes it."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from typing import get_type_hints

from engine.answers.binned import Histogram
from engine.answers.document import Answers, listing_at, listings_of, questions_of
from engine.answers.measured import Measure, Span
from engine.answers.question import Question
from engine.answers.worded import YesNo
from engine.catalogue.trouble import Trouble

#: A column that is no answer: what its cells hold is handed on to the result, so that a row is known again.
NAME = "id"
_AT = re.compile(r"\[(\d{1,4})\]")
_YES_NO = {"yes": True, "true": True, "no": False, "false": False}


@dataclass(frozen=True)
class Place:
    """Where an answer stands: chapter, list or "", its key in a record, and the question with the field's name."""

    chapter: str
    listed: str
    key: str
    name: str
    question: Question

    @property
    def path(self) -> str:
        """The key path, with the number of an item left open."""
        return f"{self.chapter}.{self.listed}[].{self.key}" if self.listed else f"{self.chapter}.{self.key}"


@dataclass(frozen=True)
class Column:
    """A column of a table of duties: its header and place among the cells, what it answers, and for which item."""

    header: str
    at: int
    place: Place | None  # None is the name of the row
    item: int = 0

    def value(self, cell: str, decimal_comma: bool) -> object:
        """Return what a cell says; what is not of the right kind is returned as it stands, for reading to refuse."""
        assert self.place is not None
        question, key = self.place.question, self.place.key
        if isinstance(question, YesNo):
            return _YES_NO.get(cell.lower(), cell)
        if isinstance(question, Measure | Span) and not key.endswith("_typed"):
            try:
                return float(cell.replace(",", ".") if decimal_comma and "." not in cell else cell)
            except ValueError:
                return cell
        return cell


@cache
def places() -> dict[str, Place]:
    """Return every place an answer may stand at by its key path; tables within a record have none."""
    return {place.path: place for place in _places()}


def _places() -> Iterator[Place]:
    for chapter, kind in get_type_hints(Answers).items():
        for listed, struct in (("", kind), *((name, one.of) for name, one in listings_of(kind).items())):
            for name, question in questions_of(struct).items():
                if not isinstance(question, Histogram):
                    yield from (Place(chapter, listed, key, name, question) for key in question.keys(name))


def column(header: str, at: int) -> Column | None:
    """Return the column that a header means, None where it means none or more than one.

    The chapter may be left out where the rest says it: `distance_mm`, `cases[0].speed_rpm`.
    """
    name = header.strip().removeprefix("answers.")
    if name == NAME:
        return Column(name, at, None)
    numbers = _AT.findall(name)
    path = _AT.sub("[]", name)
    # what stands in a list has the number of its item, and nothing else has one
    fitting = [place for place in places().values() if len(numbers) == bool(place.listed)]
    found = [place for place in fitting if place.path == path or place.path.endswith(f".{path}")]
    exact = [place for place in found if place.path == path] or found
    if len(exact) != 1:
        return None
    item = int(numbers[0]) if numbers else 0
    if exact[0].listed and item >= listing_at(f"{exact[0].chapter}.{exact[0].listed}").most:
        return None
    return Column(name, at, exact[0], item)


def known_in(cells: Sequence[str]) -> int:
    """Return how many of some cells are headers of duties."""
    return sum(column(cell, 0) is not None for cell in cells if cell.strip())


def columns_of(header: Sequence[str], line: int, trouble: Trouble) -> list[Column]:
    """Return the columns of a header; raise Problems where one means nothing or two mean the same."""
    found: list[Column] = []
    taken: set[tuple[str, int]] = set()
    for at, name in enumerate(header):
        if not name.strip():
            trouble.add(line, f"column {at + 1}", "has no header", "the key path of an answer")
            continue
        one = column(name, at)
        if one is None:
            choices = [path.replace("[]", "[0]") for path in places()]
            accepted = "the key path of an answer as in a record, such as duty.cases[0].speed_rpm, or id"
            trouble.add(line, name.strip(), "is no answer of a record, or of more than one", accepted, name, choices)
            continue
        key = (one.place.path if one.place else NAME, one.item)
        if key in taken:
            trouble.add(line, name.strip(), "stands twice", "each answer once")
        taken.add(key)
        found.append(one)
    trouble.stop_if_any()
    return found
