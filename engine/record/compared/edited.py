"""Which answer was edited after a result was computed: the one that, put back, gives the stored hash again.

A record holds a hash a chapter and no answer of then. But an answer that changed a figure was one of a few options, was
open, or stands in the stored result as a number; each is tried in its place. What gives the hash is proof; where none
does, more than one answer of the chapter was edited, or one that no figure states, and only the chapter is known.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from itertools import islice
from typing import Any

from engine.answers.document import Answers, Asked, asked, items_at, listings_of, put, with_items
from engine.answers.measured import Measure
from engine.answers.plain import to_plain
from engine.answers.question import Quantity, Refused
from engine.answers.worded import Choice, YesNo
from engine.record.compared.digest import digest
from engine.units import UnitError, number_text, parse, show

#: So many answers are tried in a chapter, a second of work at most.
MOST_TRIED = 4000
_NUMBER = re.compile(r"[-+]?\d[\d ,./]*")

Trial = tuple[str, Answers]


def edited(answers: Answers, chapter: str, stored: str, numbers: Iterable[float]) -> str:
    """Return the answer of a chapter that was edited, by its key and what it was; "" where that cannot be told.

    `stored` is the hash of the chapter's answers then, `numbers` are stored ones that are not computed any more.
    """
    for told, trial in islice(_trials(answers, chapter, tuple(dict.fromkeys(numbers))), MOST_TRIED):
        alone = Answers(**{chapter: getattr(trial, chapter)})
        if digest(to_plain(alone).get(chapter, {})) == stored:
            return told
    return ""


def _trials(answers: Answers, chapter: str, numbers: tuple[float, ...]) -> Iterator[Trial]:
    """Yield the answers with one of a chapter as it may have been, and that in words; what is quickly tried first."""
    items = list(asked(answers, chapter, every=True))
    for item in items:
        yield from _put(answers, item, (None, *_options(item)))
    for name in listings_of(type(getattr(answers, chapter))):
        path = f"{chapter}.{name}"
        every = items_at(answers, path)
        for at in range(len(every)):
            yield f"{path}[{at}], which was not there", with_items(answers, path, (*every[:at], *every[at + 1 :]))
    for item in items:
        if isinstance(item.question, Measure):
            for number in numbers:
                yield from _put(answers, item, _quantities(item, item.question, number))


def _put(answers: Answers, item: Asked, values: Iterable[Any]) -> Iterator[Trial]:
    above, _, name = item.path.rpartition(".")
    key = f"{above}.{item.question.keys(name)[0]}"
    for value in values:
        if value != item.value:
            was = "open" if value is None else item.question.show(value)
            yield f"{key}, which was {was}", put(answers, item.path, value)


def _options(item: Asked) -> tuple[Any, ...]:
    if isinstance(item.question, YesNo):
        return True, False
    return tuple(one.value for one in item.question.options) if isinstance(item.question, Choice) else ()


def _quantities(item: Asked, question: Measure, number: float) -> Iterator[Quantity]:
    """Yield a number as the answer to a question: by itself, and as it may have been typed."""
    typed = item.value.typed if isinstance(item.value, Quantity) else ""
    texts = [show(number, question.dimension), *_alike(typed, question, number)]
    try:
        yield question.from_plain("it", {question.keys("it")[0]: number})
        yield from (Quantity(number, text) for text in texts)
        yield from (question.parse(text) for text in texts)
    except Refused:  # out of its bounds: it is no answer to this question
        return


def _alike(typed: str, question: Measure, number: float) -> Iterator[str]:
    """Yield a number typed in the unit of another text."""
    found = _NUMBER.match(typed)
    if found is None:
        return
    unit = typed[found.end() :].strip()
    try:
        one = parse(f"1 {unit}", question.dimension) if unit else 1.0
    except UnitError:
        return
    yield f"{number_text(number / one)} {unit}".strip()
    yield f"{number / one:g} {unit}".strip()
