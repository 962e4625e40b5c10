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
from functools import partial

import numpy as np

from engine.distribution import balance
from engine.distribution.load_zone import LoadZone, directions, load_zone
from engine.distribution.rollers import RollerSet
from engine.distribution.springs import Reaction, Springs, roller_springs
from engine.numerics import Array, Floats, Rows, as_arrays
from engine.pair.arrangement import load_centres, loaded_by_positive_thrust

SIDES = ("A", "B")


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
    symmetric and positive definite [rad/(N mm)]; None for a shaft that does not bend. `free`: slopes that the loads
    alone cause on the simple supports, (..., 4) in the order y_A, y_B, z_A, z_B [rad]; its leading axes broadcast
    against the loads. A cup that stands askew counts as a free slope of the other sign.
    """

    seats: tuple[float, float]
    slopes: Floats | None
    free: Array = 0.0


@dataclass(frozen=True)
class PairSystem:
    """The pair as springs over the coordinates of the shaft, ready for any number of loads and settings.

    Coordinates are the five of the shaft as a rigid body and, where it bends, the four slopes by which its seats turn
    beyond the free ones. The free slopes are no coordinates: they move the cones by a constant.
    """

    rollers: tuple[RollerSet, RollerSet]
    sense: tuple[float, float]  # of each bearing: +1 where a shaft pushed towards B loads it
    z: tuple[float, float]  # load centres [mm]
    middle: float  # between the load centres: where the shaft's own coordinates are taken [mm]
    length: float  # by which slopes are multiplied to make them lengths [mm]
    to_bearing: tuple[Floats, Floats]  # (5, n) displacement of each cone per coordinate of the shaft
    turned: tuple[Floats, Floats]  # (5, 4) the same per slope of the seats, y_A, y_B, z_A, z_B
    play: Floats  # gap of every roller per end play (Z_A + Z_B,)
    shut: tuple[Floats, Floats]  # (4, Z_A + Z_B) approach per slope of the seats: of the middle, and the large end more
    springs: Springs

    def loads(self, given: ShaftLoads) -> Floats:
        """Return the loads on the coordinates of the shaft (..., n)."""
        F_y, F_z, M_y, M_z, K_a = as_arrays(given.F_y, given.F_z, given.M_y, given.M_z, given.K_a)
        about = [(M - F * self.middle) / self.length for F, M in ((F_y, M_y), (F_z, M_z))]
        own = np.stack(np.broadcast_arrays(F_y, F_z, K_a, *about), axis=-1)
        # what the loads bend on their own is in the free slopes, so that nothing is laid on the others
        none = np.zeros((*own.shape[:-1], len(self.springs.S) - 5))
        return np.concatenate([own, none], axis=-1)

    def gaps(self, setting: Floats, free: Floats) -> tuple[Floats, Floats]:
        """Return gap and lean of every roller (m, Z_A + Z_B) for settings (m,), shared evenly, and slopes (m, 4)."""
        return setting[:, None] * self.play - free @ self.shut[0], -(free @ self.shut[1])


@dataclass(frozen=True)
class PairSolution:
    """The pair at rest; leading axes are those of loads and settings, NaN where the status is not 'solved'."""

    system: PairSystem
    setting: Floats  # end play, negative for preload [mm]
    free: Floats  # slopes that the loads alone cause, less those of the cups (..., 4) [rad]
    load: Floats  # on the shaft's coordinates (..., n) [N]
    place: Floats  # of the shaft: its coordinates (..., n) [mm]
    status: Rows  # see balance.STATUS
    residual: Floats  # of the forces, relative to the loads, see balance.Balance [-]
    steps: Rows

    @property
    def solved(self) -> Floats:
        """Which members have come to rest."""
        return self.status == balance.SOLVED

    def displacement(self, side: str) -> Floats:
        """Return the displacement of the cone of A or B at its load centre (..., 5) [mm, rad]."""
        at, s = SIDES.index(side), self.system
        return self.place @ s.to_bearing[at].T + self.free @ s.turned[at].T

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
        K = self._reaction.tangent
        if K.shape[-1] > 5:
            # bending follows without load of its own: the slopes are condensed out
            with np.errstate(invalid="ignore"):
                K = K[:, :5, :5] - K[:, :5, 5:] @ np.linalg.solve(K[:, 5:, 5:], K[:, 5:, :5])
        return K.reshape(*self.setting.shape, 5, 5) * scale * scale[:, None]

    @property
    def energy_residual(self) -> Floats:
        """Work of the loads against the energy it went into and the way through gaps and profiles, relative [-]."""
        answer = self._reaction
        return answer.energy_off(self.load.reshape(answer.q.shape)).reshape(self.setting.shape)

    @property
    def _reaction(self) -> Reaction:
        """What the rollers answer where the pair rests, all members in one axis."""
        q = self.place.reshape(-1, self.place.shape[-1])
        return self.system.springs.evaluate(q, *self.system.gaps(self.setting.reshape(-1), self.free.reshape(-1, 4)))


def pair_system(
    A: RollerSet, B: RollerSet, arrangement: str, distance: float, compliance: ShaftCompliance | None = None
) -> PairSystem:
    """Return a pair at a distance of its reference planes [mm], on a rigid shaft or one that bends."""
    z_A, z_B = (float(z) for z in load_centres(arrangement, distance, A.a, B.a, A.inset, B.inset))
    sense = 1.0 if loaded_by_positive_thrust(arrangement) == "A" else -1.0
    middle, length = (z_A + z_B) / 2, max(abs(z_B - z_A) / 2, (A.Dpw + B.Dpw) / 4)
    seats = compliance.seats if compliance is not None else (z_A, z_B)
    turned = [_turned(z, side, seats[side]) for side, z in enumerate((z_A, z_B))]
    maps = [_as_rigid(z, middle, length) for z in (z_A, z_B)]
    S = np.zeros((5, 5))
    if compliance is not None and compliance.slopes is not None:
        maps = [np.concatenate([one, slopes / length], axis=1) for one, slopes in zip(maps, turned, strict=True)]
        S = np.zeros((9, 9))
        bending = np.linalg.inv(np.asarray(compliance.slopes, dtype=np.float64)) / length**2
        S[5:7, 5:7] = S[7:, 7:] = (bending + bending.T) / 2
    ways = [directions(one, one.places, sign) for one, sign in ((A, sense), (B, -sense))]
    G = [[to.T @ way[at] for to, way in zip(maps, ways, strict=True)] for at in (0, 1)]
    shut = [np.concatenate([to.T @ way[at] for to, way in zip(turned, ways, strict=True)], axis=-1) for at in (0, 1)]
    return PairSystem(
        rollers=(A, B), sense=(sense, -sense), z=(z_A, z_B), middle=middle, length=length,
        to_bearing=(maps[0], maps[1]), turned=(turned[0], turned[1]),
        play=np.concatenate([np.full(one.Z, np.sin(one.alpha) / 2) for one in (A, B)]), shut=(shut[0], shut[1]),
        springs=roller_springs([A, B], G[0], G[1], S),
    )  # fmt: skip


def _as_rigid(z: float, middle: float, length: float) -> Floats:
    """Return the displacement of a cone at its load centre per coordinate of the shaft as a rigid body, (5, 5)."""
    rigid = np.eye(5)
    rigid[3:, 3:] /= length
    rigid[[0, 1], [3, 4]] = (z - middle) / length
    return rigid


def _turned(z: float, side: int, seat: float) -> Floats:
    """Return the displacement of a cone at its load centre per slope of the seats (5, 4): it turns about its seat."""
    turned = np.zeros((5, 4))
    for plane in (0, 1):
        turned[plane, 2 * plane + side] = z - seat
        turned[3 + plane, 2 * plane + side] = 1.0
    return turned


def _untold(_share: float) -> None:
    """Tell no one."""


def solve(
    system: PairSystem,
    loads: ShaftLoads,
    settings: Array,
    free: Array = 0.0,
    tick: Callable[[float], None] | None = None,
) -> PairSolution:
    """Return the pair at rest under loads, settings and free slopes (..., 4) of any broadcastable shapes.

    `tick` is told the share done at every step of the work; an exception that it raises ends the work.
    """
    f = system.loads(loads)
    setting, slopes = as_arrays(settings, free)
    shape = np.broadcast_shapes(f.shape[:-1], setting.shape, slopes.shape[:-1])
    f, setting = np.broadcast_to(f, (*shape, f.shape[-1])), np.broadcast_to(setting, shape)
    slopes = np.broadcast_to(slopes, (*shape, 4))
    flat, play, bent = f.reshape(-1, f.shape[-1]), setting.reshape(-1), slopes.reshape(-1, 4)
    parts, told = [], tick or _untold
    for at in range(0, len(flat), balance.CHUNK):
        some = slice(at, at + balance.CHUNK)
        pause = partial(told, at / len(flat))
        parts.append(balance.balanced(system.springs, flat[some], *system.gaps(play[some], bent[some]), pause=pause))
    told(1.0)
    status, residual, steps, q = (
        np.concatenate([getattr(part, name) for part in parts]) for name in ("status", "residual", "steps", "q")
    )
    q = np.where((status == balance.SOLVED)[:, None], q, np.nan).reshape(f.shape)
    status, residual, steps = (one.reshape(shape) for one in (status, residual, steps))
    return PairSolution(system, setting, slopes, f, q, status, residual, steps)


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
