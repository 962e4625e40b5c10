"""The setting of the answers made complete: what the fitter aims at, what moves it, and what is wanted of it."""

import math
from dataclasses import dataclass

from engine.answers.reader import Reader

#: What a bench setting is measured on: rings already on their seats, or loose rings before they are pressed on.
LOOSE_RINGS = ("spacer",)


@dataclass(frozen=True)
class Adjusted:
    """In engine units: mm, K, rad, fractions instead of percent.

    `bench` is the end play to be set, negative for preload; None where it is to be computed. `chance` is the chance
    wanted to reach the life, None where the duty's reliability only cautions.
    """

    method: str = "nut"
    bench: float | None = None
    tolerance: float = 0.025
    cone_over_cup: float = 8.0
    temperatures_within: float = 4.0
    misalignment: float = math.radians(0.01)
    keeps: float = 0.9
    load_within: float = 0.1
    chance: float | None = None

    @property
    def measured_mounted(self) -> bool:
        """Whether the setting is measured with the rings on their seats."""
        return self.method not in LOOSE_RINGS


def adjusted(reader: Reader) -> Adjusted:
    """Return the setting; every default is noted."""
    take = reader.take
    aim = take("setting.aim")
    amount = take("setting.amount")
    chance = take("setting.chance")
    return Adjusted(
        method=take("setting.method"),
        bench=None if aim == "best" else (-amount if aim == "preload" else amount) + 0.0,
        tolerance=take("setting.tolerance"),
        cone_over_cup=take("setting.cone_over_cup"),
        temperatures_within=take("setting.temperatures_within"),
        misalignment=math.radians(take("setting.misalignment")),
        keeps=take("setting.keeps") / 100.0,
        load_within=take("setting.load_within") / 100.0,
        chance=None if chance is None else chance / 100.0,
    )
