"""Everything about the setting of one pair: its curve of life, the way from the bench into service, and the chances.

A study is the same each time it is made: the draws are seeded. `tick` is told the share done and may end the work by an
exception of its own.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from engine.distribution import balance, life_curve, scatter, setting_chain
from engine.distribution.life_curve import LifeCurve
from engine.distribution.load_zone import LoadZone
from engine.distribution.pair_system import PairSolution, ShaftLoads, solve
from engine.distribution.reference_life import ReferenceLife, reference_life
from engine.distribution.scatter import Scatter
from engine.distribution.setting_chain import Chain, Range
from engine.lubrication.cooling import reference_conductance
from engine.lubrication.thermal_speed import reference_area
from engine.numerics import Floats
from engine.operating import Bearings, Conditions
from engine.setting.gathered import gathered
from engine.setting.mounting import Chained, chained
from engine.setting.system import NotComputed, OnRollers, films, on_rollers
from engine.warmth.settling import cooling, loaded

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

Tick = Callable[[float], None]
#: The share of the work that the curve takes, and then the pair at its setting; the draws take the rest.
_CURVE, _AT_REST = 0.3, 0.35
#: Settings beyond the usual ones that a curve is carried on to, where the setting in service lies there.
_BEYOND = 8
#: Times that a curve is computed at most, each time carried on where the band of long life has not ended yet.
_TURNS = 3


@dataclass(frozen=True)
class InService:
    """The pair at its setting in service, in each case (k,)."""

    solution: PairSolution
    zones: tuple[LoadZone, LoadZone]
    lives: tuple[ReferenceLife, ReferenceLife]
    basic: Floats  # basic reference life over all cases of A and B (2,) [h]
    modified: Floats  # the same with film and reliability; NaN where the film is not known [h]
    p_peak: tuple[Floats, Floats]  # greatest pressure with the peaks of each case [MPa]


@dataclass(frozen=True)
class Study:
    """The setting of a pair: settings are end play of the pair [mm], negative for preload."""

    rollers: OnRollers
    chained: Chained
    curve: LifeCurve
    filmed: bool  # whether the curve's life counts the film
    best: tuple[float, float]  # setting and life [h]
    band: tuple[float, float]  # settings that keep the wanted share of that life
    bench: float
    bench_band: tuple[float, float]  # bench settings that keep the setting in service in the band
    chain: Chain
    reach: Range
    at: InService
    gains: Floats  # of the loop from heat to setting to heat, along the curve
    draws: Scatter | None

    @property
    def conditions(self) -> Conditions:
        """The conditions whose cases were computed."""
        return self.rollers.conditions

    @property
    def life(self) -> Floats:
        """The curve's life of the pair [h]."""
        return self.curve.modified if self.filmed else self.curve.life

    @property
    def gain(self) -> float:
        """Gain of the loop from heat to setting to heat at the tight end of the probable range."""
        return float(np.interp(self.reach.rss[0], self.curve.setting, self.gains))

    @property
    def runs_away_from(self) -> float | None:
        """The setting of the curve from which on preload feeds itself [mm]; None where it does nowhere."""
        lost = self.curve.setting[self.gains >= 1.0]
        return float(lost.max()) if lost.size else None

    @property
    def service(self) -> float:
        """The setting in service [mm]."""
        return float(self.chain.service)


def study(
    A: Catalogue, B: Catalogue, conditions: Conditions, drawing: bool = True, tick: Tick = lambda _: None
) -> Study:
    """Return the study of a pair, given as catalogues of one row each; raise NotComputed.

    Without `drawing` the chances are left out, which takes most of the time.
    """
    try:
        return _study(A, B, settled(A, B, conditions), drawing, tick)
    except np.linalg.LinAlgError as error:
        raise NotComputed(f"the stiffness cannot be solved: {error}") from None


def at_setting(made: Study, service: float) -> Study:
    """Return a study with the pair at another setting in service [mm] and without chances; raise NotComputed.

    The curve and its band stay, since they do not depend on where on it the pair is.
    """
    chain = replace(made.chain, service=np.asarray(service))
    return replace(made, chain=chain, at=_in_service(made.rollers, service), draws=None)


def settled(A: Catalogue, B: Catalogue, conditions: Conditions) -> Conditions:
    """Return conditions at the temperatures that settle for a pair, the mean of both; raise NotComputed.

    Stated temperatures are left as they are.
    """
    if not np.isnan(conditions.nu).any():
        return conditions
    warmth = loaded(Bearings.of(A, "A", conditions), Bearings.of(B, "B", conditions), conditions).warmth
    T, nu = ((one + other)[0] / 2 for one, other in (warmth.T, warmth.nu))
    if np.isnan(T).any():
        raise NotComputed("no temperature settles in one of the load cases")
    return replace(conditions, cases=replace(conditions.cases, temperature=T), nu=nu)


def _study(A: Catalogue, B: Catalogue, conditions: Conditions, drawing: bool, tick: Tick) -> Study:
    pair = on_rollers(A, B, gathered(conditions))
    asked = conditions.resolved.setting
    parts = chained(A, B, pair.system.rollers, conditions)
    tick(0.0)
    curve, filmed = _curve(pair, _settings(pair, parts, asked.bench), asked.keeps, tick)
    tick(_CURVE)
    life = curve.modified if filmed else curve.life
    band = life_curve.band_within(curve.setting, life, asked.keeps)
    wide = setting_chain.bench_band(parts.mounting, parts.nominal, parts.half, band)
    bench = asked.bench if asked.bench is not None else sum(wide) / 2
    nominal = replace(parts.nominal, bench=bench)
    chain = setting_chain.chain(parts.mounting, nominal)
    reach = setting_chain.service_range(parts.mounting, nominal, parts.half)
    at = _in_service(pair, float(chain.service))
    tick(_AT_REST)
    return Study(
        rollers=pair, chained=parts, curve=curve, filmed=filmed,
        best=life_curve.summit(curve.setting, life), band=band, bench=bench, bench_band=wide, chain=chain, reach=reach,
        at=at, gains=_gains(A, B, curve, parts, conditions),
        draws=_drawn(pair, (A, B), parts, nominal, tick) if drawing else None,
    )  # fmt: skip


def _curve(pair: OnRollers, settings: Floats, keeps: float, tick: Tick) -> tuple[LifeCurve, bool]:
    """Return the curve of life, carried on into end play while the band has no end, and whether it counts the film."""
    for again in range(_TURNS):
        curve = life_curve.life_curve(pair.system, pair.spectrum, settings, _part(tick, again / _TURNS, 1 / _TURNS))
        filmed = bool(np.any(np.isfinite(curve.modified)))
        life = curve.modified if filmed else curve.life
        if not np.any(np.isfinite(life)):
            raise NotComputed(f"at no setting does the pair come to rest: {_why(curve.solution)}")
        if life_curve.band_within(curve.setting, life, keeps)[1] < settings[-1]:
            break
        step = settings[-1] - settings[-2]
        settings = np.concatenate([settings, settings[-1] + 2 * step * np.arange(1, 2 * _BEYOND + 1)])
    return curve, filmed


def _part(tick: Tick, begin: float, share: float) -> Tick:
    """Return what tells `tick` of a part of the curve's work."""
    return lambda done: tick(_CURVE * (begin + share * done))


def _settings(pair: OnRollers, parts: Chained, bench: float | None) -> Floats:
    """Return the settings of the curve: the usual ones, and on to the range in service where that lies beyond."""
    grid = life_curve.setting_grid(pair.system)
    if bench is None:
        return grid
    reach = setting_chain.service_range(parts.mounting, replace(parts.nominal, bench=bench), parts.half)
    low, high = reach.worst
    below = np.linspace(low, grid[0], _BEYOND, endpoint=False) if low < grid[0] else grid[:0]
    above = np.linspace(grid[-1], high, _BEYOND + 1)[1:] if high > grid[-1] else grid[:0]
    return np.concatenate([below, grid, above])


def _in_service(pair: OnRollers, setting: float) -> InService:
    spectrum, cases = pair.spectrum, pair.conditions.cases
    found = solve(pair.system, spectrum.loads, setting, spectrum.slopes())
    if not np.all(found.solved):
        raise NotComputed(f"at the setting in service the pair does not come to rest: {_why(found)}")
    zones = found.zone("A"), found.zone("B")
    basic, modified = life_curve.lives(zones, spectrum)
    lives = [reference_life(zone, film, spectrum.turning) for zone, film in zip(zones, spectrum.film, strict=True)]
    return InService(found, zones, (lives[0], lives[1]), basic, modified, _peaks(pair, setting, zones, cases.shock))


def _peaks(pair: OnRollers, setting: float, zones: tuple[LoadZone, LoadZone], shock: Floats) -> tuple[Floats, Floats]:
    """Return the greatest pressures under the peaks of the loads."""
    if np.all(shock == 1.0):
        return zones[0].p_max, zones[1].p_max
    loads = pair.spectrum.loads
    peaks = ShaftLoads(*(np.asarray(getattr(loads, name)) * shock for name in ("F_y", "F_z", "M_y", "M_z", "K_a")))
    found = solve(pair.system, peaks, setting, pair.spectrum.slopes(shock))
    return found.zone("A").p_max, found.zone("B").p_max


def _why(found: PairSolution) -> str:
    """Return in words why members of a batch have not come to rest: the reason of the most of them."""
    counts = np.bincount(np.ravel(found.status), minlength=len(balance.STATUS))
    counts[balance.SOLVED] = 0
    return balance.STATUS[int(np.argmax(counts))]


def _gains(A: Catalogue, B: Catalogue, curve: LifeCurve, parts: Chained, conditions: Conditions) -> Floats:
    """Return the gain of the loop from heat to setting to heat along the curve.

    The temperature differences grow in proportion as the pair warms up from its surroundings; heat leaves as the heat
    balance has it.
    """
    around = conditions.resolved.lubricated.surroundings
    names = ("T_cone", "T_shaft", "T_cup", "T_housing")
    rise = max(parts.temperature - around.ambient, 1.0)
    cold = {name: float(np.asarray(getattr(parts.nominal, name))) for name in names}
    warm = {name: T + (T - around.ambient) / rise for name, T in cold.items()}
    before, after = (
        float(setting_chain.chain(parts.mounting, one).service)
        for one in (parts.nominal, replace(parts.nominal, **warm))
    )
    seats = sum(float(reference_conductance(reference_area(one.d[0], one.D[0], one.T[0]))) for one in (A, B))
    air = cooling(around, seats)
    carried = float(air.at(parts.temperature + 0.5)) - float(air.at(parts.temperature - 0.5))
    return life_curve.runaway_gain(curve.setting, curve.heat, after - before, carried)


def _drawn(
    pair: OnRollers, rows: tuple[Catalogue, Catalogue], parts: Chained, nominal: setting_chain.Conditions, tick: Tick
) -> Scatter:
    """Return the draws of setting, warmth, loads and life."""
    resolved = pair.conditions.resolved
    drawn = scatter.drawn(nominal, parts.half)
    settings = setting_chain.chain(parts.mounting, drawn).service
    warming = scatter.Warming(scatter.warmer(nominal, drawn), lambda shift: films(*rows, pair.conditions, shift))
    factors = scatter.load_factors(resolved.setting.load_within)
    return scatter.scatter(
        pair.system, pair.spectrum, (settings, factors), resolved.life, warming,
        tick=lambda done: tick(_AT_REST + (1.0 - _AT_REST) * done),
    )  # fmt: skip
