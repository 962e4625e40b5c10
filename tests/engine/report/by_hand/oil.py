"""Viscosity, film, friction, heat and grease of the unfolded example, typed from the sources that the report names."""

import math

import pytest

from tests.engine.report.by_hand.printed import (
    CASES,
    NAMES,
    SHARES,
    SPEEDS,
    answer,
    assumed,
    bearing,
    case_title,
    figures,
    number,
    taken,
)  # fmt: skip

LUBRICANT = "Lubricant and cleanliness"
DPW, D_BORE, D_OUT, WIDTH = (
    bearing(name) for name in ("pitch diameter", "bore", "outside diameter", "width")
)  # fmt: skip
ALPHA = tuple(math.radians(angle) for angle in taken("alpha"))
BETA = tuple(math.radians(angle) for angle in taken("nu (beta)"))
DWE, LWE, Z = taken("Dwe"), taken("Lwe"), bearing("rollers")
DM = tuple((d + D) / 2 for d, D in zip(D_BORE, D_OUT, strict=True))
NU40, VI = number(figures(LUBRICANT)["viscosity at 40 degC"][0]), number(assumed("Viscosity index"))
T = {case: number(answer("Lubrication", "Operating temperature")) for case in CASES}
AMBIENT = taken("temperature of the surroundings")[0]
F1, F0 = taken("f1")[0], taken("f0 in an oil bath")


def index(nu100):
    """ASTM D2270, procedure A: the line of the table for 28 to 40 mm2/s."""
    assert 28 <= nu100 < 40
    L, H = 0.87031 * nu100**2 + 9.7157 * nu100 - 50.77, 0.18411 * nu100**2 + 10.1015 * nu100 - 46.75
    return 100 * (L - NU40) / (L - H), L, H


def halved(of, low, high):
    """Return where a rising function passes 0."""
    for _ in range(100):
        middle = (low + high) / 2
        low, high = (middle, high) if of(middle) < 0 else (low, middle)
    return low


#: A mineral oil of a grade has its place in a table; its index shows that it is the right one.
NU100 = number(figures(LUBRICANT)["viscosity at 100 degC"][0])
assert index(NU100)[0] == pytest.approx(VI, abs=0.05)


def viscosity(T_oil):
    """ASTM D341; above 2 mm2/s Z is nu + 0.7."""
    W = [math.log10(math.log10(nu + 0.7)) for nu in (NU40, NU100)]
    logs = [math.log10(T_at + 273.15) for T_at in (40.0, 100.0)]
    slope = (W[0] - W[1]) / (logs[1] - logs[0])
    return 10 ** (10 ** (W[0] + slope * (logs[0] - math.log10(T_oil + 273.15)))) - 0.7


NU = {case: viscosity(T[case]) for case in CASES}
#: ISO 281, clause 9.3.3.4, speeds below 1000 rpm.
NU1 = {case: tuple(45_000 * SPEEDS[case - 1] ** -0.83 * Dpw**-0.5 for Dpw in DPW) for case in CASES}
KAPPA = {case: tuple(NU[case] / nu1 for nu1 in NU1[case]) for case in CASES}
C1, C2 = taken("c1"), taken("c2")
#: ISO 281, Annex A, grease, normal cleanliness; c1 and c2 as printed.
E_C = {
    case: tuple(
        min(C1[at] * kappa**0.68 * DPW[at] ** 0.55, 1.0) * (1 - C2[at] / DPW[at] ** (1 / 3))
        for at, kappa in enumerate(KAPPA[case])
    )
    for case in CASES
}


def lubricant():
    """Return the oil by ASTM D2270, and Table 13 of ISO 281 for normal cleanliness above 100 mm."""
    assert answer("Lubrication", "Cleanliness") == "normal" and min(DPW) >= 100
    _, L, H = index(NU100)
    assert (taken("L at")[0], taken("H at")[0]) == pytest.approx((L, H), rel=1e-7)
    # ISO 3448: the number of a grade is its viscosity at 40 deg C, within 10 %
    grade = number(answer("Lubrication", "ISO VG of the (base) oil").removeprefix("VG "))
    return {
        (LUBRICANT, "viscosity at 40 degC"): (grade,),
        (LUBRICANT, "viscosity index"): (index(NU100)[0],),
        (LUBRICANT, "contamination factor, coarse table"): ("0.6 to 0.8", "0.6 to 0.8"),
    }  # fmt: skip


def of_case(case, loads):
    """Return viscosity and film of a case, friction and heat, from Fr and Fa of A and B."""
    title, film = f"Load case {case}: {NAMES[case]}", case_title(case, "film and heat")
    n, nu = SPEEDS[case - 1], NU[case]
    rho15 = number(figures(LUBRICANT)["density at 15 degC"][0])
    x = 0.6278 * (T[case] - 15) / rho15
    rho = rho15 * math.exp(-x * (1 + 0.8 * x))  # ASTM D1250
    eta = nu * rho / 1000
    sides = [rolling(at, n, eta, loads[0][at], loads[1][at]) for at in (0, 1)]
    rub = [friction(at, n, nu, loads[0][at], loads[1][at], T[case]) for at in (0, 1)]
    lam = [min(one["h"]) / taken("Rq")[0] for one in sides]

    def said(at):
        film_kappa, kappa = lam[at] ** 1.3, KAPPA[case][at]
        return "thicker" if film_kappa > 2 * kappa else "thinner" if film_kappa < kappa / 2 else "agrees"

    return {
        (title, "temperature"): (T[case], T[case]), (title, "viscosity at this temperature"): (nu, nu),
        (title, "reference viscosity"): NU1[case], (title, "viscosity ratio"): KAPPA[case],
        (title, "contamination factor"): E_C[case],
        (film, "density of the oil"): (rho, rho), (film, "dynamic viscosity"): (eta, eta),
        (film, "load of the most loaded roller"): tuple(one["Q"] for one in sides),
        (film, "least film at the cone"): tuple(one["h"][0] for one in sides),
        (film, "least film at the cup"): tuple(one["h"][1] for one in sides),
        (film, "film over roughness"): tuple(lam),
        (film, "kappa that goes with this lambda"): tuple(one**1.3 for one in lam),  # ISO/TR 1281-2
        (film, "the film, beside kappa"): (said(0), said(1)),
    } | {(film, name): (rub[0][name], rub[1][name]) for name in rub[0]}  # fmt: skip


def integrals(epsilon):
    """Load integrals of a line contact, by 2000 strips of the loaded zone: J_r, J_a."""
    edge = math.acos(max(1 - 2 * epsilon, -1.0))
    steps = 2000
    total = [0.0, 0.0]
    for at in range(steps):
        psi = edge * (at + 0.5) / steps
        load = max(1 - (1 - math.cos(psi)) / (2 * epsilon), 0.0) ** (10 / 9)
        total = [total[0] + load * math.cos(psi), total[1] + load]
    return tuple(edge / math.pi * one / steps for one in total)


def most_loaded(at, Fr, Fa):
    """Load of the most loaded roller: the load zone whose integrals match Fr tan(alpha)/Fa, half the ring at least."""
    ratio = Fr * math.tan(ALPHA[at]) / Fa
    half = integrals(0.5)
    if ratio >= half[0] / half[1]:
        return Fr / (half[0] * Z[at] * math.cos(ALPHA[at]))

    def off(epsilon):
        J_r, J_a = integrals(epsilon)
        return ratio - J_r / J_a

    low, high = 0.5, 20.0
    for _ in range(25):
        middle = (low + high) / 2
        low, high = (middle, high) if off(middle) < 0 else (low, middle)
    return Fa / (integrals(low)[1] * Z[at] * math.sin(ALPHA[at]))


def rolling(at, n, eta, Fr, Fa):
    """Pan and Hamrock 1989: least film at cone and cup in um."""
    g = DWE[at] * math.cos(ALPHA[at]) / DPW[at]
    u = math.pi * n / 30 * DPW[at] * (1 - g * g) / 4
    E = taken("E' =")[at]
    G = taken("k of")[at] * eta ** taken("s of")[at] * E
    Q = most_loaded(at, Fr, Fa)
    film = []
    for R in (DWE[at] * (1 - g) / 2, DWE[at] * (1 + g) / 2):
        U, W = eta * 1e-9 * u / (E * R), Q / LWE[at] / (E * R)
        film.append(1e3 * R * 1.714 * U**0.694 * G**0.568 * W**-0.128)
    return {"Q": Q, "h": film}


def oil_torque(f0, nu, n, dm):
    """ISO 15312, Annex A, both lines of it: the greater rules."""
    return max(f0 * 1e-7 * (nu * n) ** (2 / 3), 160e-7 * f0) * dm**3


def friction(at, n, nu, Fr, Fa, T_at):
    """ISO 15312, Annex A; rib by geometry; DIN 732; common practice on the rib's share."""
    dm, P1 = DM[at], max(2 * bearing("axial load factor")[at] * Fa, Fr)
    M0, M1 = oil_torque(F0[at], nu, n, dm), F1 * P1 * dm
    sliding = sliding_speed(at, n)
    rib_load = Fa / math.sin(ALPHA[at]) * math.sin(2 * BETA[at])
    M_rib = taken("friction coefficient at the rib")[at] * rib_load * sliding / (math.pi * n / 30)
    n_ref, heat = reference_speed(at), seat_heat(at) / 50 * (T_at - AMBIENT)
    per = math.pi / 30e3 * n_ref / heat
    KL, KP = per * 1e-7 * F0[at] * (nu * n_ref) ** (2 / 3) * dm**3, per * F1 * P1 * dm
    safe = n_ref * halved(lambda f: KL * f ** (5 / 3) + KP * f - 1, 0.0, 10.0)
    base = 14e6 / (n * math.sqrt(D_BORE[at])) - 4 * D_BORE[at]
    factor = next((one for up_to, one in ((65, 1.0), (80, 0.5), (93, 0.2)) if T_at <= up_to), 0.1)
    return {
        "mean rib speed": math.pi * n * rib_diameter(at) / 60_000, "sliding of the roller ends": sliding / 1000,
        "load that decides friction": P1, "friction torque of the oil": M0, "friction torque of the load": M1,
        "share of the rib in the friction": 100 * min(M_rib, M1) / (M0 + M1),
        "heat of friction": (M0 + M1) * math.pi * n / 30_000, "thermally safe speed at this temperature": safe,
        "regreasing, cool, clean and calm": base, "factor of the temperature": factor,
        "regreasing interval in this case": base * factor * place(),
    }  # fmt: skip


def sliding_speed(at, n):
    """Sliding of the roller ends at 0.10 Dwe above the raceway, in mm/s."""
    g = DWE[at] * math.cos(ALPHA[at] - BETA[at]) / DPW[at]
    spin = math.pi * n / 30 * (1 + g) / 2 * DPW[at] / (DWE[at] * math.cos(BETA[at]))
    return 0.10 * DWE[at] * spin


def rib_diameter(at):
    """Circle of the rib at 0.10 Dwe above the raceway."""
    cone = ALPHA[at] - 2 * BETA[at]
    raceway = DPW[at] - DWE[at] * math.cos(ALPHA[at] - BETA[at])
    return raceway + LWE[at] * math.sin(cone) + 0.2 * DWE[at] * math.cos(cone)


def seat_heat(at):
    """ISO 15312, equation (2): heat at the reference conditions, surfaces up to 50 000 mm2."""
    area = math.pi * WIDTH[at] * (D_BORE[at] + D_OUT[at])
    assert area <= 50_000
    return 0.016 * area


def reference_speed(at):
    """ISO 15312, equation (11)."""
    load = 0.05 * bearing("basic static rating")[at]

    def off(n):
        moment = 1e-7 * F0[at] * (12 * n) ** (2 / 3) * DM[at] ** 3 + F1 * load * DM[at]
        return math.pi * n / 30e3 * moment - seat_heat(at)

    return halved(off, 0.0, 1e5)


def place():
    """Factors of the place, all but that of the temperature: common practice, as the report prints them."""
    named = [texts for name, texts in figures("Grease").items() if name.startswith("factor, ")]
    assert len(named) == 5
    return math.prod(number(text) for text, _ in named)


def speeds():
    """Speed and heat of both bearings, whatever the case."""
    title = "Speed and heat"
    assert "grease" in answer("Lubrication", "Lubricant and supply")
    return {
        (title, "mean diameter (d + D)/2"): DM,
        (title, "speed factor, fastest case"): tuple(max(SPEEDS) * dm for dm in DM),
        (title, "friction factor of lubrication and rows"): F0,  # grease, one row: as in a bath
        (title, "heat emitting reference surface"): tuple(seat_heat(at) / 0.016 for at in (0, 1)),
        (title, "reference heat flow density"): (0.016, 0.016),
        (title, "thermal reference speed"): (reference_speed(0), reference_speed(1)),
        (title, "mean rib diameter"): (rib_diameter(0), rib_diameter(1)),
        (title, "usual limit of the rib speed"): (5.0,),
    }  # fmt: skip


def grease():
    """Regreasing and amounts by the common practice that the report prints; tables of factors by their words."""
    title, n_dm = "Grease", max(SPEEDS) * max(DM)
    words = {"light": 1.0, "dry": 1.0, "calm": 1.0, "horizontal shaft": 1.0, "the cup turns": 0.5}
    found = {(title, name): (words[name.partition(": ")[2]],) for name in figures(title) if name.startswith("factor, ")}
    each = [
        [number(figures(case_title(case, "film and heat"))["regreasing interval in this case"][at]) for case in CASES]
        for at in (0, 1)
    ]
    over = tuple(1 / sum(q / t for q, t in zip(SHARES, one, strict=True)) for one in each)
    mass = bearing("mass")
    space = [
        math.pi / 4 * (D_OUT[at] ** 2 - D_BORE[at] ** 2) * WIDTH[at] - mass[at] / 7.85e-6 for at in (0, 1)
    ]  # fmt: skip
    share = 0.9 if n_dm <= 60_000 else math.nan
    assert n_dm < 30_000 and max(T.values()) < 100 and assumed("Vibration").startswith("calm")
    return found | {
        (title, "regreasing over all cases"): over,
        (title, "the same if the cone turned"): tuple(2 * t for t in over),
        (title, "free space"): tuple(V / 1000 for V in space),
        (title, "share to fill at first"): (100 * share, 100 * share),
        (title, "first filling"): tuple(0.9e-3 * share * V for V in space),
        (title, "refill at each regreasing"): tuple(0.005 * D_OUT[at] * WIDTH[at] for at in (0, 1)),
        (title, "NLGI number that suits"): (2.0,),
        (title, "bleed of the base oil that suits"): ("high",),  # slow, and neither hot nor upright
        (title, "because"): ("an ordinary place",),
    }  # fmt: skip


def redone(loads):
    """Return every figure of oil, film, friction and grease; `loads` gives Fr and Fa of A and B in a case."""
    found = lubricant() | speeds() | grease()
    for case in CASES:
        found |= of_case(case, loads(case))
    return found
