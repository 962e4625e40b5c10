"""A load spectrum as bins: equal ones merged, its equivalent constant load and mean speed, and the cases it scales."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np

from engine.duty.element import Element
from engine.duty.shaft import Forces, reduced
from engine.numerics import Array, Floats, as_arrays
from engine.rating.life import mean_load
from engine.sources import PALMGREN_MINER, cited


@dataclass(frozen=True)
class Spectrum:
    """Bins of a duty as arrays (bins,): share of time [-], adding up to 1, speed n [rpm], load, temperature [deg C].

    `load` is in `unit`: "-" is a factor on a case, "N" a force, "N mm" a torque; never negative. `temperature` is NaN
    where it is not known.
    """

    share: Floats
    n: Floats
    load: Floats
    temperature: Floats
    unit: str = "-"

    def __len__(self) -> int:
        return len(self.share)

    @property
    def equivalent(self) -> float:
        """Constant load that does the same damage over as many turns, in `unit`; NaN where nothing turns."""
        return float(mean_load(self.share, self.n, self.load))

    @property
    def mean_speed(self) -> float:
        """Turns over time [rpm]."""
        return float(mean_speed(self.share, self.n))

    def factors(self, reference: float) -> "Spectrum":
        """Return the spectrum with its loads as factors on a reference load [in `unit`], above 0."""
        if not reference > 0:
            raise ValueError("the load that a spectrum is measured against must be above 0")
        return replace(self, load=self.load / reference, unit="-")


@cited(PALMGREN_MINER, "mean speed of a spectrum")
def mean_speed(share: Array, n: Array, axis: int = -1) -> Floats:
    """Mean speed of a spectrum: its turns over its time.

    n_m = sum(n_i q_i) / sum(q_i)

    Parameters (any broadcastable shapes)
    ----------
    share : share q of each case in time [-]
    n : speed of each case [rpm]
    axis : axis along which the cases lie [-]

    Returns
    -------
    n_m [rpm]

    Valid for shares and speeds >= 0, and one share above 0; NaN outside.

    Source: Palmgren-Miner, mean speed of a spectrum; any machine design handbook.
    """
    share, n = np.broadcast_arrays(*as_arrays(share, n))
    inside = np.all((share >= 0) & (n >= 0), axis=axis)
    with np.errstate(divide="ignore", invalid="ignore"):
        mean = np.sum(share * n, axis=axis) / np.sum(share, axis=axis)
    return np.where(inside, mean, np.nan)


def merged(spectrum: Spectrum) -> Spectrum:
    """Return the spectrum with equal bins made one, in the order of their first appearance.

    Equal is equal to the last bit in speed, load and temperature; bins without a share are kept, since a standing
    load still counts for static safety.
    """
    # an unknown temperature equals another unknown one; NaN as a number would not
    known = np.isfinite(spectrum.temperature)
    keys = np.stack([spectrum.n, spectrum.load, np.where(known, spectrum.temperature, 0.0), known.astype(np.float64)])
    _, first, bin_of = np.unique(keys, axis=1, return_index=True, return_inverse=True)
    order = np.argsort(first, kind="stable")
    # weights are added in the order of the file, so that a spectrum without equal bins stays as it is, bit by bit
    share = np.bincount(np.ravel(bin_of), weights=spectrum.share, minlength=len(first))[order]
    kept = first[order]
    return Spectrum(share, spectrum.n[kept], spectrum.load[kept], spectrum.temperature[kept], spectrum.unit)


def scaled_forces(elements: Iterable[Element], n: float, spectrum: Spectrum) -> Forces:
    """Return the forces of every bin, from the elements of one case at speed n [rpm] and factors on its load.

    Weight stays as it is, unbalance grows with the square of the speed. The speed of a case that stands cannot be
    scaled: there the bins' own speeds leave unbalance at nothing.
    """
    if spectrum.unit != "-":
        raise ValueError("a spectrum of forces or torques is made factors first, see Spectrum.factors")
    speed = spectrum.n / n if n > 0 else np.zeros_like(spectrum.n)
    return reduced(elements, spectrum.load, speed)
