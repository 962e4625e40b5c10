"""Sides and signs of a pair, stated here once.

z runs along the shaft from bearing A to bearing B. An axial force is positive when it pushes the shaft towards B.

The cone back face is at the large roller ends. `a` is the distance from the cone back face to the effective load
centre, the point where the lines through the roller contacts meet the shaft axis. It is positive towards the small
roller ends, that is into the bearing, and negative when the load centre lies beyond the back face.

    back to back (O), cone back faces outboard:   back A small    small B back   --> z    load centres far apart
    face to face (X), cone back faces inboard:    small A back    back B small   --> z    load centres close
"""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import GEOMETRY, STATICS, cited

BACK_TO_BACK = "back_to_back"
FACE_TO_FACE = "face_to_face"
ARRANGEMENTS = (BACK_TO_BACK, FACE_TO_FACE)


@cited(GEOMETRY, "effective load centres of a pair")
def load_centres(
    arrangement: str, distance: Array, a_A: Array, a_B: Array, inset_A: Array = 0.0, inset_B: Array = 0.0
) -> tuple[Floats, Floats]:
    """Places of the two effective load centres; z = 0 is the reference plane of A, z = distance that of B.

    O: z_A = -inset_A + a_A, z_B = distance + inset_B - a_B; X: z_A = inset_A - a_A, z_B = distance - inset_B + a_B

    Parameters (any broadcastable shapes)
    ----------
    arrangement : "back_to_back" (O) or "face_to_face" (X) [-]
    distance : between the reference planes of A and B [mm]
    a_A : from cone back face to load centre of A, positive into the bearing [mm]
    a_B : the same of B [mm]
    inset_A : from the reference plane of A to its cone back face: 0 where the distance is taken between back
        faces, T/2 where it is taken between bearing middles [mm]
    inset_B : the same of B [mm]

    Returns
    -------
    z_A, z_B [mm]

    Valid for all lengths; NaN in gives NaN out.

    Source: Geometry, effective load centres of a pair; derived in this module's first paragraphs.
    """
    distance, a_A, a_B, inset_A, inset_B = as_arrays(distance, a_A, a_B, inset_A, inset_B)
    # how far each load centre lies outboard of its reference plane: the back face of O is the inset further out and
    # the bearing extends inwards from it; in X both are the other way round
    if _is_back_to_back(arrangement):
        outboard_A, outboard_B = inset_A - a_A, inset_B - a_B
    else:
        outboard_A, outboard_B = a_A - inset_A, a_B - inset_B
    return 0.0 - outboard_A, distance + outboard_B


@cited(GEOMETRY, "effective spread")
def effective_spread(z_A: Array, z_B: Array) -> Floats:
    """Effective spread: the distance of the two load centres, on which the shaft is supported.

    spread = z_B - z_A

    Parameters (any broadcastable shapes)
    ----------
    z_A : load centre of A [mm]
    z_B : load centre of B [mm]

    Returns
    -------
    spread [mm]; negative where the load centres of a short X arrangement have changed places

    Valid for all places.

    Source: Geometry, effective spread; derived here.
    """
    z_A, z_B = as_arrays(z_A, z_B)
    return np.subtract(z_B, z_A)


@cited(STATICS, "side that takes the thrust")
def loaded_by_positive_thrust(arrangement: str) -> str:
    """Bearing that takes an axial force which pushes the shaft towards B.

    O: A; X: B

    Parameters (a word)
    ----------
    arrangement : "back_to_back" (O) or "face_to_face" (X) [-]

    Returns
    -------
    side, "A" or "B" [-]

    Valid for the two arrangements; another word is an error.

    Source: Statics, side that takes the thrust; derived here.
    """
    # A bearing takes axial force when its cone is pushed towards the small roller ends, into the cup.
    # O: the back face (large ends) of A is outboard, at its low z; its small ends look towards B. A shaft that moves
    #    towards B pushes the cone of A into its cup and draws the cone of B out of its own: A takes the force.
    # X: the back face of A is inboard, its small ends look away from B; those of B look on past B. A shaft that
    #    moves towards B pushes the cone of B into its cup: B takes the force.
    return "A" if _is_back_to_back(arrangement) else "B"


def _is_back_to_back(arrangement: str) -> bool:
    if arrangement not in ARRANGEMENTS:
        raise ValueError(f"arrangement is {arrangement!r}, accepted are {', '.join(ARRANGEMENTS)}")
    return arrangement == BACK_TO_BACK
