"""A catalogue whose cells hold escape sequences and markup, on every screen that shows it: no raw byte reaches one."""

import asyncio
import dataclasses

import numpy as np
import pytest

from engine.catalogue.intake.check import load
from engine.errors import Problems
from tests.engine.catalogue.intake.files import content, mutated
from tests.wizard.running import DUTY, new_session, wizard

#: What stands in cells of text.
NASTY = ("\x1b[2J\x1b]0;owned\x07", "[bold red]x[/]", "\u202ereversed", "=1+cmd", "\x9b31m", "\u0007", "x" * 50)


def printable(hand):
    return all(line.isprintable() for line in hand.screen())


def walk(tmp_path, rows, duty):
    """Show a catalogue in the list, filtered, in its section and in the shortlist; what is seen is printable."""

    async def sit():
        seen = []
        async with wizard(new_session(tmp_path, duty), load=lambda: rows) as hand:
            for keys in (["b"], ["down"], ["enter"], ["end"], ["escape"], ["/", *"steep", "enter"], ["escape"], ["s"],
                         ["enter"], ["end"], ["escape"], ["escape"]):  # fmt: skip
                await hand.press(*keys)
                assert printable(hand), keys
                seen += hand.screen()
        return seen

    return asyncio.run(sit())


@pytest.mark.parametrize("nasty", NASTY, ids=ascii)
def test_cells_are_shown_as_text(tmp_path, nasty):
    # the intake leaves most of these out; the screens do not rely on it
    path = tmp_path / "own.csv"
    path.write_text(content())
    rows = load(path)[0]
    cells = np.array([f"{nasty}{at}" for at in range(len(rows))])
    hostile = {name: cells for name in ("designation", "series", "cone", "cup")}
    seen = "\n".join(walk(tmp_path, dataclasses.replace(rows, **hostile), DUTY))
    assert ascii(nasty)[1:-1][:12] in seen.replace("\n", "")


def test_mutated_files_that_are_taken(tmp_path):
    path, shown = tmp_path / "own.csv", 0
    for seed in range(40):
        path.write_bytes(mutated(seed))
        try:
            rows = load(path)[0]
        except Problems:
            continue
        shown += 1
        walk(tmp_path, rows, DUTY)
        if shown == 4:
            break
    assert shown == 4
