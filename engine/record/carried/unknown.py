"""Keys under the answers that no question has, taken apart from those that this version knows."""

from collections.abc import Iterator, Mapping
from typing import Any, get_type_hints

from engine.answers.document import Answers, listings_of, questions_of
from engine.record.carried.beside import Unknown


def parted(answers: Mapping[str, Any]) -> tuple[dict[str, Any], tuple[Unknown, ...]]:
    """Return the tables of the answers without what no question or list has, and that by itself."""
    chapters = get_type_hints(Answers)
    known: dict[str, Any] = {}
    unknown: list[Unknown] = []
    for chapter, table in answers.items():
        if chapter not in chapters:
            unknown.append(Unknown(("answers", chapter), table))
        elif isinstance(table, Mapping):
            known[chapter] = _known(chapters[chapter], table, ("answers", chapter), unknown)
        else:
            known[chapter] = table
    return known, tuple(unknown)


def _known(kind: Any, table: Mapping[str, Any], path: tuple[str | int, ...], unknown: list[Unknown]) -> dict[str, Any]:
    listings, keys = listings_of(kind), set(_keys(kind))
    found: dict[str, Any] = {}
    for key, value in table.items():
        if key in listings and isinstance(value, list) and all(isinstance(item, Mapping) for item in value):
            of = listings[key].of
            found[key] = [_known(of, item, (*path, key, at), unknown) for at, item in enumerate(value)]
        elif key in keys or key in listings:
            found[key] = value
        else:
            unknown.append(Unknown((*path, key), value))
    return found


def _keys(kind: Any) -> Iterator[str]:
    for name, question in questions_of(kind).items():
        yield from question.keys(name)
