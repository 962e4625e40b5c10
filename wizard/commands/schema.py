"""`conewright schema`: the JSON Schema of a record or of its answers, for editors and other programs."""

from __future__ import annotations

import os
from pathlib import Path

from wizard.commands.output import deliver
from wizard.exit_codes import Exit


def run(answers: bool, output: str | None) -> int:
    """Print a schema, or write it to a file; into a folder go both. Raise Problems where it cannot be written."""
    from engine.record.schema import FILES, text_of

    if output is not None and Path(os.path.expanduser(output)).is_dir():
        for which, name in FILES.items():
            deliver(text_of(which), str(Path(output) / name))
        return Exit.PASSES
    deliver(text_of("answers" if answers else "record"), output)
    return Exit.PASSES
