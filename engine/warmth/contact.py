"""Film, rib, friction, speed by heat and grease of given pairs, one side at a time, in each case: (pairs, k).

Of two rows on a side the more loaded one is looked at: it takes all of the thrust and half of the radial load. Torque
and power are of the whole side.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.answers.resolved import Resolved
from engine.lubrication import friction, oil, thermal_speed
from engine.lubrication.contact import rib, rollers
from engine.lubrication.contact.state import Film, OilAt, Sizes, film_of
from engine.lubrication.cooling import reference_conductance
from engine.lubrication.grease.interval import Place, regreasing_interval
from engine.lubrication.heat import Losses, losses, oil_flow_needed
from engine.numerics import Floats
from engine.operating import Bearings, Conditions, Loads
from engine.warmth.settling import cooling

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


@dataclass(frozen=True)
class Contact:
    """One side of some pairs: per pair (pairs, 1) and per pair and case (pairs, k); units as in the functions named.

    `safe_speed` [rpm] is thermally safe at the temperature of the case; `interval` [h] is None with oil.
    """

    dm: Floats
    f0: Floats
    A_r: Floats
    n_ref: Floats
    rib_diameter: Floats
    rho: Floats
    eta: Floats
    Q: Floats
    film: Film
    rib_speed: Floats
    rib_sliding: Floats
    P1: Floats
    M0: Floats
    M1: Floats
    rib_share: Floats
    power: Floats
    safe_speed: Floats
    n_dm: Floats
    interval: Floats | None


def contact_of(
    rows: Catalogue, bearings: Bearings, loads: Loads, at: tuple[Floats, Floats], conditions: Conditions
) -> Contact:
    """Return what the contacts of a side come to at temperatures [deg C] and viscosities [mm2/s] `at`."""
    resolved, n = conditions.resolved, conditions.cases.n
    T, nu = at
    wet = resolved.lubricated
    d, D, width, alpha = (column[:, None] for column in (rows.d, rows.D, rows.T, rows.alpha))
    sizes = Sizes(*(getattr(rows, name)[:, None] for name in ("Z", "Dwe", "Lwe", "Dpw", "alpha")))
    rolling = (sizes.Dwe, sizes.alpha, sizes.Dpw)
    one_row = Loads(loads.Fr / resolved.per_side, loads.Fa)
    rho = oil.density(T, wet.lubricant.rho15)
    Q = rollers.roller_load_Q(one_row.Fr, one_row.Fa, alpha, sizes.Z)
    film = film_of(sizes, Q, n, OilAt(T, nu, wet.lubricant.rho15, wet.lubricant.base), bearings.kappa, wet.roughness)
    dm = (d + D) / 2
    bath = friction.f0_of_section(d, D, width, alpha)
    f0 = resolved.per_side * friction.f0_with_supply(bath, resolved.supply, wet.vertical)
    P1 = friction.friction_load_P1(loads.Fr, loads.Fa, bearings.Y)
    M0, M1 = friction.load_independent_M0(f0, nu, n, dm), friction.load_dependent_M1(friction.F1, P1, dm)
    A_r = thermal_speed.reference_area(d, D, width)
    n_ref = thermal_speed.thermal_reference_speed_of(d, D, width, rows.C0r[:, None], bath)
    wide = rib.rib_diameter(sizes.Dwe, sizes.Lwe, alpha, sizes.Dpw)
    return Contact(
        dm=dm, f0=f0, A_r=A_r, n_ref=n_ref, rib_diameter=wide, rho=rho,
        eta=oil.dynamic_viscosity_eta(nu, rho), Q=Q, film=film,
        rib_speed=rib.mean_rib_speed(n, wide),
        rib_sliding=rib.rib_sliding_speed(n, *rolling),
        P1=P1, M0=M0, M1=M1,
        rib_share=rib.rib_share(rib.rib_torque(loads.Fa, *rolling, rib.MU_RIB), M0, M1),
        power=friction.friction_power(M0 + M1, n),
        safe_speed=_safe_speed((n_ref, f0, dm, A_r), nu, T, P1, resolved),
        n_dm=thermal_speed.speed_factor(n, dm),
        interval=regreasing_interval(n, d, T, place_of(resolved)) if wet.greasing is not None else None,
    )  # fmt: skip


def _safe_speed(
    of: tuple[Floats, Floats, Floats, Floats], nu: Floats, T: Floats, P1: Floats, resolved: Resolved
) -> Floats:
    """Return the thermally safe speed by DIN 732, heat leaving by seats and oil; a side's rows share both."""
    n_ref, f0, dm, A_r = of
    around, rows = resolved.lubricated.surroundings, resolved.per_side
    sides = 2 if around.shared else 1
    flow = (around.oil_flow or 0.0) / sides
    heat = rows * thermal_speed.heat_flow(A_r, T - around.ambient, flow / rows, T - around.oil_inlet)
    return thermal_speed.thermally_safe_speed(n_ref, f0, nu, friction.F1, P1, dm, heat)


def place_of(resolved: Resolved) -> Place:
    """Return where grease works, in the words of the interval's formula."""
    greasing = resolved.lubricated.greasing
    assert greasing is not None
    return Place(
        greasing.contamination, greasing.moisture, greasing.vibration, greasing.position, greasing.outer_ring_turns
    )


def made_in_housing(contacts: tuple[Contact, Contact], conditions: Conditions) -> tuple[Losses, Losses]:
    """Return the losses in the housing of A and of B, the same where they share one."""
    around, n = conditions.resolved.lubricated.surroundings, conditions.cases.n
    own = [losses(one.f0, one.dm, one.P1, n, around.other_heat / (2 if around.shared else 1)) for one in contacts]
    both = own[0] + own[1]
    return (both, both) if around.shared else (own[0], own[1])


def seats_of(contacts: tuple[Contact, Contact], conditions: Conditions) -> tuple[Floats, Floats]:
    """Return the conductance [W/K] of the seats in the housing of A and of B, as ISO 15312 takes it."""
    own = [conditions.resolved.per_side * reference_conductance(one.A_r) for one in contacts]
    shared = own[0] + own[1]
    return (shared, shared) if conditions.resolved.lubricated.surroundings.shared else (own[0], own[1])


def flows_needed(contacts: tuple[Contact, Contact], conditions: Conditions) -> tuple[Floats, Floats]:
    """Return the flow of oil [l/min] that holds the temperature asked for, for the housing of A and of B."""
    wet = conditions.resolved.lubricated
    around, nu = wet.surroundings, (wet.lubricant.nu40, wet.lubricant.nu100)
    made, seats = made_in_housing(contacts, conditions), seats_of(contacts, conditions)
    found = [oil_flow_needed(one, cooling(around, own), around.hold, *nu) for one, own in zip(made, seats, strict=True)]
    return found[0], found[1]
