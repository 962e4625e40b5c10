"""The whole matrix of pairs of a small catalogue by the second calculation: every row on A with every row on B."""

import numpy as np

from tests.engine.selection import one_pair, one_part

COLUMNS = ("a", "d", "D", "T", "alpha", "e", "Y", "Y0", "Cr", "C0r", "Cu", "Dpw", "max_temperature")


def rows_of(catalogue):
    """Return the rows of a catalogue as plain numbers."""
    return [{name: float(getattr(catalogue, name)[i]) for name in COLUMNS} for i in range(len(catalogue))]


def matrix(catalogue, duty, nu, near):
    """Return which pairs pass, how long they live [h], and which are nearer to a decision than `near`.

    What any part of a pair fails by itself, the pair fails, so no loads are computed for it.
    """
    n, resolved = len(catalogue), duty.resolved
    levels = range(4) if resolved.fits.level == "loads" and resolved.loads_known else [None]
    passes, edge, life = np.zeros((n, n), dtype=bool), np.zeros((n, n), dtype=bool), np.zeros((n, n))
    rows, parts = (
        rows_of(catalogue),
        [[one_part.stays(catalogue, side, resolved, level) for level in levels] for side in "AB"],
    )
    seats = [[one_part.seats(catalogue, side, resolved, level) for level in levels] for side in "AB"]
    mass = [(2 if resolved.locating else 1) * float(one) for one in catalogue.mass]
    for i, j in np.ndindex(n, n):
        each = [[at_level[row] for at_level in side] for side, row in zip(parts, (i, j), strict=True)]
        edge[i, j] = min(margin for side in each for _, margin in side) <= near
        if resolved.mass is not None and mass[i] + mass[j] > resolved.mass:
            continue
        if not all(any(stays for stays, _ in side) for side in each):
            continue
        passes[i, j], margin, life[i, j], loads, seen = one_pair.judged(rows[i], rows[j], resolved, nu, duty.a1)
        edge[i, j] |= margin <= near
        if not passes[i, j]:
            continue
        for side, at_levels, ratio, row, cases in zip(each, seats, loads, (i, j), seen, strict=True):
            level = level_of(ratio, resolved) if len(levels) > 1 else 0
            passes[i, j] &= side[level][0]
            if len(levels) > 1:
                edge[i, j] |= min(abs(ratio / 0.07 - 1), abs(ratio / 0.15 - 1)) <= near
            if cases:
                holds, margin = one_pair.hold(*at_levels[level][row], cases, resolved)
                passes[i, j] &= holds
                edge[i, j] |= margin <= near
    return passes, life, edge


def level_of(ratio, resolved):
    """Return the place of the load level of P/C: light, normal, heavy, heavy with shock (common practice)."""
    if ratio <= 0.15:
        return 0 if ratio <= 0.07 else 1
    return 3 if resolved.shock == "heavy" else 2


def ordered(catalogue, passes, life, by):
    """Return the pairs (i, j) in the order of a list, by plain sorting."""

    def key(pair):
        i, j = pair
        mass = catalogue.mass[i] + catalogue.mass[j]
        size = (catalogue.D[i] + catalogue.D[j], catalogue.T[i] + catalogue.T[j])
        return {"mass": (mass, *size), "size": (*size, mass), "life": (-life[i, j], mass)}[by] + pair

    return sorted(zip(*(at.tolist() for at in np.nonzero(passes)), strict=True), key=key)
