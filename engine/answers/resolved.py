"""Answers made complete: every open question that has a default gets it, and the assumption is written down.

What has no default stays unknown, and the checks that need it are left out and said to be left out.
"""

import math
from dataclasses import dataclass, field

from engine.answers import running
from engine.answers.adjusted import Adjusted, adjusted
from engine.answers.contradiction import contradictions, shares_stated
from engine.answers.document import Answers
from engine.answers.fitted import Fitted, fitted
from engine.answers.lubricated.complete import Lubricated, lubricated
from engine.answers.mounted import Mounted, mounted
from engine.answers.question import Limits, Quantity
from engine.answers.reader import Assumption, Reader
from engine.answers.running import Case

#: Static safety asked for by shock: the guideline of ISO 76 (recalled); the middle one is common practice, no source.
STATIC_SAFETY_BY_SHOCK = {"none": 1.5, "moderate": 2.0, "heavy": 3.0}


@dataclass(frozen=True)
class Resolved:
    """What the checks work with; fractions instead of percent."""

    arrangement: str
    distance: float | None
    between_middles: bool
    locating: str  # the side whose paired unit takes the thrust; "" where two bearings are set against each other
    life: float
    reliability: float
    life_of_pair: bool
    static_safety: float
    cases: tuple[Case, ...]
    shaft: Mounted
    system: str
    same_on_both_sides: bool
    limits: dict[str, tuple[Limits, Limits]]  # d, D, T: what A and B may have
    mass: float | None
    cost: float | None
    availability: str
    formed: bool
    rotating_ring: str
    load_direction: str
    n_greatest: float | None
    supply: str
    lubricated: Lubricated
    temperature: float  # stated for every pair; NaN where each pair's own settles
    cleanliness: str
    ep_additive: bool
    steel: str
    shock: str
    dirt: str
    peak_temperature: float | None  # None where it is the one that settles
    fits: Fitted
    setting: Adjusted
    assumptions: tuple[Assumption, ...]
    missing: tuple[str, ...]  # labels of what must be answered before loads can be computed
    shares: float = 100.0  # what the shares of time add up to as stated [%]
    #: The paths of all questions that are answered; what is taken for any other was assumed.
    answered: frozenset[str] = field(default=frozenset(), compare=False, repr=False)

    @property
    def per_side(self) -> int:
        """How many bearings of a kind sit on each side: two in a paired unit."""
        return 2 if self.locating else 1

    @property
    def loads_known(self) -> bool:
        """Whether reactions, lives and static safety can be computed."""
        return not self.missing


_OPEN = Limits(None, None)


def resolve(answers: Answers) -> Resolved:
    """Return the complete set of conditions, with the assumptions that were needed."""
    reader = Reader(answers)
    take = reader.take
    envelope = answers.envelope
    distance = take("duty.distance")
    arrangement, between = take("duty.arrangement"), take("duty.distance_between")
    take("lubrication.temperature_by")
    temperature = take("lubrication.temperature")
    shaft, unfinished = mounted(answers, reader)
    oil, unknown = lubricated(answers, reader, temperature)
    cases, missing = running.cases(answers, reader, distance, math.nan if temperature is None else temperature)
    missing = [*unfinished, *missing, *unknown]
    missing += [one.wrong for one in contradictions(answers)]
    shock = take("steel.shock")
    overspeed = answers.speed.overspeed
    fastest = max((case.fastest for case in cases), default=None)
    # where temperatures settle the steel is held against each pair's own
    hottest = None if temperature is None else Quantity(max([temperature, *(case.hottest for case in cases)]))
    return Resolved(
        arrangement=arrangement,
        distance=distance,
        between_middles=between == "middles",
        locating={"unit_a": "A", "unit_b": "B"}.get(take("duty.locating"), ""),
        life=take("duty.life"),
        reliability=take("duty.reliability") / 100.0,
        life_of_pair=take("duty.life_of") == "pair",
        static_safety=take("duty.static_safety", Quantity(STATIC_SAFETY_BY_SHOCK[shock])),
        cases=cases,
        shaft=shaft,
        system=take("envelope.system"),
        same_on_both_sides=take("envelope.same_on_both_sides"),
        limits={
            "d": (envelope.bore_a or _OPEN, envelope.bore_b or _OPEN),
            "D": (envelope.outside_a or _OPEN, envelope.outside_b or _OPEN),
            "T": (envelope.width_a or _OPEN, envelope.width_b or _OPEN),
        },
        mass=envelope.mass.value if envelope.mass else None,
        cost=envelope.cost.value if envelope.cost else None,
        availability=take("envelope.availability"),
        formed=take("envelope.formed"),
        rotating_ring=take("speed.rotating_ring"),
        load_direction=take("speed.load_direction"),
        n_greatest=max(overspeed.value, fastest or 0.0) if overspeed else fastest,
        supply=take("lubrication.supply"),
        lubricated=oil,
        temperature=math.nan if temperature is None else temperature,
        cleanliness=oil.cleanliness.level,
        ep_additive=take("lubrication.ep_additive"),
        steel=take("steel.allowed"),
        shock=shock,
        dirt=take("steel.dirt"),
        peak_temperature=take("steel.peak_temperature", hottest),
        fits=fitted(answers, reader),
        setting=adjusted(reader),
        assumptions=tuple(reader.assumptions),
        missing=tuple(missing),
        shares=shares_stated(answers),
        answered=frozenset(path for path, item in reader.items.items() if item.applies and item.value is not None),
    )
