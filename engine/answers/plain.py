"""Answers to plain tables and back, every problem collected with its key path.

The keys carry the unit (`distance_mm`), what was typed stands beside it (`distance_typed`).
"""

from collections.abc import Mapping
from typing import Any

import msgspec

from engine.answers.document import CHAPTERS, Answers, listings_of, questions_of
from engine.answers.question import Listing, Plain, Question, Refused
from engine.errors import Problem, nearest

_FIELDS = tuple(chapter.field for chapter in CHAPTERS)


def to_plain(answers: Answers) -> Plain:
    """Return the answered questions as nested tables, in asking order; open questions are left out."""
    tables: Plain = {}
    for name in _FIELDS:
        struct = getattr(answers, name)
        table = _table(struct)
        for listed in listings_of(type(struct)):
            items = [_table(item) for item in getattr(struct, listed)]
            if any(items):
                table[listed] = items
        if table:
            tables[name] = table
    return tables


def _table(struct: msgspec.Struct) -> Plain:
    table: Plain = {}
    for name, question in questions_of(type(struct)).items():
        value = getattr(struct, name)
        if value is not None:
            table.update(question.to_plain(name, value))
    return table


def from_plain(tables: Mapping[str, Any], file: str = "", at: str = "answers") -> tuple[Answers, list[Problem]]:
    """Return the answers that could be read and one problem for each that could not.

    `at` is the key path of the table, for messages. An answer with a problem is left open; the rest is kept.
    """
    problems: list[Problem] = []
    read: dict[str, msgspec.Struct] = {}
    hints = {name: type(getattr(Answers(), name)) for name in _FIELDS}
    for key, table in tables.items():
        if key not in hints:
            problems.append(_unknown(file, f"{at}.{key}", key, list(hints)))
        elif not isinstance(table, Mapping):
            problems.append(Problem(file, None, f"{at}.{key}", "this is not a table", f"a table [{at}.{key}]"))
        else:
            read[key] = _struct(hints[key], table, file, f"{at}.{key}", problems)
    return Answers(**read), problems  # type: ignore[arg-type]


def _struct(
    kind: type[msgspec.Struct], table: Mapping[str, Any], file: str, at: str, problems: list[Problem]
) -> msgspec.Struct:
    questions = questions_of(kind)
    values: dict[str, Any] = {}
    known: set[str] = set()
    for name, question in questions.items():
        keys = question.keys(name)
        known.update(keys)
        present = [key for key in keys if key in table]
        if present:
            values.update(_answer(name, question, table, (file, f"{at}.{present[0]}"), problems))
    for listed, listing in listings_of(kind).items():
        known.add(listed)
        if listed in table:
            values[listed] = _items(listing, table[listed], file, f"{at}.{listed}", problems)
    problems.extend(_unknown(file, f"{at}.{key}", key, sorted(known)) for key in table if key not in known)
    return kind(**values)


def _answer(
    name: str, question: Question, table: Mapping[str, Any], where: tuple[str, str], problems: list[Problem]
) -> dict[str, Any]:
    try:
        value = question.from_plain(name, table)
    except Refused as error:
        at = f"{where[1]}.{error.inner}" if error.inner else where[1]
        problems.append(Problem(where[0], None, at, f"{question.label}: {error.wrong}", error.accepted))
        return {}
    # words that say nothing leave the question open, as a line typed empty does
    return {} if isinstance(value, str) and not value.strip() else {name: value}


def _items(listing: Listing, value: object, file: str, at: str, problems: list[Problem]) -> tuple[msgspec.Struct, ...]:
    if not isinstance(value, list) or not all(isinstance(item, Mapping) for item in value):
        accepted = f"one [[{at}]] for each {listing.one}"
        problems.append(Problem(file, None, at, "this is not a list of tables", accepted))
        return listing.filled(())
    if len(value) > listing.most:
        wrong = f"{len(value)} {listing.many} are too many"
        problems.append(Problem(file, None, at, wrong, f"at most {listing.most}"))
        value = value[: listing.most]
    return listing.filled(
        [_struct(listing.of, item, file, f"{at}[{index}]", problems) for index, item in enumerate(value)]
    )


def _unknown(file: str, path: str, key: str, known: list[str]) -> Problem:
    return Problem(file, None, path, "no question has this key", ", ".join(known), nearest(key, known))
