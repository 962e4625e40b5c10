"""`conewright decode`: what a designation says, from which standard, what it leaves open, and what has those sizes."""

from __future__ import annotations

import sys

from wizard.commands.own.catalog import active
from wizard.exit_codes import Exit


def run(text: str) -> int:
    """Print every reading of a designation and what the catalogue has for it; say what is accepted where none fits."""
    from engine.catalogue import source
    from engine.catalogue.designation import decode, refusal
    from engine.report.reading import by_name, described, names

    readings = decode(text)
    catalogue = source.opened(active()).rows
    named = [] if readings else by_name(text, catalogue)
    if named:
        print("\n".join(named))
        return Exit.PASSES
    if not readings:
        print(f"conewright: {refusal(text, names(catalogue))}", file=sys.stderr)
        return Exit.BAD_INPUT
    sys.stdout.write("\n\n".join("\n".join(described(reading, catalogue)) for reading in readings) + "\n")
    return Exit.PASSES
