"""The leading pairs looked at with their load distribution: after the ranking, which stays that of the closed formulas.

Every pair in the shortlist passes the closed formulas. The load distribution of a few of them is computed on top, and
what it says is shown beside them; no pair is struck off the list by it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from engine.checks import setting
from engine.checks.check import Outcome
from engine.operating import Conditions
from engine.setting.study import Study, Tick, study
from engine.setting.system import NotComputed

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: What a load distribution says of a pair; open where a chance is asked for that was not drawn and the rest passes.
Word = Literal["passes", "fails", "open", "unknown"]


@dataclass(frozen=True)
class Leading:
    """What the load distribution says of a pair: checks, band of long life [mm], or why there is nothing."""

    outcomes: tuple[Outcome, ...] = ()
    band: tuple[float, float] = (0.0, 0.0)
    life: float = 0.0  # at the setting in service [h]
    p_max: float = 0.0  # [MPa]
    why_not: str = ""
    drawn: bool = True  # whether the chance was drawn, or none is asked for

    @classmethod
    def of(cls, made: Study) -> Leading:
        """Return what a study says of its pair, the chance too where it was drawn."""
        found = tuple(setting.outcomes(made))
        lives = [float(one.capacity) for one in found if one.check is setting.LIFE]
        pressures = [float(one.demand) for one in found if one.check is setting.PRESSURE]
        asked = made.conditions.resolved.setting.chance is not None
        return cls(found, made.band, min(lives), max(pressures), drawn=made.draws is not None or not asked)

    @property
    def known(self) -> bool:
        """Whether it could be computed."""
        return not self.why_not

    @property
    def word(self) -> Word:
        """What it comes to."""
        if not self.known:
            return "unknown"
        if self.failing:
            return "fails"
        return "passes" if self.drawn else "open"

    @property
    def failing(self) -> tuple[str, ...]:
        """The names of the checks that bind and fail."""
        names = [one.check.name for one in self.outcomes if not one.check.advisory and not one.passes]
        return tuple(dict.fromkeys(names))


def lead(A: Catalogue, B: Catalogue, conditions: Conditions, tick: Tick = lambda _: None) -> Leading:
    """Return what the load distribution says of a pair, given as catalogues of one row each; chances are left out."""
    try:
        made = study(A, B, conditions, drawing=False, tick=tick)
    except NotComputed as why:
        return Leading(why_not=str(why))
    return Leading.of(made)
