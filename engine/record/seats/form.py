"""Widths and runouts of the bearings of a pair by their tolerance class, as figures and in a line."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from engine.checks.fits import UM
from engine.figures import Figure
from engine.seat import iso492, iso578
from engine.sources import citation_of
from engine.units import number_text

if TYPE_CHECKING:
    from engine.numerics import Floats
    from engine.record.seats.fit import Fit

Source = Callable[..., object]
NOT_AT_HAND = "not at hand"


def figures(pair: tuple[Fit, Fit]) -> list[Figure]:
    """Return what the classes of both bearings allow: of a cone its width, that of the assembly and its runout."""
    ring = pair[0].ring
    if ring == "cup":
        return [_figure(pair, "runout", "radial runout of the cup, at most", (iso492.runouts, iso578.runout))]
    widths = (iso492.assembly_width_limits, iso578.assembly_width_limits)
    of_cone = (iso492.cone_width_limits, iso492.cone_width_limits)
    return [
        _figure(pair, "B_upper", "cone width B, upper deviation", of_cone),
        _figure(pair, "B_lower", "cone width B, lower deviation", of_cone),
        _figure(pair, "T_upper", "width T, upper deviation", widths),
        _figure(pair, "T_lower", "width T, lower deviation", widths),
        _figure(pair, "runout", "radial runout of the cone, at most", (iso492.runouts, iso578.runout)),
    ]


def _figure(pair: tuple[Fit, Fit], key: str, name: str, of: tuple[Source, Source]) -> Figure:
    metric, inch = (citation_of(one) for one in of)
    source = " or ".join({str(inch if fit.form.inch[0] else metric): None for fit in pair})
    ring = pair[0].ring
    values = [_um(getattr(fit.form, f"runout_{ring}" if key == "runout" else key)) for fit in pair]
    shown = [NOT_AT_HAND if math.isnan(value) else value for value in values]
    return Figure(f"{ring}_{key}", "", name, "um", source, shown[0], shown[1])


def _um(length: Floats) -> float:
    return round(float(np.ravel(length)[0]) * UM, 6) + 0.0


def sentence(fit: Fit) -> str:
    """Return what the class of one bearing allows its widths and the runout of this ring."""
    form = fit.form
    name = str(fit.rows.tolerance[0]) or "unsaid"
    runout = _um(form.runout_cone if fit.is_cone else form.runout_cup)
    parts = [f"width T {_ends(form.T_upper, form.T_lower)}"]
    if fit.is_cone:
        parts.insert(0, f"cone width B {_ends(form.B_upper, form.B_lower)}")
    parts.append(
        f"radial runout of the {fit.ring} "
        + (NOT_AT_HAND if math.isnan(runout) else f"{number_text(runout, 3)} um at most")
    )
    return f"Class {name} of the bearing: {', '.join(parts)}"


def _ends(upper: Floats, lower: Floats) -> str:
    high, low = _um(upper), _um(lower)
    return NOT_AT_HAND if math.isnan(high) or math.isnan(low) else f"{high:+.0f}/{low:+.0f} um"
