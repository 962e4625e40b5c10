"""The lines of the catalogue: its assemblies in columns, in mm or inch, in an order of the user's choice."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.errors import plain
from engine.units import number_text
from wizard.widgets.lines import Line, fitted, line

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue
    from engine.numerics import Bools

#: Columns that the list can be ordered by, in the order in which the key steps through them.
ORDERS = ("designation", "d", "D", "T", "alpha", "Cr", "C0r", "mass")
INCH = 25.4
#: What stands before an estimated figure.
ESTIMATED = "~"


@dataclass(frozen=True)
class View:
    """How the list is shown."""

    order: str = "d"
    downwards: bool = False
    inch: bool = False

    def next_order(self) -> View:
        """Return the view in the next order."""
        return View(ORDERS[(ORDERS.index(self.order) + 1) % len(ORDERS)], self.downwards, self.inch)


def ordered(rows: Catalogue, kept: Bools, view: View) -> list[int]:
    """Return the kept rows of a catalogue in the order of the view; equal ones stand in the catalogue's order."""
    import numpy as np

    index = np.flatnonzero(kept)
    keys = getattr(rows, view.order)[index]
    order = np.argsort(keys, kind="stable")
    return [int(i) for i in index[order[::-1] if view.downwards else order]]


def heading(view: View, width: int) -> Line:
    """Return the names of the columns, the one that orders marked by a sign."""
    unit = "in" if view.inch else "mm"
    sign = "-" if view.downwards else "+"

    def named(name: str, shown: str) -> str:
        return f"{sign}{shown}" if view.order == name else shown

    name = fitted(f" {named('designation', 'assembly')}", _name(width))
    columns = [
        (named("d", f"d {unit}"), 9), (named("D", f"D {unit}"), 9), (named("T", f"T {unit}"), 8),
        (named("alpha", "deg"), 6),
        (named("Cr", "Cr kN"), 8), (named("C0r", "C0r kN"), 8), (named("mass", "kg"), 7),
    ]  # fmt: skip
    return line(fitted(name + "".join(f"{text:>{wide}}" for text, wide in columns) + "  steel", width), "heading")


def _name(width: int) -> int:
    return max(14, min(24, width - 62))


def row_line(rows: Catalogue, at: int, view: View, width: int) -> Line:
    """Return one assembly."""
    import math

    def length(value: float, digits: int) -> str:
        return number_text(value / INCH, 5) if view.inch else number_text(value, digits)

    def mark(name: str, text: str) -> str:
        return _guess(rows, at, name) + text

    cells = [
        (length(rows.d[at], 6), 9), (length(rows.D[at], 6), 9), (length(rows.T[at], 5), 8),
        (mark("alpha", f"{math.degrees(rows.alpha[at]):.1f}"), 6),
        (f"{rows.Cr[at] / 1000:.1f}", 8), (f"{rows.C0r[at] / 1000:.1f}", 8),
        (mark("mass", number_text(float(rows.mass[at]), 3)), 7),
    ]  # fmt: skip
    name = fitted(f" {plain(rows.designation[at])}", _name(width))
    return line(
        fitted(
            name + "".join(f"{text:>{wide}}" for text, wide in cells) + f"  {mark('steel', plain(rows.steel[at]))}",
            width,
        )
    )


def _guess(rows: Catalogue, at: int, name: str) -> str:
    """Return the mark of an estimated figure, or nothing."""
    from engine.catalogue.columns import estimated_bit

    return ESTIMATED if rows.estimated[at] & estimated_bit(name) else ""


def chamfers(rows: Catalogue, at: int, inch: bool) -> str:
    """Return the chamfers of one assembly, which a fillet of shaft or housing has to clear."""
    import math

    def size(value: float) -> str:
        if math.isnan(value):
            return "not stated"
        return f"{number_text(value / INCH, 4)} in" if inch else f"{number_text(value, 5)} mm"

    return f"Chamfers at the back faces, at least: cone {size(rows.r_cone[at])}, cup {size(rows.r_cup[at])}"


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
        words.append(plain(rows.availability[at]).replace("_", " "))
    return ", ".join(words)
