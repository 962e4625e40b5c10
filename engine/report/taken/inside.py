"""What the figures of film, friction, rollers and setting take that stands nowhere else: sizes, constants, the model.

With it who has only the report can redo these too, down to the load of every roller.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

import numpy as np

from engine.catalogue.section import raceways
from engine.distribution import contact, reference_life
from engine.distribution.life_curve import closing_way
from engine.distribution.rollers import LAMINAE
from engine.distribution.setting_chain import fit_after_growth
from engine.lubrication import contamination, cooling, friction, oil, thermal_speed, viscosity_index
from engine.lubrication.contact import film, rib, rollers
from engine.rating import dynamic, geometry
from engine.report.parts import Cell, Items, Part, Table, row
from engine.seat import interference, rotation
from engine.sources import COMMON_PRACTICE, Citation, citation_of
from engine.steel import growth, toughness
from engine.units import number_text

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue
    from engine.record.computed import Computed

_PRACTICE = str(COMMON_PRACTICE.short)
_DIGITS = 8
#: Formulas that the figures above are made with, beside those that the figures name themselves.
_ON_THE_WAY: tuple[Callable[..., object], ...] = (
    contamination.contamination_factor_e_C, dynamic.f_c, raceways.cup_raceway_diameter_E,
    raceways.cone_raceway_diameter_F, raceways.load_centre_distance_a,
    rollers.load_integrals, rollers.entrainment_speed_u, film.dimensionless, film.minimum_film_H, rib.rib_force,
    rib.rib_torque, thermal_speed.heat_flow, thermal_speed.speed_ratio, contact.profile, contact.curvature_sum,
    contact.cone_load, reference_life.lamina_equivalent_load, reference_life.lamina_bearing_load_P_s,
    fit_after_growth, interference.centrifugal_loss, rotation.growth_at_bore, rotation.growth_at_outside,
    rotation.hoop_of_turning_at_bore, rotation.hoop_of_turning_at_outside, growth.greatest_strain,
    toughness.critical_tension,
)  # fmt: skip
#: How the load distribution is made of these, in the words of one who has to do it again.
MODEL = (
    "Rollers stand at psi = 360 deg j/Z, j from 0 to Z - 1, from plane y towards plane z. The cone of a bearing moves "
    "against its cup, at its load centre, by u_y and u_z across and u_a along the shaft, positive to B, and stands at "
    "the slopes t_y and t_z against it.",
    "The middle of a roller is approached by cos(alpha) (u_y cos psi + u_z sin psi) + s sin(alpha) u_a - sin(alpha) "
    "x/2, x the setting of the pair, s = 1 at the bearing that a thrust towards B loads (back to back: A), -1 at the "
    "other.",
    "Each roller is cut into 30 laminae, the middle of lamina k at xi = (2k - 31)/30 of half its length, small end "
    "first. It is approached by -s xi (Lwe/2) (t_y cos psi + t_z sin psi) more, and by its profile twice less, at cone "
    "and cup. What is left above 0 loads it with (cL/30) delta^(10/9).",
    "The shaft is rigid unless its steps are answered. A cup that stands askew adds its angle to the slope at its "
    "bearing, in the direction of the load that statics puts on it. The shaft rests where forces and moments of all "
    "laminae equal the loads of the case.",
    "A roller presses on the cone through its lamina of length Lwe/30; all radii of a contact grow along the roller "
    "from the common apex, by 1 + x sin(alpha)/(E/2) at x from its middle, the sum of curvatures falls by that.",
    "The load zone counts, in steps of a degree, the places at which a roller would be loaded in any lamina.",
    "Life against setting is computed at 49 settings, evenly from -G to G. The longest life is the top of the parabola "
    "through the logarithm of the highest three; the band ends where straight lines between neighbours meet the share "
    "of it; heat and gain between two settings follow straight lines.",
    "Heat by load-dependent friction: M1 of both bearings with P1 of the loads that the rollers carry, Dpw for dm and "
    "0.4/tan(alpha) for Y. The gain is its slope over the setting (between both neighbours, at the ends to the one), "
    "times the change of the setting per kelvin as all temperatures rise in proportion from the surroundings, over the "
    "heat carried off per kelvin; it is taken at the tight end of the probable range.",
    "From the bench into service: each raceway grows by its share of the interference that warmth leaves, freely by "
    "its own temperature; rollers have the mean of cone and cup; shaft and housing lengthen between the back faces of "
    "the cones and of the cups, the rings beyond them to the middles of the cup contacts.",
    "The bench setting is that whose setting in service lies in the middle of the band with the scatter of all but the "
    "fitter to both sides. A quantity scatters by half its probable range, growth by half its amount; the probable "
    "range of the setting adds what each moves it by as the root of the sum of squares, the worst case adds all up.",
)


def inside(computed: Computed) -> Iterator[Part]:
    """Yield the sizes and constants at A and at B, the sources of the formulas between, and the model in words."""
    yield Table(("taken", "A", "B", "unit", "source"), tuple(_rows(computed)), frozenset({1, 2}))
    if any(block.key == "setting" for block in computed.result.blocks):
        yield Items(MODEL)


def sources(computed: Computed) -> list[str]:
    """Return the sources of the rows and of the formulas between."""
    if not any(block.key == "speeds" for block in computed.result.blocks):
        return []
    return [*(cells[4].text for cells in _rows(computed)), *(str(citation_of(one)) for one in _ON_THE_WAY)]


def _rows(computed: Computed) -> Iterator[tuple[Cell, ...]]:
    yield from _geometry(computed.sides)
    if any(block.key == "speeds" for block in computed.result.blocks):
        yield from _lubrication(computed)
        yield from _friction(computed)
    if any(block.key == "setting" for block in computed.result.blocks):
        yield from _distribution(computed)


def _both(words: str, values: list[float], unit: str, source: object) -> tuple[Cell, ...]:
    return row(words, *(number_text(value, _DIGITS) for value in values), unit, str(source))


def _alike(words: str, value: float, unit: str, source: object) -> tuple[Cell, ...]:
    return _both(words, [value, value], unit, source)


def _geometry(sides: tuple[Catalogue, Catalogue]) -> Iterator[tuple[Cell, ...]]:
    def of(column: str) -> list[float]:
        return [float(getattr(rows, column)[0]) for rows in sides]

    def made(formula: Callable[..., object], *columns: str) -> list[float]:
        return [
            float(np.ravel(np.asarray(formula(*(getattr(rows, name) for name in columns))))[0]) for rows in sides
        ]  # fmt: skip

    nu = made(raceways.roller_half_angle_nu, "Dwe", "Dpw", "alpha")
    half_angle, ratio = citation_of(raceways.roller_half_angle_nu), citation_of(geometry.gamma)
    yield _both("alpha, contact angle", [math.degrees(value) for value in of("alpha")], "deg", "catalogue")
    yield _both("Dwe, roller diameter at its middle", of("Dwe"), "mm", "catalogue")
    yield _both("Lwe, effective length of a roller", of("Lwe"), "mm", "catalogue")
    yield _both("nu (beta), half cone angle of a roller", [math.degrees(value) for value in nu], "deg", half_angle)
    yield _both("gamma = Dwe cos(alpha)/Dpw", made(geometry.gamma, "Dwe", "alpha", "Dpw"), "", ratio)
    middle = [T - C / 2 for T, C in zip(of("T"), of("C"), strict=True)]
    yield _both("middle of the cup contact from the cone back face, T - C/2", middle, "mm", "drawn section")


def _lubrication(computed: Computed) -> Iterator[tuple[Cell, ...]]:
    resolved = computed.conditions.resolved
    wet, lubricant = resolved.lubricated, resolved.lubricated.lubricant
    L, H = viscosity_index.reference_oils(lubricant.nu100)
    indexed = citation_of(viscosity_index.reference_oils)
    yield _alike("L at nu100, oil of index 0", float(L), "mm2/s", indexed)
    yield _alike("H at nu100, oil of index 100", float(H), "mm2/s", indexed)
    found = [contamination.constants_of(resolved.supply, resolved.cleanliness, rows.Dpw[0]) for rows in computed.sides]
    annex = citation_of(contamination.constants_of)
    yield _both("c1 of the contamination factor", [float(c1) for c1, _ in found], "", annex)
    yield _both("c2 of the contamination factor", [float(c2) for _, c2 in found], "", annex)
    k, s = oil.PRESSURE_CONSTANTS[lubricant.base]
    yield _alike("k of alpha_p = k eta^s", k, "1/MPa", citation_of(oil.pressure_viscosity_alpha_p))
    yield _alike("s of alpha_p = k eta^s", s, "", citation_of(oil.pressure_viscosity_alpha_p))
    yield _alike("E' = E/(1 - nu^2) of two steel bodies", film.E_STEEL, "MPa", citation_of(film.dimensionless))
    yield _alike(
        "Rq of roller and raceway together", wet.roughness * 1e3, "um", citation_of(film.combined_roughness)
    )  # fmt: skip
    radii = [rollers.contact_radii(rows.Dwe, rows.alpha, rows.Dpw) for rows in computed.sides]
    of_radii = citation_of(rollers.contact_radii)
    for at, name in enumerate(("cone", "cup")):
        yield _both(f"R, equivalent radius at the {name}", [float(one[at][0]) for one in radii], "mm", of_radii)


def _friction(computed: Computed) -> Iterator[tuple[Cell, ...]]:
    around = computed.conditions.resolved.lubricated.surroundings
    bath = [float(friction.f0_of_section(rows.d, rows.D, rows.T, rows.alpha)[0]) for rows in computed.sides]
    yield _both("f0 in an oil bath, by the section", bath, "", citation_of(friction.f0_of_section))
    yield _alike("f1", friction.F1, "", citation_of(friction.load_dependent_M1))
    yield _alike("friction coefficient at the rib", rib.MU_RIB, "", f"{_PRACTICE}, no source")
    yield _alike("temperature of the surroundings", around.ambient, "degC", "answer, else common practice, no source")
    carried = [
        float(cooling.reference_conductance(thermal_speed.reference_area(rows.d, rows.D, rows.T))[0])
        for rows in computed.sides
    ]
    yield _both("heat carried off by the seats per kelvin", carried, "W/K", citation_of(cooling.reference_conductance))


def _distribution(computed: Computed) -> Iterator[tuple[Cell, ...]]:
    sides = computed.sides

    def rating(rows: Catalogue, ring: int) -> float:
        gamma = geometry.gamma(rows.Dwe, rows.alpha, rows.Dpw)
        return float(reference_life.lamina_rating(rows.Cr, rows.Z, rows.alpha, gamma, ring)[0])

    yield _alike("ns, laminae of a roller", LAMINAE, "", Citation(COMMON_PRACTICE, "30 laminae, the least asked for"))
    yield _both("cL, spring of a roller", [float(contact.cL(rows.Lwe)[0]) for rows in sides], "N/mm^(10/9)",
                citation_of(contact.cL))  # fmt: skip
    for ring, name in ((1, "q_ci, rating of a lamina at the cone"), (-1, "q_ce, rating of a lamina at the cup")):
        rated = [rating(rows, ring) for rows in sides]
        yield _both(name, rated, "N", citation_of(reference_life.lamina_rating))
    # every bearing closes by 0.4 of its rating on both ends of the curve
    ends = [float(closing_way(one.Cr, one.Z, one.alpha, one.Lwe)[0]) for one in sides]
    yield _alike("G, end of the settings of the curve", 2 * sum(ends), "mm", citation_of(closing_way))
