"""What the fitter is told: the bench setting in millimetres and inches, how to measure it, what to do."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.distribution.life_curve import setting_torque
from engine.distribution.pair_system import ShaftLoads, solve
from engine.numerics import Floats
from engine.setting.study import Study
from engine.units import number_text

INCH = 25.4
#: Pound-force inch in N mm.
POUND_INCH = 112.984829
#: A torque that nobody feels [N mm].
_NO_TORQUE = 1.0
#: What a fitter is given room for in any case [mm]: a tenth of the divisions of a usual indicator is not to be read.
_NUDGE = 0.001
_NEITHER = "no end play and no preload"


@dataclass(frozen=True)
class Torque:
    """Torque to turn the shaft slowly under the preload, without seals [N mm], and the preload itself [N]."""

    setting: float
    preload: float
    torque: float


def spelled(setting: float, inches: bool = False) -> str:
    """Return a setting in words: '0.050 mm end play', '0.0012 in preload', 'no end play and no preload'."""
    size = abs(setting) / INCH if inches else abs(setting)
    digits = f"{size:.4f} in" if inches else f"{size:.3f} mm"
    if float(digits.split(maxsplit=1)[0]) == 0.0:
        return _NEITHER
    return f"{digits} {'end play' if setting > 0 else 'preload'}"


def in_both(setting: float) -> str:
    """Return a setting in millimetres and, where inches show it, in them: '0.050 mm end play (0.0020 in end play)'."""
    mm, inches = spelled(setting), spelled(setting, inches=True)
    return mm if inches == _NEITHER else f"{mm} ({inches})"


def band_for_fitter(study: Study) -> tuple[float, float]:
    """Return the bench settings that the fitter may leave: the aim with the tolerance, within the band where it can be.

    Where the other scatter is wider than the band alone, the tolerance is all that is said.
    """
    tolerance = study.conditions.resolved.setting.tolerance
    low, high = study.bench - tolerance, study.bench + tolerance
    if study.bench_band[0] < study.bench < study.bench_band[1]:
        low, high = max(low, study.bench_band[0]), min(high, study.bench_band[1])
    return min(low, study.bench - _NUDGE), max(high, study.bench + _NUDGE)


def torques(study: Study, settings: Floats) -> list[Torque]:
    """Return the torque of the unloaded shaft at bench settings that are preload; nought at the others."""
    found = solve(study.rollers.system, ShaftLoads(), np.minimum(settings, 0.0))
    preloads = [np.nan_to_num(found.zone(side).Fa) for side in "AB"]
    both = sum(setting_torque(one, Fa) for one, Fa in zip(study.rollers.system.rollers, preloads, strict=True))
    return [
        Torque(float(at), float(Fa), float(M))
        for at, Fa, M in zip(settings, preloads[0], np.asarray(both), strict=True)
    ]


def instructions(study: Study) -> list[str]:
    """Return what to aim at and what may be left, then the steps; each a sentence or two."""
    low, high = band_for_fitter(study)
    aim = f"Aim at {in_both(study.bench)} in the cold machine at 20 degC."
    between = (
        f"It may stay between {spelled(low)} and {spelled(high)}; in inches between {spelled(low, inches=True)} and "
        f"{spelled(high, inches=True)}."
    )
    return [aim, between, *steps_of(study)]


def steps_of(study: Study) -> list[str]:
    """Return how the setting is made and measured, step by step."""
    low, high = band_for_fitter(study)
    steps = []
    if study.bench_band[0] > study.bench_band[1]:
        steps.append(
            "Fits and temperatures alone scatter wider than the band of long life: what the fitter does well is lost "
            "in them. Narrower fits, or a setting measured after the rings are on their seats, would help."
        )
    steps += _making(study.conditions.resolved.setting.method)
    steps += _measuring(study, low, high)
    steps.append("Turn the shaft a dozen times while setting and before each reading: the rollers must lie at the rib.")
    return steps


def _making(method: str) -> list[str]:
    if method == "shims":
        return [
            "Press the cover on by hand while turning, measure its gap all round, take the mean, and pack shims of the "
            "gap plus the end play (less the preload)."
        ]
    if method == "spacer":
        return [
            "Measure both bearings on a plate under a light load, turned until the rollers lie at the rib, and grind "
            "the spacer to measure. The fits take play after that; this is counted."
        ]
    return [
        "Tighten the nut while turning until the shaft drags, then back it off to the setting and lock it; read again "
        "after locking."
    ]


def _measuring(study: Study, low: float, high: float) -> list[str]:
    """Return how to measure: by the dial indicator where there is play, by torque where there is preload."""
    steps = []
    if high > 0:
        steps.append(
            "End play: magnet base on the housing, indicator on the shaft's end face; push and pull along the shaft "
            "with the same force, turning it to and fro; the end play is the difference of the readings."
        )
    if low < 0:
        ends = torques(study, np.array([low, min(high, 0.0)]))
        least, greatest = sorted(one.torque for one in ends)
        between = f"{_torque_text(least)} to {_torque_text(greatest)}"
        drag = between if least > _NO_TORQUE else f"up to {_torque_text(greatest)}"
        preload = number_text(max(one.preload for one in ends), 2)
        steps.append(
            f"Preload: no indicator reads it. By torque: turned slowly, well oiled, without seals, the shaft drags "
            f"with {drag} more than with end play; that is a preload of up to {preload} N. Rolling friction and "
            f"grease come on top, so take the difference."
        )
    return steps


def _torque_text(torque: float) -> str:
    """Return a torque in both units."""
    return f"{number_text(torque / 1000.0, 2)} N m ({number_text(torque / POUND_INCH, 2)} lbf in)"
