"""What opens over the questions: each screen with what it is to show."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from textual.geometry import Offset

from wizard.screens.chapter import ChapterScreen
from wizard.screens.choosing.doors import ChoosingDoors
from wizard.screens.opening import rooms

if TYPE_CHECKING:
    from collections.abc import Awaitable

    from textual.screen import Screen

    from engine.answers.document import Asked
    from engine.answers.question import Value
    from wizard.screens.finding.screen import FindScreen
    from wizard.screens.finding.things import Found
    from wizard.screens.help import HelpScreen
    from wizard.screens.pair import PairScreen
    from wizard.screens.reading import ReadingScreen
    from wizard.screens.records.diff import DiffScreen
    from wizard.screens.section import SectionScreen
    from wizard.screens.views.lubricants import LubricantsScreen
    from wizard.screens.views.setting import SettingScreen


#: What is done to the catalogue as a whole, once its screen is there.
OF_THE_CATALOGUE = {"decode", "filter", "order", "reverse", "units"}


class Doors(ChoosingDoors):
    """The part of the application that opens screens; a screen is there before the next key is dealt with."""

    def __init__(self) -> None:
        super().__init__()
        self._opening: Awaitable[None] | None = None
        self._then = ""  # what that screen does once it is there

    @property
    def questions(self) -> ChapterScreen:
        """The screen of questions, under whatever lies over it."""
        screen = self.screen_stack[0]
        assert isinstance(screen, ChapterScreen)
        return screen

    def open(self, screen: str | Screen[Any]) -> None:
        """Open a screen over the one in front."""
        self._opening = self.push_screen(screen)

    async def _opened(self) -> None:
        while self._opening is not None:
            opening, self._opening = self._opening, None
            await opening
            then, self._then = self._then, ""
            if then:
                getattr(self.screen, then)()

    def show_pair(self, bearing_a: str, bearing_b: str) -> None:
        """Open the figures of a pair."""
        if self.search.catalogue is None or self.standing.counted is None:
            return
        shown: PairScreen = self.room("pair")
        # the closed formulas at once; the rest follows when it is computed
        shown.result = self.pairs.look((bearing_a, bearing_b)) or self.pairs.at_once((bearing_a, bearing_b))
        self.open(shown)

    def show_setting(self, pair: tuple[str, str] | None = None) -> None:
        """Open the setting of a pair, or of the one in view."""
        shown: SettingScreen = self.room("setting")
        shown.show_pair(pair or self.pairs.in_view(self.session.answers))
        self.open(shown)

    def show_section(self, at: int, inch: bool) -> None:
        """Open the section of a catalogue row."""
        shown: SectionScreen = self.room("section")
        shown.at, shown.inch = at, inch
        self.open(shown)

    def show_reading(self, text: str) -> None:
        """Open what a designation says."""
        shown: ReadingScreen = self.room("reading")
        shown.text = text
        self.open(shown)

    def show_lubricants(self) -> None:
        """Open the list of lubricants."""
        shown: LubricantsScreen = self.room("lubricants")
        shown.begin()
        self.open(shown)

    def show_diff(self) -> None:
        """Open the line in which another record is named, which this one is held against."""
        shown: DiffScreen = self.room("diff")
        shown.begin()
        self.open(shown)

    def take_from_list(self, path: str, answer: Value, name: str) -> None:
        """Go back to the questions with an answer chosen from a list, and the name that it goes by there."""
        self.pop_screen()
        self.questions.take(path, name, answer)

    def show_find(self, place: str) -> None:
        """Open the line in which anything is found by typing."""
        page: FindScreen = self.room("find")
        if page in self.screen_stack:  # from a page that was opened over it: back to what was typed there
            while self.screen is not page:
                self.pop_screen()
            return
        page.begin(place)
        self.open(page)

    def go_to_found(self, place: Found, opened_from: str) -> None:
        """Go to a question, a part or a screen, do an action where it works, or go on with another session."""
        self.pop_screen()
        if self.questions.entering:
            self.questions.leave_entry()  # help was read in the midst of an answer, and the way led on from there
        where, _, action = place.name.partition(".")
        match place.kind:
            case "part":
                self.show_section(int(place.name), inch=False)
            case "question":
                self.go_to_question(place.name)
            case "chapter":
                self.to_questions()
                self.questions.go_to_chapter(place.name)
            case "session":
                self.to_questions()
                self.change_session(place.name)
            case "document":
                self.to_questions()
                self.write_document(place.name)
            case "place" | "record":
                self._go_to_place(where, action)
            case _:
                self._do_at(where, action, opened_from)

    def change_session(self, name: str) -> None:
        """Go on with another session, by what the way to begin with it is called."""
        raise NotImplementedError

    def write_document(self, form: str) -> None:
        """Write a document of the session, by its form."""
        raise NotImplementedError

    def _do_at(self, where: str, action: str, opened_from: str) -> None:
        """Do an action, after going where it works."""
        if where not in {opened_from, "every"}:
            self.to_questions()
        if where not in {"chapter", "every"} and getattr(self.screen, "PLACE", "") != where:
            self.open(where)
            self._then = f"action_{action}"
            return
        getattr(self.screen, f"action_{action}")()

    def _go_to_place(self, where: str, action: str) -> None:
        """Open the screen on which an action works, and do it where nothing has to be marked before.

        Else its footer shows the key.
        """
        self.to_questions()
        if where == "setting":
            self.show_setting()
        elif where == "lubricants":
            self.show_lubricants()
        elif where == "diff":
            self.show_diff()
        elif where in rooms.BEHIND:
            before, action = rooms.BEHIND[where]
            self._do_at(before, action, "")
        else:
            self.open(where)
            if where == "browse" and action in OF_THE_CATALOGUE:
                self._then = f"action_{action}"

    def go_to_question(self, path: str) -> None:
        """Go to a question from wherever we are."""
        self.to_questions()
        self.questions.go_to(path)

    def to_questions(self) -> None:
        """Go back to the questions, from whatever lies over them."""
        while len(self.screen_stack) > 1:
            self.pop_screen()

    def show_help_page(self, place: str, item: Asked | None = None) -> None:
        """Open the help page."""
        page: HelpScreen = self.room("help")
        page.place, page.item = place, item
        self.cursor_position = Offset(0, 0)  # no caret on a page to read; a line that is open puts it back
        self.open(page)
