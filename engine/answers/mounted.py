"""The shaft of the answers made complete: what sits on it, in engine units, and its steps."""

import math
from dataclasses import dataclass
from typing import Any

from engine.answers.chapters.element import PULLS, TURNING, Element, kind_of
from engine.answers.chapters.shaft import Section
from engine.answers.document import Answers, applies, questions_of
from engine.answers.measured import Measure
from engine.answers.question import Quantity
from engine.answers.reader import Assumption, Reader
from engine.units import ANGLE, POWER, TORQUE, number_text

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

#: So much of the distance between the bearings may be missing at an end of the steps: the bearings have a width.
SHORT = 0.1


@dataclass(frozen=True)
class Part:
    """One element with its answers in engine units (angles in rad, torque in N mm, power in W), by question.

    `number` is that among the answers, from 1.
    """

    name: str
    kind: str
    z: float
    values: dict[str, Any]
    number: int = 1

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
            missing += _missing(element, at + 1)
    for at, section in enumerate(shaft.sections):
        open_ones = [name for name in ("length", "diameter") if getattr(section, name) is None]
        if section != Section() and open_ones:
            missing.append(f"{' and '.join(open_ones)} of step {at + 1} of the shaft")
    given = [at for at, element in enumerate(shaft.elements) if element != Element()]
    if missing or not (given or any(section != Section() for section in shaft.sections)):
        return Mounted(), missing
    steps = _steps(answers, reader)
    tilt = math.radians(take("shaft.tilt"))
    lower = take("shaft.lower") if tilt else "B"
    return Mounted(
        parts=tuple(_part(shaft.elements[at], at, reader) for at in given),
        rotation=1 if take("shaft.rotation") == "clockwise" else -1,
        tilt=tilt if lower == "B" else -tilt,
        start=take("shaft.start") if steps else 0.0,
        steps=steps,
        modulus=take("shaft.modulus") if steps else 206_000.0,
    ), []


def ends(answers: Answers) -> tuple[float, float]:
    """Return where the steps of the shaft begin and, as far as their lengths are known, end [mm]."""
    begin = answers.shaft.start.value if answers.shaft.start is not None else 0.0
    return begin, begin + sum(one.length.value for one in answers.shaft.sections if one.length is not None)


def spans(answers: Answers) -> bool:
    """Return whether the steps reach both bearings; without a distance nothing says that they do not."""
    if answers.duty.distance is None:
        return True
    (begin, end), distance = ends(answers), answers.duty.distance.value
    return begin <= SHORT * distance and end >= (1 - SHORT) * distance


def _steps(answers: Answers, reader: Reader) -> tuple[Step, ...]:
    """Return the steps, or none where they do not yet reach both bearings: bending is then left out, and said to be."""
    shaft, distance = answers.shaft, answers.duty.distance
    given = [
        (f"shaft.sections[{at}]", section.length.value, section.diameter.value)
        for at, section in enumerate(shaft.sections)
        if section.length is not None and section.diameter is not None
    ]
    if not given or distance is None:
        return ()
    begin, end = ends(answers)
    if not spans(answers):
        reach = f"its steps reach from {number_text(begin)} to {number_text(end)} mm and not from bearing to bearing"
        reader.assumptions.append(Assumption("shaft.sections", "Bending of the shaft", "left out", reach))
        return ()
    return tuple(Step(length, diameter, reader.take(f"{path}.bore")) for path, length, diameter in given)


def _missing(element: Element, number: int) -> list[str]:
    """Return what an element still needs, as one phrase that says which it is, or nothing."""
    if element.kind is None:
        return [f"element {number}: its kind"]
    questions = questions_of(Element)
    needed = ("position", *_NEEDED.get(element.kind, ()))
    found = [_lowered(questions[name].label) for name in needed if getattr(element, name) is None]
    if element.kind in TURNING and element.power is None and element.torque is None:
        found.append("power or torque")
    whole = ", ".join(found[:-1]) + " and " + found[-1] if len(found) > 1 else "".join(found)
    return [f"element {number} ({kind_of(element)}): {whole}"] if found else []


def _lowered(label: str) -> str:
    return label[0].lower() + label[1:]


def _part(element: Element, at: int, reader: Reader) -> Part:
    path, values = f"shaft.elements[{at}]", dict[str, Any]()
    for name, question in questions_of(Element).items():
        if name in {"name", "kind", "position"} or not applies(element, question):
            continue
        value = reader.take(f"{path}.{name}")
        if isinstance(question, Measure) and value is not None:
            value *= _TO_ENGINE.get(question.dimension.name, 1.0)
        values[name] = value
    assert element.kind is not None and isinstance(element.position, Quantity)
    return Part(element.name or kind_of(element), element.kind, element.position.value, values, at + 1)
