"""All elements of a shaft together: reduced to A's reference plane, and what they put on two supports.

Forces that stand and forces that turn with the shaft are kept apart. Those that turn are added to each bearing's
radial load by their amount: the load passes through that sum once a turn, and the static load safety needs it. For
the life it is the safe side: where the two are equal the mean effective load is 0.76 of the sum, where one is
much the greater the sum is nearly exact.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from engine.duty import statics
from engine.duty.element import ALWAYS, LOAD, SPEED, Element, Step, made
from engine.numerics import Array, Floats, as_arrays
from engine.pair.arrangement import load_centres
from engine.sources import citation_of

_CENTRES = str(citation_of(load_centres))
_PARTS = ("F_y", "F_z", "M_y", "M_z")


@dataclass(frozen=True)
class Forces:
    """Forces [N] and moments [N mm] about plane z = 0 of bearing A in one case, or in k cases as arrays (k,).

    `still` and `turning` hold F_y, F_z, M_y, M_z of what stands and of what turns with the shaft. F_a is the force
    along the shaft, positive towards B; T is what is left of the torques, 0 where the elements are in balance.
    """

    still: tuple[Floats, Floats, Floats, Floats]
    turning: tuple[Floats, Floats, Floats, Floats]
    F_a: Floats
    T: Floats

    def one(self, at: int) -> "Forces":
        """Return the forces of one of k cases."""
        still, turning = (tuple(part[at] for part in parts) for parts in (self.still, self.turning))
        return Forces(still, turning, self.F_a[at], self.T[at])

    @property
    def turns(self) -> bool:
        """Whether any force turns with the shaft."""
        return any(bool(np.any(part)) for part in self.turning)


@dataclass(frozen=True)
class BearingLoad:
    """Radial load on one support: Fr [N] with what turns, the standing part by planes, its direction, what turns."""

    Fr: Floats
    R_y: Floats
    R_z: Floats
    angle: Floats
    turning: Floats


def reduced(elements: Iterable[Element], load: Array = 1.0, speed: Array = 1.0) -> Forces:
    """Return the forces of a shaft's elements in one case, or in the cases that scale it.

    `load` and `speed` are factors on the load and the speed of the case the elements belong to, of any broadcastable
    shapes; weight is not scaled, unbalance with the square of the speed. They must not be negative.
    """
    load, speed = as_arrays(load, speed)
    if np.any(load < 0) or np.any(speed < 0):
        raise ValueError("a reversed load or speed is a case of its own: teeth and belts change their sides")
    factors = {LOAD: load, ALWAYS: np.ones_like(load), SPEED: np.square(speed)}
    zero = np.zeros(np.broadcast_shapes(load.shape, speed.shape))
    sums = {(turns, part): zero for turns in (False, True) for part in _PARTS}
    F_a, T = zero, zero
    for element in elements:
        factor = factors[element.follows]
        parts = (element.F_y, element.F_z, element.M_y + element.F_y * element.z, element.M_z + element.F_z * element.z)
        for part, value in zip(_PARTS, parts, strict=True):
            sums[element.rotating, part] = sums[element.rotating, part] + factor * value
        F_a, T = F_a + factor * element.F_a, T + factor * element.T
    still, turning = (
        (sums[turns, "F_y"], sums[turns, "F_z"], sums[turns, "M_y"], sums[turns, "M_z"]) for turns in (False, True)
    )
    return Forces(still, turning, F_a, T)


def bearing_loads(forces: Forces, z_A: Array, z_B: Array) -> tuple[BearingLoad, BearingLoad]:
    """Return the radial loads on the supports at z_A and z_B [mm]; (pairs, 1) against (k,) cases gives (pairs, k)."""
    standing = _reactions(forces.still, z_A, z_B)
    turning = _reactions(forces.turning, z_A, z_B)
    loads = []
    for (R_y, R_z), (U_y, U_z) in zip(standing, turning, strict=True):
        around = statics.radial_load(U_y, U_z)
        Fr = statics.radial_load(R_y, R_z) + around
        loads.append(BearingLoad(Fr, R_y, R_z, statics.direction(R_y, R_z), around))
    return loads[0], loads[1]


def radial_loads(forces: Forces, z_A: Array, z_B: Array) -> tuple[Floats, Floats]:
    """Return Fr on the supports at z_A and z_B [mm] as `bearing_loads` does, and nothing else: for very many pairs."""
    kinds = (forces.still, forces.turning) if forces.turns else (forces.still,)
    lengths = [[statics.radial_load(*R) for R in _reactions(parts, z_A, z_B)] for parts in kinds]
    return lengths[0][0] + sum(more[0] for more in lengths[1:]), lengths[0][1] + sum(more[1] for more in lengths[1:])


def _reactions(parts: Sequence[Floats], z_A: Array, z_B: Array) -> list[tuple[Floats, Floats]]:
    """Return the reaction of A and of B, each in plane y and z."""
    F_y, F_z, M_y, M_z = parts
    place = np.zeros(1)
    A_y, B_y = statics.reactions(place, F_y[..., None], M_y[..., None], z_A, z_B)
    A_z, B_z = statics.reactions(place, F_z[..., None], M_z[..., None], z_A, z_B)
    return [(A_y, A_z), (B_y, B_z)]


def unfolded(forces: Forces, z_A: float, z_B: float) -> tuple[Step, ...]:
    """Return the steps from the reduced forces of one case to the radial load on each support, to be done by hand."""
    steps = [
        Step(f"z_{side}", f"load centre of {side}", z, "mm", f"z_{side} = place of the effective load centre", _CENTRES)
        for side, z in (("A", z_A), ("B", z_B))
    ]
    for parts, of in ((forces.still, ""), (forces.turning, ", turning with the shaft")):
        if of and not any(parts):
            continue
        mark = "'" if of else ""
        (A_y, A_z), (B_y, B_z) = _reactions(parts, z_A, z_B)
        for plane, F, M, R_A, R_B in (("y", parts[0], parts[2], A_y, B_y), ("z", parts[1], parts[3], A_z, B_z)):
            steps += [
                _sum(f"F_{plane}{mark}", f"sum of forces in plane {plane}{of}", F, "N", "sum(F_i)"),
                _sum(f"M_{plane}{mark}", f"their moment about z = 0{of}", M, "N mm", "sum(F_i z_i) + sum(M_i)"),
                _sum(
                    f"R_B{plane}{mark}",
                    f"load on B in plane {plane}{of}",
                    R_B,
                    "N",
                    f"(M_{plane}{mark} - F_{plane}{mark} z_A) / (z_B - z_A)",
                ),
                _sum(
                    f"R_A{plane}{mark}",
                    f"load on A in plane {plane}{of}",
                    R_A,
                    "N",
                    f"F_{plane}{mark} - R_B{plane}{mark}",
                ),
            ]
    for side, load in zip("AB", bearing_loads(forces, z_A, z_B), strict=True):
        still = statics.radial_load(load.R_y, load.R_z)
        steps.append(made(f"R_{side}", f"resultant of both planes on {side}", still, "N", statics.radial_load))
        steps.append(made(f"phi_{side}", f"its direction on {side}", load.angle, "rad", statics.direction))
        if load.turning:
            name = f"radial load on {side}, what turns added by its amount"
            steps.append(_sum(f"Fr_{side}", name, load.Fr, "N", f"R_{side} + sqrt(R_{side}y'^2 + R_{side}z'^2)"))
    return tuple(steps)


def _sum(symbol: str, name: str, value: Floats, unit: str, formula: str) -> Step:
    return Step(symbol, name, float(value), unit, f"{symbol} = {formula}", str(citation_of(statics.reactions)))
