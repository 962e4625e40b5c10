"""What this terminal can show, decided before the screen framework is imported (it reads the environment then)."""

import os
from collections.abc import Mapping, MutableMapping, Sequence
from dataclasses import dataclass
from typing import TextIO

SMALLEST = (60, 20)
_SIXTEEN_COLOURS = ("linux", "vt", "screen", "ansi", "xterm-16color")
#: What Python puts in the place of the locale C (PEP 538).
_COERCED = ("C.UTF-8", "C.utf8", "UTF-8")


@dataclass(frozen=True)
class Abilities:
    """Whether drawn characters must be ASCII, and whether colour is to be left out.

    `mouse` says whether one is asked for, `old` whether the terminal prints commands that are newer than it is.
    """

    ascii: bool
    mono: bool
    mouse: bool = False
    old: bool = False


def abilities(
    environ: Mapping[str, str],
    ascii_wanted: bool | None = None,
    mouse_wanted: bool = True,
    begun: Mapping[str, str] | None = None,
) -> Abilities:
    """Return what to show on the terminal that the environment describes.

    ASCII is chosen where the locale is not UTF-8 or the terminal is of a kind that has no such characters; colour is
    left out under NO_COLOR (unless it is empty, as its convention has it) and on monochrome terminals. A mouse is asked
    for where the terminal may have one. `begun` is the environment as the process got it, where that is known.
    """
    if in_browser(environ):
        return Abilities(bool(ascii_wanted), bool(environ.get("NO_COLOR")), mouse_wanted)
    term = environ.get("TERM", "")
    utf8 = any(name in _locale(environ, begun).lower() for name in ("utf-8", "utf8"))
    poor = term.startswith("vt") or term in {"ansi", "dumb", "cons25"}
    mono = bool(environ.get("NO_COLOR")) or term.startswith("vt") or term.endswith("-mono")
    mouse = mouse_wanted and not poor and term != "linux"
    old = poor or term.startswith(("linux", "cons"))
    return Abilities((not utf8 or poor) if ascii_wanted is None else ascii_wanted, mono, mouse, old)


def _locale(environ: Mapping[str, str], begun: Mapping[str, str] | None) -> str:
    """Return the locale of characters as the user set it.

    Under the locale C, Python sets LC_CTYPE to one of three names before any program runs (PEP 538), for itself and
    for what it starts; the terminal has not changed by that. LC_ALL keeps it from doing so, and any LANG that is not
    C says what the user has; otherwise only the environment that the process began with tells who set it.
    """
    plain = environ.get("LANG") in {None, "", "C", "POSIX"}
    if plain and not environ.get("LC_ALL") and environ.get("LC_CTYPE") in _COERCED:
        return (begun or {}).get("LC_CTYPE") or "C"
    return environ.get("LC_ALL") or environ.get("LC_CTYPE") or environ.get("LANG") or ""


def prepare(environ: MutableMapping[str, str], can: Abilities) -> None:
    """Set what the framework reads at import: no animation, the terminal's own palette, no more colours than it has."""
    if in_browser(environ):
        environ["TERM"] = "xterm-256color"  # what the page draws on, whatever this was started from
    term = environ.get("TERM", "")
    environ["TEXTUAL_ANIMATIONS"] = "none"
    environ["TEXTUAL_THEME"] = "ansi-dark"
    # holding back a lone Esc is only needed to tell it from a function key; a slow line sends those in pieces
    environ.setdefault("ESCDELAY", "100")
    environ.pop("NO_COLOR", None)  # the framework takes an empty one for a wish
    if can.mono:
        environ["NO_COLOR"] = "1"
    if term.startswith(_SIXTEEN_COLOURS) and "256color" not in term:
        environ["TEXTUAL_COLOR_SYSTEM"] = "standard"
        # a colour claim that leaked in over ssh is not this terminal's
        environ.pop("COLORTERM", None)
    if term.startswith(("linux", "vt")):
        environ["TEXTUAL_DISABLE_KITTY_KEY"] = "1"


def in_browser(environ: Mapping[str, str]) -> bool:
    """Return whether a browser is the terminal: the framework's server says so, and there is no other one then."""
    return "web_driver" in environ.get("TEXTUAL_DRIVER", "")


def refusal(streams: Sequence[TextIO | None], environ: Mapping[str, str]) -> str:
    """Return in one line why the wizard cannot run on its input, output and error streams, or "".

    The framework draws on the error stream, so that one must be a terminal too; a stream that was closed is None.
    """
    if in_browser(environ):
        return ""
    if not all(stream is not None and stream.isatty() for stream in streams):
        return "conewright: the wizard needs a terminal; for a computation without one: conewright calc RECORD.toml"
    if environ.get("TERM", "") in {"", "dumb", "unknown"}:
        return "conewright: TERM names no terminal with a cursor; set TERM, or use: conewright calc RECORD.toml"
    try:
        size = os.get_terminal_size(streams[1].fileno() if streams[1] else 1)
    except OSError:
        return ""
    if 0 < size.columns < SMALLEST[0] or 0 < size.lines < SMALLEST[1]:
        return (
            f"conewright: the terminal is {size.columns} x {size.lines}; "
            f"the wizard needs {SMALLEST[0]} x {SMALLEST[1]}, best {80} x {24}"
        )
    return ""


def environ_at_start() -> dict[str, str] | None:
    """Return the environment that this process got, before Python set anything in it; None where nobody tells."""
    try:
        with open("/proc/self/environ", "rb") as file:
            held = os.fsdecode(file.read())
    except OSError:
        return None
    return {name: value for name, _, value in (one.partition("=") for one in held.split("\0")) if name}
