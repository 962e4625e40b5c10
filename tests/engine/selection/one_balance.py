"""The heat balance of one pair in one case in plain Python with `math` and scipy: none of the engine's code.

Written from the printed formulas: ISO 15312 Annex A (friction, q_r and A_r), free convection 1.42 (dT/L)^(1/4), flat
plate in parallel flow, radiation, 28.6 W per l/min and K, ASTM D341 in full with the standard's printed inverse.
"""

import math

from scipy.optimize import brentq

HOTTEST = 250.0


def viscosity(T, nu40, nu100):
    """ASTM D341: the line through both points, then the printed inverse."""

    def ordinate(nu):
        return math.log10(math.log10(nu + 0.7 + math.exp(-1.47 - 1.84 * nu - 0.51 * nu * nu)))

    slope = (ordinate(nu40) - ordinate(nu100)) / (math.log10(373.15) - math.log10(313.15))
    W = ordinate(nu40) - slope * (math.log10(T + 273.15) - math.log10(313.15))
    z = 10 ** (10**W) - 0.7
    return z - math.exp(-0.7487 - 3.295 * z + 0.6119 * z**2 - 0.3193 * z**3)


def losses(bearing, Fr, Fa, n, resolved, nu):
    """M0 + M1 as heat [W]; f0 by ISO 15312 Table A.1 with the handbook's ratio for circulating oil."""
    d, D, T = bearing["d"], bearing["D"], bearing["T"]
    light = D - d <= max(0.955 * d**0.9, 4.94 * d**0.5) or (
        T / (D - d) ** 0.95 <= 0.68 and bearing["alpha"] <= math.radians(27) + 1e-9
    )
    f0 = (3.0 if light else 4.5) * (1.5 if resolved.supply in ("circulating", "jet") else 1.0) * rows_of(resolved)
    dm = (d + D) / 2
    M0 = f0 * 1e-7 * max((nu * n) ** (2 / 3), 160) * dm**3
    M1 = 0.0004 * max(2 * bearing["Y"] * Fa, Fr) * dm
    return (M0 + M1) * math.pi * n / 30e3


def rows_of(resolved):
    """Two rows sit on a side of paired units: they churn twice the oil and shed twice the heat."""
    return 2 if resolved.locating else 1


def seats(bearing):
    area = math.pi * bearing["T"] * (bearing["d"] + bearing["D"])
    density = 0.016 * (area / 50e3) ** -0.34 if area > 50e3 else 0.016
    return density * area / 50.0


def shed(T, around, conductance):
    """Heat to air and oil [W]."""
    dT = T - around.ambient
    heat = conductance * dT if around.area is None else 0.0
    if around.area is not None:
        length, area = math.sqrt(around.area / 6) / 1000, around.area * 1e-6
        free = 1.42 * (abs(dT) / length) ** 0.25 * area
        Re = around.air_speed * length / 1.80e-5
        laminar = 0.664 * math.sqrt(min(Re, 5e5))
        Nu = max(0.037 * Re**0.8 - 871, laminar) if Re > 5e5 else laminar
        forced = Nu * 0.704 ** (1 / 3) * 0.0278 / length * area
        heat += (free**3 + forced**3) ** (1 / 3) * dT
        heat += 0.9 * 5.670374e-8 * area * ((T + 273.15) ** 4 - (around.ambient + 273.15) ** 4)
    if around.oil_flow:
        heat += 28.6 * around.oil_flow * (T - around.oil_inlet)
    return heat


def settled(pair, loads, n, resolved):
    """Return the temperatures of both bearings of a pair in a case, NaN where none settles up to 250 degC."""
    around, oil = resolved.lubricated.surroundings, resolved.lubricated.lubricant

    def excess(T, which):
        nu = max(viscosity(T, oil.nu40, oil.nu100), 0.21)
        made = sum(losses(pair[i], *loads[i], n, resolved, nu) for i in which) + around.other_heat
        return shed(T, around, rows_of(resolved) * sum(seats(pair[i]) for i in which)) - made

    found = []
    for which in [(0, 1)] if around.shared else [(0,), (1,)]:
        low = min(around.ambient, around.oil_inlet) if around.oil_flow else around.ambient
        if excess(low, which) >= 0:
            T = low
        elif excess(HOTTEST, which) < 0:
            T = math.nan
        else:
            T = brentq(excess, low, HOTTEST, args=(which,), xtol=1e-11, rtol=1e-14)
        found += [T] * len(which)
    return found
