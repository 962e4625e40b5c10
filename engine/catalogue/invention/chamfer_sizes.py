"""Chamfers of the invented parts: the largest usual size that a share of the section height allows."""

import numpy as np
from numpy.typing import NDArray

from engine.catalogue.section.chamfers import PREFERRED
from engine.catalogue.section.sizes import Envelope
from engine.numerics import Array, Bools, Floats, as_arrays
from engine.sources import COMMON_PRACTICE, cited

#: Chamfer at the back face over the section height (D - d)/2, at most; chosen to meet the rows of ISO 355 as recalled.
CONE_SHARE, CUP_SHARE = 0.088, 0.076
#: Sizes in the inch system [in]; common practice, no source.
INCH_SIZES = np.array([1 / 64, 1 / 32, 3 / 64, 1 / 16, 3 / 32, 1 / 8, 3 / 16, 7 / 32])
INCH = 25.4
_SLACK = 1e-9


@cited(COMMON_PRACTICE, "chamfers by section height")
def usual_chamfer(height: Array, share: float, sizes: NDArray[np.float64]) -> Floats:
    """Largest of the usual sizes of a chamfer that a share of the section height allows, the smallest one at least.

    r = largest size up to share (D - d)/2

    Parameters (any shape)
    ----------
    height : section height (D - d)/2 [mm]
    share : chamfer over section height at most [-]
    sizes : usual sizes, rising [mm]

    Returns
    -------
    r [mm]

    Valid for single-row assemblies.

    Source: Common practice, chamfers by section height; no source. The shares meet most rows of ISO 355 as recalled,
    cones better than cups; no row lies further off than one size.
    """
    (height,) = as_arrays(height)
    place = np.searchsorted(sizes, share * height + _SLACK, side="right") - 1
    return sizes[np.maximum(place, 0)]


def chamfers(envelope: Envelope, inch: Bools) -> tuple[Floats, Floats]:
    """Return the chamfers of cones and cups [mm]: of ISO 582, or in fractions of an inch where the mask says so."""
    height = (envelope.D - envelope.d) / 2
    cone, cup = (
        np.where(
            inch,
            np.round(usual_chamfer(height / INCH, share, INCH_SIZES) * INCH, 5),
            usual_chamfer(height, share, PREFERRED),
        )
        for share in (CONE_SHARE, CUP_SHARE)
    )
    return cone, cup
