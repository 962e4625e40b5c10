"""What of the answers and of the search is drawn as a shaft. Reading answers alone, it needs no computing."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from engine.answers.chapters.element import Element as Answered
from engine.answers.question import Quantity
from wizard.widgets.lines import fitted, line
from wizard.widgets.shaft import SIGNS, Drawn, Mark, strip

if TYPE_CHECKING:
    from collections.abc import Iterable

    from engine.answers.document import Answers
    from engine.duty.element import Element
    from wizard.glyphs import Glyphs
    from wizard.standing import Standing
    from wizard.widgets.lines import Line

#: The forces that a case states itself, beside the numbered elements.
OF_CASE = "case"


def label(number: int, kind: str | None) -> str:
    """Return what an element is called in a picture: its number and the letter of its kind."""
    return f"{number}{SIGNS.get(kind or '', '?')}" if number else OF_CASE


def drawn(
    answers: Answers, acting: Iterable[tuple[int, Element]] = (), centres: tuple[float, float] | None = None
) -> Drawn:
    """Return what is drawn of some answers; `acting` are the forces in a case by number of their element."""
    forces = {number: [one for at, one in acting if at == number] for number, _ in acting}
    marks = [
        _mark(label(number, element.kind), element.position.value, forces.get(number, []))
        for number, element in enumerate(answers.shaft.elements, 1)
        if element != Answered() and isinstance(element.position, Quantity)
    ]
    marks += [_mark(OF_CASE, float(one.z), [one]) for one in forces.get(0, [])]
    distance = answers.duty.distance
    begin = answers.shaft.start.value if answers.shaft.start is not None else 0.0
    return Drawn(
        marks=tuple(marks),
        planes=(0.0, distance.value) if distance is not None else None,
        centres=centres,
        begin=begin,
        steps=tuple(
            (section.length.value, section.diameter.value)
            for section in answers.shaft.sections
            if section.length is not None and section.diameter is not None
        ),
    )


def _mark(name: str, z: float, forces: list[Element]) -> Mark:
    F_y, F_z, F_a = (float(sum(getattr(one, part) for one in forces)) for part in ("F_y", "F_z", "F_a"))
    return Mark(name, z, F_y, F_z, F_a, turning=any(one.rotating for one in forces))


def acting_in_first_case(answers: Answers) -> tuple[tuple[tuple[int, Element], ...], str]:
    """Return the forces in the first load case by number of their element, and what is to be minded of their torques.

    There are none where they are not known.
    """
    from engine.answers.resolved import resolve
    from engine.duty import onshaft
    from engine.duty.machine.torque import balance

    resolved = resolve(answers)
    if not (resolved.loads_known and resolved.cases):
        return (), ""
    case, shaft = resolved.cases[0], resolved.shaft
    acting = onshaft.numbered(shaft, case)
    if not all(element.known for _, element in acting):
        return (), ""
    kinds = [part.kind for part in shaft.parts]
    return acting, balance((element for _, element in acting), shaft.rotation * case.sense, kinds).said


def strip_lines(answers: Answers, standing: Standing, width: int, glyphs: Glyphs) -> list[Line]:
    """Return the shaft in three lines, with the directions of the forces in the first load case where they are known.

    A fourth line says it where the torques of that case do not add up.
    There is nothing to show before a distance of the bearings, or an element at its place, is known.
    """
    # what computes is loaded by the search, behind the first frame; no key waits for that
    acting, said = acting_in_first_case(answers) if standing.counted is not None else ((), "")
    shown = drawn(answers, acting, standing.centres if answers.duty.distance is not None else None)
    if shown.ends is None:
        return []
    labels, outline, bearings = strip(shown, width, glyphs)
    minded = [line(fitted(f" {glyphs.caution} {said}", width).rstrip(), "caution")] if said else []
    return [_ruled(labels, width, glyphs), line(outline), line(bearings), *minded]


def _ruled(labels: str, width: int, glyphs: Glyphs) -> Line:
    """Return the labels in a rule, which parts the shaft from what stands above it."""
    pieces = [(text, "title") if text.strip() else (glyphs.rule * len(text), "quiet")
              for text in re.split(r"( +)", labels.ljust(width))]  # fmt: skip
    return tuple(piece for piece in pieces if piece[0])
