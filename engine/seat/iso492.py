"""Tolerances of metric tapered roller bearings by ISO 492, laid out like the printed tables; all recalled.

Bores and outside diameters lie at 0/minus. What is not at hand is NaN, never a guess.
"""

from collections.abc import Mapping

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import ISO_492, cited

_MICROMETRE = 1e3
_ = np.nan
CLASSES = ("Normal", "6X", "5", "4", "2")

# steps of the bore, over 10 mm up to (mm), and values (um)
BORE_UP_TO = (18, 30, 50, 80, 120, 180, 250, 315, 400, 500, 630, 800, 1000)
_OVER = 10.0
BORE_LOWER = {
    "Normal": (-12, -12, -12, -15, -20, -25, -30, -35, -40, -45, -60, -75, -100),
    "6X":     (-12, -12, -12, -15, -20, -25, -30, -35, -40,   _,   _,   _,    _),
    "5":      ( -7,  -8, -10, -12, -15, -18, -22, -25, -30,   _,   _,   _,    _),
    "4":      ( -5,  -6,  -8,  -9, -10, -13, -15, -18,   _,   _,   _,   _,    _),
    "2":      ( -4,  -4,  -5,  -5,  -6,  -7,  -8,  -8,   _,   _,   _,   _,    _),
}  # fmt: skip
RUNOUT_INNER = {
    "Normal": (15, 18,  20, 25, 30, 35, 50, 60, 70, _, _, _, _),
    "6X":     (15, 18,  20, 25, 30, 35, 50, 60, 70, _, _, _, _),
    "5":      ( 5,  5,   6,  7,  8, 11, 13, 13, 15, _, _, _, _),
    "4":      ( 3,  3,   4,  4,  5,  6,  8,  9,  _, _, _, _, _),
    "2":      ( 2, 2.5, 2.5, 3,  3,  4,  5,  6,  _, _, _, _, _),
}  # fmt: skip
# steps of the outside diameter, over 18 mm up to (mm), and values (um)
OUTSIDE_UP_TO = (30, 50, 80, 120, 150, 180, 250, 315, 400, 500, 630)
_OUTSIDE_OVER = 18.0
OUTSIDE_LOWER = {
    "Normal": (-12, -14, -16, -18, -20, -25, -30, -35, -40, -45, -50),
    "6X":     (-12, -14, -16, -18, -20, -25, -30, -35, -40, -45, -50),
    "5":      ( -8,  -9, -11, -13, -15, -18, -20, -25, -28, -33, -38),
    "4":      ( -6,  -7,  -9, -10, -11, -13, -15, -18, -20,   _,   _),
    "2":      ( -5,  -5,  -6,  -6,  -7,  -7,  -8,  -9, -10,   _,   _),
}  # fmt: skip
RUNOUT_OUTER = {
    "Normal": ( 18,  20, 25, 35, 40, 45, 50, 60, 70, 80, 100),
    "6X":     ( 18,  20, 25, 35, 40, 45, 50, 60, 70, 80, 100),
    "5":      (  6,   7,  8, 10, 11, 13, 15, 18, 20, 24,  30),
    "4":      (  4,   5,  5,  6,  7,  8, 10, 11, 13,  _,   _),
    "2":      (2.5, 2.5,  4,  5,  5,  5,  7,  7,  8,  _,   _),
}  # fmt: skip
# widths by the bore, up to 400 mm: upper and lower deviation of the cone width B and of the assembly width T (um);
# those of the classes 4 and 2 are not at hand
WIDTH_B = {
    "Normal": (-120, -120, -120, -150, -200, -250, -300, -350, -400, _, _, _, _),
    "6X":     ( -50,  -50,  -50,  -50,  -50,  -50,  -50,  -50,  -50, _, _, _, _),
    "5":      (-200, -200, -240, -300, -400, -500, -600, -700, -800, _, _, _, _),
}  # fmt: skip
WIDTH_T_UPPER = {
    "Normal": (200, 200, 200, 200, 200, 350, 350, 350, 400, _, _, _, _),
    "6X":     (100, 100, 100, 100, 100, 150, 150, 200, 200, _, _, _, _),
    "5":      (200, 200, 200, 200, 200, 350, 350, 350, 400, _, _, _, _),
}  # fmt: skip
WIDTH_T_LOWER = {
    "Normal": (   0,    0,    0,    0, -200, -250, -250, -250, -400, _, _, _, _),
    "6X":     (   0,    0,    0,    0,    0,    0,    0,    0,    0, _, _, _, _),
    "5":      (-200, -200, -200, -200, -200, -250, -250, -250, -400, _, _, _, _),
}  # fmt: skip


def _array(table: Mapping[str, tuple[float, ...]]) -> Floats:
    """Return a table in mm, one row a class and a row of NaN for those without; a last column of NaN for no step."""
    width = len(next(iter(table.values())))
    rows = [table.get(name, (_,) * width) for name in CLASSES]
    values = np.hstack([np.array(rows, dtype=np.float64) / _MICROMETRE, np.full((len(rows), 1), np.nan)])
    return np.vstack([values, np.full(values.shape[1], np.nan)])


_BY_BORE = {
    "bore": _array(BORE_LOWER),
    "runout": _array(RUNOUT_INNER),
    "B": _array(WIDTH_B),
    "T_upper": _array(WIDTH_T_UPPER),
    "T_lower": _array(WIDTH_T_LOWER),
}
_BY_OUTSIDE = {"outside": _array(OUTSIDE_LOWER), "runout": _array(RUNOUT_OUTER)}


def _by_bore(what: str, d: Array, code: Array) -> Floats:
    return _looked_up(_BY_BORE[what], d, code, BORE_UP_TO, _OVER)


def _by_outside(what: str, D: Array, code: Array) -> Floats:
    return _looked_up(_BY_OUTSIDE[what], D, code, OUTSIDE_UP_TO, _OUTSIDE_OVER)


def _looked_up(table: Floats, size: Array, code: Array, up_to: tuple[int, ...], over: float) -> Floats:
    (size,), code = as_arrays(size), np.asarray(code, dtype=np.int64)
    step = np.where((size > over) & (size <= up_to[-1]), np.searchsorted(up_to, size), len(up_to))
    row = np.where((code >= 0) & (code < len(CLASSES)), code, len(CLASSES))
    return np.asarray(table[row, step])


@cited(ISO_492, "bore of tapered roller bearings")
def bore_limits(d: Array, code: Array) -> tuple[Floats, Floats]:
    """Upper and lower deviation of the mean bore diameter.

    0 and the value printed

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    code : place of the tolerance class in CLASSES [-]

    Returns
    -------
    upper, lower [mm]

    Valid for 10 < d <= 1000 mm (6X and 5 to 400 mm, 4 and 2 to 315 mm); NaN outside: not at hand.

    Source: ISO 492:2014, bore of tapered roller bearings; recalled, to be verified against the standard.
    """
    lower = _by_bore("bore", d, code)
    return np.abs(lower) * 0.0, lower


@cited(ISO_492, "outside diameter of tapered roller bearings")
def outside_limits(D: Array, code: Array) -> tuple[Floats, Floats]:
    """Upper and lower deviation of the mean outside diameter.

    0 and the value printed

    Parameters (any broadcastable shapes)
    ----------
    D : outside diameter [mm]
    code : place of the tolerance class in CLASSES [-]

    Returns
    -------
    upper, lower [mm]

    Valid for 18 < D <= 630 mm (4 and 2 to 400 mm); NaN outside: not at hand.

    Source: ISO 492:2014, outside diameter of tapered roller bearings; recalled, to be verified against the standard.
    """
    lower = _by_outside("outside", D, code)
    return np.abs(lower) * 0.0, lower


@cited(ISO_492, "radial runout of tapered roller bearings")
def runouts(d: Array, D: Array, code: Array) -> tuple[Floats, Floats]:
    """Greatest radial runout of cone and cup of the assembled bearing.

    K_ia by the bore, K_ea by the outside diameter, as printed

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    D : outside diameter [mm]
    code : place of the tolerance class in CLASSES [-]

    Returns
    -------
    K_ia, K_ea [mm]

    Valid for 10 < d <= 400 mm and 18 < D <= 630 mm (4 and 2: to 315 and 400 mm); NaN outside: not at hand.

    Source: ISO 492:2014, radial runout of tapered roller bearings; recalled, to be verified against the standard.
    """
    return _by_bore("runout", d, code), _by_outside("runout", D, code)


@cited(ISO_492, "width of the cone")
def cone_width_limits(d: Array, code: Array) -> tuple[Floats, Floats]:
    """Upper and lower deviation of a single cone width B.

    0 and the value printed

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    code : place of the tolerance class in CLASSES [-]

    Returns
    -------
    upper, lower [mm]

    Valid for 10 < d <= 400 mm and the classes Normal, 6X and 5; NaN outside: not at hand.

    Source: ISO 492:2014, width of the cone; recalled, to be verified against the standard.
    """
    lower = _by_bore("B", d, code)
    return np.abs(lower) * 0.0, lower


@cited(ISO_492, "width of the assembly")
def assembly_width_limits(d: Array, code: Array) -> tuple[Floats, Floats]:
    """Upper and lower deviation of the actual width T of a single assembly.

    as printed

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    code : place of the tolerance class in CLASSES [-]

    Returns
    -------
    upper, lower [mm]

    Valid for 10 < d <= 400 mm and the classes Normal, 6X and 5; NaN outside: not at hand.

    Source: ISO 492:2014, width of the assembly; recalled, to be verified against the standard.
    """
    return _by_bore("T_upper", d, code), _by_bore("T_lower", d, code)
