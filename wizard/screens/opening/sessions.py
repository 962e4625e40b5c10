"""Which session is worked on: the ways to begin, the change to another one, and what other sessions are told of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.errors import Problems
from wizard import session, wording
from wizard.keeping import presence, rescue, shelf
from wizard.screens.opening.hands import Hands

if TYPE_CHECKING:
    from pathlib import Path

    from engine.answers.document import Answers
    from wizard.commands.recent import Offer
    from wizard.screens.opening.beginning import Beginning
    from wizard.session import Session
    from wizard.standing import Standing


class Sessions(Hands):
    """The part of the application that changes the session."""

    standing: Standing

    def __init__(self, opened: Session, beginning: Beginning) -> None:
        super().__init__()
        self.session, self.beginning = opened, beginning
        self._seen: Path | None = None  # the record that other sessions are told is open here

    def _take(self, opened: Session) -> None:
        """Work on a session from now on."""
        self.session = opened
        self.standing.chosen = opened.chosen
        self._folder = opened.path.parent
        opened.on_change = self._look_for

    @property
    def offers(self) -> list[Offer]:
        """The ways to begin."""
        return self.beginning.offers

    def begin(self, offer: Offer) -> None:
        """Begin in one of the ways offered; where its record cannot be read, say why and begin anew."""
        self.pop_screen()
        self._go_on(offer)

    def change_session(self, name: str) -> None:
        """Go on with another session; what stands in the one before is saved, or it stays open."""
        offer = next((one for one in self.beginning.ways() if one.path == name), None)
        if offer is None:
            self.questions.say("That session is gone.", "caution")
        elif self.session.keep():
            self._go_on(offer)
        else:
            self.questions.say(f"This session stays open: {self.session.trouble}", "fails")

    def _go_on(self, offer: Offer) -> None:
        assert self.beginning.opened is not None
        try:
            opened, note = self.beginning.opened(offer)
        except Problems as problems:
            opened, note = self.session, str(problems)
        self._take(opened)
        self.answered("")
        self.questions.show_all(0)
        if note:
            self.questions.say(note, "caution")

    def answered(self, label: str | None = None) -> None:
        """Search again after a change."""
        raise NotImplementedError

    def _look_for(self, answers: Answers) -> None:
        """Search for these answers."""
        raise NotImplementedError

    def be_seen(self) -> None:
        """Let other sessions know which record is open here."""
        if self.session.path != self._seen:
            self._seen = self.session.path
            presence.mark(self._seen)

    def _offer_unfinished(self) -> None:
        kept = shelf.unfinished(self.session.path.parent, self.session.path)
        if kept is not None:
            self.questions.say(f"An unfinished session is kept ({kept.name}); press o to go on with it.", "caution")

    def open_unfinished(self) -> None:
        """Go on with the newest unfinished session."""
        from engine.record.read import read

        kept = rescue.rescued_of(self.session.path) or shelf.unfinished(shelf.state_folder(), self.session.path)
        if kept is None:
            self.questions.say("There is no unfinished session.")
            return
        try:
            record = read(kept)
        except Problems as problems:
            self.questions.say(str(problems), "fails")
            return
        self._take(session.Session(record, kept, named=False))
        self.answered("")
        self.questions.show_all(0)
        twice = [wording.open_elsewhere(kept.name, one.process, one.since) for one in presence.others(kept)[:1]]
        said = " ".join([*twice, wording.going_on(kept, rescue.record_of(kept))])
        self.questions.say(said, "caution" if twice else "plain")
