"""Demand and capacity of every check, redone from the answers and from the figures that were redone."""

import math

from tests.engine.report.by_hand import loads, oil, rollers, seats, setting
from tests.engine.report.by_hand.printed import (
    CASES,
    LIFE,
    SECTIONS,
    SHARES,
    SPEEDS,
    answer,
    assumed,
    bearing,
    figures,
    number,
)  # fmt: skip

BOTH = (0, 1)
#: IT4 and IT5 of ISO 286-1: 80 to 120 mm, 120 to 180 mm, in um.
IT4, IT5 = 10, 18
STEEL = {name: number(texts[0]) for name, texts in figures("Steel of the rings").items() if texts[0][0].isdigit()}


def rows():
    """Return the checks as printed, by the name before the colon and the side."""
    found = [row for row in SECTIONS["Checks"] if len(row) == 8 and row[0] not in ("check", "---")]
    return {(row[0].partition(":")[0], row[1]): row for row in found}


def of_sides(found, name, of):
    """Add a check of both bearings."""
    for at in BOTH:
        found[name, "AB"[at]] = of(at)


def closed():
    """Return the checks by the closed formulas."""
    found = {}
    lives = loads.over_cases([[life[2] for life in loads.lives(case)] for case in CASES])
    wanted = number(assumed("Static safety s0 wanted"))
    P = [[loads.equivalent(case)[at] for case in CASES] for at in BOTH]
    kappa = [[oil.KAPPA[case][at] for case in CASES] for at in BOTH]
    hot, fastest = number(answer("Steel", "Highest ring temperature")), number(answer("Speed", "Highest speed ever"))
    found["Load centres stay apart", "pair"] = 1, loads.Z_B - loads.Z_A
    found["Life of the pair", "pair"] = LIFE, loads.of_both(lives)
    of_sides(found, "Life of the bearing", lambda at: (LIFE, lives[at]))
    of_sides(found, "Static safety", lambda at: (wanted, loads.C0[at] / max(loads.static(case)[at] for case in CASES)))
    of_sides(found, "Load within the life method", lambda at: (max(P[at]), loads.C[at] / 2))
    of_sides(found, "Film within the life method", lambda at: (0.1, min(kappa[at])))
    of_sides(found, "Lubricant film", lambda at: (0.4, min(kappa[at])))
    of_sides(found, "Film not thicker than counts", lambda at: (max(kappa[at]), 4))
    of_sides(found, "Rollers roll, not skid", lambda at: (0.02 * loads.C[at], min(P[at])))
    found["Bore fits", "A"] = number(answer("Envelope", "Bore at A")), bearing("bore")[0]
    found["Outside diameter fits", "A"] = (
        bearing("outside diameter")[0], number(answer("Envelope", "Outside diameter at A")),
    )  # fmt: skip
    of_sides(found, "Limiting speed", lambda at: (fastest, bearing("limiting speed, grease")[at]))
    of_sides(found, "Steel stands the heat", lambda at: (hot, bearing("limit of the steel")[at]))
    return found | lubricated()


def lubricated():
    """Return the checks of film, heat and grease."""
    found = {}
    films = [oil.of_case(case, (loads.loads(case)[0], loads.loads(case)[2])) for case in CASES]

    def each(words, at):
        return [values[at] for film in films for (_, name), values in film.items() if name == words]

    def safe(at):
        return max((n / one, n, one) for n, one in zip(
            SPEEDS, each("thermally safe speed at this temperature", at), strict=True))[1:]  # fmt: skip

    def lasts(at):
        return 1 / sum(q / t for q, t in zip(SHARES, each("regreasing interval in this case", at), strict=True))

    of_sides(found, "Film over roughness", lambda at: (1, min(each("film over roughness", at))))
    of_sides(found, "Rib speed suits the lubrication", lambda at: (max(each("mean rib speed", at)), 5))
    of_sides(found, "Thermal reference speed", lambda at: (max(SPEEDS), oil.reference_speed(at)))
    of_sides(found, "Speed is thermally safe", safe)
    of_sides(found, "Grease lasts", lambda at: (number(assumed("Regreasing interval wanted")), lasts(at)))
    return found


def seated():
    """Return the checks of seats and steel; a flaw of 0.5 mm by K = 1.12 sigma sqrt(pi a)."""
    found, cups, cones = {}, seats.JOINTS["cup"], seats.JOINTS["cone"]
    factor = max(number(answer("Duty", "Application factor", case)) for case in CASES)
    stands = STEEL["toughness of the core"] / (1.12 * math.sqrt(math.pi * 0.5e-3))

    def tension(at):
        joint = cones[at]
        running = joint.stresses(joint.pressure(joint.running()["greatest"]), joint.n)[0]
        return max(joint.stresses(joint.pressure(joint.mounted["greatest"]), 0)[0], running)

    def creeps(end):
        def of(at):
            return max(seats.needed(case, at) for case in CASES), max(cups[at].running()[end], 0.0)

        return of

    assert answer("Steel", "Abrasive dirt at the rings") == "kept out"
    of_sides(found, "Rings bear their fit", lambda at: (tension(at), STEEL["lasting tension allowed"]))
    of_sides(found, "Core stands the shock", lambda at: (tension(at) * factor, stands))
    of_sides(found, "Steel suits the dirt", lambda at: (0, STEEL["place in dirt (0 to 2)"]))  # noqa: ARG005
    of_sides(found, "Twin shaft can be made", lambda at: (IT4, cones[at].made[0] - cones[at].made[1]))
    of_sides(found, "Twin housing can be made", lambda at: (IT5, cups[at].made[0] - cups[at].made[1]))
    of_sides(found, "Cup does not roll in its seat", lambda at: (math.pi * max(-cups[at].running()["mean"], 0.0), 0.0))
    of_sides(found, "Cup holds at the loose end", creeps("least"))
    of_sides(found, "Cup holds at the mean fit", creeps("mean"))
    return found


def on_rollers():
    """Return the checks of the load distribution, but for the chances."""
    middle, half = (setting.LOW + setting.HIGH) / 2, (setting.HIGH - setting.LOW) / 2
    at_rest = [rollers.of_case(case, setting.SERVICE) for case in CASES]
    where = [rollers.at_setting(case, setting.SERVICE) for case in CASES]
    dents = 4000 / math.sqrt(number(assumed("Static safety s0 wanted")))
    assert all(assumed(f"Load case {case}, shock factor") == "1" for case in CASES)
    off = abs(setting.SERVICE - middle)
    found = {
        ("Setting within the band", "pair"): (off if off > 1e-9 else 0, half),
        ("Life by load distribution", "pair"): (LIFE, loads.of_both(rollers.lives_at(setting.SERVICE, where)[1])),
        ("Range of settings in the band", "pair"): (abs(setting.SERVICE - middle) + setting.RSS, half),
        ("Preload does not feed itself", "pair"): (max(setting.gain(), 0), 1),
    }
    of_sides(found, "Greatest contact pressure", lambda at: (max(one["greatest pressure"][at] for one in at_rest),
                                                             dents))  # fmt: skip
    of_sides(found, "Pressure at the roller ends", lambda at: (
        max(one["pressure at the roller ends"][at] for one in at_rest), dents))  # fmt: skip
    of_sides(found, "Load zone", lambda at: (120, min(one["load zone"][at] for one in at_rest)))
    return found


def redone():
    """Return demand and capacity of every check that is redone, by name and side."""
    return closed() | seated() | on_rollers()
