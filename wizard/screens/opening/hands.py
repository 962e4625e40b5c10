"""What hands do: keys, pasted text and the mouse, handed to the screen in front one after the other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.keys import FLOW
from wizard.screens.base import EntryScreen, KeyedScreen
from wizard.screens.opening.ending import Leaving

if TYPE_CHECKING:
    from collections.abc import Sequence

    from textual.events import Key

#: Lines that a notch of the wheel moves the mark by.
WHEEL = 3


class Hands(Leaving):
    """The part of the application that deals with keys and the mouse."""

    # keys

    async def pressed(self, key: str, character: str | None) -> None:
        """Let the screen in front deal with a key, and wait until whatever it opened is there."""
        screen = self.screen
        if isinstance(screen, KeyedScreen) and key not in FLOW:
            screen.press(key, character)
        await self._opened()

    async def pressed_in_a_row(self, keys: Sequence[Key]) -> None:
        """Let the screens take keys one after the other; for what an entry line has no room, it says so once."""
        for key in keys:
            screen = self.screen
            if self.leaving:
                return
            if isinstance(screen, EntryScreen) and screen.full:
                screen.too_long()
                return
            await self.pressed(key.key, key.character)

    async def pasted(self, text: str) -> None:
        """Let the screen in front take a pasted text."""
        screen = self.screen
        if isinstance(screen, KeyedScreen):
            screen.typed(text)
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
