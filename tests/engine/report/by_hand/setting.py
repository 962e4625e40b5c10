"""From the bench into service, life against setting and the pair at its setting, redone from what is printed."""

import math

import numpy as np

from tests.engine.report.by_hand import rollers
from tests.engine.report.by_hand.loads import ALPHA, of_both
from tests.engine.report.by_hand.oil import DPW, DWE, WIDTH
from tests.engine.report.by_hand.printed import (
    CASES,
    NAMES,
    answer,
    assumed,
    bearing,
    figures,
    number,
    taken,
)  # fmt: skip
from tests.engine.report.by_hand.seats import JOINTS, ROOM, STEEL, WARM, Material, growth

CHAIN, CURVE, CHANCES = (
    "The setting: end play of the pair, negative for preload", "Life against setting",
    "Life and chances at the setting in service",
)  # fmt: skip
BOTH = (0, 1)
NU = [math.radians(one) for one in taken("nu (beta)")]
ACROSS = [DWE[at] * math.cos(ALPHA[at] - NU[at]) for at in BOTH]
DISTANCE = number(answer("Duty", "Distance between the bearings"))
CONTACT = taken("middle of the cup contact")
OVER = number(assumed("Cone hotter than the cup"))
TEMPERATURES = {
    "cone": WARM + OVER / 2, "shaft": WARM + OVER / 2 - number(assumed("Cone hotter than the shaft")),
    "cup": WARM - OVER / 2, "housing": WARM - OVER / 2 - number(assumed("Cup hotter than the housing")),
}  # fmt: skip
TOLERANCE = number(assumed("Fitter's tolerance, plus/minus"))
KEEPS = number(assumed("Band of long life keeps")) / 100


def share(ring, at):
    """Growth of a raceway per interference; of the thick cylinders with the raceway circles of the rollers."""
    joint = type(JOINTS[ring][at])(ring, at)
    if ring == "cone":
        joint.d_o = DPW[at] - ACROSS[at]
    else:
        joint.d_i = DPW[at] + ACROSS[at]
    return joint.raceway(joint.pressure(10.0)) / 10.0


SHARE = {(ring, at): share(ring, at) for ring in ("cone", "cup") for at in BOTH}
NOMINAL = {"bench": 0.0} | {f"{ring} {at}": JOINTS[ring][at].mounted["mean"] / 1e3 for ring in JOINTS for at in BOTH}
NOMINAL |= TEMPERATURES | {"growth cone": growth(TEMPERATURES["cone"]), "growth cup": growth(TEMPERATURES["cup"])}
HALF = {"bench": TOLERANCE} | dict.fromkeys(TEMPERATURES, number(assumed("Temperatures known within")))
for _ring, _pair in JOINTS.items():
    for _at in BOTH:
        _ends = _pair[_at].mounted
        HALF[f"{_ring} {_at}"] = (_ends["probable greatest"] - _ends["probable least"]) / 2e3
HALF |= {"growth cone": 0.5 * NOMINAL["growth cone"], "growth cup": 0.5 * NOMINAL["growth cup"]}


def strains(of):
    """Return the strain of every part."""
    shaft, housing = Material("shaft"), Material("housing")
    return {
        "cone": STEEL.alpha * (of["cone"] - ROOM) + of["growth cone"],
        "cup": STEEL.alpha * (of["cup"] - ROOM) + of["growth cup"],
        "roller": STEEL.alpha * ((of["cone"] + of["cup"]) / 2 - ROOM),
        "shaft": shaft.alpha * (of["shaft"] - ROOM), "housing": housing.alpha * (of["housing"] - ROOM),
    }  # fmt: skip


def lost_to_fits(of):
    """End play that the fits take, at the warmth that they have."""
    e, total = strains(of), 0.0
    for at in BOTH:
        cone = max(of[f"cone {at}"] + bearing("bore")[at] * (e["shaft"] - e["cone"]), 0.0)
        cup = max(of[f"cup {at}"] + bearing("outside diameter")[at] * (e["cup"] - e["housing"]), 0.0)
        total += (SHARE["cone", at] * cone + SHARE["cup", at] * cup) / (2 * math.tan(ALPHA[at]))
    return total


def lost_to_warmth(of):
    """End play that free growth takes: across in each bearing, along between them (back to back: a shaft opens)."""
    e, across = strains(of), 0.0
    for at in BOTH:
        F, E = DPW[at] - ACROSS[at], DPW[at] + ACROSS[at]
        across += (e["cone"] * F / 2 + e["roller"] * ACROSS[at] - e["cup"] * E / 2) / math.tan(ALPHA[at])
    contacts, cups = DISTANCE - sum(CONTACT), DISTANCE - sum(WIDTH)
    inside = e["shaft"] * DISTANCE + e["cone"] * (contacts - DISTANCE)
    outside = e["housing"] * cups + e["cup"] * (contacts - cups)
    return across - (inside - outside)


COLD = dict.fromkeys(TEMPERATURES, ROOM) | {"growth cone": 0.0, "growth cup": 0.0}


def service(of):
    """Return the setting in service, measured on the bench with the rings on their seats."""
    return of["bench"] + lost_to_fits(of | COLD) - lost_to_fits(of) - lost_to_warmth(of)


def parts(of):
    """Return by how much each quantity moves the setting at most."""
    middle = service(of)
    return {
        name: max(abs(service(of | {name: of[name] + way * half}) - middle) for way in (1, -1))
        for name, half in HALF.items()
    }


def summit(life):
    """Top of the parabola through the logarithm of the three highest."""
    at = int(np.argmax(life))
    x, y = rollers.GRID[at - 1 : at + 2] - rollers.GRID[at], np.log(life[at - 1 : at + 2])
    square = (y[0] - 2 * y[1] + y[2]) / (2 * x[2] ** 2)
    line = (y[2] - y[0]) / (2 * x[2])
    return rollers.GRID[at] - line / (2 * square), math.exp(y[1] - line**2 / (4 * square))


def band(life):
    """Return the settings between which life keeps its share of the longest, along straight lines."""
    floor, at, ends = KEEPS * summit(life)[1], int(np.argmax(life)), []
    for way in (-1, 1):
        i = at
        while life[i + way] >= floor:
            i += way
        ends.append(rollers.GRID[i] + (life[i] - floor) / (life[i] - life[i + way]) * way * 2 * rollers.G / 48)
    return ends[0], ends[1]


LOW, HIGH = band(rollers.curve()[0])
#: The bench setting that leads into the middle of the band.
BENCH = (LOW + HIGH) / 2 - service(NOMINAL)
AIMED = NOMINAL | {"bench": BENCH}
SERVICE = service(AIMED)
MOVES = parts(AIMED)
RSS, WORST = math.sqrt(sum(one**2 for one in MOVES.values())), sum(MOVES.values())
#: What all but the fitter leaves of the band.
REST = math.sqrt(RSS**2 - MOVES["bench"] ** 2)


def chain():
    """Return every figure of the way from the bench into service."""
    warm = AIMED | {"growth cone": 0.0, "growth cup": 0.0}
    assert REST > (HIGH - LOW) / 2  # so that the tolerance is all that is said to the fitter
    found = {
        "class of the shaft": tuple(joint.name for joint in JOINTS["cone"]),
        "class of the housing": tuple(joint.name for joint in JOINTS["cup"]),
        "cone on shaft, mean interference": (NOMINAL["cone 0"], NOMINAL["cone 1"]),
        "cup in housing, mean interference": (NOMINAL["cup 0"], NOMINAL["cup 1"]),
        "temperature of the cones": (TEMPERATURES["cone"],), "temperature of the shaft": (TEMPERATURES["shaft"],),
        "temperature of the cups": (TEMPERATURES["cup"],), "temperature of the housing": (TEMPERATURES["housing"],),
        "growth of the cones over the life": (NOMINAL["growth cone"],),
        "on the bench": (BENCH,), "with the rings on their seats": (BENCH,), "warm": (service(warm),),
        "what the fitter may leave there, from": (BENCH - TOLERANCE,),
        "what the fitter may leave there, to": (BENCH + TOLERANCE,),
        "in service, with the rings grown": (SERVICE,),
        "least in service, probable": (SERVICE - RSS,), "greatest in service, probable": (SERVICE + RSS,),
        "least in service, worst case": (SERVICE - WORST,), "greatest in service, worst case": (SERVICE + WORST,),
        "+/- by the fitter": (MOVES["bench"],),
    }  # fmt: skip
    for ring in JOINTS:
        found |= {f"+/- by the {ring}'s fit at {'AB'[at]}": (MOVES[f"{ring} {at}"],) for at in BOTH}
        found[f"+/- by the {ring}s' temperature"] = (MOVES[ring],)
    found |= {f"+/- by the {part}'s temperature": (MOVES[part],) for part in ("shaft", "housing")}
    return {(CHAIN, name): values for name, values in found.items()}


def gain():
    """Gain from heat to preload to heat at the tight end of the probable range."""
    ambient = taken("temperature of the surroundings")[0]
    rise = WARM - ambient
    warmer = {part: T + (T - ambient) / rise for part, T in TEMPERATURES.items()}
    shift = service(NOMINAL | warmer) - service(NOMINAL)
    heat = rollers.curve()[1]
    step = rollers.GRID[1] - rollers.GRID[0]
    between = np.diff(heat) / step
    slope = np.concatenate([between[:1], (between[1:] + between[:-1]) / 2, between[-1:]])
    return float(np.interp(SERVICE - RSS, rollers.GRID, slope * shift / sum(taken("heat carried off"))))


def life_curve():
    """Return every figure of life against setting."""
    life, heat = rollers.curve()
    stiff = [rollers.balance(rollers.at_setting(case, SERVICE), SERVICE, rollers.places(case)[0])[1] for case in CASES]
    least = [min(K[at, at] for K in stiff) for at in range(5)]
    top = summit(life)
    found = {
        "setting of the longest life": (top[0],), "life of the pair there": (top[1],),
        "band of long life, from": (LOW,), "band of long life, to": (HIGH,),
        "bench settings that keep it, from": ("none",), "bench settings that keep it, to": ("none",),
        "stiffness radially in plane y": (least[0],), "stiffness radially in plane z": (least[1],),
        "stiffness along the shaft": (least[2],),
        "stiffness against tilting in plane y": (least[3],), "stiffness against tilting in plane z": (least[4],),
        "heat by load-dependent friction": (float(np.interp(SERVICE, rollers.GRID, heat)),),
        "gain from heat to preload to heat": (gain(),),
    }  # fmt: skip
    for at in range(0, 49, 4):
        found[f"life at {rollers.GRID[at] + 0.0:+.4f} mm"] = (life[at],)
    return {(CURVE, name): values for name, values in found.items()}


def redone():
    """Return every figure of the setting, by section and name."""
    where = [rollers.at_setting(case, SERVICE) for case in CASES]
    basic, modified = rollers.lives_at(SERVICE, where)
    found = chain() | life_curve() | {
        (CHANCES, "basic reference life over all cases"): basic,
        (CHANCES, "modified reference life over all cases"): modified,
        (CHANCES, "life of both as a system"): (of_both(modified),),
    }  # fmt: skip
    for case in CASES:
        title = f"At its setting, load case {case}: {NAMES[case]}"
        found |= {(title, name): values for name, values in rollers.of_case(case, SERVICE).items()}
    assert "none" not in figures(CHAIN)["on the bench"]
    return found
