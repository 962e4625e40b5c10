"""Chapter 2, envelope: the space and the parts that are wanted in it."""

from typing import Annotated

import msgspec

from engine.answers.measured import Measure, Span
from engine.answers.question import Limits, Quantity
from engine.answers.worded import Choice, Option, YesNo
from engine.units import LENGTH, MASS, RATIO

_BORE_WHY = "Bore d of the cone: fixed by the shaft (60), or a range that strength allows (55..65)."
_OUTSIDE_WHY = "Outside diameter D of the cup: what the housing has room for (<=120)."
_WIDTH_WHY = "Width T of the mounted bearing, from cone back face to cup back face."


def _span(label: str, why: str, greatest: float) -> Span:
    return Span(
        label=label, why=why, dimension=LENGTH, least=1.0, greatest=greatest, default_why="no limit", loosen="wider"
    )


class Envelope(msgspec.Struct, frozen=True, kw_only=True):
    """Room for each bearing, the measuring system, what is in stock, limits of mass and cost."""

    system: Annotated[
        str | None,
        Choice(
            label="Measuring system",
            why="Inch bearings are toleranced 0/plus and ordered as separate cones and cups; metric ones 0/minus.",
            options=(Option("both", "metric and inch"), Option("metric", "metric only"), Option("inch", "inch only")),
            default="both", default_why="nothing ruled out", loosen="options",
        ),
    ] = None  # fmt: skip
    same_on_both_sides: Annotated[
        bool | None,
        YesNo(
            label="Same bearing on both sides",
            why="One part to order and stock; usually not the lightest pair.",
            default=False, default_why="A and B are chosen apart", loosen="options",
        ),
    ] = None  # fmt: skip
    bore_a: Annotated[Limits | None, _span("Bore at A", _BORE_WHY, 2000.0)] = None
    bore_b: Annotated[Limits | None, _span("Bore at B", _BORE_WHY, 2000.0)] = None
    outside_a: Annotated[Limits | None, _span("Outside diameter at A", _OUTSIDE_WHY, 3000.0)] = None
    outside_b: Annotated[Limits | None, _span("Outside diameter at B", _OUTSIDE_WHY, 3000.0)] = None
    width_a: Annotated[Limits | None, _span("Width at A", _WIDTH_WHY, 1000.0)] = None
    width_b: Annotated[Limits | None, _span("Width at B", _WIDTH_WHY, 1000.0)] = None
    mass: Annotated[
        Quantity | None,
        Measure(
            label="Mass limit of the pair",
            why="Both bearings together.",
            dimension=MASS, least=0.001, greatest=100_000.0, default_why="no limit", loosen="up",
        ),
    ] = None  # fmt: skip
    availability: Annotated[
        str | None,
        Choice(
            label="Availability",
            why="What may be chosen by its stock; a part whose stock is not stated counts as available on request.",
            options=(
                Option("current", "all but discontinued"),
                Option("stocked", "stocked only"),
                Option("any", "discontinued ones too"),
            ),
            default="current", default_why="what can be bought", loosen="options",
        ),
    ] = None  # fmt: skip
    cost: Annotated[
        Quantity | None,
        Measure(
            label="Cost limit of the pair",
            why="Both bearings together, by the catalogue's relative cost; a part of unstated cost keeps no limit.",
            dimension=RATIO, least=1e-6, greatest=1e9, default_why="no limit", loosen="up",
        ),
    ] = None  # fmt: skip
    formed: Annotated[
        bool | None,
        YesNo(
            label="Formed beyond the listed sets",
            why="Any cone and cup of one series make a bearing; what is not listed as a set comes as separate parts.",
            default=True, default_why="offered, and marked as formed", loosen="options",
        ),
    ] = None  # fmt: skip
