"""What cone, cup and rollers weigh, as solids of revolution of the section."""

import numpy as np

from engine.catalogue.section.raceways import cup_contact_radius, roller_half_angle_nu
from engine.catalogue.section.ribs import cone_ring
from engine.catalogue.section.rollers import roller_corner
from engine.catalogue.section.sizes import Envelope, Rollers
from engine.numerics import Floats
from engine.sources import GEOMETRY, cited

#: Density of bearing steel [kg/mm3]; common practice, no source.
STEEL_DENSITY = 7.85e-6


@cited(GEOMETRY, "solids of revolution of the drawn section")
def steel_mass(envelope: Envelope, rollers: Rollers) -> Floats:
    """Mass of cone, cup and rollers as solids of revolution; the cage and the corner chamfers are not counted.

    mass = density (V_cup + V_cone + Z V_roller); the cup is a cylinder less a frustum, the roller a frustum of the
    length Lwe and two corners, the cone a frustum under the rollers and a cylinder at each rib, less its bore.

    Parameters (any broadcastable shapes)
    ----------
    envelope : boundary dimensions and contact angle [mm, rad]
    rollers : roller set [mm, -]

    Returns
    -------
    mass [kg]

    Valid for rollers that lie between the ribs of the cone; density 7.85e-6 kg/mm3.

    Source: Geometry, solids of revolution of the drawn section; derived here, rib heights common practice.
    """
    return cone_mass(envelope, rollers) + cup_mass(envelope, rollers)


@cited(GEOMETRY, "solids of revolution of the drawn section")
def cup_mass(envelope: Envelope, rollers: Rollers) -> Floats:
    """Mass of the cup as a solid of revolution, without its chamfers.

    mass = density pi C (D^2/4 - mean of the squared radius of the raceway)

    Parameters (any broadcastable shapes)
    ----------
    envelope : boundary dimensions and contact angle [mm, rad]
    rollers : roller set [mm, -]

    Returns
    -------
    mass [kg]

    Valid for a raceway inside D; density 7.85e-6 kg/mm3.

    Source: Geometry, solids of revolution of the drawn section; derived here.
    """
    b, r = envelope, rollers
    raceway = _mean_square(cup_contact_radius(r.Dwe, r.Dpw, b.alpha), b.C, b.alpha)
    return STEEL_DENSITY * np.pi * b.C * (np.square(b.D / 2) - raceway)


@cited(GEOMETRY, "solids of revolution of the drawn section")
def cone_mass(envelope: Envelope, rollers: Rollers) -> Floats:
    """Mass of the cone with its rollers as solids of revolution, without cage and chamfers.

    mass = density (V_cone + Z V_roller)

    Parameters (any broadcastable shapes)
    ----------
    envelope : boundary dimensions and contact angle [mm, rad]
    rollers : roller set [mm, -]

    Returns
    -------
    mass [kg]

    Valid for rollers that lie between the ribs of the cone; density 7.85e-6 kg/mm3.

    Source: Geometry, solids of revolution of the drawn section; derived here, rib heights common practice.
    """
    b, r = envelope, rollers
    nu = roller_half_angle_nu(r.Dwe, r.Dpw, b.alpha)
    length = r.Lwe + 2 * roller_corner(r.Dwe)
    roller = np.pi * length * _mean_square(r.Dwe / 2, length, nu)
    return STEEL_DENSITY * (_cone_volume(b, r) + r.Z * roller)


def _mean_square(middle: Floats, length: Floats, slope: Floats) -> Floats:
    """Mean of the squared radius of a frustum, from the radius at its middle."""
    return np.square(middle) + np.square(length * np.tan(slope)) / 12


def _cone_volume(b: Envelope, r: Rollers) -> Floats:
    ring = cone_ring(b, r)
    ribs = ring.large_rib * np.square(ring.large_radius) + ring.small_rib * np.square(ring.small_radius)
    track = ring.track * _mean_square(ring.middle_radius, ring.track, ring.slope)
    return np.pi * (ribs + track - b.B * np.square(b.d / 2))
