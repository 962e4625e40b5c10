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
    passes, edge, life = np.zeros((n, n), dtype=bool), np.zeros((n, n), dtype=bool), np.zeros((n, n))
    rows, parts = rows_of(catalogue), [one_part.stays(catalogue, side, resolved) for side in "AB"]
    mass = [(2 if resolved.locating else 1) * float(one) for one in catalogue.mass]
    for i, (stays_A, margin_A) in enumerate(parts[0]):
        for j, (stays_B, margin_B) in enumerate(parts[1]):
            edge[i, j] = min(margin_A, margin_B) <= near
            if stays_A and stays_B and not (resolved.mass is not None and mass[i] + mass[j] > resolved.mass):
                passes[i, j], margin, life[i, j] = one_pair.judged(rows[i], rows[j], resolved, nu, duty.a1)
                edge[i, j] |= margin <= near
    return passes, life, edge


def ordered(catalogue, passes, life, by):
    """Return the pairs (i, j) in the order of a list, by plain sorting."""

    def key(pair):
        i, j = pair
        mass = catalogue.mass[i] + catalogue.mass[j]
        size = (catalogue.D[i] + catalogue.D[j], catalogue.T[i] + catalogue.T[j])
        return {"mass": (mass, *size), "size": (*size, mass), "life": (-life[i, j], mass)}[by] + pair

    return sorted(zip(*(at.tolist() for at in np.nonzero(passes)), strict=True), key=key)
