"""Figures of the chosen pair in blocks: the bearings, the pair, and each load case down to what acts on the shaft."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from engine import operating
from engine.checks.every import Evaluated
from engine.duty import onshaft, shaft, spectrum, statics
from engine.duty.element import Element, Step
from engine.duty.machine import torque
from engine.duty.machine.torque import Balance
from engine.figures import Block, Figure, two
from engine.lubrication import contamination, heat, viscosity, viscosity_ratio
from engine.numerics import Floats
from engine.operating import Conditions, State
from engine.pair import arrangement, equilibrium
from engine.rating import dynamic, fatigue_limit, geometry, life, modified_life, reliability, static, system
from engine.record.loads import of_duty
from engine.record.loads.origin import ANSWER, of_given, of_share, origin, takes_level
from engine.record.lubrication.case_block import film_and_heat, value
from engine.sources import ISO_355, Citation, citation_of

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: Of a measured spectrum so many bins are shown with their figures.
MOST_BINS = 8
_CATALOGUE = "catalogue"


def bearings_block(A: Catalogue, B: Catalogue) -> Block:
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


def pair_block(evaluated: Evaluated, conditions: Conditions) -> Block:
    """Return what belongs to the pair as a whole and to all cases together."""
    assert evaluated.states is not None and evaluated.bearings is not None
    A, B = evaluated.bearings
    states = evaluated.states
    lives = [float(state.life[0]) for state in states]
    basic = [
        float(operating.over_spectrum(operating.hours(s.L10, conditions.cases), conditions.cases)[0]) for s in states
    ]
    both = float(system.system_life(np.array(lives)))
    cases = conditions.cases
    P_m = [float(life.mean_load(cases.share, cases.n, state.P[0])) for state in states]
    return Block("pair", "The pair", (
        Figure("z", "z", "load centre along the shaft", "mm", str(citation_of(arrangement.load_centres)),
               float(A.z[0, 0]), float(B.z[0, 0]), digits=5),
        Figure("spread", "", "effective spread", "mm", str(citation_of(arrangement.effective_spread)),
               float(arrangement.effective_spread(A.z[0, 0], B.z[0, 0])), digits=5),
        Figure("a1", "a1", "reliability factor", "", str(citation_of(reliability.reliability_factor_a1)),
               conditions.a1),
        Figure("n_m", "nm", "mean speed", "rpm", str(citation_of(spectrum.mean_speed)),
               float(spectrum.mean_speed(cases.share, cases.n))),
        Figure("P_m", "Pm", "constant load that wears as all cases do", "N", str(citation_of(life.mean_load)),
               P_m[0], P_m[1], digits=5),
        Figure("s0", "s0", "static safety, worst case", "", str(citation_of(static.static_safety_s0)),
               A=float(states[0].s0[0]), B=float(states[1].s0[0])),
        Figure("L10h", "L10h", "basic rating life over all cases", "h", str(citation_of(life.spectrum_life)),
               A=basic[0], B=basic[1]),
        Figure("Lnmh", "Lnmh", "modified life over all cases", "h", str(citation_of(life.spectrum_life)),
               A=lives[0], B=lives[1]),
        Figure("Lnmh_system", "", "modified life of both as a system", "h", str(citation_of(system.system_life)), both),
    ))  # fmt: skip


def case_blocks(evaluated: Evaluated, conditions: Conditions) -> list[Block]:
    """Return each load case: what acts on the shaft, then loads and life; of a spectrum the bins that wear most."""
    assert evaluated.states is not None
    cases = conditions.cases
    found, balances = [], of_duty.balances(conditions)
    for case, elements in enumerate(cases.elements):
        number = conditions.resolved.cases[case].number
        title = f"Load case {number}"
        # what stands in the answers as it is needs no unfolding
        made = [(path, one) for path, one in zip(_paths(conditions, case), elements, strict=True) if one.steps]
        found += [
            element_block(
                f"case_{number}_on_shaft_{at + 1}", title, one, (conditions, path, f"duty.cases[{number - 1}]")
            )
            for at, (path, one) in enumerate(made)
        ]
        found += _torques_block(number, title, balances[case])
        bins = [at for at, of in enumerate(cases.case_of) if of == case]
        for at in _heaviest(bins, evaluated.states, conditions):
            key = f"case_{number}" if len(bins) == 1 else f"case_{number}_bin_{at - bins[0] + 1}"
            of_bin = f", bin {at - bins[0] + 1}" if len(bins) > 1 else ""
            named = f"{title}: {cases.names[at]}"
            found.append(_statics_block(evaluated, conditions, at, (key, f"{title}, statics{of_bin}")))
            found.append(Block(key, named, _case(evaluated, conditions, at)))
            found.append(Block(f"{key}_film", f"{named}, film and heat", film_and_heat(evaluated, conditions, at)))
    return found


def _paths(conditions: Conditions, case: int) -> list[str]:
    """Return the path of the answers to which each element of a case belongs; its own forces to the case itself."""
    resolved = conditions.resolved
    one = resolved.cases[case]
    return [
        f"shaft.elements[{number - 1}]" if number else f"duty.cases[{one.number - 1}]"
        for number, _ in onshaft.numbered(resolved.shaft, one)
    ]


def _torques_block(number: int, title: str, held: Balance) -> list[Block]:
    """Return the sums of the torques where any element carries one."""
    made = torque.steps(held)
    figures = tuple(_step(f"case_{number}_torques_{at}", step) for at, step in enumerate(made, 1))
    return [Block(f"case_{number}_torques", f"{title}, torques on the shaft", figures)] if figures else []


def _heaviest(bins: list[int], states: tuple[State, State], conditions: Conditions) -> list[int]:
    """Return the bins of a case, or of very many those that take most life of either bearing, in their order."""
    if len(bins) <= MOST_BINS:
        return bins
    share = conditions.cases.share[bins]
    taken = sum(share / np.maximum(state.Lnmh[0, bins], 1e-300) for state in states)
    leading = np.argsort(-np.nan_to_num(taken), kind="stable")[:MOST_BINS]
    return sorted(bins[at] for at in leading.tolist())


def _statics_block(evaluated: Evaluated, conditions: Conditions, at: int, named: tuple[str, str]) -> Block:
    """Return how the radial loads come about: the sums of all forces, and the reactions on both load centres."""
    assert evaluated.bearings is not None
    cases, (A, B), (key, title) = conditions.cases, evaluated.bearings, named
    steps = shaft.unfolded(cases.forces.one(at), float(A.z[0, 0]), float(B.z[0, 0]))
    figures = tuple(_step(f"{key}_statics_{number}", step) for number, step in enumerate(steps, 1))
    return Block(f"{key}_statics", title, figures)


def element_block(key: str, title: str, element: Element, asked: tuple[Conditions, str, str]) -> Block:
    """Return how the forces of one element came about, line by line, angles in degrees.

    `asked` are the conditions, and the paths of the answers to the element and to its load case.
    """
    conditions, path, case = asked
    resolved = conditions.resolved

    def given(step: Step) -> str:
        return of_given(resolved, step, case if takes_level(step) else path)

    forces = (("F_y", "N"), ("F_z", "N"), ("F_a", "N"), ("M_y", "N mm"), ("M_z", "N mm"), ("T", "N mm"))
    named = {"F_y": "force in plane y", "F_z": "force in plane z", "F_a": "force along the shaft",
             "M_y": "moment in plane y", "M_z": "moment in plane z", "T": "torque, clockwise from A"}  # fmt: skip
    steps = [_step(f"{key}_{at + 1}", step, given(step)) for at, step in enumerate(element.steps)]
    results = [
        # the amount of the torque stands above under its own symbol
        Figure(f"{key}_{symbol}", "T_s" if symbol == "T" else symbol, f"{named[symbol]}, in this case", unit,
               "Statics, sum of the lines above", float(getattr(element, symbol)), digits=5)
        for symbol, unit in forces if getattr(element, symbol)
    ]  # fmt: skip
    place = Figure(
        f"{key}_z", "z", "position on the shaft", "mm", origin(resolved, f"{path}.position"), float(element.z), digits=5
    )
    turning = "; it turns with the shaft" if element.rotating else ""
    return Block(key, f"{title}, on the shaft: {element.name}{turning}", (place, *steps, *results))


def _step(key: str, step: Step, given: str = ANSWER) -> Figure:
    value, unit = (np.degrees(step.value), "deg") if step.unit == "rad" else (step.value, step.unit.replace("-", ""))
    source = ": ".join(part for part in (step.source, step.formula) if part) or given
    return Figure(key, step.symbol, step.name, unit, source, float(value), digits=5)


def _case(evaluated: Evaluated, conditions: Conditions, at: int) -> tuple[Figure, ...]:
    assert evaluated.states is not None and evaluated.bearings is not None and evaluated.loads is not None
    cases, bearings, loads, states = conditions.cases, evaluated.bearings, evaluated.loads, evaluated.states

    def both(values: list[Floats]) -> tuple[float, float]:
        return float(values[0][0, at]), float(values[1][0, at])

    induced = [equilibrium.induced_axial_load_S(load.Fr, b.Y) for load, b in zip(loads, bearings, strict=True)]
    nu1 = [viscosity_ratio.reference_viscosity_nu1(cases.n[at], rows.Dpw[0]) for rows in (evaluated.A, evaluated.B)]
    kappa_of, contaminated = citation_of(viscosity_ratio.viscosity_ratio_kappa), citation_of(contamination.e_C_of)
    L10h = [operating.hours(state.L10, cases) for state in states]
    warmth, settled = evaluated.warmth, str(citation_of(heat.settle))
    assert warmth is not None
    reactions = cases.bearing_loads(bearings[0].z, bearings[1].z)
    return (
        Figure("share", "q", "share of time", "%", of_share(conditions.resolved, cases.case_of[at]),
               100.0 * float(cases.share[at])),
        Figure("n", "n", "speed", "rpm", "answer", float(cases.n[at])),
        Figure("K_a", "Ka", "external axial force, positive to B", "N", "Statics, sum of the forces along the shaft",
               float(cases.K_a[at])),
        Figure("R_y", "Ry", "reaction in plane y", "N", str(citation_of(statics.reactions)),
               *both([one.R_y for one in reactions]), digits=5),
        Figure("R_z", "Rz", "reaction in plane z", "N", str(citation_of(statics.reactions)),
               *both([one.R_z for one in reactions]), digits=5),
        Figure("direction", "", "direction of the load, from plane y to z", "deg", str(citation_of(statics.direction)),
               *both([np.degrees(one.angle) for one in reactions]), digits=4),
        Figure("Fr", "Fr", "radial load, with what turns with the shaft", "N", str(citation_of(statics.radial_load)),
               *both([x.Fr for x in loads]), digits=5),
        Figure("S", "S", "induced axial load", "N", str(citation_of(equilibrium.induced_axial_load_S)),
               *both(induced), digits=5),
        Figure("Fa", "Fa", "axial load", "N", str(citation_of(equilibrium.axial_loads)),
               *both([x.Fa for x in loads]), digits=5),
        Figure("P", "P", "equivalent dynamic load", "N", str(citation_of(dynamic.equivalent_dynamic_load_P)),
               *both([s.P for s in states]), digits=5),
        Figure("P0", "P0", "equivalent static load, peaks included", "N",
               str(citation_of(static.equivalent_static_load_P0)), *both([s.P0 for s in states]), digits=5),
        Figure("temperature", "t", "temperature", "degC", settled if conditions.settling[at] else "answer",
               *two(value(T, at) for T in warmth.T)),
        Figure("nu", "nu", "viscosity at this temperature", "mm2/s",
               str(citation_of(viscosity.kinematic_viscosity_full)), *two(value(nu, at) for nu in warmth.nu)),
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
