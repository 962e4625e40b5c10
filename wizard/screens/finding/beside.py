"""What a wide terminal shows of the marked one of what was found."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.answers.document import asked_at
from engine.errors import plain
from wizard.screens import help as helping
from wizard.widgets.lines import line, wrapped

if TYPE_CHECKING:
    from engine.answers.document import Answers
    from wizard.screens.finding.things import Found
    from wizard.widgets.lines import Line


def of(found: Found, answers: Answers, width: int) -> list[Line]:
    """Return the whole of its two cells and, of a question, the help on it."""
    lines = [line(part, "title") for part in wrapped(plain(found.title, 300), width)]
    lines += [line(f" {part}") for part in wrapped(plain(found.about, 600), width - 2)]
    item = asked_at(answers, found.name) if found.kind == "question" else None
    if item is not None:
        lines += [line(""), *helping.question(item, width)]
    return [*lines, line("")]
