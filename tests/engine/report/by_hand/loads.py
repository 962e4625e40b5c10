"""Statics, ISO 281 and ISO 76: loads on both bearings, lives, safeties. Formulas typed from the standards named."""

import math

from tests.engine.report.by_hand.oil import E_C, KAPPA
from tests.engine.report.by_hand.printed import (
    CASES,
    LIFE,
    NAMES,
    SHARES,
    SPEEDS,
    answer,
    bearing,
    number,
    taken,
)  # fmt: skip

ALPHA = tuple(math.radians(angle) for angle in taken("alpha"))
Y, E, Y0 = bearing("axial load factor"), bearing("limiting ratio Fa/Fr"), bearing("static axial load factor")
C, C0, CU = (bearing(name) for name in ("basic dynamic rating", "basic static rating", "fatigue load limit"))
RELIABILITY = number(answer("Duty", "Reliability"))
#: ISO/TR 1281-2, clause 4.
A1 = 0.95 * (math.log(100 / RELIABILITY) / math.log(100 / 90)) ** (2 / 3) + 0.05
#: Back to back, distance between the cone back faces: each load centre lies a inboard of its back face.
Z_A, Z_B = bearing("load centre from cone back face")[0], (
    number(answer("Duty", "Distance between the bearings")) - bearing("load centre from cone back face")[1]
)  # fmt: skip


def stated(case):
    """Return factor, force in plane y, its position, and the thrust, positive towards B."""
    thrust = number(answer("Duty", "Axial force", case))
    towards = answer("Duty", "Axial force pushes the shaft", case)
    return (
        number(answer("Duty", "Application factor", case)), number(answer("Duty", "Radial force, plane y", case)),
        number(answer("Duty", "Position of the radial force", case)), thrust if towards == "towards B" else -thrust,
    )  # fmt: skip


def force(case):
    """Return force in plane y, its moment about z = 0, and thrust, in the case."""
    factor, F, z, K = stated(case)
    return factor * F, factor * F * z, factor * K


def loads(case):
    """Return Fr, S and Fa of A and B, by statics and the axial equilibrium of two adjusted bearings."""
    F, M, K = force(case)
    R_B = (M - F * Z_A) / (Z_B - Z_A)
    Fr = (abs(F - R_B), abs(R_B))
    S = tuple(load / (2 * factor) for load, factor in zip(Fr, Y, strict=True))
    # back to back: a thrust towards B is taken by A
    return Fr, S, (max(S[0], S[1] + K), max(S[1], S[0] - K))


def equivalent(case):
    """ISO 281, clause 7.3: P = Fr up to Fa/Fr = e, above it 0.4 Fr + Y Fa."""
    Fr, _, Fa = loads(case)
    return tuple(Fr[at] if Fa[at] / Fr[at] <= E[at] else 0.4 * Fr[at] + Y[at] * Fa[at] for at in (0, 1))


def static(case):
    """ISO 76, clause 7.3: the greater of Fr and 0.5 Fr + Y0 Fa."""
    Fr, _, Fa = loads(case)
    return tuple(max(Fr[at], 0.5 * Fr[at] + Y0[at] * Fa[at]) for at in (0, 1))


def a_iso(kappa, e_C, Cu, P):
    """ISO 281, clause 9.3.3.4, roller bearings, equation for kappa from 1 to 4."""
    assert 1.0 <= kappa <= 4.0
    left = 1 - (1.5859 - 1.2348 / kappa**0.071739) * (e_C * Cu / max(P, 1e-9)) ** 0.4
    return min(0.1 * left**-9.185, 50.0) if left > 0 else 50.0


def lives(case):
    """ISO 281, clauses 7.4 and 9.1: a_ISO, basic and modified life in hours, of A and B."""
    found = []
    for at, P in enumerate(equivalent(case)):
        factor = a_iso(KAPPA[case][at], E_C[case][at], CU[at], P)
        basic = (C[at] / P) ** (10 / 3) * 1e6 / (60 * SPEEDS[case - 1])
        found.append((factor, basic, A1 * factor * basic))
    return found


def over_cases(values):
    """Palmgren-Miner over the shares of time: values by case and side."""
    return tuple(1 / sum(q / value[at] for q, value in zip(SHARES, values, strict=True)) for at in (0, 1))


def of_both(lives_of):
    """ISO/TR 1281-1: life of two bearings as a system."""
    return sum(life ** (-9 / 8) for life in lives_of) ** (-8 / 9)


def bearings():
    """ISO 281, clauses 7.1 and 7.3, ISO 76 and geometry: what the catalogue rates the bearings by."""
    found = {}
    T, width, Dpw, Z = (bearing(name) for name in ("width", "cup width", "pitch diameter", "rollers"))
    Dwe, Lwe, nu = taken("Dwe"), taken("Lwe"), [math.radians(one) for one in taken("nu (beta)")]

    def both(name, of):
        found["Bearings", name] = (of(0), of(1))

    def rating(at):
        g = Dwe[at] * math.cos(ALPHA[at]) / Dpw[at]
        bracket = (1.04 * ((1 - g) / (1 + g)) ** (143 / 108)) ** 4.5
        f_c = 207.9 * 0.83 * g ** (2 / 9) * (1 - g) ** (29 / 27) / (1 + g) ** 0.25 * (1 + bracket) ** (-2 / 9)
        return 1.1 * f_c * (Lwe[at] * math.cos(ALPHA[at])) ** (7 / 9) * Z[at] ** 0.75 * Dwe[at] ** (29 / 27)

    def static_rating(at):
        seen = Dwe[at] * math.cos(ALPHA[at])
        return 44 * (1 - seen / Dpw[at]) * Z[at] * Lwe[at] * seen

    both("contact angle", lambda at: math.degrees(math.atan(E[at] / 1.5)))
    both("basic dynamic rating", rating)
    both("basic static rating", static_rating)
    both("fatigue load limit", lambda at: C0[at] / 8.2 * min(1.0, (100 / Dpw[at]) ** 0.3))
    both("limiting ratio Fa/Fr", lambda at: 1.5 * math.tan(ALPHA[at]))
    both("axial load factor", lambda at: 0.4 / math.tan(ALPHA[at]))
    both("static axial load factor", lambda at: 0.22 / math.tan(ALPHA[at]))
    across = [Dwe[at] * math.cos(ALPHA[at] - nu[at]) for at in (0, 1)]
    both("cone raceway diameter", lambda at: Dpw[at] - across[at])
    both("cup raceway diameter", lambda at: Dpw[at] + across[at])
    both("load centre from cone back face",
         lambda at: T[at] - width[at] / 2 - (Dpw[at] + across[at]) / 2 * math.tan(ALPHA[at]))  # fmt: skip
    return found


def pair():
    """Spread, spectrum, lives and safeties of the pair."""
    title = "The pair"
    basic, modified = (over_cases([[life[at] for life in lives(case)] for case in CASES]) for at in (1, 2))
    turns = [q * n for q, n in zip(SHARES, SPEEDS, strict=True)]
    mean = tuple(
        (sum(equivalent(case)[at] ** (10 / 3) * t for case, t in zip(CASES, turns, strict=True)) / sum(turns)) ** 0.3
        for at in (0, 1)
    )
    safety = tuple(C0[at] / max(static(case)[at] for case in CASES) for at in (0, 1))
    return {
        (title, "load centre along the shaft"): (Z_A, Z_B),
        (title, "effective spread"): (Z_B - Z_A,),
        (title, "reliability factor"): (A1,),
        (title, "mean speed"): (sum(turns) / sum(SHARES),),
        (title, "constant load that wears as all cases do"): mean,
        (title, "static safety, worst case"): safety,
        (title, "basic rating life over all cases"): basic,
        (title, "modified life over all cases"): modified,
        (title, "modified life of both as a system"): (of_both(modified),),
    }  # fmt: skip


def on_shaft(case):
    """Return the forces of a case and the steps of its statics."""
    factor, F, z, K = stated(case)
    whole, M, thrust = force(case)
    R_B = (M - whole * Z_A) / (Z_B - Z_A)
    acts, steps = f"Load case {case}, on the shaft: forces of the case", f"Load case {case}, statics"
    assert number(answer("Duty", "Radial force, plane z", case)) == 0
    return {
        (acts, "position on the shaft"): (z,), (acts, "load level times application factor"): (factor,),
        (acts, "force in plane y, as stated"): (F,), (acts, "force along the shaft, as stated"): (K,),
        (acts, "force in plane y, in this case"): (whole,), (acts, "force along the shaft, in this case"): (thrust,),
        (steps, "load centre of A"): (Z_A,), (steps, "load centre of B"): (Z_B,),
        (steps, "sum of forces in plane y"): (whole,), (steps, "sum of forces in plane z"): (0.0,),
        (steps, "their moment about z = 0, M_y"): (M,), (steps, "their moment about z = 0, M_z"): (0.0,),
        (steps, "load on A in plane y"): (whole - R_B,), (steps, "load on B in plane y"): (R_B,),
        (steps, "load on A in plane z"): (0.0,), (steps, "load on B in plane z"): (0.0,),
        (steps, "resultant of both planes on A"): (abs(whole - R_B),),
        (steps, "resultant of both planes on B"): (abs(R_B),),
        (steps, "its direction on A"): (math.degrees(math.atan2(0.0, whole - R_B)),),
        (steps, "its direction on B"): (math.degrees(math.atan2(0.0, R_B)),),
    }  # fmt: skip


def case(at):
    """Return loads and lives of a case."""
    title = f"Load case {at}: {NAMES[at]}"
    Fr, S, Fa = loads(at)
    found = lives(at)
    return {
        (title, "share of time"): (100 * SHARES[at - 1],), (title, "speed"): (SPEEDS[at - 1],),
        (title, "external axial force, positive to B"): (force(at)[2],),
        (title, "reaction in plane y"): Fr, (title, "reaction in plane z"): (0.0, 0.0),
        (title, "direction of the load, from plane y to z"): (0.0, 0.0),
        (title, "radial load, with what turns with the shaft"): Fr,
        (title, "induced axial load"): S, (title, "axial load"): Fa,
        (title, "equivalent dynamic load"): equivalent(at),
        (title, "equivalent static load, peaks included"): static(at),
        (title, "life modification factor"): tuple(one[0] for one in found),
        (title, "basic rating life"): tuple(one[1] for one in found),
        (title, "modified rating life"): tuple(one[2] for one in found),
    }  # fmt: skip


def redone():
    """Return every figure of loads and lives, by section and name."""
    found = bearings() | pair()
    for at in CASES:
        found |= on_shaft(at) | case(at)
    assert LIFE > 0
    return found
