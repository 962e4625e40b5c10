"""The drawn section of an assembly: where rollers and load line lie, and what the rings weigh.

Along z from the cone back face (at the large roller ends, z = 0) stand: the cone from 0 to B, the cup from T - C to
T, its raceway falling towards the small roller ends at the angle alpha. Rollers, cone raceway and cup raceway are
cones of one apex, so that they roll: the roller half angle nu follows from the sizes, the roller axis lies at
alpha - nu and the cone raceway at alpha - 2 nu. The middle of the contact at the cup lies at the middle of the cup.
"""

from dataclasses import dataclass

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import COMMON_PRACTICE, GEOMETRY, cited

#: Density of bearing steel [kg/mm3]; common practice, no source.
STEEL_DENSITY = 7.85e-6
#: Heights of the two ribs of the cone over its raceway, per roller diameter; common practice, no source.
LARGE_RIB_HEIGHT = 0.20
SMALL_RIB_HEIGHT = 0.10
_NEWTON_STEPS = 6


@dataclass(frozen=True)
class Envelope:
    """Boundary dimensions d, D, T, B, C [mm] and contact angle alpha [rad], each a number or a column."""

    d: Floats
    D: Floats
    T: Floats
    B: Floats
    C: Floats
    alpha: Floats

    def take(self, rows: Floats) -> "Envelope":
        """Return the rows at these places."""
        return Envelope(self.d[rows], self.D[rows], self.T[rows], self.B[rows], self.C[rows], self.alpha[rows])


@dataclass(frozen=True)
class Rollers:
    """Roller set: mean diameter Dwe, effective length Lwe, pitch diameter Dpw [mm] and number Z."""

    Dwe: Floats
    Lwe: Floats
    Dpw: Floats
    Z: Floats

    def take(self, rows: Floats) -> "Rollers":
        """Return the rows at these places."""
        return Rollers(self.Dwe[rows], self.Lwe[rows], self.Dpw[rows], self.Z[rows])


@cited(GEOMETRY, "roller cone and pitch cone of one apex")
def roller_half_angle_nu(Dwe: Array, Dpw: Array, alpha: Array) -> Floats:
    """Half the cone angle of the rollers, so that they and both raceways meet in one apex on the bearing axis.

    tan(nu) = (Dwe / Dpw) sin(alpha - nu)

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller mean diameter [mm]
    Dpw : pitch diameter of the roller set [mm]
    alpha : contact angle [rad]

    Returns
    -------
    nu [rad]

    Valid for 0 < Dwe < Dpw, 0 <= alpha < pi/2; NaN outside.

    Source: Geometry, roller cone and pitch cone of one apex; derived here: at a distance s from the apex both
    Dwe = 2 s tan(nu) and Dpw = 2 s sin(alpha - nu).
    """
    Dwe, Dpw, alpha = as_arrays(Dwe, Dpw, alpha)
    with np.errstate(all="ignore"):
        ratio = Dwe / Dpw
        valid = (ratio > 0) & (ratio < 1) & (alpha >= 0) & (alpha < np.pi / 2)
        nu = ratio * np.sin(alpha)
        # a fixed number of Newton steps, so that a scalar and a column walk the same way
        for _ in range(_NEWTON_STEPS):
            miss = np.tan(nu) - ratio * np.sin(alpha - nu)
            nu = nu - miss / (1 + np.square(np.tan(nu)) + ratio * np.cos(alpha - nu))
    return np.where(valid, nu, np.nan)


@cited(GEOMETRY, "contact circle at the cup")
def cup_contact_radius(Dwe: Array, Dpw: Array, alpha: Array) -> Floats:
    """Radius of the circle on which the roller middles touch the cup.

    r = Dpw/2 + (Dwe/2) cos(alpha - nu)

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller mean diameter [mm]
    Dpw : pitch diameter of the roller set [mm]
    alpha : contact angle [rad]

    Returns
    -------
    r [mm]

    Valid for 0 < Dwe < Dpw, 0 <= alpha < pi/2; NaN outside.

    Source: Geometry, contact circle at the cup; derived here.
    """
    Dwe, Dpw, alpha = as_arrays(Dwe, Dpw, alpha)
    return Dpw / 2 + Dwe / 2 * np.cos(alpha - roller_half_angle_nu(Dwe, Dpw, alpha))


@cited(GEOMETRY, "contact circle at the cup")
def cup_raceway_diameter_E(Dwe: Array, Dpw: Array, alpha: Array) -> Floats:
    """Mean diameter of the cup raceway: of the circle on which the roller middles touch the cup.

    E = Dpw + Dwe cos(alpha - nu)

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller mean diameter [mm]
    Dpw : pitch diameter of the roller set [mm]
    alpha : contact angle [rad]

    Returns
    -------
    E [mm]

    Valid for 0 < Dwe < Dpw, 0 <= alpha < pi/2; NaN outside.

    Source: Geometry, contact circle at the cup; derived here.
    """
    return 2 * cup_contact_radius(Dwe, Dpw, alpha)


@cited(GEOMETRY, "contact circle at the cone")
def cone_raceway_diameter_F(Dwe: Array, Dpw: Array, alpha: Array) -> Floats:
    """Mean diameter of the cone raceway: of the circle on which the roller middles touch the cone.

    F = Dpw - Dwe cos(alpha - nu)

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller mean diameter [mm]
    Dpw : pitch diameter of the roller set [mm]
    alpha : contact angle [rad]

    Returns
    -------
    F [mm]

    Valid for 0 < Dwe < Dpw, 0 <= alpha < pi/2; NaN outside.

    Source: Geometry, contact circle at the cone; derived here.
    """
    Dwe, Dpw, alpha = as_arrays(Dwe, Dpw, alpha)
    return Dpw - Dwe * np.cos(alpha - roller_half_angle_nu(Dwe, Dpw, alpha))


@cited(GEOMETRY, "load line through the middle of the cup contact")
def load_centre_distance_a(T: Array, C: Array, Dwe: Array, Dpw: Array, alpha: Array) -> Floats:
    """Distance from the cone back face to the effective load centre, where the load lines meet the axis.

    a = z - r tan(alpha), z = T - C/2 the middle of the cup contact, r its radius

    Parameters (any broadcastable shapes)
    ----------
    T : width of the assembly [mm]
    C : width of the cup [mm]
    Dwe : roller mean diameter [mm]
    Dpw : pitch diameter of the roller set [mm]
    alpha : contact angle [rad]

    Returns
    -------
    a, positive into the bearing towards the small roller ends, negative beyond the back face [mm]

    Valid for 0 < Dwe < Dpw, 0 <= alpha < pi/2, rollers in the middle of the cup; NaN outside.

    Source: Geometry, load line through the middle of the cup contact; derived here.
    """
    T, C, alpha = as_arrays(T, C, alpha)
    return T - C / 2 - cup_contact_radius(Dwe, Dpw, alpha) * np.tan(alpha)


@cited(GEOMETRY, "chord between neighbouring rollers")
def gap_ratio(Dwe: Array, Dpw: Array, Z: Array) -> Floats:
    """Gap between neighbouring rollers, in roller diameters; negative where they would overlap.

    gap = Dpw sin(pi/Z) / Dwe - 1

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller mean diameter [mm]
    Dpw : pitch diameter of the roller set [mm]
    Z : number of rollers [-]

    Returns
    -------
    gap [-]

    Valid for Z >= 2, Dwe > 0; NaN outside.

    Source: Geometry, chord between neighbouring rollers; derived here.
    """
    Dwe, Dpw, Z = as_arrays(Dwe, Dpw, Z)
    with np.errstate(all="ignore"):
        return np.where((Z >= 2) & (Dwe > 0), Dpw * np.sin(np.pi / Z) / Dwe - 1, np.nan)


@cited(GEOMETRY, "chord between neighbouring rollers")
def most_rollers(Dwe: Array, Dpw: Array, gap: Array) -> Floats:
    """Largest number of rollers that keep a gap for the cage.

    Z = floor(pi / arcsin(Dwe (1 + gap) / Dpw))

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller mean diameter [mm]
    Dpw : pitch diameter of the roller set [mm]
    gap : least gap between neighbours, in roller diameters [-]

    Returns
    -------
    Z [-]

    Valid for 0 < Dwe (1 + gap) <= Dpw; NaN outside.

    Source: Geometry, chord between neighbouring rollers; derived here.
    """
    Dwe, Dpw, gap = as_arrays(Dwe, Dpw, gap)
    with np.errstate(all="ignore"):
        chord = Dwe * (1 + gap) / Dpw
        return np.where(chord > 0, np.floor(np.pi / np.arcsin(chord)), np.nan)


@cited(COMMON_PRACTICE, "roller corners")
def roller_corner(Dwe: Array) -> Floats:
    """Length at each roller end that carries no load: corner and run-out of the profile.

    0.2 mm + 0.03 Dwe

    Parameters (any shape)
    ----------
    Dwe : roller mean diameter [mm]

    Returns
    -------
    length [mm]

    Valid for rollers of 4 to 60 mm.

    Source: Common practice, roller corners; no source.
    """
    (Dwe,) = as_arrays(Dwe)
    return 0.2 + 0.03 * Dwe


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
    return STEEL_DENSITY * (_cone_volume(b, r, nu, length) + r.Z * roller)


def _mean_square(middle: Floats, length: Floats, slope: Floats) -> Floats:
    """Mean of the squared radius of a frustum, from the radius at its middle."""
    return np.square(middle) + np.square(length * np.tan(slope)) / 12


def _cone_volume(b: Envelope, r: Rollers, nu: Floats, length: Floats) -> Floats:
    axis, slope = b.alpha - nu, b.alpha - 2 * nu
    middle = r.Dpw / 2 - r.Dwe / 2 * np.cos(axis)
    track = length * np.cos(slope)
    start = b.T - b.C / 2 - r.Dwe * np.sin(axis) - track / 2
    drop = track / 2 * np.tan(slope)
    large = middle + drop + LARGE_RIB_HEIGHT * r.Dwe
    small = middle - drop + SMALL_RIB_HEIGHT * r.Dwe
    ribs = start * np.square(large) + (b.B - start - track) * np.square(small)
    return np.pi * (ribs + track * _mean_square(middle, track, slope) - b.B * np.square(b.d / 2))
