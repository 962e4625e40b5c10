"""`conewright decode`: what a designation says, from which standard, what it leaves open, and what has those sizes."""

from __future__ import annotations

import sys

from wizard.commands.catalog import active
from wizard.exit_codes import Exit


def run(text: str) -> int:
    """Print every reading of a designation and what the catalogue has for it; say what is accepted where none fits."""
    from engine.catalogue.designation import decode, refusal
    from engine.catalogue.intake import source
    from engine.report.reading import described, names

    readings = decode(text)
    catalogue = source.opened(active()).rows
    if not readings:
        print(f"conewright: {refusal(text, names(catalogue))}", file=sys.stderr)
        return Exit.BAD_INPUT
    sys.stdout.write("\n\n".join("\n".join(described(reading, catalogue)) for reading in readings) + "\n")
    return Exit.PASSES
