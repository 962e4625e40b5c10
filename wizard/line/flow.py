"""What is written waits for the line, never the application; a line that is stopped does not keep it from ending.

A terminal that is full sends XOFF, and XON once it can go on (ITU-T T.50, DC3 and DC1). The kernel obeys both where the
line is set to (termios, IXON); a write then waits in it. Seen in textual 8.2.8, as everything in `wizard.framework`.
"""

from __future__ import annotations

import contextlib
import fcntl
import struct
import termios
import threading
import time
from queue import SimpleQueue
from typing import IO, TYPE_CHECKING, Any

from textual.drivers import linux_driver
from textual.drivers.linux_driver import LinuxDriver

if TYPE_CHECKING:
    from collections.abc import Callable

#: So many writes may wait for the line; beyond them nothing more is painted until it has caught up.
MOST = 30
#: Characters handed to the line at once; between two such pieces it can be seen that the line goes on.
PIECE = 4096
#: So long nothing may move before a line counts as stopped [s].
PATIENCE = 1.5


class Writer(threading.Thread):
    """Writes to the terminal (8.2.8 lets the application wait once 30 writes do: no signal is heard then)."""

    def __init__(self, file: IO[str]) -> None:
        super().__init__(daemon=True, name="textual-output")
        self._file = file
        self._queue: SimpleQueue[str | None] = SimpleQueue()
        self._pieces = 0
        self.caught_up: Callable[[], None] | None = None  # called from this thread, once nothing waits any more

    @property
    def behind(self) -> bool:
        """Whether so much waits for the line that what is painted now would be seen too late."""
        return self._queue.qsize() > MOST

    def write(self, text: str) -> None:
        """Let a text be written."""
        if self.is_alive() or not self.ident:
            self._queue.put(text)

    def isatty(self) -> bool:
        """Say that this is a terminal."""
        return True

    def fileno(self) -> int:
        """Return the number of the file behind this."""
        return self._file.fileno()

    def flush(self) -> None:
        """Do nothing: the thread does it."""

    def run(self) -> None:
        """Write what comes, until told that nothing more does or the line is gone."""
        with contextlib.suppress(OSError, ValueError):
            while (text := self._queue.get()) is not None:
                for start in range(0, len(text), PIECE):
                    self._file.write(text[start : start + PIECE])
                    if len(text) > PIECE or self._queue.empty():
                        self._file.flush()
                    self._pieces += 1
                if self._queue.empty() and (wake := self.caught_up) is not None:
                    self.caught_up = None
                    wake()
            self._file.flush()

    def stop(self) -> None:
        """Say that nothing more comes."""
        self._queue.put(None)

    def ends(self) -> bool:
        """Wait until all is written, as long as it goes on; return whether it is."""
        seen, since = self._passed(), time.monotonic()
        while self.is_alive() and time.monotonic() < since + PATIENCE:
            self.join(0.02)
            if (now := self._passed()) != seen:
                seen, since = now, time.monotonic()
        return not self.is_alive()

    def _passed(self) -> tuple[int, int]:
        """Return how far the writing is: the pieces that were handed over, and what the kernel has still to send."""
        with contextlib.suppress(OSError, ValueError):
            left = fcntl.ioctl(self.fileno(), termios.TIOCOUTQ, struct.pack("i", 0))
            return self._pieces, struct.unpack("i", left)[0]
        return self._pieces, 0


def start_line(file: int) -> None:
    """Let a line go on that XOFF stopped."""
    with contextlib.suppress(termios.error):
        # Linux starts only what was stopped this way, whoever stopped it before
        termios.tcflow(file, termios.TCOOFF)
        termios.tcflow(file, termios.TCOON)


def heed_the_line() -> None:
    """Leave flow control to the line as it is set, and let no stopped line hold the application up."""
    keys_apart = termios.ICRNL | termios.INLCR | termios.IGNCR

    def close(driver: LinuxDriver) -> None:
        writer: Any = driver._writer_thread
        if isinstance(writer, Writer):
            writer.stop()
            if not writer.ends():
                start_line(writer.fileno())
                if not writer.ends():
                    driver._app.cut_off()  # type: ignore[attr-defined]

    linux_driver.WriterThread = Writer  # type: ignore
    # 8.2.8 clears IXON and IXOFF too, so that what a full terminal sends by itself arrives as two keys
    LinuxDriver._patch_iflag = classmethod(lambda _, flags: flags & ~keys_apart)  # type: ignore
    LinuxDriver.close = close  # type: ignore
