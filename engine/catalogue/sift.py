"""Rows of a catalogue by a few typed words: `inch d=2..2.5in D<=130 Cr>=80kN steep`.

A term with a sign (= < <= > >=) holds a column against a value or a range; words such as steep, stocked or formed
have a meaning of their own; every other word must stand somewhere in the designation, the series, the system or the
steel. All terms must hold.
"""

import math
import re
from typing import TYPE_CHECKING

import numpy as np

from engine.errors import Problem, Problems, nearest, plain
from engine.numerics import Bools
from engine.units import FORCE, LENGTH, MASS, RATIO, Dimension, UnitError, parse

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

ANGLE = Dimension("angle", "deg", "15", {"deg": (1, 0)})
#: What a term may name, with the dimension of its value.
COLUMNS = {
    **dict.fromkeys(("d", "D", "T", "B", "C", "a"), LENGTH),
    **dict.fromkeys(("Cr", "C0r", "Cu"), FORCE),
    **dict.fromkeys(("e", "Y", "Y0", "cost"), RATIO),
    "alpha": ANGLE,
    "mass": MASS,
}
#: Words that stand for a range of the contact angle [deg]; the trade calls angles from about 20 deg steep.
WORDS = {"steep": (20.0, 90.0), "shallow": (0.0, 20.0)}
#: Words that stand for one entry of a column.
ENTRIES = {
    **{word: ("availability", word) for word in ("stocked", "on_request", "discontinued")},
    **{word: ("listed", word) for word in ("listed", "formed")},
    "logarithmic": ("profile", "log"),
}
#: A typed dimension matches the catalogue's to this much, relative or in mm: inch sizes are printed rounded.
SLACK = 0.01

_TERM = re.compile(r"([A-Za-z0-9]+)\s*(<=|>=|=|<|>)\s*(\S+)", re.ASCII)
ACCEPTED = "words (steep, stocked), or terms such as d=55..65, D<=5in, Cr>=80kN"


def sift(rows: "Catalogue", text: str) -> Bools:
    """Return which rows meet every term; raise Problems for a term that cannot be read."""
    kept = np.ones(len(rows), dtype=bool)
    for term in text.split():
        kept &= _meets(rows, term)
    return kept


def length_terms(text: str) -> list[tuple[str, tuple[float, float]]]:
    """Return what the terms on lengths hold them against: name, least and greatest [mm]; an open end is infinite."""
    found = []
    for term in text.split():
        match = _TERM.fullmatch(term)
        if match and COLUMNS.get(match[1]) is LENGTH:
            least, greatest = _range(term, match[3], LENGTH)
            open_ends = {"<": (-math.inf, greatest), ">": (least, math.inf)}
            found.append((match[1], open_ends.get(match[2][0], (least, greatest))))
    return found


def _meets(rows: "Catalogue", term: str) -> Bools:
    match = _TERM.fullmatch(term)
    if match is None:
        if any(sign in term for sign in "<>="):
            raise _problem(term, "this term is not complete")
        return _says(rows, term)
    name, sign, value = match.groups()
    if name not in COLUMNS:
        raise _problem(term, f"no column is called {plain(name, 20)}", nearest(name, list(COLUMNS)))
    column = np.degrees(rows.alpha) if name == "alpha" else getattr(rows, name)
    least, greatest = _range(term, value, COLUMNS[name])
    slack = SLACK if COLUMNS[name] is LENGTH else 1e-9
    if sign == "=":
        return np.asarray((column >= least - slack) & (column <= greatest + slack))
    if sign in {"<", "<="}:
        return np.asarray(column <= greatest + slack if sign == "<=" else column < greatest - slack)
    return np.asarray(column >= least - slack if sign == ">=" else column > least + slack)


def _range(term: str, value: str, dimension: Dimension) -> tuple[float, float]:
    head, dots, tail = value.partition("..")
    unit = tail.lstrip("0123456789.,/")
    if dots and head[-1:].isdigit():
        head += unit  # 2..2.5in: the unit at the end serves both
    try:
        least = parse(head, dimension)
        greatest = parse(tail, dimension) if dots else least
    except UnitError as error:
        raise _problem(term, error.wrong, accepted=error.accepted) from None
    return least, greatest


def _says(rows: "Catalogue", word: str) -> Bools:
    if word.lower() in WORDS:
        low, high = WORDS[word.lower()]
        alpha = np.degrees(rows.alpha)
        return np.asarray((alpha >= low) & (alpha < high))
    if word.lower() in ENTRIES:
        name, entry = ENTRIES[word.lower()]
        return np.asarray(getattr(rows, name) == entry)
    wanted = word.upper()
    found = np.zeros(len(rows), dtype=bool)
    for column in (rows.designation, rows.series, rows.system, rows.steel):
        found |= np.char.find(np.char.upper(column.astype(str)), wanted) >= 0
    return found


def _problem(term: str, wrong: str, near: str = "", accepted: str = ACCEPTED) -> Problems:
    return Problems([Problem("", None, term, wrong, accepted, near)])
