"""Shear force and bending moment along a shaft on two supports, as arrays to draw or to search."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from engine.duty import statics
from engine.duty.element import Element
from engine.numerics import Array, Floats, as_arrays
from engine.sources import BEAMS, cited


@dataclass(frozen=True)
class Diagram:
    """Places x [mm], each twice where something acts: just before it and just behind it.

    V_y, V_z [N], M_y, M_z [N mm] in the two planes and M [N mm], the resultant; between two places V is constant and
    M_y, M_z run straight. R_A and R_B [N] are the loads on the supports by planes.
    """

    x: Floats
    V_y: Floats
    V_z: Floats
    M_y: Floats
    M_z: Floats
    M: Floats
    R_A: tuple[float, float]
    R_B: tuple[float, float]


@cited(BEAMS, "shear force and bending moment of a section")
def section_loads(at: Array, x: Array, F: Array, M: Array) -> tuple[Floats, Floats]:
    """Shear force and bending moment in sections of a shaft, from all that acts before each section.

    V = sum(F_i), M = sum(F_i (at - x_i)) - sum(M_i), over all x_i < at

    Parameters (x, F and M of one shape (n,); `at` of any shape)
    ----------
    at : place of the section; what acts at the place itself is not counted [mm]
    x : place of each load [mm]
    F : force there, the supports' own forces on the shaft among them [N]
    M : moment there, positive in the sense of a force further along [N mm]

    Returns
    -------
    V [N], M [N mm]

    Valid for loads in balance.

    Source: Beam theory, shear force and bending moment of a section; any textbook of strength of materials.
    """
    at, x, F, M = as_arrays(at, x, F, M)
    # the loads in a row behind every section
    arm = at[..., None] - x
    before = arm > 0
    return np.sum(np.where(before, F, 0.0), axis=-1), np.sum(np.where(before, F * arm - M, 0.0), axis=-1)


def diagram(elements: Sequence[Element], z_A: float, z_B: float) -> Diagram:
    """Return shear force and bending moment of the elements on supports at z_A and z_B [mm].

    Forces that turn with the shaft are drawn at the moment when they lie as their element says.
    """
    z = np.array([element.z for element in elements])
    places = np.unique([*z, z_A, z_B])
    # as floats lie, a step to the next one is "just behind"
    x = np.stack([places, np.nextafter(places, np.inf)], axis=-1).ravel()
    planes = []
    for F, M in (("F_y", "M_y"), ("F_z", "M_z")):
        force = np.array([getattr(element, F) for element in elements])
        moment = np.array([getattr(element, M) for element in elements])
        R_A, R_B = (float(R) for R in statics.reactions(z, force, moment, z_A, z_B))
        loads = np.append(z, [z_A, z_B]), np.append(force, [-R_A, -R_B]), np.append(moment, [0.0, 0.0])
        planes.append((*section_loads(x, *loads), R_A, R_B))
    (V_y, M_y, A_y, B_y), (V_z, M_z, A_z, B_z) = planes
    shown = np.repeat(places, 2)
    return Diagram(shown, V_y, V_z, M_y, M_z, np.hypot(M_y, M_z), (A_y, A_z), (B_y, B_z))
