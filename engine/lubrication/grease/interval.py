"""How long a grease filling lasts: the general formula of the trade, with every factor shown."""

from dataclasses import dataclass

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import COMMON_PRACTICE, cited

#: Factors of the general formula, by word; common practice, no source.
CONTAMINATION = {"light": 1.0, "severe_soft": 0.7, "light_abrasive": 0.4, "severe_abrasive": 0.2}
MOISTURE = {"dry": 1.0, "humid": 0.7, "condensing": 0.4, "splashed": 0.1}
VIBRATION = {"calm": 1.0, "rough": 0.6, "heavy": 0.3}
POSITION = {"horizontal": 1.0, "inclined": 0.5, "vertical": 0.3}
#: A turning outer ring flings the grease out of the cup.
OUTER_RING = 0.5
#: Up to each temperature [deg C] its factor; hotter, the last one.
TEMPERATURE_STEPS = ((65.0, 1.0), (80.0, 0.5), (93.0, 0.2))
TEMPERATURE_LAST = 0.1


@cited(COMMON_PRACTICE, "general formula for the regreasing interval")
def base_interval(n: Array, d: Array) -> Floats:
    """Regreasing interval of a tapered roller bearing in a cool, clean and calm place.

    t = 14e6 / (n sqrt(d)) - 4 d

    Parameters (any broadcastable shapes)
    ----------
    n : speed [rpm]
    d : bore diameter [mm]

    Returns
    -------
    t [h], 0 where the formula leaves nothing: too fast for grease; infinite at n = 0

    Valid for n >= 0, d > 0; NaN outside.

    Source: Common practice, general formula for the regreasing interval; no source.
    """
    n, d = as_arrays(n, d)
    with np.errstate(all="ignore"):
        t = np.maximum(14e6 / (n * np.sqrt(d)) - 4 * d, 0.0)
        return np.where((n >= 0) & (d > 0), t, np.nan)


@cited(COMMON_PRACTICE, "temperature factor of the regreasing interval")
def temperature_factor(T: Array) -> Floats:
    """Factor by which warmth shortens the regreasing interval.

    1 up to 65 deg C, 0.5 up to 80, 0.2 up to 93, 0.1 above

    Parameters (any shape)
    ----------
    T : temperature of the bearing [deg C]

    Returns
    -------
    factor [-]

    Valid up to the temperature that the grease stands; NaN for an unknown temperature.

    Source: Common practice, temperature factor of the regreasing interval; no source.
    """
    (T,) = as_arrays(T)
    factor = np.full_like(T, TEMPERATURE_LAST)
    for most, value in reversed(TEMPERATURE_STEPS):
        factor = np.where(most >= T, value, factor)
    return np.where(np.isnan(T), np.nan, factor)


@dataclass(frozen=True)
class Place:
    """Where a greased bearing works, in words: keys of CONTAMINATION, MOISTURE, VIBRATION and POSITION."""

    contamination: str = "light"
    moisture: str = "dry"
    vibration: str = "calm"
    position: str = "horizontal"
    outer_ring_turns: bool = False

    def factors(self) -> dict[str, float]:
        """Return each factor by its name, in the order of the formula."""
        return {
            "contamination": CONTAMINATION[self.contamination],
            "moisture": MOISTURE[self.moisture],
            "vibration": VIBRATION[self.vibration],
            "position": POSITION[self.position],
            "outer ring": OUTER_RING if self.outer_ring_turns else 1.0,
        }


@cited(COMMON_PRACTICE, "general formula for the regreasing interval, with its factors")
def regreasing_interval(n: Array, d: Array, T: Array, place: Place) -> Floats:
    """Regreasing interval under the real conditions; of a bearing greased for life, the life of its grease.

    t = (14e6 / (n sqrt(d)) - 4 d) F_temperature F_contamination F_moisture F_vibration F_position F_outer_ring

    Parameters (n, d and T of any broadcastable shapes)
    ----------
    n : speed [rpm]
    d : bore diameter [mm]
    T : temperature of the bearing [deg C]
    place : where the bearing works [-]

    Returns
    -------
    t [h]

    Valid for n >= 0, d > 0; NaN outside. Lithium grease of mineral oil.

    Source: Common practice, general formula for the regreasing interval, with its factors; no source.
    """
    t = base_interval(n, d) * temperature_factor(T)
    for factor in place.factors().values():
        t = t * factor
    return t


@cited(COMMON_PRACTICE, "regreasing over a spectrum")
def interval_over_cases(share: Array, intervals: Array) -> Floats:
    """Regreasing interval over load cases: each uses up its part of the grease.

    1 / sum(share / t)

    Parameters (cases along the last axis)
    ----------
    share : share of each case in the running time [-]
    intervals : regreasing interval in each case [h]

    Returns
    -------
    t [h]

    Valid for shares that add up to 1, intervals >= 0; NaN outside.

    Source: Common practice, regreasing over a spectrum; linear sum as for fatigue, no source.
    """
    share, intervals = as_arrays(share, intervals)
    with np.errstate(all="ignore"):
        # a case that takes no time uses nothing up, however short its interval
        used = np.where(share > 0, share / intervals, 0.0).sum(axis=-1)
        return np.where((share >= 0).all(axis=-1) & ~(intervals < 0).any(axis=-1), 1 / used, np.nan)
