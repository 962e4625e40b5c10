"""What every screen does with keys: look them up in the one list, move the mark, and nothing else."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from rich.cells import cell_len
from textual.geometry import Offset

from wizard import keys
from wizard.line.size import SizedScreen
from wizard.screens import frame
from wizard.screens.every.history import History
from wizard.widgets.entry import Entry
from wizard.widgets.lines import Line, Lines, Rows, line

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.events import Resize

    from wizard.app import Conewright
    from wizard.search import Found
    from wizard.studies.inquiry import Word


#: What else works while something is typed, by its key.
_WHILE_TYPING = {
    key: one.action
    for one in keys.TYPING
    if one.action in {"help", "quit", "stand_aside", "repaint"}
    for key in one.keys
}


class KeyedScreen(History, SizedScreen):
    """A screen of line blocks. Keys come one at a time from the application, so none can overtake another."""

    AUTO_FOCUS: ClassVar[str | None] = ""
    PLACE: ClassVar[str] = ""

    app: Conewright

    @property
    def rows(self) -> Rows:
        """The list that the arrow keys move in."""
        return self.query_one("#rows", Rows)

    @property
    def width(self) -> int:
        """Columns of the terminal."""
        return self.app.size.width

    def block(self, selector: str, lines: list[Line]) -> None:
        """Show lines in one of the blocks."""
        self.query_one(selector, Lines).show(self.headed(lines) if selector in {"#head", "#top"} else lines)

    def show_all(self) -> None:
        """Bring every block up to date; unchanged lines are not painted again."""
        raise NotImplementedError

    def show_panel(self) -> None:
        """Show how many pairs remain; screens without such a panel have nothing to do."""

    def heard(self, found: Found) -> None:
        """Follow what the search found; screens that show more of it than how many pairs remain override it."""

    def follow(self, word: Word) -> None:
        """Follow what an inquiry found; the screens that ask one override it."""

    def on_screen_resume(self) -> None:
        """Show how things stand by now."""
        self.show_all()

    def on_resize(self, event: Resize) -> None:  # noqa: ARG002
        """Lay the text out for the new width."""
        self.call_after_refresh(self.show_all)

    def press(self, key: str, character: str | None) -> None:
        """Do what a key means here; a key without a meaning does nothing."""
        self.hush()
        if self.moved(key):
            return
        wanted = next((one for one in keys.at(self.PLACE) if key in one.keys), None)
        if wanted is not None:
            getattr(self, f"action_{wanted.action}")()
        elif character is not None and character.isprintable():
            self.typed(character)

    def click(self, x: int, y: int) -> None:
        """Mark the line that was clicked, or enter it where it was marked; in the footer, do what stands there."""
        block = next((one for one in self.query(Lines) if one.display and one.region.contains(x, y)), None)
        if block is None:
            return
        index, column = y - block.region.y + block.top, x - block.region.x
        if isinstance(block, Rows):
            if index == block.at and block.is_stop(index):
                self.press("enter", None)
            elif block.is_stop(index):
                block.mark(index)
                self.marked_another()
        elif block.id == "foot":
            self._click_key(block.piece_at(index, column))
        elif index < len(block.lines):
            self.clicked(str(block.id), index, block.piece_at(index, column))

    def _click_key(self, piece: int | None) -> None:
        """Press the key of a piece of the footer: each takes two, the key and its name."""
        foot = self.query_one("#foot", Lines).lines
        if piece is None or not foot:
            return
        shown = foot[0][piece - piece % 2][0]
        wanted = next((one for one in self.keys_now() if one.shown == shown), None)
        if wanted is not None:
            self.press(wanted.keys[0], None)

    def keys_now(self) -> tuple[keys.Key, ...]:
        """Return the actions that work as things stand, which the footer shows."""
        return keys.at(self.PLACE)

    def clicked(self, block: str, index: int, piece: int | None) -> None:
        """Take a click on another block; screens that know what to do with it override it."""

    def moved(self, key: str) -> bool:
        """Move the mark by an arrow or page key; return whether it was one."""
        step = keys.STEPS.get(key)
        if step is None:
            return False
        before = self.rows.at
        self.rows.step(*step)
        if self.rows.at != before:
            self.marked_another()
        return True

    def marked_another(self) -> None:
        """Follow the mark; screens with something to say about the marked line override it."""

    def typed(self, text: str) -> None:
        """Take characters that are no command, typed or pasted."""

    def action_help(self) -> None:
        """See the keys."""
        self.app.show_help_page(self.PLACE)

    def action_find(self) -> None:
        """Find a question, a part or an action by typing."""
        self.app.show_find(self.PLACE)

    def action_repaint(self) -> None:
        """Paint everything again."""
        self.app.repaint()

    def action_stand_aside(self) -> None:
        """Give the terminal back to the shell, until it says to go on."""
        self.app.stand_aside()

    def action_back(self) -> None:
        """Go back to where this was opened."""
        self.app.pop_screen()

    def action_quit(self) -> None:
        """Leave."""
        self.app.leave()


class PageScreen(KeyedScreen):
    """A page to read: a head, a list that scrolls, the keys."""

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="top")
        yield Rows(meanings, id="rows")
        yield Lines(meanings, id="foot")


class EntryScreen(KeyedScreen):
    """A screen with a line in which something is typed; while it is open the keys edit it."""

    def __init__(self) -> None:
        super().__init__()
        self.entering = ""  # what is being typed: a question's path, a word of the screen's own, or "" for nothing
        self.entry = Entry()

    def begin_entry(self, what: str, text: str, longest: int) -> None:
        """Open the entry line."""
        self.entering = what
        self.entry = Entry(longest=longest).typed(text)
        self.show_entry()

    def close_entry(self) -> None:
        """Close the entry line."""
        self.entering, self.entry = "", Entry()
        self.show_entry()

    def keys_now(self) -> tuple[keys.Key, ...]:
        """Return what keys do in the line while it is open."""
        return keys.while_typing(self.PLACE) if self.entering else super().keys_now()

    def action_help(self) -> None:
        """See the keys, first those that work while something is typed."""
        self.app.show_help_page("typing" if self.entering and self.PLACE not in keys.SEARCHED else self.PLACE)

    def show_entry(self) -> None:
        """Show the entry line, with the terminal's own cursor at its caret, and the keys that work there."""
        self.block("#foot", [frame.foot(self.PLACE, self.width, typing=bool(self.entering))])
        if not self.entering:
            self.block("#entry", [line("")])
            self.app.cursor_position = Offset(0, 0)
            return
        before, under, behind = self.entry.window(self.width - 3)
        here = (f"{self.app.glyphs.here} ", "title")
        self.block("#entry", [(here, (before, "plain"), (under, "here"), (behind, "plain"))])
        self.app.cursor_position = Offset(2 + cell_len(before), self.query_one("#entry").region.y)

    def press(self, key: str, character: str | None) -> None:
        """While something is typed the keys edit it; else they are commands."""
        if not self.entering:
            super().press(key, character)
        elif key == "escape":
            self.leave_entry()
        elif key == "enter":
            self.submit_entry()
        elif key in _WHILE_TYPING:
            getattr(self, f"action_{_WHILE_TYPING[key]}")()
        else:
            edited = self.entry.press(key)
            if edited is None and character is not None:
                self.put(character)
            self.edit(edited)

    def typed(self, text: str) -> None:
        """Take pasted text into the entry line."""
        if self.entering:
            self.put(text)

    def put(self, text: str) -> None:
        """Put a text in at the caret, as much of it as there is room for."""
        fits = self.entry.fits(text)
        self.edit(self.entry.typed(text))
        if not fits:
            self.too_long()

    @property
    def full(self) -> bool:
        """Whether something is being typed and there is no room for more of it."""
        return bool(self.entering) and not self.entry.room

    def too_long(self) -> None:
        """Say that not all of a text was taken; screens with a place for messages override it."""

    def edit(self, edited: Entry | None) -> None:
        """Take an edited entry, where there is one."""
        if edited is not None and edited != self.entry:
            self.entry = edited
            self.show_entry()
            self.entry_edited()

    def entry_edited(self) -> None:
        """Follow what is typed; screens that do so override it."""

    def leave_entry(self) -> None:
        """Leave the entry line without taking what was typed."""
        self.close_entry()

    def submit_entry(self) -> None:
        """Take what was typed."""
        raise NotImplementedError
