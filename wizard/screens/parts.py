"""The lines of the catalogue: its assemblies in columns, in mm or inch, in an order of the user's choice."""

from __future__ import annotations

import functools
import itertools
import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from rich.cells import cell_len

from engine.errors import plain
from engine.units import number_text
from wizard.widgets.figures import pointed
from wizard.widgets.lines import Line, fitted, line

if TYPE_CHECKING:
    from collections.abc import Callable

    from engine.answers.document import Answers
    from engine.catalogue.columns import Catalogue
    from engine.catalogue.room import Limit
    from engine.numerics import Bools, Floats

#: Columns that the list can be ordered by, in the order in which the key steps through them.
ORDERS = ("designation", "d", "D", "T", "alpha", "Cr", "C0r", "mass", "cost", "availability")
#: What is easier to come by stands first; what a catalogue does not say counts as available on request.
_STOCK = {"stocked": 0.0, "": 1.0, "on_request": 1.0, "discontinued": 2.0}
INCH = 25.4
#: What stands before an estimated figure.
ESTIMATED = "~"
#: The name of a column that tells the room to a limit.
_ROOM = "room"
#: What its cells take in mm, "183.71 under", and the blank before it; in inches there is a digit more.
_LEAST_ROOM = 13


@dataclass(frozen=True)
class View:
    """How the list is shown; `limits` are what its sizes are held against."""

    order: str = "d"
    downwards: bool = False
    inch: bool = False
    limits: tuple[Limit, ...] = ()

    def next_order(self) -> View:
        """Return the view in the next order."""
        return replace(self, order=ORDERS[(ORDERS.index(self.order) + 1) % len(ORDERS)])


@dataclass(frozen=True)
class Column:
    """A column of the list: what it is ordered by, its heading, how wide it is, and its cell in a row."""

    name: str
    heading: str
    wide: int
    cell: Callable[[Catalogue, int], str]


def ordered(rows: Catalogue, kept: Bools, view: View) -> list[int]:
    """Return the kept rows of a catalogue in the order of the view; equal ones stand in the catalogue's order."""
    import numpy as np

    index = np.flatnonzero(kept)
    keys = getattr(rows, view.order)[index]
    if view.order == "availability":
        keys = np.array([_STOCK[name] for name in keys.tolist()])
    order = np.argsort(keys, kind="stable")
    known = len(order) if keys.dtype.kind == "U" else int(np.count_nonzero(~np.isnan(keys)))
    if view.downwards:
        # what is not known stands last in either order
        order = np.concatenate((order[:known][::-1], order[known:]))
    return [int(i) for i in index[order]]


@functools.lru_cache(maxsize=16)
def _columns(view: View, width: int) -> tuple[Column, ...]:
    """Return the columns that the width holds, each whole: sizes, the room to their limits, then the rest."""
    unit = "in" if view.inch else "mm"
    columns = [Column(name, f"{name} {unit}", wide, _size(name, view)) for name, wide in (("d", 9), ("D", 8), ("T", 8))]
    for limit in view.limits:
        words = _limit_words(limit, view)
        columns.append(Column(_ROOM, words, max(_LEAST_ROOM + view.inch, len(words) + 2), _room(limit, view)))
    rest = [
        Column("alpha", "deg", 6, lambda rows, at: f"{_guess(rows, at, 'alpha')}{math.degrees(rows.alpha[at]):.1f}"),
        Column("Cr", "Cr kN", 8, lambda rows, at: f"{rows.Cr[at] / 1000:.1f}"),
        Column("C0r", "C0r kN", 8, lambda rows, at: f"{rows.C0r[at] / 1000:.1f}"),
        Column("mass", "kg", 8, lambda rows, at: pointed(_guess(rows, at, "mass") + _mass(rows, at), 3)),
        Column("", "  steel", -9, lambda rows, at: f" {_guess(rows, at, 'steel') or ' '}{plain(rows.steel[at])}"),
    ]
    if view.order in {"cost", "availability"}:
        rest.append(_cost() if view.order == "cost" else _stock())
    # what orders the list is seen where there is room for anything
    columns += sorted(rest, key=lambda column: column.name != view.order)
    ends = itertools.accumulate((abs(column.wide) for column in columns), initial=_name(width))
    return tuple(column for column, end in zip(columns, itertools.islice(ends, 1, None), strict=True) if end <= width)


def _mass(rows: Catalogue, at: int) -> str:
    """Return the mass, down to whole grams."""
    return number_text(round(float(rows.mass[at]), 3), 3)


def _cost() -> Column:
    return Column("cost", "cost", 10, lambda rows, at: pointed(number_text(float(rows.cost[at]), 4), 3))


def _stock() -> Column:
    return Column("availability", "stock", 13, lambda rows, at: _supplied(rows, at) or "not stated")


def _supplied(rows: Catalogue, at: int) -> str:
    return plain(rows.availability[at]).replace("_", " ")


def _size(name: str, view: View) -> Callable[[Catalogue, int], str]:
    digits = 5 if view.inch or name == "T" else 6
    scale, places = (INCH, 4 if name == "D" else 5) if view.inch else (1.0, 4 if name == "d" else 3)
    return lambda rows, at: pointed(number_text(round(float(getattr(rows, name)[at]) / scale, places), digits), places)


def heading(view: View, width: int) -> Line:
    """Return the names of the columns, the one that orders marked by a sign."""
    sign = "-" if view.downwards else "+"

    def named(name: str, shown: str) -> str:
        return f"{sign}{shown}" if view.order == name else shown

    name = fitted(f" {named('designation', 'assembly')}", _name(width))
    cells = [(named(column.name, column.heading), column.wide) for column in _columns(view, width)]
    return line(fitted(name + "".join(map(_set, cells)), width), "heading")


def hidden_order(view: View, width: int) -> str:
    """Return what the list is ordered by where the width holds no column that would show it, else nothing."""
    shown = {"designation", *(column.name for column in _columns(view, width))}
    return "" if view.order in shown else view.order


def _name(width: int) -> int:
    return max(14, min(24, width - 64))


def _set(cell: tuple[str, int]) -> str:
    """Return a cell at its width: to the right of it behind a blank, or to the left where the width is negative."""
    text, wide = cell
    if wide < 0:
        return fitted(text, -wide)
    # a figure with many digits before its point takes the blanks behind it
    kept = text if cell_len(text) < wide else text.rstrip()
    return f" {fitted(kept, wide - 1, right=True)}"


def row_line(rows: Catalogue, at: int, view: View, width: int) -> Line:
    """Return one assembly."""
    name = fitted(f" {plain(rows.designation[at])}", _name(width))
    cells = [(column.cell(rows, at), column.wide) for column in _columns(view, width)]
    return line(fitted(name + "".join(map(_set, cells)), width))


def _limit_words(limit: Limit, view: View) -> str:
    """Return a limit as a filter writes it, behind the bearing that it is of: 'A D<=120'."""
    scale = INCH if view.inch else 1.0
    least, greatest = (number_text(end / scale, 5) for end in (limit.least, limit.greatest))
    words = f"{limit.name}={least}" if limit.least == limit.greatest else f"{limit.name}={least}..{greatest}"
    if not math.isfinite(limit.least):
        words = f"{limit.name}<={greatest}"
    elif not math.isfinite(limit.greatest):
        words = f"{limit.name}>={least}"
    return f"{limit.side} {words}".strip()


def _room(limit: Limit, view: View) -> Callable[[Catalogue, int], str]:
    return lambda rows, at: _room_words(limit, float(getattr(rows, limit.name)[at]), view)


def _room_words(limit: Limit, value: float, view: View) -> str:
    """Return how a size stands to a limit: '10 left', '2.5 over', '5 under', or 'fits' without room to spare."""
    room = limit.room(value)
    if room == 0:
        return "fits "
    words = "left" if room > 0 else "under" if limit.is_under(value) else "over"
    exact, places = abs(room) / (INCH if view.inch else 1.0), 4 if view.inch else 2
    # what would vanish keeps a digit
    shown = round(exact, places) or exact
    return f"{pointed(number_text(shown, 4 if shown >= 10.0**-places else 1), places)} {words:<5}"


def rooms(rows: Catalogue, at: int, view: View, width: int) -> str:
    """Return in words how one assembly stands to the limits that have no column at this width."""
    shown = sum(column.name == _ROOM for column in _columns(view, width))
    hidden = [(_limit_words(limit, view), _room(limit, view)(rows, at).split()) for limit in view.limits[shown:]]
    return ", ".join(f"{limit}: {' '.join(words)}" for limit, words in hidden)


def limits(filtered: str, answers: Answers) -> tuple[Limit, ...]:
    """Return what the sizes are held against: the terms of a filter, then the space that the answers leave."""
    from engine.catalogue.room import Limit, joined, of_filter

    asked = [
        (name, side, getattr(answers.envelope, f"{field}_{side.lower()}"))
        for name, field in (("d", "bore"), ("D", "outside"), ("T", "width"))
        for side in ("A", "B")
    ]
    of_space = [
        Limit(
            name,
            -math.inf if span.least is None else span.least,
            math.inf if span.greatest is None else span.greatest,
            side,
        )
        for name, side, span in asked
        if span is not None
    ]
    return tuple(joined([*of_filter(filtered), *of_space]))


def _guess(rows: Catalogue, at: int, name: str) -> str:
    """Return the mark of an estimated figure, or nothing."""
    from engine.catalogue.columns import estimated_bit

    return ESTIMATED if rows.estimated[at] & estimated_bit(name) else ""


def chamfers(rows: Catalogue, at: int, inch: bool) -> str:
    """Return the chamfers of one assembly, which a fillet of shaft or housing has to clear."""

    def size(value: float) -> str:
        if math.isnan(value):
            return "not stated"
        return f"{number_text(value / INCH, 4)} in" if inch else f"{number_text(value, 5)} mm"

    return f"Chamfers at the back faces, at least: cone {size(rows.r_cone[at])}, cup {size(rows.r_cup[at])}"


def masses(rows: Catalogue, at: int) -> str:
    """Return what cone and cup weigh, each by its drawn section."""
    from engine.catalogue.section.masses import cone_mass, cup_mass
    from engine.catalogue.section.sizes import Envelope, Rollers

    def column(name: str) -> Floats:
        return getattr(rows, name)[at : at + 1]

    drawn = ["B", "C", "alpha", "Dwe", "Lwe", "Dpw", "Z"]
    envelope = Envelope(*(column(name) for name in ("d", "D", "T", "B", "C", "alpha")))
    rollers = Rollers(*(column(name) for name in ("Dwe", "Lwe", "Dpw", "Z")))
    guess = ESTIMATED if any(_guess(rows, at, name) for name in drawn) else ""
    cone, cup = (float(mass(envelope, rollers)[0]) for mass in (cone_mass, cup_mass))
    if math.isnan(cone + cup):
        return "Mass of cone and cup: their section is not known"
    told = f"cone and rollers {guess}{number_text(cone, 3)} kg, cup {guess}{number_text(cup, 3)} kg"
    return f"By the drawing: {told}"


def execution(rows: Catalogue, at: int) -> str:
    """Return how one assembly is made: steel, tolerance class, roller profile, series; what is unknown is left out."""
    steel = {"case": "case-hardened", "through": "through-hardened"}[str(rows.steel[at])]
    hottest = number_text(float(rows.max_temperature[at]), 4)
    words = [
        f"Series {_guess(rows, at, 'series')}{plain(rows.series[at], 12)}",
        f"{_guess(rows, at, 'steel')}{steel} to {_guess(rows, at, 'max_temperature')}{hottest} degC",
    ]
    words += [f"class {plain(rows.tolerance[at])}"] if rows.tolerance[at] else []
    profile = "logarithmic rollers" if rows.profile[at] == "log" else "plain rollers"
    words.append(_guess(rows, at, "profile") + profile)
    words += [f"cost {number_text(float(rows.cost[at]), 4)}"] if rows.cost[at] == rows.cost[at] else []
    return ", ".join(words)


def about(rows: Catalogue, at: int) -> str:
    """Return what stands behind one assembly: its parts and how they are supplied."""
    words = [f"{name} {_guess(rows, at, name)}{plain(getattr(rows, name)[at], 20)}" for name in ("cone", "cup")]
    words.append("listed as a set" if rows.listed[at] == "listed" else "formed on demand, supplied as separate parts")
    if rows.availability[at]:
        words.append(_supplied(rows, at))
    return ", ".join(words)
