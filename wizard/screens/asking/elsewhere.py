"""Keys of the screen of questions that open what chooses among the pairs."""

from __future__ import annotations

from wizard.screens.base import EntryScreen


class Elsewhere(EntryScreen):
    """The part of the screen of questions that leads to the pairs and the catalogue."""

    def action_shortlist(self) -> None:
        """See the pairs that pass."""
        self.app.open("shortlist")

    def action_gives(self) -> None:
        """See what must give for more pairs to pass."""
        self.app.open("gives")

    def action_why(self) -> None:
        """Type a pair or part to see why it is out."""
        self.app.show_why()

    def action_browse(self) -> None:
        """Look through the catalogue."""
        self.app.open("browse")
