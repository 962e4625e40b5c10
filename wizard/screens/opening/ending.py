"""The end of the program: answers that could not be saved are put elsewhere, or it is asked before they are lost."""

from __future__ import annotations

import os
import sys
import termios
import traceback
from typing import TYPE_CHECKING

from wizard import wording
from wizard.exit_codes import Exit
from wizard.keeping import shelf
from wizard.keeping.mishap import write_error
from wizard.screens.opening.doors import Doors

if TYPE_CHECKING:
    from pathlib import Path


class Leaving(Doors):
    """The part of the application that ends it, or goes on after an error inside."""

    def __init__(self) -> None:
        super().__init__()
        self._mishaps: dict[str, Path | None] = {}  # the file of each, by what happened

    def last_words(self, error: BaseException | None) -> str:
        """Say where the answers are, and where the details of an error inside are for those who can mend it."""
        kept = self._keep()
        report = write_error(shelf.state_folder(), error)
        elsewhere = self.session.rescued
        path, trouble = elsewhere or self.session.path, "" if kept or elsewhere else self.session.trouble
        return wording.last_words(error, path, trouble, report)

    def mishap(self, what: str, error: BaseException) -> tuple[str, str]:
        """Write what stopped something into a file, once; return what is said of it, in short and in full."""
        happened = "".join(traceback.format_exception(error))
        if happened not in self._mishaps:
            self._mishaps[happened] = write_error(shelf.state_folder(), error)
        if self.session.lacking:
            return wording.mishap(what, self.session.told, self._mishaps[happened])
        return wording.mishap(what, "Your answers are saved", self._mishaps[happened])

    def _keep(self) -> bool:
        """Save, elsewhere where it cannot be done where the answers belong; return whether they are where they do."""
        return self.session.keep() or not self.session.lacking

    def leave(self) -> None:
        """Leave; everything is saved already. Answers that no file would take are not lost without being asked."""
        if self._keep():
            self.exit(Exit.PASSES)
        elif not self.session.unsaved:
            self.exit(Exit.NOT_SAVED)
        else:
            asked = [getattr(screen, "PLACE", "") for screen in self.screen_stack]
            if "leaving" not in asked:
                self.open("leaving")
            while "leaving" in asked and getattr(self.screen, "PLACE", "") != "leaving":
                self.pop_screen()  # it was asked already, and help or another page lies over it

    def leave_unsaved(self) -> None:
        """Leave, whatever is lost."""
        self.exit(Exit.NOT_SAVED)

    def _end_by_signal(self, number: int) -> None:
        self._keep()
        self.exit(128 + number)

    def _watch_terminal(self) -> None:
        """Notice a line that dropped without a signal; an orphan would otherwise spin for ever."""
        try:
            termios.tcgetattr(sys.__stdin__.fileno() if sys.__stdin__ else 0)
        except (termios.error, OSError, ValueError):
            self._keep()
            os._exit(129)


def tell(app: Leaving) -> None:
    """Tell, once the terminal is restored, where the session is kept."""
    if app.said_last:
        print(app.said_last, end="", file=sys.stderr)
        return
    kept, trouble, chosen = app.session, app.session.trouble, bool(app.standing.chosen)
    if trouble and not kept.lacking:
        said = wording.nothing_lost(kept.path, trouble)
    else:
        said = wording.farewell(kept.rescued or kept.path, trouble, chosen, kept.rescued is not None)
    for words in said:
        print(words, file=sys.stderr if trouble else sys.stdout)
