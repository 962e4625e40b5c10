"""Fatigue load limit of ISO 281 Annex B for roller bearings."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import ISO_281, cited

#: Above this pitch diameter the limit falls with size [mm].
DPW_FULL = 100.0


@cited(ISO_281, "Annex B, simplified calculation, equations (B.19) and (B.20)")
def fatigue_load_limit_Cu(C0r: Array, Dpw: Array) -> Floats:
    """Fatigue load limit of a roller bearing, simplified estimate.

    Cu = C0r / 8.2 for Dpw <= 100 mm; Cu = (C0r / 8.2) (100 / Dpw)^0.3 for Dpw > 100 mm

    Parameters (any broadcastable shapes)
    ----------
    C0r : basic static radial load rating [N]
    Dpw : pitch diameter of the roller set [mm]

    Returns
    -------
    Cu [N]

    Valid for C0r > 0, Dpw > 0; NaN outside.

    Source: ISO 281:2007, Annex B, simplified calculation, equations (B.19) and (B.20); formula and number (B.20)
    read in open code, number (B.19) recalled.
    """
    C0r, Dpw = as_arrays(C0r, Dpw)
    inside = (C0r > 0) & (Dpw > 0)
    with np.errstate(divide="ignore", invalid="ignore"):
        Cu = np.where(
            Dpw <= DPW_FULL,
            C0r / 8.2,  # equation (B.19)
            C0r / 8.2 * np.power(DPW_FULL / Dpw, 0.3),  # equation (B.20)
        )
    return np.where(inside, Cu, np.nan)
