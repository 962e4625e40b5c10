"""How answers can give: which way, how far, and the values that an engineer would type on the way.

A ray is one end of one answer with the way in which it may give, from where it stands to the farthest that its
question accepts. A move is one answer with the values it could take instead, nearest first; a ray makes one, and so
does each option of a choice.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal

from engine.answers.chapters.fits import BY_LOADS, CREEP_FAILS
from engine.answers.document import Answers, all_asked
from engine.answers.measured import Measure, Span
from engine.answers.question import Limits, Quantity, Question, Refused, Value
from engine.answers.resolved import Resolved
from engine.answers.worded import Choice, YesNo
from engine.units import Dimension

#: Steps along a ray: shares of half of what is answered, or of what the question leaves, whichever is less.
STEPS = (0.1, 0.2, 0.4, 1.0)
#: Answers of more items than this (load cases) are not loosened one by one.
MOST_ITEMS = 20
DIGITS = 3
#: A size of the catalogue is shown with so many: a hundredth of a millimetre in any bearing of less than a metre.
SIZE_DIGITS = 5

#: How the answers of the duty may give.
_DUTY = {
    "arrangement": "options",
    "distance": "both",
    "life": "down",
    "reliability": "down",
    "life_of": "options",
    "static_safety": "down",
    "speed": "both",
    "radial_y": "nearer_zero",
    "radial_z": "nearer_zero",
    "position": "both",
    "axial": "down",
    "load_level": "nearer_zero",
    "application_factor": "down",
    "shock_factor": "down",
}
_LISTED = re.compile(r"\w+\.(\w+)\[(\d+)\]\.\w+")
_UNIT = re.compile(r"(?![eE][+-]?\d)[^\d\s.,/+<>=-]\S*(?: \S+)?$")


@dataclass(frozen=True)
class Place:
    """An answer, or what is assumed in its stead, at its path, with a label that names its load case."""

    path: str
    label: str
    question: Question
    value: Value
    way: str


def places(answers: Answers, resolved: Resolved) -> list[Place]:
    """Return the answers that may give, in asking order."""
    assumed = {one.path: one.shown for one in resolved.assumptions}
    found = []
    for item in all_asked(answers):
        within = _LISTED.fullmatch(item.path)
        way = item.question.loosen or (_DUTY.get(item.path.rpartition(".")[2], "") if item.path[:5] == "duty." else "")
        value = item.value if item.value is not None else _assumed(item.question, assumed.get(item.path))
        if not way or value is None or (within and _items(answers, item.path) > MOST_ITEMS):
            continue
        label = item.question.label
        if within:
            name = within[1].removesuffix("s").capitalize()
            label = f"{name} {int(within[2]) + 1}, {label[0].lower()}{label[1:]}"
        found.append(Place(item.path, label, item.question, value, way))
    return found


def _items(answers: Answers, path: str) -> int:
    chapter, _, rest = path.partition(".")
    return len(getattr(getattr(answers, chapter), rest.partition("[")[0]))


def _assumed(question: Question, shown: str | None) -> Value | None:
    try:
        return None if shown is None else question.parse(shown)
    except Refused:
        return None


@dataclass(frozen=True)
class Ray:
    """One end of an answer that may give from `start` towards `end` [engine units]; `end_of` is the end of a range."""

    place: Place
    start: float
    end: float
    end_of: str = ""

    @property
    def sign(self) -> float:
        """1 where it gives upwards, -1 where it gives downwards."""
        return math.copysign(1.0, self.end - self.start)

    def exactly(self, value: float) -> Value:
        """Return the answer with this end at a value, as it is."""
        if self.end_of:
            limits = self.place.value
            assert isinstance(limits, Limits)
            ends = {"least": limits.least, "greatest": limits.greatest, self.end_of: value}
            return Limits(ends["least"], ends["greatest"])
        return Quantity(value)

    def typed(self, value: float, digits: int, outward: bool) -> tuple[Value, float] | None:
        """Return the answer as it would be typed, rounded in the unit that was typed, and where its end then is.

        None where the rounded value is refused or lies not beyond `start`.
        """
        question = self.place.question
        assert isinstance(question, Measure | Span)
        text = _rounded(value, self._unit(), question.dimension, digits, self.sign if outward else 0.0)
        try:
            answer = question.parse(self._text(text))
        except Refused:
            return None
        at = answer.value if isinstance(answer, Quantity) else getattr(answer, self.end_of)
        return (answer, at) if (at - self.start) * self.sign > 0 else None

    def _unit(self) -> str:
        typed = getattr(self.place.value, "typed", "")
        found = _UNIT.search(typed)
        question = self.place.question
        assert isinstance(question, Measure | Span)
        return found[0] if found and found[0] in question.dimension.units else question.dimension.unit

    def _text(self, text: str) -> str:
        if not self.end_of:
            return text
        limits, question = self.place.value, self.place.question
        assert isinstance(limits, Limits) and isinstance(question, Span)
        other = limits.greatest if self.end_of == "least" else limits.least
        if other is None:
            return f">= {text}" if self.end_of == "least" else f"<= {text}"
        # the end that stays is written out with all its digits, so that it stays
        stays = _rounded(other, self._unit(), question.dimension, 15, 0.0)
        return f"{text} .. {stays}" if self.end_of == "least" else f"{stays} .. {text}"


def rays(place: Place) -> Iterator[Ray]:
    """Walk the rays of an answer; a choice has none."""
    question, value = place.question, place.value
    if isinstance(question, Span) and isinstance(value, Limits):
        if value.greatest is not None and value.greatest < question.greatest:
            yield Ray(place, value.greatest, question.greatest, "greatest")
        if value.least is not None and value.least > question.least:
            yield Ray(place, value.least, question.least, "least")
    if not isinstance(question, Measure) or not isinstance(value, Quantity):
        return
    at = value.value
    if place.way in {"up", "both"} and at < question.greatest:
        yield Ray(place, at, question.greatest)
    if place.way in {"down", "both"} and at > question.least:
        yield Ray(place, at, question.least)
    if place.way == "nearer_zero" and at != 0:
        yield Ray(place, at, 0.0)


@dataclass(frozen=True)
class Step:
    """One answer changed: where, what it was and would be, as shown, and its value; `level` tells how far it goes."""

    path: str
    label: str
    before: str
    after: str
    value: Value
    level: int


@dataclass(frozen=True)
class Move:
    """The values that one answer could take instead, nearest first.

    `one_way` says that going farther asks for less: what a step lets in, the next one lets in as well.
    """

    path: str
    steps: tuple[Step, ...]
    one_way: bool

    @property
    def farthest(self) -> tuple[Step, ...]:
        """The steps of which one lets in whatever any step of the move lets in."""
        return self.steps[-1:] if self.one_way else self.steps


def moves(answers: Answers, resolved: Resolved, sizes: dict[str, list[float]] | None = None) -> list[Move]:
    """Return every move of the answers; `sizes` holds, by path, the values at which a range may sensibly end."""
    found = []
    for place in places(answers, resolved):
        for ray in rays(place):
            steps = tuple(_steps(ray, (sizes or {}).get(place.path)))
            if steps:
                found.append(Move(place.path, steps, place.way != "both" and not _makes_fits(place, resolved)))
        found += [Move(place.path, steps, place.way == "towards_first") for steps in options(place)]
    return found


def _makes_fits(place: Place, resolved: Resolved) -> bool:
    """Return whether an answer changes the load level that fits follow from: a lighter load makes a looser fit."""
    fits = resolved.fits
    return "[" in place.path and fits.level == BY_LOADS and fits.creeping == CREEP_FAILS


def _steps(ray: Ray, sizes: list[float] | None) -> Iterator[Step]:
    # half of nothing is no step: an answer of 0 stands for "none", and gives no measure of more
    room, last = min(abs(ray.start) / 2, abs(ray.end - ray.start)), ray.start
    for level, share in enumerate(STEPS, 1):
        goal = ray.start + ray.sign * share * room
        if sizes is not None:
            # the farthest size on the way there, rounded away from what is answered, so that it is let in
            on_the_way = [size for size in sizes if (size - ray.start) * ray.sign > 0 >= (size - goal) * ray.sign]
            if not on_the_way:
                continue
            typed = _let_in(ray, max(on_the_way, key=lambda size: size * ray.sign))
        else:
            typed = ray.typed(goal, DIGITS, outward=False)
        if typed is not None and (typed[1] - last) * ray.sign > 0:
            last = typed[1]
            yield step(ray.place, typed[0], level)


def _let_in(ray: Ray, size: float) -> tuple[Value, float] | None:
    nearest = ray.typed(size, SIZE_DIGITS, outward=False)
    # 6 in is 152.4 mm, but 152.4 mm is a hair more than 6 in to a computer
    if nearest is not None and (nearest[1] - size) * ray.sign >= 0:
        return nearest
    return ray.typed(size, SIZE_DIGITS, outward=True)


def options(place: Place) -> Iterator[tuple[Step, ...]]:
    """Walk the other options of a choice: one way, both ways or each by itself."""
    question = place.question
    if isinstance(question, YesNo):
        yield (step(place, not place.value, 2),)
    if not isinstance(question, Choice):
        return
    lines = {option.value: option.line for option in question.options}
    every = [value for value, line in lines.items() if line == lines[str(place.value)]]
    at = every.index(str(place.value))
    before, after = every[:at][::-1], every[at + 1 :]
    if place.way == "options":
        yield from ((step(place, value, 2),) for value in before + after)
        return
    for some in (before, after if place.way == "ordered" else []):
        if some:
            yield tuple(step(place, value, level) for level, value in enumerate(some[: len(STEPS)], 1))


def step(place: Place, value: Value, level: int = 0) -> Step:
    """Return an answer changed to a value."""
    show = place.question.show
    return Step(place.path, place.label, show(place.value), show(value), value, level)


def _rounded(value: float, unit: str, dimension: Dimension, digits: int, sign: float) -> str:
    """Return a value rounded in a unit: up (sign 1), down (-1) or to the nearest (0)."""
    factor, offset = dimension.units.get(unit, (1, 0))
    number = Decimal((value - float(offset)) / float(factor))
    if number == 0:
        return f"0 {unit}".rstrip()
    last = Decimal(1).scaleb(number.adjusted() - digits + 1)
    way = {1.0: ROUND_CEILING, -1.0: ROUND_FLOOR, 0.0: ROUND_HALF_EVEN}[sign]
    rounded = ((number / last).to_integral_value(way) * last).normalize()
    return f"{rounded:f} {unit}".rstrip()
