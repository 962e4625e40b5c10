"""The shaft of the answers made complete: what sits on it, in engine units, and its steps."""

import math
from dataclasses import dataclass
from typing import Any

from engine.answers.chapters.element import PULLS, TURNING, Element
from engine.answers.chapters.shaft import Section
from engine.answers.document import Answers, applies, questions_of
from engine.answers.measured import Measure
from engine.answers.question import Quantity
from engine.answers.reader import Reader
from engine.units import ANGLE, POWER, TORQUE

#: From the units of the answers to those of the engine: deg to rad, N m to N mm, kW to W.
_TO_ENGINE = {ANGLE.name: math.pi / 180.0, TORQUE.name: 1000.0, POWER.name: 1000.0}
#: What a kind cannot do without, beside kind and position.
_NEEDED = {
    "helical": ("diameter", "helix_angle"),
    "straight_bevel": ("diameter", "cone_angle"),
    "spiral_bevel": ("diameter", "helix_angle", "cone_angle"),
    "worm": ("diameter", "lead_angle"),
    "worm_wheel": ("diameter", "lead_angle"),
    "screw": ("diameter", "lead"),
    "weight": ("mass",),
    "unbalance": ("mass",),
    "impeller": ("diameter", "pressure", "width"),
    "ram": ("diameter", "pressure"),
    **dict.fromkeys(("spur", *PULLS), ("diameter",)),
}


@dataclass(frozen=True)
class Part:
    """One element with its answers in engine units (angles in rad, torque in N mm, power in W), by question."""

    name: str
    kind: str
    z: float
    values: dict[str, Any]

    def of(self, question: str) -> Any:
        """Return the answer, or the default that stands in for it; None where there is neither."""
        return self.values.get(question)


@dataclass(frozen=True)
class Step:
    """A step of the shaft [mm]."""

    length: float
    diameter: float
    bore: float


@dataclass(frozen=True)
class Mounted:
    """What sits on the shaft, how it turns and lies, and its steps.

    `rotation` is 1 for clockwise seen from A; `tilt` [rad] is positive where B lies lower.
    """

    parts: tuple[Part, ...] = ()
    rotation: int = 1
    tilt: float = 0.0
    start: float = 0.0
    steps: tuple[Step, ...] = ()
    modulus: float = 206_000.0


def mounted(answers: Answers, reader: Reader) -> tuple[Mounted, list[str]]:
    """Return the shaft, and what is missing of it."""
    shaft, take = answers.shaft, reader.take
    missing: list[str] = []
    for at, element in enumerate(shaft.elements):
        if element != Element():
            missing += [f"{what} of shaft element {at + 1}" for what in _missing(element)]
    for at, section in enumerate(shaft.sections):
        if section != Section() and (section.length is None or section.diameter is None):
            missing.append(f"length and diameter of shaft step {at + 1}")
    given = [at for at, element in enumerate(shaft.elements) if element != Element()]
    steps = [at for at, section in enumerate(shaft.sections) if section != Section()]
    if missing or not (given or steps):
        return Mounted(), missing
    tilt = math.radians(take("shaft.tilt"))
    lower = take("shaft.lower") if tilt else "B"
    return Mounted(
        parts=tuple(_part(shaft.elements[at], f"shaft.elements[{at}]", reader) for at in given),
        rotation=1 if take("shaft.rotation") == "clockwise" else -1,
        tilt=tilt if lower == "B" else -tilt,
        start=take("shaft.start") if steps else 0.0,
        steps=tuple(
            Step(section.length.value, section.diameter.value, take(f"shaft.sections[{at}].bore"))
            for at in steps
            if (section := shaft.sections[at]).length is not None and section.diameter is not None
        ),
        modulus=take("shaft.modulus") if steps else 206_000.0,
    ), []


def _missing(element: Element) -> list[str]:
    if element.kind is None:
        return ["the kind"]
    found = ["the position"] if element.position is None else []
    questions = questions_of(Element)
    found += [
        f"the {questions[name].label[0].lower()}{questions[name].label[1:]}"
        for name in _NEEDED.get(element.kind, ())
        if getattr(element, name) is None
    ]
    if element.kind in TURNING and element.power is None and element.torque is None:
        found.append("the power or torque")
    return found


def _part(element: Element, path: str, reader: Reader) -> Part:
    values: dict[str, Any] = {}
    for name, question in questions_of(Element).items():
        if name in {"name", "kind", "position"} or not applies(element, question):
            continue
        value = reader.take(f"{path}.{name}")
        if isinstance(question, Measure) and value is not None:
            value *= _TO_ENGINE.get(question.dimension.name, 1.0)
        values[name] = value
    assert element.kind is not None and isinstance(element.position, Quantity)
    kind = next(option.label for option in questions_of(Element)["kind"].options if option.value == element.kind)  # type: ignore[attr-defined]
    return Part(element.name or kind, element.kind, element.position.value, values)
