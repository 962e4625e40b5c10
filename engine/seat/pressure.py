"""Pressure in a seat, and what it does to the parts: thick elastic cylinders after Lame, plane stress.

A ring with its tapered raceway counts as a cylinder up to the mean raceway diameter; ribs stiffen it a little more.
"""

from collections.abc import Sequence

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.seat.material import Material
from engine.sources import GEOMETRY, THICK_CYLINDER, cited


@cited(THICK_CYLINDER, "pressure of a shrink fit of two materials")
def joint_pressure(delta: Array, d_i: Array, d_j: Array, d_o: Array, inner: Material, outer: Material) -> Floats:
    """Pressure between two cylinders, one pressed into the other.

    p = (delta/d_j) / { [(d_o^2 + d_j^2)/(d_o^2 - d_j^2) + nu_o]/E_o + [(d_j^2 + d_i^2)/(d_j^2 - d_i^2) - nu_i]/E_i }

    Parameters (any broadcastable shapes)
    ----------
    delta : diametral interference; where it is a clearance the pressure is 0 [mm]
    d_i : bore of the inner cylinder, 0 where it is solid [mm]
    d_j : diameter of the joint [mm]
    d_o : outside diameter of the outer cylinder [mm]
    inner : material of the inner cylinder [MPa, -]
    outer : material of the outer cylinder [MPa, -]

    Returns
    -------
    p [MPa]

    Valid for 0 <= d_i < d_j < d_o and stress below yield; NaN outside.

    Source: Thick cylinder, pressure of a shrink fit of two materials; textbook.
    """
    delta, d_i, d_j, d_o = as_arrays(delta, d_i, d_j, d_o)
    valid = (d_i >= 0) & (d_i < d_j) & (d_j < d_o)
    with np.errstate(divide="ignore", invalid="ignore"):
        i, j, o = np.square(d_i), np.square(d_j), np.square(d_o)
        gives_o = ((o + j) / (o - j) + outer.nu) / outer.E
        gives_i = ((j + i) / (j - i) - inner.nu) / inner.E
        p = np.maximum(delta, 0.0) / (d_j * (gives_o + gives_i))
    return np.where(valid, p, np.nan)


@cited(THICK_CYLINDER, "tangential stress under internal pressure, inside")
def hoop_at_bore(p: Array, d_j: Array, d_o: Array) -> Floats:
    """Tangential stress at the bore of a ring that sits tight on a shaft.

    sigma = p (d_o^2 + d_j^2)/(d_o^2 - d_j^2)

    Parameters (any broadcastable shapes)
    ----------
    p : pressure in the bore [MPa]
    d_j : bore diameter [mm]
    d_o : outside diameter, of a cone the mean raceway diameter [mm]

    Returns
    -------
    sigma, tension positive [MPa]

    Valid for 0 < d_j < d_o; NaN outside.

    Source: Thick cylinder, tangential stress under internal pressure, inside; textbook.
    """
    p, d_j, d_o = as_arrays(p, d_j, d_o)
    with np.errstate(divide="ignore", invalid="ignore"):
        sigma = p * (np.square(d_o) + np.square(d_j)) / (np.square(d_o) - np.square(d_j))
    return np.where((d_j > 0) & (d_j < d_o), sigma, np.nan)


@cited(THICK_CYLINDER, "tangential stress under internal pressure, outside")
def hoop_at_outside(p: Array, d_j: Array, d_o: Array) -> Floats:
    """Tangential stress at the raceway of a cone that sits tight on a shaft.

    sigma = 2 p d_j^2/(d_o^2 - d_j^2)

    Parameters (any broadcastable shapes)
    ----------
    p : pressure in the bore [MPa]
    d_j : bore diameter [mm]
    d_o : mean raceway diameter [mm]

    Returns
    -------
    sigma, tension positive [MPa]

    Valid for 0 < d_j < d_o; NaN outside.

    Source: Thick cylinder, tangential stress under internal pressure, outside; textbook.
    """
    p, d_j, d_o = as_arrays(p, d_j, d_o)
    with np.errstate(divide="ignore", invalid="ignore"):
        sigma = 2.0 * p * np.square(d_j) / (np.square(d_o) - np.square(d_j))
    return np.where((d_j > 0) & (d_j < d_o), sigma, np.nan)


@cited(THICK_CYLINDER, "tangential stress under external pressure, inside")
def hoop_under_squeeze_at_bore(p: Array, d_i: Array, d_j: Array) -> Floats:
    """Tangential stress at the raceway of a cup that sits tight in a housing, or in the bore of a hollow shaft.

    sigma = -2 p d_j^2/(d_j^2 - d_i^2)

    Parameters (any broadcastable shapes)
    ----------
    p : pressure on the outside [MPa]
    d_i : bore diameter, of a cup the mean raceway diameter [mm]
    d_j : outside diameter [mm]

    Returns
    -------
    sigma, tension positive [MPa]

    Valid for 0 < d_i < d_j; NaN outside.

    Source: Thick cylinder, tangential stress under external pressure, inside; textbook.
    """
    p, d_i, d_j = as_arrays(p, d_i, d_j)
    with np.errstate(divide="ignore", invalid="ignore"):
        sigma = -2.0 * p * np.square(d_j) / (np.square(d_j) - np.square(d_i))
    return np.where((d_i > 0) & (d_i < d_j), sigma, np.nan)


@cited(THICK_CYLINDER, "tangential stress under external pressure, outside")
def hoop_under_squeeze_at_outside(p: Array, d_i: Array, d_j: Array) -> Floats:
    """Tangential stress at the outside of a cup that sits tight in a housing, or of a shaft under its cone.

    sigma = -p (d_j^2 + d_i^2)/(d_j^2 - d_i^2)

    Parameters (any broadcastable shapes)
    ----------
    p : pressure on the outside [MPa]
    d_i : bore diameter, 0 where it is solid [mm]
    d_j : outside diameter [mm]

    Returns
    -------
    sigma, tension positive [MPa]

    Valid for 0 <= d_i < d_j; NaN outside.

    Source: Thick cylinder, tangential stress under external pressure, outside; textbook.
    """
    p, d_i, d_j = as_arrays(p, d_i, d_j)
    with np.errstate(divide="ignore", invalid="ignore"):
        sigma = -p * (np.square(d_j) + np.square(d_i)) / (np.square(d_j) - np.square(d_i))
    return np.where((d_i >= 0) & (d_i < d_j), sigma, np.nan)


@cited(THICK_CYLINDER, "growth of the outside under internal pressure")
def raceway_growth(p: Array, d_j: Array, d_o: Array, outer: Material) -> Floats:
    """How much the raceway of a cone grows in diameter by the pressure in its bore.

    u = 2 p d_j^2 d_o/[E (d_o^2 - d_j^2)]

    Parameters (any broadcastable shapes)
    ----------
    p : pressure in the bore [MPa]
    d_j : bore diameter [mm]
    d_o : mean raceway diameter [mm]
    outer : material of the ring [MPa, -]

    Returns
    -------
    u, growth positive [mm]

    Valid for 0 < d_j < d_o; NaN outside.

    Source: Thick cylinder, growth of the outside under internal pressure; textbook.
    """
    (d_o,) = as_arrays(d_o)
    return np.asarray(hoop_at_outside(p, d_j, d_o) * d_o / outer.E)


@cited(THICK_CYLINDER, "shrinkage of the bore under external pressure")
def raceway_shrinkage(p: Array, d_i: Array, d_j: Array, inner: Material) -> Floats:
    """How much the raceway of a cup shrinks in diameter by the pressure on its outside.

    u = 2 p d_j^2 d_i/[E (d_j^2 - d_i^2)]

    Parameters (any broadcastable shapes)
    ----------
    p : pressure on the outside [MPa]
    d_i : mean raceway diameter [mm]
    d_j : outside diameter [mm]
    inner : material of the ring [MPa, -]

    Returns
    -------
    u, shrinkage positive [mm]

    Valid for 0 < d_i < d_j; NaN outside.

    Source: Thick cylinder, shrinkage of the bore under external pressure; textbook.
    """
    (d_i,) = as_arrays(d_i)
    return np.asarray(-hoop_under_squeeze_at_bore(p, d_i, d_j) * d_i / inner.E)


@cited(THICK_CYLINDER, "shrink fit of several layers")
def layered_pressures(d: Array, delta: Array, layers: Sequence[Material]) -> Floats:
    """Pressures in all joints of a nest of cylinders, such as shaft, sleeve and cone.

    At each joint k the outer layer opens and the inner one closes by the interference together: with the pressures
    p(k-1), p(k), p(k+1) in the joints below, at and above it,
    -A(k) p(k-1) + [B(k) + C(k+1)] p(k) - D(k+1) p(k+1) = delta(k)/d(k), where with b > a the diameters of a layer
    A = 2 a^2/[E (b^2 - a^2)], B = [(b^2 + a^2)/(b^2 - a^2) - nu]/E, C = [(b^2 + a^2)/(b^2 - a^2) + nu]/E and
    D = 2 b^2/[E (b^2 - a^2)]

    Parameters (the last axis runs over diameters or joints)
    ----------
    d : diameters from the innermost bore (0 where solid) to the outermost outside [mm]
    delta : diametral interference of each joint; a joint that opens carries no pressure [mm]
    layers : materials from inside to outside, one fewer than diameters [MPa, -]

    Returns
    -------
    p, one for each joint [MPa]

    Valid for rising diameters; NaN outside. For programs of others: no question asks for a sleeve under a ring, so
    that no check or figure of a pair needs more than one joint.

    Source: Thick cylinder, shrink fit of several layers; textbook.
    """
    d, delta = as_arrays(d, delta)
    cases = np.broadcast_shapes(d.shape[:-1], delta.shape[:-1])
    d, delta = np.broadcast_to(d, (*cases, d.shape[-1])), np.broadcast_to(delta, (*cases, delta.shape[-1]))
    E, nu = (np.array([getattr(layer, name) for layer in layers]) for name in ("E", "nu"))
    valid = np.all(np.diff(d, axis=-1) > 0, axis=-1) & (d[..., 0] >= 0) & np.all(np.isfinite(delta), axis=-1)
    d, delta = np.where(valid[..., None], d, np.arange(d.shape[-1])), np.where(valid[..., None], delta, 0.0)
    a, b = np.square(d[..., :-1]), np.square(d[..., 1:])
    soft = 1.0 / (b - a) / E
    closes, opens = soft * (b + a) - nu / E, soft * (b + a) + nu / E
    below, above = -2.0 * (soft * a)[..., 1:-1], -2.0 * (soft * b)[..., 1:-1]
    matrix = _tridiagonal(below, closes[..., :-1] + opens[..., 1:], above)
    return np.where(valid[..., None], _closed_joints(matrix, delta / d[..., 1:-1]), np.nan)


def _tridiagonal(below: Floats, middle: Floats, above: Floats) -> Floats:
    matrix = np.zeros((*middle.shape, middle.shape[-1]))
    along = np.arange(middle.shape[-1])
    matrix[..., along, along] = middle
    matrix[..., along[1:], along[:-1]] = below
    matrix[..., along[:-1], along[1:]] = above
    return matrix


def _closed_joints(matrix: Floats, strain: Floats) -> Floats:
    """Solve for the pressures of the joints that are closed; the others carry none.

    The off-diagonal terms are negative and the diagonal governs, so pressure elsewhere can only close a joint: those
    that are tight by themselves come first, then those that the pressures of the others close.
    """
    joints = matrix.shape[-1]
    closed = strain > 0
    p = np.zeros(strain.shape)
    for _ in range(joints):
        kept = np.where(closed[..., None] & closed[..., None, :], matrix, np.eye(joints))
        p = np.linalg.solve(kept, np.where(closed, strain, 0.0)[..., None])[..., 0]
        more = ~closed & (strain - (matrix @ p[..., None])[..., 0] > 0)
        if not more.any():
            break
        closed = closed | more
    return np.asarray(p)


@cited(GEOMETRY, "end play closed by a change of a raceway")
def end_play_closed(u: Array, alpha: Array) -> Floats:
    """How much end play a fit takes away by making a tapered raceway larger in the cone or smaller in the cup.

    s = u/(2 tan alpha)

    Parameters (any broadcastable shapes)
    ----------
    u : growth of the cone's raceway diameter, or shrinkage of the cup's [mm]
    alpha : contact angle, half the included angle of the cup's raceway [rad]

    Returns
    -------
    s, end play closed [mm]

    Valid for 0 < alpha < pi/2; NaN outside. For the cone's raceway it is close, since that is a little less steep.

    Source: Geometry, end play closed by a change of a raceway; derived here.
    """
    u, alpha = as_arrays(u, alpha)
    valid = (alpha > 0) & (alpha < np.pi / 2)
    return np.where(valid, u / (2.0 * np.tan(np.where(valid, alpha, 1.0))), np.nan)
