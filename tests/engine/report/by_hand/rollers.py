"""Both bearings on their rollers, redone: ISO/TS 16281 and ISO 16281 from the printed sizes, loads and settings.

The model is the one that the report spells out under "Rollers, film and friction"; Newton's method finds where the
shaft rests.
"""

import math
from functools import cache

import numpy as np

from tests.engine.report.by_hand.loads import A1, ALPHA, CU, Z_A, Z_B, C, a_iso, force, of_both, over_cases
from tests.engine.report.by_hand.oil import DPW, DWE, E_C, KAPPA, LWE, Z
from tests.engine.report.by_hand.printed import CASES, SHARES, SPEEDS, answer, assumed, number, taken

NS = int(taken("ns")[0])
NU = [math.radians(one) for one in taken("nu (beta)")]
XI = (2 * np.arange(1, NS + 1) - NS - 1) / NS
ASKEW = math.radians(number(assumed("Cups askew by")))
MIDDLE = (Z_A + Z_B) / 2
#: Back to back: a thrust towards B loads A.
SENSE = (1.0, -1.0)
G = taken("G,")[0]
GRID = np.linspace(-G, G, 49)
#: Share of the load of a lamina near its ends, ISO/TS 16281, equation (60).
EDGE = 1 - 0.01 / np.log(1.985 * np.abs(2 * np.arange(1, NS + 1) - NS - 1) / (2 * NS - 2))


class Side:
    """The rollers of one bearing: how each lamina is approached per coordinate of the shaft, and from where."""

    def __init__(self, at, places=None):
        psi = 2 * np.pi * np.arange(Z[at]) / Z[at] if places is None else places
        c, s = np.cos(psi)[:, None], np.sin(psi)[:, None]
        one = np.ones((len(psi), NS))
        across, arm = math.cos(ALPHA[at]), (Z_A, Z_B)[at] - MIDDLE
        lean = -SENSE[at] * LWE[at] / 2 * XI
        self.ways = np.stack([
            across * c * one, across * s * one, SENSE[at] * math.sin(ALPHA[at]) * one,
            (across * arm + lean) * c * one, (across * arm + lean) * s * one,
        ], axis=-1)  # fmt: skip
        profile = 2 * 0.00045 * DWE[at] * np.log(1 / (1 - XI**2))
        # statics: the load in plane y, upwards on both; the cup askew in its direction
        self.free = lean * c * ASKEW - profile
        self.play = math.sin(ALPHA[at]) / 2
        self.spring = 35948 * LWE[at] ** (8 / 9) / NS

    def approach(self, q, setting):
        return np.maximum(self.ways @ q + self.free - self.play * setting, 0.0)

    def loads(self, q, setting):
        return self.spring * self.approach(q, setting) ** (10 / 9)


SIDES = (Side(0), Side(1))


def balance(q, setting, f):
    """Return what forces are left over, the stiffness, and the energy less the work of the loads."""
    left, K, energy = -f, np.zeros((5, 5)), -f @ q
    for side in SIDES:
        delta = side.approach(q, setting)
        left = left + np.einsum("jk,jkn->n", side.spring * delta ** (10 / 9), side.ways)
        K += np.einsum("jk,jkn,jkm->nm", 10 / 9 * side.spring * np.cbrt(np.cbrt(delta)), side.ways, side.ways)
        energy += 9 / 19 * side.spring * np.sum(delta ** (19 / 9))
    return left, K, energy


def rest(setting, f, q):
    """Return where the shaft rests, from a place near by: Newton's steps, halved while the energy does not fall."""
    for _ in range(60):
        left, K, energy = balance(q, setting, f)
        step = -np.linalg.solve(K + 1e-9 * np.diag(np.diag(K) + 1), left)
        share = 1.0
        while balance(q + share * step, setting, f)[2] > energy and share > 1e-6:
            share /= 2
        q = q + share * step
        if np.max(np.abs(left) / (np.abs(f).max() * np.array([1, 1, 1, 100, 100]))) < 1e-11:
            return q
    raise AssertionError(f"no rest at {setting}")


@cache
def places(case):
    """Return where the shaft rests at every setting of the curve, each sought from the one before."""
    F, M, K = force(case)
    f = np.array([F, 0.0, K, M - F * MIDDLE, 0.0])
    q, found = np.zeros(5), []
    for setting in GRID:
        q = rest(setting, f, q)
        found.append(q)
    return f, found


def at_setting(case, setting):
    """Return where the shaft rests at any setting of the range."""
    f, found = places(case)
    return rest(setting, f, found[int(np.searchsorted(GRID, setting)) - 1])


def carried(q, setting, at):
    """Return the radial and the axial load that the rollers of a side carry."""
    loads = SIDES[at].loads(q, setting)
    F = np.einsum("jk,jkn->n", loads, SIDES[at].ways)
    return math.hypot(F[0], F[1]), abs(F[2])


def life(q, setting, at, case):
    """Return basic and modified reference life in hours: ISO/TS 16281, (65), and ISO 16281, (31) and (33)."""
    loads = SIDES[at].loads(q, setting)
    assert answer("Speed", "Which ring turns").startswith("the cup")  # it turns against the load
    q_i = EDGE * np.mean(loads**4.5, axis=0) ** (1 / 4.5)
    q_e = EDGE * np.mean(loads**4, axis=0) ** (1 / 4)
    c_i, c_e = ratings(at)
    damage = (q_i / c_i) ** 4.5 + (q_e / c_e) ** 4.5
    ratio = 1.038 * c_i / c_e
    mean = (q_i**4.5 + (ratio * q_e) ** 4.5) / (1 + ratio**4.5)
    P = 0.323 * Z[at] * math.cos(ALPHA[at]) * NS * mean ** (2 / 9)
    factor = np.array([a_iso(KAPPA[case][at], E_C[case][at], CU[at], one) for one in P])
    hours = 1e6 / (60 * SPEEDS[case - 1])
    return np.sum(damage) ** (-8 / 9) * hours, A1 * np.sum(damage * factor ** (-9 / 8)) ** (-8 / 9) * hours


def ratings(at):
    """ISO/TS 16281, (47) to (57): rating of a lamina at cone and cup."""
    g = DWE[at] * math.cos(ALPHA[at]) / DPW[at]
    shape = 1.038 * ((1 - g) / (1 + g)) ** (143 / 108)
    whole = C[at] / (0.83 * Z[at] * math.cos(ALPHA[at])) * NS ** (-7 / 9)
    return whole / 0.378 * (1 + shape**4.5) ** (2 / 9), whole / 0.364 * (1 + shape**-4.5) ** (2 / 9)


def lives_at(setting, where):
    """Return basic and modified life of A and B over all cases, with the shaft at its place in each case."""
    each = {case: [life(q, setting, at, case) for at in (0, 1)] for case, q in zip(CASES, where, strict=True)}
    return tuple(over_cases([[each[case][at][kind] for at in (0, 1)] for case in CASES]) for kind in (0, 1))


def heat_at(setting, where):
    """Load-dependent friction of the pair in W, mean over time."""
    total = 0.0
    for q, n, share in zip(where, SPEEDS, SHARES, strict=True):
        for at in (0, 1):
            Fr, Fa = carried(q, setting, at)
            P1 = max(2 * 0.4 / math.tan(ALPHA[at]) * Fa, Fr)
            total += share * taken("f1")[at] * P1 * DPW[at] * math.pi * n / 30_000
    return total / sum(SHARES)


@cache
def curve():
    """Return life of the pair and heat at every setting of the curve."""
    both = list(zip(*(places(case)[1] for case in CASES), strict=True))
    lives = [of_both(lives_at(setting, where)[1]) for setting, where in zip(GRID, both, strict=True)]
    return np.array(lives), np.array([heat_at(setting, where) for setting, where in zip(GRID, both, strict=True)])


def pressures(loads, at):
    """Hertz: greatest pressure of lamina loads (..., NS) at the cone."""
    across = DWE[at] * math.cos(ALPHA[at] - NU[at])
    cone = 2 * math.cos(NU[at]) / DWE[at] + 2 * math.cos(ALPHA[at] - 2 * NU[at]) / (DPW[at] - across)
    grown = 1 + XI * LWE[at] / 2 * math.sin(ALPHA[at]) / ((DPW[at] + across) / 2)
    per_length = loads * math.cos(2 * NU[at]) * NS / LWE[at]
    return np.sqrt(per_length * 206_000 * cone / grown / (2 * math.pi * (1 - 0.3**2)))


def of_case(case, setting):
    """Return every figure of a case at a setting, by name."""
    q = at_setting(case, setting)
    found = []
    for at in (0, 1):
        loads = SIDES[at].loads(q, setting)
        rollers = loads.sum(axis=1)
        basic, modified = life(q, setting, at, case)
        ends = loads * EDGE[-1] * (np.abs(XI) == XI[-1])
        degrees = Side(at, np.radians(np.arange(360)))
        Fr, Fa = carried(q, setting, at)
        turns = basic * 60 * SPEEDS[case - 1] / 1e6
        found.append({
            "radial load carried by the rollers": Fr, "axial load carried by the rollers": Fa,
            "load zone": float(np.sum(degrees.approach(q, setting).max(axis=1) > 0)),
            "heaviest loaded roller": rollers.max(),
            "greatest force on the rib": rollers.max() * math.sin(2 * NU[at]),
            "greatest pressure": pressures(loads, at).max(),
            "pressure at the roller ends": pressures(ends, at).max(),
            "equal reference load": C[at] * turns**-0.3,
            "basic reference rating life": basic, "modified reference rating life": modified,
        })  # fmt: skip
    return {name: (found[0][name], found[1][name]) for name in found[0]}
