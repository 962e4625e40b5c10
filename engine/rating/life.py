"""Rating life of one bearing: in revolutions, in hours, and summed over a load spectrum."""

import numpy as np

from engine.numerics import Array, Floats, added_up, as_arrays, every_one
from engine.sources import ISO_281, PALMGREN_MINER, cited

#: Life exponent of roller bearings.
LIFE_EXPONENT = 10 / 3


@cited(ISO_281, "clause 7.4, basic rating life")
def basic_rating_life_L10(C: Array, P: Array) -> Floats:
    """Life that 90 % of like bearings reach: the basic rating life of a roller bearing.

    L10 = (C / P)^(10/3)

    Parameters (any broadcastable shapes)
    ----------
    C : basic dynamic load rating [N]
    P : equivalent dynamic load [N]

    Returns
    -------
    L10 [million revolutions]; infinite at no load

    Valid for C > 0, P >= 0; NaN outside. ISO 281 vouches for the result up to P = 0.5 C, which is for a check to say.

    Source: ISO 281:2007, clause 7.4, basic rating life; clause number recalled.
    """
    C, P = as_arrays(C, P)
    inside = (C > 0) & (P >= 0)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        return np.where(inside, np.power(C / P, LIFE_EXPONENT), np.nan)


@cited(ISO_281, "clause 9.1, modified rating life")
def modified_life_Lnm(a1: Array, a_iso: Array, L10: Array) -> Floats:
    """Life at another reliability and with its lubrication: the modified rating life, in the unit of L10.

    Lnm = a1 a_ISO L10

    Parameters (any broadcastable shapes)
    ----------
    a1 : life modification factor for reliability [-]
    a_iso : life modification factor for lubrication, cleanliness and fatigue limit [-]
    L10 : basic rating life [million revolutions]

    Returns
    -------
    Lnm [million revolutions]

    Valid for factors and life that are not negative; NaN outside.

    Source: ISO 281:2007, clause 9.1, modified rating life; clause number recalled.
    """
    a1, a_iso, L10 = as_arrays(a1, a_iso, L10)
    inside = (a1 >= 0) & (a_iso >= 0) & (L10 >= 0)
    with np.errstate(invalid="ignore", over="ignore"):
        return np.where(inside, a1 * a_iso * L10, np.nan)


@cited(ISO_281, "clause 7.4, life in hours")
def life_in_hours(L: Array, n: Array) -> Floats:
    """Life in hours at a constant speed.

    L_h = 10^6 L / (60 n)

    Parameters (any broadcastable shapes)
    ----------
    L : life [million revolutions]
    n : speed [rpm]

    Returns
    -------
    L_h [h]; infinite at n = 0 whatever L is, since a bearing that stands uses up no rolling life

    Valid for L >= 0, n >= 0; NaN outside.

    Source: ISO 281:2007, clause 7.4, life in hours; a change of unit.
    """
    L, n = as_arrays(L, n)
    inside = (L >= 0) & (n >= 0)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        hours = np.where(inside, 1e6 * L / (60 * n), np.nan)
    return np.where(n == 0, np.inf, hours)


@cited(PALMGREN_MINER, "linear damage sum")
def spectrum_life(share: Array, life: Array, axis: int = -1) -> Floats:
    """Life under a load spectrum, from the life each of its cases would have alone.

    L = sum(q_i) / sum(q_i / L_i)

    Parameters (any broadcastable shapes)
    ----------
    share : share q of each case in what the life is counted in; hours with hours, turns with turns [-]
    life : life of each case alone [h or million revolutions]
    axis : axis along which the cases lie [-]

    Returns
    -------
    L [unit of life]; a case without share counts for nothing, even one that lasts no time at all

    Valid for shares >= 0 of which one is positive, life >= 0; NaN outside.

    Source: Palmgren-Miner, linear damage sum; any machine design handbook.
    """
    share, life = (np.moveaxis(column, axis, -1) for column in np.broadcast_arrays(*as_arrays(share, life)))
    inside = every_one((share >= 0) & ((life >= 0) | (share == 0)))
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        damage = added_up(np.where(share == 0, 0.0, share / life))
        total = added_up(share)
        return np.where(inside & (total > 0), total / damage, np.nan)


@cited(PALMGREN_MINER, "equivalent constant load")
def mean_load(share: Array, n: Array, P: Array, axis: int = -1) -> Floats:
    """Constant load that does the same damage as a load spectrum, for roller bearings.

    P_m = [sum(P_i^p n_i q_i) / sum(n_i q_i)]^(1/p), p = 10/3

    Parameters (any broadcastable shapes)
    ----------
    share : share q of each case in time [-]
    n : speed of each case [rpm]
    P : equivalent dynamic load of each case [N]
    axis : axis along which the cases lie [-]

    Returns
    -------
    P_m [N]

    Valid for shares, speeds and loads that are not negative, and a shaft that turns in some case; NaN outside.

    Source: Palmgren-Miner, equivalent constant load; any machine design handbook.
    """
    share, n, P = np.broadcast_arrays(*as_arrays(share, n, P))
    inside = np.all((share >= 0) & (n >= 0) & (P >= 0), axis=axis)
    turns = share * n
    with np.errstate(divide="ignore", invalid="ignore"):
        total = np.sum(np.power(P, LIFE_EXPONENT) * turns, axis=axis) / np.sum(turns, axis=axis)
        return np.where(inside, np.power(total, 1 / LIFE_EXPONENT), np.nan)
