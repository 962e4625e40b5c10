"""What the load distribution says of pairs side by side, beside what the closed formulas say of them (`compare`).

It takes a thousand times as long as these, so it is known of some of the pairs and not yet of others.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TypeVar

import numpy as np

from engine.checks.check import Outcome
from engine.selection.comparing.compare import Line, check_line, figure_line
from engine.selection.stages.load_distribution import Leading

GROUP = "By load distribution"
#: What stands where nothing is known of a pair.
NOTHING = "-"

_Any = TypeVar("_Any")


def passes(closed: bool, one: Leading | None) -> bool | None:
    """Return whether a pair passes by closed formulas and load distribution; None where the latter is not known."""
    if not closed:
        return False
    return None if one is None else {"passes": True, "fails": False}.get(one.word)


def lines(found: Sequence[Leading | None]) -> list[Line]:
    """Return the figures and checks of some pairs, in their order; of a pair not known its cells are NOTHING."""
    known = [(at, one) for at, one in enumerate(found) if one is not None and one.known]
    if not known:
        return []
    columns, leading = [at for at, _ in known], [one for _, one in known]
    return [
        *(_placed(one, columns, len(found)) for one in _figures(leading)),
        *(_placed(one, [columns[at] for at in has], len(found)) for one, has in _checks(leading)),
    ]


def _figures(known: Sequence[Leading]) -> Iterator[Line]:
    figures = (
        ("life", "Life in service", "h", [one.life for one in known], 1),
        ("p_max", "Greatest pressure", "MPa", [one.p_max for one in known], -1),
        ("band", "Band of long life", "mm", [one.band[1] - one.band[0] for one in known], 1),
    )
    for key, name, unit, cells, better in figures:
        yield figure_line(f"setting.{key}", (GROUP, name, "pair", unit), list(cells), better)


def _checks(known: Sequence[Leading]) -> Iterator[tuple[Line, list[int]]]:
    """Yield each check, and of which pairs it is known: a chance is drawn of some and not of others."""
    most = max(known, key=lambda one: len(one.outcomes))
    for key in map(_key, most.outcomes):
        has = [(at, outcome) for at, one in enumerate(known) for outcome in one.outcomes if _key(outcome) == key]
        first = has[0][1]
        demand, capacity = (
            np.array([float(np.ravel(getattr(outcome, name))[0]) for _, outcome in has])
            for name in ("demand", "capacity")
        )
        line = check_line(Outcome(first.check, first.side, demand, capacity), len(has))
        yield replace(line, key=f"setting.{line.key}", group=GROUP), [at for at, _ in has]


def _key(outcome: Outcome) -> tuple[str, str]:
    return outcome.check.key, outcome.side


def _placed(line: Line, columns: Sequence[int], n: int) -> Line:
    """Return a line of some pairs in the columns of all n of them."""

    def spread(values: Sequence[_Any], nothing: _Any) -> tuple[_Any, ...]:
        filled = dict(zip(columns, values, strict=True))
        return tuple(filled.get(at, nothing) for at in range(n))

    cells, best = spread(line.cells, NOTHING), spread(line.best, False)
    if not line.passes:
        return replace(line, cells=cells, best=best)
    demand, capacity = (spread(values, float("nan")) for values in (line.demand, line.capacity))
    return replace(line, cells=cells, best=best, passes=spread(line.passes, None), demand=demand, capacity=capacity)
