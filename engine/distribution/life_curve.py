"""Life, stiffness and heat of a pair over its setting: where the best one lies, and where danger begins."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from engine.distribution.contact import cL
from engine.distribution.load_zone import LoadZone
from engine.distribution.pair_system import PairSolution, PairSystem, ShaftLoads, solve
from engine.distribution.reference_life import CONE, Film, reference_life
from engine.distribution.rollers import RollerSet
from engine.lubrication import friction
from engine.numerics import Array, Floats, as_arrays
from engine.rating.life import life_in_hours, spectrum_life
from engine.rating.system import system_life
from engine.sources import COMMON_PRACTICE, HEAT_BALANCE, STATICS, cited

#: Share of the best life that the recommended band keeps.
WITHIN = 0.90
#: Friction between roller end and rib while the fitter turns the shaft slowly; common practice, no source.
MU_RIB = 0.15


@dataclass(frozen=True)
class Spectrum:
    """Load cases of the pair along one axis (k,), with the film of each bearing."""

    loads: ShaftLoads
    share: Floats  # of time [-]
    n: Floats  # speed [rpm]
    film: tuple[Film, Film] = (Film(), Film())
    free: Array = 0.0  # slopes that the loads alone cause, see ShaftCompliance
    askew: Array = 0.0  # what the cups' standing askew adds to them, whatever the loads [rad]
    turning: str = CONE  # ring that turns against the load

    def slopes(self, factor: Array = 1.0) -> Floats:
        """Return the free slopes under loads grown by a factor, (..., 4) with the factor's axes before the last."""
        free, askew, grown = as_arrays(self.free, self.askew, factor)
        return free * grown[..., None] + askew


@dataclass(frozen=True)
class LifeCurve:
    """Figures over the settings (m,); lives over the whole spectrum [h]."""

    setting: Floats  # end play, negative for preload [mm]
    life: Floats  # of the pair as a system
    life_A: Floats
    life_B: Floats
    modified: Floats  # of the pair, with film and reliability; NaN where the film is not known
    modified_A: Floats
    modified_B: Floats
    stiffness: Floats  # least over the cases, (m, 5): radial y and z, axial, tilting y and z
    p_max: Floats  # greatest pressure of both bearings over the cases [MPa]
    heat: Floats  # load-dependent friction of the pair, mean over time [W]
    solution: PairSolution  # (m, k)

    @property
    def best(self) -> tuple[float, float]:
        """Setting of the longest life, and that life."""
        return summit(self.setting, self.life)

    def band(self, within: float = WITHIN) -> tuple[float, float]:
        """Least and greatest setting between which life stays within a share of the best."""
        return band_within(self.setting, self.life, within)


def life_curve(
    system: PairSystem, spectrum: Spectrum, settings: Array, tick: Callable[[float], None] | None = None
) -> LifeCurve:
    """Return life, stiffness and heat over the settings (m,), which ascend; `tick` is told the share done."""
    (setting,) = as_arrays(settings)
    solution = solve(system, spectrum.loads, setting[:, None], spectrum.slopes(), tick)
    zones = (solution.zone("A"), solution.zone("B"))
    basic, modified = lives(zones, spectrum)
    stiffness = np.diagonal(solution.stiffness, axis1=-2, axis2=-1)
    watts = sum(friction_heat(zone, spectrum.n) for zone in zones)
    return LifeCurve(
        setting=setting,
        life=system_life(basic, axis=0),
        life_A=basic[0],
        life_B=basic[1],
        modified=system_life(modified, axis=0),
        modified_A=modified[0],
        modified_B=modified[1],
        stiffness=np.min(stiffness, axis=1),
        p_max=np.max([zone.p_max for zone in zones], axis=(0, 2)),
        heat=np.sum(watts * spectrum.share, axis=-1) / np.sum(spectrum.share),
        solution=solution,
    )


def setting_grid(system: PairSystem, count: int = 49) -> Floats:
    """Return settings for a curve, from a preload of about 0.8 of the ratings to an ample end play [mm]."""
    closing = 0.0
    for one in system.rollers:
        closing += float(closing_way(one.Cr, one.Z, one.alpha, one.Lwe))
    return np.linspace(-2 * closing, 2 * closing, count)


@cited(COMMON_PRACTICE, "settings looked at, 0.4 of each rating")
def closing_way(Cr: Array, Z: Array, alpha: Array, Lwe: Array) -> Floats:
    """Way along the shaft by which a bearing closes when all its rollers together carry 0.4 of its rating.

    w = (Q/cL)^0.9 / sin(alpha), Q = 0.4 Cr/(Z cos(alpha)); settings are looked at from -G to G, G = 2 (w_A + w_B)

    Parameters (any broadcastable shapes)
    ----------
    Cr : basic dynamic radial load rating [N]
    Z : number of rollers [-]
    alpha : contact angle [rad]
    Lwe : effective contact length [mm]

    Returns
    -------
    w [mm]

    Valid for positive sizes, 0 < alpha < pi/2, rollers loaded alike; NaN outside.

    Source: Common practice, settings looked at, 0.4 of each rating; chosen here, wide enough for the longest life.
    """
    Cr, Z, alpha, Lwe = as_arrays(Cr, Z, alpha, Lwe)
    with np.errstate(divide="ignore", invalid="ignore"):
        Q = 0.4 * Cr / (Z * np.cos(alpha))
        return np.where((Cr > 0) & (Z > 0) & (alpha > 0), (Q / cL(Lwe)) ** 0.9 / np.sin(alpha), np.nan)


def summit(setting: Floats, life: Floats) -> tuple[float, float]:
    """Return where a curve is highest and how high, from the parabola through its three highest neighbours."""
    known = np.where(np.isfinite(life), life, -np.inf)
    at = int(np.argmax(known))
    if at in (0, len(life) - 1) or not np.all(np.isfinite(life[at - 1 : at + 2])):
        return float(setting[at]), float(life[at])
    x, y = setting[at - 1 : at + 2] - setting[at], np.log(life[at - 1 : at + 2])
    square, line, height = np.polyfit(x, y, 2)
    if square >= 0:
        return float(setting[at]), float(life[at])
    return float(setting[at] - line / (2 * square)), float(np.exp(height - line**2 / (4 * square)))


def band_within(setting: Floats, life: Floats, within: float = WITHIN) -> tuple[float, float]:
    """Return the settings around the best one where life has fallen to a share of it; the ends of the curve at most."""
    floor = within * summit(setting, life)[1]
    at = int(np.argmax(np.where(np.isfinite(life), life, -np.inf)))
    ends = []
    for side in (-1, 1):
        i = at
        while 0 <= i + side < len(life) and life[i + side] >= floor:
            i += side
        if 0 <= i + side < len(life) and np.isfinite(life[i + side]):
            share = (life[i] - floor) / (life[i] - life[i + side])
            ends.append(float(setting[i] + share * (setting[i + side] - setting[i])))
        else:
            ends.append(float(setting[i]))
    return ends[0], ends[1]


def friction_heat(zone: LoadZone, n: Array) -> Floats:
    """Return the load-dependent friction heat of a bearing in every case [W]; d_m is taken as the pitch diameter."""
    P1 = friction.friction_load_P1(zone.Fr, zone.Fa, 0.4 / np.tan(zone.rollers.alpha))
    return friction.friction_power(friction.load_dependent_M1(friction.F1, P1, zone.rollers.Dpw), n)


@cited(HEAT_BALANCE, "gain of the loop from heat to setting to heat")
def runaway_gain(setting: Array, heat: Array, shift: Array, cooling: Array) -> Floats:
    """How much heat comes back for each watt that warms the pair: from 1 on, preload feeds itself.

    gain = (dH/ds) (ds/dT) / W

    Parameters (setting and heat along their last axis)
    ----------
    setting : settings in ascending order [mm]
    heat : friction heat of the pair at each [W]
    shift : change of the setting per kelvin that the pair warms up, negative where it closes [mm]
    cooling : heat carried off per kelvin [W]

    Returns
    -------
    gain [-] at each setting

    Valid for cooling > 0 and at least two settings; NaN outside.

    Source: Heat balance, gain of the loop from heat to setting to heat; derived here.
    """
    setting, heat, shift, cooling = as_arrays(setting, heat, shift, cooling)
    with np.errstate(divide="ignore", invalid="ignore"):
        slope = np.gradient(heat, setting, axis=-1)
        return np.where(cooling > 0, slope * shift / cooling, np.nan)


@cited(STATICS, "torque of the ribs under preload")
def setting_torque(rollers: RollerSet, Fa: Array, mu: Array = MU_RIB) -> Floats:
    """Torque that turns one bearing slowly under a pure axial preload: sliding of the roller ends on the rib.

    M = mu Fa sin(2 nu) / sin(alpha) F/2

    Parameters (any broadcastable shapes)
    ----------
    rollers : the roller set, of which diameters and angles are used [mm, rad]
    Fa : axial preload [N]
    mu : coefficient of friction between roller end and rib [-]

    Returns
    -------
    M [N mm]

    Valid for Fa >= 0, slow turning without a film; rolling friction, seals and grease come on top. NaN outside.

    Source: Statics, torque of the ribs under preload; derived here, mu common practice, no source.
    """
    Fa, mu = as_arrays(Fa, mu)
    rib = Fa * np.sin(2 * rollers.nu) / np.sin(rollers.alpha)
    return np.where(Fa >= 0, mu * rib * rollers.cone_diameter / 2, np.nan)


def lives(zones: tuple[LoadZone, LoadZone], spectrum: Spectrum) -> tuple[Floats, Floats]:
    """Return basic and modified reference lives (2, ...) of A and B over the cases, the last axis of the zones [h]."""
    both = [_hours(zone, spectrum, side) for side, zone in enumerate(zones)]
    return np.stack([one[0] for one in both]), np.stack([one[1] for one in both])


def _hours(zone: LoadZone, spectrum: Spectrum, side: int) -> tuple[Floats, Floats]:
    """Return basic and modified reference life of a bearing over the spectrum [h]."""
    lives = reference_life(zone, spectrum.film[side], spectrum.turning)
    running = (spectrum.n > 0) & (spectrum.share > 0)
    hours = [np.where(running, life_in_hours(one, spectrum.n), np.inf) for one in (lives.L10r, lives.Lnmr)]
    return spectrum_life(spectrum.share, hours[0]), spectrum_life(spectrum.share, hours[1])
