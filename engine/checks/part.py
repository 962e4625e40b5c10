"""Checks of one bearing that depend on no load: does it fit, is it fast enough, does its steel stand the heat."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from engine.answers.question import Limits
from engine.answers.resolved import Resolved
from engine.checks.check import Check, Outcome
from engine.numerics import Bools, Floats
from engine.sources import COMMON_PRACTICE, Citation

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: A dimension typed from a drawing matches the catalogue's to this much [mm]: inch sizes are printed rounded.
DIMENSION_SLACK = 0.01

_ASKED = Citation(COMMON_PRACTICE, "envelope as answered")
ENVELOPE = {
    name: Check(f"envelope_{name}", label, "mm", _ASKED, "dimension", "limit", spare=False)
    for name, label in {"d": "Bore fits", "D": "Outside diameter fits", "T": "Width fits"}.items()
}
WISHES = {
    key: Check(f"wanted_{key}", label, "-", _ASKED, "breaches (1: yes)", "none", spare=False)
    for key, label in {
        "system": "Measuring system asked for",
        "stock": "Availability asked for",
        "listed": "Listed as a set",
        "steel": "Steel asked for",
    }.items()
}
SPEED = Check(
    "speed", "Limiting speed", "rpm", Citation(COMMON_PRACTICE, "limiting speed of the catalogue"),
    "highest speed", "catalogue's limiting speed",
)  # fmt: skip
HEAT = Check(
    "heat", "Steel stands the heat", "degC", Citation(COMMON_PRACTICE, "service temperature of the catalogue"),
    "highest ring temperature", "limit of the steel", spare=False,
)  # fmt: skip


def wishes(rows: Catalogue, side: str, resolved: Resolved) -> list[Outcome]:
    """Return the wishes that keep a bearing out of the choice whatever it could carry: demanded are 0 breaches."""
    met: dict[str, Bools] = {}
    if resolved.system != "both":
        met["system"] = rows.system == resolved.system
    if resolved.availability == "stocked":
        met["stock"] = rows.availability == "stocked"
    elif resolved.availability == "current":
        met["stock"] = rows.availability != "discontinued"
    if not resolved.formed:
        met["listed"] = rows.listed == "listed"
    if resolved.steel != "either":
        met["steel"] = rows.steel == resolved.steel
    # a breach has no capacity to be set against, and no breach asks for none
    return [Outcome(WISHES[key], side, (~kept).astype(np.float64), np.asarray(0.0)) for key, kept in met.items()]


def eligible(rows: Catalogue, resolved: Resolved) -> Bools:
    """Return which rows are wanted at all: measuring system, stock, sets and steel as answered."""
    wanted = np.ones(len(rows), dtype=bool)
    for wish in wishes(rows, "A", resolved):  # the wishes are the same on both sides
        wanted &= wish.passes
    return wanted


def outcomes(rows: Catalogue, side: str, resolved: Resolved) -> list[Outcome]:
    """Return every check of a bearing on one side that needs no load; limits left open are left out."""
    found = []
    for name, check in ENVELOPE.items():
        limits = resolved.limits[name][0 if side == "A" else 1]
        if limits.least is not None or limits.greatest is not None:
            values = getattr(rows, name) * (resolved.per_side if name == "T" else 1)
            found.append(_within(check, side, values, limits))
    if resolved.n_greatest is not None:
        limit = rows.n_grease if resolved.supply == "grease" else rows.n_oil
        found.append(Outcome(SPEED, side, np.asarray(resolved.n_greatest), limit))
    if resolved.peak_temperature is not None:
        found.append(Outcome(HEAT, side, np.asarray(max(resolved.peak_temperature, 0.0)), rows.max_temperature))
    return found


def _within(check: Check, side: str, value: Floats, limits: Limits) -> Outcome:
    """Return the tighter of the two limits as demand over capacity."""
    greatest = np.inf if limits.greatest is None else limits.greatest
    least = 0.0 if limits.least is None else limits.least
    # what lies outside by no more than the slack counts as the limit itself
    close = np.clip(value, least, greatest)
    value = np.where(np.abs(value - close) <= DIMENSION_SLACK, close, value)
    too_small = least / value > value / greatest
    return Outcome(check, side, np.where(too_small, least, value), np.where(too_small, value, greatest))
