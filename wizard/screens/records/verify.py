"""The record of the session computed again: what moved, by how much and why."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.errors import plain
from wizard.screens.choosing.asking import Work
from wizard.screens.records.told import ToldScreen

if TYPE_CHECKING:
    from engine.record.compared.verify import Verification
    from engine.record.document import Record


class VerifyScreen(ToldScreen):
    """What `conewright verify` says of the file of the session."""

    PLACE = "verify"

    found: tuple[Verification, Record] | None

    def work(self) -> Work | None:
        """Return the question whether the record says what is computed now."""
        verified, session = self.app.beginning.verified, self.app.session
        return None if verified is None else lambda _: verified(session)

    def subject(self) -> str:
        """Say what is verified."""
        return f"Verify {plain(self.app.session.path.name, 60)}"

    @property
    def good(self) -> bool:
        """Whether the record holds, with no key that may be an answer misspelt."""
        return self.found is not None and self.found[0].holds and not self.found[1].unused

    def text(self, width: int) -> str:
        """Return the verification in words."""
        from engine.report.compared import verification_text

        assert self.found is not None
        verification, record = self.found
        return verification_text(verification, self.app.session.path.name, width, record.unused.cautions)

    def submit_entry(self) -> None:
        """Nothing is typed here."""
