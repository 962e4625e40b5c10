"""Advice from figures: which grade, which cleanliness, when oil in place of grease; each a change of one answer.

What a change does is computed anew by the caller's own function, so that the advice counts everything that the
calculation counts (a thicker oil runs hotter, a cleaner one lives longer).
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from engine.lubrication.cleanliness import LEVELS
from engine.lubrication.viscosity import NU100_AT_VI_95, kinematic_viscosity_full
from engine.lubrication.viscosity_index import nu100_of_index
from engine.numerics import Array, Floats, as_arrays
from engine.sources import COMMON_PRACTICE, ISO_281, cited

#: Grades that may be proposed; thinner ones are for spindles and have no viscosity index.
GRADES = tuple(NU100_AT_VI_95)
#: Grease is asked too much below this interval [h]: a week of running; common practice, no source.
INTERVAL_LEAST = 170.0


@dataclass(frozen=True)
class Change:
    """One answer to change: its path, the value to put there, and what for, in figures."""

    path: str
    value: str
    why: str

    @classmethod
    def of_grade(cls, VG: float, kappa: float, wanted: float) -> "Change | None":
        """Return the grade that raises kappa to what is wanted; None where that is reached or no grade reaches it."""
        if not np.isfinite(VG) or kappa >= wanted:
            return None
        why = f"kappa rises from {kappa:.2f} to {wanted:g} or more with VG {VG:.0f}"
        return cls("lubrication.grade", f"{VG:.0f}", why)

    @classmethod
    def of_cleanliness(cls, place: float, life: float, wanted: float) -> "Change | None":
        """Return the level that gives a life; None where that is reached or no level reaches it."""
        if not np.isfinite(place) or life >= wanted:
            return None
        why = f"the life rises from {life:.0f} h to {wanted:.0f} h or more"
        return cls("lubrication.cleanliness", LEVELS[int(place)], why)

    @classmethod
    def of_supply(cls, reasons: Sequence[str]) -> "Change | None":
        """Return the change from grease to an oil bath, or None where there is no reason."""
        return cls("lubrication.supply", "bath", "; ".join(reasons)) if reasons else None


@cited(ISO_281, "clause 9.3.3.4, solved for the viscosity grade")
def grade_for_kappa(wanted: Array, T: Array, nu1: Array, VI: Array) -> Floats:
    """Thinnest ISO viscosity grade that gives a viscosity ratio at a known temperature.

    least VG with nu(T; VG, VI) >= kappa nu1

    Parameters (any broadcastable shapes)
    ----------
    wanted : viscosity ratio wanted [-]
    T : temperature of the oil [deg C]
    nu1 : reference viscosity [mm2/s]
    VI : viscosity index of the oil [-]

    Returns
    -------
    VG [-], NaN where no grade reaches it

    Valid for grades 10 to 3200 whose viscosity the chart covers at T.

    Source: ISO 281:2007, clause 9.3.3.4, solved for the viscosity grade; tried grade by grade.
    """
    wanted, T, nu1, VI = np.broadcast_arrays(*as_arrays(wanted, T, nu1, VI))
    return thinnest(lambda VG: kinematic_viscosity_full(T, VG, nu100_of_index(VG, VI)), wanted * nu1)


@cited(COMMON_PRACTICE, "grades tried from thin to thick")
def thinnest(reached: Callable[[float], Floats], wanted: Array) -> Floats:
    """Thinnest ISO viscosity grade with which a figure reaches what is wanted, whatever else follows from it.

    least VG with reached(VG) >= wanted

    Parameters (a function, and any shape that its result has)
    ----------
    reached : gives the figure for a grade, such as kappa at the temperature that settles with it [-]
    wanted : what it must reach [-]

    Returns
    -------
    VG [-], NaN where no grade reaches it

    Valid for the grades 10 to 3200; a figure that is not known (NaN) does not reach anything.

    Source: Common practice, grades tried from thin to thick; no formula.
    """
    return _first(GRADES, reached, wanted)


@cited(COMMON_PRACTICE, "levels tried from dirty to clean")
def dirtiest(reached: Callable[[str], Floats], wanted: Array) -> Floats:
    """Dirtiest level of cleanliness with which a figure, such as a life, reaches what is wanted.

    last of LEVELS with reached(level) >= wanted

    Parameters (a function, and any shape that its result has)
    ----------
    reached : gives the figure for a level [-]
    wanted : what it must reach [-]

    Returns
    -------
    place of the level in LEVELS [-], NaN where not even the cleanest reaches it

    Valid for figures that do not fall when it gets cleaner; a figure that is not known (NaN) reaches nothing.

    Source: Common practice, levels tried from dirty to clean; no formula.
    """
    return _first(tuple(range(len(LEVELS)))[::-1], lambda place: reached(LEVELS[int(place)]), wanted)


def _first(choices: Sequence[int], reached: Callable[[float], Floats], wanted: Array) -> Floats:
    (wanted,) = as_arrays(wanted)
    found = np.full_like(wanted, np.nan)
    for choice in choices:
        with np.errstate(invalid="ignore"):
            enough = np.asarray(reached(float(choice))) >= wanted
        found = np.where(np.isnan(found) & enough, float(choice), found)
        if not np.isnan(found).any():
            break
    return found


@cited(COMMON_PRACTICE, "oil in place of grease")
def oil_called_for(n: Array, n_grease: Array, T: Array, T_grease: Array, interval: Array) -> Floats:
    """Reasons to take oil in place of grease, counted.

    n > n_grease; T > T_grease; interval < 170 h

    Parameters (any broadcastable shapes)
    ----------
    n : highest speed [rpm]
    n_grease : limiting speed with grease; where it is not known, no reason [rpm]
    T : temperature that settles with grease; none settled (NaN) counts as a reason [deg C]
    T_grease : highest lasting temperature of the grease [deg C]
    interval : regreasing interval [h]

    Returns
    -------
    reasons, 0 to 3 [-]

    Valid as a caution.

    Source: Common practice, oil in place of grease; the interval has no source.
    """
    n, n_grease, T, T_grease, interval = as_arrays(n, n_grease, T, T_grease, interval)
    with np.errstate(invalid="ignore"):
        reasons = [n > n_grease, ~(T_grease >= T), interval < INTERVAL_LEAST]
        return np.sum(np.broadcast_arrays(*(reason.astype(np.float64) for reason in reasons)), axis=0)


@cited(COMMON_PRACTICE, "oil in place of grease, in words")
def why_oil(n: float, n_grease: float, T: float, T_grease: float, interval: float) -> tuple[str, ...]:
    """Reasons, in figures, to take oil in place of grease; as `oil_called_for` counts them.

    n > n_grease; T > T_grease; interval < 170 h

    Parameters (one bearing)
    ----------
    n : highest speed [rpm]
    n_grease : limiting speed with grease [rpm]
    T : temperature that settles with grease; NaN where none does [deg C]
    T_grease : highest lasting temperature of the grease [deg C]
    interval : regreasing interval [h]

    Returns
    -------
    reasons, as sentences [-]

    Valid as a caution.

    Source: Common practice, oil in place of grease, in words; the interval has no source.
    """
    reasons = []
    if n > n_grease:
        reasons.append(f"{n:.0f} rpm is above the limiting speed with grease, {n_grease:.0f} rpm")
    if not T_grease >= T:
        settled = "no temperature settles" if np.isnan(T) else f"it runs at {T:.0f} degC"
        reasons.append(f"{settled}; the grease stands {T_grease:.0f} degC")
    if interval < INTERVAL_LEAST:
        reasons.append(f"it asks for new grease every {interval:.0f} h; {INTERVAL_LEAST:.0f} h is a week of running")
    return tuple(reasons)
