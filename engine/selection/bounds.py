"""Bounds of a bearing's loads over every partner it could get: they rule out and rule in, never guess.

For a bearing whose load centre z is given and whose partner's lies between two places, the reaction of the shaft is
R = F + u m in each plane, with u = 1 / spread and m the moment about the bearing's own centre: linear in u. Its length
is therefore convex in u, so the greatest lies at an end and the least at an end or at the foot of the perpendicular.
The induced loads follow from the reactions, the axial loads grow with both induced loads (`equilibrium.axial_loads`),
and every check in `checks.loads` is monotone in Fr and Fa, so checks at the two corners bound the check between them.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields

import numpy as np

from engine.checks import heat, loads
from engine.checks.pair import SPREAD_LEAST
from engine.lubrication.friction import friction_load_P1
from engine.numerics import Bools, Floats, Rows
from engine.operating import Bearings, Conditions, Loads, axial_loads, state
from engine.rating.system import SLOPE
from engine.warmth.settling import HeatBox, between

#: Numbers (groups times bearings times cases) bounded at a time, so that the arrays stay in the processor's cache.
CELLS = 65_536
#: Widening of every bound, so that rounding never decides (the sums here run in another order than the exact ones).
ROUNDING = 1e-9


@dataclass(frozen=True)
class Partners:
    """What is known of groups of partners: where their load centres lie and how steep they are.

    For g groups the fields are of shape (g, 1, 1), so that they broadcast against bearings (n, 1) and cases (k,).
    """

    z_least: Floats
    z_greatest: Floats
    Y_least: Floats
    Y_greatest: Floats
    heat: HeatBox | None = None

    @classmethod
    def of(cls, bearings: Bearings, groups: Sequence[Rows]) -> "Partners":
        """Return the box around each group of some bearings."""
        starts = np.cumsum([0, *(len(group) for group in groups[:-1])])
        rows = np.concatenate(groups)

        def box(column: Floats) -> tuple[Floats, Floats]:
            values = column[rows, 0]
            ends = np.minimum.reduceat(values, starts), np.maximum.reduceat(values, starts)
            return ends[0][:, None, None], ends[1][:, None, None]

        warm = bearings.thermal
        heat = HeatBox(box(warm.flow), box(warm.dm), box(warm.conductance)) if warm is not None else None
        return cls(*box(bearings.z), *box(bearings.Y), heat=heat)


@dataclass(frozen=True)
class Bounds:
    """What n bearings can come to with any partner of each of g groups; arrays of shape (g, n).

    `never` and `always` are the binding checks other than life; the damage numbers are (required / life)^(9/8), which
    add up over the pair, so that a sum of at most 1 meets the required life of the pair.
    """

    never: Bools
    always: Bools
    damage_least: Floats
    damage_greatest: Floats


def _go_on() -> None:
    """Never stop."""


def bound(
    side: str, bearings: Bearings, partners: Partners, conditions: Conditions, pause: Callable[[], None] = _go_on
) -> Bounds:
    """Return the bounds of every bearing of a side over each group of partners; `pause()` may stop it on its way."""
    step = max(1, CELLS // max(1, len(conditions.cases) * len(partners.z_least)))
    some = [np.arange(at, min(at + step, len(bearings.C))) for at in range(0, len(bearings.C), step)]
    if len(some) < 2:
        return _bound(side, bearings, partners, conditions)
    parts = []
    for rows in some:
        pause()
        parts.append(_bound(side, bearings.take(rows), partners, conditions))
    return Bounds(*(np.concatenate([getattr(part, field.name) for part in parts], axis=1) for field in fields(Bounds)))


def _bound(side: str, bearings: Bearings, partners: Partners, conditions: Conditions) -> Bounds:
    ends, theirs = _load_bounds(side, bearings, partners, conditions)
    corners = _warm_corners(side, bearings, partners, ends, theirs, conditions)
    low, high = (state(rows, at, conditions) for (rows, _), at in zip(corners, ends, strict=True))
    passes_low, passes_high = (
        np.logical_and.reduce([
            outcome.passes
            for outcome in (*loads.binding(side, rows, at, conditions), *heat.binding(side, rows, T, conditions))
        ])
        for (rows, T), at in zip(corners, (low, high), strict=True)
    )  # fmt: skip
    apart = _spreads(side, bearings, partners)[0][..., 0] >= SPREAD_LEAST
    return Bounds(
        never=~passes_low,
        always=passes_high & apart,
        damage_least=damage(low.life, conditions),
        damage_greatest=damage(high.life, conditions),
    )


def _warm_corners(
    side: str,
    own: Bearings,
    partners: Partners,
    ends: tuple[Loads, Loads],
    theirs: tuple[Floats, Floats],
    conditions: Conditions,
) -> tuple[tuple[Bearings, Floats], tuple[Bearings, Floats]]:
    """Return the bearings at the least and the greatest temperature that they can come to, and these."""
    if partners.heat is None:
        return ((own, conditions.cases.temperature),) * 2
    mine = tuple(friction_load_P1(loads.Fr, loads.Fa, own.Y) for loads in ends)
    return between(side, own, partners.heat, ((mine[0], mine[1]), theirs), conditions)


def damage(life: Floats, conditions: Conditions) -> Floats:
    """Return (required life / life)^(9/8) [-]; NaN (outside the life method) is damage without end.

    With the life wanted of each bearing by itself the exponent does not matter, since only 1 is compared with.
    """
    with np.errstate(divide="ignore"):
        ratio = np.power(conditions.resolved.life / life, SLOPE)
    return np.where(np.isnan(ratio), np.inf, ratio)


def _spreads(side: str, bearings: Bearings, partners: Partners) -> tuple[Floats, Floats]:
    if side == "A":
        return partners.z_least - bearings.z, partners.z_greatest - bearings.z
    return bearings.z - partners.z_greatest, bearings.z - partners.z_least


def _load_bounds(
    side: str, own: Bearings, partners: Partners, conditions: Conditions
) -> tuple[tuple[Loads, Loads], tuple[Floats, Floats]]:
    """Return the least and the greatest loads, of shape (g, n, k), and with them the P1 of the partners' friction."""
    cases = conditions.cases
    near, far = (np.maximum(s, SPREAD_LEAST) for s in _spreads(side, own, partners))
    u_least, u_greatest = 1.0 / far, 1.0 / near
    sign = -1.0 if side == "A" else 1.0
    found = []
    # what stands and what turns with the shaft add up by their amounts, so their bounds do too
    for F_y, F_z, M_y, M_z in (cases.forces.still, *((cases.forces.turning,) if cases.forces.turns else ())):
        # moments about the own load centre; both sides then read R = F -/+ u m (see the module's text)
        m = (M_y - F_y * own.z, M_z - F_z * own.z)
        # the partner's reaction is u |m|
        found.append((*_length_bounds((F_y, F_z), (sign * m[0], sign * m[1]), u_least, u_greatest), np.hypot(*m)))
    Fr_least, Fr_greatest, partner = (sum(parts[1:], parts[0]) for parts in zip(*found, strict=True))
    # the induced load of a partner is least where it is loaded least and steep least (Y greatest), and the other way
    Fr_theirs = u_least * partner, u_greatest * partner
    Fa = [
        _axial(side, (Fr_least, own.Y), (Fr_theirs[0], partners.Y_greatest), conditions),
        _axial(side, (Fr_greatest, own.Y), (Fr_theirs[1], partners.Y_least), conditions),
    ]
    down, up = 1.0 - ROUNDING, 1.0 + ROUNDING
    ends = Loads(Fr_least * down, Fa[0][0] * down), Loads(Fr_greatest * up, Fa[1][0] * up)
    # of the friction load the axial part grows with Y, the thrust itself falls with it: each end takes the worse
    theirs = (
        friction_load_P1(Fr_theirs[0], Fa[0][1], partners.Y_least) * down,
        friction_load_P1(Fr_theirs[1], Fa[1][1], partners.Y_greatest) * up,
    )
    return ends, theirs


def _axial(
    side: str, own: tuple[Floats, Floats], partner: tuple[Floats, Floats], conditions: Conditions
) -> tuple[Floats, Floats]:
    """Return the axial load of a side and of its partner from the radial load and axial factor of both."""
    (Fr_A, Y_A), (Fr_B, Y_B) = (own, partner) if side == "A" else (partner, own)
    Fa_A, Fa_B = axial_loads(Fr_A, Fr_B, Y_A, Y_B, conditions)
    return (Fa_A, Fa_B) if side == "A" else (Fa_B, Fa_A)


def _length_bounds(
    F: tuple[Floats, Floats], m: tuple[Floats, Floats], u_least: Floats, u_greatest: Floats
) -> tuple[Floats, Floats]:
    """Return the least and greatest length of F + u m over an interval of u."""

    def length(u: Floats) -> Floats:
        return np.hypot(F[0] + u * m[0], F[1] + u * m[1])

    squared = m[0] ** 2 + m[1] ** 2
    # where the moment vanishes the length does not depend on u, and any u will do
    foot = np.where(squared > 0, -(F[0] * m[0] + F[1] * m[1]) / np.where(squared > 0, squared, 1.0), u_least)
    least = length(np.clip(foot, u_least, u_greatest))
    return least, np.maximum(length(u_least), length(u_greatest))
