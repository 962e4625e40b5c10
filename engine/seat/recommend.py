"""Shaft and housing classes that suit a duty: by how the load goes round, its level, size, housing and mounting.

All of it is practice after DIN 5425-1, recalled. What a class does is computed elsewhere; this is where to begin.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from engine.numerics import Array, as_arrays
from engine.seat import iso286
from engine.sources import COMMON_PRACTICE, DIN_5425_1, cited

#: How a load goes round a ring: it stands still relative to it, goes round it, or cannot be said.
POINT, CIRCUMFERENTIAL, INDETERMINATE = "point", "circumferential", "indeterminate"
LEVELS = ("light", "normal", "heavy", "heavy with shock")
#: P/C up to which a load is light and normal; common practice, no source.
LIGHT_UP_TO, NORMAL_UP_TO = 0.07, 0.15
#: Letters from loose to tight, at IT6 on shafts and IT7 in housings; a precise bearing gets one grade finer.
SHAFT_LETTERS = ("g", "h", "j", "k", "m", "n", "p", "r")
HOUSING_LETTERS = ("G", "H", "J", "K", "M", "N", "P")
#: A hollow shaft counts as thin above this ratio of its bore to its diameter; a housing of any metal below this ratio
#: of its outside diameter to its bore; common practice, no source.
THIN_SHAFT_ABOVE, THIN_HOUSING_BELOW = 0.5, 1.4
#: Bores up to which the letters of a level hold [mm]: the letter, then the next tighter one, and so on.
_SHAFT_BY_LEVEL = {
    "light": ("j", (40.0, 140.0)),
    "normal": ("m", (100.0,)),
    "heavy": ("n", (100.0, 200.0)),
    "heavy with shock": ("p", (140.0,)),
}
_HOUSING_BY_LEVEL = {"light": "M", "normal": "N", "heavy": "N", "heavy with shock": "P"}

Codes = NDArray[np.int64]


@dataclass(frozen=True)
class Need:
    """What the choice of a class asks of a duty for one ring.

    `displaced`: the ring must slide on its seat, since it is adjusted or must give way to heat. `yielding`: the shaft
    is hollow and thin, or the housing thin or of aluminium. `split`: the housing is split.
    """

    load: str = CIRCUMFERENTIAL
    level: str = "normal"
    displaced: bool = False
    yielding: bool = False
    split: bool = False


def ring_loads(rotating_ring: str, load_direction: str) -> tuple[str, str]:
    """Return how the load goes round cone and cup.

    `rotating_ring` is cone or cup; `load_direction` is fixed (in space), with_cone, with_cup or indeterminate. A ring
    that turns under a fixed load, or against which the load turns, sees it go round.
    """
    if load_direction == "indeterminate":
        return INDETERMINATE, INDETERMINATE
    round_the_cone = rotating_ring == "cone" if load_direction == "fixed" else load_direction == "with_cup"
    return (CIRCUMFERENTIAL, POINT) if round_the_cone else (POINT, CIRCUMFERENTIAL)


@cited(COMMON_PRACTICE, "load level by P/C")
def load_level(P: Array, C: Array, shock: ArrayLike = False) -> NDArray[np.int64]:
    """Place in LEVELS of a load.

    light up to P/C = 0.07, normal up to 0.15, heavy above, heavy with shock there under heavy shock

    Parameters (any broadcastable shapes)
    ----------
    P : equivalent dynamic load [N]
    C : basic dynamic load rating [N]
    shock : whether the machine hits hard, true or false [-]

    Returns
    -------
    0 light, 1 normal, 2 heavy, 3 heavy with shock [-]

    Valid for roller bearings; an unknown ratio counts as heavy.

    Source: Common practice, load level by P/C; rule of the trade, no source.
    """
    P, C = as_arrays(P, C)
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = P / C
    return np.where(ratio <= LIGHT_UP_TO, 0, np.where(ratio <= NORMAL_UP_TO, 1, 2 + np.asarray(shock, dtype=np.int64)))


@cited(DIN_5425_1, "shaft classes")
def shaft_class(d: Array, need: Need, precise: ArrayLike = False) -> Codes:
    """Shaft class that suits a duty, as its place in SHAFT_CLASSES of ISO 286.

    point load: g6 where the cone must slide, else h6; circumferential: light j6 (to 40 mm) k6 (to 140) m6, normal m6
    (to 100) n6, heavy n6 (to 100) p6 (to 200) r6, with shock p6 (to 140) r6; one letter tighter on a thin hollow
    shaft; indeterminate: as circumferential; a cone that must slide although the load goes round it gets j6 at the
    most; IT5 for precise bearings

    Parameters (any broadcastable shapes)
    ----------
    d : bore diameter [mm]
    need : what the duty asks of the seat [-]
    precise : whether the bearing is of a precise class, true or false [-]

    Returns
    -------
    place of the class, -1 where there is none [-]

    Valid for 3 < d <= 3150 mm.

    Source: DIN 5425-1, shaft classes; recalled, to be verified against the standard.
    """
    (d,) = as_arrays(d)
    if need.load == POINT:
        letters = np.full(d.shape, SHAFT_LETTERS.index("g" if need.displaced else "h"))
    else:
        first, bounds = _SHAFT_BY_LEVEL[need.level]
        # one letter tighter for each bound that the bore is over
        letters = SHAFT_LETTERS.index(first) + np.searchsorted(bounds, d) + int(need.yielding)
        if need.displaced:
            letters = np.minimum(letters, SHAFT_LETTERS.index("j"))
    codes = np.array([[iso286.shaft_code(f"{letter}{grade}") for letter in SHAFT_LETTERS] for grade in (6, 5)])
    chosen = codes[np.asarray(precise, dtype=np.int64), np.minimum(letters, len(SHAFT_LETTERS) - 1)]
    inside = (d > 3) & (d <= iso286.GREATEST)
    return np.where(inside, chosen, -1)


@cited(DIN_5425_1, "housing classes")
def housing_class(D: Array, need: Need, precise: ArrayLike = False) -> Codes:
    """Housing class that suits a duty, as its place in HOLE_CLASSES of ISO 286.

    point load: H7 where the cup must slide or the housing is split, else J7; circumferential: light M7, normal
    and heavy N7, with shock P7; one letter tighter in a thin or aluminium housing; indeterminate: K7, tighter there
    too; a cup that must slide although the load goes round it gets J7 at the most, as does one in a
    split housing; IT6 for precise bearings

    Parameters (any broadcastable shapes)
    ----------
    D : outside diameter of the cup [mm]
    need : what the duty asks of the seat [-]
    precise : whether the bearing is of a precise class, true or false [-]

    Returns
    -------
    place of the class, -1 where there is none [-]

    Valid for 3 < D <= 3150 mm; J only up to 500 mm, above it gives way to JS. Some tables begin with K7 under a light
    load that goes round; its mean leaves play, in which a cup creeps, so that those that begin with M7 are kept to.
    That a load that goes round begins with M7 is common practice, no source: DIN 5425-1 is recalled with K7 there.

    Source: DIN 5425-1, housing classes; recalled, to be verified against the standard.
    """
    (D,) = as_arrays(D)
    if need.load == POINT:
        letter = HOUSING_LETTERS.index("H" if need.displaced or need.split else "J")
    else:
        letter = HOUSING_LETTERS.index("K" if need.load == INDETERMINATE else _HOUSING_BY_LEVEL[need.level])
        letter = min(letter + int(need.yielding), len(HOUSING_LETTERS) - 1)
        if need.displaced or need.split:
            letter = min(letter, HOUSING_LETTERS.index("J"))
    names = [HOUSING_LETTERS[letter], "JS" if HOUSING_LETTERS[letter] == "J" else HOUSING_LETTERS[letter]]
    codes = np.array([[iso286.hole_code(f"{name}{grade}") for name in names] for grade in (7, 6)])
    chosen = codes[np.asarray(precise, dtype=np.int64), (D > 500.0).astype(np.int64)]
    inside = (D > 3) & (D <= iso286.GREATEST)
    return np.where(inside, chosen, -1)
