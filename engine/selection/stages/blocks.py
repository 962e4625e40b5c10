"""Long work in pieces: small enough for the processor's cache, cancellable between two of them, with its progress told.

Every array of the engine is as wide as there are load cases, so a piece of work is the shorter the more cases there
are, and memory does not grow with them.
"""

from collections.abc import Callable, Iterator

#: Numbers in one array of a piece of work.
ELEMENTS = 131_072

Cancelled = Callable[[], bool]
#: Called with what is being done and the share of it that is done, from 0 to 1.
Progress = Callable[[str, float], None]


class SearchCancelled(Exception):  # noqa: N818 - not an error
    """The search was asked to stop."""


def never() -> bool:
    """Return that nobody asked to stop."""
    return False


def untold(_what: str, _share: float) -> None:
    """Tell no one."""


def at_once(width: int) -> int:
    """Return how many rows of that many numbers make a piece of work."""
    return max(ELEMENTS // max(width, 1), 16)


def blocks(n: int, width: int, cancelled: Cancelled = never) -> Iterator[slice]:
    """Walk n rows, each `width` numbers wide, a piece at a time; raise SearchCancelled when asked to stop."""
    step = at_once(width)
    for start in range(0, n, step):
        if cancelled():
            raise SearchCancelled
        yield slice(start, min(start + step, n))
