"""Text from records and catalogues on every screen: shown literally, and measured in cells."""

import dataclasses

import numpy as np
import pytest
from rich.cells import cell_len

from tests.duties import small_catalogue
from tests.screens.golden import REST, at_rest, drive, text_of, told
from tests.wizard.running import DUTY, new_session

#: A script of two cells a character; letters with marks of no cell; both beside each other.
WIDE, MARKED = "磨粉机主轴承下部支座", "s\u0327e\u0301me\u0301lyge\u0301p ha\u0301ta\u0301s"
HOSTILE = "[bold]x[/] [/] \\x1b \u202e\u200b"
#: Every screen that shows names from a record or a catalogue, with the keys that open it.
KEYS = {
    "chapter": [], "case": ["end", *["up"] * 10], "assumed": ["t"], "palette": ["g", ("type", "name")],
    "browse": ["b"], "section": ["b", "enter"], "reading": ["b", "d", "enter"], "shortlist": ["s"],
    "pair": ["s", "enter"], "why": ["s", "down", "y", REST], "compare": ["s", "s", REST],
    "scatter": ["s", "d", REST], "weights": ["s", "w", ("type", "2"), "enter"], "sensitivity": ["s", "t", REST],
    "fits": [*["right"] * 6, "v"], "shaft": ["v"], "help": ["question_mark"], "gives": ["s", "M"],
    "lubrication": [*["right"] * 4, "v"],
}  # fmt: skip


#: One of them in every run, all of them with the slow tests.
SOON = ("browse",)
SOON_AND_LATE = [pytest.param(one, marks=() if one in SOON else pytest.mark.slow) for one in KEYS]


def named(name, folder):
    """Return a duty with a name wherever a name can be, and a catalogue of such names."""
    session = new_session(folder, DUTY)
    session.put("duty.job", name, "")
    session.put("duty.cases[0].name", f"{name} 1", "")
    rows = small_catalogue(1)
    cells = np.array([f"{name}{at:03}" for at in range(len(rows))])
    return session, dataclasses.replace(rows, **dict.fromkeys(("designation", "cone", "cup"), cells))


def rest_of(screen):
    """Return what is waited for."""
    return at_rest if screen in SOON else told


@pytest.mark.parametrize("screen", SOON_AND_LATE)
@pytest.mark.parametrize("name", [WIDE, MARKED], ids=["wide", "marked"])
def test_columns_stand_where_they_stand_with_plain_names(name, screen, tmp_path):
    """What stands behind a name stands in the same cells as with a name of as many plain letters."""
    session, rows = named(name, tmp_path)
    other, plain_rows = named("n" * cell_len(name), tmp_path)
    look = {"size": (80, 24), "rest": rest_of(screen)}
    shown = drive(session, KEYS[screen], load=lambda: rows, **look).splitlines()
    usual = drive(other, KEYS[screen], load=lambda: plain_rows, **look).splitlines()
    assert all(cell_len(line) <= 80 for line in shown)
    assert [cell_len(line) for line in shown if _table(line)] == [cell_len(line) for line in usual if _table(line)]


def _table(line):
    """Whether a line ends in a figure, as those of a table do."""
    return line[-1:].isdigit()


@pytest.mark.parametrize("screen", SOON_AND_LATE)
def test_markup_and_controls_are_shown_as_they_are(screen, tmp_path):
    name = HOSTILE.replace("\\x1b", "\x1b")
    for size in ((80, 24), (60, 20)):
        session, rows = named(name, tmp_path)
        text = drive(session, KEYS[screen], size, load=lambda rows=rows: rows, rest=rest_of(screen), look=text_of)
        assert all(line.isprintable() for line in text.splitlines())
