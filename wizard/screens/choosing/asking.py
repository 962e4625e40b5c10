"""What the screens share that ask the engine something: progress while it runs, Esc stops it, and what it found."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, ClassVar

from engine.answers.question import Refused, Value
from engine.errors import plain
from wizard.screens import frame
from wizard.screens.base import EntryScreen
from wizard.screens.every.beside import BesideScreen
from wizard.studies.inquiry import Answered, Ear, Ended, Going, Inquiry, Part, Word
from wizard.widgets.lines import Line, Lines, Rows, fitted, line, wrapped

if TYPE_CHECKING:
    from collections.abc import Sequence

    from textual.app import ComposeResult

    from engine.record.result import Result

#: What is asked: it gets an ear and returns what is shown.
Work = Callable[[Ear], Any]

LONGEST = 120


class InquiryScreen(BesideScreen, EntryScreen):
    """A list of what was found, a line on how far it is or what the marked line means, and a line to type in."""

    #: What the key does that goes on after a stop, where the answers are the same.
    GOES_ON: ClassVar[str] = "x begins anew"

    def __init__(self) -> None:
        super().__init__()
        self.inquiry: Inquiry | None = None
        self.running = False
        self.going: Going | None = None
        self.found: Any = None
        self.stopped = False
        self.wrong = ""
        self.message: tuple[str, str] = ("", "plain")
        self._computed: tuple[Any, Any, Result | None] = (None, None, None)  # a pair, the count it belongs to

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="side")
        yield Lines(meanings, id="top")
        yield Rows(meanings, id="rows")
        yield Lines(meanings, id="note")
        yield Lines(meanings, id="entry")
        yield Lines(meanings, id="panel")
        yield Lines(meanings, id="foot")

    # what each screen says for itself

    def work(self) -> Work | None:
        """Return what is to be asked; None where there is nothing to ask."""
        raise NotImplementedError

    def subject(self) -> str:
        """Return what is looked at."""
        raise NotImplementedError

    def page(self, width: int) -> tuple[list[Line], Sequence[int]]:
        """Return the lines of what was found, and those that can be marked."""
        raise NotImplementedError

    def about(self) -> str:
        """Return what the marked line means."""
        return ""

    def held(self) -> int | None:
        """Return the line that the mark goes on to where lines have come or gone; None for the nearest to before."""
        return None

    def take_part(self, part: Any) -> None:
        """Take a part of what is found; screens that show parts override it."""

    # asking

    def ask(self) -> None:
        """Ask for the answers as they stand."""
        self.forget()
        work = self.work() if self.app.search.catalogue is not None else None
        if work is not None:
            self.inquiry, self.running = Inquiry(self.app.session.answers, work), True
            self.app.inquiries.ask(self.inquiry)

    def forget(self) -> None:
        """Drop what was asked and found."""
        if self.inquiry is not None and self.running:
            self.app.inquiries.drop(self.inquiry)
        self.inquiry, self.running, self.going, self.found = None, False, None, None
        self.stopped, self.wrong = False, ""

    @property
    def stale(self) -> bool:
        """Whether what was asked is not about the answers as they stand."""
        return self.inquiry is None or self.inquiry.answers is not self.app.session.answers

    @property
    def so_far(self) -> str:
        """What stands behind a list that is not complete: it still grows, or it was stopped; nothing where it is."""
        if self.running:
            return " so far"
        return " so far; stopped" if self.stopped or self.wrong else ""

    def follow(self, word: Word) -> None:
        """Take what is told of the inquiry; of another one it is passed over."""
        if word.inquiry is not self.inquiry:
            return
        if isinstance(word, Going):
            self.going = word
        elif isinstance(word, Part):
            self.take_part(word.part)
        elif isinstance(word, Answered):
            # it may have been done before the wish to stop came through
            self.running, self.stopped, self.found = False, False, word.found
        elif isinstance(word, Ended):
            self.running, self.stopped, self.wrong = False, not word.wrong, word.wrong
        if self.app.screen is self:
            self.show_all()

    def on_screen_resume(self) -> None:
        """Ask where the answers are others by now."""
        if self.stale and not self.stopped:
            self.ask()
        self.show_all()

    def on_screen_suspend(self) -> None:
        """Stop what runs where the screen was left and not only covered."""
        if self not in self.app.screen_stack:
            self.forget()
            self.message = ("", "plain")

    # what is shown

    def show_all(self) -> None:
        """Bring every block up to date."""
        width = self.width
        if width <= 0 or not self.is_mounted:
            return
        lines, stops = self.page(width)
        self.block("#top", [frame.head(plain(self.subject(), 200), "", width), frame.rule(self.app.glyphs, width)])
        self.rows.show_rows(lines, stops, self.held())
        self.show_note()
        self.show_entry()
        self.show_panel()

    def show_panel(self) -> None:
        """Show how many pairs remain; once the catalogue is read, ask what could not be asked before."""
        if self.inquiry is None and not self.stopped and self.app.search.catalogue is not None and self.work():
            self.ask()
            self.show_all()
        self.block("#panel", frame.panel(self.app.standing, self.app.glyphs, self.width))
        self.show_side()

    def show_note(self) -> None:
        """Show how far it is or what stopped it, and under that the message, or what the marked line means."""
        state, said = self._state(), self.message if self.message[0] else (self.about(), "quiet")
        lines = [
            line(f" {part}", meaning)
            for text, meaning in (state, said)
            for part in wrapped(text, self.width - 2, 2)
            if text
        ]
        height = max(2, len(lines))
        self.block("#note", [frame.rule(self.app.glyphs, self.width), *lines, *[line("")] * (height - len(lines))])
        self.query_one("#note").styles.height = 1 + height

    def _state(self) -> tuple[str, str]:
        if self.running:
            share, what = (self.going.share, self.going.what) if self.going is not None else (0.0, "")
            return fitted(f"{frame.bar(self.app.glyphs, share)}  Esc stops it{f'; {what}' if what else ''}",
                          self.width - 2), "quiet"  # fmt: skip
        if self.wrong:
            return plain(self.wrong, 300), "fails"
        if self.stopped:
            begins = "the answers have changed since; x looks anew" if self.stale else self.GOES_ON
            return f"Stopped before all was looked at; {begins}.", "caution"
        return "", "quiet"

    def say(self, text: str, meaning: str = "plain") -> None:
        """Put a message where the note stands, until the next move."""
        self.message = (plain(text, 400), meaning)
        self.show_note()

    def taken(self) -> None:
        """Ask about what was typed."""
        self.close_entry()
        self.message = ("", "plain")
        self.rows.at = 0
        self.ask()
        self.show_all()

    def left_as_it_was(self, asked: bool) -> None:
        """Leave the entry line for what was asked before; where nothing was, go back."""
        self.close_entry()
        self.message = ("", "plain")
        if asked:
            self.show_note()
        else:
            self.app.pop_screen()

    def refuse(self, error: Refused) -> None:
        """Say what was wrong with what was typed, and what is accepted."""
        self.say(f"{error.wrong}{'' if error.wrong[-1:] in '.?' else '.'} Accepted: {error.accepted}", "fails")

    def marked_another(self) -> None:
        """Follow the mark."""
        self.message = ("", "plain")
        self.show_note()

    def beside(self, width: int, height: int) -> list[Line]:
        """Return the pair at hand with its checks and figures; where there is none, how things stand."""
        result = self._at_hand()
        if result is None:
            return self.stands(width, height)
        from wizard.screens.choosing import beside  # only where there is room for it

        return beside.of_pair(result, self.app.glyphs, (width, height))

    def at_hand(self) -> tuple[str, str] | None:
        """Return the designations of the pair that it is about; screens that are about one override it."""
        return None

    def _at_hand(self) -> Result | None:
        """Return what is known of that pair, computed once for the answers as they stand."""
        pair, counted = self.at_hand(), self.app.standing.counted
        if pair is None or counted is None or self.app.search.catalogue is None:
            return None
        known = self.app.search.studies.known(pair)
        if known is None and self._computed[:2] != (pair, counted):
            self._computed = (pair, counted, self.app.pairs.at_once(pair))
        return known or self._computed[2]

    def nothing_yet(self) -> Line:
        """Return the line that stands while nothing is found."""
        if self.app.search.catalogue is None:
            return line(" Reading the catalogue ...", "quiet")
        if self.so_far and not self.running:
            return line(f" Nothing found{self.so_far}", "caution")
        return line(" Computing ..." if self.running else "", "quiet")

    # keys

    def action_back(self) -> None:
        """Stop what runs; where nothing does, go back."""
        if self.running and self.inquiry is not None:
            self.app.inquiries.drop(self.inquiry)
            self.running, self.stopped = False, True
            self.show_all()
        else:
            self.app.pop_screen()

    def action_halt(self) -> None:
        """Stop what runs, or begin it anew."""
        if self.running:
            self.action_back()
        else:
            self.ask()
            self.show_all()

    def changed(self, label: str) -> None:
        """Ask anew after a change that was taken back or brought back."""
        self._changed(label)

    def apply(self, changes: Sequence[tuple[str, Value | None]], label: str) -> None:
        """Put changes into the answers in one step, and ask anew."""
        self.app.session.take(changes, label)
        self._changed(None)

    def _changed(self, label: str | None) -> None:
        self.app.answered(label)
        self.message = (
            f"{label or self.app.session.last_change}; u takes it back." if label is None else label,
            "plain",
        )
        self.ask()
        self.show_all()


def cut(text: str, width: int, meaning: str = "plain") -> Line:
    """Return a line made safe and cut to a width."""
    return line(fitted(plain(text, 400), width), meaning)
