"""The film between two elastic cylinders by numbers: Reynolds' equation and the elastic gap, solved together.

Nothing of the engine is in here, and no film formula: only the two equations themselves, in the dimensionless form of
the textbooks (lengths over the Hertzian half width b, pressures over the Hertzian one, gaps over b^2/R), with the
viscosity by Roelands and the density by Dowson and Higginson. Reynolds' equation is integrated once, so that at each
face between two nodes stands what flows there, which is what leaves at the end of the film, where pressure and its
slope are nothing. Unknown are the pressures, the shift of the gap and where the film ends; Newton's method finds them.
"""

import json
import os
import subprocess
import sys

import numpy as np

from tests.house.tree import ROOT

#: Roelands: pressure [MPa] of the oil's law, and ln(eta/6.31e-5 Pa s) = ln eta + 9.67.
ROELANDS = 196.2
INLET = -4.0


class Contact:
    """One contact by its parameters U, G, W; E' [MPa], viscosity [mPa s]; `nodes` along the film."""

    def __init__(self, U, G, W, E=226.4e3, eta=40.0, nodes=121):
        self.nodes = nodes
        self.b = np.sqrt(8 * W / np.pi)  # over R
        self.p_Hertz = E * self.b / 4
        self.speed = 48 * U / self.b**4
        self.log_eta = np.log(eta * 1e-3) + 9.67
        self.z = G / E * ROELANDS / self.log_eta

    def gap_of_pressures(self, end):
        """Return the nodes, their distance, and the gap that a pressure of 1 at each node opens at each."""
        X, dX = np.linspace(INLET, end, self.nodes, retstep=True)
        away = np.arange(1 - self.nodes, self.nodes) * dX
        ends = [t * (np.log(np.abs(t)) - 1) for t in (away + dX / 2, away - dX / 2)]
        rows = np.arange(self.nodes)
        return X, dX, -(ends[0] - ends[1])[rows[:, None] - rows[None, :] + self.nodes - 1] / np.pi

    def oil(self, P):
        """Return 1/viscosity and density over those without pressure, each with its derivative."""
        p = P * self.p_Hertz
        q = np.maximum(1 + p / ROELANDS, 1e-6)
        thin = np.exp(-self.log_eta * (q**self.z - 1))
        slope = -thin * self.log_eta * self.z * q ** (self.z - 1) * self.p_Hertz / ROELANDS
        g = p * 1e-3
        return thin, slope, 1 + 0.6 * g / (1 + 1.7 * g), 0.6 / (1 + 1.7 * g) ** 2 * self.p_Hertz * 1e-3

    def equations(self, y, slopes=True):
        """Return what is left of flow and load, the derivatives of that, and the gap."""
        n, inner = self.nodes, y[:-2]
        P = np.concatenate(([0.0], inner, [0.0]))
        X, dX, A = self.gap_of_pressures(y[-1])
        H = y[-2] + X**2 / 2 + A @ P
        thin, d_thin, rho, d_rho = self.oil(P)
        ease, carried = rho * H**3 * thin / self.speed, rho * H
        behind = np.concatenate(([0], np.arange(n - 2)))
        at_faces, slope = (ease[1:] + ease[:-1]) / 2, np.diff(P) / dX
        left = np.append(
            at_faces * slope - (1.5 * carried[:-1] - 0.5 * carried[behind]) + carried[-1], P.sum() * dX - np.pi / 2
        )
        if not slopes:
            return left, H
        by_H = 3 * rho * H**2 * thin / self.speed
        d_ease = np.diag((d_rho * thin + rho * d_thin) * H**3 / self.speed) + by_H[:, None] * A
        d_carried, unit = np.diag(d_rho * H) + rho[:, None] * A, np.eye(n)
        by_P = (d_ease[1:] + d_ease[:-1]) / 2 * slope[:, None] + at_faces[:, None] * np.diff(unit, axis=0) / dX
        by_P += d_carried[-1] - (1.5 * d_carried[:-1] - 0.5 * d_carried[behind])
        J = np.zeros((n, n))
        J[:-1, :-2], J[-1, :-2] = by_P[:, 1:-1], dX
        J[:-1, -2] = (by_H[1:] + by_H[:-1]) / 2 * slope - (1.5 * rho[:-1] - 0.5 * rho[behind]) + rho[-1]
        moved = y.copy()
        moved[-1] += 1e-6
        J[:, -1] = (self.equations(moved, False)[0] - left) / 1e-6
        return left, J, H

    def solved(self, y, most):
        """Return pressures, shift and end from a first guess of them; None where Newton's method does not settle."""
        for _ in range(most):
            left, J, H = self.equations(y)
            step = np.linalg.solve(J, -left)
            share = min(1.0, 0.3 / abs(step[-1]), 0.5 / np.abs(step[:-2]).max())
            while share > 1e-4:
                then, gap = self.equations(y + share * step, False)
                if (
                    gap.min() > 0.1 * H.min()
                    and np.linalg.norm(then) <= (1 - 0.1 * share) * np.linalg.norm(left) + 1e-13
                ):
                    break
                share /= 2
            y = y + share * step
            if np.abs(step).max() < 1e-8:
                return y
        return None

    def least_gap(self, y):
        """Return the least film over the radius."""
        return float(self.equations(y, False)[1].min() * self.b**2)


def least_films(cases, nodes=121):
    """Return the least film over the radius of some (U, G, W), each found from the one before it by small steps."""
    easy = (1e-9, 1000.0, 2e-5)  # thick films settle from any guess
    first = np.sqrt(np.clip(1 - np.linspace(INLET, 1.15, nodes)[1:-1] ** 2, 0, None))
    y = Contact(*easy, nodes=nodes).solved(np.append(first, [0.3, 1.15]), 40)
    at, found = np.log(easy), []
    for case in cases:
        goal, share, step = np.log(case), 0.0, 0.5
        while share < 1:
            then = min(1.0, share + step)
            contact = Contact(*np.exp(at + (goal - at) * then), nodes=nodes)
            new = contact.solved(y, 14)
            if new is None:
                step /= 2
                assert step > 1e-3, case
                continue
            y, share, step = new, then, 1.5 * step
        at = goal
        found.append(contact.least_gap(y))
    return np.array(found)


def by_itself(*wanted):
    """Return `least_films` of some (cases, nodes), found by a process whose linear algebra is not split into threads.

    Equations of this size are solved in less time than threads wait for one another on a busy machine.
    """
    asked = json.dumps([[np.asarray(cases).tolist(), nodes] for cases, nodes in wanted])
    words = [sys.executable, "-m", __name__, asked]
    alone = os.environ | dict.fromkeys(("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"), "1")
    run = subprocess.run(words, env=alone, cwd=ROOT, capture_output=True, text=True, check=True, timeout=300)
    return [np.array(films) for films in json.loads(run.stdout)]


if __name__ == "__main__":
    print(json.dumps([least_films(cases, nodes).tolist() for cases, nodes in json.loads(sys.argv[1])]))
