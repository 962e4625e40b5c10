"""The Answers document: the chapters in asking order, and one path to every answer.

A path is written as in the record: `duty.distance`, `duty.cases[0].speed`. The document is frozen; `put` returns a new
one, so undo is a matter of keeping the old one.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, get_args, get_origin, get_type_hints

import msgspec

from engine.answers.choice import Chosen
from engine.answers.duty import Duty, LoadCase
from engine.answers.envelope import Envelope
from engine.answers.lubrication import Lubrication
from engine.answers.question import Question
from engine.answers.speed import Speed
from engine.answers.steel import Steel


class Answers(msgspec.Struct, frozen=True, kw_only=True):
    """Everything that was answered; None where a question stands open."""

    duty: Duty = Duty()
    envelope: Envelope = Envelope()
    speed: Speed = Speed()
    lubrication: Lubrication = Lubrication()
    steel: Steel = Steel()
    choice: Chosen = Chosen()


@dataclass(frozen=True)
class Chapter:
    """A chapter: the field that holds it, its title and what it is about."""

    field: str
    title: str
    about: str


CHAPTERS = (
    Chapter("duty", "Duty", "arrangement, loads, wanted life"),
    Chapter("envelope", "Envelope", "space, measuring system, mass"),
    Chapter("speed", "Speed", "turning ring, load direction, overspeed"),
    Chapter("lubrication", "Lubrication", "lubricant, temperature, cleanliness"),
    Chapter("steel", "Steel", "shock, fit, dirt, heat"),
    Chapter("choice", "Choice", "ranking, catalogue, the chosen pair"),
)


@dataclass(frozen=True)
class Asked:
    """A question at its place: path, number as shown ('1.4'), the question and the answer or None."""

    path: str
    number: str
    question: Question
    value: Any
    case: int | None = None  # the load case it belongs to, from 0


@cache
def questions_of(struct: Any) -> dict[str, Question]:
    """Return the questions that the fields of a Struct type carry, in field order."""
    found = {}
    for name, hint in get_type_hints(struct, include_extras=True).items():
        if get_origin(hint) is Annotated:
            found[name] = next(extra for extra in get_args(hint)[1:] if isinstance(extra, Question))
    return found


def asked(answers: Answers, chapter: str) -> Iterator[Asked]:
    """Walk a chapter's questions in asking order, load cases last."""
    struct = getattr(answers, chapter)
    number = next(i for i, c in enumerate(CHAPTERS, 1) if c.field == chapter)
    at = 0
    for at, (name, question) in enumerate(questions_of(struct.__class__).items(), 1):
        yield Asked(f"{chapter}.{name}", f"{number}.{at}", question, getattr(struct, name))
    for case_index, case in enumerate(getattr(struct, "cases", ())):
        for name, question in questions_of(LoadCase).items():
            at += 1
            path = f"{chapter}.cases[{case_index}].{name}"
            yield Asked(path, f"{number}.{at}", question, getattr(case, name), case_index)


def all_asked(answers: Answers) -> Iterator[Asked]:
    """Walk every question of every chapter, the choice last."""
    for chapter in CHAPTERS:
        yield from asked(answers, chapter.field)


_CASE = re.compile(r"duty\.cases\[(\d+)\]\.(\w+)")


def get(answers: Answers, path: str) -> Any:
    """Return the answer at a path; KeyError where there is no such question."""
    chapter = path.partition(".")[0]
    if chapter in {one.field for one in CHAPTERS}:
        for item in asked(answers, chapter):
            if item.path == path:
                return item.value
    raise KeyError(path)


def question_at(path: str) -> Question:
    """Return the question at a path, whatever the number of its load case; KeyError where there is none."""
    case = _CASE.fullmatch(path)
    if case:
        return questions_of(LoadCase)[case[2]]
    chapter, _, name = path.partition(".")
    hint = get_type_hints(Answers).get(chapter)
    if hint is None:
        raise KeyError(path)
    return questions_of(hint)[name]


def put(answers: Answers, path: str, value: Any) -> Answers:
    """Return the document with one answer changed (None opens the question again)."""
    question_at(path)
    case = _CASE.fullmatch(path)
    if case:
        cases = list(answers.duty.cases)
        cases[int(case[1])] = msgspec.structs.replace(cases[int(case[1])], **{case[2]: value})
        return with_cases(answers, tuple(cases))
    chapter, _, name = path.partition(".")
    changed = msgspec.structs.replace(getattr(answers, chapter), **{name: value})
    return msgspec.structs.replace(answers, **{chapter: changed})


def with_cases(answers: Answers, cases: tuple[LoadCase, ...]) -> Answers:
    """Return the document with other load cases; never fewer than one, which may be an empty one."""
    return msgspec.structs.replace(answers, duty=msgspec.structs.replace(answers.duty, cases=cases or (LoadCase(),)))
