"""Help: the marked question, the keys, and what is assumed. Made from the questions and the list of keys."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.answers.binned import Histogram
from engine.answers.uses.use import use_of
from engine.errors import plain
from engine.record.document import NOTICE
from wizard import keys
from wizard.screens import form, frame
from wizard.screens.every.beside import columns, side_columns
from wizard.screens.every.text import ReadScreen
from wizard.widgets.lines import Line, fitted, line, wrapped

if TYPE_CHECKING:
    from engine.answers.document import Asked

#: What each place is called.
PLACES = {
    "chapter": "Questions",
    "shaft": "The shaft",
    "shortlist": "Shortlist",
    "browse": "Catalogue",
    "section": "One assembly",
    "reading": "A designation",
    "pair": "One pair",
    "fits": "Fits in a picture",
    "setting": "The setting of a pair",
    "start": "Start",
    "lubrication": "Lubrication drawn",
    "lubricants": "The list of lubricants",
    "weights": "Weights",
    "scatter": "Pairs drawn by two criteria",
    "why": "Why not",
    "gives": "What must give",
    "compare": "Side by side",
    "sensitivity": "What the verdict hangs on",
    "verify": "The record computed again",
    "diff": "The record beside another one",
    "find": "Find",
    "assumed": "What is assumed",
    "leaving": "Leaving without saving",
    "small": "Where the terminal is too small",
    "typing": "While something is typed",
    "every": "Everywhere",
}


def page(
    place: str,
    item: Asked | None,
    assumptions: tuple[str, ...],
    missing: tuple[str, ...],
    width: int,
    beside: tuple[str, ...] = (),
) -> list[Line]:
    """Return the help page for a place, without the keys of the places that stand beside it."""
    lines: list[Line] = []

    def heading(text: str) -> None:
        if lines:
            lines.append(line(""))
        lines.append(line(text, "heading"))

    def words(text: str) -> None:
        lines.extend(line(f" {part}") for part in wrapped(text, width - 2))

    if item is not None:
        lines += question(item, width)
    if item is not None and isinstance(item.question, Histogram):
        from engine.record.histogram_file import format_help

        heading("Format of a measured spectrum")
        for paragraph in format_help():
            words(paragraph)
    if missing:
        heading("Still missing for the loads")
        for one in missing:
            words(plain(one, 300))
    for part in (place, *(other for other in PLACES if other != place)):
        if part not in beside:
            lines += [*([line("")] if lines else []), *key_lines(part, width)]
    if assumptions:
        heading("Assumed for open questions")
        for assumption in assumptions:
            words(plain(assumption))
    heading("Limits")
    words(NOTICE)
    return lines


def question(item: Asked, width: int) -> list[Line]:
    """Return what is known of a question: why it is asked, what is accepted, what its options mean, where it enters."""
    lines = [line(f"{item.number} {item.question.label}", "heading"), *form.help_lines(item, width, 20)]
    for option in getattr(item.question, "options", ()):
        if option.means:
            lines += [line(f" {part}") for part in wrapped(f"{option.label}: {option.means}", width - 2)]
    used = "Formula and source" if use_of(item.path).formulas else "What it is used for"
    return [*lines, line(""), line(used, "heading"), *_use_lines(item.path, width)]


def key_lines(place: str, width: int) -> list[Line]:
    """Return the keys of a place under its name."""
    lines = [line(f"Keys: {PLACES[place]}", "heading")]
    for key in (*keys.KEYS, *keys.TYPING):
        if key.place == place:
            lines += _key_lines(key.shown, key.help, 8, width)
    if place == "chapter":
        for shown, text in keys.MOVES:
            lines += _key_lines(shown, text, 14, width)
    return lines


def _key_lines(shown: str, does: str, column: int, width: int) -> list[Line]:
    """Return what a key does, the whole of it, however narrow the terminal is."""
    texts = wrapped(does, max(10, width - column - 2))
    leads = [shown, *[""] * len(texts)]
    return [((f" {fitted(lead, column)}", "key"), (text, "plain")) for lead, text in zip(leads, texts, strict=False)]


def _use_lines(path: str, width: int) -> list[Line]:
    """Return what an answer does, and each formula that it enters with its symbols and source."""
    from engine.report.formulas import named, seen  # not before the first help page: they bring numpy along

    def said(text: str, meaning: str = "plain", indent: int = 1) -> list[Line]:
        return [line(f"{' ' * indent}{part}", meaning) for part in wrapped(text, width - indent - 1)]

    use = use_of(path)
    lines = said(use.does)
    for place in use.formulas:
        formula = named(place)
        lines += [line(""), *said(formula.what, "title")]
        lines += [one for part in formula.printed.splitlines() if part.strip() for one in said(part.strip(), indent=3)]
        if formula.symbols:
            lines += said("; ".join(formula.symbols), "quiet", 3)
        lines += said(f"Source: {formula.source} ({seen(formula.source)}).", "quiet")
    return lines


class HelpScreen(ReadScreen):
    """A page to read."""

    PLACE = "help"

    def __init__(self) -> None:
        super().__init__()
        self.place = "chapter"
        self.item: Asked | None = None

    def on_screen_resume(self) -> None:
        """Take the keys and show the page from its top."""
        self.rows.at = 0
        self.show_all()

    def show_all(self) -> None:
        """Bring every block up to date."""
        width = self.width
        if width <= 0:
            return
        counted = self.app.standing.counted
        assumptions = tuple(str(one) for one in counted.resolved.assumptions) if counted else ()
        missing = counted.resolved.missing if counted else ()
        lines = page(self.place, self.item, assumptions, missing, width, self._beside())
        self.show_text(lines)
        self.show_title(frame.head("Help", "", width))

    def _beside(self) -> tuple[str, ...]:
        """Return the places whose keys stand beside the page, all of them: those of this place, then as room allows."""
        taken = side_columns(self.app.size.width)
        if not taken:
            return ()
        count, width = columns(taken)
        room, found = self.app.size.height * count, list[str]()
        for place in dict.fromkeys((self.place, "every", "typing", *PLACES)):
            needed = len(key_lines(place, width)) + 1
            # a column may end early between two blocks
            if needed > (room if count == 1 else room - self.app.size.height // 2):
                break
            room -= needed
            found.append(place)
        return tuple(found)

    def beside(self, width: int, height: int) -> list[Line]:  # noqa: ARG002
        """Return the keys of this place and of others."""
        return [one for place in self._beside() for one in (*key_lines(place, width), line(""))]

    def action_help(self) -> None:
        """Already here."""
