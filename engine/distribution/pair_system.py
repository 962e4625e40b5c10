"""Two bearings on one shaft as a system: the shaft comes to rest where both sets of rollers carry its loads together.

Sides and signs are those of engine.pair.arrangement. The setting is the axial end play of the pair, positive; a
negative one is preload, the way by which the two bearings are squeezed together. Results have the broadcast shape of
loads and settings.

Without end play and with half the rollers of both bearings loaded, each bearing induces 1.22 (logarithmic profile) to
1.26 (none) Fr tan(alpha) of axial load: the 1.25 of the simple rule Fr/(2 Y). Under thrust, end play or preload they
part: the rule keeps S for the relieved bearing, whose load zone in fact shrinks, so that it carries down to
Fr tan(alpha); and preload, which the rule does not know, adds to both.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from engine.distribution import balance
from engine.distribution.load_zone import LoadZone, directions, load_zone
from engine.distribution.rollers import RollerSet
from engine.distribution.springs import Springs, roller_springs
from engine.numerics import Array, Floats, Rows, as_arrays
from engine.pair.arrangement import load_centres, loaded_by_positive_thrust

SIDES = ("A", "B")
#: Slope for a unit moment of a shaft that counts as stiff: a ten-thousandth of what rollers give way [rad/(N mm)].
_STIFF = 1e-13


@dataclass(frozen=True)
class ShaftLoads:
    """Loads on the shaft, reduced to the plane z = 0 (the reference plane of A), any broadcastable shapes.

    F_y, F_z [N]; M_y, M_z [N mm], the sums of force times place in each plane; K_a [N], positive towards B.
    """

    F_y: Array = 0.0
    F_z: Array = 0.0
    M_y: Array = 0.0
    M_z: Array = 0.0
    K_a: Array = 0.0


@dataclass(frozen=True)
class ShaftCompliance:
    """Bending of a shaft on simple supports at its two bearing seats: slopes against the line through the seats.

    `seats`: z of both supports [mm]. `slopes`: slope at (A, B) for a unit moment on the shaft at (A, B), 2 x 2,
    symmetric and positive definite [rad/(N mm)]. `free`: slopes that the loads alone cause on the simple supports,
    (..., 4) in the order y_A, y_B, z_A, z_B [rad]; its leading axes broadcast against the loads. A cup that stands
    askew counts as a free slope of the other sign.
    """

    seats: tuple[float, float]
    slopes: Floats
    free: Array = 0.0


def stiff_shaft(seats: tuple[float, float], cup_tilt: Array) -> ShaftCompliance:
    """Return a shaft that does not bend, in cups that stand askew by (..., 4), y_A, y_B, z_A, z_B [rad]."""
    (tilt,) = as_arrays(cup_tilt)
    return ShaftCompliance(seats, np.diag([_STIFF, _STIFF]), -tilt)


@dataclass(frozen=True)
class PairSystem:
    """The pair as springs over the coordinates of the shaft, ready for any number of loads and settings."""

    rollers: tuple[RollerSet, RollerSet]
    sense: tuple[float, float]  # of each bearing: +1 where a shaft pushed towards B loads it
    z: tuple[float, float]  # load centres [mm]
    middle: float  # between the load centres: where the shaft's own coordinates are taken [mm]
    length: float  # by which slopes are multiplied to make them lengths [mm]
    to_bearing: tuple[Floats, Floats]  # (5, n) displacement of each cone per coordinate of the shaft
    springs: Springs

    def loads(self, given: ShaftLoads, free: Array = 0.0) -> Floats:
        """Return the loads on the coordinates of the shaft (..., n)."""
        F_y, F_z, M_y, M_z, K_a = as_arrays(given.F_y, given.F_z, given.M_y, given.M_z, given.K_a)
        about = [(M - F * self.middle) / self.length for F, M in ((F_y, M_y), (F_z, M_z))]
        own = np.stack(np.broadcast_arrays(F_y, F_z, K_a, *about), axis=-1)
        if len(self.springs.S) == 5:
            return own
        # a shaft bent by its loads alone is one whose springs are unstressed at those slopes
        (slopes,) = as_arrays(free)
        bent = np.broadcast_to(slopes, (*np.shape(slopes)[:-1], 4)) * self.length @ self.springs.S[5:, 5:]
        shape = np.broadcast_shapes(own.shape[:-1], bent.shape[:-1])
        return np.concatenate([np.broadcast_to(own, (*shape, 5)), np.broadcast_to(bent, (*shape, 4))], axis=-1)

    def gaps(self, setting: Floats) -> Floats:
        """Return the gap of every roller (m, Z_A + Z_B) for settings (m,), shared evenly by both sides."""
        shares = [np.full(one.Z, np.sin(one.alpha) / 2) for one in self.rollers]
        return setting[:, None] * np.concatenate(shares)


@dataclass(frozen=True)
class PairSolution:
    """The pair at rest; leading axes are those of loads and settings, NaN where the status is not 'solved'."""

    system: PairSystem
    setting: Floats  # end play, negative for preload [mm]
    load: Floats  # on the shaft's coordinates (..., n) [N]
    place: Floats  # of the shaft: its coordinates (..., n) [mm]
    status: Rows  # see balance.STATUS
    residual: Floats  # of the forces, relative to the forces at work [-]
    steps: Rows

    @property
    def solved(self) -> Floats:
        """Which members have come to rest."""
        return self.status == balance.SOLVED

    def displacement(self, side: str) -> Floats:
        """Return the displacement of the cone of A or B at its load centre (..., 5) [mm, rad]."""
        return self.place @ self.system.to_bearing[SIDES.index(side)].T

    def zone(self, side: str) -> LoadZone:
        """Return what the rollers of A or B carry."""
        at, s = SIDES.index(side), self.system
        return load_zone(s.rollers[at], self.displacement(side), self.setting / 2, s.sense[at])

    @property
    def stiffness(self) -> Floats:
        """Tangent stiffness of the pair at the middle between its load centres, rigid part (..., 5, 5).

        Order u_y, u_z, u_a, theta_y, theta_z [N/mm, N/rad, N mm/rad].
        """
        scale = np.concatenate([np.ones(3), np.full(2, self.system.length)])
        m = self.place.reshape(-1, self.place.shape[-1])
        K = self.system.springs.evaluate(m, self.system.gaps(self.setting.reshape(-1))).tangent
        if K.shape[-1] > 5:
            # bending follows without load of its own: the slopes are condensed out
            with np.errstate(invalid="ignore"):
                K = K[:, :5, :5] - K[:, :5, 5:] @ np.linalg.solve(K[:, 5:, 5:], K[:, 5:, :5])
        return K.reshape(*self.setting.shape, 5, 5) * scale * scale[:, None]

    @property
    def energy_residual(self) -> Floats:
        """Work of the loads against the energy it went into and the way through gaps and profiles, relative [-]."""
        s = self.system.springs
        q, gap = self.place.reshape(-1, self.place.shape[-1]), self.system.gaps(self.setting.reshape(-1))
        answer = s.evaluate(q, gap)
        shaft = 0.5 * np.sum(q @ s.S * q, axis=-1)
        stored = (1 + 10 / 9) * (answer.energy - shaft) + 2 * shaft
        gone = np.sum(gap * answer.Q, axis=-1) + np.sum(s.crown * answer.sums[..., 2], axis=-1)
        done = np.sum(self.load.reshape(q.shape) * q, axis=-1)
        size = np.abs(stored) + np.abs(gone) + np.abs(done)
        off = np.abs(done - stored - gone)
        return np.divide(off, size, out=np.zeros_like(off), where=size > 0).reshape(self.setting.shape)


def pair_system(
    A: RollerSet, B: RollerSet, arrangement: str, distance: float, compliance: ShaftCompliance | None = None
) -> PairSystem:
    """Return a pair at a distance of its reference planes [mm], on a rigid shaft or one that bends."""
    z_A, z_B = (float(z) for z in load_centres(arrangement, distance, A.a, B.a, A.inset, B.inset))
    sense = 1.0 if loaded_by_positive_thrust(arrangement) == "A" else -1.0
    middle, length = (z_A + z_B) / 2, max(abs(z_B - z_A) / 2, (A.Dpw + B.Dpw) / 4)
    maps = [_to_bearing(z, side, (middle, length), compliance) for side, z in enumerate((z_A, z_B))]
    n = maps[0].shape[1]
    S = np.zeros((n, n))
    if compliance is not None:
        bending = np.linalg.inv(np.asarray(compliance.slopes, dtype=np.float64)) / length**2
        S[5:7, 5:7] = S[7:, 7:] = (bending + bending.T) / 2
    G_a, G_b = [], []
    for one, sign, to_bearing in zip((A, B), (sense, -sense), maps, strict=True):
        a, b = directions(one, one.places, sign)
        G_a.append(to_bearing.T @ a)
        G_b.append(to_bearing.T @ b)
    springs = roller_springs([A, B], G_a, G_b, S)
    return PairSystem((A, B), (sense, -sense), (z_A, z_B), middle, length, (maps[0], maps[1]), springs)


def _to_bearing(z: float, side: int, frame: tuple[float, float], compliance: ShaftCompliance | None) -> Floats:
    """Return the displacement of a cone at its load centre per coordinate of the shaft, (5, 5) or (5, 9)."""
    middle, length = frame
    rigid = np.eye(5)
    rigid[3:, 3:] /= length
    rigid[[0, 1], [3, 4]] = (z - middle) / length
    if compliance is None:
        return rigid
    bent = np.zeros((5, 4))
    # the cone turns with its seat, about the seat
    for plane in (0, 1):
        bent[plane, 2 * plane + side] = (z - compliance.seats[side]) / length
        bent[3 + plane, 2 * plane + side] = 1 / length
    return np.concatenate([rigid, bent], axis=1)


def solve(
    system: PairSystem,
    loads: ShaftLoads,
    settings: Array,
    free: Array = 0.0,
    tick: Callable[[float], None] | None = None,
) -> PairSolution:
    """Return the pair at rest under loads and settings of any broadcastable shapes.

    `tick` is told the share done after every part of the work; an exception that it raises ends the work.
    """
    f = system.loads(loads, free)
    (setting,) = as_arrays(settings)
    shape = np.broadcast_shapes(f.shape[:-1], setting.shape)
    f, setting = np.broadcast_to(f, (*shape, f.shape[-1])), np.broadcast_to(setting, shape)
    flat, play = f.reshape(-1, f.shape[-1]), setting.reshape(-1)
    parts = []
    for at in range(0, len(flat), balance.CHUNK):
        some = slice(at, at + balance.CHUNK)
        parts.append(balance.balanced(system.springs, flat[some], system.gaps(play[some])))
        if tick is not None:
            tick(min(1.0, (at + balance.CHUNK) / len(flat)))
    status, residual, steps, q = (
        np.concatenate([getattr(part, name) for part in parts]) for name in ("status", "residual", "steps", "q")
    )
    q = np.where((status == balance.SOLVED)[:, None], q, np.nan).reshape(f.shape)
    return PairSolution(system, setting, f, q, status.reshape(shape), residual.reshape(shape), steps.reshape(shape))


def solve_pair(
    A: RollerSet,
    B: RollerSet,
    arrangement: str,
    distance: float,
    loads: ShaftLoads,
    settings: Array,
    compliance: ShaftCompliance | None = None,
) -> PairSolution:
    """Return one pair at rest: `pair_system` and `solve` in one call."""
    system = pair_system(A, B, arrangement, distance, compliance)
    return solve(system, loads, settings, compliance.free if compliance is not None else 0.0)
