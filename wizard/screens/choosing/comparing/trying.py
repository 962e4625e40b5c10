"""A change to try on pairs side by side, typed as a question and its answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.answers import contradiction
from engine.answers.binned import Histogram
from engine.answers.document import put, question_at
from engine.answers.question import Refused, Value
from engine.errors import plain
from wizard.screens.finding.things import everything, matching

if TYPE_CHECKING:
    from collections.abc import Sequence

    from engine.answers.document import Answers
    from engine.answers.lubricated.own import OwnLubricant

LUBRICANT = "lubrication.lubricant"
TYPED = "a question = an answer, such as  required life = 30000 h  or  1.5 = 30000"


def meant(answers: Answers, text: str) -> tuple[str, str]:
    """Return the path of the question that is typed before '=', and the answer behind it; raise Refused."""
    words, equals, answer = text.partition("=")
    asked = [one for one in everything(answers, "chapter") if one.kind == "question" and one.title[0] != "-"]
    found = [one for _, one in matching(asked, words)] if words.strip() else []
    if not found:
        raise Refused(f'no question is called "{plain(words.strip(), 40)}"', TYPED)
    path = found[0].name
    if not equals:
        raise Refused(f"{found[0].title}: no answer stands behind it", TYPED)
    return path, answer.strip()


def tried(answers: Answers, text: str, own: Sequence[OwnLubricant] = ()) -> tuple[str, Value | None, str]:
    """Return the path, the value (None opens the question) and the words of a change as typed; raise Refused.

    `own` are the lubricants of the user's own list, which are named as the built-in ones are.
    """
    path, answer = meant(answers, text)
    question = question_at(path)
    if isinstance(question, Histogram):
        raise Refused("a spectrum cannot be tried here", "any other question")
    named = [one for one in own if path == LUBRICANT and one.name.casefold() == answer.casefold()]
    value = named[0] if named else question.parse(answer) if answer else None
    contradiction.refuse_new(answers, put(answers, path, value), path)
    return path, value, f"{question.label}: {question.show(value) if value is not None else 'open'}"
