"""The shaft with both bearings to scale: where they sit and point, their load centres, and what acts in one case."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.duty.element import Element
from engine.errors import plain
from engine.operating import load_centre
from engine.pair import arrangement as arranged
from engine.report.drawn.section import Contours, Sizes, contours
from engine.report.drawn.shapes import Drawing, Point
from engine.units import number_text

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue
    from engine.operating import Conditions
    from engine.record.computed import Computed

_At = Callable[[float, float], Point]
WIDTH = 170.0
#: Room for names above and for forces below the shaft, and the tallest drawing [mm of paper].
_ABOVE, _BELOW, _TALLEST = 22.0, 20.0, 110.0
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
    middle = _ABOVE + tallest / 2 * scale
    name = plain(conditions.cases.names[conditions.cases.case_of.index(case)], 40)
    sheet = Drawing(
        f"Shaft and bearings to scale, with what acts in load case {case + 1}, {name}", WIDTH,
        middle + tallest / 2 * scale + _BELOW,
    )  # fmt: skip
    left = (WIDTH - (high - low) * scale) / 2

    def at(z: float, r: float) -> Point:
        return left + (z - low) * scale, middle - r * scale

    for start, end, diameter in steps:
        corners = ((start, 1), (end, 1), (end, -1), (start, -1))
        sheet.area("shaft", [at(z, sign * diameter / 2) for z, sign in corners])
    for one in bearings:
        _draw(sheet, one, contours(one.sizes), at)
    sheet.line("axis", at(low, 0.0), at(high, 0.0))
    for z, label in zip(centres, "AB", strict=True):
        sheet.circle("mark", *at(z, 0.0), 1.0)
        sheet.words(at(z, 0.0)[0], sheet.height - 11.0, f"{label}: load centre at {_mm(z)}", "middle")
        sheet.line("size", at(z, 0.0), (at(z, 0.0)[0], sheet.height - 13.5))
    _act(sheet, elements[:MOST_NAMED], at, tallest / 2)
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


def _act(sheet: Drawing, elements: list[Element], at: _At, top: float) -> None:
    """Draw each element that pulls: its place, name and forces, names on three levels so that they stand clear."""
    for number, one in enumerate(elements):
        x, y = at(one.z, 0.0)[0], at(0.0, top)[1]
        level = 4.0 + 5.6 * (number % 3)
        if np.hypot(one.F_y, one.F_z) > 0:
            sheet.arrow("force", (x, level + 1.4), (x, max(y - 1.0, level + 3.6)))
        sheet.line("size", (x, level + 1.4), (x, at(0.0, 0.0)[1]))
        anchor = "start" if x < WIDTH * 0.3 else "end" if x > WIDTH * 0.7 else "middle"
        sheet.words(x, level, f"{plain(one.name, 30)} at {_mm(one.z)}: {_forces(one)}", anchor, size=2.4)
        if one.F_a:
            y = at(0.0, 0.0)[1] + 3.0
            ahead = 8.0 if one.F_a > 0 else -8.0
            sheet.arrow("force", (x, y), (x + ahead, y))


def _forces(one: Element) -> str:
    named = (("Fy", one.F_y), ("Fz", one.F_z), ("Fa", one.F_a))
    return ", ".join(f"{name} {number_text(value, 4)} N" for name, value in named if value) or "no force"


def _mm(value: float) -> str:
    return f"{number_text(value, 5)} mm"
