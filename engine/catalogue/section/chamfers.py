"""Chamfers of the rings at their back faces: preferred sizes, how large they may come out, and the room they take."""

import numpy as np

from engine.catalogue.section.raceways import cup_contact_radius
from engine.catalogue.section.ribs import cone_ring
from engine.catalogue.section.sizes import Envelope, Rollers
from engine.numerics import Array, Floats, as_arrays
from engine.sources import GEOMETRY, Document, cited

ISO_582 = Document("ISO 582", "Rolling bearings - Chamfer dimensions", "recalled, to be verified against the standard")
_ANY = float("inf")
#: Smallest single chamfer r_s min [mm] of tapered roller bearings: (d or D up to [mm], largest radial, largest axial).
LIMITS = {
    0.3: ((40, 0.7, 1.4), (_ANY, 0.9, 1.6)),
    0.6: ((40, 1.1, 1.7), (_ANY, 1.3, 2)),
    1: ((50, 1.6, 2.5), (_ANY, 1.9, 3)),
    1.5: ((120, 2.3, 3), (250, 2.8, 3.5), (_ANY, 3.5, 4)),
    2: ((120, 2.8, 4), (250, 3.5, 4.5), (_ANY, 4, 5)),
    2.5: ((120, 3.5, 5), (250, 4, 5.5), (_ANY, 4.5, 6)),
    3: ((120, 4, 5.5), (250, 4.5, 6.5), (400, 5, 7), (_ANY, 5.5, 7.5)),
    4: ((120, 5, 7), (250, 5.5, 7.5), (400, 6, 8), (_ANY, 6.5, 8.5)),
    5: ((180, 6.5, 8), (_ANY, 7.5, 9)),
    6: ((180, 7.5, 10), (_ANY, 9, 11)),
}
#: The sizes of chamfers in the metric system [mm].
PREFERRED = np.array(list(LIMITS))
#: Chamfers that are stated in fractions of an inch are rounded on the way.
_SLACK = 1e-6


@cited(ISO_582, "table of tapered roller bearings")
def largest_radial_chamfer(r: Array, diameter: Array) -> Floats:
    """Largest single chamfer in the radial direction that a ring may have, by its smallest one.

    r_s max, radial: read from the table by r_s min and the diameter

    Parameters (any broadcastable shapes)
    ----------
    r : smallest single chamfer r_s min; between two rows of the table the row above counts [mm]
    diameter : bore of a cone, outside diameter of a cup [mm]

    Returns
    -------
    r_s max, radial [mm]

    Valid for 0 < r <= 6 mm, the end of the table; NaN outside.

    Source: ISO 582, table of tapered roller bearings; recalled.
    """
    return _largest(r, diameter, 1)


@cited(ISO_582, "table of tapered roller bearings")
def largest_axial_chamfer(r: Array, diameter: Array) -> Floats:
    """Largest single chamfer in the axial direction that a ring may have, by its smallest one.

    r_s max, axial: read from the table by r_s min and the diameter

    Parameters (any broadcastable shapes)
    ----------
    r : smallest single chamfer r_s min; between two rows of the table the row above counts [mm]
    diameter : bore of a cone, outside diameter of a cup [mm]

    Returns
    -------
    r_s max, axial [mm]

    Valid for 0 < r <= 6 mm, the end of the table; NaN outside.

    Source: ISO 582, table of tapered roller bearings; recalled.
    """
    return _largest(r, diameter, 2)


def _largest(r: Array, diameter: Array, column: int) -> Floats:
    r, diameter = as_arrays(r, diameter)
    largest = np.full(np.broadcast_shapes(r.shape, diameter.shape), np.nan)
    # the rows from the last to the first: each one that reaches far enough gives way to the next that does
    for size, rows in reversed(LIMITS.items()):
        for row in reversed(rows):
            fits = (r > 0) & (r <= size + _SLACK) & (diameter > 0) & (diameter <= row[0])
            largest = np.where(fits, row[column], largest)
    return largest


@cited(GEOMETRY, "height of the back face of the cone")
def cone_face_height(envelope: Envelope, rollers: Rollers) -> Floats:
    """Height of the cone's back face without its chamfer: from the bore to the top of the large rib.

    h = R_rib - d/2

    Parameters (any broadcastable shapes)
    ----------
    envelope : boundary dimensions and contact angle [mm, rad]
    rollers : roller set [mm, -]

    Returns
    -------
    h [mm]

    Valid for rollers that lie between the ribs of the cone.

    Source: Geometry, height of the back face of the cone; derived here, rib heights common practice.
    """
    return cone_ring(envelope, rollers).large_radius - envelope.d / 2


@cited(GEOMETRY, "height of the back face of the cup")
def cup_face_height(envelope: Envelope, rollers: Rollers) -> Floats:
    """Height of the cup's back face without its chamfer: from the end of the raceway to the outside diameter.

    h = D/2 - (r - (C/2) tan(alpha)), r the contact circle at the middle of the cup

    Parameters (any broadcastable shapes)
    ----------
    envelope : boundary dimensions and contact angle [mm, rad]
    rollers : roller set [mm, -]

    Returns
    -------
    h [mm]

    Valid for a raceway inside D.

    Source: Geometry, height of the back face of the cup; derived here.
    """
    b, r = envelope, rollers
    return b.D / 2 - cup_contact_radius(r.Dwe, r.Dpw, b.alpha) + b.C / 2 * np.tan(b.alpha)
