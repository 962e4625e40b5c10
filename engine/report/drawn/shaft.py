"""The shaft with both bearings to scale: where they sit and point, their load centres, and what acts in one case."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.duty.element import Element
from engine.errors import plain
from engine.operating import load_centre
from engine.pair import arrangement as arranged
from engine.report.drawn.labels import EDGE, GAP, Label, spots, text_width
from engine.report.drawn.section import Contours, Sizes, contours
from engine.report.drawn.shapes import Drawing, Point
from engine.units import number_text

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue
    from engine.operating import Conditions
    from engine.record.computed import Computed

_At = Callable[[float, float], Point]
WIDTH = 170.0
#: Room above and below the shaft, and the tallest drawing [mm of paper]; many names take more room above.
_ABOVE, _BELOW, _TALLEST = 22.0, 20.0, 110.0
#: Height of the letters of names, from line to line, from level to level of names, the first line, room for arrows.
_LETTERS, _LINE, _LEVEL, _FIRST, _ARROW = 2.4, 3.0, 6.8, 3.4, 7.0
#: Height of the letters that name the load centres.
_CENTRE = 2.6
#: So many elements are named; more would stand on one another.
MOST_NAMED = 9


@dataclass(frozen=True)
class Seated:
    """A bearing on the shaft: the place of its cone back face, and 1 where it extends towards B, -1 towards A."""

    sizes: Sizes
    back: float
    towards: int

    @property
    def ends(self) -> tuple[float, float]:
        """The ends of the bearing along the shaft."""
        far = self.back + self.towards * max(self.sizes.T, self.sizes.B)
        return min(self.back, far), max(self.back, far)


def seated(rows: "Catalogue", side: str, conditions: "Conditions") -> list[Seated]:
    """Return the bearings of one side as they sit: one of a pair, two of a unit (drawn back to back)."""
    resolved, s = conditions.resolved, Sizes.of(rows)
    assert resolved.distance is not None
    reference = 0.0 if side == "A" else resolved.distance
    outward = -1 if side == "A" else 1
    if resolved.locating:
        # the plane is the unit's outboard face or its middle
        face = reference + outward * (s.T if resolved.between_middles else 0.0)
        return [Seated(s, face, -outward), Seated(s, face - outward * 2 * s.T, outward)]
    inset = s.T / 2 if resolved.between_middles else 0.0
    if resolved.arrangement == arranged.BACK_TO_BACK:
        return [Seated(s, reference + outward * inset, -outward)]
    return [Seated(s, reference - outward * inset, outward)]


def drawing(computed: "Computed") -> Drawing | None:
    """Return the shaft with both bearings; None where the loads or the sizes of a bearing are not known."""
    conditions = computed.conditions
    resolved = conditions.resolved
    if not resolved.loads_known:
        return None
    both = [seated(rows, side, conditions) for rows, side in zip(computed.sides, "AB", strict=True)]
    bearings = [one for side in both for one in side]
    if not all(one.sizes.drawable for one in bearings):
        return None
    centres = [float(load_centre(rows, side, resolved)[0]) for rows, side in zip(computed.sides, "AB", strict=True)]
    case = _heaviest(conditions)
    elements = [one for one in conditions.cases.elements[case] if one.known]
    steps = _steps(computed, bearings)
    places = [end for one in bearings for end in one.ends] + list(centres) + [one.z for one in elements]
    low, high = min([*places, steps[0][0]]), max([*places, steps[-1][1]])
    tallest = max([one.sizes.D for one in bearings] + [width for *_, width in steps])
    scale = min((WIDTH - 24.0) / (high - low), (_TALLEST - _ABOVE - _BELOW) / tallest)
    left = (WIDTH - (high - low) * scale) / 2
    named = [_Named.of(one, left + (one.z - low) * scale) for one in elements[:MOST_NAMED]]
    places_of = spots([one.label for one in named], WIDTH)
    levels = 1 + max((spot.level for spot in places_of), default=0)
    middle = max(_ABOVE, _FIRST + _LEVEL * (levels - 1) + _LINE + _ARROW) + tallest / 2 * scale
    name = plain(conditions.cases.names[conditions.cases.case_of.index(case)], 40)
    sheet = Drawing(
        f"Shaft and bearings to scale, with what acts in load case {case + 1}, {name}", WIDTH,
        middle + tallest / 2 * scale + _BELOW,
    )  # fmt: skip

    def at(z: float, r: float) -> Point:
        return left + (z - low) * scale, middle - r * scale

    for start, end, diameter in steps:
        corners = ((start, 1), (end, 1), (end, -1), (start, -1))
        sheet.area("shaft", [at(z, sign * diameter / 2) for z, sign in corners])
    for one in bearings:
        _draw(sheet, one, contours(one.sizes), at)
    sheet.line("axis", at(low, 0.0), at(high, 0.0))
    _centres(
        sheet,
        [at(z, 0.0) for z in centres],
        [f"{side}: load centre at {_mm(z)}" for side, z in zip("AB", centres, strict=True)],
    )
    for element, spot in zip(named, places_of, strict=True):
        _act(sheet, element, (spot.left, _FIRST + _LEVEL * (levels - 1 - spot.level)), at, tallest / 2)
    left_out = f"; {len(elements) - MOST_NAMED} more elements act" if len(elements) > MOST_NAMED else ""
    words = (
        f"1 : {number_text(1 / scale, 3)}   load case {case + 1}, {name}{left_out}. Positions from A's reference plane."
    )
    sheet.words(2.0, sheet.height - 1.5, words, size=2.4)
    return sheet


def _heaviest(conditions: "Conditions") -> int:
    """Return the answered case in which the greatest forces act across the shaft."""
    cases = conditions.cases
    sums = [sum(float(np.hypot(one.F_y, one.F_z)) for one in acting if one.known) for acting in cases.elements]
    return int(np.argmax(sums))


def _steps(computed: "Computed", bearings: list[Seated]) -> list[tuple[float, float, float]]:
    """Return the steps of the shaft, or where none is answered a plain one through the bores of both bearings."""
    shaft = computed.conditions.resolved.shaft
    if shaft.steps:
        found, z = [], shaft.start
        for step in shaft.steps:
            found.append((z, z + step.length, step.diameter))
            z += step.length
        return found
    by_place = sorted(bearings, key=lambda one: one.ends)
    first, last = by_place[0], by_place[-1]
    begin, end = first.ends[0] - first.sizes.T / 2, last.ends[1] + last.sizes.T / 2
    between = (first.ends[1] + last.ends[0]) / 2
    if first.sizes.d == last.sizes.d:
        return [(begin, end, first.sizes.d)]
    return [(begin, between, first.sizes.d), (between, end, last.sizes.d)]


def _draw(sheet: Drawing, one: Seated, outlines: Contours, at: _At) -> None:
    for sign in (1, -1):
        for pen, outline in (("cup", outlines.cup), ("cone", outlines.cone), ("roller", outlines.roller)):
            sheet.area(pen, [at(one.back + one.towards * z, sign * r) for z, r in outline])
    contact = outlines.contact
    sheet.line("load", at(one.back + one.towards * contact[0], contact[1]), at(one.back + one.towards * one.sizes.a, 0))


@dataclass(frozen=True)
class _Named:
    """An element with its name and forces as two lines, and the label that they make."""

    element: Element
    lines: tuple[str, str]
    label: Label

    @classmethod
    def of(cls, one: Element, x: float) -> "_Named":
        lines = f"{plain(one.name, 30)} at {_mm(one.z)}", _forces(one)
        return cls(one, lines, Label(x, max(text_width(line, _LETTERS) for line in lines)))


def _act(sheet: Drawing, named: _Named, corner: Point, at: _At, top: float) -> None:
    """Draw an element that pulls: its place, its forces, its name from a corner on."""
    one, x, y = named.element, named.label.x, at(0.0, top)[1]
    for number, line in enumerate(named.lines):
        sheet.words(corner[0], corner[1] + _LINE * number, line, size=_LETTERS)
    below = corner[1] + _LINE + 1.4
    if np.hypot(one.F_y, one.F_z) > 0:
        sheet.arrow("force", (x, below), (x, max(y - 1.0, below + 2.2)))
    sheet.line("size", (x, below), (x, at(0.0, 0.0)[1]))
    if one.F_a:
        y = at(0.0, 0.0)[1] + 3.0
        ahead = 8.0 if one.F_a > 0 else -8.0
        sheet.arrow("force", (x, y), (x + ahead, y))


def _centres(sheet: Drawing, points: list[Point], texts: list[str]) -> None:
    """Mark the load centres and name them below the shaft, on two lines where one would not hold both."""
    labels = [Label(x, text_width(text, _CENTRE)) for (x, _), text in zip(points, texts, strict=True)]
    lefts = [max(min(one.x - one.width / 2, WIDTH - EDGE - one.width), EDGE) for one in labels]
    first, second = sorted((0, 1), key=lambda at: lefts[at])
    apart = lefts[second] >= lefts[first] + labels[first].width + GAP
    for at, (x, y) in enumerate(points):
        line = sheet.height - (11.0 if apart or at == first else 7.2)
        sheet.circle("mark", x, y, 1.0)
        sheet.words(lefts[at], line, texts[at], size=_CENTRE)
        sheet.line("size", (x, y), (x, sheet.height - 13.5))


def _forces(one: Element) -> str:
    named = (("Fy", one.F_y), ("Fz", one.F_z), ("Fa", one.F_a))
    return ", ".join(f"{name} {number_text(value, 4)} N" for name, value in named if value) or "no force"


def _mm(value: float) -> str:
    return f"{number_text(value, 5)} mm"
