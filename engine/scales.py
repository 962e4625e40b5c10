"""Round places on the axes of plots: 1, 2 or 5 times a power of ten, whole powers of ten on a logarithmic axis.

What is plotted is placed first: a value itself, or its logarithm to the base of ten.
"""

import math
from dataclasses import dataclass

_SIZES = (1, 2, 5)
#: A logarithmic axis of at least so many powers of ten is divided by them, else by round values.
_DECADES = 0.7
#: Steps of a logarithmic axis in characters, in powers of ten.
_LONG = (1, 2, 5, 10)
#: So many round values are wished for; each less counts as that much room lost at the ends of the axis.
_HANDFUL, _FEWER = 5, 0.05
#: What is as good as exact beside the rounding of a division.
_EXACT = 1e-9


@dataclass(frozen=True)
class Scale:
    """An axis of characters: the place of the first, from one to the next, and the round value of each that has one."""

    first: float
    each: float
    ticks: dict[int, float]

    def cell(self, place: float) -> float:
        """Return where a place lies, counted in characters from the first."""
        return (place - self.first) / self.each


def laid(low: float, high: float, cells: int, apart: int, log: bool = False) -> Scale:
    """Return the closest axis of `cells` characters from `low` to `high` whose round values fall on characters.

    `low` and `high` are places, `low` less than `high`; two round values stand at least `apart` characters from each
    other, and as a rule there are three of them or more.
    """
    between, most = cells - 1, max(3, (cells + 1) // 2)
    best: tuple[float, float, int, int] | None = None
    for step in _LONG if log else _steps(high - low):
        for each in range(between, 0, -1):
            first = math.floor(low / step * each + _EXACT)
            if (first + between) * step / each < high - _EXACT * (high - low):
                continue
            count = (first + between) // each - math.ceil(first / each) + 1
            if count < 2 or count > most or (each < apart and count > 3):
                continue
            # the fewer values, the less well the rest is read off between them
            cost = step / each * (1.5 if count == 2 else 1.0 + _FEWER * max(0, _HANDFUL - count))
            if best is None or cost < best[0] * (1 - _EXACT):
                best = cost, step, each, first
    if best is None:
        return Scale(low, (high - low) / max(between, 1), {})
    _, step, each, first = best
    ticks = {at: _value((first + at) // each * step, log) for at in range(cells) if (first + at) % each == 0}
    return Scale(first * step / each, step / each, ticks)


def _steps(span: float) -> list[float]:
    """Return the round steps that could divide a span."""
    power = math.floor(math.log10(span))
    return [float(f"{size}e{power + by}") for by in (-1, 0, 1) for size in _SIZES]


def _value(place: float, log: bool) -> float:
    """Return the value at a round place, without the rounding that a product leaves."""
    return float(f"1e{round(place)}") if log else float(f"{place:.12g}") + 0.0


def around(low: float, high: float, log: bool = False) -> list[float]:
    """Return round places from below the lowest to above the highest place, about five of them."""
    if high - low <= _EXACT * max(abs(low), abs(high), 1e-300):
        low, high = low - 0.5, high + 0.5
    if log:
        if high - low > _DECADES:
            return [float(place) for place in range(math.floor(low), math.ceil(high) + 1)]
        return [math.log10(value) for value in around(10**low, 10**high) if value > 0]
    raw = (high - low) / 5
    step = next(one for one in _steps(high - low) if one >= raw * (1 - _EXACT))
    first = math.floor(low / step + _EXACT)
    last = max(math.ceil(high / step - _EXACT), first + 1)
    return [place * step for place in range(first, last + 1)]
