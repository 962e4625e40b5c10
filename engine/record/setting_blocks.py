"""Figures of the setting in blocks: the chain from the bench, the band, the chances, and each case at its setting."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from engine.distribution import contact, life_curve, reference_life, scatter, setting_chain
from engine.figures import Block, Figure
from engine.lubrication import friction
from engine.operating import hours
from engine.rating import life, system
from engine.record.loads.origin import origin
from engine.seat import interference, recommend
from engine.setting.bench import band_for_fitter
from engine.setting.study import Study
from engine.sources import COMMON_PRACTICE, ISO_TS_16281, STATICS, Citation, citation_of
from engine.steel import growth

#: What moves the setting by less than this is left out [mm].
LEAST_PART = 0.0001
#: Points of the curve that a record keeps, evenly spaced.
CURVE_POINTS = 13
_REST = str(Citation(STATICS, "equilibrium of a shaft on the rollers of both bearings"))
_SPRING = str(Citation(ISO_TS_16281, "load-deflection line of a roller with line contact"))
_CHAIN = str(citation_of(setting_chain.play_lost))
_FITTER = str(Citation(COMMON_PRACTICE, "tolerance of the fitter, within the band where it can be"))
_BAND = str(Citation(COMMON_PRACTICE, "band of long life"))


def setting_blocks(study: Study) -> list[Block]:
    """Return every block of a study."""
    cases = [_case_block(study, at) for at in range(len(study.conditions.cases))]
    return [_chain_block(study), _curve_block(study), _chances_block(study), *cases]


def _chain_block(study: Study) -> Block:
    parts, chain, reach = study.chained, study.chain, study.reach
    rings, shaft, housing = _warmth(study)
    T = parts.nominal
    fits = str(citation_of(interference.smoothed))
    may_leave = band_for_fitter(study)
    classes = [str(citation_of(name)) for name in (recommend.shaft_class, recommend.housing_class)]
    return Block("setting", "The setting: end play of the pair, negative for preload", (
        _of_both("fit_cone", "", "class of the shaft", "", classes[0], [one.name or "none" for one in parts.cones]),
        _of_both("fit_cup", "", "class of the housing", "", classes[1], [one.name or "none" for one in parts.cups]),
        _of_both("delta_cone", "I", "cone on shaft, mean interference", "mm", fits, [one.mean for one in parts.cones]),
        _of_both("delta_cup", "I", "cup in housing, mean interference", "mm", fits, [one.mean for one in parts.cups]),
        _of_pair("T_cone", "Tc", "temperature of the cones", "degC", rings, T.T_cone),
        _of_pair("T_shaft", "Ts", "temperature of the shaft", "degC", shaft, T.T_shaft),
        _of_pair("T_cup", "Te", "temperature of the cups", "degC", rings, T.T_cup),
        _of_pair("T_housing", "Th", "temperature of the housing", "degC", housing, T.T_housing),
        _of_pair("growth", "", "growth of the cones over the life", "", str(citation_of(growth.growth_strain)),
                 T.growth_cone),
        _of_pair("bench", "", "on the bench", "mm", _CHAIN, chain.bench),
        _of_pair("bench_from", "", "what the fitter may leave there, from", "mm", _FITTER, may_leave[0]),
        _of_pair("bench_to", "", "what the fitter may leave there, to", "mm", _FITTER, may_leave[1]),
        _of_pair("mounted", "", "with the rings on their seats", "mm", _CHAIN, chain.mounted),
        _of_pair("warm", "", "warm", "mm", str(citation_of(setting_chain.play_lost_to_growth)), chain.warm),
        _of_pair("service", "", "in service, with the rings grown", "mm", _CHAIN, chain.service),
        _of_pair("service_least", "", "least in service, probable", "mm", _CHAIN, reach.rss[0]),
        _of_pair("service_greatest", "", "greatest in service, probable", "mm", _CHAIN, reach.rss[1]),
        _of_pair("service_worst_least", "", "least in service, worst case", "mm", _CHAIN, reach.worst[0]),
        _of_pair("service_worst_greatest", "", "greatest in service, worst case", "mm", _CHAIN, reach.worst[1]),
        *[_of_pair(f"part_{name}", "", f"+/- by {PARTS[name]}", "mm", _CHAIN, part)
          for name, part in reach.parts.items() if part >= LEAST_PART],
    ))  # fmt: skip


def _warmth(study: Study) -> tuple[str, str, str]:
    """Return where the temperatures of the rings, of the shaft and of the housing come from."""
    resolved = study.conditions.resolved
    apart, shaft, housing = (
        origin(resolved, path) for path in ("setting.cone_over_cup", "fits.cone_hotter", "fits.cup_hotter")
    )
    return (
        f"derived from the bearing temperature, plus or minus half of cone over cup ({apart})",
        f"derived from that of the cones less cone over shaft ({shaft})",
        f"derived from that of the cups less cup over housing ({housing})",
    )


#: What moves the setting, in words.
PARTS = {
    "bench": "the fitter", "cone_fit_A": "the cone's fit at A", "cup_fit_A": "the cup's fit at A",
    "cone_fit_B": "the cone's fit at B", "cup_fit_B": "the cup's fit at B", "T_cone": "the cones' temperature",
    "T_shaft": "the shaft's temperature", "T_cup": "the cups' temperature", "T_housing": "the housing's temperature",
    "growth_cone": "growth of the cones", "growth_cup": "growth of the cups",
}  # fmt: skip


def _curve_block(study: Study) -> Block:
    curve, keeping = study.curve, _keeping(study)
    places = np.unique(np.linspace(0, len(curve.setting) - 1, CURVE_POINTS).round().astype(int))
    counted = reference_life.modified_reference_life_Lnmr if study.filmed else reference_life.basic_reference_life_L10r
    source = str(citation_of(counted))
    heat = np.interp(study.service, curve.setting, curve.heat)
    stiffness = np.diagonal(study.at.solution.stiffness, axis1=-2, axis2=-1).min(axis=0)
    named = (("radial_y", "radially in plane y", "N/mm"), ("radial_z", "radially in plane z", "N/mm"),
             ("axial", "along the shaft", "N/mm"), ("tilt_y", "against tilting in plane y", "N mm/rad"),
             ("tilt_z", "against tilting in plane z", "N mm/rad"))  # fmt: skip
    return Block("setting_life", "Life against setting", (
        _of_pair("best", "", "setting of the longest life", "mm", source, study.best[0]),
        _of_pair("best_life", "", "life of the pair there", "h", source, study.best[1]),
        _of_pair("band_low", "", "band of long life, from", "mm", _BAND, study.band[0]),
        _of_pair("band_high", "", "band of long life, to", "mm", _BAND, study.band[1]),
        Figure("bench_low", "", "bench settings that keep it, from", "mm", _CHAIN, keeping[0]),
        Figure("bench_high", "", "bench settings that keep it, to", "mm", _CHAIN, keeping[1]),
        *[_of_pair(f"stiffness_{key}", "", f"stiffness {name}", unit, _SPRING, value)
          for (key, name, unit), value in zip(named, stiffness, strict=True)],
        _of_pair("heat", "", "heat by load-dependent friction", "W", str(citation_of(friction.load_dependent_M1)),
                 heat),
        _of_pair("gain", "", "gain from heat to preload to heat", "", str(citation_of(life_curve.runaway_gain)),
                 study.gain),
        *[_of_pair(f"life_at_{at + 1}", "", f"life at {curve.setting[place] + 0.0:+.4f} mm", "h", source,
                   study.life[place]) for at, place in enumerate(places)],
    ))  # fmt: skip


def _keeping(study: Study) -> tuple[float, float] | tuple[str, str]:
    """Return the bench settings that keep the band; no number where fits and heat alone scatter wider than it."""
    low, high = (float(end) + 0.0 for end in study.bench_band)
    return (low, high) if low <= high else ("none", "none")


def _chances_block(study: Study) -> Block:
    at = study.at
    L10r, Lnmr = (str(citation_of(one)) for one in (
        reference_life.basic_reference_life_L10r, reference_life.modified_reference_life_Lnmr))  # fmt: skip
    both = system.system_life(at.modified if study.filmed else at.basic)
    figures = [
        _of_both("L10rh", "L10rh", "basic reference life over all cases", "h", L10r, at.basic.tolist()),
        _of_both("Lnmrh", "Lnmrh", "modified reference life over all cases", "h", Lnmr, at.modified.tolist()),
        _of_pair("system", "", "life of both as a system", "h", str(citation_of(system.system_life)), both),
    ]
    draws = study.draws
    if draws is not None:
        drawn = str(citation_of(scatter.survival))
        settings, lives = draws.percentiles([0.05, 0.5, 0.95])
        figures += [
            _of_pair("draws", "", "draws of fits, temperatures, loads, setting", "", drawn, len(draws.setting)),
            _of_pair("survival", "S", "chance that both reach the life", "", drawn, draws.survival),
            _of_pair("reached", "", "share of draws rated for the life", "", drawn, draws.reached),
        ]
        for percent, setting, one in zip((5, 50, 95), settings, lives, strict=True):
            figures += [
                _of_pair(f"setting_{percent}", "", f"setting above {percent} % of the draws", "mm", drawn, setting),
                _of_pair(f"life_{percent}", "", f"basic life above {percent} % of the draws", "h", drawn, one),
            ]
    return Block("setting_chance", "Life and chances at the setting in service", tuple(figures))


def _case_block(study: Study, at: int) -> Block:
    cases, zones, lives = study.conditions.cases, study.at.zones, study.at.lives
    share = f"setting_case_{at + 1}"
    title = f"At its setting, load case {cases.case_of[at] + 1}: {cases.names[at]}"
    L10r, Lnmr = (
        [float(hours(getattr(one, name), cases)[at]) for one in lives] for name in ("L10r", "Lnmr")
    )  # fmt: skip

    def both(name: str) -> list[float]:
        return [float(getattr(zone, name)[at]) for zone in zones]

    of_life = (reference_life.basic_reference_life_L10r, reference_life.modified_reference_life_Lnmr)
    of_rib, of_line, of_edge = contact.rib_force, contact.line_pressure, contact.edge_function
    sources = [str(citation_of(one)) for one in (*of_life, of_rib, of_line, of_edge, life.basic_rating_life_L10)]
    return Block(share, title, (
        _of_both("Fr_r", "Fr", "radial load carried by the rollers", "N", _REST, both("Fr")),
        _of_both("Fa_r", "Fa", "axial load carried by the rollers", "N", _REST, both("Fa")),
        _of_both("zone", "", "load zone", "deg", _SPRING, [float(np.degrees(zone.extent[at])) for zone in zones]),
        _of_both("Q_max", "Qmax", "heaviest loaded roller", "N", _SPRING, [float(zone.Q[at].max()) for zone in zones]),
        _of_both("rib", "Qf", "greatest force on the rib", "N", sources[2],
                 [float(zone.rib[at].max()) for zone in zones]),
        _of_both("p_max", "p", "greatest pressure", "MPa", sources[3], both("p_max")),
        _of_both("p_edge", "", "pressure at the roller ends", "MPa", sources[4], both("p_edge")),
        _of_both("P_ref", "Pref", "equal reference load", "N", sources[5], [float(one.P_ref[at]) for one in lives]),
        _of_both("L10rh", "L10rh", "basic reference rating life", "h", sources[0], L10r),
        _of_both("Lnmrh", "Lnmrh", "modified reference rating life", "h", sources[1], Lnmr),
    ))  # fmt: skip


def _of_pair(key: str, symbol: str, name: str, unit: str, source: str, value: object) -> Figure:
    return Figure(key, symbol, name, unit, source, float(np.asarray(value)) + 0.0)


def _of_both(key: str, symbol: str, name: str, unit: str, source: str, values: Sequence[float | str]) -> Figure:
    return Figure(key, symbol, name, unit, source, values[0], values[1], digits=5)
