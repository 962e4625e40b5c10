"""What a designation says, by the open standards and by the catalogue's own scheme, and what it leaves open.

A text may have several readings; all are given. A reading states only what its rules fix: where the rules are silent
or recalled in part, it says what cannot be concluded. No maker's numbering is read.
"""

from collections.abc import Callable, Sequence

import numpy as np

from engine.catalogue.columns import Catalogue
from engine.catalogue.naming import inch_code, number_code, own_names, series_code
from engine.catalogue.naming.reading import Reading
from engine.catalogue.naming.spellings import spellings
from engine.errors import Problem, nearest, plain

#: So many names are suggested for one that is not there: what a line of a screen holds.
_SUGGESTED = 2
#: Longer texts are not looked at: the longest name that a catalogue may hold.
LONGEST = 60
ACCEPTED = (
    "a dimension series with or without T and bore (T3DB050, 3DB050, 3DB), a metric number (30208), an inch code "
    "(class, angle, series, part), an inch number of 3 to 5 digits, cone/cup, or a name of the catalogue (V050-3DB-C, "
    "V050-3DB-C.i, Q112, Q112.1+6, Q112.6)"
)

_READERS: tuple[Callable[[str], list[Reading]], ...] = (
    own_names.metric_readings,
    own_names.inch_readings,
    series_code.readings,
    number_code.readings,
    inch_code.old_readings,
    inch_code.readings,
)


def decode(text: str) -> list[Reading]:
    """Return every reading of a designation, none where no rule fits; any text is safe to give."""
    code = "".join(text.split()) if len(text) <= 2 * LONGEST else ""
    # digits and letters of other scripts change under upper() and pass for digits; no code holds them
    if not code or len(code) > LONGEST or not code.isascii():
        return []
    for codes in spellings(code.upper()):
        found = [[reading for read in _READERS for reading in read(one)] for one in codes]
        if all(found):
            return list(dict.fromkeys(reading for some in found for reading in some))
    return []


def refusal(text: str, names: Sequence[str] = ()) -> Problem:
    """Return why a text has no reading: what is accepted, and the nearest of the names."""
    word = text.strip()
    wrong = f'"{plain(word, LONGEST)}" is no designation that can be read here' if word else "the designation is empty"
    return Problem("", None, "", wrong, ACCEPTED, closest(word, names) if word else "")


def closest(word: str, names: Sequence[str]) -> str:
    """Return the nearest of the names, or "" when none is close."""
    return next(iter(nearest_names(word, names, 1)), "")


def nearest_names(word: str, names: Sequence[str], most: int) -> list[str]:
    """Return names that differ from a word in one sign, slips of the keyboard, then those spelled most like it.

    Among names spelled equally alike a numbering wants the one that agrees in every other place.
    """
    upper = word.upper()
    slips = [
        (differ, name)
        for name in names
        if len(name) == len(upper)
        and (differ := sum(one != other for one, other in zip(name.upper(), upper, strict=True))) <= 1
    ]
    found = [name for _, name in sorted(slips)[:most]]
    while len(found) < most and (near := nearest(word, [name for name in names if name not in found])):
        found.append(near)
    return found


def no_assembly(name: str, catalogue: Catalogue) -> str:
    """Return why a name is that of no assembly of a catalogue and what may be meant; nothing where it is one."""
    if np.any(catalogue.designation == name):
        return ""
    for part, column in (("cone", catalogue.cone), ("cup", catalogue.cup)):
        formed = catalogue.designation[column == name][:_SUGGESTED].tolist()
        if formed:
            return f'"{plain(name, LONGEST)}" is a {part}, not an assembly; with it: {_listed(formed)}'
    near = nearest_names(name, catalogue.designation.tolist(), _SUGGESTED)
    meant = f"; did you mean {_listed(near)}?" if near else ""
    return f'no assembly is named "{plain(name, LONGEST)}"{meant}'


def _listed(names: Sequence[str]) -> str:
    *first, last = (plain(name, LONGEST) for name in names)
    return f"{', '.join(first)} or {last}" if first else last
