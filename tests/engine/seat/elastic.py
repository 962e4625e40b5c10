"""Rings of several materials by finite elements along the radius: an outside solution for the formulas of the seats.

Plane stress, linear elements, many of them; joints are the interference set between the facing nodes of two layers.
"""

import itertools

import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.linalg import spsolve

ELEMENTS = 3000


class Rings:
    """The solution: displacements and stresses at the middles of the elements, layer by layer."""

    def __init__(self, diameters, interferences, materials, n=0.0):
        omega = n * np.pi / 30
        self.layers = []
        rows, columns, values, load = [], [], [], []
        place = 0
        for (inner, outer), material in zip(itertools.pairwise(diameters), materials, strict=True):
            r = np.linspace(max(inner, 1e-3 * outer) / 2, outer / 2, ELEMENTS + 1)
            h, middle = np.diff(r), (r[1:] + r[:-1]) / 2
            factor = material.E / (1 - material.nu**2) * middle * h
            radial, tangential = np.stack([-1 / h, 1 / h], -1), np.stack([0.5 / middle, 0.5 / middle], -1)
            stiff = factor[:, None, None] * (
                _outer(radial, radial) + _outer(tangential, tangential)
                + material.nu * (_outer(radial, tangential) + _outer(tangential, radial))
            )  # fmt: skip
            nodes = place + np.stack([np.arange(ELEMENTS), np.arange(1, ELEMENTS + 1)], -1)
            rows.append(np.repeat(nodes, 2, axis=1).ravel())
            columns.append(np.tile(nodes, (1, 2)).ravel())
            values.append(stiff.reshape(ELEMENTS, -1).ravel())
            force = material.rho * 1e-12 * omega**2 * middle**2 * h / 2
            load.append(np.bincount(np.r_[nodes[:, 0], nodes[:, 1]] - place, np.r_[force, force]))
            self.layers.append((nodes, radial, tangential, material))
            place += ELEMENTS + 1
        size = place
        K = coo_matrix((np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))), (size, size)).tocsr()
        # the first node of a layer stands half the interference outside the last node of the layer below: it is
        # taken out, and both share their equation
        kept = np.ones(size, dtype=bool)
        owner = np.arange(size)
        offset = np.zeros(size)
        for joint, delta in enumerate(interferences, start=1):
            first = joint * (ELEMENTS + 1)
            kept[first] = False
            owner[first] = first - 1
            offset[first] = delta / 2
        number = np.cumsum(kept) - 1
        T = coo_matrix((np.ones(size), (np.arange(size), number[owner])), (size, int(kept.sum()))).tocsr()
        self.u = T @ spsolve((T.T @ K @ T).tocsc(), T.T @ (np.concatenate(load) - K @ offset)) + offset

    def stress(self, layer):
        """Return radial and tangential stress from the inside of a layer to its outside."""
        nodes, radial, tangential, material = self.layers[layer]
        strain_r, strain_t = (np.sum(one * self.u[nodes], axis=-1) for one in (radial, tangential))
        factor = material.E / (1 - material.nu**2)
        return factor * (strain_r + material.nu * strain_t), factor * (strain_t + material.nu * strain_r)

    def change(self, layer, end):
        """Return by how much the diameter at the inside (0) or outside (-1) of a layer changes."""
        return 2 * self.u[self.layers[layer][0].ravel()[end]]


def _outer(a, b):
    return a[:, :, None] * b[:, None, :]
