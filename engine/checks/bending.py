"""The check of the shaft's bending: how far cone and cup tilt against each other. It cautions only."""

import numpy as np

from engine.checks.check import Check, Outcome
from engine.duty import deflection
from engine.numerics import Floats
from engine.operating import Bearings, Conditions
from engine.sources import citation_of

#: From radians to minutes of arc.
MINUTES = 60.0 * 180.0 / np.pi

TILT = Check(
    "misalignment", "Cone stands straight in the cup", "arcmin", citation_of(deflection.misalignment),
    "greatest slope of the shaft at the seat", "usual limit, 0.0005 rad", advisory=True,
)  # fmt: skip


def slopes(z_A: Floats, z_B: Floats, conditions: Conditions) -> tuple[Floats, Floats]:
    """Return the slope of the shaft at the seats [rad] in each answered case, of shape (pairs, cases).

    z_A and z_B are the load centres of A and B [mm], of shape (pairs,).

    Forces that turn with the shaft are left out: they bend it to and fro and tilt the cone with it.
    """
    shaft = conditions.resolved.shaft
    line = deflection.stepped(
        shaft.start,
        np.array([step.length for step in shaft.steps]),
        np.array([step.diameter for step in shaft.steps]),
        np.array([step.bore for step in shaft.steps]),
        shaft.modulus,
    )
    found: tuple[list[Floats], list[Floats]] = ([], [])
    for elements in conditions.cases.elements:
        still = [element for element in elements if not element.rotating]
        x = np.array([element.z for element in still])
        planes = [
            deflection.Load.of(x, np.array([getattr(e, F) for e in still]), np.array([getattr(e, M) for e in still]))
            for F, M in (("F_y", "M_y"), ("F_z", "M_z"))
        ]
        for kept, at in zip(found, (z_A, z_B), strict=True):
            y, z = (deflection.bending(line, load, z_A, z_B, at).slope for load in planes)
            kept.append(deflection.misalignment(y, z))
    return np.stack(found[0], axis=-1), np.stack(found[1], axis=-1)


def outcomes(A: Bearings, B: Bearings, conditions: Conditions) -> list[Outcome]:
    """Return the check at both seats, where the steps of the shaft are known."""
    if not conditions.resolved.shaft.steps or not any(conditions.cases.elements):
        return []
    limit = np.asarray(deflection.USUAL_LIMITS[0] * MINUTES)
    return [
        Outcome(TILT, side, slope.max(axis=-1) * MINUTES, limit)
        for side, slope in zip("AB", slopes(A.z[:, 0], B.z[:, 0], conditions), strict=True)
    ]
