"""One pair computed by hand, in plain Python with `math`: no array, no bound, none of the engine's formulas.

Written from the printed formulas of ISO 281, ISO 76 and the handbooks as docstrings of the engine name them; it serves
as an independent second calculation for the screening and the shortlist.
"""

import math

from engine.lubrication.contamination import CONSTANTS
from tests.engine.selection import one_balance


def lives_and_safety(A, B, resolved, nu, a1):
    """Return lives, static safeties, greatest P/C, least kappa and greatest temperature over limit, of A and of B each.

    `nu` is the viscosity at the stated temperature; NaN where each case's own settles.
    """
    z_A, z_B = _centres(A, B, resolved)
    spread = z_B - z_A
    damage, safety = [0.0, 0.0], [math.inf, math.inf]
    load, film, heat = [0.0, 0.0], [math.inf, math.inf], [0.0, 0.0]
    running_share = sum(c.share for c in resolved.cases)
    for case in resolved.cases:
        moment_arm = case.position - z_A
        R_B = math.hypot(case.F_y * moment_arm / spread, case.F_z * moment_arm / spread)
        arm_A = z_B - case.position
        R_A = math.hypot(case.F_y * arm_A / spread, case.F_z * arm_A / spread)
        radial = [R_A, R_B]
        S = [R_A / (2 * A["Y"]), R_B / (2 * B["Y"])]
        # a thrust to B loads A in O and B in X
        pushed = 0 if (resolved.arrangement == "back_to_back") == (case.K_a >= 0) else 1
        other = 1 - pushed
        axial = [0.0, 0.0]
        axial[pushed] = max(S[pushed], S[other] + abs(case.K_a))
        axial[other] = max(S[other], S[pushed] - abs(case.K_a))
        warm = [nu, nu]
        if math.isnan(nu):
            warm = one_balance.settled((A, B), list(zip(radial, axial, strict=True)), case.n, resolved)
        for side, bearing in enumerate((A, B)):
            Fr, Fa = radial[side], axial[side]
            P = Fr if Fa <= bearing["e"] * Fr else 0.4 * Fr + bearing["Y"] * Fa
            P0 = max(Fr, 0.5 * Fr + bearing["Y0"] * Fa)
            safety[side] = min(safety[side], bearing["C0r"] / P0 if P0 else math.inf)
            if case.n == 0 or case.share == 0:
                continue
            nu_here = warm[side]
            if math.isnan(nu):
                T, oil = warm[side], resolved.lubricated.lubricant
                limit = min(bearing["max_temperature"], oil.T_greatest)
                heat[side] = max(heat[side], T / limit) if T == T else math.inf
                nu_here = one_balance.viscosity(T, oil.nu40, oil.nu100) if T == T else math.nan
            kappa = nu_here / _nu1(case.n, bearing["Dpw"])
            film[side] = min(film[side], kappa) if kappa == kappa else 0.0
            load[side] = max(load[side], P / bearing["Cr"])
            hours = _hours(P, kappa, case.n, bearing, resolved, a1)
            damage[side] += case.share / running_share / hours if hours else math.inf
    lives = [1 / d if d else math.inf for d in damage]
    return (*lives, *safety, *load, *film, *heat)


def passes(A, B, resolved, nu, a1):
    """Return whether the pair passes every check that needs loads, and how close the closest decision was."""
    z_A, z_B = _centres(A, B, resolved)
    if z_B - z_A < 1.0:
        return False, abs(z_B - z_A - 1.0)
    life_A, life_B, s_A, s_B, p_A, p_B, k_A, k_B, *heat = lives_and_safety(A, B, resolved, nu, a1)
    wanted = resolved.life
    ratios = [wanted / life_A, wanted / life_B, resolved.static_safety / s_A, resolved.static_safety / s_B]
    ratios += [p_A / 0.5, p_B / 0.5, 0.1 / k_A if k_A else math.inf, 0.1 / k_B if k_B else math.inf, *heat]
    if resolved.life_of_pair:
        ratios.append(((wanted / life_A) ** (9 / 8) + (wanted / life_B) ** (9 / 8)) ** (8 / 9))
    ratios = [math.inf if math.isnan(r) else r for r in ratios]
    return all(r <= 1 for r in ratios), min(abs(r - 1) for r in ratios)


def _centres(A, B, resolved):
    inset = [b["T"] / 2 if resolved.between_middles else 0.0 for b in (A, B)]
    if resolved.arrangement == "back_to_back":
        return A["a"] - inset[0], resolved.distance + inset[1] - B["a"]
    return inset[0] - A["a"], resolved.distance - inset[1] + B["a"]


def _nu1(n, Dpw):
    return 45000 * n**-0.83 * Dpw**-0.5 if n < 1000 else 4500 * n**-0.5 * Dpw**-0.5


def _hours(P, kappa, n, bearing, resolved, a1):
    if not kappa >= 0.1:
        return math.nan
    if P == 0:
        return math.inf
    c1, c2 = CONSTANTS[resolved.supply, resolved.cleanliness][:2]
    k = min(kappa, 4.0)
    e_C = max(0.0, min(c1 * k**0.68 * bearing["Dpw"] ** 0.55, 1.0) * (1 - c2 / bearing["Dpw"] ** (1 / 3)))
    factor = _a_iso(k, e_C, bearing["Cu"], P)
    if resolved.ep_additive and kappa < 1 and e_C >= 0.2:
        factor = max(factor, min(_a_iso(1.0, e_C, bearing["Cu"], P), 3.0))
    return a1 * factor * (bearing["Cr"] / P) ** (10 / 3) * 1e6 / (60 * n)


def _a_iso(k, e_C, Cu, P):
    A, p = (1.3993, 0.054381) if k < 0.4 else (1.2348, 0.19087) if k < 1 else (1.2348, 0.071739)
    bracket = 1 - (1.5859 - A / k**p) * (e_C * Cu / P) ** 0.4
    return min(0.1 * bracket**-9.185, 50.0) if bracket > 0 else 50.0
