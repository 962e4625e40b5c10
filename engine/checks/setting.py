"""Checks of one pair at its setting: band, life and pressure by load distribution, edges, load zone, heat, chance.

They are carried out on the chosen pair and on the leading ones, never while the catalogue is screened: the count of the
pairs that pass stays that of the closed formulas.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from engine.checks.check import Check, Outcome
from engine.distribution import contact, life_curve, reference_life, scatter, setting_chain
from engine.rating import system
from engine.sources import COMMON_PRACTICE, ISO_76, Citation, citation_of

if TYPE_CHECKING:
    from engine.setting.study import Study

#: Pressure at which rollers and raceways begin to keep dents, that of the static rating [MPa].
DENTING = 4000.0
#: Less than this part of half the band is no distance from its middle.
ROUNDING = 1e-9
#: Part of the circle that the load should be spread over in every case that runs [deg]: common practice, no source.
ZONE_LEAST = 120.0

_DENTS = Citation(ISO_76, "4000 MPa at the heaviest loaded roller, pressure with the root of the load")
BAND = Check(
    "setting_band", "Setting within the band", "mm", Citation(COMMON_PRACTICE, "band of long life"),
    "setting in service off the middle of the band", "half the band of long life",
)  # fmt: skip
LIFE = Check(
    "distribution_life", "Life by load distribution", "h", citation_of(reference_life.modified_reference_life_Lnmr),
    "required life", "modified reference life over the spectrum",
)  # fmt: skip
PRESSURE = Check(
    "distribution_pressure", "Greatest contact pressure", "MPa", _DENTS,
    "pressure at the heaviest loaded roller, peaks included", "4000 MPa over the root of the static safety",
)  # fmt: skip
RANGE = Check(
    "setting_range", "Range of settings in the band", "mm", citation_of(setting_chain.play_lost),
    "far end of the probable range of settings, off the middle of the band", "half the band of long life",
    advisory=True,
)  # fmt: skip
EDGE = Check(
    "edge_pressure", "Pressure at the roller ends", "MPa", citation_of(contact.edge_function),
    "pressure at the ends by the edge function", "4000 MPa over the root of the static safety", advisory=True,
)  # fmt: skip
ZONE = Check(
    "load_zone", "Load zone", "deg", Citation(COMMON_PRACTICE, "load zone of a third of the circle"),
    "a third of the circle", "least load zone while running", advisory=True,
)  # fmt: skip
RUNAWAY = Check(
    "runaway", "Preload does not feed itself", "-", citation_of(life_curve.runaway_gain),
    "gain from heat to preload to heat", "1, from where it runs away", advisory=True,
)  # fmt: skip
CHANCE = Check(
    "chance", "Chance to reach the life", "-", citation_of(scatter.survival),
    "chance asked for", "chance over the draws",
)  # fmt: skip
CHANCE_CAUTIONS = Check(
    "chance", "Chance to reach the life", "-", citation_of(scatter.survival),
    "reliability of the duty", "chance over the draws", advisory=True,
)  # fmt: skip


def outcomes(study: Study) -> list[Outcome]:
    """Return every check of a study; what binds comes first."""
    found = [_band(study), *_lives(study), *_pressures(study)]
    if study.draws is not None:
        found.append(_chance(study))
    return sorted([*found, _range(study), *_edges(study), *_zones(study), _runaway(study)],
                  key=lambda outcome: outcome.check.advisory)  # fmt: skip


def _middle(study: Study) -> tuple[float, float]:
    low, high = study.band
    return (low + high) / 2, (high - low) / 2


def _band(study: Study) -> Outcome:
    middle, half = _middle(study)
    off = abs(study.service - middle)
    # a setting computed for the middle lies there to the rounding of the chain, which differs between processors
    return Outcome(BAND, "pair", np.asarray(off if off > ROUNDING * half else 0.0), np.asarray(half))


def _range(study: Study) -> Outcome:
    middle, half = _middle(study)
    far = max(abs(end - middle) for end in study.reach.rss)
    return Outcome(RANGE, "pair", np.asarray(far), np.asarray(half))


def _lives(study: Study) -> list[Outcome]:
    resolved = study.conditions.resolved
    # where no film is known there is no modified life, which is then left unknown and does not pass
    lives = study.at.modified
    required = np.asarray(resolved.life)
    if resolved.life_of_pair:
        return [Outcome(LIFE, "pair", required, system.system_life(lives))]
    return [Outcome(LIFE, side, required, life) for side, life in zip("AB", lives, strict=True)]


def _dents(study: Study) -> float:
    return DENTING / float(np.sqrt(study.conditions.resolved.static_safety))


def _pressures(study: Study) -> list[Outcome]:
    limit = np.asarray(_dents(study))
    return [Outcome(PRESSURE, side, np.max(p), limit) for side, p in zip("AB", study.at.p_peak, strict=True)]


def _edges(study: Study) -> list[Outcome]:
    limit = np.asarray(_dents(study))
    return [Outcome(EDGE, side, np.max(zone.p_edge), limit) for side, zone in zip("AB", study.at.zones, strict=True)]


def _zones(study: Study) -> list[Outcome]:
    running = study.conditions.cases.running
    if not running.any():
        return []
    least = [np.degrees(np.min(zone.extent[running])) for zone in study.at.zones]
    return [Outcome(ZONE, side, np.asarray(ZONE_LEAST), one) for side, one in zip("AB", least, strict=True)]


def _runaway(study: Study) -> Outcome:
    return Outcome(RUNAWAY, "pair", np.asarray(max(study.gain, 0.0)), np.asarray(1.0))


def _chance(study: Study) -> Outcome:
    assert study.draws is not None
    resolved = study.conditions.resolved
    asked = resolved.setting.chance
    check = CHANCE if asked is not None else CHANCE_CAUTIONS
    wanted = asked if asked is not None else resolved.reliability
    return Outcome(check, "pair", np.asarray(wanted), np.asarray(study.draws.survival))
