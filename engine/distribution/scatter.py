"""What scatters, drawn many times: where the setting in service comes to lie, and the chance to reach a life.

Each quantity is drawn from a normal distribution of its own stream, three standard deviations to its half range and
none beyond (common practice, no source); the same seed gives the same draws, whatever else is drawn.
"""

from collections.abc import Callable
from dataclasses import dataclass, fields, replace

import numpy as np

from engine.distribution.life_curve import Spectrum, lives
from engine.distribution.pair_system import PairSystem, ShaftLoads, solve
from engine.distribution.setting_chain import Conditions, Mounting, chain
from engine.numerics import Array, Floats, as_arrays
from engine.rating.reliability import C_GAMMA, SLOPE
from engine.rating.system import system_life
from engine.sources import ISO_TR_1281_2, cited

DRAWS = 10_000
#: Settings and load factors of the table between which lives are interpolated.
_SETTINGS, _FACTORS = 41, 5
_SIGMAS = 3.0


@dataclass(frozen=True)
class Scatter:
    """The draws: setting in service, load factor, life of the pair, and the chance that both bearings reach a life."""

    setting: Floats  # (draws,) [mm]
    factor: Floats  # (draws,) on all loads [-]
    life: Floats  # (draws,) basic reference life of the pair [h]
    modified: Floats  # (draws,) with film and reliability; NaN where the film is not known [h]
    survival: float  # chance to survive the required life: over draws, and over the scatter of bearing lives
    reached: float  # share of draws whose rating life is at least the required one; with the film, where it is known

    def percentiles(self, shares: Array) -> tuple[Floats, Floats]:
        """Return the setting and the life below which shares of the draws lie."""
        (share,) = as_arrays(shares)
        return np.quantile(self.setting, share), np.quantile(self.life, share)


@cited(ISO_TR_1281_2, "clause 4, survival of a bearing at a life")
def survival(L: Array, L10: Array) -> Floats:
    """Chance that a bearing survives a life: the factor for reliability, read the other way round.

    S = exp{ln(0.9) [(L/L10 - C_gamma) / (1 - C_gamma)]^1.5}, C_gamma = 0.05; S = 1 for L <= C_gamma L10

    Parameters (any broadcastable shapes)
    ----------
    L : life to be survived [h or million revolutions]
    L10 : life that 90 % survive, in the same unit [h or million revolutions]

    Returns
    -------
    S [-]

    Valid for L >= 0, L10 > 0; NaN outside.

    Source: ISO/TR 1281-2, clause 4, survival of a bearing at a life; the formula of a1 solved here for S.
    """
    L, L10 = as_arrays(L, L10)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        beyond = np.maximum((L / L10 - C_GAMMA) / (1 - C_GAMMA), 0.0)
        return np.where((L >= 0) & (L10 > 0), np.exp(np.log(0.9) * np.power(beyond, SLOPE)), np.nan)


def drawn(nominal: Conditions, half: Conditions, count: int = DRAWS, seed: int = 0) -> Conditions:
    """Return the conditions drawn `count` times around their nominal values, each within its half range."""
    found = {}
    for number, field in enumerate(fields(nominal)):
        value, reach = as_arrays(getattr(nominal, field.name), getattr(half, field.name))
        found[field.name] = value + reach * _within_one(count, (seed, number))
    return Conditions(**found)


def load_factors(half: float, count: int = DRAWS, seed: int = 0) -> Floats:
    """Return factors on all loads around 1, within the half range."""
    return 1 + half * _within_one(count, (seed, len(fields(Conditions))))


def scatter(
    system: PairSystem,
    spectrum: Spectrum,
    draws: tuple[Floats, Floats],
    required: float,
    exact: bool = False,
    tick: Callable[[float], None] | None = None,
) -> Scatter:
    """Return lives and chances for draws of (setting in service, load factor), each (draws,).

    Lives come from a table over settings and load factors, interpolated, or with `exact` from an equilibrium a draw.
    """
    setting, factor = draws
    basic, modified = (_solved if exact else _interpolated)(system, spectrum, setting, factor, tick)
    # the modified life at a reliability, less its factor, is what 90 % survive
    filmed = modified / np.array([[float(np.min(film.a1))] for film in spectrum.film])
    known = np.all(np.isfinite(filmed))
    life, at_reliability = system_life(basic, axis=0), system_life(modified, axis=0)
    return Scatter(
        setting=setting,
        factor=factor,
        life=life,
        modified=at_reliability,
        survival=float(np.mean(np.prod(survival(required, filmed if known else basic), axis=0))),
        reached=float(np.mean((at_reliability if known else life) >= required)),
    )


def settings_drawn(
    mounting: Mounting, nominal: Conditions, half: Conditions, count: int = DRAWS, seed: int = 0
) -> Floats:
    """Return the setting in service of every draw (count,) [mm]."""
    return chain(mounting, drawn(nominal, half, count, seed)).service


def _within_one(count: int, stream: tuple[int, int]) -> Floats:
    """Return draws of a normal distribution whose three standard deviations are 1, none beyond."""
    random = np.random.default_rng(stream)
    values = random.normal(0.0, 1 / _SIGMAS, count)
    while np.any(outside := np.abs(values) > 1):
        values[outside] = random.normal(0.0, 1 / _SIGMAS, int(np.sum(outside)))
    return values


def _scaled(loads: ShaftLoads, factor: Floats) -> ShaftLoads:
    return replace(loads, **{one.name: np.asarray(getattr(loads, one.name)) * factor for one in fields(loads)})


def _solved(
    system: PairSystem, spectrum: Spectrum, setting: Floats, factor: Floats, tick: Callable[[float], None] | None
) -> tuple[Floats, Floats]:
    """Return both lives of A and B (2, ...) for settings and factors of one shape."""
    loads = _scaled(spectrum.loads, factor[..., None])
    solution = solve(system, loads, setting[..., None], spectrum.slopes(factor[..., None]), tick)
    return lives((solution.zone("A"), solution.zone("B")), spectrum)


def _interpolated(
    system: PairSystem, spectrum: Spectrum, setting: Floats, factor: Floats, tick: Callable[[float], None] | None
) -> tuple[Floats, Floats]:
    """Return both lives from a table that spans the draws: bilinear in setting and factor, of the life's logarithm."""
    x = np.linspace(setting.min(), setting.max(), _SETTINGS)
    y = np.linspace(factor.min(), factor.max(), _FACTORS) if np.ptp(factor) > 0 else factor[:1]
    settings, factors = np.meshgrid(x, y, indexing="ij")
    table = _solved(system, spectrum, settings, factors, tick)
    i, s = _cell(x, setting)
    j, t = _cell(y, factor)
    found = []
    for one in table:
        log = np.log(one)
        low = (1 - s) * log[:, i, j] + s * log[:, _next(x, i), j]
        high = (1 - s) * log[:, i, _next(y, j)] + s * log[:, _next(x, i), _next(y, j)]
        found.append(np.exp((1 - t) * low + t * high))
    return found[0], found[1]


def _cell(grid: Floats, value: Floats) -> tuple[Floats, Floats]:
    at = np.clip(np.searchsorted(grid, value, side="right") - 1, 0, max(len(grid) - 2, 0))
    width = grid[_next(grid, at)] - grid[at]
    return at, np.divide(value - grid[at], width, out=np.zeros_like(value), where=width > 0)


def _next(grid: Floats, at: Floats) -> Floats:
    return np.minimum(at + 1, len(grid) - 1)
