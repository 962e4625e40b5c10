"""Chapter on lubrication: which oil or grease, how warm it gets, how clean it is, and what is wanted of it."""

from typing import Annotated

import msgspec

from engine.answers.chapters import oil_questions as ask
from engine.answers.lubricated.kinds import CleanlinessCode, FromList
from engine.answers.lubricated.own import OwnLubricant
from engine.answers.measured import Measure
from engine.answers.question import Quantity
from engine.answers.worded import Choice, Option, YesNo
from engine.units import RATIO, ROUGHNESS, TEMPERATURE, VISCOSITY

_OWN_FIGURES = ("lubricant", (None,))


class Lubrication(msgspec.Struct, frozen=True, kw_only=True):
    """Supply, lubricant, temperature and cooling, cleanliness, film and grease."""

    supply: Annotated[
        str | None,
        Choice(
            label="Lubricant and supply",
            why="Chooses the contamination equations of ISO 281 Annex A and the limiting speed of the catalogue.",
            options=(
                Option("grease", "grease"),
                Option("bath", "oil bath", "or oil filtered off line"),
                Option("circulating", "circulating oil", "with a filter in the line"),
                Option("jet", "oil jet", "circulating, sprayed on the rib"),
                Option("mist", "oil mist"),
            ),
            default="grease", default_why="the simplest supply", loosen="options",
        ),
    ] = None  # fmt: skip
    lubricant: Annotated[
        str | OwnLubricant | None,
        FromList(
            label="Lubricant by name",
            why="A generic mineral, PAO, ester or PAG oil, or a grease, from the built-in list or one of your own; it "
            "brings its viscosities, density, additives and temperature limits.",
            default_why="the figures below",
        ),
    ] = None
    viscosity_by: Annotated[str | None, ask.VISCOSITY_BY] = None
    grade: Annotated[
        str | None,
        Choice(
            label="ISO VG of the (base) oil",
            why="Viscosity at 40 degC by ISO 3448; with the index it gives that at any temperature (ASTM D341). Two "
            "measured ones below take its place; of VG 2 to 5 no index is known, and the one at 100 degC is needed.",
            options=ask.GRADES, only_if=_OWN_FIGURES, and_if=ask.USUAL, default="150",
            default_why="common in greases and gear oils; common practice, no source", loosen="ordered",
        ),
    ] = None  # fmt: skip
    vi: Annotated[
        Quantity | None,
        Measure(
            label="Viscosity index",
            why="ASTM D2270: how little the oil thins as it warms; mineral oil about 95, PAO 140, PAG 200. It stands "
            "for the viscosity at 100 degC.",
            dimension=RATIO, least=0.0, greatest=300.0, only_if=_OWN_FIGURES, and_if=ask.USUAL,
            default_why="95, a mineral oil; common practice, no source", loosen="both",
        ),
    ] = None  # fmt: skip
    nu40: Annotated[
        Quantity | None,
        Measure(
            label="Viscosity at 40 degC", why="From the lubricant's data sheet; used with the one at 100 degC.",
            dimension=VISCOSITY, least=2.0, greatest=10_000.0, only_if=_OWN_FIGURES, and_if=ask.USUAL,
            default_why="from the ISO VG", loosen="both",
        ),
    ] = None  # fmt: skip
    nu100: Annotated[
        Quantity | None,
        Measure(
            label="Viscosity at 100 degC", why="From the lubricant's data sheet; used with the one at 40 degC.",
            dimension=VISCOSITY, least=0.3, greatest=1_000.0, only_if=_OWN_FIGURES, and_if=ask.USUAL,
            default_why="from the viscosity index", loosen="both",
        ),
    ] = None  # fmt: skip
    point_1_temperature: Annotated[Quantity | None, ask.POINT_1_TEMPERATURE] = None
    point_1_viscosity: Annotated[Quantity | None, ask.POINT_1_VISCOSITY] = None
    point_2_temperature: Annotated[Quantity | None, ask.POINT_2_TEMPERATURE] = None
    point_2_viscosity: Annotated[Quantity | None, ask.POINT_2_VISCOSITY] = None
    temperature_by: Annotated[
        str | None,
        Choice(
            label="Bearing temperature",
            why="Stated: the same for every pair. Settled: each pair's own, where its friction makes just the heat "
            "that is carried away, solved together with viscosity and kappa. A case that states its own keeps it.",
            options=(
                Option("stated", "stated", "the operating temperature below, for every pair"),
                Option("settled", "settled by heat balance", "from the friction of each pair and the cooling below"),
            ),
            default="stated", default_why="no cooling is asked for",
        ),
    ] = None  # fmt: skip
    temperature: Annotated[
        Quantity | None,
        Measure(
            label="Operating temperature",
            why="Of the bearing in steady running; it sets the viscosity. 10 K decide about a third of the film.",
            dimension=TEMPERATURE, least=-40.0, greatest=250.0, default=Quantity(70.0),
            default_why="common reference temperature; measure or estimate yours",
            only_if=("temperature_by", ("stated",)), loosen="down",
        ),
    ] = None  # fmt: skip
    housing: Annotated[str | None, ask.HOUSING] = None
    ambient: Annotated[Quantity | None, ask.AMBIENT] = None
    area: Annotated[Quantity | None, ask.AREA_OF_HOUSING] = None
    air_speed: Annotated[Quantity | None, ask.AIR_SPEED] = None
    other_heat: Annotated[Quantity | None, ask.OTHER_HEAT] = None
    oil_flow: Annotated[Quantity | None, ask.OIL_FLOW] = None
    oil_inlet: Annotated[Quantity | None, ask.OIL_INLET] = None
    oil_hold: Annotated[Quantity | None, ask.OIL_HOLD] = None
    cleanliness_by: Annotated[
        str | None,
        Choice(
            label="Cleanliness is known by",
            why="The level chooses the line of ISO 281 Annex A. A code of ISO 4406 from an oil analysis, or words on "
            "filter, seals, breather and air, are made a level; the record shows how.",
            options=(
                Option("level", "its level"),
                Option("code", "an ISO 4406 code", "of the oil; an analysis is the surest way"),
                Option("words", "filter, seals and air", "what a plant engineer knows"),
            ),
            default="level", default_why="the direct way",
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
            only_if=("cleanliness_by", ("level",)),
        ),
    ] = None  # fmt: skip
    code: Annotated[
        str | None,
        CleanlinessCode(
            label="ISO 4406 code",
            why="As the laboratory prints it, 18/15/12 or -/15/12. It is rounded to the dirtier line of Annex A.",
            default="-/17/14", default_why="what an ordinary machine reaches", longest=12,
            only_if=("cleanliness_by", ("code",)),
        ),
    ] = None  # fmt: skip
    filter: Annotated[str | None, ask.FILTER] = None
    seals: Annotated[str | None, ask.SEALS] = None
    breather: Annotated[str | None, ask.BREATHER] = None
    air: Annotated[str | None, ask.AIR] = None
    ep_additive: Annotated[
        bool | None,
        YesNo(
            label="Proven EP additive",
            why="Where the film is thin (kappa below 1) and the oil is clean (e_C from 0.2), ISO 281 lets a proven "
            "additive count, up to a_ISO = 3. Proven means tested; an additive in the list of lubricants is not relied "
            "on by itself.",
            default=False, default_why="not relied on", loosen="options",
        ),
    ] = None  # fmt: skip
    kappa_wanted: Annotated[
        Quantity | None,
        Measure(
            label="Viscosity ratio kappa wanted",
            why="What the advice aims at. ISO 281: at kappa 1 the film just parts the surfaces, below 0.4 they touch, "
            "above 4 more gains nothing.",
            dimension=RATIO, least=0.1, greatest=4.0, default=Quantity(1.0), default_why="a film that just parts them",
        ),
    ] = None  # fmt: skip
    own_film: Annotated[
        bool | None,
        YesNo(
            label="Own figures for the film",
            why="Base oil, density and roughness decide the film thickness and lambda beside kappa; nothing else.",
            default=False, default_why="mineral oil of 890 kg/m3, ground surfaces with Rq 0.18 um together",
        ),
    ] = None  # fmt: skip
    base: Annotated[str | None, ask.BASE] = None
    density: Annotated[Quantity | None, ask.DENSITY_15] = None
    roughness: Annotated[
        Quantity | None,
        Measure(
            label="Roughness Rq of both surfaces",
            why="Root mean square of roller and raceway together, sqrt(Rq1^2 + Rq2^2); of a ground surface Rq is about "
            "1.25 Ra. lambda is the film over it.",
            dimension=ROUGHNESS, least=0.01, greatest=5.0, only_if=("own_film", (True,)),
            default=Quantity(0.18), default_why="ground and honed, 0.15 and 0.10 um; common practice, no source",
        ),
    ] = None  # fmt: skip
    moisture: Annotated[str | None, ask.MOISTURE] = None
    vibration: Annotated[str | None, ask.VIBRATION] = None
    regreasing: Annotated[str | None, ask.REGREASING] = None
    interval: Annotated[Quantity | None, ask.INTERVAL] = None
    coldest: Annotated[
        Quantity | None,
        Measure(
            label="Coldest start",
            why="The lubricant must flow, and a grease must bleed, at this temperature; for advice only.",
            dimension=TEMPERATURE, least=-60.0, greatest=60.0, default_why="not below the lubricant's own limit",
        ),
    ] = None  # fmt: skip
