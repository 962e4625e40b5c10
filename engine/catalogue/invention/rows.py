"""Invented geometry to catalogue rows: ratings, factors, load centre, speeds and mass from the printed sizes."""

from typing import Any

import numpy as np

from engine.catalogue.columns import Catalogue
from engine.catalogue.intake.estimate import SPEED_GREASE, SPEED_OIL, speed_limit
from engine.catalogue.invention.chamfer_sizes import chamfers
from engine.catalogue.section.masses import steel_mass
from engine.catalogue.section.raceways import cone_raceway_diameter_F, cup_raceway_diameter_E, load_centre_distance_a
from engine.catalogue.section.sizes import Envelope, Rollers
from engine.numerics import Array, Floats
from engine.rating.dynamic import basic_dynamic_rating_Cr
from engine.rating.fatigue_limit import fatigue_load_limit_Cu
from engine.rating.geometry import axial_factor_Y, limiting_ratio_e, static_axial_factor_Y0
from engine.rating.static import basic_static_rating_C0r
from engine.sources import COMMON_PRACTICE, cited

#: Temperature to which rings are stabilised [deg C], by heat treatment; common practice, no source.
MAX_TEMPERATURE = {"case": 150.0, "through": 120.0}
#: The same of a stabilising treatment: S1 of DIN 623-1, recalled.
STABILISED_TEMPERATURE = 200.0
#: Tolerance class of parts of the inch system in millimetres: K of ANSI/ABMA 19.1, recalled; bore and outside diameter
#: keep to 0/minus there.
METRIC_TOLERANCE = "K"


@cited(COMMON_PRACTICE, "speed number n dm")
def limiting_speed(d: Array, D: Array, alpha: Array, speed_number: Array) -> Floats:
    """Limiting speed that a catalogue prints, rounded to 100 rpm; lower for steep contact angles.

    n = (speed number / dm) (1.2 - 0.8 tan(alpha)), dm = (d + D)/2

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    D : outside diameter [mm]
    alpha : contact angle [rad]
    speed_number : n dm at a contact angle of about 14 deg [mm/min]

    Returns
    -------
    n [rpm]

    Valid for contact angles of 8 to 32 deg.

    Source: Common practice, speed number n dm; no source.
    """
    return np.maximum(np.round(speed_limit(d, D, alpha, speed_number) / 100), 1) * 100


def rated_rows(stated: dict[str, Any], envelope: Envelope, rollers: Rollers) -> Catalogue:
    """Return the catalogue of these assemblies; every figure comes from the sizes as the catalogue prints them.

    `stated` holds the columns that do not follow from sizes: names, steel and what else is not to be as usual;
    envelope and rollers are columns rounded as printed.
    """
    b, r = envelope, rollers
    # metric dimensions within the inch system have metric chamfers
    in_inches = (stated["system"] == "inch") & (stated.get("tolerance", "") != METRIC_TOLERANCE)
    r_cone, r_cup = chamfers(b, in_inches)
    C0r = np.round(basic_static_rating_C0r(r.Dwe, r.Lwe, r.Z, r.Dpw, b.alpha))
    return Catalogue(
        **{**_as_usual(stated), **stated},
        d=b.d,
        D=b.D,
        T=b.T,
        B=b.B,
        C=b.C,
        alpha=b.alpha,
        Z=r.Z,
        Dwe=r.Dwe,
        Lwe=r.Lwe,
        Dpw=r.Dpw,
        Cr=np.round(basic_dynamic_rating_Cr(r.Dwe, r.Lwe, r.Z, r.Dpw, b.alpha)),
        C0r=C0r,
        Cu=np.round(fatigue_load_limit_Cu(C0r, r.Dpw)),
        e=np.round(limiting_ratio_e(b.alpha), 4),
        Y=np.round(axial_factor_Y(b.alpha), 4),
        Y0=np.round(static_axial_factor_Y0(b.alpha), 4),
        a=np.round(load_centre_distance_a(b.T, b.C, r.Dwe, r.Dpw, b.alpha), 2),
        mass=np.round(steel_mass(b, r), 3),
        n_grease=limiting_speed(b.d, b.D, b.alpha, SPEED_GREASE),
        n_oil=limiting_speed(b.d, b.D, b.alpha, SPEED_OIL),
        F=np.round(cone_raceway_diameter_F(r.Dwe, r.Dpw, b.alpha), 2),
        E=np.round(cup_raceway_diameter_E(r.Dwe, r.Dpw, b.alpha), 2),
        r_cone=r_cone,
        r_cup=r_cup,
    )


def _as_usual(stated: dict[str, Any]) -> dict[str, Any]:
    rows = len(stated["steel"])
    return {
        "max_temperature": np.where(stated["steel"] == "case", MAX_TEMPERATURE["case"], MAX_TEMPERATURE["through"]),
        "listed": np.full(rows, "listed"),
        "tolerance": np.where(stated["system"] == "inch", "4", "Normal"),
        "profile": np.full(rows, "plain"),
        "availability": np.full(rows, "stocked"),
        "cost": np.ones(rows),
    }
