"""Everything computed about the chosen pair, as figures and checks with their clauses."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine import operating
from engine.checks.check import Outcome
from engine.checks.every import Evaluated, evaluate
from engine.figures import Block, Figure
from engine.lubrication import contamination, viscosity, viscosity_ratio
from engine.numerics import Floats
from engine.operating import Conditions
from engine.pair import arrangement, equilibrium
from engine.rating import dynamic, fatigue_limit, geometry, life, modified_life, reliability, static, system
from engine.sources import ISO_355, Citation, citation_of
from engine.steel.verdict import reasons_for_case_hardening

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


@dataclass(frozen=True)
class CheckRow:
    """One check of the chosen pair with its numbers."""

    key: str
    name: str
    side: str
    demand: float
    capacity: float
    unit: str
    utilisation: float
    passes: bool
    advisory: bool
    source: str
    demand_is: str
    capacity_is: str


@dataclass(frozen=True)
class Result:
    """The chosen pair, computed: figures in blocks, checks, the verdict, what was assumed and what to mind."""

    bearing_A: str
    bearing_B: str
    blocks: tuple[Block, ...]
    checks: tuple[CheckRow, ...]
    assumptions: tuple[str, ...]
    cautions: tuple[str, ...]
    missing: tuple[str, ...]

    @property
    def passes(self) -> bool:
        """Whether loads are known and every check that is not advisory passes."""
        return not self.missing and all(check.passes for check in self.checks if not check.advisory)

    @property
    def verdict(self) -> str:
        """Return passes, fails, or incomplete."""
        if any(not check.passes for check in self.checks if not check.advisory):
            return "fails"
        return "incomplete" if self.missing else "passes"


def compute(A: Catalogue, B: Catalogue, conditions: Conditions) -> Result:
    """Return everything about one pair, given as catalogues of one row each."""
    evaluated = evaluate(A, B, conditions)
    checks = tuple(_check_row(outcome) for outcome in evaluated.outcomes)
    blocks = [_bearings(A, B)]
    if evaluated.states is not None:
        blocks += [_pair_block(evaluated, conditions), *_case_blocks(evaluated, conditions)]
    resolved = conditions.resolved
    return Result(
        bearing_A=str(A.designation[0]),
        bearing_B=str(B.designation[0]),
        blocks=tuple(blocks),
        checks=checks,
        assumptions=tuple(str(assumption) for assumption in resolved.assumptions),
        cautions=tuple(_cautions(checks, conditions)),
        missing=resolved.missing,
    )


def _check_row(outcome: Outcome) -> CheckRow:
    check = outcome.check

    def first(values: Floats) -> float:
        return float(np.ravel(values)[0])

    return CheckRow(
        check.key, check.name, outcome.side, first(outcome.demand), first(outcome.capacity), check.unit,
        first(outcome.utilisation), bool(np.ravel(outcome.passes)[0]), check.advisory, str(check.source),
        check.demand_is, check.capacity_is,
    )  # fmt: skip


_CATALOGUE = "catalogue"


def _bearings(A: Catalogue, B: Catalogue) -> Block:
    """Return what the catalogue says of both bearings; ratings name the clause they are rated by."""

    def of(column: str) -> tuple[float | str, float | str]:
        values = (getattr(A, column)[0], getattr(B, column)[0])
        if isinstance(values[0], str):
            return str(values[0]), str(values[1])
        return float(values[0]), float(values[1])

    def row(key: str, symbol: str, name: str, unit: str, source: str = _CATALOGUE, digits: int = 6) -> Figure:
        guessed = "".join(side for side, rows in zip("AB", (A, B), strict=True) if rows.is_estimated(key)[0])
        return Figure(key, symbol, name, unit, source, *of(key), digits=digits, estimated=guessed)

    degrees = [float(np.degrees(rows.alpha[0])) for rows in (A, B)]
    return Block("bearings", "Bearings", (
        row("cone", "", "cone", ""), row("cup", "", "cup", ""), row("series", "", "series", ""),
        row("system", "", "measuring system", ""), row("listed", "", "listed as a set or formed of parts", ""),
        row("tolerance", "", "tolerance class", ""), row("profile", "", "roller profile", ""),
        row("availability", "", "availability", ""), row("cost", "", "relative cost", "", digits=3),
        row("steel", "", "steel (case- or through-hardened)", ""),
        row("d", "d", "bore", "mm"), row("D", "D", "outside diameter", "mm"), row("T", "T", "width", "mm"),
        row("B", "B", "cone width", "mm"), row("C", "C", "cup width", "mm"),
        Figure("alpha_deg", "alpha", "contact angle", "deg", str(Citation(ISO_355, "")), A=degrees[0], B=degrees[1]),
        row("Z", "Z", "rollers", "", digits=4), row("Dpw", "Dpw", "pitch diameter", "mm"),
        row("F", "F", "cone raceway diameter", "mm", digits=5), row("E", "E", "cup raceway diameter", "mm", digits=5),
        row("Cr", "Cr", "basic dynamic rating", "N", str(citation_of(dynamic.basic_dynamic_rating_Cr))),
        row("C0r", "C0r", "basic static rating", "N", str(citation_of(static.basic_static_rating_C0r))),
        row("Cu", "Cu", "fatigue load limit", "N", str(citation_of(fatigue_limit.fatigue_load_limit_Cu))),
        row("e", "e", "limiting ratio Fa/Fr", "", str(citation_of(geometry.limiting_ratio_e)), 4),
        row("Y", "Y", "axial load factor", "", str(citation_of(geometry.axial_factor_Y)), 4),
        row("Y0", "Y0", "static axial load factor", "", str(citation_of(geometry.static_axial_factor_Y0)), 4),
        row("a", "a", "load centre from cone back face", "mm", digits=4),
        row("mass", "m", "mass", "kg", digits=4),
        row("n_grease", "", "limiting speed, grease", "rpm"), row("n_oil", "", "limiting speed, oil", "rpm"),
        row("max_temperature", "", "limit of the steel", "degC"),
    ))  # fmt: skip


def _pair_block(evaluated: Evaluated, conditions: Conditions) -> Block:
    assert evaluated.states is not None and evaluated.bearings is not None
    A, B = evaluated.bearings
    states = evaluated.states
    lives = [float(state.life[0]) for state in states]
    basic = [
        float(operating.over_spectrum(operating.hours(s.L10, conditions.cases), conditions.cases)[0]) for s in states
    ]
    nu40, nu100 = operating.oil_viscosities(conditions.resolved)
    both = float(system.system_life(np.array(lives)))
    return Block("pair", "The pair", (
        Figure("z", "z", "load centre along the shaft", "mm", str(citation_of(arrangement.load_centres)),
               float(A.z[0, 0]), float(B.z[0, 0]), digits=5),
        Figure("spread", "", "effective spread", "mm", str(citation_of(arrangement.effective_spread)),
               float(arrangement.effective_spread(A.z[0, 0], B.z[0, 0])), digits=5),
        Figure("nu40", "nu40", "viscosity at 40 degC", "mm2/s", "lubricant", nu40),
        Figure("nu100", "nu100", "viscosity at 100 degC", "mm2/s", "lubricant", nu100),
        Figure("a1", "a1", "reliability factor", "", str(citation_of(reliability.reliability_factor_a1)),
               conditions.a1),
        Figure("s0", "s0", "static safety, worst case", "", str(citation_of(static.static_safety_s0)),
               A=float(states[0].s0[0]), B=float(states[1].s0[0])),
        Figure("L10h", "L10h", "basic rating life over all cases", "h", str(citation_of(life.spectrum_life)),
               A=basic[0], B=basic[1]),
        Figure("Lnmh", "Lnmh", "modified life over all cases", "h", str(citation_of(life.spectrum_life)),
               A=lives[0], B=lives[1]),
        Figure("Lnmh_system", "", "modified life of both as a system", "h", str(citation_of(system.system_life)), both),
    ))  # fmt: skip


def _case_blocks(evaluated: Evaluated, conditions: Conditions) -> list[Block]:
    cases = conditions.cases
    return [
        Block(f"case_{at + 1}", f"Load case {at + 1}: {name}", _case(evaluated, conditions, at))
        for at, name in enumerate(cases.names)
    ]


def _case(evaluated: Evaluated, conditions: Conditions, at: int) -> tuple[Figure, ...]:
    assert evaluated.states is not None and evaluated.bearings is not None and evaluated.loads is not None
    cases, bearings, loads, states = conditions.cases, evaluated.bearings, evaluated.loads, evaluated.states

    def both(values: list[Floats]) -> tuple[float, float]:
        return float(values[0][0, at]), float(values[1][0, at])

    induced = [equilibrium.induced_axial_load_S(load.Fr, b.Y) for load, b in zip(loads, bearings, strict=True)]
    nu1 = [viscosity_ratio.reference_viscosity_nu1(cases.n[at], rows.Dpw[0]) for rows in (evaluated.A, evaluated.B)]
    kappa_of, contaminated = citation_of(viscosity_ratio.viscosity_ratio_kappa), citation_of(contamination.e_C_of)
    L10h = [operating.hours(state.L10, cases) for state in states]
    return (
        Figure("share", "q", "share of time", "%", "answer", 100.0 * float(cases.share[at])),
        Figure("n", "n", "speed", "rpm", "answer", float(cases.n[at])),
        Figure("K_a", "Ka", "external axial force, positive to B", "N", "answer", float(cases.K_a[at])),
        Figure("Fr", "Fr", "radial load", "N", "Statics, reactions on the load centres",
               *both([x.Fr for x in loads]), digits=5),
        Figure("S", "S", "induced axial load", "N", str(citation_of(equilibrium.induced_axial_load_S)),
               *both(induced), digits=5),
        Figure("Fa", "Fa", "axial load", "N", str(citation_of(equilibrium.axial_loads)),
               *both([x.Fa for x in loads]), digits=5),
        Figure("P", "P", "equivalent dynamic load", "N", str(citation_of(dynamic.equivalent_dynamic_load_P)),
               *both([s.P for s in states]), digits=5),
        Figure("P0", "P0", "equivalent static load, peaks included", "N",
               str(citation_of(static.equivalent_static_load_P0)), *both([s.P0 for s in states]), digits=5),
        Figure("temperature", "t", "temperature", "degC", "answer", float(cases.temperature[at])),
        Figure("nu", "nu", "viscosity at this temperature", "mm2/s", str(citation_of(viscosity.kinematic_viscosity)),
               float(conditions.nu[at])),
        Figure("nu1", "nu1", "reference viscosity", "mm2/s", str(citation_of(viscosity_ratio.reference_viscosity_nu1)),
               float(nu1[0]), float(nu1[1])),
        Figure("kappa", "kappa", "viscosity ratio", "", str(kappa_of), *both([b.kappa for b in bearings]), digits=3),
        Figure("e_C", "eC", "contamination factor", "", str(contaminated), *both([b.e_C for b in bearings]), digits=3),
        Figure("a_iso", "aISO", "life modification factor", "", str(citation_of(modified_life.a_iso)),
               *both([s.a_iso for s in states]), digits=3),
        Figure("L10h", "L10h", "basic rating life", "h", str(citation_of(life.basic_rating_life_L10)), *both(L10h)),
        Figure("Lnmh", "Lnmh", "modified rating life", "h", str(citation_of(life.modified_life_Lnm)),
               *both([s.Lnmh for s in states])),
    )  # fmt: skip


def _cautions(checks: tuple[CheckRow, ...], conditions: Conditions) -> list[str]:
    resolved = conditions.resolved
    found = [
        f"{c.name} at {c.side}: {c.capacity_is} is short of {c.demand_is}"
        for c in checks
        if c.advisory and not c.passes
    ]
    reasons = reasons_for_case_hardening(
        resolved.shock, resolved.heavy_interference, resolved.hollow_shaft, resolved.dirt
    )
    found += [f"Case-hardened rings are asked for: {reason}" for reason in reasons]
    found += _tight_ring(resolved.rotating_ring, resolved.load_direction)
    return found


def _tight_ring(rotating_ring: str, load_direction: str) -> list[str]:
    """Return which ring sees a circumferential load and must sit tightly; by the definition of the load itself."""
    if load_direction == "indeterminate":
        return ["The load direction is unknown: both rings must sit tightly (circumferential load on either)"]
    load_turns_with = {"with_cone": "cone", "with_cup": "cup"}.get(load_direction, "")
    turning = [ring for ring in ("cone", "cup") if (ring == rotating_ring) != (ring == load_turns_with)]
    # a load that turns with the turning ring stands still relative to it and walks round the other one
    return [f"The {ring} sees a circumferential load and must sit tightly on its seat" for ring in turning]
