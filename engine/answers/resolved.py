"""Answers made complete: every open question that has a default gets it, and the assumption is written down.

What has no default stays unknown, and the checks that need it are left out and said to be left out.
"""

from dataclasses import dataclass
from typing import Any

from engine.answers.document import Answers, all_asked
from engine.answers.duty import LoadCase
from engine.answers.question import Limits, Quantity, Question

#: Static safety asked for by shock: the guideline of ISO 76 (recalled); the middle one is common practice, no source.
STATIC_SAFETY_BY_SHOCK = {"none": 1.5, "moderate": 2.0, "heavy": 3.0}


@dataclass(frozen=True)
class Assumption:
    """One thing that was taken for granted: the question's path and label, what was assumed and why."""

    path: str
    label: str
    shown: str
    why: str

    def __str__(self) -> str:
        """Return it as one line."""
        return f"{self.label}: {self.shown} ({self.why})" if self.why else f"{self.label}: {self.shown}"


@dataclass(frozen=True)
class Case:
    """A load case in engine units: share of time as a fraction, thrust signed (positive towards B)."""

    name: str
    share: float
    n: float
    F_y: float
    F_z: float
    position: float
    K_a: float


@dataclass(frozen=True)
class Resolved:
    """What the checks work with; fractions instead of percent."""

    arrangement: str
    distance: float | None
    between_middles: bool
    life: float
    reliability: float
    life_of_pair: bool
    static_safety: float
    cases: tuple[Case, ...]
    system: str
    same_on_both_sides: bool
    limits: dict[str, tuple[Limits, Limits]]  # d, D, T: what A and B may have
    mass: float | None
    availability: str
    formed: bool
    rotating_ring: str
    load_direction: str
    n_greatest: float | None
    supply: str
    grade: int
    nu40: float | None
    nu100: float | None
    temperature: float
    cleanliness: str
    ep_additive: bool
    steel: str
    shock: str
    heavy_interference: bool
    hollow_shaft: bool
    dirt: str
    peak_temperature: float
    assumptions: tuple[Assumption, ...]
    missing: tuple[str, ...]  # labels of what must be answered before loads can be computed

    @property
    def loads_known(self) -> bool:
        """Whether reactions, lives and static safety can be computed."""
        return not self.missing


class _Reader:
    """Hands out answers or defaults and notes what had to be assumed."""

    def __init__(self, answers: Answers) -> None:
        self.items = {item.path: item for item in all_asked(answers)}
        self.assumptions: list[Assumption] = []

    def take(self, path: str, otherwise: Any = None) -> Any:
        """Return the answer's plain value, or the default, which is then noted."""
        item = self.items[path]
        if item.value is not None:
            return item.value.value if isinstance(item.value, Quantity) else item.value
        value = otherwise if otherwise is not None else item.question.default
        if value is None:
            return None
        self.note(path, item.question, value)
        return value.value if isinstance(value, Quantity) else value

    def note(self, path: str, question: Question, value: Any) -> None:
        label = question.label
        case = self.items[path].case
        if case is not None:
            label = f"Case {case + 1}, {label[0].lower()}{label[1:]}"
        self.assumptions.append(Assumption(path, label, question.show(value), question.default_why))


def _loaded(case: LoadCase) -> bool:
    return any(force is not None for force in (case.radial_y, case.radial_z, case.axial))


def _cases(answers: Answers, reader: _Reader, distance: float | None) -> tuple[tuple[Case, ...], list[str]]:
    given = [(i, case) for i, case in enumerate(answers.duty.cases) if case != LoadCase()]
    missing = [] if given else ["a load case with its speed and a force"]
    for i, case in given:
        if case.speed is None:
            missing.append(f"speed of load case {i + 1}")
        if not _loaded(case):
            missing.append(f"a force of load case {i + 1}")
    if distance is None:
        missing.append("distance between the bearings")
    if missing or distance is None:
        return (), missing
    shares = _shares(given, reader)
    return tuple(_case(i, case, shares[i], reader, distance) for i, case in given), []


def _shares(given: list[tuple[int, LoadCase]], reader: _Reader) -> dict[int, float]:
    """Return the shares as fractions of one; open ones split what is left, and the sum is scaled to the whole."""
    stated = {i: case.share.value for i, case in given if case.share is not None}
    open_ones = [i for i, case in given if case.share is None]
    left = max(0.0, 100.0 - sum(stated.values()))
    for i in open_ones:
        path = f"duty.cases[{i}].share"
        reader.note(path, reader.items[path].question, Quantity(left / len(open_ones)))
    shares = stated | {i: left / len(open_ones) for i in open_ones}
    total = sum(shares.values())
    if total > 0 and abs(total - 100.0) > 1e-9:
        reader.assumptions.append(
            Assumption("duty.cases", "Shares of time", f"scaled to 100 % from {total:g} %", "they do not add up")
        )
    # all shares zero: no running time at all; every case then only counts for static safety
    return {i: share / total if total > 0 else 0.0 for i, share in shares.items()}


def _case(index: int, case: LoadCase, share: float, reader: _Reader, distance: float) -> Case:
    path = f"duty.cases[{index}]"
    factor = reader.take(f"{path}.application_factor")
    thrust = reader.take(f"{path}.axial")
    # a side is only needed, and only assumed, where there is a thrust
    towards = reader.take(f"{path}.axial_towards") if thrust else "B"
    return Case(
        name=case.name or f"case {index + 1}",
        share=share,
        n=reader.take(f"{path}.speed"),
        F_y=factor * reader.take(f"{path}.radial_y"),
        F_z=factor * reader.take(f"{path}.radial_z"),
        position=reader.take(f"{path}.position", Quantity(distance / 2)),
        K_a=factor * thrust * (1.0 if towards == "B" else -1.0),
    )


_OPEN = Limits(None, None)


def resolve(answers: Answers) -> Resolved:
    """Return the complete set of conditions, with the assumptions that were needed."""
    reader = _Reader(answers)
    take = reader.take
    envelope = answers.envelope
    distance = take("duty.distance")
    arrangement, between = take("duty.arrangement"), take("duty.distance_between")
    cases, missing = _cases(answers, reader, distance)
    shock = take("steel.shock")
    temperature = take("lubrication.temperature")
    measured = answers.lubrication.nu40 is not None and answers.lubrication.nu100 is not None
    overspeed = answers.speed.overspeed
    fastest = max((case.n for case in cases), default=None)
    return Resolved(
        arrangement=arrangement,
        distance=distance,
        between_middles=between == "middles",
        life=take("duty.life"),
        reliability=take("duty.reliability") / 100.0,
        life_of_pair=take("duty.life_of") == "pair",
        static_safety=take("duty.static_safety", Quantity(STATIC_SAFETY_BY_SHOCK[shock])),
        cases=cases,
        system=take("envelope.system"),
        same_on_both_sides=take("envelope.same_on_both_sides"),
        limits={
            "d": (envelope.bore_a or _OPEN, envelope.bore_b or _OPEN),
            "D": (envelope.outside_a or _OPEN, envelope.outside_b or _OPEN),
            "T": (envelope.width_a or _OPEN, envelope.width_b or _OPEN),
        },
        mass=envelope.mass.value if envelope.mass else None,
        availability=take("envelope.availability"),
        formed=take("envelope.formed"),
        rotating_ring=take("speed.rotating_ring"),
        load_direction=take("speed.load_direction"),
        n_greatest=max(overspeed.value, fastest or 0.0) if overspeed else fastest,
        supply=take("lubrication.supply"),
        grade=int(answers.lubrication.grade or 0) if measured else int(take("lubrication.grade")),
        nu40=take("lubrication.nu40"),
        nu100=take("lubrication.nu100"),
        temperature=temperature,
        cleanliness=take("lubrication.cleanliness"),
        ep_additive=take("lubrication.ep_additive"),
        steel=take("steel.allowed"),
        shock=shock,
        heavy_interference=take("steel.heavy_interference"),
        hollow_shaft=take("steel.hollow_shaft"),
        dirt=take("steel.dirt"),
        peak_temperature=take("steel.peak_temperature", Quantity(temperature)),
        assumptions=tuple(reader.assumptions),
        missing=tuple(missing),
    )
