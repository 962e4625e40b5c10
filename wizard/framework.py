"""What leans on the screen framework's private parts, each piece with the version it was seen in and the reason.

All of it was seen in textual 8.2.8, which pyproject.toml pins exactly; tests/wizard/test_framework.py fails where a
piece is no longer needed or no longer works.
"""

from __future__ import annotations

import codecs
import locale
import os
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from rich.cells import cell_len
from rich.segment import Segment
from textual._compositor import ChopsUpdate, CompositorUpdate, LayoutUpdate
from textual._xterm_parser import XTermParser
from textual.app import App
from textual.css.query import NoMatches
from textual.drivers import linux_driver
from textual.events import Event, Key, MouseDown, MouseEvent, MouseScrollDown, MouseScrollUp, Paste
from textual.filter import LineFilter

from wizard.exit_codes import Exit
from wizard.line.driver import KeyRun
from wizard.line.flow import Writer
from wizard.line.size import SizedApp
from wizard.repaint import Shown, cells_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from rich.style import Style
    from textual.color import Color
    from textual.screen import Screen
    from textual.strip import Strip


class OneQueue(SizedApp):
    """Keys are dealt with one after the other by the application itself.

    8.2.8 hands each key to the queue of the focused widget; where a key moves the focus or opens a screen, the keys
    that follow it on a fast line are already queued at the old place. Here `pressed` ends before the next key begins.
    """

    def __init__(self) -> None:
        super().__init__()
        self.shown = Shown()
        self.said_last = ""  # to be printed once the terminal is restored
        self._waits: Callable[[], None] | None = None  # for the first frame

    @property
    def leaving(self) -> bool:
        """Whether the end has been asked for; the screens may have lost their widgets already."""
        return bool(self._exit)

    async def on_event(self, event: Event) -> None:
        """Take keys and pasted text; leave the rest to the framework."""
        if self.leaving and isinstance(event, Key | KeyRun | Paste | MouseEvent):
            pass  # typed ahead of the end
        elif isinstance(event, Key):
            await self.pressed(event.key, event.character)
        elif isinstance(event, KeyRun):
            await self.pressed_in_a_row(event.keys)
        elif isinstance(event, Paste):
            await self.pasted(event.text)
        elif isinstance(event, MouseScrollUp | MouseScrollDown):
            await self.wheeled(-1 if isinstance(event, MouseScrollUp) else 1)
        elif isinstance(event, MouseDown):
            await self.clicked(event.screen_x, event.screen_y)
        elif isinstance(event, MouseEvent):
            pass  # nothing here follows a mouse that only moves
        else:
            await super().on_event(event)

    def _display(self, screen: Screen[Any], renderable: Any) -> None:
        """Send only the cells that differ from what the terminal shows (8.2.8 sends every line that was touched)."""
        if self._line_behind():
            return
        if isinstance(renderable, ChopsUpdate | LayoutUpdate):
            renderable = Difference(renderable, self.shown, self.size.width)
        super()._display(screen, renderable)
        if self._waits is not None and self.shown.anything:
            waited, self._waits = self._waits, None
            self.call_later(waited)

    def _line_behind(self) -> bool:
        """Whether a slow or stopped line has enough to write; the newest state is painted once it has caught up."""
        writer = getattr(self._driver, "_writer_thread", None)
        if not isinstance(writer, Writer) or not writer.behind:
            return False
        writer.caught_up = self._line_caught_up
        return writer.behind  # asked again: it may have caught up before it knew whom to tell

    def _line_caught_up(self) -> None:
        # called from the thread that writes; the application may be gone by then
        if self._loop is not None and self._running:
            self._loop.call_soon_threadsafe(lambda: self.refresh(layout=True))

    def cut_off(self) -> None:
        """End at once on a line that takes no more, where the end was asked for; everything is saved by then."""
        if self.leaving:
            os._exit(self._return_code or self._return_value or 0)

    def behind_the_first_frame(self, work: Callable[[], None]) -> None:
        """Do something once there is a frame (8.2.8 is ready before it has painted a screen opened on mounting)."""
        if self.is_headless or self.shown.anything:
            work()
        else:
            self._waits = work

    def _handle_exception(self, error: Exception) -> None:
        """Let a screen miss the widgets that it has lost at the end (8.2.8 still hands it what was in its queue)."""
        if not (self.leaving and isinstance(error, NoMatches)):
            super()._handle_exception(error)

    def _fatal_error(self) -> None:
        """End on an error inside with calm words (8.2.8 prints a traceback with every local variable)."""
        self._return_code = Exit.ERROR_INSIDE
        self.said_last = self.last_words(self._exception)
        self._close_messages_no_wait()

    def last_words(self, error: BaseException | None) -> str:
        """Return what is said once the terminal is restored."""
        raise NotImplementedError

    async def pressed(self, key: str, character: str | None) -> None:
        """Deal with one key."""
        raise NotImplementedError

    async def pressed_in_a_row(self, keys: Sequence[Key]) -> None:
        """Deal with keys of printable characters that arrived together, one after the other."""
        raise NotImplementedError

    async def pasted(self, text: str) -> None:
        """Deal with a pasted text."""
        raise NotImplementedError

    async def clicked(self, x: int, y: int) -> None:
        """Deal with a button pressed at a cell."""
        raise NotImplementedError

    async def wheeled(self, by: int) -> None:
        """Deal with the wheel, turned up (-1) or down (1)."""
        raise NotImplementedError


class Difference(CompositorUpdate):
    """An update of the framework, sent as the cells that differ from what is shown."""

    def __init__(self, update: ChopsUpdate | LayoutUpdate, shown: Shown, width: int) -> None:
        self.update = update
        self.shown = shown
        self.width = width

    def __rich_console__(self, console: Any, options: Any) -> Any:
        """Return the update as it came, where somebody prints it."""
        return self.update.__rich_console__(console, options)

    def render_segments(self, console: Any) -> str:
        """Return what the terminal must be sent."""
        system = console._color_system

        def drawn(text: str, style: Style | None) -> str:
            return text if style is None else style.render(text, color_system=system)

        def bare(style: Style | None) -> bool:
            return style is None or _asks_nothing(style, system)

        return "".join(
            self.shown.paint(y, x, cells_of(strip, bare), self.width, drawn) for y, x, strip in _placed(self.update)
        )


@lru_cache(1024)
def _asks_nothing(style: Style, system: Any) -> bool:
    """Return whether a style is the terminal's own look: no attribute, and its own two colours."""
    if system is None or style.link:
        return system is None
    return set(style._make_ansi_codes(system).split(";")) <= {"", "39", "49"}


def _placed(update: ChopsUpdate | LayoutUpdate) -> Iterator[tuple[int, int, Strip]]:
    """Walk the pieces of an update with the line and column where each begins."""
    if isinstance(update, LayoutUpdate):
        for y, line in enumerate(update.strips, update.region.y):
            x = update.region.x
            for piece in line:
                yield y, x, piece
                x += piece.cell_length
        return
    for y, x1, x2 in update.spans:
        for end, (x, strip) in zip(update.chop_ends[y], update.chops[y].items(), strict=False):
            if strip is None or x > x2 or end <= x1:
                continue
            whole = x2 > x >= x1 and end <= x2
            yield y, x, strip if whole else strip.crop(0, min(end, x2) - x)


@lru_cache(4096)
def ascii_twin(text: str) -> str:
    """Return a text with every character outside ASCII replaced by one that stands for it, cell for cell."""
    if text.isascii():
        return text
    # a wide character takes two cells, so its stand-in does as well
    return "".join(c if c.isascii() else _TWINS.get(c, "?" * cell_len(c)) for c in text)


_TWIN_OF = {
    "-": "─━–—▔▁",
    "|": "│┃▎▏▊▌▐",
    "+": "┌┐└┘├┤┬┴┼✓",
    "#": "█■",
    ".": "·…",
    "*": "•●",
    "'": "‘’",
    '"': "“”",
    "x": "×✗",
    ">": "▸▶",
    "<": "◂◀",
    "^": "↑▲",
    "v": "↓▼",
    "/": "≠",
}
_TWINS = {character: twin for twin, characters in _TWIN_OF.items() for character in characters}


class AsciiFilter(LineFilter):
    """The last step before the terminal: nothing outside ASCII leaves (8.2.8: `App._filters` holds the filters)."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:  # noqa: ARG002
        """Return the segments in ASCII."""
        return [Segment(ascii_twin(text), style, control) for text, style, control in segments]


def only_ascii(app: App[Any]) -> None:
    """Let nothing outside ASCII reach the terminal, whichever widget drew it."""
    app._filters.append(AsciiFilter())


def forgiving_input() -> None:
    """Keep a byte that is not UTF-8 from ending the program (8.2.8: the input thread decodes strictly and dies).

    Bytes are read in the locale's own encoding, so a Latin-1 terminal types what it means.
    """
    encoding = locale.getpreferredencoding(False) or "utf-8"
    if encoding.lower() in {"ascii", "us-ascii", "ansi_x3.4-1968"}:
        encoding = "utf-8"

    def decoder_of(_: str) -> type[codecs.IncrementalDecoder]:
        found = codecs.getincrementaldecoder(encoding)

        class Forgiving(found):  # type: ignore[misc, valid-type]
            def __init__(self) -> None:
                super().__init__(errors="replace")

        return Forgiving

    linux_driver.getincrementaldecoder = decoder_of  # type: ignore


def quiet_mouse() -> None:
    """Ask for buttons and the wheel only (8.2.8 also asks for every move, which floods a slow line)."""

    def enable(driver: linux_driver.LinuxDriver) -> None:
        if driver._mouse:
            driver.write("\x1b[?1000h\x1b[?1006h")
            driver.flush()

    linux_driver.LinuxDriver._enable_mouse_support = enable  # type: ignore


def escape_alone() -> None:
    """Take Esc and a key right behind it as two keys.

    8.2.8 takes them for one with Alt: some become another character, and of the others Esc is lost. No key here has
    Alt. What begins a longer sequence (CSI and SS3) is taken for two keys only once nothing has followed it.
    """
    one_by_one = XTermParser._sequence_to_key_events

    def events_of(parser: XTermParser, sequence: str, alt: bool = False) -> Iterator[Key]:
        behind = sequence[1:] if sequence[:1] == "\x1b" and sequence[1:] not in {"[", "O"} else ""
        if alt or len(behind) == 1:
            yield Key("escape", "\x1b")
            yield from one_by_one(parser, behind or sequence)
        else:
            yield from one_by_one(parser, sequence)

    XTermParser._sequence_to_key_events = events_of  # type: ignore


def show_caret(app: App[Any]) -> None:
    """Show the terminal's own cursor where the caret is (8.2.8 hides it and draws one that mono screens lack)."""
    driver = app._driver
    if driver is not None:
        driver.write("\x1b[?25h")
