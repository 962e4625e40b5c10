"""The Answers document: the chapters in asking order, and one path to every answer.

A path is written as in the record: `duty.distance`, `duty.cases[0].speed`. The document is frozen; `put` returns a new
one, so undo is a matter of keeping the old one.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, get_args, get_origin, get_type_hints

import msgspec

from engine.answers.chapters.choice import Chosen
from engine.answers.chapters.duty import Duty
from engine.answers.chapters.envelope import Envelope
from engine.answers.chapters.fits import Fits
from engine.answers.chapters.lubrication import Lubrication
from engine.answers.chapters.setting import Setting
from engine.answers.chapters.shaft import Shaft
from engine.answers.chapters.speed import Speed
from engine.answers.chapters.steel import Steel
from engine.answers.question import Listing, Question


class Answers(msgspec.Struct, frozen=True, kw_only=True):
    """Everything that was answered; None where a question stands open."""

    duty: Duty = Duty()
    shaft: Shaft = Shaft()
    envelope: Envelope = Envelope()
    speed: Speed = Speed()
    lubrication: Lubrication = Lubrication()
    steel: Steel = Steel()
    fits: Fits = Fits()
    setting: Setting = Setting()
    choice: Chosen = Chosen()


@dataclass(frozen=True)
class Chapter:
    """A chapter: the field that holds it, its title, and what it is about."""

    field: str
    title: str
    about: str


CHAPTERS = (
    Chapter("duty", "Duty", "arrangement, loads, wanted life"),
    Chapter("shaft", "Shaft", "gears, belts and weights on it, its bending"),
    Chapter("envelope", "Envelope", "space, measuring system, mass"),
    Chapter("speed", "Speed", "turning ring, load direction, overspeed"),
    Chapter("lubrication", "Lubrication", "lubricant, temperature, cleanliness"),
    Chapter("steel", "Steel", "shock, dirt, heat"),
    Chapter("fits", "Fits", "seats on shaft and in housing"),
    Chapter("setting", "Setting", "end play or preload, heat, its scatter"),
    Chapter("choice", "Choice", "ranking, catalogue, the chosen pair, head of the report"),
)


@dataclass(frozen=True)
class Asked:
    """A question at its place: path, number as shown ('1.4'), the question and the answer or None."""

    path: str
    number: str
    question: Question
    value: Any
    listed: str = ""  # the list it belongs to ('cases'), and which item of it, from 0
    item: int = 0
    applies: bool = True  # whether it is asked at all, given the other answers

    @property
    def item_path(self) -> str:
        """The path of the item it belongs to ('duty.cases[0]'), "" for a question of the chapter itself."""
        return self.path.rpartition(".")[0] if self.listed else ""


@cache
def _carried(struct: Any, kind: Any) -> dict[str, Any]:
    found = {}
    for name, hint in get_type_hints(struct, include_extras=True).items():
        if get_origin(hint) is Annotated:
            extra = next((extra for extra in get_args(hint)[1:] if isinstance(extra, kind)), None)
            if extra is not None:
                found[name] = extra
    return found


def questions_of(struct: Any) -> dict[str, Question]:
    """Return the questions that the fields of a Struct type carry, in field order."""
    return _carried(struct, Question)


def listings_of(struct: Any) -> dict[str, Listing]:
    """Return the lists of items that the fields of a Struct type carry, in field order."""
    return _carried(struct, Listing)


def applies(struct: msgspec.Struct, question: Question) -> bool:
    """Return whether a question is asked, given the other answers of its table (an open one counts as its default)."""
    return all(_holds(struct, *one) for one in (question.only_if, question.and_if) if one is not None)


def _holds(struct: msgspec.Struct, name: str, wanted: tuple[Any, ...]) -> bool:
    """Return whether another question is asked and answered with one of the wanted answers."""
    other = questions_of(type(struct))[name]
    value = getattr(struct, name)
    return (other.default if value is None else value) in wanted and applies(struct, other)


def answered(struct: msgspec.Struct, name: str) -> bool:
    """Return whether a question of a table is answered, and asked at all given its other answers."""
    return getattr(struct, name) is not None and applies(struct, questions_of(type(struct))[name])


def asked(answers: Answers, chapter: str, every: bool = False) -> Iterator[Asked]:
    """Walk a chapter's questions in asking order, those of its lists last.

    Questions that do not apply are passed over, unless `every` one is wanted; they then have no number.
    """
    struct = getattr(answers, chapter)
    number = next(i for i, c in enumerate(CHAPTERS, 1) if c.field == chapter)
    at = 0
    for holder, at_path, listed, item in _holders(struct, chapter):
        for name, question in questions_of(type(holder)).items():
            here = applies(holder, question)
            at += here
            if here or every:
                shown = f"{number}.{at}" if here else ""
                yield Asked(f"{at_path}.{name}", shown, question, getattr(holder, name), listed, item, here)


def _holders(struct: msgspec.Struct, chapter: str) -> Iterator[tuple[msgspec.Struct, str, str, int]]:
    """Walk the tables of a chapter: its own, then every item of its lists, each with its path, list and place."""
    yield struct, chapter, "", 0
    for name in listings_of(type(struct)):
        for item, one in enumerate(getattr(struct, name)):
            yield one, f"{chapter}.{name}[{item}]", name, item


def all_asked(answers: Answers, every: bool = False) -> Iterator[Asked]:
    """Walk every question of every chapter, the choice last."""
    for chapter in CHAPTERS:
        yield from asked(answers, chapter.field, every)


def asked_at(answers: Answers, path: str) -> Asked | None:
    """Return the question of a path with its answer, whether it applies or not; None where there is none."""
    return next((one for one in all_asked(answers, every=True) if one.path == path), None)


@cache
def _chapter_types() -> dict[str, Any]:
    return get_type_hints(Answers)


_IN_LIST = re.compile(r"(\w+)\.(\w+)\[(\d+)\]\.(\w+)")


def _struct_at(path: str) -> tuple[Any, str]:
    """Return the type of the table that a path leads to, and the field's name in it; KeyError where there is none."""
    within = _IN_LIST.fullmatch(path)
    chapter, _, name = (within[1], "", within[4]) if within else path.partition(".")
    kind = _chapter_types()[chapter]
    return (listings_of(kind)[within[2]].of if within else kind), name


def question_at(path: str) -> Question:
    """Return the question at a path, whatever the number of its item; KeyError where there is none."""
    kind, name = _struct_at(path)
    return questions_of(kind)[name]


def get(answers: Answers, path: str) -> Any:
    """Return the answer at a path; KeyError where there is no such question."""
    question_at(path)
    within = _IN_LIST.fullmatch(path)
    if within is None:
        chapter, _, name = path.partition(".")
        return getattr(getattr(answers, chapter), name)
    items = getattr(getattr(answers, within[1]), within[2])
    if int(within[3]) >= len(items):
        raise KeyError(path)
    return getattr(items[int(within[3])], within[4])


def put(answers: Answers, path: str, value: Any) -> Answers:
    """Return the document with one answer changed (None opens the question again)."""
    question_at(path)
    within = _IN_LIST.fullmatch(path)
    if within is None:
        chapter, _, name = path.partition(".")
        changed = msgspec.structs.replace(getattr(answers, chapter), **{name: value})
        return msgspec.structs.replace(answers, **{chapter: changed})
    chapter, listed, at, name = within[1], within[2], int(within[3]), within[4]
    items = list(getattr(getattr(answers, chapter), listed))
    items[at] = msgspec.structs.replace(items[at], **{name: value})
    return with_items(answers, f"{chapter}.{listed}", items)


def items_at(answers: Answers, path: str) -> tuple[Any, ...]:
    """Return the items of the list at a path ('duty.cases'); KeyError where there is no such list."""
    listing_at(path)
    chapter, _, name = path.partition(".")
    items: tuple[Any, ...] = getattr(getattr(answers, chapter), name)
    return items


def listing_at(path: str) -> Listing:
    """Return what kind of list stands at a path ('duty.cases'); KeyError where there is none."""
    chapter, _, name = path.partition(".")
    return listings_of(_chapter_types()[chapter])[name]


def with_items(answers: Answers, path: str, items: Sequence[Any]) -> Answers:
    """Return the document with other items in a list; never fewer than its least, made up by empty ones."""
    filled = listing_at(path).filled(items)
    chapter, _, name = path.partition(".")
    changed = msgspec.structs.replace(getattr(answers, chapter), **{name: filled})
    return msgspec.structs.replace(answers, **{chapter: changed})
