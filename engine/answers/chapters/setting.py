"""Chapter setting: how the two bearings are set against each other, how exactly, and what moves the setting later."""

from typing import Annotated

import msgspec

from engine.answers.measured import Measure
from engine.answers.question import Quantity
from engine.answers.worded import Choice, Option
from engine.units import ANGLE, DIFFERENCE, LENGTH, PERCENT

_AMOUNT = ("aim", ("end_play", "preload"))


class Setting(msgspec.Struct, frozen=True, kw_only=True):
    """Bench setting with its tolerance, temperatures and materials around it, misalignment, and what is wanted."""

    method: Annotated[
        str | None,
        Choice(
            label="How the setting is made",
            why="It decides what the fitter measures, and whether the fits still take play after the measurement: they "
            "do where a spacer is ground before the rings sit on their seats.",
            options=(
                Option("nut", "adjusting nut", "turned on the shaft or in the housing until the play is right"),
                Option("shims", "shims under a cover", "the cover's gap is measured and packed"),
                Option("spacer", "ground spacer", "its width is ground from measured rings, before mounting"),
            ),
            default="nut", default_why="the usual way; common practice, no source",
        ),
    ] = None  # fmt: skip
    aim: Annotated[
        str | None,
        Choice(
            label="Bench setting",
            why="What the fitter sets in the cold machine. Left open, it is computed so that the setting in service "
            "lies in the middle of the band of long life.",
            options=(
                Option("best", "as computed", "the middle of the band of long life, back through the chain"),
                Option("end_play", "end play"),
                Option("preload", "preload", "the way by which both bearings are squeezed together"),
            ),
            default="best", default_why="computed for each pair",
        ),
    ] = None  # fmt: skip
    amount: Annotated[
        Quantity | None,
        Measure(
            label="End play or preload",
            why="Along the shaft, in the cold machine, as the dial indicator reads it.",
            dimension=LENGTH, least=0.0, greatest=5.0, default=Quantity(0.0),
            default_why="rollers just touch", only_if=_AMOUNT,
        ),
    ] = None  # fmt: skip
    tolerance: Annotated[
        Quantity | None,
        Measure(
            label="Fitter's tolerance, plus/minus",
            why="How far the setting made may lie to either side of the one aimed at.",
            dimension=LENGTH, least=0.0, greatest=1.0, default=Quantity(0.025),
            default_why="what a nut and a dial indicator reach; common practice, no source",
        ),
    ] = None  # fmt: skip
    cone_over_cup: Annotated[
        Quantity | None,
        Measure(
            label="Cone hotter than the cup",
            why="Cups shed their heat through the housing. The bearing temperature is taken as the mean of both; those "
            "of shaft and housing stand in the chapter Fits. A warmer cone takes play.",
            dimension=DIFFERENCE, least=-150.0, greatest=200.0, default=Quantity(8.0),
            default_why="common practice, no source",
        ),
    ] = None  # fmt: skip
    temperatures_within: Annotated[
        Quantity | None,
        Measure(
            label="Temperatures known within",
            why="Plus/minus, each of cones, cups, shaft and housing: load, weather and running-in move them.",
            dimension=DIFFERENCE, least=0.0, greatest=60.0, default=Quantity(4.0),
            default_why="a guess that measurement should replace; common practice, no source",
        ),
    ] = None  # fmt: skip
    misalignment: Annotated[
        Quantity | None,
        Measure(
            label="Cups askew by",
            why="Of each cup against the shaft: bores out of line, a shoulder out of square. Counted in the plane of "
            "the load, in the sense of the shaft's own slope there. 0.02 deg is 1.2 minutes of arc.",
            dimension=ANGLE, least=0.0, greatest=1.0, default=Quantity(0.01),
            default_why="bored in one go; common practice, no source",
        ),
    ] = None  # fmt: skip
    keeps: Annotated[
        Quantity | None,
        Measure(
            label="Band of long life keeps",
            why="Settings in the band keep at least this share of the best life.",
            dimension=PERCENT, least=30.0, greatest=99.0, default=Quantity(90.0),
            default_why="a tenth of the life is worth less than the fitter's patience",
        ),
    ] = None  # fmt: skip
    load_within: Annotated[
        Quantity | None,
        Measure(
            label="Loads known within",
            why="Plus/minus, of all loads together; it enters the chance to reach the life.",
            dimension=PERCENT, least=0.0, greatest=80.0, default=Quantity(10.0),
            default_why="loads taken from a calculation; common practice, no source",
        ),
    ] = None  # fmt: skip
    chance: Annotated[
        Quantity | None,
        Measure(
            label="Chance to reach the life",
            why="Over tolerances, fits, temperatures and loads, and the scatter of bearing lives. Answered, it is a "
            "limit; left open, the reliability of the duty is held against it as a caution.",
            dimension=PERCENT, least=50.0, greatest=99.9, default_why="the reliability of the duty, as a caution",
        ),
    ] = None  # fmt: skip
