"""The temperature that settles in each pair: friction against cooling, then viscosity and kappa at that temperature.

Where every case has a stated temperature nothing is done here. Housing, bearings and oil are one temperature; bearings
in one housing share it. The losses grow with the loads and fall with the temperature, so the temperature grows with the
loads of both bearings: `between` uses that for bounds.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from engine.answers.lubricated.complete import Surroundings
from engine.lubrication import contamination, viscosity_ratio
from engine.lubrication.cooling import Cooling
from engine.lubrication.friction import F1, friction_load_P1, load_dependent_M1
from engine.lubrication.heat import Balance, Losses, settle
from engine.numerics import Array, Floats, Rows, at_places
from engine.operating import Bearings, Conditions, Loads, State, pair_loads, state
from engine.warmth.ladder import End, Ladder


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
    own: Bearings,
    partners: HeatBox,
    P1: tuple[tuple[Floats, Floats], tuple[Floats, Floats]],
    conditions: Conditions,
    ladder: Ladder,
) -> tuple[Bearings, Bearings]:
    """Return bearings at the coolest and at the hottest that they can be.

    `P1` holds the least and the greatest of the bearing and of its partners.
    """
    assert own.thermal is not None
    around, places = conditions.resolved.lubricated.surroundings, []
    for end, worse in ((0, 1), (1, 0)):
        mine = (own.thermal.flow, own.thermal.dm, own.thermal.conductance, P1[0][end])
        # more seats shed more heat, so the coolest has the most of them; below ambient it is the other way round
        ends = {worse, end} if _cold_oil(conditions) else {worse}
        tried = []
        for seats in sorted(ends):
            theirs = (partners.flow[end], partners.dm[end], partners.conductance[seats], P1[1][end])
            tried.append(_places(ladder, [mine, theirs] if around.shared else [mine], conditions))
        places.append((np.minimum, np.maximum)[end].reduce(tried))
    return at_rung(own, ladder.cold, places[0], conditions), at_rung(own, ladder.hot, places[1], conditions)


def places_of(
    A: Bearings, B: Bearings, loads: tuple[Loads, Loads], conditions: Conditions, ladder: Ladder
) -> tuple[Rows, Rows]:
    """Return the places on the ladder of the bearings of pairs (row i of both), (pairs, k) each."""
    heated = []
    for load, rows in zip(loads, (A, B), strict=True):
        assert rows.thermal is not None
        P1 = friction_load_P1(load.Fr, load.Fa, rows.Y)
        heated.append((rows.thermal.flow, rows.thermal.dm, rows.thermal.conductance, P1))
    if conditions.resolved.lubricated.surroundings.shared:
        both = _places(ladder, heated, conditions)
        return both, both
    one, other = (_places(ladder, [own], conditions) for own in heated)
    return one, other


def _places(ladder: Ladder, heated: list[Heated], conditions: Conditions) -> Rows:
    """Return the places on the ladder of a housing in which some bearings are."""
    flow, seats = (sum(one[at] for one in heated[1:]) + heated[0][at] for at in (0, 2))
    turning = np.pi * conditions.cases.n / 30_000
    M1 = [load_dependent_M1(F1, P1, dm) for _, dm, _, P1 in heated]
    load = (sum(M1[1:]) + M1[0]) * turning + conditions.resolved.lubricated.surroundings.other_heat
    return ladder.places(flow, seats, load)


def at_rung(rows: Bearings, end: End, places: Rows, conditions: Conditions) -> Bearings:
    """Return bearings with their film at one end of their places on the ladder: none of them is as cold, or as hot."""
    T, nu = (at_places(column, places) for column in end)
    if not conditions.settling.all():
        T = np.where(conditions.settling, T, conditions.cases.temperature)
        nu = np.where(conditions.settling, nu, conditions.nu)
    return _with_film(rows, T, nu, conditions)


def _cold_oil(conditions: Conditions) -> bool:
    around = conditions.resolved.lubricated.surroundings
    return around.area is None and bool(around.oil_flow) and around.oil_inlet < around.ambient
