"""Cones and cups as parts of their own, and the assemblies that they form.

Any cone of a series fits any cup of it, since all of them share rollers, contact angle and raceways. A cone states
the cups that it is sold with as a set; every other assembly of the series is formed on demand. The contact of the
rollers with the cup has its middle in the plane where cone and cup meet: T1 is the distance from the cone back face to
that plane, T2 from it to the cup back face, and T = T1 + T2 (T1 and T2 of ISO 355, recalled).
"""

# ruff: noqa: RUF009 - the calls in the class bodies declare columns, none of them makes a shared default

import dataclasses
from typing import Any

import numpy as np
from numpy.typing import NDArray

from engine.catalogue.columns import (
    TOLERANCES,
    Catalogue,
    Column,
    Texts,
    declared,
    number_column,
    same_column,
    text_column,
)
from engine.errors import Problem, Problems, plain
from engine.numerics import Floats

Places = NDArray[np.intp]
#: How an assembly can be had, the easiest first; "" where it is not known.
AVAILABILITIES = ("stocked", "", "on_request", "discontinued")


@dataclasses.dataclass(frozen=True, eq=False)
class Cones:
    """One row per cone: inner ring with rollers and cage; columns of equal length."""

    designation: Texts = text_column("designation", "name of the cone: its series, a point and its number")
    series: Texts = text_column("series", "series whose cones and cups fit")
    system: Texts = same_column(Catalogue, "system")
    steel: Texts = same_column(Catalogue, "steel")
    max_temperature: Floats = same_column(Catalogue, "max_temperature")
    sets: Texts = text_column(
        "sets", "numbers of the cups with which it is sold as a set, parted by blanks", required=False
    )
    d: Floats = same_column(Catalogue, "d")
    B: Floats = same_column(Catalogue, "B")
    T1: Floats = number_column(
        "T1_mm", "mm", (1, 600), "cone back face to the middle of the roller contact: width with a master cup"
    )
    a: Floats = same_column(Catalogue, "a")
    alpha: Floats = same_column(Catalogue, "alpha")
    Z: Floats = same_column(Catalogue, "Z")
    Dwe: Floats = same_column(Catalogue, "Dwe")
    Lwe: Floats = same_column(Catalogue, "Lwe")
    Dpw: Floats = same_column(Catalogue, "Dpw")
    F: Floats = same_column(Catalogue, "F")
    Cr: Floats = same_column(Catalogue, "Cr")
    C0r: Floats = same_column(Catalogue, "C0r")
    Cu: Floats = same_column(Catalogue, "Cu")
    e: Floats = same_column(Catalogue, "e")
    Y: Floats = same_column(Catalogue, "Y")
    Y0: Floats = same_column(Catalogue, "Y0")
    mass: Floats = number_column("mass_kg", "kg", (0.001, 20000), "mass of cone and rollers", required=False)
    n_grease: Floats = same_column(Catalogue, "n_grease")
    n_oil: Floats = same_column(Catalogue, "n_oil")
    tolerance: Texts = same_column(Catalogue, "tolerance")
    profile: Texts = same_column(Catalogue, "profile")
    availability: Texts = same_column(Catalogue, "availability")
    cost: Floats = number_column("cost", "-", (1e-6, 1e9), "relative cost of the cone", required=False)
    r_cone: Floats = same_column(Catalogue, "r_cone")


@dataclasses.dataclass(frozen=True, eq=False)
class Cups:
    """One row per cup: outer ring; columns of equal length."""

    designation: Texts = text_column("designation", "name of the cup: its series, a point and its number")
    series: Texts = text_column("series", "series whose cones and cups fit")
    system: Texts = same_column(Catalogue, "system")
    steel: Texts = same_column(Catalogue, "steel")
    max_temperature: Floats = same_column(Catalogue, "max_temperature")
    D: Floats = same_column(Catalogue, "D")
    C: Floats = same_column(Catalogue, "C")
    T2: Floats = number_column(
        "T2_mm", "mm", (0.5, 600), "middle of the roller contact to cup back face: width with a master cone"
    )
    E: Floats = same_column(Catalogue, "E")
    mass: Floats = number_column("mass_kg", "kg", (0.001, 20000), "mass of the cup", required=False)
    tolerance: Texts = text_column("tolerance", "tolerance class as printed", TOLERANCES, required=False)
    availability: Texts = same_column(Catalogue, "availability")
    cost: Floats = number_column("cost", "-", (1e-6, 1e9), "relative cost of the cup", required=False)
    r_cup: Floats = same_column(Catalogue, "r_cup")


#: The declared columns of the two files of parts.
CONE_COLUMNS: tuple[Column, ...] = declared(Cones)
CUP_COLUMNS: tuple[Column, ...] = declared(Cups)
_OF_THE_CONE = (
    *("series", "system", "d", "B", "a", "alpha", "Z", "Dwe", "Lwe", "Dpw", "F", "Cr", "C0r", "Cu", "e", "Y", "Y0"),
    *("n_grease", "n_oil", "profile", "steel", "tolerance", "r_cone"),
)


def assemblies(cones: Cones, cups: Cups) -> Catalogue:
    """Return every assembly of a cone and a cup of one series: the cones in their order, for each its cups in theirs.

    A cone that names a cup which its series does not have raises Problems.
    """
    cone, cup = _combinations(cones.series, cups.series)
    number = [name.rpartition(".")[2] for name in cups.designation.tolist()]
    designation = [
        f"{inner}+{outer}"
        for inner, outer in zip(cones.designation[cone].tolist(), (number[at] for at in cup.tolist()), strict=True)
    ]
    cells: dict[str, Any] = {name: getattr(cones, name)[cone] for name in _OF_THE_CONE}
    cells |= {name: getattr(cups, name)[cup] for name in ("D", "C", "E", "r_cup")}
    return Catalogue(
        **cells,
        designation=np.array(designation, dtype=np.str_),
        cone=cones.designation[cone],
        cup=cups.designation[cup],
        max_temperature=np.minimum(cones.max_temperature[cone], cups.max_temperature[cup]),
        # five decimals hold every fraction of an inch, three every gram, two every hundredth of the cost
        T=np.round(cones.T1[cone] + cups.T2[cup], 5),
        mass=np.round(cones.mass[cone] + cups.mass[cup], 3),
        cost=np.round(cones.cost[cone] + cups.cost[cup], 2),
        availability=_worse(cones.availability[cone], cups.availability[cup]),
        listed=_listed(cones, designation),
    )


def _combinations(of_cones: Texts, of_cups: Texts) -> tuple[Places, Places]:
    """Rows of cones and cups that share their series, for each cone its cups together."""
    order = np.argsort(of_cups, kind="stable")
    in_order = of_cups[order]
    first = np.searchsorted(in_order, of_cones, side="left")
    count = np.searchsorted(in_order, of_cones, side="right") - first
    cone = np.repeat(np.arange(len(of_cones)), count)
    # the place of each combination among those of its cone
    place = np.arange(len(cone)) - np.repeat(np.cumsum(count) - count, count)
    return cone, order[np.repeat(first, count) + place]


def _worse(one: Texts, other: Texts) -> Texts:
    """Availability of assemblies: that of the part which is harder to come by."""
    rank = {name: place for place, name in enumerate(AVAILABILITIES)}
    ranks = [[rank[name] for name in names.tolist()] for names in (one, other)]
    worse: Texts = np.array(AVAILABILITIES)[np.max(np.array(ranks, dtype=np.intp), axis=0)]
    return worse


def _listed(cones: Cones, designation: list[str]) -> Texts:
    wanted = {
        f"{name}+{number}"
        for name, numbers in zip(cones.designation.tolist(), cones.sets.tolist(), strict=True)
        for number in numbers.split()
    }
    missing = sorted(wanted.difference(designation))
    if missing:
        wrong = [f'"{plain(name)}" is listed as a set, but the series has no such cup' for name in missing]
        raise Problems([Problem("", None, "sets", text, "numbers of cups of the series") for text in wrong])
    return np.array(["listed" if name in wanted else "formed" for name in designation], dtype=np.str_)
