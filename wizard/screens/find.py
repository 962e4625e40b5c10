"""Find by typing: every question by number or words, every action, every assembly of the catalogue."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rich.cells import cell_len

from engine.answers.document import CHAPTERS, all_asked
from engine.errors import plain
from wizard import keys, wording
from wizard.screens import form, frame
from wizard.screens.base import EntryScreen
from wizard.widgets.entry import Entry
from wizard.widgets.lines import Line, Lines, Rows, fitted, line

if TYPE_CHECKING:
    from collections.abc import Iterator

    from textual.app import ComposeResult

    from engine.answers.document import Answers
    from engine.catalogue.columns import Catalogue

LONGEST = 60
#: So many assemblies are listed; a longer part of the name finds the rest.
MOST_PARTS = 40
_MOVES = frozenset({"up", "down", "pageup", "pagedown"})


@dataclass(frozen=True)
class Found:
    """One thing that can be gone to: its kind (question, action, part), what it is called, more about it, its name."""

    kind: str
    title: str
    about: str
    name: str


def everything(answers: Answers, place: str) -> list[Found]:
    """Return every question and the actions that work at a place, at the questions or on the shortlist."""
    titles = {chapter.field: chapter.title for chapter in CHAPTERS}
    found = []
    for item in all_asked(answers):
        chapter = titles[item.path.partition(".")[0]]
        shown = (
            wording.assumed(item.question, item.question.default)
            if item.value is None
            else item.question.show(item.value)
        )
        where = form.item_title(answers, item) if item.listed else chapter
        found.append(Found("question", f"{item.number} {item.question.label}", f"{where}: {shown}", item.path))
    places = dict.fromkeys((place, "chapter", "shortlist", "every"))
    actions = {
        (key.action, key.help): Found("action", f"{key.shown}  {key.label}", key.help, f"{key.place}.{key.action}")
        for one in places
        for key in keys.KEYS
        if key.place == one and key.action not in {"find", "back"}
    }
    return [*found, *actions.values()]


def matching(things: list[Found], text: str) -> list[Found]:
    """Return the things in which every typed word stands; a number or a beginning of a name comes first."""
    words = text.casefold().split()
    if not words:
        return things
    kept = [one for one in things if all(word in f"{one.title} {one.about}".casefold() for word in words)]

    def rank(one: Found) -> int:
        number, _, label = one.title.casefold().partition(" ")
        if number == words[0]:
            return 0
        return 1 if label.startswith(" ".join(words)) else 2 if words[0] in label else 3

    return sorted(kept, key=rank)


def parts(catalogue: Catalogue | None, text: str) -> Iterator[Found]:
    """Walk the assemblies that are meant: by name, else by a part's name, else by what the text decodes to."""
    wanted = text.strip().casefold()
    if catalogue is None or len(wanted) < 2:
        return
    names = [str(name) for name in catalogue.designation.tolist()]
    held = [at for at, name in enumerate(names) if wanted in name.casefold()]
    held.sort(key=lambda at: (not names[at].casefold().startswith(wanted), at))
    for at in (held or _of_parts(catalogue, wanted) or _decoded(catalogue, text))[:MOST_PARTS]:
        size = f"d {catalogue.d[at]:g}  D {catalogue.D[at]:g}  T {catalogue.T[at]:g} mm"
        yield Found("part", plain(names[at], 40), size, str(at))


def _of_parts(catalogue: Catalogue, wanted: str) -> list[int]:
    both = zip(catalogue.cone.tolist(), catalogue.cup.tolist(), strict=True)
    return [at for at, (cone, cup) in enumerate(both) if wanted in cone.casefold() or wanted in cup.casefold()]


def _decoded(catalogue: Catalogue, text: str) -> list[int]:
    """Return the rows that the readings of a designation fix, however it is written."""
    from engine.catalogue.designation import decode
    from engine.catalogue.equivalents import find

    rows = (int(row) for reading in decode(text) for row in find(catalogue, reading))
    return list(dict.fromkeys(rows))


class FindScreen(EntryScreen):
    """A line to type in, and what it finds."""

    PLACE = "find"

    def __init__(self) -> None:
        super().__init__()
        self.opened_from = "chapter"
        self.found: list[Found] = []
        self.things: list[Found] = []

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="top")
        yield Rows(meanings, id="rows")
        yield Lines(meanings, id="entry")
        yield Lines(meanings, id="foot")

    def begin(self, place: str) -> None:
        """Begin with an empty line. Done before the screen opens: the next keys may already be on their way."""
        self.opened_from = place
        self.things = everything(self.app.session.answers, place)
        self.entering, self.entry = "find", Entry(longest=LONGEST)

    def on_screen_resume(self) -> None:
        """Show what has been typed by now."""
        self.show_all(0)

    def show_all(self, at: int | None = None) -> None:
        """Bring every block up to date."""
        width = self.width
        if width <= 0 or not self.is_mounted:
            return
        text = self.entry.text
        self.found = [*matching(self.things, text), *parts(self.app.search.catalogue, text)]
        lines = [_row(one, width) for one in self.found]
        self.rows.show_rows(lines or [line(" Nothing is called that.", "caution")], range(len(lines)), at)
        count = wording.counted(len(self.found), "place", "places")
        title = frame.head(f"Find: {count}", "type a number, words, or a designation", width)
        self.block("#top", [title, frame.rule(self.app.glyphs, width)])
        self.show_entry()

    def press(self, key: str, character: str | None) -> None:
        """Move in the list while typing; the rest edits the line."""
        if key in _MOVES:
            self.moved(key)
        else:
            super().press(key, character)

    def entry_edited(self) -> None:
        """Find as it is typed."""
        self.show_all(0)

    def leave_entry(self) -> None:
        """Back to where this was opened."""
        self.app.pop_screen()

    def submit_entry(self) -> None:
        """Go to what is marked."""
        if self.rows.at < len(self.found):
            self.app.go_to_found(self.found[self.rows.at], self.opened_from)

    def action_find(self) -> None:
        """Already here."""

    def action_go(self) -> None:
        """Go to what is marked."""
        self.submit_entry()


def _row(one: Found, width: int) -> Line:
    lead = fitted(f" {one.title}", min(44, width // 2))
    return (
        (lead, "key" if one.kind == "action" else "plain"),
        (fitted(f" {one.about}", width - cell_len(lead)), "quiet"),
    )
