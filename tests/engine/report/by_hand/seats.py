"""Seats of the unfolded example: classes, limits, interference, pressure, tension, creep, mounting.

Thick cylinders by Lame, DIN 7190-1 for smoothing and warmth, rotating rings; limits typed from the tables of ISO 286-2
and of the inch series for the sizes of this bearing.
"""

import math

from tests.engine.report.by_hand.loads import LIFE, equivalent, loads
from tests.engine.report.by_hand.printed import (
    CASES,
    SPEEDS,
    answer,
    assumed,
    bearing,
    figures,
    number,
    taken,
)  # fmt: skip

SEATS = "Constants of the seats"
#: ISO 286-2, 80 to 120 mm and 120 to 180 mm, in um.
SHAFTS, HOUSINGS = {"h6": (0, -22), "g6": (-12, -34)}, {"N7": (-12, -52)}
#: ISO 492, class Normal, of metric rings of these sizes (80 to 120 mm; 120 to 150 mm).
METRIC_BORE, METRIC_OUTSIDE = (0, -20), (0, -20)
#: Inch series, class 4: bore and outside diameter from 3 to 10 1/2 in, width T and runout of this bore and diameter.
INCH_BORE, INCH_OUTSIDE, INCH_WIDTH, RUNOUT = (25, 0), (25, 0), (356, -254), 51
ENDS = ("least", "probable least", "mean", "probable greatest", "greatest")
WARM = number(answer("Lubrication", "Operating temperature"))
ROOM = taken("temperature at which limits hold", SEATS)[0]


class Material:
    """What a part is made of, as printed."""

    def __init__(self, part):
        from tests.engine.report.by_hand.printed import SECTIONS

        cells = next(row for row in SECTIONS[SEATS] if row[1] == part)
        self.E, self.nu, alpha, self.rho = (number(cell) for cell in cells[2:6])
        self.alpha = alpha * 1e-6

    def turning(self, d, other, n):
        """Stress at the diameter d of a flat ring that turns freely, `other` its other diameter [MPa]."""
        omega = math.pi * n / 30
        return self.rho * 1e-12 * omega**2 / 16 * ((3 + self.nu) * other**2 + (1 - self.nu) * d**2)


STEEL = Material("rings")


class Joint:
    """A seat: diameters inside, of the joint and outside, its parts and their temperatures, limits in um."""

    def __init__(self, ring, at):
        self.ring, self.at = ring, at
        self.cone = ring == "cone"
        seat = "shaft" if self.cone else "housing"
        self.title = "Cone on the shaft" if self.cone else "Cup in the housing"
        other = Material(seat)
        cooler = WARM - number(assumed("Cone hotter than the shaft" if self.cone else "Cup hotter than the housing"))
        rough = (taken(f"roughness Rz of the {seat}", SEATS)[at], taken("roughness Rz of the ring", SEATS)[at])
        self.smoothing = 0.8 * sum(rough)
        self.width = bearing(f"{ring} width")[at]
        if self.cone:
            self.d_i, self.d_j = taken("bore of the shaft", SEATS)[at], bearing("bore")[at]
            self.d_o = bearing("cone raceway diameter")[at]
            self.inner, self.outer, self.T = other, STEEL, (cooler, WARM)
        else:
            self.d_i, self.d_j = bearing("cup raceway diameter")[at], bearing("outside diameter")[at]
            self.d_o = taken("outside diameter of the housing", SEATS)[at]
            self.inner, self.outer, self.T = STEEL, other, (WARM, cooler)
        #: The cup turns with the hub, the shaft stands.
        self.n = 0.0 if self.cone else SPEEDS[0]
        assert answer("Speed", "Which ring turns").startswith("the cup") and len(set(SPEEDS)) == 1
        self.limits()

    def limits(self):
        """Class by DIN 5425-1, and limits so that an inch ring sits as the metric one would."""
        if self.cone:  # point load: h6, and g6 where the cone must slide
            slides = assumed("Ring that must slide") == f"cone at {'AB'[self.at]}"
            self.name = "g6" if slides else "h6"
            self.metric, ring, self.own = SHAFTS[self.name], METRIC_BORE, INCH_BORE
        else:  # circumferential, heavy above P/C = 0.15: N7
            self.name = "N7"
            self.metric, ring, self.own = HOUSINGS[self.name], METRIC_OUTSIDE, INCH_OUTSIDE
        # es' = es + (EI' - EI), ei' = ei + (ES' - ES)
        self.made = (self.metric[0] + self.own[1] - ring[1], self.metric[1] + self.own[0] - ring[0])
        inner, outer = (self.made, self.own) if self.cone else (self.own, self.made)
        least, greatest = inner[1] - outer[0], inner[0] - outer[1]
        mean, spread = (least + greatest) / 2, math.hypot(inner[0] - inner[1], outer[0] - outer[1]) / 2
        self.cold = dict(zip(ENDS, (least, mean - spread, mean, mean + spread, greatest), strict=True))
        self.mounted = {end: min(one, max(one - self.smoothing, 0.0)) for end, one in self.cold.items()}

    def running(self):
        """Interference in operation: warmth, and what both parts lose as they turn."""
        warmth = 1e3 * self.d_j * (self.inner.alpha * (self.T[0] - ROOM) - self.outer.alpha * (self.T[1] - ROOM))
        grown = self.outer.turning(self.d_j, self.d_o, self.n) / self.outer.E
        grown -= self.inner.turning(self.d_j, self.d_i, self.n) / self.inner.E
        return {end: one + warmth - 1e3 * self.d_j * grown for end, one in self.mounted.items()}

    def pressure(self, delta):
        """Thick cylinders; delta in um."""
        i, j, o = self.d_i**2, self.d_j**2, self.d_o**2
        give = ((o + j) / (o - j) + self.outer.nu) / self.outer.E + ((j + i) / (j - i) - self.inner.nu) / self.inner.E
        return max(delta, 0) / 1e3 / self.d_j / give

    def stresses(self, p, n):
        """Tangential stress of the ring at its seat and at its raceway."""
        i, j, o = self.d_i**2, self.d_j**2, self.d_o**2
        raceway = self.d_o if self.cone else self.d_i
        turning = STEEL.turning(self.d_j, raceway, n), STEEL.turning(raceway, self.d_j, n)
        if self.cone:
            return p * (o + j) / (o - j) + turning[0], 2 * p * j / (o - j) + turning[1]
        return -p * (j + i) / (j - i) + turning[0], -2 * p * j / (j - i) + turning[1]

    def raceway(self, p):
        """How much the raceway grows (cone) or shrinks (cup), in um."""
        i, j, o = self.d_i**2, self.d_j**2, self.d_o**2
        if self.cone:
            return 1e3 * 2 * p * j * self.d_o / (STEEL.E * (o - j))
        return 1e3 * 2 * p * j * self.d_i / (STEEL.E * (j - i))


JOINTS = {ring: (Joint(ring, 0), Joint(ring, 1)) for ring in ("cone", "cup")}


def of_joint(joint):
    """Return every figure of one ring on its seat by name."""
    cone, at = joint.cone, joint.at
    seat, ends = ("shaft", "bore") if cone else ("housing", "outside diameter")
    part, moves = ("cone", "growth") if cone else ("housing", "shrinkage")
    running, p = joint.running(), {end: joint.pressure(one) for end, one in joint.mounted.items()}
    at_tight, at_rest = joint.stresses(joint.pressure(running["greatest"]), joint.n), joint.stresses(p["greatest"], 0)
    alpha = math.radians(taken("alpha")[at])
    loose, area = joint.pressure(running["least"]), math.pi * joint.d_j * joint.width
    play = taken(f"play for the {joint.ring} to slide", SEATS)[at]
    missing = [made - metric for made, metric in zip(joint.made, joint.metric, strict=True)]
    heat = ROOM + max(joint.cold["greatest"] + play, 0) / 1e3 / joint.d_j / joint.outer.alpha
    found = {
        "how the load goes round it": "point" if cone else "circumferential",
        f"class of the {seat}": joint.name, "where the class comes from": "recommended",
        f"{ends}, upper deviation": joint.own[0], f"{ends}, lower deviation": joint.own[1],
        f"{seat} to make, upper limit": joint.made[0], f"{seat} to make, lower limit": joint.made[1],
        f"{seat} of metric rings, upper": joint.metric[0], f"{seat} of metric rings, lower": joint.metric[1],
        # metric limits on an inch ring: the shaft too small, the housing too
        "these used here: loose end": -missing[1] if cone else missing[0],
        "these used here: tight end": -missing[0] if cone else missing[1],
        f"radial runout of the {joint.ring}, at most": RUNOUT,
        "lost by smoothing, at the mean": joint.cold["mean"] - joint.mounted["mean"],
        "pressure, mounted, mean": p["mean"], "pressure, mounted, greatest": p["greatest"],
        "pressure in operation, least": loose,
        "tension at the seat, mounted": at_rest[0], "tension at the seat, running": at_tight[0],
        "tension at the raceway, running": at_tight[1],
        f"raceway {moves}, mounted, mean": joint.raceway(p["mean"]),
        f"raceway {moves}, mounted, most": joint.raceway(p["greatest"]),
        f"raceway {moves}, running, mean": joint.raceway(joint.pressure(running["mean"])),
        "end play closed by it, mean": joint.raceway(p["mean"]) / (2 * math.tan(alpha)),
        "torque held, loose end": taken("friction, holding", SEATS)[at] * loose * area * joint.d_j / 2 / 1e3,
        f"{part} slides at": heat,
        "force to press it on, at most": taken("friction, pressing on", SEATS)[at] * p["greatest"] * area,
        "force to pull it off, at most": taken("friction, pulling off", SEATS)[at] * p["greatest"] * area,
    }  # fmt: skip
    if cone:
        level = max(equivalent(case)[at] for case in CASES) / bearing("basic dynamic rating")[at]
        found |= {
            "load level by P/C of the worst case": "heavy" if level > 0.15 else "normal" if level > 0.07 else "light",
            "width T, upper deviation": INCH_WIDTH[0], "width T, lower deviation": INCH_WIDTH[1],
            "cone width B, upper deviation": "not at hand", "cone width B, lower deviation": "not at hand",
            "how it goes on": "by hand" if heat <= ROOM else "heated" if heat <= 120 else "pressed",
        }  # fmt: skip
    for end in ENDS:
        found |= {f"interference, {end}": joint.cold[end], f"in operation, {end}": running[end]}
    return found


def needed(case, at):
    """Interference against creep: the larger of 0.08 sqrt(D Fr/C) and 0.02 Fr/C, in um."""
    D, width, Fr = bearing("outside diameter")[at], bearing("cup width")[at], loads(case)[0][at]
    return max(0.08 * math.sqrt(D * Fr / width), 0.02 * Fr / width)


def creep():
    """Return what the cup needs in each case, and how many times it is there."""
    title, found = "Cup against creep", {}
    for case in CASES:
        asked = [needed(case, at) for at in (0, 1)]
        found[title, f"case {case}, interference needed"] = tuple(asked)
        for end in ENDS[:3]:
            there = [max(joint.running()[end], 0.0) for joint in JOINTS["cup"]]
            found[title, f"case {case}, margin, {end}"] = (there[0] / asked[0], there[1] / asked[1])
    return found


def growth(T):
    """Strain of a ring of this steel over the required life: literature on retained austenite, as the report has it."""
    steel = figures("Steel of the rings")
    whole = 1e-4 * number(steel["retained austenite"][0])
    limit = number(steel["limit in service"][0])
    rate = -math.log(1 - min(1e-4 / whole, 1 - math.exp(-1))) / 2500
    rate *= math.exp(-120_000 / 8.314 * (1 / (T + 273.15) - 1 / (limit + 273.15)))
    return -whole * math.expm1(-rate * LIFE)


def redone():
    """Return every figure of the seats, by section and name."""
    found = creep()
    for joints in JOINTS.values():
        A, B = (of_joint(joint) for joint in joints)
        found |= {(joints[0].title, name): (A[name], B[name]) for name in A}
    bores = bearing("bore")
    found["Steel of the rings", "growth of the cone's bore in its life"] = tuple(1e3 * d * growth(WARM) for d in bores)
    return found
