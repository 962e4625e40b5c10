"""What a file does not state is estimated from what it states, by named formulas, and marked as estimated."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from engine.catalogue.section.masses import STEEL_DENSITY
from engine.catalogue.section.raceways import load_centre_distance_a
from engine.catalogue.section.rollers import most_rollers
from engine.numerics import Array, Bools, Floats, as_arrays
from engine.rating.fatigue_limit import fatigue_load_limit_Cu
from engine.rating.geometry import (
    axial_factor_Y,
    contact_angle_of_e,
    limiting_ratio_e,
    static_axial_factor_Y0,
)
from engine.rating.static import basic_static_rating_C0r
from engine.sources import COMMON_PRACTICE, ISO_76, ISO_281, Citation, citation_of, cited

#: Shares of the width T that cone and cup take; of the section (D - d) that the rollers take; common practice.
CONE_SHARE, CUP_SHARE, ROLLER_SHARE = 0.95, 0.78, 0.23
#: Gap between neighbouring rollers for the cage, in roller diameters; common practice.
CAGE_GAP = 0.15
#: Share of the cup width that roller contact may take at most, seen along the axis; common practice.
LONGEST_CONTACT = 0.9
#: Share of the ring between bore and outside diameter that is steel; common practice.
STEEL_SHARE = 0.70
#: Speed number n dm [mm/min] at a contact angle of about 14 deg; common practice.
SPEED_GREASE, SPEED_OIL = 250_000.0, 400_000.0


@cited(ISO_281, "clause 7.3, Table 8")
def contact_angle_of_Y(Y: Array) -> Floats:
    """Contact angle that belongs to a dynamic axial factor.

    alpha = arctan(0.4 / Y)

    Parameters (any shape)
    ----------
    Y : dynamic axial load factor for Fa/Fr > e [-]

    Returns
    -------
    alpha [rad]

    Valid for Y >= 0.4 (radial bearings); NaN outside.

    Source: ISO 281:2007, clause 7.3, Table 8; solved here for the angle.
    """
    (Y,) = as_arrays(Y)
    with np.errstate(all="ignore"):
        return np.where(Y >= 0.4, np.arctan(0.4 / Y), np.nan)


@cited(COMMON_PRACTICE, "widths of the rings")
def cone_width(T: Array) -> Floats:
    """Width of the cone, where only the width of the assembly is known.

    B = 0.95 T

    Parameters (any shape)
    ----------
    T : width of the assembly [mm]

    Returns
    -------
    B [mm]

    Valid for single-row assemblies; the boundary rows of ISO 355 lie between 0.91 T and T.

    Source: Common practice, widths of the rings; no source.
    """
    (T,) = as_arrays(T)
    return CONE_SHARE * T


@cited(COMMON_PRACTICE, "widths of the rings")
def cup_width(T: Array) -> Floats:
    """Width of the cup, where only the width of the assembly is known.

    C = 0.78 T

    Parameters (any shape)
    ----------
    T : width of the assembly [mm]

    Returns
    -------
    C [mm]

    Valid for contact angles up to about 20 deg; steep angles have narrower cups, down to 0.63 T.

    Source: Common practice, widths of the rings; no source.
    """
    (T,) = as_arrays(T)
    return CUP_SHARE * T


@cited(COMMON_PRACTICE, "pitch circle in the middle of the section")
def pitch_diameter(d: Array, D: Array) -> Floats:
    """Pitch diameter of the roller set, where only the boundary dimensions are known.

    Dpw = (d + D) / 2

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    D : outside diameter [mm]

    Returns
    -------
    Dpw [mm]

    Valid for single-row assemblies, within a few percent.

    Source: Common practice, pitch circle in the middle of the section; no source.
    """
    d, D = as_arrays(d, D)
    return (d + D) / 2


@cited(COMMON_PRACTICE, "rollers in the section")
def roller_diameter(d: Array, D: Array) -> Floats:
    """Mean roller diameter, where only the boundary dimensions are known.

    Dwe = 0.23 (D - d)

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    D : outside diameter [mm]

    Returns
    -------
    Dwe [mm]

    Valid for single-row assemblies, within a quarter for most; deep sections with thin rollers have smaller ones.

    Source: Common practice, rollers in the section; no source.
    """
    d, D = as_arrays(d, D)
    return ROLLER_SHARE * (D - d)


@cited(COMMON_PRACTICE, "cage gap")
def roller_number(Dwe: Array, Dpw: Array) -> Floats:
    """Count of rollers that fit the pitch circle with a gap of 0.15 Dwe for the cage.

    Z = floor(pi / arcsin(1.15 Dwe / Dpw))

    Parameters (any broadcastable shapes)
    ----------
    Dwe : roller mean diameter [mm]
    Dpw : pitch diameter of the roller set [mm]

    Returns
    -------
    Z [-]

    Valid for 0 < 1.15 Dwe <= Dpw; NaN outside.

    Source: Common practice, cage gap; no source.
    """
    return most_rollers(Dwe, Dpw, CAGE_GAP)


@cited(ISO_76, "clause 7.1")
def roller_length(C0r: Array, C: Array, Dwe: Array, Z: Array, Dpw: Array, alpha: Array) -> Floats:
    """Effective roller length that gives the stated static rating, as far as the cup is wide enough.

    Lwe = C0r / (44 (1 - Dwe cos(alpha)/Dpw) Z Dwe cos(alpha)), at most 0.9 C / cos(alpha)

    Parameters (any broadcastable shapes)
    ----------
    C0r : basic static radial load rating [N]
    C : width of the cup [mm]
    Dwe : roller mean diameter [mm]
    Z : number of rollers [-]
    Dpw : pitch diameter of the roller set [mm]
    alpha : contact angle [rad]

    Returns
    -------
    Lwe [mm]

    Valid where the static rating is: sizes > 0, contact angles of radial bearings; NaN outside.

    Source: ISO 76:2006, clause 7.1; solved here for the length. The dynamic rating is not used: its ratio to the
    static one hardly depends on the rollers.
    """
    C0r, C, alpha = as_arrays(C0r, C, alpha)
    with np.errstate(all="ignore"):
        length = C0r / basic_static_rating_C0r(Dwe, np.ones_like(C0r), Z, Dpw, alpha)
        return np.minimum(length, LONGEST_CONTACT * C / np.cos(alpha))


@cited(COMMON_PRACTICE, "steel share of the ring")
def ring_mass(d: Array, D: Array, T: Array) -> Floats:
    """Mass of an assembly, of which seven tenths of the ring between bore and outside diameter are steel.

    mass = 0.70 density (pi/4) (D^2 - d^2) T, density 7.85e-6 kg/mm3

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    D : outside diameter [mm]
    T : width of the assembly [mm]

    Returns
    -------
    mass [kg]

    Valid for single-row assemblies with a steel cage, within a tenth.

    Source: Common practice, steel share of the ring; no source.
    """
    d, D, T = as_arrays(d, D, T)
    return STEEL_SHARE * STEEL_DENSITY * np.pi / 4 * (np.square(D) - np.square(d)) * T


@cited(COMMON_PRACTICE, "speed number n dm")
def speed_limit(d: Array, D: Array, alpha: Array, speed_number: Array) -> Floats:
    """Limiting speed from a speed number; lower for steep contact angles.

    n = (speed number / dm) (1.2 - 0.8 tan(alpha)), dm = (d + D)/2

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    D : outside diameter [mm]
    alpha : contact angle [rad]
    speed_number : n dm at a contact angle of about 14 deg: 250 000 with grease, 400 000 with oil [mm/min]

    Returns
    -------
    n [rpm]

    Valid for contact angles of 8 to 32 deg.

    Source: Common practice, speed number n dm; no source.
    """
    d, D, alpha, speed_number = as_arrays(d, D, alpha, speed_number)
    return speed_number / ((d + D) / 2) * (1.2 - 0.8 * np.tan(alpha))


def _grease(d: Floats, D: Floats, alpha: Floats) -> Floats:
    return np.maximum(speed_limit(d, D, alpha, SPEED_GREASE), 100)


def _oil(d: Floats, D: Floats, alpha: Floats) -> Floats:
    return np.maximum(speed_limit(d, D, alpha, SPEED_OIL), 100)


@dataclass(frozen=True)
class Estimate:
    """One column, what it is estimated from, and by which cited formula."""

    column: str
    given: tuple[str, ...]
    formula: Callable[..., Floats]
    cited_by: Callable[..., Floats]
    digits: int

    @property
    def citation(self) -> Citation:
        """Where the formula comes from."""
        return citation_of(self.cited_by)


def _by(
    column: str,
    given: str,
    formula: Callable[..., Floats],
    digits: int = 4,
    source: Callable[..., Floats] | None = None,
) -> Estimate:
    return Estimate(column, tuple(given.split()), formula, source or formula, digits)


#: In this order, since one may need what another gave; `digits` are the decimals that are kept.
ESTIMATES = (
    _by("alpha", "e", contact_angle_of_e, 6),
    _by("alpha", "Y", contact_angle_of_Y, 6),
    _by("e", "alpha", limiting_ratio_e),
    _by("Y", "alpha", axial_factor_Y),
    _by("Y0", "alpha", static_axial_factor_Y0),
    _by("B", "T", cone_width, 2),
    _by("C", "T", cup_width, 2),
    _by("Dpw", "d D", pitch_diameter, 2),
    _by("Dwe", "d D", roller_diameter, 2),
    _by("Z", "Dwe Dpw", roller_number, 0),
    _by("Lwe", "C0r C Dwe Z Dpw alpha", roller_length, 2),
    _by("Cu", "C0r Dpw", fatigue_load_limit_Cu, 0),
    _by("a", "T C Dwe Dpw alpha", load_centre_distance_a, 2),
    _by("mass", "d D T", ring_mass, 3),
    _by("n_grease", "d D alpha", _grease, -2, speed_limit),
    _by("n_oil", "d D alpha", _oil, -2, speed_limit),
)


def filled(stated: dict[str, Floats]) -> tuple[dict[str, Floats], dict[str, Bools]]:
    """Return the columns with what is not stated (NaN) estimated, and where each of them was."""
    values = dict(stated)
    estimated: dict[str, Bools] = {}
    with np.errstate(all="ignore"):
        for one in ESTIMATES:
            missing = np.isnan(values[one.column])
            if not missing.any():
                continue
            found = np.round(one.formula(*(values[name] for name in one.given)), one.digits)
            estimated[one.column] = estimated.get(one.column, False) | (missing & ~np.isnan(found))
            values[one.column] = np.where(missing, found, values[one.column])
    return values, estimated
