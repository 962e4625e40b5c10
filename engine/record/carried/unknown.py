"""Keys of a record that no question has, taken apart from those that are known: kept, said, and never used."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, get_type_hints

from engine.answers.document import Answers, listings_of, questions_of
from engine.errors import MOST_LISTED, Problem, Problems, nearest, plain
from engine.record.carried.beside import Unknown

if TYPE_CHECKING:
    from engine.answers.question import Question
    from engine.record.carried.lines import Lines

#: The tables and keys of a record, and the keys of what it was made with.
TOP = ("schema", "made_with", "answers", "result")
MADE_WITH = ("conewright", "catalogue", "catalogue_sha256")
#: What is said of a key that is not known, in a record of a version that is ours or older, and in a newer one.
_NO_QUESTION = "no question has this key; it is kept, but not used"
#: So many keys are named where there is little room.
_NOTED = 2
_NEWER = "this version does not know this key; it is kept, but not used"


@dataclass(frozen=True)
class Unused:
    """Keys of a record that were not used: the first of them with file, line and the nearest that is known."""

    listed: tuple[Problem, ...] = ()
    more: int = 0

    def __len__(self) -> int:
        return len(self.listed) + self.more

    def __str__(self) -> str:
        """Return one line a key."""
        return str(Problems(self.listed, self.more))

    @property
    def cautions(self) -> tuple[str, ...]:
        """Each key in words for a reader, who knows the file."""
        said = tuple(
            f"Not used: {one.field}" + (f" on line {one.line}" if one.line else "") + ", which no question has"
            + (f"; did you mean {one.nearest}?" if one.nearest else ".")
            for one in self.listed
        )  # fmt: skip
        return (*said, f"Not used: {self.more} more keys.") if self.more else said

    @property
    def note(self) -> str:
        """The first of them in one sentence and how many more there are, for a place with little room."""
        first = " ".join(plain(one, 150) for one in self.cautions[:_NOTED])
        more = len(self) - _NOTED
        return f"{first} And {more} more: conewright calc lists them." if more > 0 else first


def parted(tables: Mapping[str, Any]) -> tuple[dict[str, Any], tuple[Unknown, ...]]:
    """Return the tables of a record without what is not known in them, and that by itself."""
    unknown: list[Unknown] = []
    known = _within(tables, TOP, (), unknown)
    if isinstance(made := known.get("made_with"), Mapping):
        known["made_with"] = _within(made, MADE_WITH, ("made_with",), unknown)
    if isinstance(answers := known.get("answers"), Mapping):
        known["answers"] = _answers(answers, unknown)
    return known, tuple(unknown)


def unused(unknown: Sequence[Unknown], file: str, lines: Lines, newer: bool) -> Unused:
    """Return what is said of keys that are not known."""
    wrong = _NEWER if newer else _NO_QUESTION
    listed = [
        Problem(file, lines.of(plain(one)), str(one), wrong, "", nearest(str(one.path[-1]), one.choices))
        for one in unknown[:MOST_LISTED]
    ]
    listed.sort(key=lambda one: one.line or 0)
    return Unused(tuple(listed), len(unknown) - len(listed))


def _within(
    table: Mapping[str, Any], keys: tuple[str, ...], path: tuple[str | int, ...], unknown: list[Unknown]
) -> dict[str, Any]:
    """Return the table with the known keys only; the others are added to `unknown`."""
    unknown += [Unknown((*path, key), value, keys) for key, value in table.items() if key not in keys]
    return {key: value for key, value in table.items() if key in keys}


def _answers(answers: Mapping[str, Any], unknown: list[Unknown]) -> dict[str, Any]:
    chapters = get_type_hints(Answers)
    known = _within(answers, tuple(chapters), ("answers",), unknown)
    for chapter, table in known.items():
        if isinstance(table, Mapping):
            known[chapter] = _known(chapters[chapter], table, ("answers", chapter), unknown)
    return known


def _known(kind: Any, table: Mapping[str, Any], path: tuple[str | int, ...], unknown: list[Unknown]) -> dict[str, Any]:
    listings, asked = listings_of(kind), dict(_keys(kind))
    found = _within(table, (*asked, *listings), path, unknown)
    for key, value in found.items():
        if key in listings:
            if isinstance(value, list) and all(isinstance(item, Mapping) for item in value):
                of = listings[key].of
                found[key] = [_known(of, item, (*path, key, at), unknown) for at, item in enumerate(value)]
        elif isinstance(value, Mapping) and (inner := asked[key].inner()):
            found[key] = _within(value, inner, (*path, key), unknown)
    return found


def _keys(kind: Any) -> Iterator[tuple[str, Question]]:
    """Yield the keys of every question, each with the question."""
    for name, question in questions_of(kind).items():
        yield from ((key, question) for key in question.keys(name))
