"""What hands do: keys, pasted text and the mouse, handed to the screen in front one after the other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.keys import FLOW
from wizard.screens.base import EntryScreen, KeyedScreen
from wizard.screens.opening.ending import Leaving

if TYPE_CHECKING:
    from collections.abc import Sequence

    from textual.events import Key

#: What stands for bytes that are no character of the line's encoding; an answer that holds one could mean anything.
UNREADABLE = "\ufffd"
#: Lines that a notch of the wheel moves the mark by.
WHEEL = 3


class Hands(Leaving):
    """The part of the application that deals with keys and the mouse."""

    # keys

    async def pressed(self, key: str, character: str | None) -> None:
        """Let the screen in front deal with a key, and wait until whatever it opened is there."""
        screen = self.screen
        if character == UNREADABLE:
            self._left_out()
        elif isinstance(screen, KeyedScreen) and key not in FLOW:
            screen.press(key, character)
        await self._opened()

    def _left_out(self) -> None:
        screen = self.screen
        if isinstance(screen, KeyedScreen):
            screen.say("What came is no character that can be read; it was left out.", "caution")

    async def pressed_in_a_row(self, keys: Sequence[Key]) -> None:
        """Let the screens take keys one after the other; for what an entry line has no room, it says so once."""
        readable = [key for key in keys if key.character != UNREADABLE]
        for key in readable:
            screen = self.screen
            if self.leaving:
                return
            if isinstance(screen, EntryScreen) and screen.full:
                screen.too_long()
                return
            await self.pressed(key.key, key.character)
        if len(readable) < len(keys):
            self._left_out()  # once, behind what the other keys say

    async def pasted(self, text: str) -> None:
        """Let the screen in front take a pasted text."""
        screen = self.screen
        if isinstance(screen, KeyedScreen):
            screen.typed(text.replace(UNREADABLE, ""))
            if UNREADABLE in text:
                self._left_out()
        await self._opened()

    # the mouse

    async def clicked(self, x: int, y: int) -> None:
        """Let the screen in front take a click, as the key that it stands for."""
        screen = self.screen
        if isinstance(screen, KeyedScreen):
            screen.click(x, y)
        await self._opened()

    async def wheeled(self, by: int) -> None:
        """Move the mark as the arrow keys do, several lines at a time."""
        screen = self.screen
        if isinstance(screen, KeyedScreen):
            for _ in range(WHEEL):
                screen.press("down" if by > 0 else "up", None)
        await self._opened()
