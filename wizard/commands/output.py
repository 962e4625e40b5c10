"""Where the output of a command goes: the terminal, or a file that is written whole and never is one that was read."""

from __future__ import annotations

import os
import sys
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from engine.errors import Problem, Problems, plain
from wizard.exit_codes import Exit

if TYPE_CHECKING:
    from engine.record.document import Record


#: How an extra is got: the program is installed from its folder, and no registry has it.
EXTRA = "pip install '.[{extra}]' in the folder of the project"


def deliver(content: str | bytes, path: str | None, *read: Path) -> None:
    """Write the output of a command to a file or, without one, to standard output; raise Problems."""
    if path is None or path == "-":
        show(content)
        return
    target = Path(os.path.expanduser(path))
    refuse_same(target, *read)
    from engine.record.write import write

    try:
        write(target, content)
    except (OSError, ValueError) as error:
        stop(path, f"cannot be written ({plain(getattr(error, 'strerror', None) or error)})", "a file in a folder")
    print(f"Written: {plain(path, 1000)}", file=sys.stderr)


def show(content: str | bytes) -> None:
    """Write to standard output; a letter that a terminal cannot hold gets an escape in its place."""
    if isinstance(content, bytes):
        sys.stdout.flush()
        sys.stdout.buffer.write(content)
        return
    if isinstance(sys.stdout, TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")
    sys.stdout.write(content)


def refuse_same(target: Path, *read: Path) -> None:
    """Raise Problems where a file to be written is one of those that were read."""
    for one in read:
        try:
            same = os.path.samefile(target, one)
        except (OSError, ValueError):
            same = os.path.abspath(target) == os.path.abspath(one)
        if same:
            stop(str(target), "was read, and what was read is never changed", "another name for what is written")


def ended(good: bool, *records: Record) -> Exit:
    """Say on standard error which keys of the records were not used, and return the exit status that goes with them.

    A key that no question has may be a load misspelt, so that a script must not take its record for one that passes.
    """
    unused = [record.unused for record in records if record.unused]
    if unused:
        keys = sum(map(len, unused))
        said = "1 key was" if keys == 1 else f"{keys} keys were"
        print(f"conewright: MIND: {said} not used, and may be an answer misspelt:", file=sys.stderr)
        print("\n".join(map(str, unused)), file=sys.stderr)
    if not good:
        return Exit.FAILS
    return Exit.NOT_USED if unused else Exit.PASSES


def stop(path: str, wrong: str, accepted: str = "") -> NoReturn:
    """Raise one problem of a whole file."""
    raise Problems([Problem(path, None, "", wrong, accepted)])
