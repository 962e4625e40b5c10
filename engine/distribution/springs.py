"""The rollers of one or two bearings as springs of one rigid or elastic body: energy, forces and stiffness at once.

Every lamina is approached linearly in the coordinates q of the body, and its load grows with the power 10/9 of the
approach, so that the stored energy is a convex function of q. All coordinates are lengths [mm]: an angle enters as the
angle times a reference length, a moment as the moment over it.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from engine.distribution.contact import EXPONENT, LOG_PROFILE, cL, lamina_middles, profile_shape
from engine.distribution.rollers import LAMINAE, LOG, RollerSet
from engine.numerics import Floats

#: Approach at which the stiffness of a body with every roller loaded is taken as its measure [mm].
_REFERENCE_APPROACH = 0.01
#: What stands for no approach [mm]: a power of 0 takes several times as long as that of a number, and this one's
#: load of 1e-274 N disappears in any sum.
_NO_APPROACH = 1e-250
#: Multiplications of a matrix product above which the library wakes threads for it; on a busy machine that takes a
#: hundred times as long as the product.
_BEFORE_THREADS = 400_000


@dataclass(frozen=True)
class Springs:
    """Z rollers (of all bearings of the body) over n coordinates, each cut into the same laminae.

    Approach of lamina k of roller j: a_j + xi_k b_j - crown_j shape_k, with a = q G_a - gap and b = q G_b - lean. How
    far a roller's middle is from contact (gap), and how much farther its large end (lean), is given for every member.
    """

    G_a: Floats  # (n, Z) approach of the roller middle for a unit of each coordinate
    G_b: Floats  # (n, Z) what the lamina at the large end gets on top of it
    c: Floats  # (Z,) load of a lamina for a unit approach [N/mm^(10/9)]
    crown: Floats  # (Z,) twice the profile's factor, for both contacts [mm]
    S: Floats  # (n, n) stiffness of the shaft between the bearings; zero for a rigid one [N/mm]
    xi: Floats  # (laminae,) middle of each lamina, from -1 at the small end to 1 at the large one
    shape: Floats  # (laminae,) the profile's logarithm at each

    def __post_init__(self) -> None:
        one = np.ones_like(self.xi)
        object.__setattr__(self, "_load_sums", np.stack([one, self.xi, self.shape], axis=-1))
        object.__setattr__(self, "_stiffness_sums", EXPONENT * np.stack([one, self.xi, np.square(self.xi)], axis=-1))
        n = len(self.G_a)
        a, b = self.G_a, self.G_b
        mixed = a[:, None] * b[None] + b[:, None] * a[None]
        products = [np.reshape(one, (n * n, -1)).T for one in (a[:, None] * a[None], mixed, b[:, None] * b[None])]
        # per roller: its sums of 1, xi and xi^2 against the products of the coordinates
        object.__setattr__(self, "_products", np.concatenate(products))

    def approach(self, q: Floats, gap: Floats, lean: Floats | float = 0.0) -> Floats:
        """Return the approach of every lamina, negative where it is out of contact; (m, Z, laminae) [mm]."""
        a, b = q @ self.G_a - gap, q @ self.G_b - lean
        delta = b[..., None] * self.xi
        delta += a[..., None]
        delta -= self.crown[:, None] * self.shape
        return np.asarray(delta)

    def lamina_loads(self, q: Floats, gap: Floats) -> Floats:
        """Return the load of every lamina (m, Z, laminae) [N]."""
        delta = np.maximum(self.approach(q, gap), _NO_APPROACH)
        return np.where(delta == _NO_APPROACH, 0.0, self.c[:, None] * np.power(delta, EXPONENT))

    def evaluate(
        self, q: Floats, gap: Floats, lean: Floats | float = 0.0, softness: Floats | float = 1.0
    ) -> "Reaction":
        """Return what the springs answer to m displacements q (m, n), with a gap and a lean of every roller (m, Z)."""
        delta = self.approach(q, gap, lean)
        np.maximum(delta, _NO_APPROACH, out=delta)
        root = np.power(delta, EXPONENT - 1)
        delta *= root
        c = self.c / softness
        sums = np.matmul(delta, self._load_sums) * c[..., None]  # type: ignore[attr-defined]
        stiffness = np.matmul(root, self._stiffness_sums) * c[..., None]  # type: ignore[attr-defined]
        return Reaction(self, q, gap, lean, sums, stiffness)

    @cached_property
    def measure(self) -> Floats:
        """Stiffness with every lamina loaded, (n, n): what displacements are measured by [N/mm]."""
        k = EXPONENT * self.c * _REFERENCE_APPROACH ** (EXPONENT - 1)
        at = np.stack([k * len(self.xi), 0 * k, k * np.sum(np.square(self.xi))]).reshape(-1)
        n = len(self.G_a)
        return np.reshape(at @ self._products, (n, n)) + self.S  # type: ignore[attr-defined]


@dataclass(frozen=True)
class Reaction:
    """The answer of the springs: per roller the sums over its laminae, and from them force, energy and stiffness."""

    springs: Springs
    q: Floats
    gap: Floats
    lean: Floats | float
    sums: Floats  # (m, Z, 3): load, its moment in half lengths, and its sum with the profile's logarithm [N]
    stiffness: Floats  # (m, Z, 3): stiffness and its first and second moment in half lengths [N/mm]

    @property
    def Q(self) -> Floats:
        """Load of every roller (m, Z) [N]."""
        return self.sums[..., 0]

    @cached_property
    def force(self) -> Floats:
        """Force of the springs on the body's coordinates, in the sense of the load they carry (m, n) [N]."""
        s = self.springs
        return self.sums[..., 0] @ s.G_a.T + self.sums[..., 1] @ s.G_b.T + self.q @ s.S

    @cached_property
    def energy(self) -> Floats:
        """Energy stored (m,) [N mm]: 1/(1 + 10/9) of load times approach, and that of the shaft."""
        s = self.springs
        a, b = self.q @ s.G_a - self.gap, self.q @ s.G_b - self.lean
        work = a * self.sums[..., 0] + b * self.sums[..., 1] - s.crown * self.sums[..., 2]
        return np.sum(work, axis=-1) / (1 + EXPONENT) + self._bending

    @cached_property
    def _bending(self) -> Floats:
        """Energy stored in the shaft (m,) [N mm]."""
        return 0.5 * np.sum(self.q @ self.springs.S * self.q, axis=-1)

    def energy_off(self, f: Floats) -> Floats:
        """Work of loads f (m, n) against the energy stored and that of the way through gaps and profiles, relative."""
        bending = self._bending
        stored = (1 + EXPONENT) * (self.energy - bending) + 2 * bending
        way = np.sum(self.gap * self.Q + self.lean * self.sums[..., 1], axis=-1)
        gone = way + np.sum(self.springs.crown * self.sums[..., 2], axis=-1)
        done = np.sum(f * self.q, axis=-1)
        size = np.abs(stored) + np.abs(gone) + np.abs(done)
        off = np.abs(done - stored - gone)
        return np.divide(off, size, out=np.zeros_like(off), where=size > 0)

    @property
    def tangent(self) -> Floats:
        """Tangent stiffness (m, n, n) [N/mm]."""
        s = self.springs
        n = len(s.G_a)
        m = len(self.q)
        sums = np.swapaxes(self.stiffness, 1, 2).reshape(m, -1)
        products = s._products  # type: ignore[attr-defined]
        rows = max(1, _BEFORE_THREADS // products.size)
        flat = np.concatenate([sums[at : at + rows] @ products for at in range(0, m, rows)] or [sums @ products])
        return flat.reshape(m, n, n) + s.S


def roller_springs(sets: list[RollerSet], G_a: list[Floats], G_b: list[Floats], S: Floats) -> Springs:
    """Return the springs of the roller sets of a body, each with its approach per coordinate (n, Z)."""
    xi = 2 * lamina_middles(1.0, LAMINAE)
    crowns = [2 * LOG_PROFILE * one.Dwe if one.profile == LOG else 0.0 for one in sets]
    counts = [one.Z for one in sets]
    return Springs(
        G_a=np.concatenate(G_a, axis=-1),
        G_b=np.concatenate(G_b, axis=-1),
        c=np.repeat([float(cL(one.Lwe)) / LAMINAE for one in sets], counts),
        crown=np.repeat(crowns, counts),
        S=S,
        xi=xi,
        shape=profile_shape(xi),
    )
