"""A chapter of questions with the live count: the screen on which most of the work is done."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding
from textual.containers import Horizontal
from textual.widgets import Input

from engine.answers.document import CHAPTERS, Asked
from engine.answers.question import Refused
from engine.answers.worded import Choice, Text, YesNo
from engine.errors import plain
from wizard import keys
from wizard.framework import LeanScreen
from wizard.screens import form, frame
from wizard.widgets.lines import Line, Lines, Rows, line

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.events import Key, Resize

    from wizard.app import Conewright

_BEGINS_A_NUMBER = frozenset("0123456789+-.<>")
LONGEST_ENTRY = 64
LONGEST_PATH = 300


class ChapterScreen(LeanScreen):
    """Questions of one chapter; the chapters are changed in place."""

    BINDINGS: ClassVar = [
        *(Binding(",".join(key.keys), key.action, key.label, show=False) for key in keys.at("chapter")),
        Binding("escape", "leave_entry", "leave", show=False),
    ]

    app: Conewright

    def __init__(self) -> None:
        super().__init__()
        self.chapter = CHAPTERS[0].field
        self.places: dict[str, int] = {}  # where each chapter was left
        self.form: form.Form | None = None
        self.message: list[Line] = []
        self.entering = ""  # a question's path, "save" while a file name is asked, or ""
        self.overwrite = ""

    def compose(self) -> ComposeResult:
        """Lay out the blocks."""
        meanings = self.app.meanings
        yield Lines(meanings, id="head")
        yield Rows(meanings, id="rows")
        yield Lines(meanings, id="help")
        with Horizontal(id="entry"):
            yield Lines(meanings, id="prompt")
            field = Input(id="field", compact=True, max_length=LONGEST_ENTRY, select_on_focus=False)
            field.cursor_blink = False
            yield field
        yield Lines(meanings, id="panel")
        yield Lines(meanings, id="foot")

    def on_mount(self) -> None:
        """Show the first chapter."""
        self.rows.focus()
        self.call_after_refresh(self.show_all)

    def on_resize(self, event: Resize) -> None:  # noqa: ARG002
        """Lay the text out for the new width."""
        self.call_after_refresh(self.show_all)

    @property
    def rows(self) -> Rows:
        """The list of questions."""
        return self.query_one("#rows", Rows)

    @property
    def field(self) -> Input:
        """The entry line."""
        return self.query_one("#field", Input)

    @property
    def marked(self) -> Asked | None:
        """The marked question."""
        return self.form.questions.get(self.rows.at) if self.form else None

    # what is shown

    def show_all(self, at: int | None = None) -> None:
        """Bring every block up to date; unchanged lines are not painted again."""
        answers, width, glyphs = self.app.session.answers, self.size.width, self.app.glyphs
        if width <= 0:
            return
        self.form = form.form(answers, self.chapter, glyphs, width)
        wanted = self.places.get(self.chapter, 0) if at is None else at
        self.rows.show_rows(self.form.lines, self.form.stops, wanted)
        self.places[self.chapter] = self.rows.at
        bar = form.chapter_bar(answers, self.chapter, glyphs, width)
        self._block(
            "#head",
            [frame.head(answers.duty.job or "new session", self._saved(), width), bar, frame.rule(glyphs, width)],
        )
        self._block("#foot", [frame.foot("chapter", width)])
        self.show_panel()
        self.show_help()

    def show_panel(self) -> None:
        """Show how many pairs remain."""
        self._block("#panel", frame.panel(self.app.standing, self.app.glyphs, self.size.width))

    def show_help(self) -> None:
        """Show a message if there is one, else the help on the marked question."""
        item, width = self.marked, self.size.width
        text = self.message or (form.help_lines(item, width, 5) if item else [])
        self._block("#help", [frame.rule(self.app.glyphs, width), *text[:5]])

    def _block(self, selector: str, lines: list[Line]) -> None:
        self.query_one(selector, Lines).show(lines)

    def _saved(self) -> str:
        session = self.app.session
        if session.trouble:
            return "NOT SAVED"
        return plain(session.path.name, 24) if session.named else ("saved as you go" if not session.empty else "")

    def say(self, text: str, meaning: str = "plain") -> None:
        """Put a message where the help stands, until the next move."""
        import textwrap

        self.message = [((" ", "plain"), (part, meaning)) for part in textwrap.wrap(text, self.size.width - 2)]
        self.show_help()

    # moving

    def on_rows_marked(self) -> None:
        """Follow the mark with the help."""
        self.places[self.chapter] = self.rows.at
        self.message = []
        self.show_help()

    def _go(self, by: int) -> None:
        fields = [chapter.field for chapter in CHAPTERS]
        self.chapter = fields[(fields.index(self.chapter) + by) % len(fields)]
        self.message = []
        self.show_all()

    def action_next_chapter(self) -> None:
        """Show the next chapter."""
        self._go(1)

    def action_previous_chapter(self) -> None:
        """Show the chapter before."""
        self._go(-1)

    def action_next_open(self) -> None:
        """Mark the next question without an answer, in this chapter or a later one."""
        fields = [chapter.field for chapter in CHAPTERS]
        start = fields.index(self.chapter)
        for step in range(len(fields)):
            chapter = fields[(start + step) % len(fields)]
            found = form.form(self.app.session.answers, chapter, self.app.glyphs, self.size.width)
            for at, item in found.questions.items():
                if item.value is None and (step or at > self.rows.at):
                    self.chapter, self.message = chapter, []
                    self.show_all(at)
                    return
        self.say("Every question of the chapters that follow is answered.")

    # answering

    def on_key(self, event: Key) -> None:
        """Begin a number at once, or choose an option by its digit."""
        item = self.marked
        if self.entering or item is None or event.character is None or event.character not in _BEGINS_A_NUMBER:
            return
        question = item.question
        by_number = isinstance(question, YesNo) or (isinstance(question, Choice) and question.by_number)
        if by_number:
            self._take(item.path, event.character)
        elif not isinstance(question, Text):
            self._enter(item.path, event.character)
        event.stop()

    def action_edit(self) -> None:
        """Open the entry line on the marked question."""
        item = self.marked
        if item is not None and not self.entering:
            self._enter(item.path, form.entry_text(item))

    def _enter(self, path: str, text: str, longest: int = LONGEST_ENTRY) -> None:
        self.entering, self.overwrite = path, ""
        self._block("#prompt", [line(self.app.glyphs.here, "title")])
        self.field.max_length = longest
        self.field.value = text
        self.field.cursor_position = len(text)
        self.field.focus()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Take what was typed."""
        event.stop()
        if self.entering == "save":
            self._save_under(event.value.strip())
        elif self.entering:
            self._take(self.entering, event.value)

    def _take(self, path: str, text: str) -> None:
        session = self.app.session
        try:
            if text.strip():
                session.answer(path, text)
            else:
                session.clear(path)
        except Refused as error:
            self.say(f"{error.wrong}. Accepted: {error.accepted}", "fails")
            return
        self._close_entry()
        self.app.answered()
        self.show_all()
        if self.form is not None and self.marked is not None and self.marked.path == path:
            self.rows.action_move(1)

    def action_leave_entry(self) -> None:
        """Leave the entry line with the answer as it was."""
        if self.entering:
            self._close_entry()
            self.show_help()

    def _close_entry(self) -> None:
        self.entering, self.message = "", []
        self.field.value = ""
        self._block("#prompt", [line("")])
        self.rows.focus()

    def action_clear(self) -> None:
        """Open the marked question again."""
        item = self.marked
        if item is not None and item.value is not None:
            self.app.session.clear(item.path)
            self.app.answered()
            self.show_all()

    # load cases and history

    def _case(self) -> int | None:
        return self.marked.case if self.marked else None

    def _show_case(self, case: int) -> None:
        self.chapter = "duty"
        self.app.answered()
        found = form.form(self.app.session.answers, "duty", self.app.glyphs, self.size.width)
        self.show_all(found.line_of(f"duty.cases[{case}].name"))

    def action_add_case(self) -> None:
        """Add an empty load case."""
        self._show_case(self.app.session.add_case())

    def action_copy_case(self) -> None:
        """Copy the marked load case."""
        case = self._case()
        if case is None:
            self.say("Mark a line of a load case first; c copies it.", "caution")
        else:
            self._show_case(self.app.session.add_case(like=case))

    def action_remove_case(self) -> None:
        """Remove the marked load case; undo brings it back."""
        case = self._case()
        if case is None:
            self.say("Mark a line of a load case first; x removes it.", "caution")
            return
        self.app.session.remove_case(case)
        self._show_case(max(0, case - 1))
        self.say(f"Load case {case + 1} removed; u brings it back.")

    def action_undo(self) -> None:
        """Take back the last change."""
        self._after_history("Taken back", self.app.session.undo())

    def action_redo(self) -> None:
        """Bring back what was undone."""
        self._after_history("Brought back", self.app.session.redo())

    def _after_history(self, done: str, label: str) -> None:
        if label:
            self.app.answered(f"{done}: {label}")
            self.show_all()
            self.say(f"{done}: {label}")
        else:
            self.say(
                "There is nothing more to take back." if done == "Taken back" else "There is nothing to bring back."
            )

    # files

    def action_save_as(self) -> None:
        """Ask for a file name."""
        session = self.app.session
        self.say("File name for the record (.toml); Enter saves, Esc leaves it as it was.")
        self._enter("save", str(session.path) if session.named else "", LONGEST_PATH)

    def _save_under(self, text: str) -> None:
        if not text:
            self.action_leave_entry()
            return
        path = Path(text).expanduser()
        path = path if path.suffix else path.with_suffix(".toml")
        session = self.app.session
        if path.is_dir():
            self.say(f"{plain(str(path))} is a folder. Accepted: the name of a file in it.", "fails")
        elif path.exists() and path != session.path and self.overwrite != str(path):
            self.overwrite = str(path)
            self.say(f"{plain(str(path))} exists. Enter again replaces it; Esc leaves it.", "caution")
        elif session.save_as(path.absolute()):
            self._close_entry()
            self.show_all()
            self.say(f"Saved in {plain(str(path))}; every further answer is saved there too.", "passes")
        else:
            self.say(f"{session.trouble}. Choose another name; the session itself is kept.", "fails")

    def action_open_unfinished(self) -> None:
        """Go on with the session that was left unfinished."""
        self.app.open_unfinished()

    # other screens

    def action_shortlist(self) -> None:
        """See the pairs that pass."""
        self.app.push_screen("shortlist")

    def action_help(self) -> None:
        """See the keys, with the help on the marked question."""
        self.app.show_help_page("chapter", self.marked)

    def action_quit(self) -> None:
        """Leave."""
        self.app.leave()
