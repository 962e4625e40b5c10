"""Long work in pieces: small enough for the processor's cache, cancellable between two of them, with its progress told.

Every array of the engine is as wide as there are load cases, so a piece of work is the shorter the more cases there
are, and memory does not grow with them.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextvars import copy_context
from functools import cache
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from concurrent.futures import Executor

T = TypeVar("T")

#: Numbers in one array of a piece of work.
ELEMENTS = 131_072

#: More processors than this are left to others.
MOST_AT_ONCE = 4

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


def go_on(cancelled: Cancelled) -> None:
    """Raise SearchCancelled when asked to stop."""
    if cancelled():
        raise SearchCancelled


def blocks(n: int, width: int, cancelled: Cancelled = never) -> Iterator[slice]:
    """Walk n rows, each `width` numbers wide, a piece at a time; raise SearchCancelled when asked to stop."""
    step = at_once(width)
    for start in range(0, n, step):
        go_on(cancelled)
        yield slice(start, min(start + step, n))


def in_blocks(work: Callable[[slice], T], n: int, width: int, cancelled: Cancelled = never) -> list[T]:
    """Return what `work` makes of each piece, in their order; raise SearchCancelled when asked to stop.

    The pieces are shared out among the processors: numpy lets others run while it computes. `work` must not hang on
    anything that another piece changes, so that the results do not hang on who computed them.
    """
    pieces = list(blocks(n, width, cancelled))
    if len(pieces) < 2 or _processors() < 2:
        return [_unless(cancelled, work, piece) for piece in pieces]
    # the pieces keep what the caller wants of numpy's warnings, which belongs to its context
    running = [_pool().submit(copy_context().run, _unless, cancelled, work, piece) for piece in pieces]
    try:
        return [one.result() for one in running]
    finally:
        for one in running:
            one.cancel()


def _unless(cancelled: Cancelled, work: Callable[[slice], T], piece: slice) -> T:
    go_on(cancelled)
    return work(piece)


@cache
def _processors() -> int:
    return min(MOST_AT_ONCE, len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1)


@cache
def _pool() -> Executor:
    from concurrent.futures import ThreadPoolExecutor

    return ThreadPoolExecutor(_processors(), thread_name_prefix="pairs")
