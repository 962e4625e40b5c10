"""Chapter 5, steel: what decides between case-hardened and through-hardened rings."""

from typing import Annotated

import msgspec

from engine.answers.measured import Measure
from engine.answers.question import Quantity
from engine.answers.worded import Choice, Option, YesNo
from engine.units import TEMPERATURE


class Steel(msgspec.Struct, frozen=True, kw_only=True):
    """Shock, dirt and heat; interference and hollow shaft in a word, where the fits are not answered."""

    allowed: Annotated[
        str | None,
        Choice(
            label="Steels allowed",
            why="The checks below rule out what does not suit; here a house rule or a stock can do so too.",
            options=(
                Option("either", "either"),
                Option("case", "case-hardened only"),
                Option("through", "through-hardened only"),
            ),
            default="either", default_why="nothing ruled out", loosen="options",
        ),
    ] = None  # fmt: skip
    shock: Annotated[
        str | None,
        Choice(
            label="Shock",
            why="The soft core of a case-hardened ring stops a crack; it also sets the static safety asked for.",
            options=(
                Option("none", "none or light"), Option("moderate", "moderate"),
                Option("heavy", "heavy", "hammering, crushing, stones in the mesh"),
            ),
            default="none", default_why="smooth machine", loosen="towards_first",
        ),
    ] = None  # fmt: skip
    heavy_interference: Annotated[
        bool | None,
        YesNo(
            label="Heavy interference fit",
            why="Lasting tension in the cone. While a shaft fit of the chapter Fits is open, yes takes r6 there.",
            default=False, default_why="usual fit", loosen="options",
        ),
    ] = None  # fmt: skip
    hollow_shaft: Annotated[
        bool | None,
        YesNo(
            label="Hollow shaft",
            why="A thin shaft gives way. While its bore in the chapter Fits is open, yes takes half of each seat.",
            default=False, default_why="solid shaft", loosen="options",
        ),
    ] = None  # fmt: skip
    dirt: Annotated[
        str | None,
        Choice(
            label="Abrasive dirt at the rings",
            why="Hard particles wear rings and rib; a case-hardened surface resists better.",
            options=(Option("none", "kept out"), Option("some", "some gets in"), Option("much", "much gets in")),
            default="none", default_why="seals do their work", loosen="towards_first",
        ),
    ] = None  # fmt: skip
    peak_temperature: Annotated[
        Quantity | None,
        Measure(
            label="Highest ring temperature",
            why="Above the steel's limit the rings grow and soften.",
            dimension=TEMPERATURE, least=-40.0, greatest=400.0, default_why="the operating temperature", loosen="down",
        ),
    ] = None  # fmt: skip
