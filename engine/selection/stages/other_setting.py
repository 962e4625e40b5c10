"""What the verdict by load distribution says where the pair is set tighter or looser than it is meant to be.

The closed formulas do not know the setting, so this end of the sensitivity has figures of its own: the checks of the
setting (`engine.checks.setting`), before and after. A setting is near zero as often as not and may be a preload, so a
tenth of it would say little: the step is a tenth of the band of settings that keep most of the best life.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.checks import setting
from engine.operating import Conditions
from engine.selection.verdict import Verdict, of_outcomes
from engine.setting.study import Study, Tick, at_setting, study

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue


@dataclass(frozen=True)
class OtherSetting:
    """The verdicts at the setting in service, `step` [mm] tighter and `step` looser."""

    step: float
    stands: Verdict
    tighter: Verdict
    looser: Verdict


def other_setting(
    A: Catalogue, B: Catalogue, conditions: Conditions, share: float, tick: Tick = lambda _: None
) -> OtherSetting:
    """Return the verdicts on a pair, given as catalogues of one row each; raises NotComputed.

    `share` is the part of the band's width [-] by which the setting in service is moved.
    """
    made = study(A, B, conditions, drawing=False, tick=tick)
    low, high = made.band
    step = share * (high - low)
    tighter, looser = (at_setting(made, made.service + by) for by in (-step, step))
    return OtherSetting(step, *(_verdict(one, conditions) for one in (made, tighter, looser)))


def _verdict(made: Study, conditions: Conditions) -> Verdict:
    return of_outcomes(setting.outcomes(made), conditions.resolved.missing)
