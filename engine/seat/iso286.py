"""Limits of shafts and holes by ISO 286: tables laid out like the printed ones, and the formulas they were made by.

The table governs: the printed values are the formulas' rounded by rules that a formula cannot repeat.
Up to 500 mm the values agree with open tables of the standard; above they are recalled and only held to the formulas.
"""

import numpy as np

from engine.numerics import Array, Floats, as_arrays
from engine.sources import ISO_286_1, ISO_286_2, cited

_MICROMETRE = 1e3
#: Upper ends of the steps of nominal size [mm]: for tolerances, and the finer ones for the deviations of r and s.
STEPS = (3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150)
FINE_STEPS = (
    *(3, 6, 10, 18, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450, 500),
    *(560, 630, 710, 800, 900, 1000, 1120, 1250, 1400, 1600, 1800, 2000, 2240, 2500, 2800, 3150),
)
#: Up to this size [mm] there are j, J and the extra amount Delta of the holes K to S.
_DELTA_UP_TO = 500
GREATEST = STEPS[-1]

# standard tolerances [um], one column a step
IT = {
    4: (3, 4, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20, 22, 25, 28, 33, 39, 46, 55, 68),
    5: (4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27, 32, 36, 40, 47, 55, 65, 78, 96),
    6: (6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40, 44, 50, 56, 66, 78, 92, 110, 135),
    7: (10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63, 70, 80, 90, 105, 125, 150, 175, 210),
    8: (14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97, 110, 125, 140, 165, 195, 230, 280, 330),
}
# fundamental deviations of shafts [um]: upper ones (es) of d to g, lower ones (ei) of k to p, one column a step
DEVIATION = {
    "d": (-20, -30, -40, -50, -65, -80, -100, -120, -145, -170, -190, -210, -230,
          -260, -290, -320, -350, -390, -430, -480, -520),
    "e": (-14, -20, -25, -32, -40, -50, -60, -72, -85, -100, -110, -125, -135,
          -145, -160, -170, -195, -220, -240, -260, -290),
    "f": (-6, -10, -13, -16, -20, -25, -30, -36, -43, -50, -56, -62, -68, -76, -80, -86, -98, -110, -120, -130, -145),
    "g": (-2, -4, -5, -6, -7, -9, -10, -12, -14, -15, -17, -18, -20, -22, -24, -26, -28, -30, -32, -34, -38),
    "h": (0,) * 21,
    "k": (0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5, 0, 0, 0, 0, 0, 0, 0, 0),  # IT4 to IT7; otherwise 0
    "m": (2, 4, 6, 7, 8, 9, 11, 13, 15, 17, 20, 21, 23, 26, 30, 34, 40, 48, 58, 68, 76),
    "n": (4, 8, 10, 12, 15, 17, 20, 23, 27, 31, 34, 37, 40, 44, 50, 56, 66, 78, 92, 110, 135),
    "p": (6, 12, 15, 18, 22, 26, 32, 37, 43, 50, 56, 62, 68, 78, 88, 100, 120, 140, 170, 195, 240),
}  # fmt: skip
# the same of r and s, one column a fine step
FINE_DEVIATION = {
    "r": (10, 15, 19, 23, 28, 34, 34, 41, 43, 51, 54, 63, 65, 68, 77, 80, 84, 94, 98, 108, 114, 126, 132,
          150, 155, 175, 185, 210, 220, 250, 260, 300, 330, 370, 400, 440, 460, 550, 580),
    "s": (14, 19, 23, 28, 35, 43, 43, 53, 59, 71, 79, 92, 100, 108, 122, 130, 140, 158, 170, 190, 208, 232, 252,
          280, 310, 340, 380, 430, 470, 520, 580, 640, 720, 820, 920, 1000, 1100, 1250, 1400),
}  # fmt: skip
# lower deviations of the shafts j, upper ones of the holes J [um], up to 500 mm
J_SHAFT = {
    5: (-2, -2, -2, -3, -4, -5, -7, -9, -11, -13, -16, -18, -20),
    6: (-2, -2, -2, -3, -4, -5, -7, -9, -11, -13, -16, -18, -20),
    7: (-4, -4, -5, -6, -8, -10, -12, -15, -18, -21, -26, -28, -32),
}
J_HOLE = {
    6: (2, 5, 5, 6, 8, 10, 13, 16, 18, 22, 25, 29, 33),
    7: (4, 6, 8, 10, 12, 14, 18, 22, 26, 30, 36, 39, 43),
    8: (6, 10, 12, 15, 20, 24, 28, 34, 41, 47, 55, 60, 66),
}
#: The one upper deviation of a hole M6 that the printed table sets apart from its rule: over 250 up to 315 mm [um].
_M6_APART = -9

_LETTERS = ("d", "e", "f", "g", "h", "j", "js", "k", "m", "n", "p", "r", "s")
SHAFT_CLASSES = tuple(
    f"{letter}{grade}" for letter in _LETTERS for grade in range(4, 9) if letter != "j" or grade in J_SHAFT
)
HOLE_CLASSES = tuple(
    f"{letter.upper()}{grade}" for letter in _LETTERS for grade in range(5, 9) if letter != "j" or grade in J_HOLE
)


def _on_fine_steps(values: tuple[float, ...]) -> Floats:
    """Spread values of the coarse steps over the fine ones; NaN where the table ends."""
    row = np.full(len(STEPS), np.nan)
    row[: len(values)] = values
    return row[np.searchsorted(STEPS, FINE_STEPS)]


_IT = {grade: _on_fine_steps(values) for grade, values in IT.items()}
_DEVIATION = {letter: _on_fine_steps(values) for letter, values in DEVIATION.items()} | {
    letter: np.asarray(values, dtype=np.float64) for letter, values in FINE_DEVIATION.items()
}
_FINE = np.asarray(FINE_STEPS, dtype=np.float64)


def _shaft_row(letter: str, grade: int) -> tuple[Floats, Floats]:
    """Return upper and lower limit deviations [um] of a shaft class, one for each fine step."""
    width = _IT[grade]
    if letter == "js":
        return width / 2, -width / 2
    if letter == "j":
        lower = _on_fine_steps(J_SHAFT[grade])
        return lower + width, lower
    deviation = _DEVIATION[letter]
    if letter in "defgh":
        return deviation, deviation - width
    if letter == "k" and grade > 7:
        deviation = np.zeros_like(deviation)
    return deviation + width, deviation


def _hole_row(letter: str, grade: int) -> tuple[Floats, Floats]:
    """Return upper and lower limit deviations [um] of a hole class, one for each fine step."""
    width = _IT[grade]
    if letter in "DEFGH":
        lower = -_DEVIATION[letter.lower()]
        return lower + width, lower
    if letter == "JS":
        return width / 2, -width / 2
    if letter == "J":
        upper = _on_fine_steps(J_HOLE[grade])
        return upper, upper - width
    # ES = -ei + Delta for K, M, N up to IT8 and P to S up to IT7, over 3 up to 500 mm
    with_delta = (_FINE > 3) & (_FINE <= _DELTA_UP_TO) & ((letter in "KMN") | (grade <= 7))
    upper = -_DEVIATION[letter.lower()] + np.where(with_delta, width - _IT[grade - 1], 0.0)
    if (letter, grade) == ("M", 6):
        upper = np.where((_FINE > 250) & (_FINE <= 315), _M6_APART, upper)
    return upper, upper - width


def _table(classes: tuple[str, ...], row: object) -> tuple[Floats, Floats]:
    """Return upper and lower limits [mm] of all classes, one row a class, one column a fine step, a last one NaN."""
    assert callable(row)
    rows = [row(name[:-1], int(name[-1])) for name in classes]
    ends = [np.array([pair[end] for pair in rows]) / _MICROMETRE for end in (0, 1)]
    beyond = np.full((len(classes), 1), np.nan)
    return np.hstack([ends[0], beyond]), np.hstack([ends[1], beyond])


_SHAFTS = _table(SHAFT_CLASSES, _shaft_row)
_HOLES = _table(HOLE_CLASSES, _hole_row)
_TOLERANCES = np.array([[*_IT[grade], np.nan] for grade in sorted(_IT)]) / _MICROMETRE


def shaft_code(name: str) -> int:
    """Return the number of a shaft class such as "m6", or -1 where it is not among SHAFT_CLASSES."""
    return SHAFT_CLASSES.index(name) if name in SHAFT_CLASSES else -1


def hole_code(name: str) -> int:
    """Return the number of a hole class such as "H7", or -1 where it is not among HOLE_CLASSES."""
    return HOLE_CLASSES.index(name) if name in HOLE_CLASSES else -1


def _step(size: Floats) -> Floats:
    """Return the fine step that a size lies in; the place after the last where it lies in none."""
    inside = (size > 0) & (size <= GREATEST)
    return np.where(inside, np.searchsorted(_FINE, size), len(FINE_STEPS))


def _looked_up(table: tuple[Floats, Floats], size: Array, code: Array) -> tuple[Floats, Floats]:
    (size,), code = as_arrays(size), np.asarray(code, dtype=np.int64)
    known = (code >= 0) & (code < len(table[0]))
    place = np.where(known, code, 0), np.where(known, _step(size), len(FINE_STEPS))
    return np.asarray(table[0][place]), np.asarray(table[1][place])


@cited(ISO_286_2, "limit deviations of shafts")
def shaft_limits(size: Array, code: Array) -> tuple[Floats, Floats]:
    """Upper and lower limit deviation of a shaft, or of anything with an outside fit.

    es and ei as printed; for d to h es is the fundamental deviation and ei = es - IT, for k to s ei is it and
    es = ei + IT, js lies at +IT/2 and -IT/2

    Parameters (any broadcastable shapes)
    ----------
    size : nominal diameter [mm]
    code : place of the class in SHAFT_CLASSES, as given by shaft_code [-]

    Returns
    -------
    es, ei [mm]

    Valid for 0 < size <= 3150 mm (j up to 500 mm) and known classes; NaN outside.

    Source: ISO 286-2:2010, limit deviations of shafts; to 500 mm equal to open tables of the standard, above recalled.
    """
    return _looked_up(_SHAFTS, size, code)


@cited(ISO_286_2, "limit deviations of holes")
def hole_limits(size: Array, code: Array) -> tuple[Floats, Floats]:
    """Upper and lower limit deviation of a hole.

    ES and EI as printed; D to H mirror the shafts, for K, M, N up to IT8 and P to S up to IT7 ES = -ei + Delta
    with Delta = IT(n) - IT(n-1), over 3 up to 500 mm

    Parameters (any broadcastable shapes)
    ----------
    size : nominal diameter [mm]
    code : place of the class in HOLE_CLASSES, as given by hole_code [-]

    Returns
    -------
    ES, EI [mm]

    Valid for 0 < size <= 3150 mm (J up to 500 mm) and known classes; NaN outside.

    Source: ISO 286-2:2010, limit deviations of holes; to 500 mm equal to open tables of the standard, above recalled.
    """
    return _looked_up(_HOLES, size, code)


@cited(ISO_286_1, "standard tolerance grades, table")
def standard_tolerance_IT(size: Array, grade: Array) -> Floats:
    """Width of a tolerance zone by its grade, as printed.

    IT4 to IT8 of the table

    Parameters (any broadcastable shapes)
    ----------
    size : nominal diameter [mm]
    grade : number of the grade, 4 to 8 [-]

    Returns
    -------
    IT [mm]

    Valid for 0 < size <= 3150 mm and whole grades 4 to 8; NaN outside.

    Source: ISO 286-1:2010, standard tolerance grades, table; to 500 mm equal to open tables of the standard (IT4 to
    400 mm; IT4 above that and all above 500 mm recalled).
    """
    size, grade = as_arrays(size, grade)
    row = grade - min(IT)
    known = (row >= 0) & (row < len(_TOLERANCES)) & (row == np.floor(row))
    return np.asarray(_TOLERANCES[np.where(known, row, 0).astype(np.intp), np.where(known, _step(size), -1)])
