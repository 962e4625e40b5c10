"""The formulas by which the tables of ISO 286 were made, unrounded; the tables govern."""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.seat.iso286 import FINE_STEPS, STEPS
from engine.sources import ISO_286_1, cited

_MICROMETRE = 1e-3
#: IT as a multiple of the tolerance unit.
_UNITS = {5: 7.0, 6: 10.0, 7: 16.0, 8: 25.0}
_COARSE_UP_TO = 500.0


def _mean_of_step(size: Floats, steps: tuple[int, ...]) -> Floats:
    """Return the geometric mean of the ends of the step [mm]; that of the first is of 1 and 3 mm by convention."""
    ends = np.array([1.0, *steps, np.nan])
    place = np.where((size > 0) & (size <= steps[-1]), np.searchsorted(steps, size), len(steps))
    # the place after the last step has no end
    return np.sqrt(ends[place] * np.append(ends, np.nan)[place + 1])


@cited(ISO_286_1, "standard tolerance factor")
def tolerance_by_formula_IT(size: Array, grade: Array) -> Floats:
    """Width of a tolerance zone by its grade, from the formula.

    i = 0.45 D^(1/3) + 0.001 D up to 500 mm, I = 0.004 D + 2.1 above [um, mm], D the geometric mean of the step;
    IT5 7, IT6 10, IT7 16, IT8 25 times i or I

    Parameters (any broadcastable shapes)
    ----------
    size : nominal diameter [mm]
    grade : number of the grade, 5 to 8 [-]

    Returns
    -------
    IT, not rounded [mm]

    Valid for 0 < size <= 3150 mm and grades 5 to 8; NaN outside.

    Source: ISO 286-1:2010, standard tolerance factor; i read in open text, I recalled.
    """
    size, grade = as_arrays(size, grade)
    D = _mean_of_step(size, STEPS)
    unit = np.where(size <= _COARSE_UP_TO, 0.45 * np.cbrt(D) + 0.001 * D, 0.004 * D + 2.1)
    units = np.select([grade == number for number in _UNITS], list(_UNITS.values()), np.nan)
    return np.asarray(unit * units * _MICROMETRE)


@cited(ISO_286_1, "formulas of the fundamental deviations")
def deviation_by_formula(letter: str, size: Array) -> Floats:
    """Fundamental deviation of a shaft, from the formula.

    Up to 500 mm: d -16 D^0.44, e -11 D^0.41, f -5.5 D^0.41, g -2.5 D^0.34, k 0.6 D^(1/3), m IT7 - IT6,
    n 5 D^0.34, p IT7 + 0 to 5, s IT8 + 1 to 4 up to 50 mm and IT7 + 0.4 D above; above 500 mm: d and e as before,
    f -5.5 D^0.41, g -2.5 D^0.34, k 0, m 0.024 D + 12.6, n 0.04 D + 21, p 0.072 D + 37.8, s IT7 + 0.4 D;
    r is the geometric mean of p and s everywhere [um, mm]

    Parameters (any shape of the size)
    ----------
    letter : d, e, f, g, h, k, m, n, p, r or s [-]
    size : nominal diameter [mm]

    Returns
    -------
    es of d to h, ei of k to s, not rounded, the additions of p and s at their middle [mm]

    Valid for 0 < size <= 3150 mm; NaN outside.

    Source: ISO 286-1:2010, formulas of the fundamental deviations; read in open text, those of d, e, s and all above
    500 mm recalled.
    """
    (size,) = as_arrays(size)
    # r and s have the finer steps, the others the coarse ones
    D = _mean_of_step(size, FINE_STEPS if letter in "rs" else STEPS)
    IT6, IT7, IT8 = (tolerance_by_formula_IT(size, grade) / _MICROMETRE for grade in (6, 7, 8))
    above = size > _COARSE_UP_TO
    # 0 D keeps NaN where the size is out of range
    if letter in "rs":
        s = np.where(size <= 50.0, IT8 + 2.5, IT7 + 0.4 * D)
        if letter == "s":
            return np.asarray(s * _MICROMETRE)
        p = deviation_by_formula("p", size) / _MICROMETRE
        return np.asarray(np.sqrt(p * s) * _MICROMETRE)
    formulas = {
        "d": -16.0 * np.power(D, 0.44),
        "e": -11.0 * np.power(D, 0.41),
        "f": -5.5 * np.power(D, 0.41),
        "g": -2.5 * np.power(D, 0.34),
        "h": 0.0 * D,
        "k": np.where(above, 0.0 * D, 0.6 * np.cbrt(D)),
        "m": np.where(above, 0.024 * D + 12.6, IT7 - IT6),
        "n": np.where(above, 0.04 * D + 21.0, 5.0 * np.power(D, 0.34)),
        "p": np.where(above, 0.072 * D + 37.8, IT7 + 2.5),
    }
    return np.asarray(formulas.get(letter, np.nan * D) * _MICROMETRE)
