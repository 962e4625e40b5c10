"""The lubricant's viscosity over temperature, with the points at which it is used."""

import math
from typing import TYPE_CHECKING

import numpy as np

from engine.errors import plain
from engine.lubrication import viscosity
from engine.report.drawn.plots import Axis, Curve, Mark, plot
from engine.report.drawn.shapes import Drawing

if TYPE_CHECKING:
    from engine.record.computed import Computed

#: So many load cases are marked; the marks of more would cover one another.
MOST_MARKS = 12


def viscosity_plot(computed: "Computed") -> Drawing | None:
    """Return the line through the figures nu40 and nu100 of the result, and each case's temperature and viscosity."""
    figures = {figure.key: figure for block in computed.result.blocks for figure in block.figures}
    nu40, nu100 = (getattr(figures.get(key), "A", None) for key in ("nu40", "nu100"))
    if not isinstance(nu40, float) or not isinstance(nu100, float):
        return None
    marks = _marks(computed)
    temperatures = [mark.x for mark in marks]
    low, high = min([20.0, *temperatures]) - 5.0, max([100.0, *temperatures]) + 5.0
    theta = np.linspace(low, high, 60)
    nu = viscosity.kinematic_viscosity_full(theta, nu40, nu100)
    curve = Curve(theta.tolist(), nu.tolist(), "lubricant")
    return plot(
        "Viscosity of the lubricant over temperature, load cases marked", [curve], Axis("temperature, deg C"),
        Axis("viscosity, mm2/s", log=True), marks,
    )  # fmt: skip


def _marks(computed: "Computed") -> list[Mark]:
    found: dict[tuple[float, float], str] = {}
    for block in computed.result.blocks:
        figures = {figure.key: figure for figure in block.figures}
        if not {"temperature", "nu"} <= set(figures) or not block.key.startswith("case_"):
            continue
        name = plain(block.title.partition(":")[0].replace("Load case", "case"), 20)
        for side in ("A", "B"):
            x, y = (getattr(figures[key], side) for key in ("temperature", "nu"))
            if isinstance(x, float) and isinstance(y, float) and math.isfinite(x) and math.isfinite(y):
                there = found.get((x, y))
                found[x, y] = name if there is None else there if name in there else f"{there}, {name}"
    return [Mark(x, y, name) for (x, y), name in list(found.items())[:MOST_MARKS]]
