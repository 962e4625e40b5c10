"""What of the answers and of the search is drawn as a shaft. Reading answers alone, it needs no computing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.answers.chapters.element import Element as Answered
from engine.answers.question import Quantity
from wizard.widgets.shaft import SIGNS, Drawn, Mark

if TYPE_CHECKING:
    from collections.abc import Iterable

    from engine.answers.document import Answers
    from engine.duty.element import Element

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
