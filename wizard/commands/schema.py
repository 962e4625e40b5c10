"""`conewright schema`: the JSON Schema of a record or of its answers, for editors and other programs."""

from __future__ import annotations

import os
from pathlib import Path

from engine.errors import plain
from wizard.commands.output import deliver, stop
from wizard.exit_codes import Exit


def run(answers: bool, output: str | None) -> int:
    """Print a schema, or write it to a .json file; into a folder, made where there is none, go both.

    Raise Problems where it cannot be written.
    """
    from engine.record.schema import FILES, text_of

    if output is None or output == "-" or (output.lower().endswith(".json") and not _home(output).is_dir()):
        deliver(text_of("answers" if answers else "record"), output)
        return Exit.PASSES
    folder = _home(output)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except FileExistsError:
        stop(output, "is no folder", "a folder, new or not, or a name that ends in .json")
    except (OSError, ValueError) as error:
        stop(output, f"cannot be made ({plain(getattr(error, 'strerror', None) or error)})", "a folder, new or not")
    for which, name in FILES.items():
        deliver(text_of(which), str(Path(output) / name))
    return Exit.PASSES


def _home(name: str) -> Path:
    return Path(os.path.expanduser(name))
