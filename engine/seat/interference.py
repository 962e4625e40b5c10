"""Interference of a seat: between which ends it lies, how it is spread, and what is left of it in operation.

All interferences are diametral; positive ones are tight, negative ones a clearance. "Inner" is the part inside (the
shaft, or the cup in its housing), "outer" the part around it (the cone, or the housing).
"""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.seat import rotation
from engine.seat.material import Material
from engine.sources import COMMON_PRACTICE, DIN_7190_1, GEOMETRY, ROTATING_RING, cited

#: Temperature at which limits hold [deg C].
REFERENCE_TEMPERATURE = 20.0
#: Tolerance zone in standard deviations of a centred process.
_SIGMAS = 6.0
#: Share of pairs that lies beyond either end of a range that all but about 3 in 1000 keep to, and how many are drawn.
_BEYOND, _DRAWN = 0.00135, 50_000


@cited(GEOMETRY, "limits of interference")
def interference_limits(
    upper_inner: Array, lower_inner: Array, upper_outer: Array, lower_outer: Array
) -> tuple[Floats, Floats, Floats]:
    """Least, mean and greatest interference of two parts by their limits.

    least = ei - ES, greatest = es - EI, mean = half their sum

    Parameters (any broadcastable shapes)
    ----------
    upper_inner : upper deviation of the part inside [mm]
    lower_inner : lower deviation of the part inside [mm]
    upper_outer : upper deviation of the part around it [mm]
    lower_outer : lower deviation of the part around it [mm]

    Returns
    -------
    least, mean, greatest [mm]

    Valid for any limits of one nominal size.

    Source: Geometry, limits of interference; ISO 286-1 defines it so.
    """
    upper_inner, lower_inner, upper_outer, lower_outer = as_arrays(upper_inner, lower_inner, upper_outer, lower_outer)
    least, greatest = lower_inner - upper_outer, upper_inner - lower_outer
    return np.asarray(least), np.asarray((least + greatest) / 2.0), np.asarray(greatest)


@cited(COMMON_PRACTICE, "root sum square of tolerances")
def probable_limits(
    upper_inner: Array, lower_inner: Array, upper_outer: Array, lower_outer: Array
) -> tuple[Floats, Floats]:
    """Least and greatest interference that all but about 3 pairs in 1000 keep to.

    mean -+ sqrt(t_inner^2 + t_outer^2)/2, t the widths of the tolerance zones

    Parameters (any broadcastable shapes)
    ----------
    upper_inner : upper deviation of the part inside [mm]
    lower_inner : lower deviation of the part inside [mm]
    upper_outer : upper deviation of the part around it [mm]
    lower_outer : lower deviation of the part around it [mm]

    Returns
    -------
    least, greatest [mm]

    Valid where both sizes are normally spread, centred in their zones, six standard deviations wide.

    Source: Common practice, root sum square of tolerances; rule of the trade, no source.
    """
    least, mean, greatest = interference_limits(upper_inner, lower_inner, upper_outer, lower_outer)
    upper_inner, lower_inner, upper_outer, lower_outer = as_arrays(upper_inner, lower_inner, upper_outer, lower_outer)
    half = np.sqrt(np.square(upper_inner - lower_inner) + np.square(upper_outer - lower_outer)) / 2.0
    return np.maximum(mean - half, least), np.minimum(mean + half, greatest)


def sampled_interference(
    inner: tuple[float, float], outer: tuple[float, float], count: int = 2000, seed: int = 1
) -> Floats:
    """Return interferences [mm], sorted, of pairs drawn from both zones, given as (upper, lower) deviations [mm].

    Sizes are normally spread, six standard deviations to a zone, and what lies outside it is sorted out by inspection
    (common practice, no source); the same seed gives the same draw.
    """
    draw = np.random.default_rng(seed)
    sizes = []
    for upper, lower in (inner, outer):
        inside = np.zeros(0)
        while inside.size < count:
            more = draw.standard_normal(count) / _SIGMAS
            inside = np.concatenate([inside, more[np.abs(more) <= 0.5]])
        sizes.append((upper + lower) / 2.0 + (upper - lower) * inside[:count])
    return np.sort(sizes[0] - sizes[1])


def sampled_limits(inner: tuple[float, float], outer: tuple[float, float]) -> tuple[float, float]:
    """Return least and greatest interference [mm] that all but about 3 in 1000 of pairs drawn keep to.

    Beside `probable_limits`, which knows no inspection; zones are given as for `sampled_interference`.
    """
    least, greatest = np.quantile(sampled_interference(inner, outer, _DRAWN), (_BEYOND, 1.0 - _BEYOND))
    return float(least), float(greatest)


@cited(DIN_7190_1, "loss of interference by smoothing")
def smoothed(delta: Array, Rz_inner: Array, Rz_outer: Array) -> Floats:
    """Interference that is left when the peaks of both surfaces are smoothed in joining.

    U_w = U - 0.8 (Rz_i + Rz_a)

    Parameters (any broadcastable shapes)
    ----------
    delta : interference by the limits [mm]
    Rz_inner : roughness depth of the part inside [mm]
    Rz_outer : roughness depth of the part around it [mm]

    Returns
    -------
    effective interference [mm]; a clearance stays as it is, and smoothing makes none

    Valid for parts joined by pressing; joined by shrinking the loss is smaller and this is on the safe side for creep.

    Source: DIN 7190-1:2017, loss of interference by smoothing; recalled, to be verified against the standard.
    """
    delta, Rz_inner, Rz_outer = as_arrays(delta, Rz_inner, Rz_outer)
    return np.minimum(delta, np.maximum(delta - 0.8 * (Rz_inner + Rz_outer), 0.0))


@cited(DIN_7190_1, "change of interference with temperature")
def thermal_change(size: Array, T_inner: Array, T_outer: Array, inner: Material, outer: Material) -> Floats:
    """How much interference is gained by warming both parts from the temperature at which limits hold.

    delta_T = d [alpha_i (T_i - 20) - alpha_o (T_o - 20)]

    Parameters (any broadcastable shapes)
    ----------
    size : diameter of the joint [mm]
    T_inner : temperature of the part inside [deg C]
    T_outer : temperature of the part around it [deg C]
    inner : material of the part inside [-]
    outer : material of the part around it [-]

    Returns
    -------
    gain, negative where the part around expands more [mm]

    Valid for temperatures that are even over each part.

    Source: DIN 7190-1:2017, change of interference with temperature; recalled, to be verified against the standard.
    """
    size, T_inner, T_outer = as_arrays(size, T_inner, T_outer)
    grown = inner.alpha * (T_inner - REFERENCE_TEMPERATURE) - outer.alpha * (T_outer - REFERENCE_TEMPERATURE)
    return np.asarray(size * grown)


@cited(ROTATING_RING, "growth of two parts that turn together")
def centrifugal_loss(d_i: Array, d_j: Array, d_o: Array, n: Array, inner: Material, outer: Material) -> Floats:
    """How much interference two parts that turn together lose, because the outer one grows more.

    loss = growth of the bore of the outer part less growth of the outside of the inner part, each turning freely

    Parameters (any broadcastable shapes)
    ----------
    d_i : bore of the part inside, 0 where it is solid [mm]
    d_j : diameter of the joint [mm]
    d_o : outside diameter of the part around it [mm]
    n : speed of both [rpm]
    inner : material of the part inside [MPa, -, kg/m3]
    outer : material of the part around it [MPa, -, kg/m3]

    Returns
    -------
    loss [mm]

    Valid for 0 <= d_i < d_j < d_o; NaN outside.

    Source: Rotating ring, growth of two parts that turn together; textbook.
    """
    grown = rotation.growth_at_bore(d_j, d_o, n, outer) - rotation.growth_at_outside(d_i, d_j, n, inner)
    return np.asarray(grown)
