"""The lines of a chapter: its questions with their answers, and the help on the marked one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rich.cells import cell_len

from engine.answers.binned import Histogram
from engine.answers.document import CHAPTERS, Answers, Asked, asked, items_at, listing_at, listings_of
from engine.answers.lubricated.kinds import FromList
from engine.answers.question import Quantity
from engine.answers.worded import Choice, Text, YesNo
from engine.errors import plain
from wizard import wording
from wizard.widgets.lines import Line, cut, fitted, line, wrapped

if TYPE_CHECKING:
    from wizard.glyphs import Glyphs


#: On fewer columns than this the names of the chapters are cut, and what is answered is told in the line below.
TIGHT = 76


@dataclass(frozen=True)
class Form:
    """A chapter's lines, which of them can be marked, the question on each of these, and the lists that are empty."""

    lines: list[Line]
    stops: list[int]
    questions: dict[int, Asked]
    empty: dict[int, str]  # the line that stands for an empty list, and the list's path

    def line_of(self, path: str) -> int | None:
        """Return the line of a question, or the first one of an item of a list."""
        found = (at for at, item in self.questions.items() if path in {item.path, item.item_path})
        return next(found, next((at for at, empty in self.empty.items() if path.startswith(empty)), None))


def form(answers: Answers, chapter: str, glyphs: Glyphs, width: int) -> Form:
    """Return the lines of a chapter."""
    lines: list[Line] = []
    questions: dict[int, Asked] = {}
    before = ""
    for item in asked(answers, chapter):
        if item.item_path != before:
            before = item.item_path
            lines.append(line(f"  {item_title(answers, item)}", "heading"))
        questions[len(lines)] = item
        lines.append(_row(item, glyphs, width))
    empty = {}
    for name, listing in listings_of(type(getattr(answers, chapter))).items():
        if not getattr(getattr(answers, chapter), name):
            empty[len(lines)] = f"{chapter}.{name}"
            lines.append(line(f"  {listing.many[0].upper()}{listing.many[1:]}: none yet; a adds one", "heading"))
    return Form(lines, sorted([*questions, *empty]), questions, empty)


def item_title(answers: Answers, item: Asked) -> str:
    """Return what an item of a list is called: 'Load case 2: digging'."""
    path = f"{item.path.partition('.')[0]}.{item.listed}"
    listing = listing_at(path)
    told = listing.told(items_at(answers, path)[item.item])
    return f"{listing.one[0].upper()}{listing.one[1:]} {item.item + 1}" + (f": {plain(told, 64)}" if told else "")


def label_cells(width: int) -> int:
    """Return how many cells the label of a question has."""
    return max(20, min(32, width // 2 - 6))


def whole_label(item: Asked, width: int) -> str:
    """Return the label of a question where its line has no room for all of it."""
    return item.question.label if cell_len(item.question.label) > label_cells(width) else ""


def _row(item: Asked, glyphs: Glyphs, width: int) -> Line:
    label_width = label_cells(width)
    open_here = item.value is None
    mark = glyphs.open if open_here else " "
    # the label is a piece of its own: it alone is drawn as marked
    label = f" {fitted(item.number, 5)}{cut(item.question.label, label_width)}"
    gap = f"{' ' * (label_width + 6 - cell_len(label))} {mark} "
    shown = wording.assumed(item.question, item.question.default) if open_here else item.question.show(item.value)
    return (
        (label, "plain"),
        (gap, "plain"),
        (fitted(shown, max(0, width - label_width - 9)), "quiet" if open_here else "answered"),
    )


def chapter_bar(answers: Answers, current: str, glyphs: Glyphs, width: int) -> Line:
    """Return the chapters with how many questions are answered in each; the current one stands out."""
    pieces: list[tuple[str, str]] = []
    roomy, tight = width >= 116, width < TIGHT
    names = _short_names(current, width) if tight else [chapter.title for chapter in CHAPTERS]
    for at, chapter in enumerate(CHAPTERS):
        here = chapter.field == current
        name = f"{at + 1} {names[at]}" if roomy else names[at]
        tally = " " + "/".join(map(str, answered(answers, chapter.field))) if roomy or (here and not tight) else ""
        pad = " " if roomy or here else ""
        pieces += [(f"{pad}{name}{tally}{pad}", "here" if here else "plain"), (glyphs.between, "quiet")]
    return tuple(pieces[:-1])


def answered(answers: Answers, chapter: str) -> tuple[int, int]:
    """Return how many questions of a chapter are answered, and how many there are."""
    items = list(asked(answers, chapter))
    return sum(item.value is not None for item in items), len(items)


def _short_names(current: str, width: int) -> list[str]:
    """Return the names of the chapters so that all have room, the longest ones cut; the current one stays whole."""
    names = [chapter.title for chapter in CHAPTERS]
    room, here = width - len(CHAPTERS) - 1, [chapter.field for chapter in CHAPTERS].index(current)
    lengths = [len(name) for name in names]
    while sum(lengths) > room and max(lengths) > 1:
        # the last of the longest ones, so that those in front keep more
        longest = max((at for at in range(len(names)) if at != here), key=lambda at: (lengths[at], at))
        lengths[longest] -= 1
    return [cut(name, length) for name, length in zip(names, lengths, strict=True)]


def help_lines(item: Asked, width: int, height: int) -> list[Line]:
    """Return what the marked question means: why it is asked, what is accepted, what is assumed."""
    question = item.question
    lines = [line(text) for text in wrapped(question.why, width - 2)]
    if isinstance(question, Choice | YesNo):
        options = wrapped(f"Options: {wording.options_line(question)}", width - 2)
        if len(options) > 2 and len(lines) + len(options) > height:
            options = [f"{len(question.options)} options; Enter shows them."]
        # what can be answered is never cut off
        lines = lines[: max(1, height - len(options))]
        lines += [line(text, "title") for text in options]
    else:
        begin = " Enter begins it." if isinstance(question, Text | Histogram | FromList) else ""
        lines += [line(text) for text in wrapped(f"Accepted: {question.accepted()}.{begin}", width - 2)]
    if question.default_why or question.default is not None:
        what = f"{question.show(question.default)}, " if question.default is not None else ""
        lines += [line(text, "quiet") for text in wrapped(f"While open: {what}{question.default_why}.", width - 2)]
    means = _option_meaning(question, item.value)
    if means:
        lines.append(line(fitted(f"Answered: {means}", width - 2), "quiet"))
    return [((" ", "plain"), *text) for text in lines[:height]]


def empty_lines(path: str, width: int) -> list[Line]:
    """Return what a list that is empty is for."""
    listing = listing_at(path)
    text = f"{listing.why} a adds {'an' if listing.one[0] in 'aeiou' else 'a'} {listing.one}."
    return [line(f" {part}") for part in wrapped(text, width - 2)]


def _option_meaning(question: object, value: object) -> str:
    if not isinstance(question, Choice):
        return ""
    return next((f"{o.label}: {o.means}" for o in question.options if o.value == value and o.means), "")


def entry_text(item: Asked) -> str:
    """Return what stands in the entry line when an answer is edited: what was typed before."""
    value = item.value
    if value is None:
        return ""
    typed = getattr(value, "typed", "")
    if typed:
        return str(typed)
    if isinstance(value, Quantity):
        return repr(value.value)
    return str(item.question.show(value))


def next_open(answers: Answers, chapter: str, marked: Asked | None) -> Asked | None:
    """Return the next question without an answer, after the marked one, through the later chapters and round."""
    fields = [one.field for one in CHAPTERS]
    start = fields.index(chapter)
    order = [item for field in fields[start:] + fields[:start] for item in asked(answers, field)]
    behind = next((at for at, item in enumerate(order) if marked and item.path == marked.path), -1)
    return next((item for item in order[behind + 1 :] + order[: behind + 1] if item.value is None), None)
