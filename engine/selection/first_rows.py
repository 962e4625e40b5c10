"""Some pairs that pass, long before all of them are known: something to look at while the search runs."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from engine.checks import every, pair
from engine.numerics import Floats, Rows
from engine.selection.rank import Shortlist, of_rows
from engine.selection.screen import Field, by_exact_only, exact
from engine.selection.stages.blocks import Cancelled, at_once, go_on, never

#: So many pairs are looked at, lightest first, and so many pieces of them are computed, before it is given up.
MOST_LOOKED_AT = 2_000_000
MOST_PIECES = 12
#: The first piece is this part of the largest; each next one is twice as large.
FIRST_PIECE = 16


def first_rows(field: Field, most: int = 20, cancelled: Cancelled = never) -> Shortlist:
    """Return up to `most` passing pairs among the lightest, by mass; the full list may hold lighter ones.

    The parts come from `screen.narrow`. Pairs that by their bounds are likely to pass are computed first to last by
    mass, so each row is exact. Raises SearchCancelled.
    """
    i, j = _passing(field, most, cancelled)
    A, B, conditions = field.A.rows[i], field.B.rows[j], field.conditions
    if len(A) > most:  # those as heavy as the last one are kept: their order is decided by size
        mass = field.catalogue.mass[A] + field.catalogue.mass[B]
        kept = ~(mass > np.partition(mass, most - 1)[most - 1])
        A, B = A[kept], B[kept]
    return of_rows(field.catalogue, A, B, conditions, "mass", most)


def _passing(field: Field, most: int, cancelled: Cancelled) -> tuple[Rows, Rows]:
    conditions = field.conditions
    found_i, found_j, many = [np.zeros(0, dtype=np.intp)], [np.zeros(0, dtype=np.intp)], 0
    largest = at_once(len(conditions.cases))
    # most of those that are likely do pass, so that a few of them are often enough
    piece, computed = max(largest // FIRST_PIECE, most), 0
    for i, j in _lightest(field, largest):
        at = 0
        while at < len(i):
            go_on(cancelled)
            some_i, some_j = i[at : at + piece], j[at : at + piece]
            at, piece = at + piece, min(2 * piece, largest)
            computed += len(some_i) if conditions.resolved.loads_known else 0
            if conditions.resolved.loads_known:
                passes = exact(field.A.bearings(some_i), field.B.bearings(some_j), conditions)
                some_i, some_j = some_i[passes], some_j[passes]
                if every.EXACT_ONLY and len(some_i):
                    passes = by_exact_only(field.A, field.B, some_i[:most], some_j[:most], cancelled)
                    some_i, some_j = some_i[:most][passes], some_j[:most][passes]
            found_i.append(some_i)
            found_j.append(some_j)
            many += len(some_i)
            if many >= most or computed >= MOST_PIECES * largest:
                return np.concatenate(found_i), np.concatenate(found_j)
    return np.concatenate(found_i), np.concatenate(found_j)


def _lightest(field: Field, piece: int) -> Iterator[tuple[Rows, Rows]]:
    """Walk pairs by rising mass in ever larger helpings, without those that are not likely to pass."""
    mass = [np.nan_to_num(field.catalogue.mass[side.rows], nan=np.inf) for side in (field.A, field.B)]
    by_mass = [np.argsort(one, kind="stable") for one in mass]
    light = [one[order] for one, order in zip(mass, by_mass, strict=True)]
    resolved, below, looked_at = field.conditions.resolved, -np.inf, 0
    wanted = piece
    while len(light[0]) and len(light[1]) and looked_at < MOST_LOOKED_AT:
        limit = _limit(light, wanted)
        i, j = _between(light, below, limit)
        looked_at += len(i)
        order = np.argsort(light[0][i] + light[1][j], kind="stable")
        i, j = by_mass[0][i[order]], by_mass[1][j[order]]
        likely = np.ones(len(i), dtype=bool)
        if field.guesses is not None and field.pairs > MOST_PIECES * piece:  # else all of them can be computed
            likely &= field.guesses[0][i] + field.guesses[1][j] <= 1.0
        likely &= pair.keep_sums(field.catalogue, field.A.rows[i], field.B.rows[j], resolved)
        if resolved.same_on_both_sides:
            likely &= i == j
        yield i[likely], j[likely]
        if limit == np.inf:
            return
        below, wanted = limit, wanted * 4


def _limit(light: list[Floats], wanted: int) -> float:
    """Return a mass below which about so many pairs lie; infinite where there are no more."""
    if len(light[0]) * len(light[1]) <= wanted:
        return float("inf")
    low, high = float(light[0][0] + light[1][0]), float(light[0][-1] + light[1][-1])
    if not np.isfinite(high):
        return float("inf")
    for _ in range(40):
        middle = (low + high) / 2
        if np.searchsorted(light[1], middle - light[0], side="right").sum() <= wanted:
            low = middle
        else:
            high = middle
    return high


def _between(light: list[Floats], below: float, limit: float) -> tuple[Rows, Rows]:
    """Return the pairs, as places in the sorted sides, that are heavier than `below` and not heavier than `limit`."""
    first = np.searchsorted(light[1], below - light[0], side="right")
    last = np.searchsorted(light[1], limit - light[0], side="right")
    count = np.maximum(last - first, 0)
    i = np.repeat(np.arange(len(count)), count)
    # 0, 1, 2, ... within each row of pairs, counted from the row's first
    within = np.arange(len(i)) - np.repeat(np.cumsum(count) - count, count)
    return i, first[i] + within
