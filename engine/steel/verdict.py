"""Case-hardened or through-hardened: what the duty asks of the rings, and what each heat treatment offers.

Rules of the trade, common practice, no source: both treatments live about equally long in rolling contact; the soft
core of a case-hardened ring stops a crack under shock and lasting tension, and its hard surface wears better in dirt.
`verdicts` computes from the fit and the duty which treatment suits a ring.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from engine.numerics import Floats
from engine.steel import growth, toughness
from engine.steel.grades import TREATMENTS, Grades

#: What is asked of a steel, in the order in which it is told, and what would help where it asks too much.
CHECKS = {
    "hoop": ("tension of the fit", "a lighter fit, or a thicker section"),
    "toughness": ("shock against the toughness of the core", "a lighter fit, or less shock"),
    "dirt": ("hard particles", "better seals, or filtering"),
    "heat": ("highest temperature", "cooling, or a stabilised ring"),
    "stability": ("growth over the life", "a cooler bearing, or a stabilised ring"),
    "wall": ("thickness of the ring", "a steel that hardens deeper"),
}
SUITS, CONDITION, DOES_NOT = 0, 1, 2
OUTCOMES = ("suits", "suits with a condition", "does not suit")
#: Above this utilisation a steel suits on the condition that nothing gets worse; common practice, no source.
CLOSE = 0.9
#: Asked of the place among the treatments in hard-particle dirt; common practice, no source.
DIRT = {"none": 0.0, "some": 1.0, "much": 2.0}
#: Checks that cannot creep up to their limit: places in dirt go by steps, and a ring keeps its thickness.
FIXED = ("dirt", "wall")
SIMILAR_LIFE = "Rolling life decides nothing here: ISO 281 rates clean case- and through-hardened steel alike."


@dataclass(frozen=True)
class Asked:
    """What the duty asks of the steel of n rings; the columns (n,) come from the fit, the rest from the answers."""

    hoop: Floats  # greatest tangential tension at the tight end of the fit [MPa]
    spare: Floats  # interference in operation beyond what the load needs [mm], negative where it is short
    size: Floats  # diameter of the seat [mm]
    wall: Floats  # thickness of the ring [mm]
    shock: str
    shock_factor: float | None  # of the worst load case; None for the usual one of the shock
    dirt: str
    peak_temperature: float | Floats  # [deg C], one for all rings or one for each
    temperature: float | Floats  # mean over the life [deg C], the same way
    life: float  # [h]


@dataclass(frozen=True)
class Verdicts:
    """What is said of both heat treatments for n rings: columns are those of TREATMENTS.

    `utilisation` is (n, steels, CHECKS); `outcome` is SUITS, CONDITION or DOES_NOT; `steel` the place of the steel that
    would do, or comes nearest, `usual` that of the steel made to stock that comes nearest; `deciding` the place of the
    check that tells most: the one that rules the treatment out, that the usual steel fails, or that comes closest to
    its limit.
    """

    grades: Grades
    utilisation: Floats
    outcome: NDArray[np.int64]
    steel: NDArray[np.int64]
    usual: NDArray[np.int64]
    deciding: NDArray[np.int64]

    def sentence(self, row: int, treatment: str) -> str:
        """Return the verdict on a treatment for one ring, with its reason."""
        column = TREATMENTS.index(treatment)
        outcome, place = int(self.outcome[row, column]), int(self.steel[row, column])
        check = int(self.deciding[row, column])
        usual = int(self.usual[row, column])
        reason, remedy = list(CHECKS.values())[check]
        used, usually = (_shown(float(self.utilisation[row, one, check])) for one in (place, usual))
        name = f"{self.grades.rows[place].name} (relative cost {self.grades.rows[place].cost.value:g})"
        if outcome == DOES_NOT:
            return f"{OUTCOMES[outcome]}: {reason} at {used} of what {name} allows; {remedy} would help"
        if outcome == SUITS:
            return f"{OUTCOMES[outcome]}: {name}; nearest its limit is {reason}, at {used}"
        if not self.grades.rows[place].ordinary:
            was = f"{reason} is at {usually} of what {self.grades.rows[usual].name} allows"
            return f"{OUTCOMES[outcome]}: made to order as {name}, since {was}"
        return f"{OUTCOMES[outcome]}: {name}, if nothing gets worse: {reason} is at {used} of its limit"


def _shown(utilisation: float) -> str:
    return "an unknown share" if np.isnan(utilisation) else f"{utilisation:.2f}"


def demands(asked: Asked, grades: Grades) -> tuple[Floats, Floats]:
    """Return what is asked and what each steel allows, both (n, steels, CHECKS)."""
    of = {name: grades.column(name) for name in ("hoop", "core_toughness", "wear", "temperature", "austenite", "wall")}
    hoop, spare, size, wall = (
        np.asarray(column, dtype=np.float64)[:, None] for column in (asked.hoop, asked.spare, asked.size, asked.wall)
    )
    hottest, mean = (np.asarray(T, dtype=np.float64)[..., None] for T in (asked.peak_temperature, asked.temperature))
    factor = toughness.FACTOR[asked.shock] if asked.shock_factor is None else asked.shock_factor
    intensity = toughness.toughness_demand(hoop, factor, toughness.FLOOR[asked.shock])
    strain = growth.growth_strain(of["austenite"], asked.life, mean, of["temperature"])
    # a ring that holds its size as well as its kind is meant to is not to blame for a fit that is short: another steel
    # would not help. The check of the fit itself gives no such credit
    allowed = np.maximum(spare, growth.STABLE_STRAIN * size)
    lost = growth.interference_lost(size, strain)
    asked_of = (hoop, intensity, DIRT[asked.dirt], np.maximum(hottest, 0.0), lost, wall)
    offered = (of["hoop"], of["core_toughness"], of["wear"], of["temperature"], allowed, of["wall"])
    shape = (hoop.shape[0], len(grades))
    both = [np.stack([np.broadcast_to(one, shape) for one in side], axis=-1) for side in (asked_of, offered)]
    return both[0], both[1]


def verdicts(asked: Asked, grades: Grades) -> Verdicts:
    """Return which heat treatment suits n rings, and why: computed from stress, shock, dirt, heat, growth and cost.

    Of each treatment the steels made to stock come first, the cheapest first; the first that passes every check is the
    one that would do. A treatment of which none passes does not suit.
    """
    demand, capacity = demands(asked, grades)
    with np.errstate(divide="ignore", invalid="ignore"):
        utilisation = np.where(demand > 0, demand / capacity, demand * 0.0)
    # what is not known cannot pass
    known = np.where(np.isnan(utilisation), np.inf, utilisation)
    worst = known.max(axis=-1)
    found = [_of_treatment(known, worst, grades, treatment) for treatment in TREATMENTS]
    outcome, steel, usual, deciding = (np.stack(columns, axis=-1) for columns in zip(*found, strict=True))
    return Verdicts(grades, utilisation, outcome, steel, usual, deciding)


def _of_treatment(known: Floats, worst: Floats, grades: Grades, treatment: str) -> tuple[NDArray[np.int64], ...]:
    """Return outcome, steel, usual steel and deciding check of one treatment, each (n,)."""
    places = np.array(grades.of_treatment(treatment), dtype=np.int64)
    rows = np.arange(len(known))
    passes = worst[:, places] <= 1.0
    some = passes.any(axis=-1)
    steel = np.where(some, places[passes.argmax(axis=-1)], places[worst[:, places].argmin(axis=-1)])
    to_order = some & ~grades.ordinary[steel]
    stocked = places[grades.ordinary[places]]
    stocked = stocked if stocked.size else places
    usual = stocked[worst[:, stocked].argmin(axis=-1)]
    # made to order for the sake of the check that the usual steel fails most
    deciding = known[rows, np.where(to_order, usual, steel)].argmax(axis=-1)
    may_worsen = [name not in FIXED for name in CHECKS]
    close = known[rows, steel][:, may_worsen].max(axis=-1) > CLOSE
    outcome = np.where(~some, DOES_NOT, np.where(to_order | close, CONDITION, SUITS))
    return outcome, steel, usual, deciding
