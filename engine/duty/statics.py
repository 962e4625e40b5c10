"""What the loads of a shaft put on its two supports, in one plane or two."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import STATICS, cited


@cited(STATICS, "equilibrium of forces and moments in one plane")
def reactions(x: Array, F: Array, M: Array, x_A: Array, x_B: Array) -> tuple[Floats, Floats]:
    """Both forces that the load of a rigid shaft puts on its two simple supports, in one plane.

    R_B = (sum F (x - x_A) + sum M) / (x_B - x_A); R_A = sum F - R_B

    Parameters (forces and moments each along their last axis; x_A and x_B broadcast against the axes before it)
    ----------
    x : place of each force [mm]
    F : force on the shaft [N]
    M : moment on the shaft, positive where it raises R_B [N mm]
    x_A : place of support A [mm]
    x_B : place of support B [mm]

    Returns
    -------
    R_A, R_B [N], each in the sense of F: what the support has to carry, not what it answers with

    Valid for x_A != x_B; NaN where the supports coincide.

    Source: Statics, equilibrium of forces and moments in one plane; any textbook.
    """
    x, F, M, x_A, x_B = as_arrays(x, F, M, x_A, x_B)
    x, F, M = np.atleast_1d(x, F, M)
    # summed about x = 0 and carried to A afterwards: the sums then do not depend on the supports, of which a
    # catalogue offers thousands
    force = np.sum(np.broadcast_to(F, np.broadcast_shapes(x.shape, F.shape)), axis=-1)
    moment = np.sum(F * x, axis=-1) + np.sum(M, axis=-1)
    spread = x_B - x_A
    with np.errstate(divide="ignore", invalid="ignore"):
        R_B = np.where(spread == 0, np.nan, (moment - force * x_A) / spread)
    return force - R_B, R_B


@cited(STATICS, "resultant of two perpendicular forces")
def radial_load(R_y: Array, R_z: Array) -> Floats:
    """Radial load on a support from its forces in two perpendicular planes.

    Fr = sqrt(R_y^2 + R_z^2)

    Parameters (any broadcastable shapes)
    ----------
    R_y : force in one plane [N]
    R_z : force in the plane perpendicular to it [N]

    Returns
    -------
    Fr [N]

    Valid for all forces.

    Source: Statics, resultant of two perpendicular forces; any textbook.
    """
    R_y, R_z = as_arrays(R_y, R_z)
    return np.hypot(R_y, R_z)


@cited(STATICS, "direction of a resultant")
def direction(R_y: Array, R_z: Array) -> Floats:
    """Direction in which the radial load on a support points, as an angle around the shaft.

    phi = atan2(R_z, R_y)

    Parameters (any broadcastable shapes)
    ----------
    R_y : force in one plane [N]
    R_z : force in the plane perpendicular to it [N]

    Returns
    -------
    phi [rad], from y towards z, -pi < phi <= pi

    Valid for forces that are not both 0; NaN where they are.

    Source: Statics, direction of a resultant; any textbook.
    """
    R_y, R_z = as_arrays(R_y, R_z)
    # + 0.0: a part of -0.0 would turn the angle pi into -pi
    return np.where((R_y == 0) & (R_z == 0), np.nan, np.arctan2(R_z + 0.0, R_y + 0.0))
