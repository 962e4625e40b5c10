"""How large the terminal is: asked of it when a change is dealt with, whatever the change was told to be.

Seen in textual 8.2.8, as everything in `wizard.framework`. A terminal that is resized several times within
milliseconds leaves it with an older size in four ways, each with its cure here.
"""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any

from textual.app import App
from textual.drivers.linux_driver import LinuxDriver
from textual.events import Resize
from textual.geometry import Size
from textual.screen import Screen

if TYPE_CHECKING:
    from textual.driver import Driver
    from textual.events import Event
    from textual.timer import Timer


class SizedApp(App[int]):
    """An application that ends as large as its terminal, however fast that was resized."""

    async def on_event(self, event: Event) -> None:
        """Take a change of size as it is by now."""
        await super().on_event(_by_now(event, self._driver) if isinstance(event, Resize) else event)

    def set_timer(self, *args: Any, **more: Any) -> Timer:
        """Start a timer that goes off once, late if need be.

        8.2.8 drops one that was due before it began to wait, as on a machine that is busy; the timer that it lays out
        by after a change of size is then waited for without end.
        """
        timer = super().set_timer(*args, **more)
        timer._skip = False
        return timer

    def _check_resize(self) -> None:
        """Have the screen laid out; paint it where it is as large as before, since the terminal moved its text about.

        8.2.8 paints what the new layout changed: after a change back and forth that is nothing.
        """
        changed = self._resize_event
        super()._check_resize()
        if changed is not None and self._screen_stack and self.screen.outer_size == changed.size:
            self.screen.refresh()


class SizedScreen(Screen[None]):
    """A screen that is as large as the application.

    8.2.8 sends a screen the sizes of its own layouts too. One of them takes the place of a newer size that waits in
    the screen's queue, as messages of one kind do.
    """

    def _screen_resized(self, size: Size) -> None:  # noqa: ARG002
        """Lay out for the size that the application has by now."""
        super()._screen_resized(self.app.size)


def _by_now(told: Resize, driver: Driver | None) -> Resize:
    """Return a change of size with the size that the terminal has by now.

    8.2.8 reads the size in the handler of the signal. A signal that comes meanwhile is handled inside that one, and
    the older size is handed over last. What the terminal itself tells, with its pixels, comes in order.
    """
    drawn_on = driver._file if isinstance(driver, LinuxDriver) else None
    if drawn_on is None or told.pixel_size is not None:
        return told
    try:
        size = Size(*os.get_terminal_size(drawn_on.fileno()))
    except (OSError, ValueError):
        return told  # the line is gone, which is noticed elsewhere
    return Resize(size, size) if size.area else told
