"""The application: one session, one search, the screens over them."""

from __future__ import annotations

import asyncio
import gc
import os
import signal
import sys
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from textual.geometry import Offset

from engine.errors import Problems, plain
from wizard import framework, glyphs, terminal, theme
from wizard.keeping import presence
from wizard.line import driver, flow
from wizard.screens.base import KeyedScreen
from wizard.screens.chapter import ChapterScreen
from wizard.screens.opening import rooms
from wizard.screens.opening.beginning import Beginning
from wizard.screens.opening.ending import tell
from wizard.screens.opening.sessions import Sessions
from wizard.standing import Standing

if TYPE_CHECKING:
    from collections.abc import Callable

    from textual.events import Resize

    from engine.answers.document import Answers
    from wizard.search import Failed, Found, Search
    from wizard.session import Session
    from wizard.studies.distributions import Computed
    from wizard.studies.pairs import Pairs
    from wizard.terminal import Abilities

#: Seconds after which a thread that wants to go on gets its turn.
TURN = 0.0005
#: How long a count may take before the panel says that it is being counted.
PATIENCE = 0.3


class Conewright(Sessions):
    """The wizard over one session."""

    CSS_PATH = "wizard.tcss"
    TITLE = "Conewright"
    ENABLE_COMMAND_PALETTE = False
    SCREENS: ClassVar = rooms.SCREENS

    def __init__(
        self,
        opened: Session,
        can: Abilities,
        load: Callable[[], Any] | None = None,
        catalogue: Path | None = None,
        lubricants: Path | None = None,
        beginning: Beginning | None = None,
    ) -> None:
        super().__init__(opened, beginning or Beginning())
        self.glyphs = glyphs.chosen(can.ascii)
        self.meanings = theme.styles(can.mono)
        if can.ascii:
            framework.only_ascii(self)
        self.standing = Standing()
        self._load, self._catalogue, self._lubricants = load, catalogue, lubricants
        self._take(opened)
        self._labels: list[str] = []  # of the changes made since the last count

    @cached_property
    def search(self) -> Search:
        """The search, imported behind the first frame."""
        from wizard.search import Search

        return Search(self._found_elsewhere, load=self._load, default=self._catalogue, lubricants=self._lubricants)

    @cached_property
    def pairs(self) -> Pairs:
        """What the screens ask of the load distributions."""
        from wizard.studies.pairs import Pairs

        return Pairs(self.search, self.standing)

    def get_default_screen(self) -> ChapterScreen:
        """Open on the questions."""
        return ChapterScreen()

    async def on_mount(self) -> None:
        """Offer the ways to begin before anything is painted."""
        if self.offers:
            await self.push_screen("start")

    def on_ready(self) -> None:
        """Watch for signals and the terminal; what may wait until the first frame is painted does."""
        framework.show_caret(self)
        self.app_resume_signal.subscribe(self, lambda _: self.repaint())
        loop = asyncio.get_running_loop()
        for number in (signal.SIGHUP, signal.SIGTERM, signal.SIGINT):
            if not self.is_headless:
                loop.add_signal_handler(number, self._end_by_signal, number)
        if not (self.is_headless or terminal.in_browser(os.environ)):
            self.set_interval(1.0, self._watch_terminal)
        self.behind_the_first_frame(self._start)

    def _start(self) -> None:
        """Start the search, now that there is something to look at."""
        if not gc.isenabled():  # since the command line began
            gc.freeze()
            gc.enable()
        self.answered("")
        if self.session.empty and not self.offers:
            self._offer_unfinished()

    # the search

    def answered(self, label: str | None = None) -> None:
        """Search again after a change; `label` names it where it is not the session's own name for it."""
        self._labels.append(self.session.last_change if label is None else label)
        self.standing.chosen = self.session.chosen
        self.standing.started()
        self.be_seen()
        self.standing.trouble = self.session.told
        self._look_for(self.session.answers)
        if self.session.notice:
            notice, self.session.notice = self.session.notice, ""
            self.call_later(lambda: self.questions.say(notice, "caution"))
        waited_for = self.session.answers
        self.set_timer(PATIENCE, lambda: self._still_counting(waited_for))

    def _look_for(self, answers: Answers) -> None:
        self.search.folder = self._folder
        self.search.start(answers)

    def _still_counting(self, answers: object) -> None:
        counted = self.standing.counted
        if counted is not None and counted.answers is not answers and answers is self.session.answers:
            self.standing.counting = True
            self._show_panels()

    def _found_elsewhere(self, found: Found) -> None:
        # called from the thread of the search; the application may be gone by then
        if self._loop is not None and self._running:
            self._loop.call_soon_threadsafe(self._found, found)

    def _found(self, found: Found) -> None:
        if self.leaving or found.answers is not self.session.answers:
            return
        from wizard.search import Counted, Drawn, Failed, Listed, Searching
        from wizard.studies.distributions import Computed

        if isinstance(found, Counted):
            self.standing.take_count(found, self._labels)
            self._labels = []
        elif isinstance(found, Listed):
            self.standing.take_list(found)
        elif isinstance(found, Searching):
            self.standing.searched = found.share
        elif isinstance(found, Computed):
            self._computed(found)
        elif isinstance(found, Drawn):
            self.standing.drawn = found
        elif isinstance(found, Failed):
            self._failed(found)
        else:
            self.pairs.take(found)
        screen = self.screen
        if isinstance(screen, KeyedScreen) and screen.is_mounted:
            screen.heard(found)
        self._show_panels()

    def _failed(self, found: Failed) -> None:
        said = f"The catalogue cannot be searched: {found.wrong}"
        if found.error is not None:
            said, whole = self.mishap("The search", found.error)
            self.questions.say(whole, "fails")
        self.standing.failed(found.answers, said)

    def _computed(self, found: Computed) -> None:
        self.standing.take_result(found.result)
        self.standing.whole = found.whole
        self.standing.trouble = found.trouble
        # a record holds everything or nothing of the result
        self.session.set_result(found.result if found.whole else None, found.catalogue)
        if self.session.trouble:
            self.standing.trouble = self.session.told

    def _show_panels(self) -> None:
        screen = self.screen
        if isinstance(screen, KeyedScreen) and screen.is_mounted:
            screen.show_panel()

    # sessions

    def write_document(self, form: str) -> None:
        """Write a document of the session in a thread of its own, and say where it is."""
        write, session = self.beginning.document, self.session
        if write is None:
            return
        self.questions.say("Writing the document ...")

        async def written() -> None:
            try:
                said, meaning = f"Written: {await asyncio.to_thread(write, session, form)}", "plain"
            except Problems as problems:
                said, meaning = str(problems), "fails"
            except OSError as error:
                said, meaning = f"Not written: {plain(error.strerror or str(error))}", "fails"
            self.questions.say(plain(said, 600), meaning)

        self.run_worker(written(), exit_on_error=False)

    async def on_resize(self, event: Resize) -> None:
        """Paint everything again: a terminal of another size has moved its text about. Too small a one is told so."""
        self.shown.forget()
        small = event.size.width < terminal.SMALLEST[0] or event.size.height < terminal.SMALLEST[1]
        told = getattr(self.screen, "PLACE", "") == "small"
        if small and not told:
            self.cursor_position = Offset(0, 0)
            await self.push_screen("small")
        elif told and not small:
            self.pop_screen()  # the screen behind shows how things stand by now

    def on_unmount(self) -> None:
        """End the threads: what they still find is for nobody."""
        for name in ("search", "inquiries"):  # those that were ever begun
            if name in self.__dict__:
                self.__dict__[name].stop()

    def repaint(self) -> None:
        """Paint everything again, whatever the terminal shows."""
        self.shown.forget()
        self.refresh(layout=True)

    def stand_aside(self) -> None:
        """Stop as Ctrl-Z stops any other program: the terminal sends no signal for it while it is ours."""
        if not (self.is_headless or terminal.in_browser(os.environ)):
            # all that the shell started with us, a script around us too: else it would wait and not take over
            os.kill(0, signal.SIGTSTP)


def run(
    opened: Session,
    can: Abilities,
    note: str = "",
    own: tuple[Path | None, Path | None] = (None, None),
    beginning: Beginning | None = None,
    mouse: bool = False,
) -> int:
    """Run the wizard; return the exit status and tell, once the terminal is restored, where the session is kept.

    `own` are the catalogue and the list of lubricants that the user has chosen, None where there is none.
    """
    framework.forgiving_input()
    framework.quiet_mouse()
    framework.escape_alone()
    driver.keys_in_a_row()
    flow.heed_the_line()
    driver.stopped_by_others()
    if can.old:
        driver.old_terminal()
    app = Conewright(opened, can, catalogue=own[0], lubricants=own[1], beginning=beginning)
    if note:
        app.call_later(lambda: app.questions.say(note, "caution"))
    # between two keys the screen and the search take turns; 5 ms a turn, as usual, would be seen in every answer
    sys.setswitchinterval(TURN)
    status = app.run(mouse=mouse)
    presence.unmark()
    if not terminal.in_browser(os.environ):  # nobody reads what follows the screen there
        tell(app)
    return app.return_code or status or 0
