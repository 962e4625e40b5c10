"""The operating point: every load, film and life of many bearings and pairs at once.

Shapes: a side's bearings are a column (n, 1), load cases a row (k,), so that (n, k) and, for pairs, (pairs, k) come out
of the same functions. Screening hands in bounds of the loads, the shortlist the loads themselves.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING

import numpy as np

from engine import fitting, holding
from engine.answers.resolved import Resolved
from engine.duty.cases import LoadCases, load_cases
from engine.duty.onshaft import UNLOCKS
from engine.holding import Hold
from engine.lubrication import contamination, cooling, friction, thermal_speed, viscosity, viscosity_ratio
from engine.numerics import Bools, Floats, Rows, greatest, least, some_rows
from engine.pair import arrangement, equilibrium, paired
from engine.rating import double_row, dynamic, life, modified_life, reliability, static
from engine.seat import recommend
from engine.seat.mounting import HEATING_LIMIT

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


@dataclass(frozen=True)
class Conditions:
    """What the answers say to any bearing: cases, film, reliability. Built once per answer."""

    resolved: Resolved
    cases: LoadCases
    nu: Floats  # viscosity at the temperature of each case [mm2/s], (k,); NaN where each pair's own settles
    a1: float

    @property
    def settling(self) -> Bools:
        """Which cases take the temperature that settles by each pair's heat balance."""
        return np.isnan(self.cases.temperature)

    @classmethod
    def of(cls, resolved: Resolved) -> Conditions:
        """Return the conditions that a complete set of answers describes."""
        cases = load_cases(resolved)
        unknown = sorted({element.name for acting in cases.elements for element in acting if not element.known})
        if unknown:
            why = [f"forces of {name}: {_unknown(name, resolved)}" for name in unknown]
            resolved = replace(resolved, cases=(), missing=(*resolved.missing, *why))
            cases = load_cases(resolved)
        oil = resolved.lubricated.lubricant
        nu = viscosity.kinematic_viscosity_full(cases.temperature, oil.nu40, oil.nu100)
        a1 = float(reliability.reliability_factor_a1(resolved.reliability))
        return cls(resolved, cases, nu, a1)


def _unknown(name: str, resolved: Resolved) -> str:
    """Return why the forces of a part are unknown; a single figure that is wrong was refused where it was answered."""
    kind = next((part.kind for part in resolved.shaft.parts if part.name == name), "")
    if kind in UNLOCKS:
        return f"friction locks it; accepted: {UNLOCKS[kind]}"
    return "its figures together lie outside their formula"


@dataclass(frozen=True)
class Thermal:
    """What the heat balance must know of bearings, as columns (n, 1).

    flow f0 dm^3 of all rows of a side [mm3], dm [mm], conductance [W/K] of the seats as ISO 15312 takes them, limit
    [deg C] of the steel, Dpw [mm]; nu1 [mm2/s] at each case, (n, k). `T` [deg C] and `nu` [mm2/s] are there once the
    temperatures of pairs are settled, (pairs, k).
    """

    flow: Floats
    dm: Floats
    conductance: Floats
    limit: Floats
    Dpw: Floats
    nu1: Floats
    T: Floats | None = None
    nu: Floats | None = None

    @classmethod
    def of(cls, rows: Catalogue, nu1: Floats, resolved: Resolved) -> Thermal:
        """Return the columns of some rows of a catalogue."""
        f0 = friction.f0_of_section(rows.d, rows.D, rows.T, rows.alpha)
        f0 = resolved.per_side * friction.f0_with_supply(f0, resolved.supply, resolved.lubricated.vertical)
        dm = (rows.d + rows.D) / 2
        seats = resolved.per_side * cooling.reference_conductance(thermal_speed.reference_area(rows.d, rows.D, rows.T))
        flow, limit = f0 * dm * dm * dm, rows.max_temperature
        return cls(flow[:, None], dm[:, None], seats[:, None], limit[:, None], rows.Dpw[:, None], nu1)

    def take(self, index: Floats) -> Thermal:
        """Return some of the rows."""
        assert self.T is None  # what has settled belongs to a pair
        columns = (field.name for field in fields(self) if field.name not in {"T", "nu"})
        return Thermal(**{name: some_rows(getattr(self, name), index) for name in columns})


@dataclass(frozen=True)
class Strain:
    """What the fits that follow from the loads do to rings at each load level, (n, levels).

    The greatest tension [MPa], and the temperature at which the cone goes on [deg C]. What the steel bears of tension,
    its core under shock, whether the limits of both rings are at hand, and whether rings bear the fit of any load, are
    (n,).
    """

    tension: Floats
    heating: Floats
    hoop: Floats
    shock: Floats
    known: Bools
    harmless: Bools

    @classmethod
    def of(cls, rows: Catalogue, side: str, resolved: Resolved) -> Strain:
        """Return the columns of some rows of a catalogue."""
        each, (hoop, core) = fitting.borne_by_levels(rows, side, resolved), fitting.borne(rows)
        tension, heating = (np.stack([getattr(one, of) for one in each], axis=-1) for of in ("tension", "heating"))
        heaviest = tension[:, -1]
        harmless = (heaviest <= hoop) & (fitting.shock_tension(heaviest, resolved) <= core)
        if resolved.fits.mounting == "heated":
            harmless &= heating[:, -1] <= HEATING_LIMIT
        return cls(tension, heating, hoop, core, fitting.seats_of(rows, side, resolved).known, harmless)

    def take(self, index: Floats) -> Strain:
        """Return some of the rows."""
        return Strain(*(some_rows(getattr(self, field.name), index) for field in fields(self)))


#: What the loads decide of the seats: what they strain, where classes follow from loads, and what must hold.
Seated = tuple[Strain | None, Hold | None]


@dataclass(frozen=True)
class Bearings:
    """Bearings of one side as columns (n, 1), with their film at each case (n, k)."""

    C: Floats
    C0: Floats
    Cu: Floats
    e: Floats
    Y: Floats
    Y0: Floats
    z: Floats  # load centre along the shaft [mm]
    kappa: Floats
    e_C: Floats
    alpha: Floats
    double: bool = False  # two rows a side, rated as one double-row bearing
    thermal: Thermal | None = None  # where a case's temperature settles
    strain: Strain | None = None  # where the fits follow from the loads
    hold: Hold | None = None  # where a ring must hold

    @classmethod
    def of(cls, rows: Catalogue, side: str, conditions: Conditions, seated: Seated | None = None) -> Bearings:
        """Return the rows of a catalogue, mounted on side A or B; `seated` is theirs, where it is at hand."""
        nu1 = viscosity_ratio.reference_viscosity_nu1(conditions.cases.n, rows.Dpw[:, None])
        kappa = viscosity_ratio.viscosity_ratio_kappa(conditions.nu, nu1)
        resolved = conditions.resolved
        e_C = contamination.e_C_of(resolved.supply, resolved.cleanliness, kappa, rows.Dpw[:, None])
        C, C0, Cu = rows.Cr, rows.C0r, rows.Cu
        double = resolved.per_side == 2
        if double:
            C, C0 = double_row.unit_dynamic_rating(C), double_row.unit_static_rating(C0)
            Cu = double_row.unit_fatigue_limit(Cu)
        columns = {
            "C": C, "C0": C0, "Cu": Cu, "e": rows.e, "Y": rows.Y, "Y0": rows.Y0, "alpha": rows.alpha,
            "z": load_centre(rows, side, resolved),
        }  # fmt: skip
        held = {name: column[:, None] for name, column in columns.items()}
        thermal = Thermal.of(rows, nu1, resolved) if conditions.settling.any() else None
        strain, hold = seated or seated_of(rows, side, conditions)
        return cls(**held, kappa=kappa, e_C=e_C, double=double, thermal=thermal, strain=strain, hold=hold)

    def take(self, index: Floats) -> Bearings:
        """Return some of the bearings, as often as the index names them."""
        columns = (field.name for field in fields(self) if field.name not in _TAKE_THEMSELVES)
        parts = {name: getattr(self, name) for name in ("thermal", "strain", "hold")}
        some = {name: None if part is None else part.take(index) for name, part in parts.items()}
        held = {name: some_rows(getattr(self, name), index) for name in columns}
        return Bearings(**held, double=self.double, **some)


_TAKE_THEMSELVES = frozenset({"double", "thermal", "strain", "hold"})


def seated_of(rows: Catalogue, side: str, conditions: Conditions) -> Seated:
    """Return what the seats of some rows do to them, as far as the loads decide it."""
    resolved, cases = conditions.resolved, conditions.cases
    strain = Strain.of(rows, side, resolved) if fitting.by_loads(side, resolved) else None
    T = None if conditions.settling.any() else holding.mean_temperature(cases.temperature, cases.weights)
    return strain, Hold.of(rows, side, resolved, T)


def load_centre(rows: Catalogue, side: str, resolved: Resolved) -> Floats:
    """Return where each row's effective load centre lies when it is mounted on side A or B [mm]."""
    assert resolved.distance is not None  # asked for only where the loads are known
    if resolved.locating:
        inset = rows.T if resolved.between_middles else 0.0
        return paired.unit_load_centre(side, resolved.distance, rows.T, inset=inset)
    inset = rows.T / 2 if resolved.between_middles else 0.0
    z_A, z_B = arrangement.load_centres(resolved.arrangement, resolved.distance, rows.a, rows.a, inset, inset)
    return z_A if side == "A" else z_B


@dataclass(frozen=True)
class Loads:
    """Radial and axial load of one bearing of each pair in each case [N], shape (pairs, k).

    What follows from them is None where it is not asked for: `T` [deg C] the temperature under them, stated or settled,
    (k,) or (pairs, k); `level` (pairs,) the load level that they make, as its place in the levels of fits.
    """

    Fr: Floats
    Fa: Floats
    T: Floats | None = None
    level: Rows | None = None


def pair_loads(A: Bearings, B: Bearings, conditions: Conditions) -> tuple[Loads, Loads]:
    """Return the loads on A and on B; pair i is row i of both, or a broadcast of them."""
    cases = conditions.cases
    Fr_A, Fr_B = cases.radial_loads(A.z, B.z)
    Fa_A, Fa_B = axial_loads(Fr_A, Fr_B, A.Y, B.Y, conditions)
    return Loads(Fr_A, Fa_A), Loads(Fr_B, Fa_B)


def axial_loads(Fr_A: Floats, Fr_B: Floats, Y_A: Floats, Y_B: Floats, conditions: Conditions) -> tuple[Floats, Floats]:
    """Return the axial loads: shared by two bearings set against each other, or all of it on the locating unit."""
    resolved, K_a = conditions.resolved, conditions.cases.K_a
    if resolved.locating:
        Fa_A, Fa_B = paired.located_loads(resolved.locating, K_a)
        return Fa_A + 0.0 * Fr_A, Fa_B + 0.0 * Fr_B
    S_A = equilibrium.induced_axial_load_S(Fr_A, Y_A)
    S_B = equilibrium.induced_axial_load_S(Fr_B, Y_B)
    return equilibrium.axial_loads(resolved.arrangement, S_A, S_B, K_a)


@dataclass(frozen=True)
class State:
    """One bearing of each pair under its loads: per case (pairs, k), and over the spectrum (pairs,)."""

    Fr: Floats
    P: Floats
    P0: Floats
    L10: Floats  # million revolutions
    a_iso: Floats
    Lnmh: Floats
    life: Floats  # modified life over the spectrum [h]
    s0: Floats  # static safety in the worst case
    level: fitting.Codes  # load level in the worst running case, as its place in `recommend.LEVELS`


def state(bearings: Bearings, loads: Loads, conditions: Conditions) -> State:
    """Return what ISO 281 and ISO 76 say of the bearings under the loads."""
    cases, ep = conditions.cases, conditions.resolved.ep_additive
    if bearings.double:
        P = double_row.equivalent_dynamic_load(loads.Fr, loads.Fa, bearings.alpha)
        P0 = double_row.equivalent_static_load(loads.Fr, loads.Fa, bearings.alpha)
    else:
        P = dynamic.equivalent_dynamic_load_P(loads.Fr, loads.Fa, bearings.e, bearings.Y)
        P0 = static.equivalent_static_load_P0(loads.Fr, loads.Fa, bearings.Y0)
    # the loads of a case all grow with its peaks, so the equivalent load does too
    P0 = cases.shock * P0
    L10 = life.basic_rating_life_L10(bearings.C, P)
    factor = modified_life.a_iso_with_ep(bearings.kappa, bearings.e_C, bearings.Cu, P, ep)
    Lnm = life.modified_life_Lnm(conditions.a1, factor, L10)
    Lnmh = hours(Lnm, cases)
    return State(
        Fr=loads.Fr,
        P=P,
        P0=P0,
        L10=L10,
        a_iso=factor,
        Lnmh=Lnmh,
        life=over_spectrum(Lnmh, cases),
        s0=least(static.static_safety_s0(bearings.C0, P0)),
        level=_level(P, bearings.C[..., 0], conditions),
    )


def _level(P: Floats, C: Floats, conditions: Conditions) -> fitting.Codes:
    running = conditions.cases.running
    worst = greatest(P[..., running]) if running.any() else np.zeros(P.shape[:-1])
    return recommend.load_level(worst, C, conditions.resolved.shock == "heavy")


def hours(revolutions: Floats, cases: LoadCases) -> Floats:
    """Return lives of (pairs, k) million revolutions in hours; a standing case consumes no life."""
    # a standing case has no film either, so its modified life may be unknown (NaN) without harm
    return np.where(cases.running, life.life_in_hours(revolutions, cases.n), np.inf)


def over_spectrum(lives: Floats, cases: LoadCases) -> Floats:
    """Return the life over all cases [h] from the lives in each, of shape (pairs, k)."""
    if not cases.running.any():
        return np.full(lives.shape[:-1], np.inf)
    return life.spectrum_life(cases.share, lives)
