"""Chapter 3, speed: which ring turns, how the load stands to it, and the fastest that it gets."""

from typing import Annotated

import msgspec

from engine.answers.measured import Measure
from engine.answers.question import Quantity
from engine.answers.worded import Choice, Option
from engine.units import ROTATION


class Speed(msgspec.Struct, frozen=True, kw_only=True):
    """Turning ring, load direction and overspeed."""

    rotating_ring: Annotated[
        str | None,
        Choice(
            label="Which ring turns",
            why="Decides with the load direction which ring must sit tightly.",
            options=(
                Option("cone", "the cone, with the shaft"),
                Option("cup", "the cup, with the hub", "the shaft stands still"),
            ),
            default="cone", default_why="the usual case",
        ),
    ] = None  # fmt: skip
    load_direction: Annotated[
        str | None,
        Choice(
            label="Load direction",
            why="A load that turns with a ring always meets the same spot of it, and makes the other ring creep.",
            options=(
                Option("fixed", "fixed in space", "weight, belt pull, gear forces"),
                Option("with_cone", "turns with the cone", "unbalance of the shaft"),
                Option("with_cup", "turns with the cup", "unbalance of the hub"),
                Option("indeterminate", "changing or unknown", "both rings are treated as creeping"),
            ),
            default="fixed", default_why="weights, belts and gears",
        ),
    ] = None  # fmt: skip
    overspeed: Annotated[
        Quantity | None,
        Measure(
            label="Highest speed ever",
            why="Checked against the catalogue's limiting speed; a test run or a runaway counts.",
            dimension=ROTATION, least=0.0, greatest=100_000.0, default_why="the fastest load case", loosen="down",
        ),
    ] = None  # fmt: skip
