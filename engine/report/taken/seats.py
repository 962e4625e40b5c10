"""What the formulas of the seats take that stands nowhere else: materials, roughness, friction, sizes around the rings.

With them who has only the report can redo the fits too.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import TYPE_CHECKING

import numpy as np

from engine import fitting
from engine.record.loads.origin import ANSWER, origin
from engine.report.parts import Cell, Part, Table, row
from engine.seat import creep, interference, iso286, mounting
from engine.seat.material import STEEL, Material
from engine.sources import ISO_1, ISO_286_1
from engine.units import number_text

if TYPE_CHECKING:
    from engine.record.computed import Computed

_PRACTICE = "common practice, no source"
_UM = 1e3


def constants(computed: Computed) -> Iterator[Part]:
    """Yield a table of the materials and one of all else."""
    resolved = computed.conditions.resolved
    seats = [fitting.seats_of(rows, side, resolved) for side, rows in zip("AB", computed.sides, strict=True)]
    around = seats[0].around
    named = {"rings": STEEL, "shaft": around.shaft, "housing": around.housing}
    head = ("material", "of the", "E, MPa", "nu", "alpha, 1e-6/K", "rho, kg/m3")
    yield Table(
        head, tuple(_material(part, one) for part, one in named.items()), frozenset({2, 3, 4, 5}),
        "Handbook values, recalled; grades of one kind differ by a few percent.",
    )  # fmt: skip
    yield Table(
        ("taken", "A", "B", "unit", "source"), tuple(_rows(seats, partial(origin, resolved))), frozenset({1, 2})
    )


def _material(part: str, one: Material) -> tuple[Cell, ...]:
    return row(one.name, part, f"{one.E:.0f}", f"{one.nu:g}", f"{one.alpha * 1e6:g}", f"{one.rho:g}")


def _rows(seats: list[fitting.Seats], taken: Callable[[str], str]) -> Iterator[tuple[Cell, ...]]:
    def both(words: str, values: list[float], unit: str, source: str) -> tuple[Cell, ...]:
        return row(words, *(number_text(value, 6) for value in values), unit, source)

    def first(values: object) -> float:
        return float(np.ravel(np.asarray(values))[0])

    yield both("bore of the shaft", [first(one.around.shaft_bore) for one in seats], "mm", taken("fits.shaft_bore"))
    wall = ANSWER if taken("fits.housing_wall") == ANSWER else f"assumed as 1.5 D, {_PRACTICE}"
    outside = [first(one.around.housing_outside(one.rings.D)) for one in seats]
    yield both("outside diameter of the housing", outside, "mm", wall)
    rough = (
        ("shaft", "shaft_Rz", taken("fits.shaft_roughness")), ("ring", "ring_Rz", _PRACTICE),
        ("housing", "housing_Rz", taken("fits.housing_roughness")),
    )  # fmt: skip
    for words, name, source in rough:
        yield both(f"roughness Rz of the {words}", [getattr(one.around, name) * _UM for one in seats], "um", source)
    for words, mu in (
        ("pressing on", mounting.FRICTION_ON), ("pulling off", mounting.FRICTION_OFF), ("holding", creep.FRICTION)
    ):  # fmt: skip
        yield both(f"friction, {words}", [mu, mu], "", _PRACTICE)
    for words, size in (("cone", "d"), ("cup", "D")):
        play = [first(iso286.standard_tolerance_IT(getattr(one.rings, size), 6)) * _UM for one in seats]
        yield both(f"play for the {words} to slide, IT6", play, "um", f"{ISO_286_1.short}; its use is common practice")
    room = interference.REFERENCE_TEMPERATURE
    yield both("temperature at which limits hold and rings are joined", [room, room], "degC", ISO_1.short)
