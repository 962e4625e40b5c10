"""Contamination factor of ISO 281 Annex A, with its table of constants laid out like the printed page."""

import numpy as np

from engine.lubrication.lubricant import ANNEX_KINDS
from engine.numerics import Array, Floats, as_arrays
from engine.sources import ISO_281, cited

#: How the lubricant reaches the bearing: circulating oil with on-line filter (clause A.4), oil bath or circulating oil
#: with off-line filter (A.5), grease (A.6).
SUPPLIES = ("circulating", "bath", "grease")

KAPPA_GREATEST = 4.0

#: (supply, level): (c1, c2). A.6 was read in an open guideline for wind turbine bearings that quotes it;
#: A.4 and A.5 are recalled, to be verified against the standard.
CONSTANTS = {
    # A.4 circulating oil, filtered on line                    filter         ISO 4406
    ("circulating", "high"): (0.0864, 0.5663),  # beta 6(c) >= 200   -/13/10
    ("circulating", "normal"): (0.0432, 0.9987),  # beta 12(c) >= 200  -/15/12
    ("circulating", "slight"): (0.0288, 1.6329),  # beta 25(c) >= 75   -/17/14
    ("circulating", "severe"): (0.0216, 2.3362),  # beta 40(c) >= 75   -/19/16
    ("circulating", "very_severe"): (0.0, 0.0),  # no line in A.4; e_C = 0 by Table 13
    # A.5 oil bath, or circulating oil filtered off line
    ("bath", "high"): (0.0864, 0.5796),  # -/13/10
    ("bath", "normal"): (0.0288, 1.141),  # -/15/12
    ("bath", "slight"): (0.0133, 1.670),  # -/17/14
    ("bath", "severe"): (0.00864, 2.5164),  # -/19/16
    ("bath", "very_severe"): (0.00411, 3.8974),  # -/21/18
    # A.6 grease
    ("grease", "high"): (0.0864, 0.6796),  # high cleanliness
    ("grease", "normal"): (0.0432, 1.141),  # normal cleanliness
    ("grease", "slight"): (0.0177, 1.887),  # slight to typical contamination, Dpw < 500 mm
    ("grease", "severe"): (0.0115, 2.662),  # severe contamination
    ("grease", "very_severe"): (0.00617, 4.06),  # very severe contamination
}
#: c2 of the third line of A.6 from this pitch diameter [mm] on (recalled).
GREASE_SLIGHT_LARGE = (500.0, 1.677)

#: Table 13 (recalled; its mid-points read in open code): least and greatest e_C below and from Dpw = 100 mm.
TABLE_13 = {
    "extreme": ((1.0, 1.0), (1.0, 1.0)),
    "high": ((0.6, 0.8), (0.8, 0.9)),
    "normal": ((0.5, 0.6), (0.6, 0.8)),
    "slight": ((0.3, 0.5), (0.4, 0.6)),
    "typical": ((0.1, 0.3), (0.2, 0.4)),
    "severe": ((0.0, 0.1), (0.0, 0.1)),
    "very_severe": ((0.0, 0.0), (0.0, 0.0)),
}
DPW_LARGE = 100.0


@cited(ISO_281, "Annex A, closed form of the diagrams")
def contamination_factor_e_C(kappa: Array, Dpw: Array, c1: Array, c2: Array) -> Floats:
    """Contamination factor from the constants of one line of Annex A.

    e_C = a (1 - c2 / Dpw^(1/3)), a = c1 kappa^0.68 Dpw^0.55, a <= 1

    Parameters (any broadcastable shapes)
    ----------
    kappa : viscosity ratio [-]; above 4 the value at 4 is used
    Dpw : pitch diameter of the roller set [mm]
    c1 : first constant of the line [-]
    c2 : second constant of the line [-]

    Returns
    -------
    e_C [-], never below 0

    Valid for kappa >= 0, Dpw > 0, c1 >= 0, c2 >= 0; NaN outside. The printed diagrams begin at kappa = 0.1.

    Source: ISO 281:2007, Annex A, closed form of the diagrams; structure read in open code and an open guideline.
    """
    kappa, Dpw, c1, c2 = as_arrays(kappa, Dpw, c1, c2)
    inside = (kappa >= 0) & (Dpw > 0) & (c1 >= 0) & (c2 >= 0)
    with np.errstate(divide="ignore", invalid="ignore"):
        k = np.minimum(kappa, KAPPA_GREATEST)
        a = np.minimum(c1 * np.power(k, 0.68) * np.power(Dpw, 0.55), 1.0)
        e_C = np.maximum(a * (1 - c2 / np.cbrt(Dpw)), 0.0)
    return np.where(inside, e_C, np.nan)


@cited(ISO_281, "Annex A, clauses A.4 to A.6")
def e_C_of(supply: str, level: str, kappa: Array, Dpw: Array) -> Floats:
    """Contamination factor for a kind of lubricant supply and a level of cleanliness.

    e_C with c1 and c2 of the line of A.4, A.5 or A.6

    Parameters (kappa and Dpw of any broadcastable shapes)
    ----------
    supply : one of SUPPLIES, or jet (as circulating) or mist (as bath) [-]
    level : one of LEVELS [-]
    kappa : viscosity ratio [-]
    Dpw : pitch diameter of the roller set [mm]

    Returns
    -------
    e_C [-]

    Valid for kappa >= 0, Dpw > 0; NaN outside.

    Source: ISO 281:2007, Annex A, clauses A.4 to A.6; A.6 read in an open guideline, A.4 and A.5 recalled (of
    the first line of A.5, c2 = 0.5796, more than once; 0.6796 is the first line of A.6).
    """
    return contamination_factor_e_C(kappa, Dpw, *constants_of(supply, level, Dpw))


@cited(ISO_281, "Annex A, constants of the lines of A.4 to A.6")
def constants_of(supply: str, level: str, Dpw: Array) -> tuple[Floats, Floats]:
    """Constants of a line of Annex A.

    c1 and c2 as printed

    Parameters (Dpw of any shape)
    ----------
    supply : one of SUPPLIES, or jet (as circulating) or mist (as bath) [-]
    level : one of LEVELS [-]
    Dpw : pitch diameter of the roller set; one line of grease changes at 500 mm [mm]

    Returns
    -------
    c1, c2 [-]

    Valid for every supply with every level.

    Source: ISO 281:2007, Annex A, constants of the lines of A.4 to A.6; A.6 read in an open guideline, A.4 and A.5
    recalled.
    """
    kind = ANNEX_KINDS[supply]
    (Dpw,) = as_arrays(Dpw)
    c1, c2 = (np.full(Dpw.shape, constant) for constant in CONSTANTS[kind, level])
    if (kind, level) == ("grease", "slight"):
        Dpw_from, c2_large = GREASE_SLIGHT_LARGE
        c2 = np.where(Dpw < Dpw_from, c2, c2_large)
    return c1, c2


@cited(ISO_281, "Table 13")
def e_C_of_table_13(word: str, Dpw: Array) -> tuple[Floats, Floats]:
    """Range of the contamination factor that the coarse table gives for a word; to compare the equations with.

    extreme 1; high 0.6 to 0.8, normal 0.5 to 0.6, slight 0.3 to 0.5, typical 0.1 to 0.3, severe 0 to 0.1, very severe
    0; from Dpw = 100 mm high 0.8 to 0.9, normal 0.6 to 0.8, slight 0.4 to 0.6, typical 0.2 to 0.4

    Parameters (Dpw of any shape)
    ----------
    word : one of TABLE_13, from "extreme" cleanliness to "very_severe" contamination [-]
    Dpw : pitch diameter of the roller set [mm]

    Returns
    -------
    least and greatest e_C [-]

    Valid for Dpw > 0; NaN outside.

    Source: ISO 281:2007, Table 13; recalled, its mid-points read in open code.
    """
    (Dpw,) = as_arrays(Dpw)
    small, large = TABLE_13[word]
    least, greatest = (np.where(Dpw < DPW_LARGE, a, b) for a, b in zip(small, large, strict=True))
    return np.where(Dpw > 0, least, np.nan), np.where(Dpw > 0, greatest, np.nan)
