"""What turning does to a ring: flat rotating rings, plane stress."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.seat.material import Material
from engine.sources import ROTATING_RING, cited

#: rpm to rad/s, and kg/m3 mm2/s2 to MPa.
_RADIANS = np.pi / 30.0
_MPA = 1e-12


def _inertia(n: Floats, material: Material) -> Floats:
    """Return rho omega^2 [MPa/mm2]."""
    return material.rho * _MPA * np.square(n * _RADIANS)


@cited(ROTATING_RING, "radial displacement, inside")
def growth_at_bore(d_i: Array, d_o: Array, n: Array, material: Material) -> Floats:
    """How much the bore of a freely turning ring grows in diameter.

    u = rho omega^2 d_i/(16 E) [(3 + nu) d_o^2 + (1 - nu) d_i^2]

    Parameters (any broadcastable shapes)
    ----------
    d_i : bore diameter [mm]
    d_o : outside diameter [mm]
    n : speed [rpm]
    material : material of the ring [MPa, -, kg/m3]

    Returns
    -------
    u [mm]

    Valid for 0 < d_i < d_o; NaN outside.

    Source: Rotating ring, radial displacement, inside; textbook.
    """
    d_i, d_o, n = as_arrays(d_i, d_o, n)
    squares = (3 + material.nu) * np.square(d_o) + (1 - material.nu) * np.square(d_i)
    u = _inertia(n, material) * d_i / (16.0 * material.E) * squares
    return np.where((d_i > 0) & (d_i < d_o), u, np.nan)


@cited(ROTATING_RING, "radial displacement, outside")
def growth_at_outside(d_i: Array, d_o: Array, n: Array, material: Material) -> Floats:
    """How much the outside of a freely turning ring or shaft grows in diameter.

    u = rho omega^2 d_o/(16 E) [(1 - nu) d_o^2 + (3 + nu) d_i^2]

    Parameters (any broadcastable shapes)
    ----------
    d_i : bore diameter, 0 where it is solid [mm]
    d_o : outside diameter [mm]
    n : speed [rpm]
    material : material of the ring [MPa, -, kg/m3]

    Returns
    -------
    u [mm]

    Valid for 0 <= d_i < d_o; NaN outside.

    Source: Rotating ring, radial displacement, outside; textbook.
    """
    d_i, d_o, n = as_arrays(d_i, d_o, n)
    squares = (1 - material.nu) * np.square(d_o) + (3 + material.nu) * np.square(d_i)
    u = _inertia(n, material) * d_o / (16.0 * material.E) * squares
    return np.where((d_i >= 0) & (d_i < d_o), u, np.nan)


@cited(ROTATING_RING, "tangential stress, inside")
def hoop_of_turning_at_bore(d_i: Array, d_o: Array, n: Array, material: Material) -> Floats:
    """Tangential stress that turning alone puts into the bore of a ring.

    sigma = rho omega^2/16 [(3 + nu) d_o^2 + (1 - nu) d_i^2]

    Parameters (any broadcastable shapes)
    ----------
    d_i : bore diameter [mm]
    d_o : outside diameter [mm]
    n : speed [rpm]
    material : material of the ring [MPa, -, kg/m3]

    Returns
    -------
    sigma [MPa]

    Valid for 0 < d_i < d_o; NaN outside.

    Source: Rotating ring, tangential stress, inside; textbook.
    """
    (d_i,) = as_arrays(d_i)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.asarray(growth_at_bore(d_i, d_o, n, material) / d_i * material.E)


@cited(ROTATING_RING, "tangential stress, outside")
def hoop_of_turning_at_outside(d_i: Array, d_o: Array, n: Array, material: Material) -> Floats:
    """Tangential stress that turning alone puts into the outside of a ring.

    sigma = rho omega^2/16 [(1 - nu) d_o^2 + (3 + nu) d_i^2]

    Parameters (any broadcastable shapes)
    ----------
    d_i : bore diameter [mm]
    d_o : outside diameter [mm]
    n : speed [rpm]
    material : material of the ring [MPa, -, kg/m3]

    Returns
    -------
    sigma [MPa]

    Valid for 0 <= d_i < d_o; NaN outside.

    Source: Rotating ring, tangential stress, outside; textbook.
    """
    (d_o,) = as_arrays(d_o)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.asarray(growth_at_outside(d_i, d_o, n, material) / d_o * material.E)
