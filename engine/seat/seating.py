"""Both seats of many bearings at once: limits, interference, pressure, stress, raceways, creep, mounting.

Shapes: n bearings, k load cases, and a last axis of five: the least, the probable least, the mean, the probable
greatest and the greatest interference that the limits allow. What depends on no load is computed by `seat_of`; what
depends on the load by `holding`.
"""

from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import ArrayLike

from engine.numerics import Array, Floats, as_arrays
from engine.seat import creep, interference, iso286, mounting, pressure, rotation
from engine.seat.limits import RingLimits, SeatLimits, ring_limits
from engine.seat.material import GREY_IRON, STEEL, Material
from engine.seat.recommend import POINT

#: Places on the last axis: worst cases at both ends, what all but 3 in 1000 keep to, and the mean.
LEAST, PROBABLE_LEAST, MEAN, PROBABLE_GREATEST, GREATEST = range(5)
#: Outside diameter of a housing of which nothing is said, per bore; common practice, no source.
USUAL_HOUSING_RATIO = 1.5
_SIZES = ("d", "D", "B", "C", "F", "E")


@dataclass(frozen=True)
class Rings:
    """What is known of the rings of n bearings [mm]; F and E are the mean raceway diameters of cone and cup."""

    d: Floats
    D: Floats
    B: Floats
    C: Floats
    F: Floats
    E: Floats
    limits: RingLimits
    material: Material = STEEL

    @classmethod
    def of(cls, system: ArrayLike, tolerance: ArrayLike, sizes: dict[str, Array]) -> "Rings":
        """Return the rings of catalogue columns: system, tolerance class and the sizes d, D, B, C, F, E by name."""
        d, D, B, C, F, E = as_arrays(*(sizes[name] for name in _SIZES))
        return cls(d, D, B, C, F, E, ring_limits(system, tolerance, d, D))

    def take(self, rows: ArrayLike) -> "Rings":
        """Return some of the rings, as often as the rows name them."""
        some = np.asarray(rows)
        limits = RingLimits(**{one.name: getattr(self.limits, one.name)[some] for one in fields(self.limits)})
        d, D, B, C, F, E = (getattr(self, name)[some] for name in _SIZES)
        return Rings(d, D, B, C, F, E, limits, self.material)


@dataclass(frozen=True)
class Surroundings:
    """Shaft and housing: materials, bore of a hollow shaft [mm], wall of the housing [mm], roughness depths Rz [mm].

    The bore of the shaft is one for all rings, or one for each.
    Roughness depths are those of ground seats and of a bored housing; common practice, no source.
    """

    shaft: Material = STEEL
    shaft_bore: float | Floats = 0.0
    shaft_Rz: float = 0.0025
    housing: Material = GREY_IRON
    housing_wall: float | None = None
    housing_Rz: float = 0.0063
    ring_Rz: float = 0.0016

    def housing_outside(self, D: Floats) -> Floats:
        """Return the outside diameter of the housing [mm]."""
        return D * USUAL_HOUSING_RATIO if self.housing_wall is None else D + 2.0 * self.housing_wall


@dataclass(frozen=True)
class Running:
    """The k load cases: speed [rpm], which ring turns (cone or cup), and mean temperatures of the parts [deg C].

    Temperatures are one for all bearings in each case, (k,), or one for each of them, (n, k).
    """

    n: Floats
    turning: str
    T_shaft: Floats
    T_cone: Floats
    T_cup: Floats
    T_housing: Floats


@dataclass(frozen=True)
class Seat:
    """One ring on its seat. Diametral interferences and raceway changes in mm, stresses in MPa.

    `cold` and `mounted` are (n, 5), what carries cases (n, k, 5), mounting (n,).
    """

    limits: SeatLimits
    cold: Floats  # interference by the limits, at 20 deg C
    mounted: Floats  # what smoothing leaves of it
    effective: Floats  # in operation: also temperature and turning
    pressure: Floats
    pressure_mounted: Floats
    hoop_seat: Floats  # tangential stress of the ring at its seat, pressure and turning together
    hoop_raceway: Floats
    hoop_seat_mounted: Floats
    raceway_mounted: Floats  # change of the raceway diameter by the fit alone: cone grows (+), cup shrinks (-)
    raceway: Floats  # the same in operation
    torque: Floats  # torque the seat holds [N mm], (n, k) at the least interference
    heating: Floats  # temperature at which the outer part slides over the inner one [deg C]
    force_on: Floats  # greatest force to press the ring on [N]
    force_off: Floats

    @property
    def hoop_greatest(self) -> Floats:
        """Greatest tangential tension of the ring at its seat [MPa], cold or running, at the tight end: (n,)."""
        running = self.hoop_seat[..., GREATEST].max(axis=-1)
        return np.maximum(running, self.hoop_seat_mounted[..., GREATEST])

    @property
    def effective_least(self) -> Floats:
        """Interference in operation in the case that leaves the least of it [mm]: (n, 5)."""
        return np.asarray(self.effective.min(axis=-2))


@dataclass(frozen=True)
class Seating:
    """Cone on shaft and cup in housing."""

    cone: Seat
    cup: Seat


@dataclass(frozen=True)
class _Joint:
    """The two cylinders of a seat, each diameter a column (n, 1, 1), with what stands around them."""

    d_i: Floats
    d_j: Floats
    d_o: Floats
    width: Floats
    inner: Material
    outer: Material


def _columns(*values: Floats) -> list[Floats]:
    return [np.asarray(value, dtype=np.float64)[:, None, None] for value in values]


def _ends(inner: tuple[Floats, Floats], outer: tuple[Floats, Floats]) -> Floats:
    """Return the interference by the limits, (n, 5)."""
    least, mean, greatest = interference.interference_limits(*inner, *outer)
    probable_least, probable_greatest = interference.probable_limits(*inner, *outer)
    return np.stack(np.broadcast_arrays(least, probable_least, mean, probable_greatest, greatest), axis=-1)


def _effective(joint: _Joint, mounted: Floats, temperatures: tuple[Floats, Floats], n: Floats) -> Floats:
    """Return the interference in operation (n, k, 5) from the mounted one (n, 5)."""
    inside, around = (np.asarray(T, dtype=np.float64)[..., None] for T in temperatures)
    thermal = interference.thermal_change(joint.d_j, inside, around, joint.inner, joint.outer)
    turning = interference.centrifugal_loss(joint.d_i, joint.d_j, joint.d_o, n[:, None], joint.inner, joint.outer)
    return np.asarray(mounted[:, None, :] + (thermal - turning))


def _pressures(joint: _Joint, delta: Floats) -> Floats:
    return pressure.joint_pressure(delta, joint.d_i, joint.d_j, joint.d_o, joint.inner, joint.outer)


def _mounting(joint: _Joint, cold: Floats, p: Floats) -> dict[str, Floats]:
    """Return heating temperature and forces, (n,) each, at the tight end."""
    size, width, tight = joint.d_j[:, 0, 0], joint.width[:, 0, 0], p[:, 0, GREATEST]
    # one IT6 of play lets a ring slide on without being forced
    play = iso286.standard_tolerance_IT(size, 6)
    room = interference.REFERENCE_TEMPERATURE
    return {
        "heating": mounting.heating_temperature(cold[:, GREATEST], size, play, room, joint.outer.alpha),
        "force_on": mounting.axial_force(tight, size, width, mounting.FRICTION_ON),
        "force_off": mounting.axial_force(tight, size, width, mounting.FRICTION_OFF),
    }


def _torque(joint: _Joint, p: Floats) -> Floats:
    return creep.seat_torque(p[..., LEAST], joint.d_j[..., 0], joint.width[..., 0], creep.FRICTION)


def _speeds(running: Running, ring: str) -> Floats:
    """Return the speeds at which a ring turns with its seat."""
    return np.asarray(running.n, dtype=np.float64) * (running.turning == ring)


def _cone_joint(rings: Rings, limits: SeatLimits, around: Surroundings) -> tuple[_Joint, Floats, Floats]:
    """Return the joint of cone and shaft, and its interference by the limits and mounted, (n, 5) each."""
    shaft_bore = np.full(rings.d.shape, around.shaft_bore)
    d_i, d_j, d_o, width = _columns(shaft_bore, rings.d, rings.F, rings.B)
    joint = _Joint(d_i, d_j, d_o, width, around.shaft, rings.material)
    cold = _ends((limits.upper, limits.lower), (rings.limits.bore_upper, rings.limits.bore_lower))
    return joint, cold, interference.smoothed(cold, around.shaft_Rz, around.ring_Rz)


def _cup_joint(rings: Rings, limits: SeatLimits, around: Surroundings) -> tuple[_Joint, Floats, Floats]:
    """Return the joint of housing and cup, and its interference by the limits and mounted, (n, 5) each."""
    outside = around.housing_outside(rings.D)
    d_i, d_j, d_o, width = _columns(rings.E, rings.D, outside, rings.C)
    joint = _Joint(d_i, d_j, d_o, width, rings.material, around.housing)
    cold = _ends((rings.limits.outside_upper, rings.limits.outside_lower), (limits.upper, limits.lower))
    return joint, cold, interference.smoothed(cold, around.ring_Rz, around.housing_Rz)


def _cone(rings: Rings, limits: SeatLimits, around: Surroundings, running: Running) -> Seat:
    joint, cold, mounted = _cone_joint(rings, limits, around)
    n = _speeds(running, "cone")
    effective = _effective(joint, mounted, (running.T_shaft, running.T_cone), n)
    p, p_mounted = _pressures(joint, effective), _pressures(joint, mounted[:, None, :])
    seat, raceway = joint.d_j, joint.d_o
    turning = n[:, None]
    ring = rings.material
    return Seat(
        limits=limits, cold=cold, mounted=mounted, effective=effective, pressure=p, pressure_mounted=p_mounted[:, 0],
        hoop_seat=pressure.hoop_at_bore(p, seat, raceway)
        + rotation.hoop_of_turning_at_bore(seat, raceway, turning, ring),
        hoop_raceway=pressure.hoop_at_outside(p, seat, raceway)
        + rotation.hoop_of_turning_at_outside(seat, raceway, turning, ring),
        hoop_seat_mounted=pressure.hoop_at_bore(p_mounted, seat, raceway)[:, 0],
        raceway_mounted=pressure.raceway_growth(p_mounted, seat, raceway, ring)[:, 0],
        raceway=pressure.raceway_growth(p, seat, raceway, ring),
        torque=_torque(joint, p), **_mounting(joint, cold, p_mounted),
    )  # fmt: skip


def _cup(rings: Rings, limits: SeatLimits, around: Surroundings, running: Running) -> Seat:
    joint, cold, mounted = _cup_joint(rings, limits, around)
    n = _speeds(running, "cup")
    effective = _effective(joint, mounted, (running.T_cup, running.T_housing), n)
    p, p_mounted = _pressures(joint, effective), _pressures(joint, mounted[:, None, :])
    raceway, seat = joint.d_i, joint.d_j
    turning = n[:, None]
    ring = rings.material
    return Seat(
        limits=limits, cold=cold, mounted=mounted, effective=effective, pressure=p, pressure_mounted=p_mounted[:, 0],
        hoop_seat=pressure.hoop_under_squeeze_at_outside(p, raceway, seat)
        + rotation.hoop_of_turning_at_outside(raceway, seat, turning, ring),
        hoop_raceway=pressure.hoop_under_squeeze_at_bore(p, raceway, seat)
        + rotation.hoop_of_turning_at_bore(raceway, seat, turning, ring),
        hoop_seat_mounted=pressure.hoop_under_squeeze_at_outside(p_mounted, raceway, seat)[:, 0],
        raceway_mounted=-pressure.raceway_shrinkage(p_mounted, raceway, seat, ring)[:, 0],
        raceway=-pressure.raceway_shrinkage(p, raceway, seat, ring),
        torque=_torque(joint, p), **_mounting(joint, cold, p_mounted),
    )  # fmt: skip


def seat_of(rings: Rings, shaft: SeatLimits, housing: SeatLimits, around: Surroundings, running: Running) -> Seating:
    """Return everything about both seats of n bearings in k cases that depends on no load."""
    return Seating(_cone(rings, shaft, around, running), _cup(rings, housing, around, running))


def in_operation(
    rings: Rings, seats: tuple[SeatLimits, SeatLimits], around: Surroundings, running: Running, ends: tuple[int, ...]
) -> tuple[Floats, Floats]:
    """Return only the interference in operation of cones and cups, at some of the ends: (n, k, ends) each.

    The same figures as in `Seat.effective`, for many cases at once.
    """
    at = list(ends)
    cone, _, on_shaft = _cone_joint(rings, seats[0], around)
    cup, _, in_housing = _cup_joint(rings, seats[1], around)
    return (
        _effective(cone, on_shaft[:, at], (running.T_shaft, running.T_cone), _speeds(running, "cone")),
        _effective(cup, in_housing[:, at], (running.T_cup, running.T_housing), _speeds(running, "cup")),
    )


@dataclass(frozen=True)
class Holding:
    """Interference that the load asks for [mm], (n, k), and how many times it is there, (n, k, 5)."""

    needed: Floats
    margin: Floats


def holding(seat: Seat, size: Floats, width: Floats, Fr: Floats, load: str, n: Floats) -> Holding:
    """Return whether a ring holds under radial loads Fr (n, k) that go round it as `load` says, at speeds n (k,).

    A ring under a point load, or standing still, does not creep and needs nothing.
    """
    asked = creep.interference_against_creep(Fr, size[:, None], width[:, None])
    needed = np.where((load != POINT) & (np.asarray(n) > 0), asked, asked * 0.0)
    return Holding(needed, creep.creep_margin(seat.effective, needed[..., None]))
