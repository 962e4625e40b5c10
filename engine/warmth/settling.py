"""The temperature that settles in each pair: friction against cooling, then viscosity and kappa at that temperature.

Where every case has a stated temperature nothing is done here. Housing, bearings and oil are one temperature; bearings
in one housing share it. The losses grow with the loads and fall with the temperature, so the temperature grows with the
loads of both bearings: `between` uses that for bounds.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from engine.answers.lubricated.complete import Surroundings
from engine.lubrication import contamination, viscosity, viscosity_ratio
from engine.lubrication.cooling import Cooling
from engine.lubrication.friction import F1, friction_load_P1, load_dependent_M1
from engine.lubrication.heat import Balance, Losses, settle
from engine.numerics import Array, Floats
from engine.operating import Bearings, Conditions, Loads, State, pair_loads, state

#: Widening of bounds on a temperature [K]: more than a balance is found to.
HAIR = 1e-6


@dataclass(frozen=True)
class Warmth:
    """Temperature [deg C] and viscosity [mm2/s] of the bearings at A and at B, (pairs, k), and how they came about.

    `balance` is that of the housing of A and of B, the same where they share one; None where nothing settles.
    """

    T: tuple[Floats, Floats]
    nu: tuple[Floats, Floats]
    balance: tuple[Balance, Balance] | None = None


@dataclass(frozen=True)
class Loaded:
    """Pairs under their loads, row i of every array pair i: bearings with their films, loads, states, temperatures."""

    bearings: tuple[Bearings, Bearings]
    loads: tuple[Loads, Loads]
    states: tuple[State, State]
    warmth: Warmth


def loaded(A: Bearings, B: Bearings, conditions: Conditions) -> Loaded:
    """Return pairs (row i of A with row i of B) under their loads, at the temperatures that settle."""
    loads = pair_loads(A, B, conditions)
    both, warmth = warmed(A, B, loads, conditions)
    states = state(both[0], loads[0], conditions), state(both[1], loads[1], conditions)
    warm = replace(loads[0], T=warmth.T[0]), replace(loads[1], T=warmth.T[1])
    return Loaded(both, warm, states, warmth)


def warmed(
    A: Bearings, B: Bearings, loads: tuple[Loads, Loads], conditions: Conditions
) -> tuple[tuple[Bearings, Bearings], Warmth]:
    """Return the bearings of pairs (row i of both) with their film at the temperatures that settle, and these."""
    T, nu = conditions.cases.temperature, conditions.nu
    if A.thermal is None or B.thermal is None:
        return (A, B), Warmth((T, T), (nu, nu))
    P1 = [friction_load_P1(load.Fr, load.Fa, rows.Y) for load, rows in zip(loads, (A, B), strict=True)]
    flows = [(rows.thermal.flow, rows.thermal.dm, rows.thermal.conductance) for rows in (A, B) if rows.thermal]
    balance = balances((*flows[0], P1[0]), (*flows[1], P1[1]), conditions)
    settling = conditions.settling
    T_own = [np.where(settling, one.T, T) for one in balance]
    nu_own = [np.where(settling, one.nu, nu) for one in balance]
    films = [
        _with_film(rows, *at, conditions) for rows, at in zip((A, B), zip(T_own, nu_own, strict=True), strict=True)
    ]
    return (films[0], films[1]), Warmth((T_own[0], T_own[1]), (nu_own[0], nu_own[1]), balance)


#: What makes and sheds heat on one side: flow f0 dm^3 [mm3], dm [mm], conductance [W/K], P1 [N].
Heated = tuple[Floats, Floats, Floats, Floats]


def balances(A: Heated, B: Heated, conditions: Conditions) -> tuple[Balance, Balance]:
    """Return the heat balance of the housing of A and of B."""
    around, n = conditions.resolved.lubricated.surroundings, conditions.cases.n
    oil = conditions.resolved.lubricated.lubricant
    if around.shared:
        made = losses(*A, n, around.other_heat) + losses(*B, n, 0.0)
        both = settle(made, cooling(around, A[2] + B[2]), oil.nu40, oil.nu100)
        return both, both
    one, other = (
        settle(losses(*side, n, around.other_heat), cooling(around, side[2]), oil.nu40, oil.nu100) for side in (A, B)
    )
    return one, other


def losses(flow: Floats, dm: Floats, conductance: Floats, P1: Floats, n: Floats, other: float) -> Losses:  # noqa: ARG001
    """Return the losses of `engine.lubrication.heat.losses` from f0 dm^3 in place of f0."""
    turning = np.pi * n / 30_000
    return Losses(n, 1e-7 * flow * turning, load_dependent_M1(F1, P1, dm) * turning, np.asarray(other))


def cooling(around: Surroundings, conductance: Array) -> Cooling:
    """Return what cools a housing: its surface where that is known, else the seats of its bearings; and oil."""
    return Cooling(
        around.ambient,
        conductance=conductance if around.area is None else 0.0,
        area=around.area or 0.0,
        air_speed=around.air_speed,
        oil_flow=around.oil_flow or 0.0,
        oil_inlet=around.oil_inlet,
    )


def _with_film(rows: Bearings, T: Floats, nu: Floats, conditions: Conditions) -> Bearings:
    """Return bearings with kappa and e_C at a temperature and viscosity of their own."""
    assert rows.thermal is not None
    kappa = viscosity_ratio.viscosity_ratio_kappa(nu, rows.thermal.nu1)
    resolved = conditions.resolved
    e_C = contamination.e_C_of(resolved.supply, resolved.cleanliness, kappa, rows.thermal.Dpw)
    return replace(rows, kappa=kappa, e_C=e_C, thermal=replace(rows.thermal, T=T, nu=nu))


@dataclass(frozen=True)
class HeatBox:
    """Least and greatest of what groups of partners make and shed, of shape (g, 1, 1)."""

    flow: tuple[Floats, Floats]
    dm: tuple[Floats, Floats]
    conductance: tuple[Floats, Floats]


def between(
    side: str,
    own: Bearings,
    partners: HeatBox,
    P1: tuple[tuple[Floats, Floats], tuple[Floats, Floats]],
    conditions: Conditions,
) -> tuple[Bearings, Bearings]:
    """Return bearings at the coolest and at the hottest that they can be.

    `P1` holds the least and the greatest of the bearing and of its partners.
    """
    assert own.thermal is not None
    found = []
    for end, worse in ((0, 1), (1, 0)):
        # more seats shed more heat, so the coolest has the most of them; below ambient it is the other way round
        ends = {worse, end} if _cold_oil(conditions) else {worse}
        temperatures = []
        for seats in sorted(ends):
            mine = (own.thermal.flow, own.thermal.dm, own.thermal.conductance, P1[0][end])
            theirs = (partners.flow[end], partners.dm[end], partners.conductance[seats], P1[1][end])
            pair = (mine, theirs) if side == "A" else (theirs, mine)
            temperatures.append(balances(*pair, conditions)[0 if side == "A" else 1].T)
        # hotter than any is NaN, which the greatest must keep and the least must not
        T = np.fmin.reduce(temperatures) - HAIR if end == 0 else np.maximum.reduce(temperatures) + HAIR
        T = np.where(conditions.settling, T, conditions.cases.temperature)
        found.append(_with_film(own, T, _viscosity(T, conditions), conditions))
    return found[0], found[1]


def _cold_oil(conditions: Conditions) -> bool:
    around = conditions.resolved.lubricated.surroundings
    return around.area is None and bool(around.oil_flow) and around.oil_inlet < around.ambient


def _viscosity(T: Floats, conditions: Conditions) -> Floats:
    """Return the viscosity at a temperature; what is too cold for the chart counts as endlessly thick."""
    oil = conditions.resolved.lubricated.lubricant
    nu = viscosity.kinematic_viscosity_full(T, oil.nu40, oil.nu100)
    with np.errstate(invalid="ignore"):
        return np.where(np.isnan(nu) & (T < 40.0) & (oil.nu100 < oil.nu40), viscosity.NU_GREATEST, nu)
