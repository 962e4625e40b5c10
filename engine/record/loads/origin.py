"""Where a figure that was not computed comes from: it was answered, or assumed since the question stands open."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

from engine.answers.document import question_at
from engine.answers.question import Quantity, Question

if TYPE_CHECKING:
    from engine.answers.resolved import Resolved
    from engine.duty.element import Step

ANSWER, ASSUMED, DERIVED = "answer", "assumed", "derived from the answers"
#: Steps that no question asks for, and the one by which load level and application factor multiply.
_RADIUS, _LEVEL = "radius at which it acts", "load level times application factor"


def origin(resolved: Resolved, *paths: str) -> str:
    """Return where what was taken for some questions comes from."""
    open_ones = [path for path in paths if path not in resolved.answered]
    if not open_ones:
        return ANSWER
    if len(open_ones) == len(paths):
        return ASSUMED
    named = " and ".join(question_at(path).label.lower() for path in open_ones)
    return f"{ANSWER}; {ASSUMED}: {named}"


def of_share(resolved: Resolved, case: int) -> str:
    """Return where the share of time of a load case, from 0, comes from."""
    found = origin(resolved, f"duty.cases[{case}].share")
    scaled = any(one.path == "duty.cases" for one in resolved.assumptions)
    return f"{found}, scaled to 100 %" if scaled else found


def of_given(resolved: Resolved, step: Step, within: str) -> str:
    """Return where a step without a formula comes from; `within` is the path of its element or load case.

    A step knows nothing of the question it came from, so that the assumption is found by a word and the value.
    """
    if step.name == _LEVEL:
        return _of_level(resolved, within)
    assumed = [one.path for one in resolved.assumptions if one.path.startswith((f"{within}.", "shaft.tilt"))]
    if any(_says(question_at(path), step) for path in assumed):
        return ASSUMED
    turned = step.symbol == "phi" and f"{within}.angle" not in resolved.answered
    return DERIVED if turned or step.name == _RADIUS else ANSWER


def takes_level(step: Step) -> bool:
    """Return whether a step is the one by which the load case multiplies all forces."""
    return step.name == _LEVEL


def _says(question: Question, step: Step) -> bool:
    """Return whether a step is what a question takes for granted."""
    if not _words(step.name) & _words(question.label):
        return False
    default = question.default
    if not isinstance(default, Quantity):
        return isinstance(default, str)
    value = math.radians(default.value) if step.unit == "rad" else default.value
    return math.isclose(value, step.value, rel_tol=1e-9)


def _words(text: str) -> set[str]:
    return set(re.findall(r"\w{4,}", text.lower()))


def _of_level(resolved: Resolved, case: str) -> str:
    """Return where load level times application factor of a case comes from."""
    if f"{case}.application_factor" in resolved.answered:
        return origin(resolved, f"{case}.load_level", f"{case}.application_factor")
    by_machines = {"duty.driver", "duty.driven"} & resolved.answered
    factor = "application factor by driver and driven machine" if by_machines else f"{ASSUMED}: application factor"
    return f"{origin(resolved, f'{case}.load_level')}; {factor}"
