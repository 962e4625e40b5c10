"""A corrected copy of a user's file: canonical CSV, with a last column that says what was changed."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from engine.catalogue.columns import COLUMNS, Column
from engine.catalogue.intake.check import Judged, judged, mended
from engine.catalogue.intake.corrections import Correction
from engine.catalogue.intake.headers import CHANGED, Place
from engine.catalogue.intake.numbers import written
from engine.catalogue.intake.text import Table


@dataclass(frozen=True)
class Corrected:
    """The copy, what was corrected in whole columns, and how many rows it holds and leaves out."""

    content: bytes
    corrections: tuple[Correction, ...]
    rows: int
    left_out: int


def corrected(sheet: Table, places: dict[str, Place]) -> Corrected:
    """Return the corrected copy of a table; what is still wrong after the corrections is left out of it.

    Corrected is what is safe: signs of decimals and thousands, units to those of the canonical file, letter case of
    fixed words; and mistakes of unit, of place or of origin only where every row of the column shows them. What is
    estimated stays empty, so that no reader of the copy takes it for stated.
    """
    steps = mended(judged(sheet, places, ()))
    made = [correction for _, wrong in steps for correction in wrong]
    one = judged(sheet, steps[-1][0], ())
    rows = np.flatnonzero(one.taken).tolist()
    lines = [",".join([*(column.header for column in COLUMNS), CHANGED])]
    lines += [",".join(_row(one, row, made)) for row in rows]
    left_out = len(one.stated) + len(sheet.overlong) + len(sheet.refused) - len(rows)
    return Corrected(("\n".join(lines) + "\n").encode(), tuple(made), len(rows), left_out)


def _row(one: Judged, row: int, made: list[Correction]) -> Iterator[str]:
    changes = [f"{correction.words} ({', '.join(correction.columns)})" for correction in made]
    for column in COLUMNS:
        place = one.stated.places.get(column.name)
        if place is None:
            yield ""
            continue
        cell = _cell(one, column, row)
        if not _says_the_same(cell, one.stated.cell(column.name, row)) and not any(
            column.name in correction.columns for correction in made
        ):
            shown = one.stated.shown(column.name, row)
            changes += [f"{place.header}: {shown}"] if cell else []
        yield quoted(cell)
    yield quoted("; ".join(changes))


def _cell(one: Judged, column: Column, row: int) -> str:
    if column.kind == "text":
        return str(one.stated.texts[column.name][row])
    value = float(one.stated.numbers[column.name][row]) / column.scale
    return "" if np.isnan(value) else written(value)


def _says_the_same(cell: str, stated: str) -> bool:
    """Return whether a cell of the copy stands so in the file, but for zeros that say nothing."""
    return stated in (cell, f"{cell}.0") or (stated.rstrip("0") == cell and "." in cell)


def quoted(text: str) -> str:
    """Return a text as a cell; one that a spreadsheet would run as a formula gets an apostrophe before it."""
    text = "".join(sign if sign.isprintable() else " " for sign in text)
    if text.startswith(("=", "+", "@")):
        text = f"'{text}"
    return '"' + text.replace('"', '""') + '"' if any(sign in text for sign in ',";') else text
