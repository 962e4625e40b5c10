"""What is computed of the rows of a catalogue and asked for again, kept with them.

Each catalogue keeps its own: a search that looks at thousands of pairs, each a catalogue of its own for a moment, does
not push out what is known of all rows.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, wraps
from typing import TYPE_CHECKING, Concatenate, ParamSpec, TypeVar
from weakref import WeakKeyDictionary, ref

if TYPE_CHECKING:
    from engine.catalogue.columns import Catalogue

Found = TypeVar("Found")
Asked = ParamSpec("Asked")
OfRows = Callable[Concatenate["Catalogue", Asked], Found]


def kept_with_rows(most: int) -> Callable[[OfRows[Asked, Found]], OfRows[Asked, Found]]:
    """Decorate a function of a catalogue and of what is asked of it: the last `most` answers go when the rows go.

    What it returns must not hold the rows themselves.
    """

    def decorate(function: OfRows[Asked, Found]) -> OfRows[Asked, Found]:
        kept: WeakKeyDictionary[Catalogue, Callable[Asked, Found]] = WeakKeyDictionary()

        @wraps(function)
        def found(rows: Catalogue, /, *asked: Asked.args, **named: Asked.kwargs) -> Found:
            own = kept.get(rows)
            if own is None:
                own = kept[rows] = _remembering(function, rows, most)
            return own(*asked, **named)

        return found

    return decorate


def _remembering(function: OfRows[Asked, Found], rows: Catalogue, most: int) -> Callable[Asked, Found]:
    # a weak reference: what is kept with the rows must not keep them
    these = ref(rows)

    @lru_cache(maxsize=most)
    def of(*asked: Asked.args, **named: Asked.kwargs) -> Found:
        there = these()
        assert there is not None  # who asks holds them
        return function(there, *asked, **named)

    return of  # type: ignore[return-value]
