"""What to mind of the duty itself, whatever the pair: shares of time and torques that do not add up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.answers.contradiction import ROUNDING
from engine.duty.machine.torque import Balance, balance
from engine.units import number_text

if TYPE_CHECKING:
    from engine.operating import Conditions


def cautions(conditions: Conditions) -> list[str]:
    """Return sentences, the first things that a reader should know; none where all adds up."""
    return [*_shares(conditions), *_torques(conditions)]


def _shares(conditions: Conditions) -> list[str]:
    total = conditions.resolved.shares
    if not conditions.resolved.cases or total == 0 or abs(total - 100.0) <= ROUNDING:
        return []
    return [
        f"The shares of time add up to {number_text(total)} % only; they are scaled to 100 %: time that no load case "
        "describes is taken to be as the others are"
    ]


def balances(conditions: Conditions) -> list[Balance]:
    """Return the balance of the torques in each answered case."""
    mounted = conditions.resolved.shaft
    kinds = [part.kind for part in mounted.parts]
    return [
        balance(elements, mounted.rotation * case.sense, kinds)
        for case, elements in zip(conditions.resolved.cases, conditions.cases.elements, strict=True)
    ]


def _torques(conditions: Conditions) -> list[str]:
    """Return one sentence for all cases whose torques say the same thing, with the figures of the worst."""
    alike: dict[str, list[tuple[int, Balance]]] = {}
    for case, found in zip(conditions.resolved.cases, balances(conditions), strict=True):
        if not found.holds:
            alike.setdefault(found.finding, []).append((case.number, found))
    sentences = []
    for cases in alike.values():
        numbers = [str(number) for number, _ in cases]
        worst, found = max(cases, key=lambda one: abs(one[1].rest))
        which = f"Load case {numbers[0]}"
        if len(numbers) > 1:
            which = f"Load cases {', '.join(numbers[:-1])} and {numbers[-1]}, the most in case {worst}"
        sentences.append(f"{which}: {found.said}")
    return sentences
