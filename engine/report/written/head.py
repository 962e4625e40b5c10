"""The head of a report: what document it is, and its contents with a place for each section."""

import re
from collections.abc import Iterator, Sequence
from itertools import groupby

from engine.answers.chapters.choice import PAPERS
from engine.answers.document import Answers, get, question_at
from engine.errors import plain
from engine.report.parts import Section

_ODD = re.compile(r"[^\w\- ]")


def papers(answers: Answers) -> tuple[tuple[str, str], ...]:
    """Return the fields at the head of a report, each with its answer; one without is left empty, to write in by hand.

    No date is ever added to them: a record that is computed again must say the same.
    """
    found = []
    for name in PAPERS:
        path = f"choice.{name}"
        value = get(answers, path)
        found.append((question_at(path).label, "" if value is None else plain(value, 60)))
    return tuple(found)


def places(sections: Sequence[Section]) -> list[str]:
    """Return by which name a link finds each section: its title as common readers of Markdown make names of titles."""
    taken: dict[str, int] = {}
    found = []
    for section in sections:
        name = _ODD.sub("", section.title.lower()).replace(" ", "-") or "section"
        again = taken.get(name, 0)
        taken[name] = again + 1
        found.append(f"{name}-{again}" if again else name)
    return found


def contents(sections: Sequence[Section]) -> Iterator[tuple[str, list[tuple[str, str]]]]:
    """Yield each group of sections, with what is listed of it: the words, and the name of the section's place."""
    placed = zip(sections, places(sections), strict=True)
    for group, members in groupby(placed, key=lambda one: one[0].group):
        listed = [(one.title if one.entry is None else one.entry, place) for one, place in members]
        yield group, [(words, place) for words, place in listed if words]
