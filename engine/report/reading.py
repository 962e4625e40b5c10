"""A designation's readings as lines: what it says, from which standard, what it leaves open, what has those sizes."""

from math import degrees
from textwrap import wrap

import numpy as np

from engine.catalogue.columns import Catalogue, estimated_bit
from engine.catalogue.designation import closest
from engine.catalogue.equivalents import find
from engine.catalogue.naming.reading import Reading
from engine.errors import plain
from engine.units import number_text

#: Lines are wrapped at this width, which every terminal and printer has.
WIDTH = 80
#: So many assemblies are listed for a reading; the rest is a number.
MOST_FOUND = 8


def described(reading: Reading, catalogue: Catalogue, width: int = WIDTH) -> list[str]:
    """Return one reading as lines of a width: title, parts, sources, what stays open, what the catalogue has."""
    longest = max(len(piece) for piece, _ in reading.parts)
    lines = [f"{reading.text}: {reading.title}"]
    for piece, meaning in reading.parts:
        lines += _hanging(f"  {piece:<{longest}}  ", meaning, width)
    sources = "; ".join(f"{source} ({source.document.seen})" for source in reading.sources)
    lines += _hanging("  Source: ", sources, width)
    for unknown in reading.unknown:
        lines += _hanging("  Not concluded: ", unknown, width)
    return lines + _found(reading, catalogue)


def _found(reading: Reading, catalogue: Catalogue) -> list[str]:
    if not reading.limits.limits:
        return _hanging("  In the catalogue: ", "nothing is sought, since no size is fixed")
    rows = find(catalogue, reading)
    if not len(rows):
        near = closest(reading.limits.name, names(catalogue)) if reading.limits.name else ""
        return _hanging("  In the catalogue: ", "nothing" + (f'; the nearest name is "{plain(near)}"' if near else ""))
    lines = [f"  In the catalogue: {_counted(len(rows))}"]
    lines += [_row(catalogue, row) for row in rows[:MOST_FOUND].tolist()]
    return [*lines, f"    and {len(rows) - MOST_FOUND} more"] if len(rows) > MOST_FOUND else lines


def _row(catalogue: Catalogue, row: int) -> str:
    sizes = " x ".join(number_text(float(getattr(catalogue, name)[row])) for name in ("d", "D", "T"))
    guess = "~" if catalogue.estimated[row] & estimated_bit("alpha") else ""
    angle, rating = degrees(float(catalogue.alpha[row])), float(catalogue.Cr[row]) / 1000
    return f"    {plain(catalogue.designation[row], 24):<14}  {sizes} mm, {guess}{angle:.2f} deg, Cr {rating:.1f} kN"


def by_name(text: str, catalogue: Catalogue) -> list[str]:
    """Return as lines the assemblies of this name, with a part of it, or of a series of it; nothing where none is."""
    word = text.strip()
    columns = (catalogue.designation, catalogue.cone, catalogue.cup, catalogue.series)
    rows = [at for column in columns for at in np.flatnonzero(column == word)]
    if word and not rows:
        rows = [at for column in columns for at in np.flatnonzero(np.char.upper(column) == word.upper())]
    rows = list(dict.fromkeys(rows))
    if not word or not rows:
        return []
    lines = [f"{plain(text)}: a name of the catalogue in use", f"  In the catalogue: {_counted(len(rows))}"]
    lines += [_row(catalogue, int(at)) for at in rows[:MOST_FOUND]]
    return [*lines, f"    and {len(rows) - MOST_FOUND} more"] if len(rows) > MOST_FOUND else lines


def names(catalogue: Catalogue) -> list[str]:
    """Return every name of an assembly, cone or cup, sorted."""
    columns = (catalogue.designation, catalogue.cone, catalogue.cup)
    return sorted({name for column in columns for name in column.tolist()})


def _hanging(head: str, text: str, width: int = WIDTH) -> list[str]:
    """Wrap a text behind its head, further lines under its beginning."""
    return wrap(text, max(width, len(head) + 8), initial_indent=head, subsequent_indent=" " * len(head))


def _counted(number: int) -> str:
    return f"{number_text(number, 15)} {'assembly' if number == 1 else 'assemblies'}"
