"""Hypothesis strategies: what an engineer might type, in engine units."""

import numpy as np
from hypothesis import strategies as st

from engine.pair.arrangement import ARRANGEMENTS


def numbers(least: float, greatest: float) -> st.SearchStrategy[float]:
    return st.floats(least, greatest, allow_nan=False, allow_infinity=False, allow_subnormal=False)


arrangements = st.sampled_from(ARRANGEMENTS)
contact_angles = numbers(np.radians(8.0), np.radians(32.0))  # [rad], the angles tapered roller bearings are made with
radial_loads = st.one_of(st.just(0.0), numbers(1.0, 1e6))  # [N]
axial_loads = st.one_of(st.just(0.0), numbers(1.0, 1e6))  # [N]
thrusts = st.one_of(st.just(0.0), numbers(1.0, 1e6), numbers(-1e6, -1.0))  # [N]
forces = numbers(-1e5, 1e5)  # [N]
moments = numbers(-1e7, 1e7)  # [N mm]
places = numbers(-500.0, 500.0)  # [mm]
lives = numbers(1e-3, 1e9)  # [h or million revolutions]
kappas = numbers(0.1, 8.0)
contaminations = numbers(0.0, 1.0)


@st.composite
def spectra(draw: st.DrawFn) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Shares in time, speeds and equivalent loads of one to twelve cases."""
    cases = st.tuples(numbers(0.01, 1.0), numbers(1.0, 5000.0), numbers(10.0, 1e5))
    rows = draw(st.lists(cases, min_size=1, max_size=12))
    share, n, P = np.array(rows).T
    return share, n, P
