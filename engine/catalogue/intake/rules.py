"""Figures of a row that contradict each other, and how far apart they may be.

Every rule compares stated values, or a stated value with what the others lead to. Two bands belong to it: inside the
first nothing is said; between the two the row is kept and a warning is given; outside the second no bearing can have
both values, and the row is left out. The bands are wide enough for other ways of rating and rounding and narrow
enough for a wrong unit, a swapped column or a lost decimal sign; common practice, no source.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from engine.catalogue.intake.estimate import STEEL_SHARE, pitch_diameter, ring_mass, roller_diameter, roller_number
from engine.catalogue.section.raceways import load_centre_distance_a
from engine.catalogue.section.rollers import gap_ratio
from engine.numerics import Floats
from engine.rating.dynamic import basic_dynamic_rating_Cr
from engine.rating.fatigue_limit import fatigue_load_limit_Cu
from engine.rating.geometry import axial_factor_Y, limiting_ratio_e
from engine.rating.static import basic_static_rating_C0r

Values = Mapping[str, Floats]
#: Share of the cup width that the roller contact takes where the rollers are not stated; common practice.
_CONTACT_SHARE = 0.85


@dataclass(frozen=True)
class Rule:
    """A figure of a row: the column to blame, the columns it needs stated, and the two bands.

    `around` is the value that fits best; `proportional` says that the figure goes up as the blamed column does, so
    that a fitting value can be named; `touched` are further columns whose unit may be the cause.
    """

    column: str
    figure: str
    value: Callable[[Values], Floats]
    kept: tuple[float, float]
    possible: tuple[float, float]
    needs: tuple[str, ...] = ()
    touched: tuple[str, ...] = ()
    around: float = 1.0
    proportional: bool = False

    @property
    def stated(self) -> tuple[str, ...]:
        """The columns that must be stated for the rule to say anything."""
        return (self.column, *self.needs)

    @property
    def concerns(self) -> frozenset[str]:
        """The columns one of which is the cause."""
        return frozenset((self.column, *self.needs, *self.touched))


def _section(v: Values) -> tuple[Floats, Floats, Floats, Floats, Floats]:
    """Return the rollers Dwe, Lwe, Z, Dpw, alpha that the boundary dimensions suggest."""
    Dwe, Dpw = roller_diameter(v["d"], v["D"]), pitch_diameter(v["d"], v["D"])
    return Dwe, _CONTACT_SHARE * v["C"] / np.cos(v["alpha"]), roller_number(Dwe, Dpw), Dpw, v["alpha"]


def _height(v: Values) -> Floats:
    """Return D - d, NaN where the bore is the larger one, which a rule of its own tells."""
    return np.where(v["D"] > v["d"], v["D"] - v["d"], np.nan)


def _Cr_by_size(v: Values) -> Floats:
    return v["Cr"] / basic_dynamic_rating_Cr(*_section(v))


def _C0r_by_size(v: Values) -> Floats:
    return v["C0r"] / basic_static_rating_C0r(*_section(v))


def _load_line_miss(v: Values) -> Floats:
    return (v["a"] - load_centre_distance_a(v["T"], v["C"], v["Dwe"], v["Dpw"], v["alpha"])) / v["T"]


def _mass_by_ring(v: Values) -> Floats:
    return np.where(v["D"] > v["d"], v["mass"] / (ring_mass(v["d"], v["D"], v["T"]) / STEEL_SHARE), np.nan)


_SIZE = ("d", "D", "T")
RULES = (
    Rule(
        "D", "outside diameter over bore, D/d,", lambda v: v["D"] / v["d"], (1.05, 5), (1.02, 8), needs=("d",),
        around=1.8,
    ),
    Rule(
        "T", "width over section, T/(D - d),", lambda v: v["T"] / _height(v), (0.2, 1.5), (0.1, 2.5),
        needs=("d", "D"), around=0.5, proportional=True,
    ),
    Rule(
        "B", "cone width over width, B/T,", lambda v: v["B"] / v["T"], (0.5, 1.2), (0.3, 1.5), needs=("T",),
        around=0.95, proportional=True,
    ),
    Rule(
        "C", "cup width over width, C/T,", lambda v: v["C"] / v["T"], (0.3, 1.02), (0.2, 1.1), needs=("T",),
        around=0.78, proportional=True,
    ),
    Rule(
        "C", "cup width over cone width, C/B,", lambda v: v["C"] / v["B"], (0.4, 1.02), (0.3, 1.1), needs=("B",),
        around=0.8, proportional=True,
    ),
    Rule(
        "Cr", "Cr over the dynamic rating of rollers of this size", _Cr_by_size, (0.4, 2.5), (0.25, 3.5), touched=_SIZE,
        proportional=True,
    ),
    Rule(
        "C0r", "C0r over the static rating of rollers of this size", _C0r_by_size, (0.4, 2.5), (0.25, 3.5),
        touched=_SIZE, proportional=True,
    ),
    Rule(
        "C0r", "C0r over Cr", lambda v: v["C0r"] / v["Cr"], (0.75, 3.2), (0.4, 5), needs=("Cr",), around=1.3,
        proportional=True,
    ),
    Rule(
        "Cu", "Cu over the fatigue load limit of this C0r (ISO 281)",
        lambda v: v["Cu"] / fatigue_load_limit_Cu(v["C0r"], v["Dpw"]), (0.4, 2.5), (0.1, 10), touched=("C0r",),
        proportional=True,
    ),
    Rule(
        "e", "e over 1.5 tan(alpha) (ISO 281)", lambda v: v["e"] / limiting_ratio_e(v["alpha"]), (0.94, 1.06),
        (0.6, 1.6), needs=("alpha",), proportional=True,
    ),
    Rule(
        "Y", "Y over 0.4 cot(alpha) (ISO 281)", lambda v: v["Y"] / axial_factor_Y(v["alpha"]), (0.94, 1.06), (0.6, 1.6),
        needs=("alpha",), proportional=True,
    ),
    Rule(
        "Y", "Y e over 0.6 (ISO 281)", lambda v: v["Y"] * v["e"] / 0.6, (0.93, 1.07), (0.6, 1.6), needs=("e",),
        proportional=True,
    ),
    Rule(
        "Y0", "Y0 over 0.55 Y (ISO 76)", lambda v: v["Y0"] / (0.55 * v["Y"]), (0.9, 1.1), (0.6, 1.6), touched=("Y",),
        proportional=True,
    ),
    Rule(
        "a", "the distance of a from the load line of alpha and the widths, over T,", _load_line_miss, (-0.2, 0.2),
        (-0.4, 0.4), touched=("T",), around=0.0,
    ),
    Rule(
        "mass", "mass over that of a solid steel ring of this size", _mass_by_ring, (0.35, 1.05), (0.2, 1.5),
        touched=_SIZE, around=0.7, proportional=True,
    ),
    Rule(
        "n_grease", "n_grease (d + D)/2 over 250 000 mm/min",
        lambda v: v["n_grease"] * pitch_diameter(v["d"], v["D"]) / 250_000, (0.1, 6), (0.001, 600), touched=_SIZE,
        proportional=True,
    ),
    Rule(
        "n_oil", "n_oil over n_grease", lambda v: v["n_oil"] / v["n_grease"], (1, 5), (0.01, 100), needs=("n_grease",),
        around=1.5, proportional=True,
    ),
    Rule(
        "Dpw", "Dpw over (d + D)/2", lambda v: v["Dpw"] / pitch_diameter(v["d"], v["D"]), (0.85, 1.15), (0.7, 1.3),
        touched=_SIZE, proportional=True,
    ),
    Rule(
        "Dwe", "Dwe over (D - d)", lambda v: v["Dwe"] / _height(v), (0.1, 0.4), (0.05, 0.5), touched=_SIZE,
        around=0.25, proportional=True,
    ),
    Rule(
        "Lwe", "Lwe cos(alpha) over the cup width C", lambda v: v["Lwe"] * np.cos(v["alpha"]) / v["C"], (0.3, 1.05),
        (0.2, 1.3), touched=("C", "T"), around=0.8, proportional=True,
    ),
    Rule(
        "Z", "the gap between rollers, Dpw sin(pi/Z)/Dwe - 1,", lambda v: gap_ratio(v["Dwe"], v["Dpw"], v["Z"]),
        (-0.001, 1.5), (-0.02, 3), needs=("Dwe", "Dpw"), around=0.2,
    ),
    Rule(
        "F", "mean raceway diameter of the cone over bore, F/d,", lambda v: v["F"] / v["d"], (1, 3), (1, 4), around=1.2,
    ),
    Rule(
        "E", "mean raceway diameter of the cup over outside diameter, E/D,", lambda v: v["E"] / v["D"], (0.5, 1),
        (0.35, 1), around=0.85,
    ),
    Rule(
        "r_cone", "chamfer of the cone over the section height, 2 r_cone/(D - d),",
        lambda v: 2 * v["r_cone"] / _height(v), (0.01, 0.25), (0.002, 0.6), touched=_SIZE, around=0.08,
        proportional=True,
    ),
    Rule(
        "r_cup", "chamfer of the cup over the section height, 2 r_cup/(D - d),",
        lambda v: 2 * v["r_cup"] / _height(v), (0.01, 0.25), (0.002, 0.6), touched=_SIZE, around=0.07,
        proportional=True,
    ),
)  # fmt: skip


def badness(rule: Rule, values: Values) -> Floats:
    """Return how far off the figure is: up to 1 inside the first band, NaN where it cannot be told."""
    figure = rule.value(values)
    low, high = rule.kept
    if rule.around <= 0 or low <= 0:
        width = np.where(figure < rule.around, rule.around - low, high - rule.around)
        return np.abs(figure - rule.around) / width
    # a ratio that is not positive is further off than any other
    distance = np.log(np.where(figure > 0, figure, 1e-12) / rule.around)
    off = np.abs(distance) / np.where(distance < 0, np.log(rule.around / low), np.log(high / rule.around))
    return np.where(np.isnan(figure), np.nan, off)
