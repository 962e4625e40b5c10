"""The lubricant with how clean it is and why, and what the speeds by heat are made of."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from engine.figures import Block, Figure, two
from engine.lubrication import contamination, friction, thermal_speed, two_points, viscosity, viscosity_index
from engine.lubrication.contact import rib
from engine.record.loads.origin import origin
from engine.sources import citation_of

if TYPE_CHECKING:
    from engine.checks.every import Evaluated
    from engine.lubrication.lubricant import Lubricant
    from engine.operating import Conditions

_LIST = "lubricant list, generic; no source"


def lubricant_block(evaluated: Evaluated, conditions: Conditions) -> Block:
    """Return what the lubricant is, and how the level of cleanliness came about, step by step.

    Beside the factor of each case, which follows from the closed equations, stands the range of the coarse table.
    """
    resolved = conditions.resolved
    wet, oil = resolved.lubricated, resolved.lubricated.lubricant
    taken = partial(origin, resolved)
    grade = _LIST if wet.named else taken("lubrication.grade" if oil.VG is not None else "lubrication.nu40")
    # a base oil and its density that are not asked for are taken for granted as well
    base, density = (_LIST if wet.named else taken(f"lubrication.{name}") for name in ("base", "density"))
    of_grade = f"{citation_of(viscosity.nu40_of_grade)}; grade: {grade}" if oil.VG is not None else grade
    line = str(citation_of(two_points.at_40_and_100)) if oil.two_points else _LIST if wet.named else of_grade
    indexed = _LIST
    if oil.VI is not None:
        indexed = f"{citation_of(_way_to_nu100(oil))}; viscosity index: {taken('lubrication.vi')}"
    elif not wet.named:
        indexed = taken("lubrication.nu100")
    figures = [
        Figure("lubricant", "", "lubricant", "", grade, oil.name),
        Figure("supply", "", "supply", "", taken("lubrication.supply"), resolved.supply),
        Figure("base", "", "base oil", "", base, oil.base),
        Figure("nu40", "nu40", "viscosity at 40 degC", "mm2/s", line, oil.nu40),
        Figure("nu100", "nu100", "viscosity at 100 degC", "mm2/s", line if oil.two_points else indexed,
               oil.nu100),
        Figure("VI", "VI", "viscosity index", "", str(citation_of(viscosity_index.viscosity_index)),
               float(viscosity_index.viscosity_index(oil.nu40, oil.nu100)), digits=3),
        Figure("rho15", "rho15", "density at 15 degC", "kg/m3", density, oil.rho15),
    ]  # fmt: skip
    if math.isfinite(oil.T_greatest):
        figures += [
            Figure("T_least", "", "least temperature in lasting service", "degC", _LIST, oil.T_least),
            Figure("T_greatest", "", "greatest temperature in lasting service", "degC", _LIST, oil.T_greatest),
        ]
    if oil.thickener:
        figures.append(Figure("thickener", "", "thickener", "", _LIST, oil.thickener))
    if oil.nlgi is not None:
        figures.append(Figure("nlgi", "", "NLGI number", "", _LIST, oil.nlgi))
    for at, step in enumerate(wet.cleanliness.steps):
        said = step.said if len(wet.cleanliness.steps) == 1 else f"{at + 1}. {step.said}"
        level = taken("lubrication.cleanliness")
        why = level if step.why == "answer" else f"answer; {step.why}"
        figures.append(Figure(f"cleanliness_{at + 1}", "", said, "", why, step.level.replace("_", " ")))
    coarse = [contamination.e_C_of_table_13(resolved.cleanliness, rows.Dpw[0]) for rows in (evaluated.A, evaluated.B)]
    ranges = [f"{float(least):g} to {float(greatest):g}" for least, greatest in coarse]
    figures.append(
        Figure(
            "e_C_table", "eC", "contamination factor, coarse table", "",
            str(citation_of(contamination.e_C_of_table_13)), ranges[0], ranges[1],
        )
    )  # fmt: skip
    return Block("lubricant", "Lubricant and cleanliness", tuple(figures))


def _way_to_nu100(oil: Lubricant) -> Callable[..., object]:
    """Return how the viscosity at 100 deg C came from the index: a mineral oil of a grade has its place in a table."""
    of_grade = float(viscosity.nu100_of_grade(math.nan if oil.VG is None else oil.VG))
    return viscosity.nu100_of_grade if oil.nu100 == of_grade else viscosity_index.nu100_of_index


def speeds_block(evaluated: Evaluated, conditions: Conditions) -> Block:
    """Return the figures of both bearings by which speed is judged, whatever the case."""
    assert evaluated.contacts is not None
    contacts = evaluated.contacts
    running = conditions.cases.running
    fastest = float(conditions.cases.n[running].max()) if running.any() else 0.0

    def both(name: str) -> tuple[float, float]:
        return float(getattr(contacts[0], name)[0, 0]), float(getattr(contacts[1], name)[0, 0])

    density = two(float(thermal_speed.reference_heat_flow_density(one.A_r[0, 0])) for one in contacts)
    n_dm = two(float(thermal_speed.speed_factor(fastest, one.dm[0, 0])) for one in contacts)
    usual = rib.usual_rib_speed(conditions.resolved.supply)
    return Block("speeds", "Speed and heat", (
        Figure("dm", "dm", "mean diameter (d + D)/2", "mm", "catalogue", *both("dm"), digits=5),
        Figure("n_dm", "n dm", "speed factor, fastest case", "rpm mm",
               str(citation_of(thermal_speed.speed_factor)), *n_dm),
        Figure("f0", "f0", "friction factor of lubrication and rows", "", str(citation_of(friction.f0_with_supply)),
               *both("f0"), digits=3),
        Figure("A_r", "Ar", "heat emitting reference surface", "mm2", str(citation_of(thermal_speed.reference_area)),
               *both("A_r"), digits=5),
        Figure("q_r", "qr", "reference heat flow density", "W/mm2",
               str(citation_of(thermal_speed.reference_heat_flow_density)), *density, digits=3),
        Figure("n_ref", "nthr", "thermal reference speed", "rpm",
               str(citation_of(thermal_speed.thermal_reference_speed_of)), *both("n_ref")),
        Figure("d_rib", "", "mean rib diameter", "mm", str(citation_of(rib.rib_diameter)), *both("rib_diameter"),
               digits=5),
        Figure("v_rib_usual", "", "usual limit of the rib speed", "m/s", str(citation_of(rib.usual_rib_speed)), usual,
               digits=3),
    ))  # fmt: skip
