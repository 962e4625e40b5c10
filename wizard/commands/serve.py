"""Serve the wizard to a browser on this machine; needs the extra named web."""

from __future__ import annotations

import sys
from importlib.util import find_spec
from pathlib import Path

from engine.errors import plain
from wizard.commands.output import EXTRA
from wizard.exit_codes import Exit

HOST, PORT = "127.0.0.1", 8137
MISSING = (
    f"conewright: serving to a browser needs the extra named web: {EXTRA.format(extra='web')}\n"
    "(everything else works without it)"
)
OPEN_TO_OTHERS = (
    "conewright: {host} can be reached from other machines. There is no password and no encryption: whoever reaches "
    "it can read and write records as you. Better serve 127.0.0.1 and come by ssh -L."
)


def run(name: str | None, host: str | None, port: str | None) -> int:
    """Serve the wizard on a record or on the start screen; return the exit status once it was interrupted."""
    number = PORT if port is None else _port(port)
    if number is None:
        print(f"conewright: --port needs a number from 1 to 65535, not {plain(port or '', 40)}", file=sys.stderr)
        return Exit.BAD_INPUT
    if find_spec("textual_serve") is None:
        print(MISSING, file=sys.stderr)
        return Exit.BAD_INPUT
    from wizard.web import server

    host = host or HOST
    if host not in server.LOOPBACK:
        print(OPEN_TO_OTHERS.format(host=plain(host, 80)), file=sys.stderr)
    if name and not Path(name).exists() and Path(name).absolute().parent.is_dir():
        from wizard.commands import open_session

        print(f"conewright: {open_session.new_record(Path(name).absolute())}", file=sys.stderr)
    try:
        server.OwnServer([name] if name else [], host, number).run()
    except OSError as error:
        why = plain(error.strerror or str(error))
        print(f"conewright: cannot serve at {plain(host, 80)}, port {number}: {why}", file=sys.stderr)
        return Exit.BAD_INPUT
    return Exit.PASSES


def _port(text: str) -> int | None:
    number = int(text) if text.isascii() and text.isdecimal() and len(text) < 6 else 0
    return number if 0 < number < 65536 else None
