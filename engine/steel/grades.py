"""Generic bearing steels in their usual heat treatments, as a table that many rings can be looked up in."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from engine.numerics import Array, Floats, as_arrays

TREATMENTS = ("through", "case")


@dataclass(frozen=True)
class Value:
    """A property with where it comes from."""

    value: float
    source: str


@dataclass(frozen=True)
class Grade:
    """One steel in one heat treatment."""

    name: str
    designation: str  # by ISO 683-17
    treatment: str
    ordinary: bool  # made to stock
    hardness: Value  # at the surface [HRC]
    core_toughness: Value  # [MPa sqrt(m)]
    hoop: Value  # allowable lasting tangential tension [MPa]
    temperature: Value  # limit in service [deg C]
    austenite: Value  # retained, mean over the section [%]
    wall: Value  # greatest wall that it is made for [mm]
    wear: Value  # place in hard-particle dirt: 0 poor, 1 usual, 2 better
    cost: Value  # relative


#: Properties that are numbers.
PROPERTIES = ("hardness", "core_toughness", "hoop", "temperature", "austenite", "wall", "wear", "cost")


@dataclass(frozen=True)
class Grades:
    """The steels to choose from, and their properties as columns."""

    rows: tuple[Grade, ...]

    def __len__(self) -> int:
        return len(self.rows)

    def column(self, name: str) -> Floats:
        """Return one of PROPERTIES for every steel."""
        return np.array([getattr(row, name).value for row in self.rows], dtype=np.float64)

    @property
    def ordinary(self) -> NDArray[np.bool_]:
        """Which steels are made to stock."""
        return np.array([row.ordinary for row in self.rows], dtype=np.bool_)

    def of_treatment(self, treatment: str) -> list[int]:
        """Return the places of the steels of a heat treatment: made to stock first, cheapest first within both."""
        places = [place for place, row in enumerate(self.rows) if row.treatment == treatment]
        return sorted(places, key=lambda place: (not self.rows[place].ordinary, self.rows[place].cost.value))


def grade_of(grades: Grades, treatment: ArrayLike, max_temperature: Array, wall: Array) -> NDArray[np.int64]:
    """Return for each ring the steel it is taken to be of: the first of its treatment that is made for its wall [mm].

    A ring stabilised to a temperature [deg C] is taken to be of a steel that stands it. Where no steel is made for the
    wall, or stands the temperature, the one that comes nearest is taken; -1 where there is none of the treatment.
    """
    treatment = np.asarray(treatment)
    max_temperature, wall = as_arrays(max_temperature, wall)
    found = np.full(np.broadcast(treatment, max_temperature, wall).shape, -1, dtype=np.int64)
    heat, thickness = grades.column("temperature"), grades.column("wall")
    for name in TREATMENTS:
        places = np.array(grades.of_treatment(name), dtype=np.int64)
        if places.size:
            suits = (heat[places] >= max_temperature[..., None]) & (thickness[places] >= wall[..., None])
            nearest = max(places.tolist(), key=lambda place: (heat[place], thickness[place]))
            best = np.where(suits.any(axis=-1), places[suits.argmax(axis=-1)], nearest)
            found = np.where(treatment == name, best, found)
    return found


def of_rows(grades: Grades, places: NDArray[np.int64], name: str) -> Floats:
    """Return a property of the steels at the places; NaN where there is none."""
    return np.asarray(np.append(grades.column(name), np.nan)[places])
