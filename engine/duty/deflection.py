"""Bending of a stepped, perhaps hollow shaft on two simple supports: line, slope at the seats, compliance.

Everything is a sum of four integrals over 1/(E I), which is constant from step to step, so the results are exact for
any number of steps, and places may be arrays: thousands of pairs of load centres at once.
"""

from dataclasses import dataclass

import numpy as np

from engine.duty import statics
from engine.numerics import Array, Floats, as_arrays
from engine.sources import BEAMS, COMMON_PRACTICE, cited

#: Young's modulus of steel [MPa].
STEEL = 206_000.0
#: Slope at the seat of a tapered roller bearing that is usual at most: the strict and the lenient limit [rad], 1.7 and
#: 4.1 minutes of arc; common practice, no source (machine design textbooks print the same range).
USUAL_LIMITS = (0.0005, 0.0012)


@dataclass(frozen=True)
class StiffnessLine:
    """A shaft's bending stiffness: E I [N mm2] of each of m sections, and the m + 1 places [mm] where they meet.

    The first and the last section reach on as far as loads or supports lie beyond them.
    """

    edges: Floats
    EI: Floats


def stepped(start: float, lengths: Array, d_o: Array, d_i: Array = 0.0, E: Array = STEEL) -> StiffnessLine:
    """Return the stiffness of a shaft whose first section begins at `start` [mm], from lengths and diameters [mm]."""
    lengths, d_o, d_i, E = np.broadcast_arrays(*as_arrays(lengths, d_o, d_i, E))
    if lengths.ndim != 1 or not np.all(lengths > 0):
        raise ValueError("every section of a shaft has a length above 0")
    return StiffnessLine(start + np.concatenate([[0.0], np.cumsum(lengths)]), bending_stiffness(E, d_o, d_i))


@cited(BEAMS, "second moment of area of a ring")
def bending_stiffness(E: Array, d_o: Array, d_i: Array) -> Floats:
    """Bending stiffness of a round section.

    E I = E pi/64 (d_o^4 - d_i^4)

    Parameters (any broadcastable shapes)
    ----------
    E : Young's modulus [MPa]
    d_o : outside diameter [mm]
    d_i : bore, 0 where solid [mm]

    Returns
    -------
    E I [N mm2]

    Valid for E > 0, d_o > d_i >= 0; NaN outside.

    Source: Beam theory, second moment of area of a ring; any textbook of strength of materials.
    """
    E, d_o, d_i = as_arrays(E, d_o, d_i)
    outer, inner = np.square(d_o), np.square(d_i)
    inside = (E > 0) & (d_o > d_i) & (d_i >= 0)
    return np.where(inside, E * np.pi / 64 * (outer - inner) * (outer + inner), np.nan)


@dataclass(frozen=True)
class Bending:
    """Slope [rad] and deflection [mm] at places of a shaft in one plane, in the sense of its forces."""

    slope: Floats
    deflection: Floats


@dataclass(frozen=True)
class Load:
    """n loads in one plane: places x [mm], forces F [N], moments M [N mm] (see `engine.duty.element`), all (..., n)."""

    x: Floats
    F: Floats
    M: Floats

    @classmethod
    def of(cls, x: Array, F: Array, M: Array = 0.0) -> "Load":
        """Return loads of one broadcast shape with at least one axis."""
        x, F, M = np.broadcast_arrays(*(np.atleast_1d(one) for one in as_arrays(x, F, M)))
        return cls(x, F, M)


class _Integrals:
    """Integrals of 1, t, t^2 over 1/(E I) along a shaft, from the middle of the shaft, where t = 0, to any place."""

    def __init__(self, line: StiffnessLine) -> None:
        # t from the middle: powers of small numbers lose fewer digits
        self.middle = (line.edges[0] + line.edges[-1]) / 2
        self.knots = line.edges - self.middle
        self.flexibility = 1.0 / line.EI
        begins, ends = self.knots[:-1], self.knots[1:]
        self.sums = [
            np.concatenate([[0.0], np.cumsum(self.flexibility * (ends**k - begins**k) / k)]) for k in (1, 2, 3)
        ]

    def upto(self, t: Floats) -> list[Floats]:
        """Return the three integrals from the begin of the shaft to t."""
        at = np.clip(np.searchsorted(self.knots, t, side="right") - 1, 0, len(self.flexibility) - 1)
        begin, flexibility = self.knots[at], self.flexibility[at]
        return [self.sums[k - 1][at] + flexibility * (t**k - begin**k) / k for k in (1, 2, 3)]

    def bent_by(self, t: Floats, a: Floats, F: Floats, M: Floats) -> tuple[Floats, Floats]:
        """Return slope and deflection at t of a shaft that is clamped before a, by loads at a, summed."""
        t = t[..., None]
        I0, I1, I2 = (
            np.where(t > a, upper - lower, 0.0) for upper, lower in zip(self.upto(t), self.upto(a), strict=True)
        )
        # E I v'' = F (t - a) - M behind the load: slope and deflection are its first and second integral
        slope = F * (I1 - a * I0) - M * I0
        deflection = F * ((t + a) * I1 - t * a * I0 - I2) - M * (t * I0 - I1)
        return np.sum(slope, axis=-1), np.sum(deflection, axis=-1)


@cited(BEAMS, "slope and deflection by double integration")
def bending(line: StiffnessLine, load: Load, z_A: Array, z_B: Array, at: Array) -> Bending:
    """Slope and deflection of a shaft in one plane at places of one's choice.

    E I v'' = M, with v(z_A) = v(z_B) = 0

    Parameters (z_A, z_B and `at` of any broadcastable shapes)
    ----------
    line : bending stiffness along the shaft [mm, N mm2]
    load : loads without those of the supports [mm, N, N mm]
    z_A : place of support A [mm]
    z_B : place of support B [mm]
    at : places asked for [mm]

    Returns
    -------
    slope dv/dz [rad], deflection v [mm]

    Valid for z_A < z_B and small slopes of a slender shaft: shear, gyration and the supports' own give are left out;
    NaN where the supports coincide or lie the other way round.

    Source: Beam theory, slope and deflection by double integration; any textbook of strength of materials.
    """
    whole = _Integrals(line)
    A, B, t = (place - whole.middle for place in as_arrays(z_A, z_B, at))
    a = load.x - whole.middle
    R_A, R_B = statics.reactions(a, load.F, load.M, A, B)
    R_A, R_B = (np.where(A < B, R, np.nan) for R in (R_A, R_B))
    zero = np.zeros(1)

    def clamped(place: Floats) -> tuple[Floats, Floats]:
        """Slope and deflection by loads and supports with the shaft clamped at its begin."""
        slope, deflection = whole.bent_by(place, a, load.F, load.M)
        for support, R in ((A, R_A), (B, R_B)):
            own = whole.bent_by(place, support[..., None], -R[..., None], zero)
            slope, deflection = slope + own[0], deflection + own[1]
        return slope, deflection

    # a turn and a shift of the whole shaft bring the supports back to the line
    v_A, v_B = clamped(A)[1], clamped(B)[1]
    with np.errstate(divide="ignore", invalid="ignore"):
        turn = (v_B - v_A) / (B - A)
    slope, deflection = clamped(t)
    return Bending(slope - turn, deflection - v_A - turn * (t - A))


@cited(BEAMS, "slope by a unit moment")
def seat_compliance(line: StiffnessLine, z_A: Array, z_B: Array) -> tuple[Floats, Floats, Floats, Floats]:
    """Slope of the shaft at A and at B per moment that a tilted bearing puts on it there.

    slope_A = c_AA M_A + c_AB M_B; slope_B = c_BA M_A + c_BB M_B

    Parameters (z_A and z_B of any broadcastable shapes)
    ----------
    line : bending stiffness along the shaft [mm, N mm2]
    z_A : place of support A [mm]
    z_B : place of support B [mm]

    Returns
    -------
    c_AA, c_AB, c_BA, c_BB [rad/(N mm)]; c_AB = c_BA

    Valid as `bending` is.

    Source: Beam theory, slope by a unit moment; the cross terms are equal by Maxwell's theorem.
    """
    z_A, z_B = np.broadcast_arrays(*as_arrays(z_A, z_B))
    slopes = []
    for moment_at in (z_A, z_B):
        unit = Load.of(moment_at[..., None], 0.0, 1.0)
        slopes.append([bending(line, unit, z_A, z_B, at).slope for at in (z_A, z_B)])
    (c_AA, c_BA), (c_AB, c_BB) = slopes
    return c_AA, c_AB, c_BA, c_BB


@cited(COMMON_PRACTICE, "misalignment of cone to cup")
def misalignment(slope_y: Array, slope_z: Array) -> Floats:
    """Angle between cone and cup, where the cup stands straight in a stiff housing.

    psi = sqrt(slope_y^2 + slope_z^2)

    Parameters (any broadcastable shapes)
    ----------
    slope_y : of the shaft in plane y [rad]
    slope_z : of the shaft in plane z [rad]

    Returns
    -------
    psi [rad]

    Valid for small slopes; 0.0005 to 0.0012 rad (1.7 to 4.1 minutes of arc) is usual at most.

    Source: Common practice, misalignment of cone to cup; no source.
    """
    slope_y, slope_z = as_arrays(slope_y, slope_z)
    return np.hypot(slope_y, slope_z)
