"""A chapter of questions with the live count: the screen on which most of the work is done."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.answers.binned import Histogram
from engine.answers.document import CHAPTERS, question_at
from engine.answers.lubricated.kinds import FromList
from engine.answers.question import Refused, Value
from engine.answers.worded import Choice, Text, YesNo
from engine.errors import Problems, plain
from wizard import session as session_module
from wizard.keeping import rescue
from wizard.screens import form, frame
from wizard.screens.asking.elsewhere import Elsewhere
from wizard.screens.asking.going import ChapterKeys
from wizard.screens.asking.options import option_lines, stepped
from wizard.widgets.entry import Entry
from wizard.widgets.lines import Line, Lines, Rows, wrapped

if TYPE_CHECKING:
    from textual.app import ComposeResult

_BEGINS_A_NUMBER = frozenset("0123456789+-.<>")
HELP_HEIGHT = 4
ROOM_FOR_STRIP = 24
OPTIONS_TITLE = "Up, Down or the beginning of a name; Enter takes it"
LONGEST_ENTRY = 64
LONGEST_PATH = 300
#: Chapters that have a picture of their own, and the screen that draws it.
VIEWS = {"duty": "shaft", "shaft": "shaft", "lubrication": "lubrication", "fits": "fits", "setting": "setting"}


class ChapterScreen(Elsewhere, ChapterKeys):
    """Questions of one chapter; the chapters are changed in place."""

    PLACE = "chapter"

    def __init__(self) -> None:
        super().__init__()
        self.chapter = CHAPTERS[0].field
        self.places: dict[str, int] = {}  # where each chapter was left
        self.form: form.Form | None = None
        self.message: list[Line] = []
        self.walked = ""
        self.overwrite = ""
        self.fresh = False  # whether the entry line still holds the answer it was opened with
        self.stem = ""  # what was typed of an option, before the arrow keys went through those it leaves
        self.last_typed = ""  # the last answer that was taken, as it was typed

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="side")
        yield Lines(meanings, id="head")
        yield Rows(meanings, id="rows", reach=1)
        yield Lines(meanings, id="strip")
        yield Lines(meanings, id="help")
        yield Lines(meanings, id="entry")
        yield Lines(meanings, id="panel")
        yield Lines(meanings, id="foot")

    # what is shown

    def show_all(self, at: int | None = None) -> None:
        """Bring every block up to date; unchanged lines are not painted again."""
        answers, width, glyphs = self.app.session.answers, self.width, self.app.glyphs
        self.form = form.form(answers, self.chapter, glyphs, width)
        wanted = self.places.get(self.chapter, 0) if at is None else at
        self.rows.show_rows(self.form.lines, self.form.stops, wanted)
        self.places[self.chapter] = self.rows.at
        title = frame.head(plain(answers.duty.job or "new session"), self._saved(), width)
        bar = form.chapter_bar(answers, self.chapter, glyphs, width)
        told = "{} of {} answered".format(*form.answered(answers, self.chapter)) if width < form.TIGHT else ""
        self.block("#head", [title, bar, frame.rule(glyphs, width, told)])
        self.show_panel()
        self.show_help()
        self.show_entry()

    def show_chapter(self, at: int | None = None) -> None:
        """Bring the chapter up to date, with a line of it marked."""
        self.walked = ""
        self.show_all(at)

    def show_panel(self) -> None:
        """Show how many pairs remain, and the shaft where it is asked about."""
        self.block("#panel", frame.panel(self.app.standing, self.app.glyphs, self.width))
        self.show_side()
        strip, drawn = self.query_one("#strip", Lines), list[Line]()
        if self.chapter == "shaft" and self.app.size.height >= ROOM_FOR_STRIP:
            from wizard.screens.onshaft import seen  # only this chapter draws it

            drawn = seen.strip_lines(self.app.session.answers, self.app.standing, self.width, self.app.glyphs)
        strip.display, strip.styles.height = bool(drawn), max(1, len(drawn))
        strip.show(drawn)

    def show_help(self) -> None:
        """Show a message if there is one, else the help on the marked question."""
        item, width = self.marked, self.width
        choice = self._choice()
        if choice is not None and not self.message:
            found = option_lines(choice, self.stem, self.entry.text, width, HELP_HEIGHT)
            self.block("#help", [frame.rule(self.app.glyphs, width, OPTIONS_TITLE), *found])
            return
        text = self.message or (form.help_lines(item, width, HELP_HEIGHT) if item else self._empty_help())
        # the heading of a long item scrolls away, so what it is stands here as well
        title = form.item_title(self.app.session.answers, item) if item is not None and item.listed else ""
        title = self.walked or title or (form.whole_label(item, width) if item is not None else "")
        title = title or ("v draws this chapter and advises" if self.chapter in VIEWS else "")
        self.block("#help", [frame.rule(self.app.glyphs, width, title), *text[:HELP_HEIGHT]])

    def _empty_help(self) -> list[Line]:
        empty = self.form.empty.get(self.rows.at) if self.form else None
        return form.empty_lines(empty, self.width) if empty else []

    def _saved(self) -> str:
        session = self.app.session
        if session.trouble:
            return "NOT SAVED"
        name = plain(session.path.name, 24) + (" (new)" if session.new else "")
        return name if session.named else ("saved as you go" if not session.empty else "")

    def say(self, text: str, meaning: str = "plain") -> None:
        """Put a message where the help stands, until the next move."""
        self.message = [((" ", "plain"), (part, meaning)) for part in wrapped(text, self.width - 2)]
        self.show_help()

    # moving

    def marked_another(self) -> None:
        """Follow the mark with the help."""
        self.places[self.chapter] = self.rows.at
        self.message, self.walked = [], ""
        self.show_help()

    def action_repeat(self) -> None:
        """Give the marked question what was typed last."""
        if self.marked is None or not self.last_typed:
            self.say("Nothing has been typed yet; = repeats the last answer on another question.", "caution")
        else:
            self.take(self.marked.path, self.last_typed)

    # answering

    def typed(self, text: str) -> None:
        """Begin a number at once, choose an option by its digit, or take pasted text into the entry line."""
        item = self.marked
        if self.entering:
            self.put(text)
        elif item is not None and text and text[0] in _BEGINS_A_NUMBER:
            question = item.question
            if isinstance(question, YesNo) or (isinstance(question, Choice) and question.by_number):
                self.take(item.path, text)
            elif not isinstance(question, Text | Histogram | FromList):
                self._enter(item.path, text)
                if not Entry(longest=LONGEST_ENTRY).fits(text):
                    self.too_long()

    def action_edit(self) -> None:
        """Open the entry line on the marked question."""
        item = self.marked
        if item is not None and isinstance(item.question, Histogram):
            self.say("Name of a CSV file; Enter reads it into the record, Esc leaves it as it was.")
            self._enter(item.path, "", LONGEST_PATH)
        elif item is not None and isinstance(item.question, FromList):
            self.app.show_lubricants()
        elif item is not None:
            self._enter(item.path, form.entry_text(item))
            if self._choice() is not None:
                # all options are offered until something is typed, which then takes the place of the old answer
                self.stem, self.fresh = "", True
                self.show_help()

    def _enter(self, path: str, text: str, longest: int = LONGEST_ENTRY) -> None:
        self.overwrite, self.stem, self.fresh = "", text, False
        self.begin_entry(path, text, longest)
        self.show_help()

    @property
    def full(self) -> bool:
        """Whether there is no room for more; the next character takes the place of an old answer, so it has room."""
        return super().full and not (self.fresh and self._choice() is not None)

    def too_long(self) -> None:
        """Say that not all of a text was taken."""
        self.say(f"The line holds {self.entry.longest} characters; what came behind them was left out.", "caution")

    # going through options

    def _choice(self) -> Choice | None:
        """Return the choice that is being answered in the entry line."""
        if "." not in self.entering:
            return None
        question = question_at(self.entering)
        return question if isinstance(question, Choice) else None

    def press(self, key: str, character: str | None) -> None:
        """Go through the options of a choice by arrow keys; what is typed there takes the place of the old answer."""
        choice = self._choice()
        if choice is not None and key in {"up", "down"}:
            text = stepped(choice, self.stem, self.entry.text, 1 if key == "down" else -1)
            self.message = []
            self.begin_entry(self.entering, text, LONGEST_ENTRY)
            self.fresh = True
            self.show_help()
            return
        if self.fresh and choice is not None and character is not None and character.isprintable():
            self.begin_entry(self.entering, "", LONGEST_ENTRY)
        self.fresh = False
        super().press(key, character)

    def entry_edited(self) -> None:
        """Offer the options that what is typed leaves."""
        if self._choice() is not None:
            self.stem, self.message = self.entry.text, []
            self.show_help()

    def submit_entry(self) -> None:
        """Take the answer or the file name."""
        if self.entering == "save":
            self._save_under(self.entry.text.strip())
        else:
            self.take(self.entering, self.entry.text)

    def leave_entry(self) -> None:
        """Leave the answer as it was."""
        self._close_entry()
        self.show_help()

    def take(self, path: str, text: str, answer: Value | None = None) -> None:
        """Take an answer as typed, or one that a list holds under these words; refused, it says why."""
        session = self.app.session
        notes: tuple[str, ...] = ()
        try:
            if not text.strip():
                session.clear(path)
            elif answer is not None:
                notes = session.give(path, answer)
            elif isinstance(question_at(path), Histogram):
                notes = session.read_histogram(path, text.strip())
            else:
                notes = session.answer(path, text)
        except Refused as error:
            self.say(f"{error.wrong}. Accepted: {error.accepted}", "fails")
            return
        except Problems as problems:
            self.say(str(problems), "fails")
            return
        self.last_typed = text.strip() or self.last_typed
        self._close_entry()
        self.app.answered()
        self.show_all()
        if self.marked is not None and self.marked.path == path:
            self.moved("down")
        if notes:
            self.say(" ".join(notes), "caution" if isinstance(question_at(path), Histogram) else "plain")

    def _close_entry(self) -> None:
        self.message = []
        self.close_entry()

    def action_clear(self) -> None:
        """Open the marked question again."""
        item = self.marked
        if item is not None and item.value is not None:
            self.app.session.clear(item.path)
            self.app.answered()
            self.show_all()

    # files

    def action_save_as(self) -> None:
        """Ask for a file name."""
        session = self.app.session
        meant = session.path if session.named else rescue.record_of(session.path)
        self.say("File name for the record (.toml); Enter saves, Esc leaves it as it was.")
        self._enter("save", str(meant or ""), LONGEST_PATH)

    def _save_under(self, text: str) -> None:
        if not text:
            self.leave_entry()
            return
        path = session_module.record_path(text)
        session = self.app.session
        if path.is_dir():
            self.say(f"{plain(str(path))} is a folder. Accepted: the name of a file in it.", "fails")
        elif path.exists() and path != session.path and self.overwrite != str(path):
            self.overwrite = str(path)
            self.say(f"{plain(str(path))} exists. Enter again replaces it; Esc leaves it.", "caution")
        elif session.save_as(path.absolute()):
            self.app.beginning.remember(path.absolute())
            self.app.be_seen()
            self._close_entry()
            self.show_all()
            self.say(f"Saved in {plain(str(path))}; every further answer is saved there too.", "passes")
        else:
            self.say(f"{session.trouble}. Choose another name; the session itself is kept.", "fails")

    def action_open_unfinished(self) -> None:
        """Go on with the session that was left unfinished."""
        self.app.open_unfinished()

    # other screens

    def action_view(self) -> None:
        """See the picture of this chapter, where it has one."""
        view = VIEWS.get(self.chapter)
        if view is None:
            drawn = ", ".join(chapter.title for chapter in CHAPTERS if chapter.field in VIEWS)
            self.say(f"This chapter has no picture; these have one: {drawn}.")
        elif view == "setting":
            self.app.show_setting()
        else:
            self.app.open(view)

    def action_help(self) -> None:
        """See the keys, with the help on the marked question."""
        self.app.show_help_page("typing" if self.entering else "chapter", self.marked)
