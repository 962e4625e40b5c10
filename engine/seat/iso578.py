"""Tolerances of inch tapered roller bearings by ISO 578, laid out like the printed tables; all recalled.

Bores and outside diameters lie at 0/plus. What is not at hand is NaN, never a guess.
"""

from collections.abc import Mapping

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import ISO_578, cited

_MICROMETRE = 1e3
_ = np.nan
CLASSES = ("4", "2", "3", "0", "00")

# upper deviation of the bore (um), bore up to (mm): 3, 12, 24, 36 and 48 in, and above
BORE_UP_TO = (76.2, 304.8, 609.6, 914.4, 1219.2, np.inf)
BORE_UPPER = {
    "4":  (13, 25, 51, 76, 102, 127),
    "2":  (13, 25, 51, 76, 102, 127),
    "3":  (13, 13, 25, 38,  51,  76),
    "0":  (13, 13,  _,  _,   _,   _),
    "00": ( 8,  8,  _,  _,   _,   _),
}  # fmt: skip
# upper deviation of the outside diameter (um), outside diameter up to (mm)
OUTSIDE_UP_TO = (304.8, 609.6, 914.4, 1219.2, np.inf)
OUTSIDE_UPPER = {
    "4":  (25, 51, 76, 102, 127),
    "2":  (25, 51, 76, 102, 127),
    "3":  (13, 25, 38,  51,  76),
    "0":  (13,  _,  _,   _,   _),
    "00": ( 8,  _,  _,   _,   _),
}  # fmt: skip
# radial runout of the assembled bearing (um), outside diameter up to (mm)
RUNOUT = {
    "4":  (51, 51, 51, 51, 51),
    "2":  (38, 38, 38, 38, 38),
    "3":  ( 8, 18, 18, 18, 18),
    "0":  ( 4,  _,  _,  _,  _),
    "00": ( 2,  _,  _,  _,  _),
}  # fmt: skip
# upper and lower deviation of the assembly width T (um), bore up to (mm): 4 and 12 in, and above
WIDTH_UP_TO = (101.6, 304.8, np.inf)
WIDTH_T_UPPER = {
    "4":  (203, 356, 381),
    "2":  (203, 203,   _),
    "3":  (203, 203,   _),
    "0":  (203, 203,   _),
    "00": (203, 203,   _),
}  # fmt: skip
WIDTH_T_LOWER = {
    "4":  (   0, -254, -381),
    "2":  (   0,    0,    _),
    "3":  (-203, -203,    _),
    "0":  (-203, -203,    _),
    "00": (-203, -203,    _),
}  # fmt: skip


def _array(table: Mapping[str, tuple[float, ...]]) -> Floats:
    """Return a table in mm, one row a class and a last one of NaN; a last column of NaN for a size of no step."""
    values = np.array([table[name] for name in CLASSES], dtype=np.float64) / _MICROMETRE
    return np.pad(values, ((0, 1), (0, 1)), constant_values=np.nan)


_BORE, _OUTSIDE, _RUNOUT = _array(BORE_UPPER), _array(OUTSIDE_UPPER), _array(RUNOUT)
_T_UPPER, _T_LOWER = _array(WIDTH_T_UPPER), _array(WIDTH_T_LOWER)


def _looked_up(table: Floats, size: Array, code: Array, up_to: tuple[float, ...]) -> Floats:
    (size,), code = as_arrays(size), np.asarray(code, dtype=np.int64)
    # inch sizes are often stated rounded to 0.001 mm; such a one still is the end of its step
    step = np.where((size > 0) & np.isfinite(size), np.searchsorted(up_to, size - 1e-3), len(up_to))
    row = np.where((code >= 0) & (code < len(CLASSES)), code, len(CLASSES))
    return np.asarray(table[row, step])


@cited(ISO_578, "bore")
def bore_limits(d: Array, code: Array) -> tuple[Floats, Floats]:
    """Upper and lower deviation of the bore of an inch cone.

    The value printed and 0

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    code : place of the tolerance class in CLASSES [-]

    Returns
    -------
    upper, lower [mm]

    Valid for d > 0 (0 and 00 up to 304.8 mm); NaN outside: not at hand.

    Source: ISO 578:1987, bore; recalled, to be verified against the standard.
    """
    upper = _looked_up(_BORE, d, code, BORE_UP_TO)
    return upper, upper * 0.0


@cited(ISO_578, "outside diameter")
def outside_limits(D: Array, code: Array) -> tuple[Floats, Floats]:
    """Upper and lower deviation of the outside diameter of an inch cup.

    The value printed and 0

    Parameters (any broadcastable shapes)
    ----------
    D : outside diameter [mm]
    code : place of the tolerance class in CLASSES [-]

    Returns
    -------
    upper, lower [mm]

    Valid for D > 0 (0 and 00 up to 304.8 mm); NaN outside: not at hand.

    Source: ISO 578:1987, outside diameter; recalled, to be verified against the standard.
    """
    upper = _looked_up(_OUTSIDE, D, code, OUTSIDE_UP_TO)
    return upper, upper * 0.0


@cited(ISO_578, "runout")
def runout(D: Array, code: Array) -> Floats:
    """Greatest radial runout of cone and cup of the assembled bearing.

    as printed, by the outside diameter

    Parameters (any broadcastable shapes)
    ----------
    D : outside diameter [mm]
    code : place of the tolerance class in CLASSES [-]

    Returns
    -------
    K_ia, which is also K_ea [mm]

    Valid for D > 0 (0 and 00 up to 304.8 mm); NaN outside: not at hand.

    Source: ISO 578:1987, runout; recalled, to be verified against the standard.
    """
    return _looked_up(_RUNOUT, D, code, OUTSIDE_UP_TO)


@cited(ISO_578, "width of the assembly")
def assembly_width_limits(d: Array, code: Array) -> tuple[Floats, Floats]:
    """Upper and lower deviation of the actual width T of a single assembly.

    as printed, by the bore

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    code : place of the tolerance class in CLASSES [-]

    Returns
    -------
    upper, lower [mm]

    Valid for d > 0 (class 4), d <= 304.8 mm (the others); NaN outside: not at hand.

    Source: ISO 578:1987, width of the assembly; recalled, to be verified against the standard.
    """
    return _looked_up(_T_UPPER, d, code, WIDTH_UP_TO), _looked_up(_T_LOWER, d, code, WIDTH_UP_TO)
