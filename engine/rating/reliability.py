"""Life modification factor for reliability, from the three-parameter Weibull distribution of bearing lives."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import ISO_TR_1281_2, cited

#: Share of the basic rating life that every bearing reaches.
C_GAMMA = 0.05
#: Weibull slope behind the table of ISO 281:2007; 9/8 does not reproduce it.
SLOPE = 1.5
RELIABILITY_LEAST = 0.90
RELIABILITY_GREATEST = 0.9995


@cited(ISO_TR_1281_2, "clause 4, life modification factor for reliability")
def reliability_factor_a1(reliability: Array) -> Floats:
    """Life modification factor for reliability; ISO 281:2007 tabulates it in Table 12.

    a1 = (1 - C_gamma) [ln(100/S) / ln(100/90)]^(1/1.5) + C_gamma, C_gamma = 0.05, S in percent

    Parameters (any shape)
    ----------
    reliability : S / 100 [-]

    Returns
    -------
    a1 [-]

    Valid for 0.90 <= reliability <= 0.9995, the rows of the table; NaN outside.

    Source: ISO/TR 1281-2, clause 4, life modification factor for reliability; structure read in open code, slope and
    clause number recalled; together they meet the 14 rows of ISO 281:2007, Table 12 as recalled.
    """
    (S,) = as_arrays(reliability)
    inside = (S >= RELIABILITY_LEAST) & (S <= RELIABILITY_GREATEST)
    S = np.where(inside, S, np.nan)
    return (1 - C_GAMMA) * np.power(np.log(S) / np.log(RELIABILITY_LEAST), 1 / SLOPE) + C_GAMMA
