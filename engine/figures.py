"""A figure that explains itself: symbol, name, unit, value on each side, and the clause it came from."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeVar

Value = TypeVar("Value")


@dataclass(frozen=True)
class Figure:
    """One computed or catalogued quantity of the chosen pair.

    `A` and `B` hold the value at each bearing, a number or a word; a figure of the pair as a whole stands in `A` alone
    with `B` None. `digits` is how many significant digits a screen shows; `estimated` names the sides ("A", "B", "AB")
    whose value the catalogue does not state, so that it was estimated.
    """

    key: str
    symbol: str
    name: str
    unit: str
    source: str
    A: float | str
    B: float | str | None = None
    digits: int = 4
    estimated: str = ""

    @property
    def of_pair(self) -> bool:
        """Whether the figure belongs to the pair and not to each bearing."""
        return self.B is None


@dataclass(frozen=True)
class Block:
    """Figures under one heading, such as the bearings, or one load case."""

    key: str
    title: str
    figures: tuple[Figure, ...]


def two(values: Iterable[Value]) -> tuple[Value, Value]:
    """Return the values of A and of B as a pair."""
    of_A, of_B = values
    return of_A, of_B
