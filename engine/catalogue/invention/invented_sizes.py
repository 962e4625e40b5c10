"""Boundary dimensions of the invented ranges: preferred numbers in the metric system, fractions in the inch system."""

import numpy as np
from numpy.typing import NDArray

from engine.catalogue.columns import Texts
from engine.catalogue.dimension_series import ANGLE_LIMITS, DIAMETER_LIMITS, WIDTH_LIMITS
from engine.catalogue.section.sizes import Envelope
from engine.numerics import Array, Floats

Flags = NDArray[np.bool_]

INCH = 25.4
#: Outside diameters: ends of whole mm that are preferred below 80 mm, steps of 5 and of 10 mm above.
_PREFERRED_D = np.array(
    [*(ten + end for ten in range(20, 80, 10) for end in (0, 2, 5, 7, 8)), *range(80, 320, 5), *range(320, 2010, 10)],
    dtype=np.float64,
)
#: Contact angles keep to whole five minutes, and to the flat part of the steepest class.
_FIVE_MINUTES = 12
_STEEPEST = 29.0
#: The widest diameter class is used in its lower half, where rollers still lie well inside the pitch circle.
_WIDEST_RATIO = 6.3
#: Cup width over assembly width at tan(alpha) = 0.25, and its fall by tan(alpha); invented.
_CUP_SHARE, _CUP_FALL = 0.79, 0.38


def uniform(seed: int, shape: tuple[int, int]) -> Floats:
    """Return numbers from 0 up to 1 that are the same on every machine and with every version of numpy.

    The raw words of the bit generator are promised to stay; the numbers drawn through a Generator are not.
    """
    words = np.random.PCG64(seed).random_raw(shape[0] * shape[1])
    return ((words >> np.uint64(11)) * 2.0**-53).reshape(shape)


def metric_envelope(d: Floats, series: Texts, draws: Floats) -> Envelope:
    """Return boundary dimensions [mm, rad] in the wanted ISO 355 series; `draws` holds five numbers a row, 0 to 1.

    Where preferred numbers cannot meet a narrow class, the row falls into its neighbour; the caller looks.
    """
    digit, letter, width = (np.array([code[place] for code in series.tolist()]) for place in range(3))
    low, high = _limits(digit, {sign: (a + b / 60, c + e / 60) for sign, ((a, b), (c, e)) in ANGLE_LIMITS.items()})
    degrees = _inside(low, np.minimum(high, _STEEPEST), draws[0])
    alpha = np.radians(np.round(np.round(degrees * _FIVE_MINUTES) / _FIVE_MINUTES, 4))
    low, high = _limits(letter, DIAMETER_LIMITS)
    per_ratio = np.power(d, 0.77)
    D = _preferred(low * per_ratio, np.minimum(high, _WIDEST_RATIO) * per_ratio, draws[1])
    low, high = _limits(width, WIDTH_LIMITS)
    T = np.round(_inside(low, high, draws[2]) * np.power(D - d, 0.95) * 4) / 4
    # thin sections have a cone as wide as the assembly, thick ones a cone a little narrower
    gap = np.where(np.isin(letter, ["B", "C"]), 0.0, (0.04 + 0.03 * draws[3]) * T)
    B = np.where(gap > 0, np.floor((T - gap) * 2) / 2, T)
    C = np.round(_cup_width(T, alpha, draws[4]) * 2) / 2
    return Envelope(d, D, T, B, C, alpha)


def inch_envelope(count: int, draws: Floats, metric: Flags) -> Envelope:
    """Return boundary dimensions [mm, rad] of the thinnest assembly of each inch series, largest cone in smallest cup.

    Bores run evenly in their logarithm from 3/4 to 12 in; `draws` holds six numbers a series, 0 to 1. Series that are
    `metric` are dimensioned in whole millimetres, the others in fractions of an inch.
    """
    place = (np.arange(count) + draws[0]) / count
    bore = 0.75 * np.power(12 / 0.75, place)
    d = np.where(metric, np.round(bore * INCH), _fractions(bore * INCH, 16 / _coarse(bore)))
    outside = np.maximum((3.8 + 2.4 * draws[1]) * np.power(d, 0.77), (1.34 + 0.1 * draws[1]) * d)
    D = _printed(outside, 8, metric)
    # two of three series are shallow, the third is steep and, since its raceways fall fast, not among the widest
    steep = draws[3] >= 2 / 3
    degrees = np.where(steep, 20 + 8.5 * (3 * draws[3] - 2), 11 + 9 * draws[3])
    T = _printed((0.56 + np.where(steep, 0.14, 0.36) * draws[2]) * np.power(D - d, 0.95), 32, metric)
    alpha = np.radians(np.round(np.round(degrees * _FIVE_MINUTES) / _FIVE_MINUTES, 4))
    B = _printed(T * (0.94 + 0.06 * draws[4]), 32, metric)
    C = _printed(_cup_width(T, alpha, draws[5]), 32, metric)
    return Envelope(d, D, T, B, C, alpha)


def inch_cones(base: Envelope, cone: Array, metric: Flags) -> Envelope:
    """Return the assemblies of cone 0 to 4 of their series with its first cup [mm, rad].

    Cones 1, 2 and 4 have bores smaller by one, two and three steps; cones 3 and 4 a longer back rib.
    """
    cone = np.asarray(cone)
    longer = np.array([0, 0, 0, 1, 1])[cone] * np.where(metric, 2.0, INCH / 16)
    d = np.round(base.d - np.array([0, 1, 2, 0, 3])[cone] * _step(base.d, metric), 5)
    return Envelope(d, base.D, np.round(base.T + longer, 5), np.round(base.B + longer, 5), base.C, base.alpha)


def inch_cups(base: Envelope, cup: Array, metric: Flags) -> Envelope:
    """Return the assemblies of cup 0 to 3 of their series with its first cone [mm, rad].

    Cups 1, 2 and 3 have larger outside diameters; cup 3 is also wider, by the same length at either end.
    """
    cup = np.asarray(cup)
    wider = np.where(cup == 3, 1, 0) * np.where(metric, 2.0, INCH / 16)
    D = np.round(base.D + np.array([0, 2, 4, 2])[cup] * _step(base.d, metric), 5)
    return Envelope(base.d, D, np.round(base.T + wider / 2, 5), base.B, np.round(base.C + wider, 5), base.alpha)


def _limits(signs: Texts, limits: dict[str, tuple[float, float]]) -> tuple[Floats, Floats]:
    pairs = np.array([limits[sign] for sign in signs.tolist()]).reshape(-1, 2)
    return pairs[:, 0], pairs[:, 1]


def _inside(low: Floats, high: Floats, draw: Floats) -> Floats:
    """Value inside the limits, a tenth of their distance away from either."""
    return low + (high - low) * (0.1 + 0.8 * draw)


def _preferred(low: Floats, high: Floats, draw: Floats) -> Floats:
    """Preferred outside diameter nearest to one drawn inside the limits, else the nearest whole mm."""
    target = _inside(low, high, draw)
    above = np.clip(np.searchsorted(_PREFERRED_D, target), 1, len(_PREFERRED_D) - 1)
    before, after = _PREFERRED_D[above - 1], _PREFERRED_D[above]
    chosen = np.where(target - before < after - target, before, after)
    return np.where((chosen > low) & (chosen <= high), chosen, np.round(target))


def _cup_width(T: Floats, alpha: Floats, draw: Floats) -> Floats:
    return T * (_CUP_SHARE - _CUP_FALL * (np.tan(alpha) - 0.25) + 0.04 * (draw - 0.5))


def _coarse(inches: Floats) -> Floats:
    """Sixteenths of an inch in a step of bores: one up to 3 in, two above."""
    return np.where(inches <= 3, 1.0, 2.0)


def _step(d: Floats, metric: Flags) -> Floats:
    """Step [mm] from one bore of a series to the next: sixteenths of an inch or whole millimetres."""
    coarse = _coarse(d / INCH)
    return np.where(metric, 1 + coarse, coarse / 16 * INCH)


def _printed(mm: Floats, parts: float, metric: Flags) -> Floats:
    return np.where(metric, np.round(mm), _fractions(mm, parts))


def _fractions(mm: Floats, parts: Floats | float) -> Floats:
    # a thirty-second of an inch is 0.79375 mm: five decimals hold every fraction exactly
    return np.round(np.round(mm / INCH * parts) / parts * INCH, 5)
