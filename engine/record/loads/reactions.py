"""What a pair of bearings takes in one load case, in either arrangement: to be compared before one is chosen."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from engine.checks import bending
from engine.duty import onshaft, shaft, shear
from engine.operating import Conditions, load_centre
from engine.pair import equilibrium, paired

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue
    from engine.duty.element import Element, Step


@dataclass(frozen=True)
class Reactions:
    """One case on two bearings: A and B in this order where there are two of a thing.

    z [mm] is where they carry, `loads` what the shaft puts on them, Fa [N] their axial loads and `slopes` [minutes of
    arc] those of the shaft at their seats; the last two are none where the bearings, or the steps, are not known.
    """

    arrangement: str
    z: tuple[float, float]
    loads: tuple[shaft.BearingLoad, shaft.BearingLoad]
    diagram: shear.Diagram
    steps: tuple[Step, ...]
    Fa: tuple[float, float] | None = None
    slopes: tuple[float, float] | None = None


def reactions(
    conditions: Conditions, case: int, arrangement: str, rows: tuple[Catalogue, Catalogue] | None
) -> Reactions | None:
    """Return what the bearings take in an answered case, from 0; None where they cannot carry.

    `rows` are the bearings of A and B, each a catalogue of one row; without them the shaft rests on the reference
    planes. Of a measured spectrum it is the case at load level 1.
    """
    there = replace(conditions, resolved=replace(conditions.resolved, arrangement=arrangement))
    resolved = there.resolved
    assert resolved.distance is not None
    z_A, z_B = 0.0, resolved.distance
    if rows is not None:
        z_A, z_B = (float(load_centre(one, side, resolved)[0]) for one, side in zip(rows, "AB", strict=True))
    if not z_A < z_B:
        return None
    acting = onshaft.elements(resolved.shaft, resolved.cases[case])
    forces = shaft.reduced(acting)
    loads = shaft.bearing_loads(forces, z_A, z_B)
    slopes = None
    if resolved.shaft.steps and acting:
        found = bending.slopes(np.array([z_A]), np.array([z_B]), there)
        slopes = float(found[0][0, case] * bending.MINUTES), float(found[1][0, case] * bending.MINUTES)
    return Reactions(
        arrangement, (z_A, z_B), loads, _diagram(acting, z_A, z_B), shaft.unfolded(forces, z_A, z_B),
        _axial(loads, float(forces.F_a), there, rows), slopes,
    )  # fmt: skip


def _diagram(acting: tuple[Element, ...], z_A: float, z_B: float) -> shear.Diagram:
    # what turns with the shaft bends it to every side in turn, so it has no place in a picture of two planes
    return shear.diagram([element for element in acting if not element.rotating], z_A, z_B)


def _axial(
    loads: tuple[shaft.BearingLoad, shaft.BearingLoad],
    K_a: float,
    conditions: Conditions,
    rows: tuple[Catalogue, Catalogue] | None,
) -> tuple[float, float] | None:
    resolved = conditions.resolved
    if rows is None:
        return None
    if resolved.locating:
        Fa = paired.located_loads(resolved.locating, K_a)
    else:
        S = [equilibrium.induced_axial_load_S(load.Fr, one.Y[0]) for load, one in zip(loads, rows, strict=True)]
        Fa = equilibrium.axial_loads(resolved.arrangement, S[0], S[1], K_a)
    return float(Fa[0]), float(Fa[1])
