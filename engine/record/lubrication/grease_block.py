"""How long the grease lasts, factor by factor, how much of it, and of which kind."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from engine.checks.lubrication import grease_interval
from engine.figures import Block, Figure, two
from engine.lubrication.grease import fill, interval
from engine.numerics import Floats
from engine.sources import citation_of
from engine.warmth.contact import place_of

if TYPE_CHECKING:
    from engine.answers.lubricated.complete import Greasing
    from engine.checks.every import Evaluated
    from engine.operating import Conditions


def grease_block(evaluated: Evaluated, conditions: Conditions) -> list[Block]:
    """Return the block on grease; nothing with oil."""
    greasing = conditions.resolved.lubricated.greasing
    if greasing is None or evaluated.contacts is None:
        return []
    over = str(citation_of(interval.interval_over_cases))
    hours = two(float(grease_interval(contact, conditions)[0]) for contact in evaluated.contacts)
    figures = [*_factors(greasing, conditions), Figure("t_grease", "t", "regreasing over all cases", "h", over, *hours)]
    figures += [_other_ring(hours, greasing), *_amounts(evaluated, conditions), *_kind(evaluated, conditions)]
    return [Block("grease", "Grease", tuple(figures))]


def _factors(greasing: Greasing, conditions: Conditions) -> list[Figure]:
    source = str(citation_of(interval.regreasing_interval))
    words = {"contamination": greasing.contamination, "moisture": greasing.moisture, "vibration": greasing.vibration,
             "position": f"{greasing.position} shaft",
             "outer ring": "the cup turns" if greasing.outer_ring_turns else "it stands"}  # fmt: skip
    return [
        Figure(f"f_{key.replace(' ', '_')}", "", f"factor, {key}: {words[key].replace('_', ', ')}", "", source, factor)
        for key, factor in place_of(conditions.resolved).factors().items()
    ]


def _other_ring(hours: tuple[float, float], greasing: Greasing) -> Figure:
    """Return what the interval would be with the other ring turning."""
    turned = 1.0 / interval.OUTER_RING if greasing.outer_ring_turns else interval.OUTER_RING
    ring = "cone" if greasing.outer_ring_turns else "cup"
    source = str(citation_of(interval.regreasing_interval))
    return Figure(
        "t_other_ring", "", f"the same if the {ring} turned", "h", source, *two(turned * one for one in hours)
    )


def _amounts(evaluated: Evaluated, conditions: Conditions) -> list[Figure]:
    rows, n_dm = (evaluated.A, evaluated.B), _greatest_n_dm(evaluated, conditions)
    per_side = conditions.resolved.per_side
    space = two(per_side * float(fill.free_space(one.d, one.D, one.T, one.mass)[0]) for one in rows)
    share = two(float(fill.fill_share(value)) for value in n_dm)
    first = two(float(fill.first_fill(V, part)) for V, part in zip(space, share, strict=True))
    again = two(per_side * float(fill.refill(one.D, one.T)[0]) for one in rows)
    return [
        Figure("V", "V", "free space", "cm3", str(citation_of(fill.free_space)), *two(V / 1000.0 for V in space)),
        Figure(
            "fill", "", "share to fill at first", "%", str(citation_of(fill.fill_share)), *two(100 * s for s in share)
        ),
        Figure("first_fill", "m", "first filling", "g", str(citation_of(fill.first_fill)), *first, digits=3),
        Figure("refill", "G", "refill at each regreasing", "g", str(citation_of(fill.refill)), *again, digits=3),
    ]


def _greatest_n_dm(evaluated: Evaluated, conditions: Conditions) -> list[float]:
    assert evaluated.contacts is not None
    running = conditions.cases.running
    return [float(contact.n_dm[0, running].max()) if running.any() else 0.0 for contact in evaluated.contacts]


def _kind(evaluated: Evaluated, conditions: Conditions) -> list[Figure]:
    """Return the consistency and bleed that suit the harder place of the two bearings."""
    assert evaluated.warmth is not None
    wet = conditions.resolved.lubricated
    greasing = wet.greasing
    assert greasing is not None
    hottest = max(_hottest(T, conditions) for T in evaluated.warmth.T)
    start = wet.surroundings.ambient if wet.coldest is None else wet.coldest
    kind = fill.consistency(
        max(_greatest_n_dm(evaluated, conditions)), hottest, start, greasing.position, greasing.vibration,
        greasing.central,
    )  # fmt: skip
    source = str(citation_of(fill.consistency))
    return [
        Figure("nlgi", "", "NLGI number that suits", "", source, float(kind.nlgi)),
        Figure("bleed", "", "bleed of the base oil that suits", "", source, kind.bleed),
        Figure("nlgi_why", "", "because", "", source, "; ".join(kind.reasons)),
    ]


def _hottest(T: Floats, conditions: Conditions) -> float:
    running = conditions.cases.running
    values = np.ravel(np.asarray(T)[..., running])
    return float(values.max()) if values.size else conditions.resolved.lubricated.surroundings.ambient
