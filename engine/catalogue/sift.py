"""Rows of a catalogue by a few typed words: `inch d=2..2.5in D<=130 Cr>=80kN steep`.

A term with a sign (= < <= > >=) holds a column against a value or a range, or a column of words against a word; words
such as steep, stocked, formed or log have a meaning of their own; every other word must stand somewhere in the
designation, the names of the parts, the series, the system or the steel, or be a designation of such an assembly in
another of its written forms. All terms must hold.
"""

import math
import re
from typing import TYPE_CHECKING

import numpy as np

from engine.errors import Problem, Problems, nearest, plain
from engine.numerics import Bools
from engine.units import FORCE, LENGTH, MASS, RATIO, Dimension, UnitError, parse

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue, Texts

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
    **{word: ("profile", "log") for word in ("log", "logarithmic")},
    "plain": ("profile", "plain"),
    "normal": ("tolerance", "Normal"),
}
#: Columns of words that a term with = may name.
TEXTS = {
    **dict.fromkeys(("class", "tolerance"), "tolerance"),
    **dict.fromkeys(("stock", "availability"), "availability"),
    **{name: name for name in ("series", "steel", "profile", "system", "listed", "cone", "cup")},
}
#: A typed dimension matches the catalogue's to this much, relative or in mm: inch sizes are printed rounded.
SLACK = 0.01

_TERM = re.compile(r"([A-Za-z0-9]+)\s*(<=|>=|=|<|>)\s*(\S+)", re.ASCII)
ACCEPTED = "words (steep, log) or d=55..65, D<=5in, Cr>=80kN, class=5, series=3DB"


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
    if name.lower() in TEXTS:
        return _is_called(rows, term, name.lower(), sign, value)
    if name not in COLUMNS:
        raise _problem(term, f"no column is called {plain(name, 20)}", nearest(name, [*COLUMNS, *TEXTS]))
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
    found = np.zeros(len(rows), dtype=bool)
    for column in (rows.designation, rows.cone, rows.cup, rows.series, rows.system, rows.steel):
        found |= _holds(column, word)
    return found if found.any() else _is_designated(rows, word)


def _holds(column: "Texts", word: str) -> Bools:
    return np.asarray(np.char.find(np.char.upper(column.astype(str)), word.upper()) >= 0)


def _is_designated(rows: "Catalogue", word: str) -> Bools:
    """Return which rows a designation fixes by name or series; one that fixes a bore only names none of them."""
    from engine.catalogue.designation import decode
    from engine.catalogue.equivalents import find

    found = np.zeros(len(rows), dtype=bool)
    for reading in decode(word):
        limits = reading.limits
        if limits.name or limits.series or limits.dimension_series:
            found[find(rows, reading)] = True
    return found


def _is_called(rows: "Catalogue", term: str, name: str, sign: str, value: str) -> Bools:
    """Return in which rows a column of words has a word: whole, of a series its beginning, of a part any piece."""
    from engine.catalogue.columns import COLUMNS as DECLARED

    if sign != "=":
        raise _problem(term, f"{name} is no number, so that nothing lies above or below it")
    column = TEXTS[name]
    (choices,) = [one.choices for one in DECLARED if one.name == column]
    if choices:
        known = {choice.casefold(): choice for choice in choices}
        wanted = known.get(value.casefold())
        if wanted is None:
            wrong = f'{name} "{plain(value, 20)}" is not known'
            raise _problem(term, wrong, nearest(value, list(choices)), ", ".join(choices))
        return np.asarray(getattr(rows, column) == wanted)
    if column == "series":
        return np.asarray(np.char.startswith(np.char.upper(rows.series.astype(str)), value.upper()))
    return _holds(getattr(rows, column), value)


def why_none(rows: "Catalogue", text: str) -> str:
    """Return why no row meets every term, which each can be read: what meets nothing alone, or what to leave out."""
    terms = text.split()
    met = [_meets(rows, term) for term in terms]
    for term, mask in zip(terms, met, strict=True):
        if not mask.any():
            return _nothing_alone(rows, term)
    without = [
        int(np.count_nonzero(np.all([*met[:at], *met[at + 1 :], np.ones(len(rows), dtype=bool)], axis=0)))
        for at in range(len(terms))
    ]
    if not any(without):
        return "each term is met by some, but not even all but one by any"
    most = int(np.argmax(without))
    return f'without "{plain(terms[most], 30)}" there would be {without[most]}'


def _nothing_alone(rows: "Catalogue", term: str) -> str:
    shown, match = plain(term, 30), _TERM.fullmatch(term)
    if match and match[1] in COLUMNS:
        column = np.degrees(rows.alpha) if match[1] == "alpha" else getattr(rows, match[1])
        known = column[~np.isnan(column)]
        if not known.size:
            return f'nothing meets "{shown}": {match[1]} is not known of any'
        dimension = COLUMNS[match[1]]
        unit = "" if dimension is RATIO else f" {dimension.unit}"
        return f'nothing meets "{shown}": {match[1]} goes from {known.min():.6g} to {known.max():.6g}{unit}'
    close = "" if match else nearest(term, [*WORDS, *ENTRIES])
    hint = f'; did you mean "{close}"?' if close and close != term.lower() else ""
    return f'nothing meets "{shown}"{hint}'


def _problem(term: str, wrong: str, near: str = "", accepted: str = ACCEPTED) -> Problems:
    return Problems([Problem("", None, term, wrong, accepted, near)])
