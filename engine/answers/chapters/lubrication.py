"""Chapter 4, lubrication: what keeps the rollers off the raceways, and how clean it is."""

from typing import Annotated

import msgspec

from engine.answers.measured import Measure
from engine.answers.question import Quantity
from engine.answers.worded import Choice, Option, YesNo
from engine.units import TEMPERATURE, VISCOSITY

_GRADES = (10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680, 1000, 1500)


class Lubrication(msgspec.Struct, frozen=True, kw_only=True):
    """Supply, viscosity, temperature, cleanliness and additives."""

    supply: Annotated[
        str | None,
        Choice(
            label="Lubricant and supply",
            why="Chooses the contamination equations of ISO 281 Annex A and the limiting speed of the catalogue.",
            options=(
                Option("grease", "grease"),
                Option("bath", "oil bath", "or oil filtered off line"),
                Option("circulating", "circulating oil", "with a filter in the line"),
            ),
            default="grease", default_why="the simplest supply", loosen="options",
        ),
    ] = None  # fmt: skip
    grade: Annotated[
        str | None,
        Choice(
            label="ISO VG of the (base) oil",
            why="Viscosity at 40 degC by ISO 3448; a mineral oil of viscosity index 95 is assumed for the rest. Two "
            "measured viscosities below take its place.",
            options=tuple(Option(str(vg), f"VG {vg}") for vg in _GRADES), default="150",
            default_why="common in greases and gear oils; common practice, no source", loosen="ordered",
        ),
    ] = None  # fmt: skip
    nu40: Annotated[
        Quantity | None,
        Measure(
            label="Viscosity at 40 degC", why="From the lubricant's data sheet; used with the one at 100 degC.",
            dimension=VISCOSITY, least=2.0, greatest=10_000.0, default_why="from the ISO VG", loosen="both",
        ),
    ] = None  # fmt: skip
    nu100: Annotated[
        Quantity | None,
        Measure(
            label="Viscosity at 100 degC", why="From the lubricant's data sheet; used with the one at 40 degC.",
            dimension=VISCOSITY, least=1.0, greatest=1_000.0, default_why="from the ISO VG", loosen="both",
        ),
    ] = None  # fmt: skip
    temperature: Annotated[
        Quantity | None,
        Measure(
            label="Operating temperature",
            why="Of the bearing in steady running; it sets the viscosity. 10 K decide about a third of the film.",
            dimension=TEMPERATURE, least=-40.0, greatest=250.0, default=Quantity(70.0),
            default_why="common reference temperature; measure or estimate yours", loosen="down",
        ),
    ] = None  # fmt: skip
    cleanliness: Annotated[
        str | None,
        Choice(
            label="Cleanliness",
            why="Particles dent the raceways; contamination factor e_C of ISO 281 Annex A. The code is that of "
            "ISO 4406 for oil.",
            options=(
                Option("high", "high", "fine filter, sealed for life: -/13/10"),
                Option("normal", "normal", "good filter or shields: -/15/12"),
                Option("slight", "slight to typical dirt", "coarse filter, worn seals: -/17/14"),
                Option("severe", "severe dirt", "no filter, dust gets in: -/19/16"),
                Option("very_severe", "very severe dirt", "mud, scale, wet grit: -/21/18"),
            ),
            default="slight", default_why="what an ordinary machine reaches", loosen="towards_first",
        ),
    ] = None  # fmt: skip
    ep_additive: Annotated[
        bool | None,
        YesNo(
            label="Proven EP additive",
            why="Where the film is thin (kappa below 1) and the oil is clean (e_C from 0.2), ISO 281 lets a proven "
            "additive count, up to a_ISO = 3.",
            default=False, default_why="not relied on", loosen="options",
        ),
    ] = None  # fmt: skip
