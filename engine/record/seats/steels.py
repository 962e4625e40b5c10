"""The steel of the chosen pair: what its rings are taken to be of, and the verdict on both heat treatments."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine import fitting
from engine.catalogue.materials import steels
from engine.checks import fits, steel
from engine.checks.every import Evaluated
from engine.figures import Block, Figure
from engine.operating import Conditions
from engine.sources import ISO_683_17, Citation, citation_of
from engine.steel import growth
from engine.steel.grades import TREATMENTS, Grade
from engine.steel.verdict import SIMILAR_LIFE

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

NAMES = {"through": "through-hardened", "case": "case-hardened"}
_PROPERTIES = (
    ("hardness", "hardness at the surface", "HRC"), ("core_toughness", "toughness of the core", "MPa m^.5"),
    ("hoop", "lasting tension allowed", "MPa"), ("temperature", "limit in service", "degC"),
    ("austenite", "retained austenite", "%"), ("wall", "greatest wall made of it", "mm"),
    ("wear", "place in dirt (0 to 2)", ""), ("cost", "relative cost of the steel", ""),
)  # fmt: skip


def block(evaluated: Evaluated, conditions: Conditions) -> Block:
    """Return the steels that both bearings are taken to be of, with where each value comes from."""
    both = [_grade(rows) for rows in (evaluated.A, evaluated.B)]
    standard = str(Citation(ISO_683_17, ""))
    figures = [Figure("grade", "", "steel taken", "", standard, both[0].designation, both[1].designation)]
    for name, words, unit in _PROPERTIES:
        values = [getattr(one, name) for one in both]
        source = "catalogue of steels: " + " or ".join(dict.fromkeys(value.source for value in values))
        figures.append(Figure(f"steel_{name}", "", words, unit, source, values[0].value, values[1].value))
    figures.append(_growth(evaluated, conditions, both))
    return Block("steel", "Steel of the rings", tuple(figures))


def _grade(rows: Catalogue) -> Grade:
    return steels.builtin().rows[int(fitting.steel_of(rows)[0])]


def _growth(evaluated: Evaluated, conditions: Conditions, both: list[Grade]) -> Figure:
    life, grown = conditions.resolved.life, []
    for rows, loads, one in zip((evaluated.A, evaluated.B), evaluated.loads or (None, None), both, strict=True):
        T, _ = steel.temperatures(rows, loads, conditions)
        strain = growth.growth_strain(one.austenite.value, life, T[0], one.temperature.value)
        grown.append(float(growth.interference_lost(rows.d[0], strain)) * fits.UM)
    source = str(citation_of(growth.growth_strain))
    return Figure("steel_growth", "", "growth of the cone's bore in its life", "um", source, grown[0], grown[1])


def sentences(evaluated: Evaluated, conditions: Conditions, sides: str = "AB") -> tuple[str, ...]:
    """Return the verdict on both heat treatments for the bearings of some sides, each with its reason."""
    found: list[str] = []
    for side in sides:
        at = "AB".index(side)
        rows = (evaluated.A, evaluated.B)[at]
        loads = evaluated.loads[at] if evaluated.loads is not None else None
        told = steel.told(rows, side, loads, conditions)
        found += not_at_hand(evaluated, conditions, side)
        for treatment in TREATMENTS:
            this = ", as this bearing is" if str(rows.steel[0]) == treatment else ""
            found.append(f"{side}, {NAMES[treatment]}{this}: {told.sentence(0, treatment)}")
    return (*found, SIMILAR_LIFE)


def not_at_hand(evaluated: Evaluated, conditions: Conditions, side: str) -> tuple[str, ...]:
    """Return that the fit of one side is left out of the verdict, where its limits are not at hand."""
    rows = (evaluated.A, evaluated.B)["AB".index(side)]
    if fitting.seats_of(rows, side, conditions.resolved).known[0]:
        return ()
    return (f"{side}: the limits of its tolerance class are not at hand, so its fit is left out",)
