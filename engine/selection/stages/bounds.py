"""Bounds of a bearing's loads over every partner it could get: they rule out and rule in, never guess.

For a bearing whose load centre z is given and whose partner's lies between two places, the reaction of the shaft is
R = F + u m in each plane, with u = 1 / spread and m the moment about the bearing's own centre: linear in u. Its length
is therefore convex in u, so the greatest lies at an end and the least at an end or at the foot of the perpendicular.
The induced loads follow from the reactions, the axial loads grow with both induced loads (`equilibrium.axial_loads`),
and the utilisation of every check in `every.UNDER_LOAD` grows with Fr and Fa, so checks at the two corners bound the
check between them.

P itself is not quite monotone: a catalogue prints e and Y rounded, and where 0.4 + Y e is not 1 the two lines of
ISO 281 do not meet at Fa = e Fr. With q = 0.4 + Y e and g = max(Fr, 0.4 Fr + Y Fa), which is monotone,
g min(q, 1/q) <= P <= g holds on both lines; P scales with its loads, so loads shrunk at the lower corner and stretched
at the upper by that factor bound P again.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from engine.checks import every
from engine.checks.holding import between_temperatures
from engine.checks.pair import SPREAD_LEAST
from engine.lubrication.friction import friction_load_P1
from engine.lubrication.viscosity import NU_LEAST_FULL
from engine.numerics import Bools, Floats, Rows, by_case
from engine.operating import Bearings, Conditions, Loads, State, axial_loads, state
from engine.rating.dynamic import X
from engine.rating.system import SLOPE
from engine.selection.stages.blocks import Cancelled, in_blocks
from engine.selection.stages.blocks import never as unasked
from engine.selection.stages.side import Side
from engine.warmth.settling import HeatBox, between

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: Widening of every bound, so that rounding never decides (the sums here run in another order than the exact ones).
ROUNDING = 1e-9

#: The power [W] that each bearing (n,) turns into heat under loads (..., n, k), averaged over its running time; it
#: never falls when a load grows.
FrictionLoss = Callable[["Catalogue", Loads, Conditions], Floats]


@dataclass(frozen=True)
class Partners:
    """What is known of groups of partners: where their load centres lie and how steep they are.

    For g groups the fields are of shape (g, 1, 1), so that they broadcast against bearings (n, 1) and cases (k,).
    """

    z_least: Floats
    z_greatest: Floats
    Y_least: Floats
    Y_greatest: Floats
    heat: HeatBox | None = None  # where temperatures settle

    @classmethod
    def of(cls, partners: Side, groups: Sequence[Rows]) -> Partners:
        """Return the box around each group of the other side's candidates."""
        starts = np.cumsum([0, *(len(group) for group in groups[:-1])])
        rows = np.concatenate(groups)

        def box(column: Floats) -> tuple[Floats, Floats]:
            ends = np.minimum.reduceat(column[rows], starts), np.maximum.reduceat(column[rows], starts)
            return ends[0][:, None, None], ends[1][:, None, None]

        warm = partners.thermal
        heat = None
        if warm is not None:
            heat = HeatBox(box(warm.flow[:, 0]), box(warm.dm[:, 0]), box(warm.conductance[:, 0]))
        return cls(*box(partners.z), *box(partners.Y), heat=heat)

    def __len__(self) -> int:
        return len(self.z_least)


@dataclass(frozen=True)
class Bounds:
    """What n bearings can come to with any partner of each of g groups; arrays of shape (g, n).

    `never` and `always` are the binding checks other than life, `utilisation_least` the greatest of their utilisations;
    the damage numbers are (required / life)^(9/8), which add up over the pair, so that a sum of at most 1 meets the
    required life of the pair. `friction_least` [W] is 0 where it was not asked for.
    """

    never: Bools
    always: Bools
    utilisation_least: Floats
    damage_least: Floats
    damage_greatest: Floats
    friction_least: Floats


def bound(
    side: Side, partners: Partners, cancelled: Cancelled = unasked, friction: FrictionLoss | None = None
) -> Bounds:
    """Return the bounds of every bearing of a side over each group of partners."""
    width = len(partners) * len(side.conditions.cases)
    found = in_blocks(lambda some: _bound(side, some, partners, friction), len(side), width, cancelled)
    return Bounds(*(np.concatenate(parts, axis=1) for parts in zip(*found, strict=True)))


def _bound(side: Side, some: slice, partners: Partners, friction: FrictionLoss | None) -> tuple[Bools | Floats, ...]:
    bearings, conditions = side.bearings(some), side.conditions
    ends, theirs = _load_bounds(side.name, bearings, partners, conditions)
    corners = _corners(side, bearings, partners, (ends, theirs))
    low, high = (state(rows, loads, conditions) for rows, loads in zip(corners, ends, strict=True))
    corners = _held(corners, (low, high), conditions)
    own_low, own_high = (
        every.own_outcomes(side.name, rows, at, conditions) for rows, at in zip(corners, (low, high), strict=True)
    )
    shape = low.life.shape
    apart = _spreads(side.name, bearings, partners)[0][..., 0] >= SPREAD_LEAST
    return (
        ~every.passing(own_low, shape),
        every.passing(own_high, shape) & apart,
        every.governing(own_low, shape),
        damage(low.life, conditions),
        damage(high.life, conditions),
        np.zeros(shape) if friction is None else friction(side.parts(some), ends[0], _thinnest(corners[1], conditions)),
    )


def _corners(
    side: Side,
    own: Bearings,
    partners: Partners,
    loads: tuple[tuple[Loads, Loads], tuple[Floats, Floats]],
) -> tuple[Bearings, Bearings]:
    """Return the bearings at the least and the greatest temperature that they can come to."""
    if partners.heat is None or side.ladder is None:
        return own, own
    ends, theirs = loads
    one, other = (friction_load_P1(load.Fr, load.Fa, own.Y) for load in ends)
    return between(own, partners.heat, ((one, other), theirs), side.conditions, side.ladder)


def _held(
    corners: tuple[Bearings, Bearings], states: tuple[State, State], conditions: Conditions
) -> tuple[Bearings, Bearings]:
    """Return the corners with bounds of what is left of their fits in service.

    A heavier load may make a tighter fit, and warmth may do either to it: so the corner of the least load is given the
    most that may be left at any, the corner of the greatest the least.
    """
    return (
        between_temperatures(corners[0], corners, states[1], conditions, most=True),
        between_temperatures(corners[1], corners, states[0], conditions, most=False),
    )


def _thinnest(hottest: Bearings, conditions: Conditions) -> Conditions:
    """Return the conditions with the least viscosity that any pair can have; friction falls with it."""
    if hottest.thermal is None or hottest.thermal.nu is None:
        return conditions
    nu = hottest.thermal.nu
    return replace(conditions, nu=np.where(np.isnan(nu), NU_LEAST_FULL, nu))


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
    z, found = by_case(own.z, len(cases)), []
    # what stands and what turns with the shaft add up by their amounts, so their bounds do too
    for F_y, F_z, M_y, M_z in (cases.forces.still, *((cases.forces.turning,) if cases.forces.turns else ())):
        # moments about the own load centre; both sides then read R = F -/+ u m (see the module's text)
        m = (M_y - F_y * z, M_z - F_z * z)
        # the partner's reaction is u |m|
        found.append((*_length_bounds((F_y, F_z), (sign * m[0], sign * m[1]), u_least, u_greatest), np.hypot(*m)))
    Fr_least, Fr_greatest, partner = (sum(parts[1:], parts[0]) for parts in zip(*found, strict=True))
    # the induced load of a partner is least where it is loaded least and steep least (Y greatest), and the other way
    Fr_theirs = u_least * partner, u_greatest * partner
    Fa = [
        _axial(side, (Fr_least, own.Y), (Fr_theirs[0], partners.Y_greatest), conditions),
        _axial(side, (Fr_greatest, own.Y), (Fr_theirs[1], partners.Y_least), conditions),
    ]
    # of the friction load the axial part grows with Y, the thrust itself falls with it: each end takes the worse
    theirs = (
        friction_load_P1(Fr_theirs[0], Fa[0][1], partners.Y_least) * (1.0 - ROUNDING),
        friction_load_P1(Fr_theirs[1], Fa[1][1], partners.Y_greatest) * (1.0 + ROUNDING),
    )
    # 1 where the two lines of P meet, as those of two rows do, which follow from the angle itself
    q = 1.0 if own.double else X + own.Y * own.e
    meet = np.minimum(q, np.reciprocal(q))
    down, up = (1.0 - ROUNDING) * meet, (1.0 + ROUNDING) / meet
    return (Loads(Fr_least * down, Fa[0][0] * down), Loads(Fr_greatest * up, Fa[1][0] * up)), theirs


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
