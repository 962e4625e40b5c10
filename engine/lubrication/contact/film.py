"""Film between roller and raceway: line-contact formulas, roughness, lambda, and lambda beside kappa."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import COMMON_PRACTICE, ISO_TR_1281_2, PAN_HAMROCK, cited

#: E' = E/(1 - nu^2) of steel on steel, E = 206 GPa and nu = 0.3 [MPa].
E_STEEL = 206_000 / (1 - 0.3**2)
#: Rq of ground and honed raceways and rollers [mm]: common practice, no source.
ROUGHNESS_RACEWAY, ROUGHNESS_ROLLER = 0.15e-3, 0.10e-3
_MPA_S = 1e-9  # MPa s per mPa s
#: kappa and lambda^1.3 within this factor of each other agree: common practice, no source.
AGREEMENT = 2.0


@cited(PAN_HAMROCK, "speed, materials and load parameter of a line contact")
def dimensionless(eta: Array, alpha_p: Array, u: Array, R: Array, w: Array) -> tuple[Floats, Floats, Floats]:
    """Speed, materials and load parameter of a line contact of steel on steel.

    U = eta u / (E' R), G = alpha_p E', W = w / (E' R)

    Parameters (any broadcastable shapes)
    ----------
    eta : dynamic viscosity at the inlet [mPa s]
    alpha_p : pressure-viscosity coefficient [1/MPa]
    u : entrainment speed, the mean of both surface speeds [mm/s]
    R : equivalent radius [mm]
    w : load per length of contact, of the most loaded roller [N/mm]

    Returns
    -------
    U, G, W [-]

    Valid for R > 0.

    Source: Pan and Hamrock 1989, speed, materials and load parameter of a line contact; recalled.
    """
    eta, alpha_p, u, R, w = as_arrays(eta, alpha_p, u, R, w)
    with np.errstate(all="ignore"):
        U = eta * _MPA_S * u / (E_STEEL * R)
        return np.where(R > 0, U, np.nan), alpha_p * E_STEEL, np.where(R > 0, w / (E_STEEL * R), np.nan)


@cited(PAN_HAMROCK, "minimum film, H = 1.714 U^0.694 G^0.568 W^-0.128")
def minimum_film_H(U: Array, G: Array, W: Array) -> Floats:
    """Minimum film thickness of a line contact over its equivalent radius.

    H = 1.714 U^0.694 G^0.568 W^-0.128

    Parameters (any broadcastable shapes)
    ----------
    U : speed parameter [-]
    G : materials parameter [-]
    W : load parameter [-]

    Returns
    -------
    H = h/R [-]

    Valid for U >= 0, G > 0, W >= 0, smooth surfaces, isothermal and fully flooded; NaN outside. Without load the
    film is infinite, at rest there is none. It lies at most 7 % below a numerical
    solution of Reynolds' equation with the elastic gap, and at most 2 % above, in seven cases of steel and oil.

    Source: Pan and Hamrock 1989, minimum film, H = 1.714 U^0.694 G^0.568 W^-0.128; recalled.
    """
    U, G, W = as_arrays(U, G, W)
    inside = (U >= 0) & (G > 0) & (W >= 0)
    with np.errstate(all="ignore"):
        H = 1.714 * np.power(U, 0.694) * np.power(G, 0.568) * np.power(W, -0.128)
    return np.where(inside, np.where(U > 0, H, 0.0), np.nan)


@cited(COMMON_PRACTICE, "roughness of two surfaces together")
def combined_roughness(Rq1: Array, Rq2: Array) -> Floats:
    """Roughness of two surfaces together.

    Rq = sqrt(Rq1^2 + Rq2^2)

    Parameters (any broadcastable shapes)
    ----------
    Rq1 : root mean square roughness of one surface [mm]
    Rq2 : that of the other [mm]

    Returns
    -------
    Rq [mm]

    Valid for Rq1 >= 0, Rq2 >= 0; NaN outside. Of a ground surface Rq is about 1.25 Ra.

    Source: Common practice, roughness of two surfaces together; variances of independent heights add.
    """
    Rq1, Rq2 = as_arrays(Rq1, Rq2)
    return np.where((Rq1 >= 0) & (Rq2 >= 0), np.sqrt(np.square(Rq1) + np.square(Rq2)), np.nan)


@cited(COMMON_PRACTICE, "film over roughness")
def film_ratio_lambda(h: Array, Rq: Array) -> Floats:
    """Film over roughness: below 1 the peaks touch, above 3 they hardly ever do.

    lambda = h / Rq

    Parameters (any broadcastable shapes)
    ----------
    h : minimum film thickness [mm]
    Rq : combined roughness [mm]

    Returns
    -------
    lambda [-]

    Valid for h >= 0, Rq > 0; NaN outside.

    Source: Common practice, film over roughness; the definition of every handbook.
    """
    h, Rq = as_arrays(h, Rq)
    with np.errstate(all="ignore"):
        return np.where((h >= 0) & (Rq > 0), h / Rq, np.nan)


@cited(ISO_TR_1281_2, "equation (57), kappa = lambda^1.3")
def kappa_of_lambda(lam: Array) -> Floats:
    """Viscosity ratio that goes with a film ratio.

    kappa = lambda^1.3

    Parameters (any shape)
    ----------
    lam : film ratio lambda [-]

    Returns
    -------
    kappa [-]

    Valid for lambda >= 0; NaN outside.

    Source: ISO/TR 1281-2, equation (57), kappa = lambda^1.3; equation read in open code that cites it.
    """
    (lam,) = as_arrays(lam)
    with np.errstate(invalid="ignore"):
        return np.where(lam >= 0, np.power(np.maximum(lam, 0.0), 1.3), np.nan)


@cited(COMMON_PRACTICE, "kappa beside lambda")
def disagreement(kappa: Array, lam: Array) -> Floats:
    """Say where the film thickness and the viscosity ratio tell different stories.

    1 where lambda^1.3 > 2 kappa (the film is thicker than kappa says), -1 where lambda^1.3 < kappa/2 (thinner), else 0

    Parameters (any broadcastable shapes)
    ----------
    kappa : viscosity ratio [-]
    lam : film ratio lambda [-]

    Returns
    -------
    -1, 0 or 1 [-]

    Valid for kappa >= 0, lambda >= 0; NaN outside.

    Source: Common practice, kappa beside lambda; the factor of 2 has no source.
    """
    kappa, lam = as_arrays(kappa, lam)
    film = kappa_of_lambda(lam)
    with np.errstate(invalid="ignore"):
        said = np.where(film > AGREEMENT * kappa, 1.0, np.where(film < kappa / AGREEMENT, -1.0, 0.0))
        return np.where((kappa >= 0) & (lam >= 0), said, np.nan)
