"""One bearing: what its rollers carry when the cone is displaced in five degrees of freedom.

The displacement of the cone against the cup is taken at the effective load centre: (u_y, u_z, u_a, theta_y, theta_z),
u_a along the shaft from A to B, theta_y the slope of the shaft in the y plane, du_y/dz, and theta_z likewise. Forces
are what the bearing carries, in the same order: (F_y, F_z, F_a, M_y, M_z), each doing work on the displacement of its
name.
`sense` is +1 for the bearing that a shaft pushed towards B loads, else -1 (see engine.pair.arrangement).
"""

from dataclasses import dataclass

import numpy as np

from engine.distribution import contact
from engine.distribution.rollers import LAMINAE, RollerSet
from engine.distribution.springs import Springs, roller_springs
from engine.numerics import Array, Floats, as_arrays

CONE, CUP = 1, -1
#: Directions around the circle in which the extent of the load zone is looked for.
_DIRECTIONS = 360


@dataclass(frozen=True)
class LoadZone:
    """What the rollers of a bearing carry; leading axes are those of the displacement."""

    rollers: RollerSet
    sense: float
    displacement: Floats  # of the cone (..., 5) [mm, rad]
    gap: Floats  # of every roller before it (...) [mm]
    q: Floats  # load of every lamina (..., Z, laminae), small end first [N]
    force: Floats  # carried (..., 5) [N, N mm]
    stiffness: Floats  # tangent (..., 5, 5) [N/mm, N/rad, N mm/rad]

    @property
    def extent(self) -> Floats:
        """Angle over which a roller, if it stood there, would be loaded (...) [rad]."""
        flat = self.displacement.reshape(-1, 5)
        return _extent(self.rollers, flat, self.gap.reshape(-1, 1), self.sense).reshape(self.gap.shape)

    @property
    def Q(self) -> Floats:
        """Load of every roller at the cup (..., Z) [N]."""
        return np.sum(self.q, axis=-1)

    @property
    def Fr(self) -> Floats:
        """Radial load carried [N]."""
        return np.hypot(self.force[..., 0], self.force[..., 1])

    @property
    def Fa(self) -> Floats:
        """Axial load carried, whichever way it points [N]."""
        return np.abs(self.force[..., 2])

    @property
    def rib(self) -> Floats:
        """Force of the large rib on every roller (..., Z) [N]."""
        return contact.rib_force(self.Q, self.rollers.nu)

    def pressure(self, ring: int = CONE) -> Floats:
        """Greatest pressure over the width of the contact at every lamina (..., Z, laminae) [MPa]."""
        return pressures(self.rollers, self.q, ring)

    @property
    def p_max(self) -> Floats:
        """Greatest pressure of any lamina, at the cone [MPa]."""
        return np.max(self.pressure(), axis=(-2, -1))

    @property
    def p_edge(self) -> Floats:
        """Greatest pressure of the end laminae with the edge function of the standard on their load, at the cone."""
        ends = self.q[..., [0, -1]] * contact.edge_function(LAMINAE, LAMINAE)
        width = self.rollers.Lwe / LAMINAE
        return np.max(contact.line_pressure(ends / width, _curvature(self.rollers, CONE)[[0, -1]]), axis=(-2, -1))


def load_zone(rollers: RollerSet, displacement: Array, play: Array = 0.0, sense: float = 1.0) -> LoadZone:
    """Return what a bearing carries whose cone is displaced (..., 5) [mm, rad] from where it stands free by `play`.

    `play` is the way of the cone along the shaft until all rollers touch [mm], negative where they are squeezed.
    """
    u, play = as_arrays(displacement, play)
    shape = np.broadcast_shapes(u.shape[:-1], play.shape)
    u, gap = np.broadcast_to(u, (*shape, 5)), np.broadcast_to(play * np.sin(rollers.alpha), shape)
    flat = u.reshape(-1, 5)
    springs = bearing_springs(rollers, sense)
    gaps = gap.reshape(-1, 1) * np.ones(rollers.Z)
    answer = springs.evaluate(flat, gaps)
    return LoadZone(
        rollers=rollers,
        sense=sense,
        displacement=u,
        gap=gap,
        q=springs.lamina_loads(flat, gaps).reshape(*shape, rollers.Z, LAMINAE),
        force=answer.force.reshape(*shape, 5),
        stiffness=answer.tangent.reshape(*shape, 5, 5),
    )


def directions(rollers: RollerSet, places: Floats, sense: float) -> tuple[Floats, Floats]:
    """Return the approach of a roller's middle, and how much more its large end gets, per coordinate; (5, places)."""
    c, s = np.cos(places), np.sin(places)
    one, none = np.ones_like(c), np.zeros_like(c)
    cos, sin = np.cos(rollers.alpha), np.sin(rollers.alpha)
    # the large end lies against `sense` along the shaft, so a shaft that rises that way presses the small end
    half = -sense * rollers.Lwe / 2
    return (
        np.stack([cos * c, cos * s, sense * sin * one, none, none]),
        np.stack([none, none, none, half * c, half * s]),
    )


def bearing_springs(rollers: RollerSet, sense: float) -> Springs:
    """Return the rollers of one bearing as springs over its five coordinates."""
    G_a, G_b = directions(rollers, rollers.places, sense)
    return roller_springs([rollers], [G_a], [G_b], np.zeros((5, 5)))


def pressures(rollers: RollerSet, q: Floats, ring: int = CONE) -> Floats:
    """Return the greatest pressure under the load q of every lamina (..., laminae) [MPa]."""
    load = contact.cone_load(q, rollers.nu) if ring == CONE else q
    return contact.line_pressure(load * LAMINAE / rollers.Lwe, _curvature(rollers, ring))


def _curvature(rollers: RollerSet, ring: int) -> Floats:
    """Return the sum of curvatures at every lamina: roller and raceways share an apex, all radii grow from there."""
    r = rollers
    middle = contact.curvature_sum(r.Dwe, r.Dpw, r.alpha, r.nu, ring)
    x = contact.lamina_middles(r.Lwe, LAMINAE)
    return np.asarray(middle / (1 + x * np.sin(r.alpha) / (r.cup_diameter / 2)))


def _extent(rollers: RollerSet, u: Floats, gap: Floats, sense: float) -> Floats:
    """Return the angle over which a roller, if it stood there, would be loaded."""
    around = 2 * np.pi * np.arange(_DIRECTIONS) / _DIRECTIONS
    G_a, G_b = directions(rollers, around, sense)
    springs = bearing_springs(rollers, sense)
    a, b = u @ G_a - gap, u @ G_b
    # the lamina that is approached most decides, so the greatest is taken before the circle is counted
    best = np.full(a.shape, -np.inf)
    for xi, shape in zip(springs.xi, springs.shape, strict=True):
        np.maximum(best, b * xi - springs.crown[0] * shape, out=best)
    return np.where(np.isnan(a[:, 0]), np.nan, 2 * np.pi * np.mean(a + best > 0, axis=-1))
