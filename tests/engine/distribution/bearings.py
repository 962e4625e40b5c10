"""Roller sets for the tests: one of round numbers, and pairs drawn at random from the invented catalogue."""

from functools import cache

import numpy as np

from engine.catalogue import read
from engine.catalogue.section.raceways import roller_half_angle_nu
from engine.distribution.rollers import RollerSet
from engine.distribution.rows import roller_set
from engine.pair.arrangement import ARRANGEMENTS


def rollers(**changed) -> RollerSet:
    """Return a medium bearing: 17 rollers 8 x 11 mm on 46 mm, the sizes of a rating check."""
    values = {
        "Z": 17, "Dpw": 46.0, "Dwe": 8.0, "Lwe": 11.0, "alpha": np.radians(14.0361), "profile": "plain",
        "inset": 0.0, "middle": 11.0, "T": 17.25, "Cr": 48080.0, "Cu": 6473.7,
    } | changed  # fmt: skip
    values.setdefault("nu", float(roller_half_angle_nu(values["Dwe"], values["Dpw"], values["alpha"])))
    radius = values["Dpw"] / 2 + values["Dwe"] / 2 * np.cos(values["alpha"] - values["nu"])
    values.setdefault("a", float(values["middle"] - radius * np.tan(values["alpha"])))
    return RollerSet(**values)


@cache
def catalogue():
    return read.builtin()


def random_pair(draw):
    """Return two roller sets of like size, an arrangement and a distance."""
    rows = np.flatnonzero(catalogue().system == "metric")
    first = int(draw.choice(rows))
    near = rows[np.abs(catalogue().d[rows] / catalogue().d[first] - 1) < 0.5]
    A, B = roller_set(catalogue(), first), roller_set(catalogue(), int(draw.choice(near)))
    return A, B, ARRANGEMENTS[draw.integers(2)], float(draw.uniform(0.5, 6.0) * (A.Dpw + B.Dpw) / 2)
