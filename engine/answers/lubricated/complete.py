"""Lubrication of the answers made complete: one lubricant, its surroundings, how clean it is, where grease works.

Nothing here loads numpy until a viscosity must be computed, so that a record can be read without it.
"""

import math
from dataclasses import dataclass

from engine.answers.document import Answers
from engine.answers.lubricated.doubts import doubts
from engine.answers.lubricated.own import OwnLubricant
from engine.answers.lubricated.points import of_points
from engine.answers.question import Quantity
from engine.answers.reader import Reader
from engine.lubrication.cleanliness import Reasoned, Step, level_in_words, level_of_code, numbers_of_code
from engine.lubrication.lubricant import Lubricant

#: Density at 15 deg C by base oil [kg/m3]: common practice, no source.
DENSITIES = {"mineral": 890.0, "pao": 845.0, "ester": 950.0, "pag": 1045.0}
VI_MINERAL = 95.0
#: Where the figures of a lubricant come from, unless it is one of the user's own list, which names its file.
ANSWERED, GENERIC = "answer", "lubricant list, generic; no source"
AMBIENT, INLET, HOLD = 20.0, 40.0, 70.0
#: Up to this tilt a shaft counts as level, from the second one on as upright [deg]: common practice, no source.
LEVEL, UPRIGHT = 15.0, 75.0


@dataclass(frozen=True)
class Surroundings:
    """What takes heat away from the bearings.

    ambient, oil_inlet, hold [deg C]; area [mm2], None where the bearings' own seats count as ISO 15312 takes them;
    air_speed [m/s]; other_heat [W]; oil_flow [l/min], None where not answered or no oil circulates. `shared` where both
    bearings sit in one housing.
    """

    shared: bool = True
    ambient: float = AMBIENT
    area: float | None = None
    air_speed: float = 0.0
    other_heat: float = 0.0
    oil_flow: float | None = None
    oil_inlet: float = INLET
    hold: float = HOLD


@dataclass(frozen=True)
class Greasing:
    """Where grease works, in words of `grease.interval.Place`; if a central system pumps it; how long it must last.

    `wanted` [h]; None where the grease must last as long as the bearings.
    """

    contamination: str
    moisture: str
    vibration: str
    position: str
    outer_ring_turns: bool
    central: bool
    wanted: float | None


@dataclass(frozen=True)
class Lubricated:
    """Everything about lubrication that the checks work with.

    `source` says where the lubricant's figures come from; `settled` where each pair's temperature comes from its heat
    balance; roughness [mm]; coldest [deg C] or None; `doubts` say what makes the cleanliness doubtful.
    """

    lubricant: Lubricant
    source: str
    settled: bool
    surroundings: Surroundings
    cleanliness: Reasoned
    kappa_wanted: float
    roughness: float
    greasing: Greasing | None
    coldest: float | None
    vertical: bool
    doubts: tuple[str, ...] = ()

    @property
    def named(self) -> bool:
        """Whether the lubricant is one of a list, which knows its temperature limits."""
        return self.source != ANSWERED


def lubricated(answers: Answers, reader: Reader, temperature: float | None) -> tuple[Lubricated, list[str]]:
    """Return the lubrication, and what is missing of it; `temperature` is the stated one, None where it settles."""
    take = reader.take
    lubricant, missing = _lubricant(answers, reader)
    clean = reasoned(reader)
    position = _position(answers)
    roughness = take("lubrication.roughness")
    return Lubricated(
        lubricant=lubricant,
        source=_source(answers.lubrication.lubricant),
        settled=temperature is None,
        surroundings=_surroundings(reader, temperature),
        cleanliness=clean,
        kappa_wanted=take("lubrication.kappa_wanted"),
        roughness=(0.18 if roughness is None else roughness) / 1000.0,
        greasing=_greasing(reader, clean.level, position) if take("lubrication.supply") == "grease" else None,
        coldest=take("lubrication.coldest"),
        vertical=position == "vertical",
        doubts=doubts(answers, take("lubrication.supply"), clean.level),
    ), missing


def _source(chosen: str | OwnLubricant | None) -> str:
    return ANSWERED if chosen is None else GENERIC if isinstance(chosen, str) else chosen.source


def _lubricant(answers: Answers, reader: Reader) -> tuple[Lubricant, list[str]]:
    given, take = answers.lubrication, reader.take
    own_film = take("lubrication.own_film")
    if isinstance(given.lubricant, OwnLubricant):
        return given.lubricant.lubricant, []
    if given.lubricant is not None:
        from engine.catalogue.lubricants.read import builtin, named

        return named(builtin(), given.lubricant), []
    base = (take("lubrication.base") if own_film else None) or "mineral"
    density = take("lubrication.density", Quantity(DENSITIES[base])) if own_film else DENSITIES[base]
    form = "grease" if take("lubrication.supply") == "grease" else "oil"
    if given.viscosity_by == "points":
        name, nu40, nu100, missing = of_points(reader)
        return Lubricant(
            name, form, base, nu40, nu100, density, False, -math.inf, math.inf, two_points=True
        ), missing  # fmt: skip
    nu40, nu100, VI = _viscosities(answers, reader)
    VG = float(given.grade or take("lubrication.grade")) if given.nu40 is None else None
    name = f"ISO VG {VG:.0f}" if VG is not None and given.nu100 is None else f"{nu40:g} and {nu100:.4g} mm2/s"
    missing = []
    if math.isnan(nu100):
        none = f"none goes with {nu40:g} mm2/s at 40 degC and index {VI:g}; state it from the data sheet"
        missing.append(f"viscosity at 100 degC: {none}")
    return Lubricant(
        name, form, base, nu40, nu100, density, False, -math.inf, math.inf, VG=VG, VI=VI
    ), missing  # fmt: skip


def _viscosities(answers: Answers, reader: Reader) -> tuple[float, float, float | None]:
    """Return the viscosities at 40 and 100 deg C, and the index where it was used."""
    from engine.lubrication import viscosity, viscosity_index

    given, take = answers.lubrication, reader.take
    nu40 = float(viscosity.nu40_of_grade(float(take("lubrication.grade")))) if given.nu40 is None else given.nu40.value
    if given.nu100 is not None:
        return nu40, given.nu100.value, None
    VI = take("lubrication.vi", Quantity(VI_MINERAL))
    if given.vi is None and given.nu40 is None and nu40 in viscosity.NU100_AT_VI_95:
        return nu40, float(viscosity.nu100_of_grade(nu40)), VI
    return nu40, float(viscosity_index.nu100_of_index(nu40, VI)), VI


def reasoned(reader: Reader) -> Reasoned:
    """Return the level of cleanliness with the steps that led to it, from whichever way it was answered."""
    take = reader.take
    supply, by = take("lubrication.supply"), take("lubrication.cleanliness_by")
    if by == "level":
        level = take("lubrication.cleanliness")
        return Reasoned(level, (Step("cleanliness", level, "answer"),))
    if by == "code":
        code = take("lubrication.code")
        six, fourteen = numbers_of_code(code) or (28, 28)
        level = level_of_code(supply, six, fourteen)
        return Reasoned(
            level, (Step(f"code {code}", level, "ISO 281:2007, Annex A, the line not cleaner than the code"),)
        )
    words = [take(f"lubrication.{name}") for name in ("filter", "seals", "breather", "air")]
    filtered, seals, breather, air = words
    return level_in_words(supply, filtered or "none", seals, breather or "closed", air)


#: Answers that are made a level of cleanliness.
OF_CLEANLINESS = tuple(f"lubrication.{name}" for name in ("code", "filter", "seals", "breather", "air"))


def cleanliness_told(answers: Answers) -> str:
    """Return what the words or the code on cleanliness became, step by step, in a sentence."""
    steps = reasoned(Reader(answers)).steps
    told = "; ".join(f"{step.said}: {step.level.replace('_', ' ')}" for step in steps)
    return f"Cleanliness becomes {steps[-1].level.replace('_', ' ')} ({told})."


def _surroundings(reader: Reader, temperature: float | None) -> Surroundings:
    def of(name: str, otherwise: float) -> float:
        value = reader.take(f"lubrication.{name}")
        return otherwise if value is None else float(value)

    take = reader.take
    area = take("lubrication.area")
    hold = take("lubrication.oil_hold", Quantity(HOLD if temperature is None else temperature))
    return Surroundings(
        shared=take("lubrication.housing") != "each",
        ambient=of("ambient", AMBIENT),
        area=None if area is None else area * 1e6,
        air_speed=of("air_speed", 0.0),
        other_heat=of("other_heat", 0.0) * 1000.0,
        oil_flow=take("lubrication.oil_flow"),
        oil_inlet=of("oil_inlet", INLET),
        hold=HOLD if hold is None else hold,
    )


def _position(answers: Answers) -> str:
    tilt = answers.shaft.tilt.value if answers.shaft.tilt is not None else 0.0
    return "horizontal" if tilt <= LEVEL else "inclined" if tilt < UPRIGHT else "vertical"


def _greasing(reader: Reader, level: str, position: str) -> Greasing:
    take = reader.take
    how = take("lubrication.regreasing")
    return Greasing(
        contamination=_grease_contamination(take("steel.dirt"), level),
        moisture=take("lubrication.moisture"),
        vibration=take("lubrication.vibration"),
        position=position,
        outer_ring_turns=take("speed.rotating_ring") == "cup",
        central=how == "central",
        wanted=None if how == "life" else take("lubrication.interval"),
    )


def _grease_contamination(dirt: str, level: str) -> str:
    """Return the word of the grease formula for dirt: abrasive where the rings see such dirt, else by the level."""
    if dirt != "none":
        return "severe_abrasive" if dirt == "much" else "light_abrasive"
    return "severe_soft" if level in {"severe", "very_severe"} else "light"
