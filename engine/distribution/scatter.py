"""What scatters, drawn many times: where the setting in service comes to lie, and the chance to reach a life.

One factor is drawn for all loads together; each other quantity is drawn for itself, from a normal distribution of its
own stream, three standard deviations to its half range and none beyond (common practice, no source); the same seed
gives the same draws, whatever else is drawn. Where the film is known at other temperatures, kappa, contamination and
life modification factor follow the drawn temperature of the bearings, the mean of cone and cup.
"""

from collections.abc import Callable
from dataclasses import dataclass, fields, replace

import numpy as np

from engine.distribution.life_curve import Spectrum, lives
from engine.distribution.pair_system import PairSystem, ShaftLoads, solve
from engine.distribution.reference_life import Film
from engine.distribution.setting_chain import Conditions, Mounting, chain
from engine.numerics import Array, Floats, as_arrays
from engine.rating.reliability import C_GAMMA, SLOPE
from engine.rating.system import system_life
from engine.sources import ISO_TR_1281_2, cited

DRAWS = 10_000
#: Settings, load factors and temperatures of the table between which lives are interpolated.
_SETTINGS, _FACTORS, _WARMTHS = 41, 5, 7
_SIGMAS = 3.0


@dataclass(frozen=True)
class Warming:
    """By how much the bearings are warmer in each draw (draws,) [K], and their films at (m,) of such, (m, k)."""

    shift: Floats
    films: Callable[[Floats], tuple[Film, Film]]


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
    warming: Warming | None = None,
    exact: bool = False,
    tick: Callable[[float], None] | None = None,
) -> Scatter:
    """Return lives and chances for draws of (setting in service, load factor), each (draws,), and of the warmth.

    Without `warming` the film is that of the spectrum in every draw. Lives come from a table over settings, load
    factors and warmth, interpolated, or with `exact` from an equilibrium a draw.
    """
    setting, factor = draws
    warming = warming or Warming(np.zeros(1), lambda _: spectrum.film)
    if exact:
        basic, modified = _solved(system, spectrum, draws, warming.films(warming.shift), tick)
    else:
        basic, modified = _interpolated(system, spectrum, draws, warming, tick)
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


def warmer(nominal: Conditions, drawn: Conditions) -> Floats:
    """Return by how much the bearings are warmer than nominal in every draw, cone and cup by their mean [K]."""
    T_cone, T_cup, cone, cup = as_arrays(drawn.T_cone, drawn.T_cup, nominal.T_cone, nominal.T_cup)
    return (T_cone - cone + T_cup - cup) / 2


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
    system: PairSystem,
    spectrum: Spectrum,
    at: tuple[Floats, Floats],
    films: tuple[Film, Film],
    tick: Callable[[float], None] | None,
) -> tuple[Floats, Floats]:
    """Return both lives of A and B (2, ...) for settings and factors of one shape, with these films."""
    setting, factor = at
    loads = _scaled(spectrum.loads, factor[..., None])
    solution = solve(system, loads, setting[..., None], spectrum.slopes(factor[..., None]), tick)
    return lives((solution.zone("A"), solution.zone("B")), replace(spectrum, film=films))


def _interpolated(
    system: PairSystem,
    spectrum: Spectrum,
    draws: tuple[Floats, Floats],
    warming: Warming,
    tick: Callable[[float], None] | None,
) -> tuple[Floats, Floats]:
    """Return both lives from a table that spans the draws: linear in setting, factor and warmth, of the logarithm."""
    setting, factor = draws
    x = np.linspace(setting.min(), setting.max(), _SETTINGS)
    y, z = _span(factor, _FACTORS), _span(warming.shift, _WARMTHS)
    settings, factors = np.meshgrid(x, y, indexing="ij")
    one, other = (_by_warmth(film) for film in warming.films(z))
    basic, modified = _solved(system, spectrum, (settings, factors), (one, other), tick)
    i, s = _cell(x, setting)
    j, t = _cell(y, factor)

    def between(table: Floats) -> Floats:
        log = np.log(table)
        low = (1 - s) * log[..., i, j] + s * log[..., _next(x, i), j]
        high = (1 - s) * log[..., i, _next(y, j)] + s * log[..., _next(x, i), _next(y, j)]
        return np.asarray((1 - t) * low + t * high)

    at_warmth = between(modified.reshape(2, -1, *settings.shape))
    if at_warmth.shape[1] == 1:
        return np.exp(between(basic)), np.exp(at_warmth[:, 0])
    k, u = _cell(z, warming.shift)
    draw = np.arange(len(setting))
    return np.exp(between(basic)), np.exp((1 - u) * at_warmth[:, k, draw] + u * at_warmth[:, _next(z, k), draw])


def _span(values: Floats, count: int) -> Floats:
    """Return the grid that spans values; one of them where all are alike."""
    return np.linspace(values.min(), values.max(), count) if np.ptp(values) > 0 else values[:1]


def _by_warmth(film: Film) -> Film:
    """Return a film at each warmth (m, k) before the two axes of the table; one that is the same at all as it is."""
    kappa, e_C = as_arrays(film.kappa, film.e_C)
    if kappa.ndim < 2:
        return film
    return replace(film, kappa=kappa[:, None, None], e_C=e_C[:, None, None])


def _cell(grid: Floats, value: Floats) -> tuple[Floats, Floats]:
    at = np.clip(np.searchsorted(grid, value, side="right") - 1, 0, max(len(grid) - 2, 0))
    width = grid[_next(grid, at)] - grid[at]
    return at, np.divide(value - grid[at], width, out=np.zeros_like(value), where=width > 0)


def _next(grid: Floats, at: Floats) -> Floats:
    return np.minimum(at + 1, len(grid) - 1)
