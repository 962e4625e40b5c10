"""A paired unit that locates the shaft on one side, and a partner on the other that floats along it.

The unit is two equal single-row bearings side by side, face to face or back to back, or a double-row bearing; its
rows are rated together in `engine.rating.double_row`. It takes the whole axial force in either direction, and what
its rows induce in each other stays within it. The partner takes radial load only.

Not covered: a unit of two unequal bearings; the share of each row where play or preload parts the load unevenly; the
moment that the rows of a wide back-to-back unit take, so that the shaft is held at three places (the unit is taken as
one simple support in its middle); two bearings in tandem; and the partner's own kind and axial freedom, which are left
to whoever chooses it: a single tapered roller bearing cannot float.
"""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import GEOMETRY, STATICS, cited


@cited(GEOMETRY, "load centre of a paired unit")
def unit_load_centre(side: str, distance: Array, T: Array, spacer: Array = 0.0, inset: Array = 0.0) -> Floats:
    """Place where a unit of two equal bearings, or a double-row bearing, carries: midway between its rows.

    z = T + spacer/2 - inset on side A; z = distance - T - spacer/2 + inset on side B

    Parameters (numbers of any broadcastable shapes)
    ----------
    side : "A" or "B" [-]
    distance : between the reference planes of A and B [mm]
    T : width of one bearing, half that of a double-row one [mm]
    spacer : between the two bearings [mm]
    inset : from the unit's outboard face to the reference plane: 0 where the plane is that face, T + spacer/2 where
        it is the middle of the unit [mm]

    Returns
    -------
    z [mm]

    Valid for T >= 0, spacer >= 0, whether face to face or back to back; NaN outside; another side is an error.

    Source: Geometry, load centre of a paired unit; derived here: both arrangements are alike about their middle.
    """
    if side not in ("A", "B"):
        raise ValueError(f"side is {side!r}, accepted are A and B")
    distance, T, spacer, inset = as_arrays(distance, T, spacer, inset)
    inboard = np.where((T >= 0) & (spacer >= 0), T + spacer / 2 - inset, np.nan)
    return 0.0 * distance + inboard if side == "A" else distance - inboard


@cited(STATICS, "axial force on a locating unit")
def located_loads(side: str, K_a: Array) -> tuple[Floats, Floats]:
    """Axial load of a locating unit on one side and of its floating partner on the other.

    Fa_unit = |K_a|; Fa_partner = 0

    Parameters (K_a of any shape)
    ----------
    side : on which the unit sits, "A" or "B" [-]
    K_a : external axial force on the shaft, positive towards B [N]

    Returns
    -------
    Fa_A, Fa_B [N]

    Valid for any force; another side is an error.

    Source: Statics, axial force on a locating unit; the partner is free to move along the shaft.
    """
    if side not in ("A", "B"):
        raise ValueError(f"side is {side!r}, accepted are A and B")
    (K_a,) = as_arrays(K_a)
    unit, partner = np.abs(K_a), 0.0 * K_a + 0.0
    return (unit, partner) if side == "A" else (partner, unit)
