"""Between the framework and the line: what it reads at once, and what it must not write to an old terminal.

Seen in textual 8.2.8, as everything in `wizard.framework`.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from textual._xterm_parser import XTermParser
from textual.drivers.linux_driver import LinuxDriver
from textual.events import Event, Key

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from textual.message import Message

#: What came after the terminals of the VT family: commands to the window system (OSC), the keyboard protocol that
#: begins with CSI < = or >, and questions after a mode, which end in $p. Older ones print what they cannot read of it.
_TOO_NEW = re.compile(r"\x1b\][^\x07\x1b]*(?:\x07|\x1b\\)|\x1b\[[<=>][0-9;]*[a-zA-Z]|\x1b\[\?[0-9;]*\$p")


class KeyRun(Event, bubble=False):
    """Keys of printable characters that arrived together, as from a paste that the terminal does not bracket."""

    def __init__(self, keys: Sequence[Key]) -> None:
        super().__init__()
        self.keys = keys


def keys_in_a_row() -> None:
    """Hand over as one event the printable characters that are read at once (8.2.8 sends an event for each)."""
    fed = XTermParser.feed

    def feed(parser: XTermParser, data: str) -> Iterable[Message]:
        run: list[Key] = []
        for message in fed(parser, data):
            if isinstance(message, Key) and message.is_printable:
                run.append(message)
                continue
            yield from _together(run)
            run = []
            yield message
        yield from _together(run)

    XTermParser.feed = feed  # type: ignore


def _together(run: list[Key]) -> list[Message]:
    return [KeyRun(run)] if len(run) > 1 else [*run]


def old_terminal() -> None:
    """Write nothing that an old terminal would print (8.2.8 asks every terminal for what only newer ones know)."""
    write = LinuxDriver.write

    def written(driver: LinuxDriver, data: str) -> None:
        known = _TOO_NEW.sub("", data) if "\x1b" in data else data
        if known:
            write(driver, known)

    LinuxDriver.write = written  # type: ignore


def stopped_by_others() -> None:
    """Begin again on a terminal after a stop that came unasked, with SIGSTOP (8.2.8 reads it twice then, for ever)."""
    resumed = LinuxDriver._sigcont_application

    def begin_again(driver: LinuxDriver) -> None:
        if driver._app._running and not driver._app._exit:
            driver.suspend_application_mode()
            driver._must_signal_resume = True
            driver.resume_application_mode()

    def went_on(driver: LinuxDriver, *_: Any) -> None:
        if driver._must_signal_resume:  # it has stood aside, as after Ctrl-Z
            resumed(driver)
        else:
            # not in the handler of a signal: that may have come while something was being written
            driver._loop.call_soon_threadsafe(begin_again, driver)

    LinuxDriver._sigcont_application = went_on  # type: ignore
