"""One pair computed by hand, in plain Python with `math`: no array, no bound, none of the engine's formulas.

Written from the printed formulas of ISO 281, ISO 76 and the handbooks as docstrings of the engine name them; it serves
as an independent second calculation for the screening and the shortlist.
"""

import math

from engine.lubrication.contamination import CONSTANTS
from tests.engine.selection import one_balance, one_ring


def lives_and_safety(A, B, resolved, nu, a1, seen=None):
    """Return lives, static safeties, greatest P/C, least kappa and greatest temperature over limit, of A and of B each.

    `nu` is the viscosity at the stated temperature; NaN where each case's own settles. `seen` takes, side by side,
    share, speed, radial load and temperature of every case.
    """
    seen = ([], []) if seen is None else seen
    z_A, z_B = _centres(A, B, resolved)
    damage, safety = [0.0, 0.0], [math.inf, math.inf]
    load, film, heat = [0.0, 0.0], [math.inf, math.inf], [0.0, 0.0]
    running_share = sum(c.share for c in resolved.cases)
    for case in resolved.cases:
        radial = _reactions(case, resolved.shaft.parts, z_A, z_B)
        thrust = case.K_a + sum(case.level * part.values["axial"] for part in _of("force", resolved))
        axial = _axial(radial, thrust, A, B, resolved)
        warm = [nu, nu]
        if math.isnan(nu):
            warm = one_balance.settled((A, B), list(zip(radial, axial, strict=True)), case.n, resolved)
        for side, bearing in enumerate((A, B)):
            Fr, Fa = radial[side], axial[side]
            C, C0, Cu, P, P0 = _rated(Fr, Fa, bearing, resolved)
            seen[side].append((case.share, case.n, Fr, warm[side] if math.isnan(nu) else case.temperature))
            safety[side] = min(safety[side], C0 / (case.shock * P0) if P0 else math.inf)
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
            load[side] = max(load[side], P / C)
            hours = _hours(P, kappa, case.n, bearing | {"Cr": C, "Cu": Cu}, resolved, a1)
            damage[side] += case.share / running_share / hours if hours else math.inf
    lives = [1 / d if d else math.inf for d in damage]
    return (*lives, *safety, *load, *film, *heat)


def passes(A, B, resolved, nu, a1):
    """Return whether the pair passes every check that needs loads, and how close the closest decision was."""
    return judged(A, B, resolved, nu, a1)[:2]


def judged(A, B, resolved, nu, a1):
    """Return the same, the life that the requirement is held against [h], greatest P/C and `seen` of A and of B."""
    seen = ([], [])
    z_A, z_B = _centres(A, B, resolved)
    if z_B - z_A < 1.0:
        return False, abs(z_B - z_A - 1.0), 0.0, (0.0, 0.0), seen
    life_A, life_B, s_A, s_B, p_A, p_B, k_A, k_B, *heat = lives_and_safety(A, B, resolved, nu, a1, seen)
    wanted = resolved.life
    ratios = [wanted / life_A, wanted / life_B, resolved.static_safety / s_A, resolved.static_safety / s_B]
    ratios += [p_A / 0.5, p_B / 0.5, 0.1 / k_A if k_A else math.inf, 0.1 / k_B if k_B else math.inf, *heat]
    if resolved.life_of_pair:
        ratios.append(((wanted / life_A) ** (9 / 8) + (wanted / life_B) ** (9 / 8)) ** (8 / 9))
    ratios = [math.inf if math.isnan(r) else r for r in ratios]
    governing = max(ratios[-1], 0.0) if resolved.life_of_pair else max(wanted / life_A, wanted / life_B)
    life = wanted / governing if governing else math.inf
    return all(r <= 1 for r in ratios), min(abs(r - 1) for r in ratios), life, (p_A, p_B), seen


def hold(seats, grade, seen, resolved):
    """Return whether the rings of one bearing that must hold do so in all cases, also once grown, and the nearest call.

    `seats` and `grade` are those of `one_part.seats`, `seen` the cases as `judged` has them.
    """
    nearest, holds, fits = math.inf, True, resolved.fits
    for ring, (sizes, ends, around, width) in seats.items():
        hotter = fits.cone_hotter if ring == "cone" else fits.cup_hotter
        spare = math.inf
        for _, n, Fr, T in seen:
            asked = one_ring.needed(Fr / (2 if resolved.locating else 1), sizes[1], width) if n else 0.0
            left = one_ring.left_of(ring, sizes, ends, around, (n, T, hotter, resolved.rotating_ring == ring))
            spare = min(spare, left - asked)
            if ring == "cup":
                # it must only have no play, in which it would roll
                holds = holds and (left >= 0 or not n)
                nearest = min(nearest, abs(left) / 1e-3 if n else math.inf)
            elif asked:
                holds, nearest = holds and left >= asked, min(nearest, abs(left / asked - 1))
        if ring == "cone":
            running = [(share, T) for share, n, _, T in seen if n and share] or [(share, T) for share, _, _, T in seen]
            mean = sum(share * T for share, T in running) / sum(share for share, _ in running)
            lost = sizes[1] * one_ring.grown(resolved.life, mean, grade.austenite.value, grade.temperature.value)
            holds, nearest = holds and lost <= max(spare, 0.0), min(nearest, abs(spare / lost - 1))
    return holds, nearest


def _of(kind, resolved):
    return [part for part in resolved.shaft.parts if part.kind == kind]


def _reactions(case, parts, z_A, z_B):
    """Return the radial load on A and B: what stands as a vector, what turns with the shaft added by its amount."""
    still, turning = [(case.position, case.F_y, case.F_z)], []
    for part in parts:
        if part.kind == "force":
            F, angle = case.level * part.values["force"], part.values["angle"]
            still.append((part.z, F * math.cos(angle), F * math.sin(angle)))
        elif part.kind == "weight":
            still.append((part.z, -9.80665 * part.values["mass"], 0.0))
        else:
            assert part.kind == "unbalance"
            F = part.values["mass"] * part.values["eccentricity"] / 1000 * (2 * math.pi * case.n / 60) ** 2
            angle = part.values["angle"]
            turning.append((part.z, F * math.cos(angle), F * math.sin(angle)))
    loads = [0.0, 0.0]
    for group in (still, turning):
        B_y, B_z = (sum(force[plane] * (force[0] - z_A) for force in group) / (z_B - z_A) for plane in (1, 2))
        A_y, A_z = (sum(force[plane] * (z_B - force[0]) for force in group) / (z_B - z_A) for plane in (1, 2))
        loads = [loads[0] + math.hypot(A_y, A_z), loads[1] + math.hypot(B_y, B_z)]
    return loads


def _axial(radial, thrust, A, B, resolved):
    if resolved.locating:
        return [abs(thrust), 0.0] if resolved.locating == "A" else [0.0, abs(thrust)]
    S = [radial[0] / (2 * A["Y"]), radial[1] / (2 * B["Y"])]
    # a thrust to B loads A in O and B in X
    pushed = 0 if (resolved.arrangement == "back_to_back") == (thrust >= 0) else 1
    other = 1 - pushed
    axial = [0.0, 0.0]
    axial[pushed] = max(S[pushed], S[other] + abs(thrust))
    axial[other] = max(S[other], S[pushed] - abs(thrust))
    return axial


def _rated(Fr, Fa, bearing, resolved):
    """Return ratings and equivalent loads: of one row, or of two side by side by the double-row factors."""
    C, C0, Cu = bearing["Cr"], bearing["C0r"], bearing["Cu"]
    if not resolved.locating:
        P = Fr if Fa <= bearing["e"] * Fr else 0.4 * Fr + bearing["Y"] * Fa
        return C, C0, Cu, P, max(Fr, 0.5 * Fr + bearing["Y0"] * Fa)
    cot = 1 / math.tan(bearing["alpha"])
    P = Fr + 0.45 * cot * Fa if Fa <= 1.5 / cot * Fr else 0.67 * Fr + 0.67 * cot * Fa
    return 2 ** (7 / 9) * C, 2 * C0, 2 * Cu, P, Fr + 0.44 * cot * Fa


def _centres(A, B, resolved):
    if resolved.locating:
        # the middle of two bearings: a width T from their outboard face, or in the plane that is measured to
        inside = [0.0 if resolved.between_middles else b["T"] for b in (A, B)]
        return inside[0], resolved.distance - inside[1]
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
