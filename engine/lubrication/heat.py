"""Heat balance: the temperature at which a housing sheds just the heat that its bearings make.

The model is the simplest honest one: housing, bearings and oil are one temperature. Bearings that share a housing
share its temperature, so their losses add (`+`); a bearing in a housing of its own is a balance of its own. Each
load case is taken to last until its temperature has settled. The friction is M0 + M1 at the viscosity of that
temperature; it can only fall as the oil warms, the cooling can only rise, so there is at most one temperature, and
it is stable. Where the surfaces touch (kappa below about 0.1) friction is higher than M0 + M1 says.
"""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np

from engine.lubrication.cooling import Cooling, carried
from engine.lubrication.friction import F1, SLOW, flow_term, load_dependent_M1
from engine.lubrication.viscosity import (
    KELVIN,
    NU_GREATEST,
    NU_LEAST_FULL,
    kinematic_viscosity_full,
    walther_line,
    walther_viscosity,
)
from engine.numerics import Array, Floats, as_arrays
from engine.sources import HEAT_TRANSFER, ISO_15312, cited

#: What became of a balance.
SETTLED, TOO_HOT, NO_COOLING, UNKNOWN = 0, 1, 2, 3
SAID = (
    "settled",
    "no stable temperature: more heat is made than taken away, up to the highest temperature looked at",
    "no stable temperature: nothing takes the heat away",
    "not known: a figure is missing or outside its range",
)
#: Temperatures are sought up to here [deg C].
T_TOP = 250.0
#: A temperature is found when the next step would move it by less than this [K].
CLOSE = 1e-9
#: Newton's steps at most, after which the bracket is halved until it is closed.
_NEWTON, _STEPS = 30, 80
_AT_A_TIME = 8192


@dataclass(frozen=True)
class Losses:
    """Heat of bearings at one temperature, `oil` max(160, (nu n)^(2/3)) + `load` + `other` [W]; n [rpm].

    Each a number or an array of (pairs, cases). `other` is heat that comes from elsewhere: seals, a hot shaft, a mesh.
    """

    n: Floats
    oil: Floats
    load: Floats
    other: Floats

    def __add__(self, more: Losses) -> Losses:
        """Return the losses of both in one housing; they turn at the same speed."""
        return Losses(self.n, self.oil + more.oil, self.load + more.load, self.other + more.other)

    def at(self, nu: Array) -> Floats:
        """Return the heat at a viscosity [W]."""
        return self.oil * flow_term(nu, self.n) + self.load + self.other


@dataclass(frozen=True)
class Balance:
    """Temperatures that settled, NaN where none did, and how surely they were found.

    T [deg C], nu [mm2/s] at T, heat [W], residual [W] (heat made less heat shed, at T), steps [-], status (an index
    of SAID) [-].
    """

    T: Floats
    nu: Floats
    heat: Floats
    residual: Floats
    steps: Floats
    status: Floats


@cited(ISO_15312, "Annex A, power of both moments")
def losses(f0: Array, dm: Array, P1: Array, n: Array, other: Array = 0.0) -> Losses:
    """Losses of a bearing, split into what depends on the temperature and what does not.

    W = (pi n / 30e3) (f0 1e-7 (nu n)^(2/3) dm^3 + f1 P1 dm) + other

    Parameters (any broadcastable shapes)
    ----------
    f0 : factor of bearing and lubrication [-]
    dm : mean diameter (d + D)/2 [mm]
    P1 : load that decides friction [N]
    n : speed [rpm]
    other : heat from elsewhere [W]

    Returns
    -------
    losses [W]

    Valid for f0 > 0, dm > 0, P1 >= 0, n >= 0; NaN outside.

    Source: ISO 15312:2018, Annex A, power of both moments; read in open code.
    """
    f0, dm, P1, n, other = np.broadcast_arrays(*as_arrays(f0, dm, P1, n, other))
    with np.errstate(invalid="ignore"):
        turning = np.where(n >= 0, np.pi * n / 30_000, np.nan)
        oil = np.where((f0 > 0) & (dm > 0), f0 * 1e-7 * dm * dm * dm, np.nan) * turning
    return Losses(n, oil, load_dependent_M1(F1, P1, dm) * turning, np.where(other >= 0, other, np.nan))


@cited(HEAT_TRANSFER, "steady heat balance")
def settle(made: Losses, cooling: Cooling, nu40: Array, nu100: Array, T_top: float = T_TOP) -> Balance:
    """Temperature at which heat made and heat shed are equal, with the viscosity at that temperature.

    W(nu(T)) = Q(T), nu by ASTM D341

    Parameters (any broadcastable shapes)
    ----------
    made : losses of all bearings in the housing [W]
    cooling : what takes heat away [W/K]
    nu40 : viscosity of the oil, or of a grease's base oil, at 40 deg C [mm2/s]
    nu100 : viscosity at 100 deg C [mm2/s]
    T_top : highest temperature looked at [deg C]

    Returns
    -------
    balance: T, nu, heat, residual, steps, status [deg C, mm2/s, W, -]

    Valid for 0.21 <= nu100 < nu40; beyond the ends of the viscosity chart the balance takes the viscosity of the end
    and reports none (NaN). It always ends: with a temperature, or with a status that says that there is none.

    Source: Heat transfer, steady heat balance; solved by Newton's method within a bracket that halving closes.
    """
    nu40, nu100 = as_arrays(nu40, nu100)
    W40, B = walther_line(nu40, nu100)
    W40 = np.where((nu100 >= NU_LEAST_FULL) & (nu100 < nu40), W40, np.nan)
    columns = np.broadcast_arrays(*(getattr(made, field.name) for field in fields(made)), W40, B, *cooling.arrays())
    shape = columns[0].shape
    flat = [np.ravel(column) for column in columns]
    found = np.empty((3, flat[0].size))
    for at in range(0, flat[0].size, _AT_A_TIME):
        some = slice(at, at + _AT_A_TIME)
        found[:, some] = _solved([column[some] for column in flat], T_top)
    T, steps, status = (row.reshape(shape) for row in found)
    nu = kinematic_viscosity_full(T, nu40, nu100)
    heat = _heat_made(T, *columns[:6])[0]
    return Balance(T, nu, heat, heat - cooling.at(T), steps, status)


def _heat_made(
    T: Floats, n: Floats, oil: Floats, load: Floats, other: Floats, W40: Floats, B: Floats
) -> tuple[Floats, Floats]:
    """Return the heat at a temperature and its slope, with the viscosity kept within the chart."""
    with np.errstate(all="ignore"):
        nu = np.clip(walther_viscosity(T, W40, B), NU_LEAST_FULL, NU_GREATEST)
        flow = flow_term(nu, n)
        # of Z and nu + 0.7 the slope forgets the last term; it only steers the steps
        Z = nu + 0.7
        thinner = -Z * np.log(Z) * B / ((T + KELVIN) * nu)
        slope = np.where(flow > SLOW, oil * flow * (2 / 3) * thinner, 0.0)
        return oil * flow + load + other, slope


@cited(ISO_15312, "Annex A, power of both moments")
def oil_share(T: Array, n: Array, nu40: Array, nu100: Array) -> Floats:
    """Term of the load-independent moment that depends on the temperature, as `settle` takes it.

    max(160, (nu n)^(2/3)), nu by ASTM D341

    Parameters (any broadcastable shapes)
    ----------
    T : temperature of the oil [deg C]
    n : speed [rpm]
    nu40 : viscosity at 40 deg C [mm2/s]
    nu100 : viscosity at 100 deg C [mm2/s]

    Returns
    -------
    (nu n)^(2/3), nu in mm2/s and n in rpm [-]

    Valid for 0.21 <= nu100 < nu40, NaN outside; beyond the ends of the viscosity chart with the viscosity of the end.

    Source: ISO 15312:2018, Annex A, power of both moments; read in open code.
    """
    W40, B = walther_line(*as_arrays(nu40, nu100))
    W40 = np.where((np.asarray(nu100) >= NU_LEAST_FULL) & (np.asarray(nu100) < nu40), W40, np.nan)
    T, n, oil, none = as_arrays(T, n, 1.0, 0.0)
    return _heat_made(T, n, oil, none, none, W40, B)[0]


def _excess(T: Floats, columns: list[Floats]) -> tuple[Floats, Floats]:
    """Return the cooling less the heat, which rises with T, and its slope."""
    heat, heat_slope = _heat_made(T, *columns[:6])
    shed, shed_slope = carried(T, *columns[6:])
    return shed - heat, shed_slope - heat_slope


def _solved(columns: list[Floats], T_top: float) -> Floats:
    """Return T, steps and status of each balance, as rows."""
    ambient, inlet = columns[6], columns[12]
    low = np.minimum(ambient, inlet)
    high = np.maximum(np.full_like(low, T_top), low)
    at_low, at_high = _excess(low, columns)[0], _excess(high, columns)[0]
    unknown = np.isnan(at_low) | np.isnan(at_high)
    hot = ~unknown & (at_high < 0) & (at_low < 0)
    status = np.where(unknown, UNKNOWN, np.where(hot, TOO_HOT, SETTLED)).astype(np.float64)
    status[hot & (carried(high, *columns[6:])[0] <= 0)] = NO_COOLING
    found = np.stack([np.where(status == SETTLED, low, np.nan), np.zeros_like(low), status])
    # nothing made and nothing shed: as warm as the surroundings
    rest = np.flatnonzero((status == SETTLED) & (at_low < 0))
    found[:2, rest] = _rooted([column[rest] for column in columns], low[rest], high[rest])
    return found


def _rooted(columns: list[Floats], low: Floats, high: Floats) -> Floats:
    """Return T and steps where the excess is known to change its sign between low and high."""
    found = np.zeros((2, low.size))
    rows = np.arange(low.size)
    T = np.minimum(low + 40.0, (low + high) / 2)
    for step in range(1, _STEPS + 1):
        excess, slope = _excess(T, columns)
        low, high = np.where(excess < 0, T, low), np.where(excess < 0, high, T)
        with np.errstate(all="ignore"):
            moved = T - excess / slope
        # the ends count: a root met to the last bit is its own next step
        inside = (moved >= low) & (moved <= high) & (step <= _NEWTON)
        moved = np.where(inside, moved, (low + high) / 2)
        done = (np.abs(moved - T) <= CLOSE) | (excess == 0)
        found[0, rows] = T = np.where(excess == 0, T, moved)
        found[1, rows] = step
        if done.any():
            left = ~done
            if not left.any():
                break
            rows, T, low, high = rows[left], T[left], low[left], high[left]
            columns = [column[left] for column in columns]
    return found


@cited(HEAT_TRANSFER, "steady heat balance, solved for the flow of oil")
def oil_flow_needed(made: Losses, cooling: Cooling, T: Array, nu40: Array, nu100: Array) -> Floats:
    """Flow of circulating oil that holds a temperature, beside what the air takes.

    V = (W(nu(T)) - Q_air(T)) / (28.6 (T - T_in))

    Parameters (any broadcastable shapes)
    ----------
    made : losses of all bearings in the housing [W]
    cooling : what takes heat away; its flow of oil is left out, its inlet temperature counts [W/K]
    T : temperature to hold [deg C]
    nu40 : viscosity of the oil at 40 deg C [mm2/s]
    nu100 : viscosity at 100 deg C [mm2/s]

    Returns
    -------
    V [l/min]; 0 where the air is enough, infinite where the oil enters as warm as that

    Valid for 0.21 <= nu100 < nu40, oil that leaves as warm as the bearing; NaN outside.

    Source: Heat transfer, steady heat balance, solved for the flow of oil; the heat of the oil is a handbook value.
    """
    (T, inlet) = as_arrays(T, cooling.oil_inlet)
    air = Cooling(cooling.ambient, cooling.conductance, cooling.area, cooling.air_speed, cooling.emissivity)
    left = made.at(kinematic_viscosity_full(T, nu40, nu100)) - air.at(T)
    per_litre = Cooling(cooling.ambient, oil_flow=1.0, oil_inlet=inlet).at(T)
    with np.errstate(all="ignore"):
        flow = np.where(per_litre > 0, left / per_litre, np.inf)
        return np.where(np.isnan(left), np.nan, np.where(left <= 0, 0.0, flow))
