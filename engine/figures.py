"""A figure that explains itself: symbol, name, unit, value on each side, and the clause it came from."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Figure:
    """One computed or catalogued quantity of the chosen pair.

    `A` and `B` hold the value at each bearing, a number or a word; a figure of the pair as a whole stands in `A` alone
    with `B` None. `decimals` is how many digits after the point a screen shows.
    """

    key: str
    symbol: str
    name: str
    unit: str
    source: str
    A: float | str
    B: float | str | None = None
    digits: int = 4

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
