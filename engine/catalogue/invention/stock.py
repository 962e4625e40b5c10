"""Availability and relative cost of the invented range: rules of our own, drawn from seeded numbers.

Stock is deepest for bores about 50 mm and thins out towards both ends; a few parts in a hundred are discontinued.
Cost grows a little slower than mass and carries the executions' surcharges; 1 is about an assembly of 0.3 kg.
"""

from typing import Any

import numpy as np

from engine.catalogue.columns import Texts
from engine.numerics import Floats

#: Share of parts in stock at the best bore [mm] and far from it, and the share that is discontinued.
_MOST_STOCKED, _LEAST_STOCKED, _BEST_BORE = 0.85, 0.12, 50.0
_DISCONTINUED = 0.04
#: Cost of handling, and cost per kg^0.85 of steel.
_HANDLING, _STEEL, _GROWTH = 0.35, 1.8, 0.85
#: Surcharges by execution; all invented.
SURCHARGE = {
    "through": 0.96,
    "case": 1.0,
    "log": 1.06,
    "stabilised": 1.12,
    "5": 1.9,
    "3": 1.9,
    "2": 1.15,
    "6X": 1.03,
    "on_request": 1.2,
}


def availability(d: Floats, draw: Floats) -> Texts:
    """Return whether parts about a bore d [mm] are in stock, for draws from 0 to 1."""
    likely = _LEAST_STOCKED + (_MOST_STOCKED - _LEAST_STOCKED) * np.exp(-np.square(np.log(d / _BEST_BORE) / 1.2))
    return np.where(draw < likely, "stocked", np.where(draw < 1 - _DISCONTINUED, "on_request", "discontinued"))


def cost(mass: Floats, executions: Any, draw: Floats) -> Floats:
    """Return relative costs of parts of these masses [kg]; `executions` are columns of surcharge names."""
    factor = np.prod([[SURCHARGE.get(name, 1.0) for name in names.tolist()] for names in executions], axis=0)
    return np.round((_HANDLING + _STEEL * np.power(mass, _GROWTH)) * factor * (0.92 + 0.16 * draw), 2)
