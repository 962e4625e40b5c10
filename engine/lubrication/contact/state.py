"""The film of many bearings and cases in one call: sizes, loads, speed and oil in, film beside kappa out."""

from dataclasses import dataclass

import numpy as np

from engine.lubrication.contact import film, rollers
from engine.lubrication.oil import density, dynamic_viscosity_eta, pressure_viscosity_alpha_p
from engine.numerics import Array, Floats, as_arrays
from engine.sources import PAN_HAMROCK, cited


@dataclass(frozen=True)
class Sizes:
    """Roller sets as columns (n, 1): Z [-], Dwe, Lwe, Dpw [mm], alpha [rad]."""

    Z: Floats
    Dwe: Floats
    Lwe: Floats
    Dpw: Floats
    alpha: Floats


@dataclass(frozen=True)
class OilAt:
    """The oil at the contact: T [deg C], nu at T [mm2/s], rho15 [kg/m3], base (one of lubricant.BASES)."""

    T: Array
    nu: Array
    rho15: Array
    base: str


@dataclass(frozen=True)
class Film:
    """Least film of a bearing: h [mm] at the cone and at the cup, lambda and the kappa that goes with the lesser [-].

    `said` is 1 where the film is thicker than kappa says, -1 where thinner, 0 where both agree.
    """

    h_cone: Floats
    h_cup: Floats
    lam: Floats
    kappa_of_film: Floats
    said: Floats


@cited(PAN_HAMROCK, "minimum film of the most loaded roller")
def film_of(sizes: Sizes, Q: Array, n: Array, oil: OilAt, kappa: Array, Rq: Array) -> Film:
    """Least film of the most loaded roller, and whether it tells the same story as kappa.

    h = R H(U, G, W) at cone and cup, w = Q / Lwe; lambda = h / Rq; lambda^1.3 beside kappa

    Parameters (any broadcastable shapes)
    ----------
    sizes : roller sets [mm, rad, -]
    Q : load of the most loaded roller, `rollers.roller_load_Q` [N]
    n : speed of one ring relative to the other [rpm]
    oil : the oil at the contact [deg C, mm2/s, kg/m3]
    kappa : viscosity ratio [-]
    Rq : combined roughness of roller and raceway [mm]

    Returns
    -------
    film at cone and cup, lambda, kappa of the film, what is said [mm, -]

    Valid for Q >= 0, n >= 0, Rq > 0, rollers loaded evenly along their length; NaN outside.

    Source: Pan and Hamrock 1989, minimum film of the most loaded roller; recalled.
    """
    Q, Lwe = as_arrays(Q, sizes.Lwe)
    eta = dynamic_viscosity_eta(oil.nu, density(oil.T, oil.rho15))
    alpha_p = pressure_viscosity_alpha_p(eta, oil.base)
    u = rollers.entrainment_speed_u(n, sizes.Dwe, sizes.alpha, sizes.Dpw)
    with np.errstate(all="ignore"):
        w = np.where(Lwe > 0, Q / Lwe, np.nan)
    h_cone, h_cup = (
        R * film.minimum_film_H(*film.dimensionless(eta, alpha_p, u, R, w))
        for R in rollers.contact_radii(sizes.Dwe, sizes.alpha, sizes.Dpw)
    )
    lam = film.film_ratio_lambda(np.minimum(h_cone, h_cup), Rq)
    return Film(h_cone, h_cup, lam, film.kappa_of_lambda(lam), film.disagreement(kappa, lam))
