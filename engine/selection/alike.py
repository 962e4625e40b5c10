"""Parts like one at hand, but different in one respect: steeper, wider, of the other system."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from engine.numerics import Bools, Rows

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

#: Differences smaller than this share are none: sizes of the two systems and printed angles come that close.
SAME = 0.005

_Differs = Callable[["Catalogue", int], Bools]


def _more(name: str) -> _Differs:
    return lambda rows, row: getattr(rows, name) > getattr(rows, name)[row] * (1 + SAME)


def _less(name: str) -> _Differs:
    return lambda rows, row: getattr(rows, name) < getattr(rows, name)[row] * (1 - SAME)


def _other(name: str) -> _Differs:
    return lambda rows, row: getattr(rows, name) != getattr(rows, name)[row]


#: What can be asked for, and the column that may differ freely then.
BUT: dict[str, tuple[str, _Differs]] = {
    "steeper": ("alpha", _more("alpha")),
    "shallower": ("alpha", _less("alpha")),
    "wider": ("T", _more("T")),
    "narrower": ("T", _less("T")),
    "larger outside": ("D", _more("D")),
    "smaller outside": ("D", _less("D")),
    "larger bore": ("d", _more("d")),
    "smaller bore": ("d", _less("d")),
    "of the other system": ("system", _other("system")),
    "of the other steel": ("steel", _other("steel")),
    "with the other profile": ("profile", _other("profile")),
}
_NEAR = ("d", "D", "T", "alpha")


def alike(catalogue: Catalogue, row: int, but: str, most: int = 10) -> Rows:
    """Return the rows most like a row that differ from it as asked, most alike first.

    `but` is one of BUT. Likeness is the sum of the relative differences in bore, outside diameter, width and contact
    angle; the bore counts four times, since it is the shaft's. Of equally like ones the earlier row comes first.
    """
    different = np.flatnonzero(BUT[but][1](catalogue, row))
    away = np.zeros(len(different))
    for name in _NEAR:
        column = getattr(catalogue, name)
        away += (4.0 if name == "d" else 1.0) * np.abs(np.log(column[different] / column[row]))
    return np.asarray(different[np.argsort(away, kind="stable")][:most])
