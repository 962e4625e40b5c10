"""Going through the options of a choice in the entry line, by arrow keys and by the beginning of a name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.cells import cell_len

from wizard.widgets.lines import Line

if TYPE_CHECKING:
    from engine.answers.worded import Choice, Option

GAP = "  "


def offered(question: Choice, stem: str) -> tuple[Option, ...]:
    """Return the options that a beginning leaves, all of them where it leaves none."""
    return question.meant(stem) or question.options


def stepped(question: Choice, stem: str, text: str, by: int) -> str:
    """Return the label of the option after, or before, the one whose label is the text, among those offered."""
    labels = [option.label for option in offered(question, stem)]
    if text in labels:
        return labels[(labels.index(text) + by) % len(labels)]
    return labels[0 if by > 0 else -1]


def option_lines(question: Choice, stem: str, text: str, width: int, height: int) -> list[Line]:
    """Return the options offered, the one in the entry line marked, in as many lines as there are, that one in view."""
    rows: list[list[tuple[str, str]]] = [[]]
    room, marked = width - 2, 0
    for option in offered(question, stem):
        size = cell_len(option.label) + len(GAP)
        if rows[-1] and room < size:
            rows.append([])
            room = width - 2
        if option.label == text:
            marked = len(rows) - 1
        rows[-1] += [(option.label, "here" if option.label == text else "title"), (GAP, "plain")]
        room -= size
    top = max(0, min(marked - height + 1, len(rows) - height)) if marked >= height else 0
    return [((" ", "plain"), *row) for row in rows[top : top + height]]
