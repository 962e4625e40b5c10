"""One bearing's fit and steel by hand, in plain Python: no array, none of the engine's formulas of seats and stress.

Thick cylinders after Lame, flat rotating rings, smoothing and expansion after DIN 7190, a surface crack of textbook
fracture mechanics, all written here from the printed formulas; only printed tables (limits, steels) are shared.
"""

import math

E, NU, ALPHA, RHO = 206_000.0, 0.30, 12.0e-6, 7850e-12
FLOORS = {"none": 0.0, "moderate": 0.0, "heavy": 25.0}
FACTORS = {"none": 1.0, "moderate": 1.5, "heavy": 2.0}
PLACES = {"none": 0, "some": 1, "much": 2}


def tension_of_cone(row, es, EI, shaft_bore, resolved):
    """Return the greatest tangential tension at the bore of a cone [MPa], mounted or at the highest speed."""
    d, F, n = row["d"], row["F"], resolved.n_greatest or 0.0
    if shaft_bore >= d:
        return math.inf
    delta = es - EI
    left = min(delta, max(delta - 0.8 * (resolved.fits.shaft_Rz + 0.0016), 0.0))
    omega2 = RHO * (2 * math.pi * n / 60) ** 2 if resolved.rotating_ring == "cone" else 0.0
    found = [_pressed(left, shaft_bore, d, F)]
    grown_ring = omega2 * d / (16 * E) * ((3 + NU) * F**2 + (1 - NU) * d**2)
    grown_shaft = omega2 * d / (16 * E) * ((1 - NU) * d**2 + (3 + NU) * shaft_bore**2)
    by_turning = omega2 / 16 * ((3 + NU) * F**2 + (1 - NU) * d**2)
    running = left - d * ALPHA * resolved.fits.cone_hotter - (grown_ring - grown_shaft)
    found.append(_pressed(running, shaft_bore, d, F) + by_turning)
    return max(found)


def _pressed(delta, bore, d, F):
    ring = (F**2 + d**2) / (F**2 - d**2)
    shaft = (d**2 + bore**2) / (d**2 - bore**2)
    return max(delta, 0.0) / d / ((ring + NU) / E + (shaft - NU) / E) * ring


def tension_of_cup_turning(row, resolved):
    """Return the tension that turning alone can put into a cup [MPa]; the housing only presses it."""
    n = resolved.n_greatest or 0.0
    omega2 = RHO * (2 * math.pi * n / 60) ** 2 if resolved.rotating_ring == "cup" else 0.0
    D, bore = row["D"], row["E"]
    return omega2 / 16 * ((1 - NU) * D**2 + (3 + NU) * bore**2)


def bears(tension, steel, resolved):
    """Return whether a steel bears tension, shock and dirt, and how close the closest decision was."""
    stated = resolved.fits.shock_factor
    factor = max(1.0, FACTORS[resolved.shock] if stated is None else stated)
    K = max(1.12 * tension * factor * math.sqrt(math.pi * 0.0005), FLOORS[resolved.shock])
    ratios = [tension / steel.hoop.value, K / steel.core_toughness.value]
    place = PLACES[resolved.dirt]
    dirty = place > steel.wear.value
    return all(ratio <= 1 for ratio in ratios) and not dirty, min(abs(ratio - 1) for ratio in ratios)


def left_of(ring, sizes, ends, around, case):
    """Return the interference in service at the mean of a fit [mm]: limits, smoothing, warmth, turning.

    `sizes` are bore, joint and outside of the two parts; `ends` the limits of the part inside and of the one around it
    (upper, lower); `around` the sum of both roughness depths and what the seat is made of; `case` speed, temperature
    of the ring, how much it is hotter than its seat, and whether it turns.
    """
    (d_i, d, d_o), (inside, outside), (Rz, seated) = sizes, ends, around
    alpha = seated[0]
    n, T, hotter, turns = case
    delta = sum(inside) / 2 - sum(outside) / 2
    mounted = min(delta, max(delta - 0.8 * Rz, 0.0))
    seat, own = alpha * (T - hotter - 20), ALPHA * (T - 20)
    warm = d * (seat - own if ring == "cone" else own - seat)
    of_ring, of_seat = (RHO, E, NU), seated[1:]
    (rho_o, E_o, nu_o), (rho_i, E_i, nu_i) = (of_ring, of_seat) if ring == "cone" else (of_seat, of_ring)
    omega2 = (2 * math.pi * n / 60) ** 2 if turns else 0.0
    grown_outer = rho_o * omega2 * d / (16 * E_o) * ((3 + nu_o) * d_o**2 + (1 - nu_o) * d**2)
    grown_inner = rho_i * omega2 * d / (16 * E_i) * ((1 - nu_i) * d**2 + (3 + nu_i) * d_i**2)
    return mounted + warm - (grown_outer - grown_inner)


def needed(Fr, d, width):
    """Return the interference that a load going round asks for [mm]."""
    return max(0.08 * math.sqrt(d * Fr / width), 0.02 * Fr / width) / 1000


def grown(life, T, austenite, limit):
    """Return the strain of a ring as its retained austenite decomposes: 1e-4 a percent, 120 kJ/mol."""
    whole = austenite * 1e-4
    share = min(1e-4 / whole, 1 - math.exp(-1))
    at_limit = -math.log(1 - share) / 2500
    slower = math.exp(-120_000 / 8.314 * (1 / (T + 273.15) - 1 / (limit + 273.15)))
    return whole * (1 - math.exp(-at_limit * slower * life))
