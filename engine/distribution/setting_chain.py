"""From the setting on the bench to the setting in service: fits, temperatures, growth of the rings, and back again.

A setting is the axial end play of the pair, negative for preload [mm]. Lengths between the bearings are those of
engine.pair.arrangement; whether a longer shaft opens or closes the pair follows from there too.
"""

from dataclasses import dataclass, fields, replace

import numpy as np

from engine.distribution.rollers import RollerSet
from engine.numerics import Array, Floats, as_arrays
from engine.pair.arrangement import load_centres, loaded_by_positive_thrust
from engine.seat.material import GREY_IRON, STEEL
from engine.sources import ELASTICITY, GEOMETRY, cited

#: Temperature at which parts are measured [deg C].
REFERENCE_TEMPERATURE = 20.0


@dataclass(frozen=True)
class Seats:
    """Seats of one bearing: diameters, and how much of an interference reaches the raceways.

    The ratios are those of the pressed rings (thick-walled cylinders); for a solid shaft of the cone's steel the
    cone's is d over the raceway diameter.
    """

    d: float  # cone seat [mm]
    D: float  # cup seat [mm]
    cone_ratio: float  # growth of the cone raceway's diameter per interference [-]
    cup_ratio: float  # shrinkage of the cup raceway's diameter per interference [-]


@dataclass(frozen=True)
class Mounting:
    """What stays as it is while a setting is followed: the pair, its seats and materials, and how it is measured."""

    rollers: tuple[RollerSet, RollerSet]
    arrangement: str
    distance: float  # between the reference planes [mm]
    seats: tuple[Seats, Seats]
    shaft: float = STEEL.alpha  # thermal expansion [1/K]
    housing: float = GREY_IRON.alpha
    rings: float = STEEL.alpha
    #: Whether the bench setting is taken with the rings pressed on their seats (end play read on the machine), or with
    #: loose rings (a spacer ground to measure).
    measured_mounted: bool = True


@dataclass(frozen=True)
class Conditions:
    """What moves the setting; each a number or an array, all broadcastable."""

    bench: Array  # setting on the bench [mm]
    cone_fit_A: Array = 0.0  # effective interference of cone and shaft, negative for clearance [mm]
    cup_fit_A: Array = 0.0  # the same of cup and housing [mm]
    cone_fit_B: Array = 0.0
    cup_fit_B: Array = 0.0
    T_cone: Array = REFERENCE_TEMPERATURE  # [deg C]
    T_shaft: Array = REFERENCE_TEMPERATURE
    T_cup: Array = REFERENCE_TEMPERATURE
    T_housing: Array = REFERENCE_TEMPERATURE
    growth_cone: Array = 0.0  # lasting growth of the rings by change of their structure [-]
    growth_cup: Array = 0.0


@dataclass(frozen=True)
class Chain:
    """The setting step by step [mm]: on the bench, on its seats, warm, and with the rings grown: in service."""

    bench: Floats
    mounted: Floats
    warm: Floats
    service: Floats


@dataclass(frozen=True)
class Range:
    """Where the setting in service may lie [mm], and what each quantity adds to either side."""

    nominal: float
    worst: tuple[float, float]
    rss: tuple[float, float]  # root of the sum of squares
    parts: dict[str, float]  # largest shift by each quantity alone


@cited(GEOMETRY, "radial growth of the raceways turned into axial play")
def play_lost(cone_growth: Array, cup_shrinkage: Array, alpha: Array) -> Floats:
    """Axial play that a bearing loses when its raceways come closer.

    loss = (cone_growth + cup_shrinkage) / (2 tan(alpha))

    Parameters (any broadcastable shapes)
    ----------
    cone_growth : growth of the cone raceway's diameter [mm]
    cup_shrinkage : shrinkage of the cup raceway's diameter [mm]
    alpha : contact angle [rad]

    Returns
    -------
    loss [mm]

    Valid for 0 < alpha < pi/2, rollers held by a rib that moves with its raceway; NaN outside.

    Source: Geometry, radial growth of the raceways turned into axial play; derived here.
    """
    cone_growth, cup_shrinkage, alpha = as_arrays(cone_growth, cup_shrinkage, alpha)
    inside = (alpha > 0) & (alpha < np.pi / 2)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(inside, (cone_growth + cup_shrinkage) / (2 * np.tan(alpha)), np.nan)


@cited(ELASTICITY, "change of an interference when its parts grow")
def fit_after_growth(interference: Array, diameter: Array, inner: Array, outer: Array) -> Floats:
    """Interference of a seat whose parts have grown by different strains; a clearance presses on nothing.

    I = max(interference + diameter (inner - outer), 0)

    Parameters (any broadcastable shapes)
    ----------
    interference : at the temperature of measurement, negative for clearance [mm]
    diameter : of the seat [mm]
    inner : strain of the part inside [-]
    outer : strain of the part outside [-]

    Returns
    -------
    I [mm]

    Valid for small strains.

    Source: Elasticity, change of an interference when its parts grow; any textbook.
    """
    interference, diameter, inner, outer = as_arrays(interference, diameter, inner, outer)
    return np.maximum(interference + diameter * (inner - outer), 0.0)


@cited(GEOMETRY, "free growth of cone, rollers and cup turned into axial play")
def play_lost_to_growth(rollers: RollerSet, cone: Array, roller: Array, cup: Array) -> Floats:
    """Axial play that a bearing loses when its parts grow freely in the radial direction.

    loss = [cone F/2 + roller Dwe cos(alpha - nu) - cup E/2] / tan(alpha)

    Parameters (strains of any broadcastable shapes)
    ----------
    rollers : the roller set, of which diameters and angles are used [mm, rad]
    cone : strain of the cone [-]
    roller : strain of the rollers [-]
    cup : strain of the cup [-]

    Returns
    -------
    loss [mm]

    Valid for small strains; nought where all three are one, since F/2 + Dwe cos(alpha - nu) = E/2.

    Source: Geometry, free growth of cone, rollers and cup turned into axial play; derived here.
    """
    cone, roller, cup = as_arrays(cone, roller, cup)
    F, E = rollers.cone_diameter, rollers.cup_diameter
    across = (E - F) / 2
    return (cone * F / 2 + roller * across - cup * E / 2) / np.tan(rollers.alpha)


def chain(mounting: Mounting, conditions: Conditions) -> Chain:
    """Return the setting step by step for conditions of any broadcastable shapes."""
    c = conditions
    cold = replace(
        c, **dict.fromkeys(_TEMPERATURES, REFERENCE_TEMPERATURE), growth_cone=0.0, growth_cup=0.0
    )  # fmt: skip
    warm = replace(c, growth_cone=0.0, growth_cup=0.0)
    at_rest = _play_lost_to_fits(mounting, cold)
    (bench,) = as_arrays(c.bench)
    before = at_rest if mounting.measured_mounted else 0.0
    lost = [_play_lost_to_fits(mounting, one) + _play_lost_to_strain(mounting, one) for one in (cold, warm, c)]
    mounted, heated, service = (bench + before - one for one in lost)
    return Chain(*np.broadcast_arrays(bench, mounted, heated, service))


def service_range(mounting: Mounting, nominal: Conditions, scatter: Conditions) -> Range:
    """Return the range of the setting in service when every quantity may be off by its half range in `scatter`."""
    middle = float(chain(mounting, nominal).service)
    parts = {}
    for field in fields(nominal):
        half = float(np.asarray(getattr(scatter, field.name)))
        value = float(np.asarray(getattr(nominal, field.name)))
        if half > 0:
            both = replace(nominal, **{field.name: value + np.array([-half, half])})
            parts[field.name] = float(np.max(np.abs(chain(mounting, both).service - middle)))
    worst, rss = sum(parts.values()), float(np.sqrt(sum(part**2 for part in parts.values())))
    return Range(middle, (middle - worst, middle + worst), (middle - rss, middle + rss), parts)


def no_scatter(**half: float) -> Conditions:
    """Return half ranges of nothing but the quantities named."""
    return Conditions(**{field.name: 0.0 for field in fields(Conditions)} | half)


def bench_band(
    mounting: Mounting, nominal: Conditions, scatter: Conditions, wanted: tuple[float, float], rss: bool = True
) -> tuple[float, float]:
    """Return the bench settings that keep the setting in service between both wanted ones, whatever else scatters.

    The scatter of the bench setting itself is what the fitter may use, so it does not count. Where the rest of the
    scatter is wider than what is wanted, the lower end comes out above the upper one: there is no such band.
    """
    reach = service_range(mounting, nominal, replace(scatter, bench=0.0))
    low, high = reach.rss if rss else reach.worst
    (bench,) = as_arrays(nominal.bench)
    change = reach.nominal - float(bench)
    return wanted[0] - change + (reach.nominal - low), wanted[1] - change - (high - reach.nominal)


_TEMPERATURES = ("T_cone", "T_shaft", "T_cup", "T_housing")


def _strains(mounting: Mounting, c: Conditions) -> dict[str, Floats]:
    T_cone, T_shaft, T_cup, T_housing, growth_cone, growth_cup = as_arrays(
        c.T_cone, c.T_shaft, c.T_cup, c.T_housing, c.growth_cone, c.growth_cup
    )
    warm = REFERENCE_TEMPERATURE
    return {
        "cone": mounting.rings * (T_cone - warm) + growth_cone,
        "cup": mounting.rings * (T_cup - warm) + growth_cup,
        # rollers touch both raceways and take the mean of their temperatures
        "roller": mounting.rings * ((T_cone + T_cup) / 2 - warm),
        "shaft": mounting.shaft * (T_shaft - warm),
        "housing": mounting.housing * (T_housing - warm),
    }


def _play_lost_to_fits(mounting: Mounting, c: Conditions) -> Floats:
    e = _strains(mounting, c)
    fits = ((c.cone_fit_A, c.cup_fit_A), (c.cone_fit_B, c.cup_fit_B))
    total: Floats = np.zeros(())
    for one, seats, (cone_fit, cup_fit) in zip(mounting.rollers, mounting.seats, fits, strict=True):
        cone = seats.cone_ratio * fit_after_growth(cone_fit, seats.d, e["shaft"], e["cone"])
        cup = seats.cup_ratio * fit_after_growth(cup_fit, seats.D, e["cup"], e["housing"])
        total = total + play_lost(cone, cup, one.alpha)
    return total


def _play_lost_to_strain(mounting: Mounting, c: Conditions) -> Floats:
    """Return what the free growth of all parts takes from the play: radially in each bearing, axially between them."""
    e = _strains(mounting, c)
    A, B = mounting.rollers
    radial = sum(play_lost_to_growth(one, e["cone"], e["roller"], e["cup"]) for one in (A, B))
    contacts = _span(mounting, A.middle, B.middle)
    back_faces, cup_faces = _span(mounting, 0.0, 0.0), _span(mounting, A.T, B.T)
    inside = e["shaft"] * back_faces + e["cone"] * (contacts - back_faces)
    outside = e["housing"] * cup_faces + e["cup"] * (contacts - cup_faces)
    # the cone of B moves towards +z against its cup, which closes the pair where such a push loads B
    sign = 1.0 if loaded_by_positive_thrust(mounting.arrangement) == "B" else -1.0
    return radial + sign * (inside - outside)


def _span(mounting: Mounting, at_A: float, at_B: float) -> Floats:
    """Return the distance along the shaft between two places counted from the cone back faces into the bearings."""
    A, B = mounting.rollers
    z_A, z_B = load_centres(mounting.arrangement, mounting.distance, at_A, at_B, A.inset, B.inset)
    return z_B - z_A
