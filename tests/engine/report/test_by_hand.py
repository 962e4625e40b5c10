"""Who has only the report can redo the calculation: here it is redone, from the numbers printed in it and nothing else.

The formulas are typed from the standards that the report names; only `math` is used. What the report prints is read
from the file that stands beside the example record.
"""

import math
import re

import pytest

from tests.unmoved.write_examples import UNFOLDED, pictured, unfolded

TEXT = UNFOLDED.with_suffix(".md").read_text("utf-8")
#: Inputs are printed with six digits, some figures on the way with four: what follows from them is off by so much.
OFF = 2e-4


def sections():
    """Return the tables of the report by section: rows of cells."""
    found = {}
    for part in TEXT.split("\n## ")[1:]:
        title, _, body = part.partition("\n")
        rows = [re.split(r"(?<!\\)\|", line)[1:-1] for line in body.splitlines() if line.startswith("| ")]
        found[title] = [[cell.strip().replace("\\", "") for cell in row] for row in rows]
    return found


SECTIONS = sections()


def number(text):
    """Return a printed number: in brackets where what was typed stands before it in another unit."""
    within = re.search(r"\(([^()]*\d[^()]*)\)", text)
    found = re.search(r"-?\d[\d ]*(?:\.\d+)?(?:e[+-]?\d+)?", within[1] if within else text)
    return float(found[0].replace(" ", ""))


class Printed:
    """A printed figure: equal to what differs from it by no more than its last digit and the inputs' rounding allow."""

    def __init__(self, text):
        self.text, self.value = text, number(text)
        digits = text.replace(" ", "").lstrip("~-")
        decimals = len(digits.partition(".")[2])
        self.room = 0.5 * 10.0**-decimals if "e" not in digits else 0.001 * abs(self.value)
        if "." not in digits and len(digits) > 4:  # a number before the point is rounded to the figures shown
            self.room = 0.5 * 10.0 ** max(0, len(digits) - 5)

    def __eq__(self, other):
        return abs(other - self.value) <= self.room + OFF * abs(self.value)

    __hash__ = None

    def __repr__(self):
        return f"printed {self.text}"


def figures(title):
    """Return the figures of a section by name: the texts at A and at B."""
    # the shortest: "Load case 1: digging, film and heat" is a section of its own
    key = min((one for one in SECTIONS if one == title or one.startswith(f"{title}:")), key=len)
    return {row[1]: (row[2], row[3] or row[2]) for row in SECTIONS[key] if len(row) == 6}


def answer(title, label, at=1):
    """Return an answer as printed; of a load case `at` is its number."""
    return next(row[at] for row in SECTIONS[f"Answered: {title}"] if row[0] == label)


def bearing(name):
    return tuple(number(text) for text in figures("Bearings")[name])


CASES = (1, 2)
A1 = 0.95 * (math.log(100 / number(answer("Duty", "Reliability"))) / math.log(100 / 90)) ** (2 / 3) + 0.05


def test_the_report_beside_the_record_is_the_one_that_is_written_today():
    assert unfolded() == TEXT, "write it anew: python -m tests.unmoved.write_examples"
    assert pictured() == UNFOLDED.with_suffix(".svg").read_text("utf-8")


def test_load_centres_and_spread():
    """Back to back, distance between the cone back faces: each load centre lies a inboard of its back face."""
    a, distance = bearing("load centre from cone back face"), number(answer("Duty", "Distance between the bearings"))
    assert answer("Duty", "Arrangement").startswith("back to back")
    assert answer("Duty", "Distance is measured between") == "the cone back faces"
    z = (a[0], distance - a[1])
    pair = figures("The pair")
    assert (Printed(pair["load centre along the shaft"][0]), Printed(pair["load centre along the shaft"][1])) == z
    assert Printed(pair["effective spread"][0]) == z[1] - z[0]


def loads(case):
    """Return Fr and Fa of A and B in a case, by statics and the axial equilibrium of two adjusted bearings."""
    a, distance = bearing("load centre from cone back face"), number(answer("Duty", "Distance between the bearings"))
    z_A, z_B = a[0], distance - a[1]
    factor = number(answer("Duty", "Application factor", case))
    force = factor * number(answer("Duty", "Radial force, plane y", case))
    position = number(answer("Duty", "Position of the radial force", case))
    R_B = force * (position - z_A) / (z_B - z_A)
    Fr = (abs(force - R_B), abs(R_B))
    thrust = factor * number(answer("Duty", "Axial force", case))
    K = thrust if answer("Duty", "Axial force pushes the shaft", case) == "towards B" else -thrust
    S_A, S_B = (F / (2 * Y) for F, Y in zip(Fr, bearing("axial load factor"), strict=True))
    # back to back: a thrust towards B is taken by A
    return Fr, (max(S_A, S_B + K), max(S_B, S_A - K))


def equivalent(case):
    """ISO 281, clause 7.3: P = Fr up to Fa/Fr = e, above it 0.4 Fr + Y Fa."""
    Fr, Fa = loads(case)
    e, Y = bearing("limiting ratio Fa/Fr"), bearing("axial load factor")
    return tuple(
        Fr[at] if Fa[at] / Fr[at] <= e[at] else 0.4 * Fr[at] + Y[at] * Fa[at] for at in (0, 1)
    )  # fmt: skip


def film(case):
    """Return kappa of A and B: ISO 281, clause 9.3.3.4, viscosity by ASTM D341 (above 2 mm2/s Z is nu + 0.7)."""
    pair, here = figures("The pair"), figures(f"Load case {case}")
    everything = {name: texts for title in SECTIONS for name, texts in six(title).items()}
    nu40, nu100 = (number(everything[f"viscosity at {t} degC"][0]) for t in (40, 100))
    assert pair and here
    W = [math.log10(math.log10(nu + 0.7)) for nu in (nu40, nu100)]
    logs = [math.log10(t + 273.15) for t in (40.0, 100.0)]
    B = (W[0] - W[1]) / (logs[1] - logs[0])
    found = []
    for at, Dpw in enumerate(bearing("pitch diameter")):
        T, n = number(here["temperature"][at]), number(here["speed"][at])
        nu = 10 ** (10 ** (W[0] + B * (logs[0] - math.log10(T + 273.15)))) - 0.7
        nu1 = 45_000 * n**-0.83 * Dpw**-0.5 if n < 1000 else 4500 * n**-0.5 * Dpw**-0.5
        found.append((nu, nu1))
    return found


def six(title):
    return {row[1]: (row[2], row[3] or row[2]) for row in SECTIONS[title] if len(row) == 6}


def modified(case):
    """ISO 281, clause 9.3.3.4 and Annex A: a_ISO of a roller bearing, grease, normal cleanliness."""
    assert answer("Lubrication", "Cleanliness") == "normal"
    assert "grease" in answer("Lubrication", "Lubricant and supply")
    found = []
    for at, (nu, nu1) in enumerate(film(case)):
        Dpw, kappa = bearing("pitch diameter")[at], min(nu / nu1, 4.0)
        e_C = min(0.0432 * kappa**0.68 * Dpw**0.55, 1.0) * (1 - 1.141 / Dpw ** (1 / 3))
        load = e_C * bearing("fatigue load limit")[at] / equivalent(case)[at]
        assert kappa >= 1.0
        a_iso = min(0.1 * (1 - (1.5859 - 1.2348 / kappa**0.071739) * load**0.4) ** -9.185, 50.0)
        found.append((e_C, a_iso))
    return found


def lives(case):
    """ISO 281, clauses 7.4 and 9.1: basic and modified life in hours."""
    n = number(answer("Duty", "Speed", case))
    found = []
    for at, P in enumerate(equivalent(case)):
        L10h = (bearing("basic dynamic rating")[at] / P) ** (10 / 3) * 1e6 / (60 * n)
        found.append((L10h, A1 * modified(case)[at][1] * L10h))
    return found


@pytest.mark.parametrize("case", CASES)
def test_loads_of_each_case(case):
    here, (Fr, Fa) = figures(f"Load case {case}"), loads(case)
    Y0 = bearing("static axial load factor")
    for at in (0, 1):
        assert Printed(here["radial load, with what turns with the shaft"][at]) == Fr[at]
        assert Printed(here["induced axial load"][at]) == Fr[at] / (2 * bearing("axial load factor")[at])
        assert Printed(here["axial load"][at]) == Fa[at]
        assert Printed(here["equivalent dynamic load"][at]) == equivalent(case)[at]
        # ISO 76, clause 7.3
        assert Printed(here["equivalent static load, peaks included"][at]) == max(
            Fr[at], 0.5 * Fr[at] + Y0[at] * Fa[at]
        )  # fmt: skip


@pytest.mark.parametrize("case", CASES)
def test_film_contamination_and_lives_of_each_case(case):
    here = figures(f"Load case {case}")
    for at in (0, 1):
        nu, nu1 = film(case)[at]
        e_C, a_iso = modified(case)[at]
        L10h, Lnmh = lives(case)[at]
        assert Printed(here["viscosity at this temperature"][at]) == nu
        assert Printed(here["reference viscosity"][at]) == nu1
        assert Printed(here["viscosity ratio"][at]) == nu / nu1
        assert Printed(here["contamination factor"][at]) == e_C
        assert Printed(here["life modification factor"][at]) == a_iso
        assert Printed(here["basic rating life"][at]) == L10h
        assert Printed(here["modified rating life"][at]) == Lnmh


def test_the_pair_and_the_verdict():
    """Palmgren-Miner over the cases, ISO/TR 1281-1 for the pair, ISO 76 for the static safety."""
    pair = figures("The pair")
    shares = [number(answer("Duty", "Share of running time", case)) / 100 for case in CASES]
    assert Printed(pair["reliability factor"][0]) == A1
    over = [
        [1 / sum(q / lives(case)[at][kind] for q, case in zip(shares, CASES, strict=True)) for kind in (0, 1)]
        for at in (0, 1)
    ]
    for at in (0, 1):
        assert Printed(pair["basic rating life over all cases"][at]) == over[at][0]
        assert Printed(pair["modified life over all cases"][at]) == over[at][1]
        static = [number(figures(f"Load case {c}")["equivalent static load, peaks included"][at]) for c in CASES]
        least = bearing("basic static rating")[at] / max(static)
        assert Printed(pair["static safety, worst case"][at]) == least
    system = sum(over[at][1] ** (-9 / 8) for at in (0, 1)) ** (-8 / 9)
    assert Printed(pair["modified life of both as a system"][0]) == system
    wanted = number(answer("Duty", "Required life"))
    check = next(row for row in SECTIONS["Checks"] if row[0].startswith("Life of the pair"))
    assert Printed(check[5]) == wanted / system
    assert ("The pair PASSES every check" in TEXT) == (wanted <= system)


def test_each_formula_that_was_needed_stands_in_the_report_with_its_source():
    unescaped = TEXT.replace("\\", "")
    for formula in (
        "P = Fr for Fa/Fr <= e; P = 0.4 Fr + Y Fa for Fa/Fr > e",
        "S = Fr / (2 Y)",
        "kappa = nu / nu1",
        "1.2348",
        "log10(log10(Z)) = A - B log10(T + 273.15), Z = nu + 0.7",
        "Lnm = a1 a_ISO L10",
    ):
        assert formula.replace(" ", "") in unescaped.replace(" ", ""), formula
    for source in ("ISO 281:2007", "ISO 76:2006", "ASTM D341", "Palmgren-Miner", "ISO/TR 1281-1"):
        assert source in unescaped


# the seats


def constant(words):
    """Return a constant of the seats at A and at B."""
    cells = next(row for row in SECTIONS["Constants of the seats"] if row[0] == words)
    return tuple(number(text) for text in cells[1:3])


def material(part):
    """Return E, nu and alpha of what a part is made of."""
    cells = next(row for row in SECTIONS["Constants of the seats"] if row[1] == part)
    return number(cells[2]), number(cells[3]), number(cells[4]) * 1e-6


class Joint:
    """A seat as it is drawn: diameters inside, of the joint and outside, its parts, width, limits."""

    def __init__(self, ring, at):
        self.title = "Cone on the shaft" if ring == "cone" else "Cup in the housing"
        self.at, seat = at, "shaft" if ring == "cone" else "housing"
        ends = "bore" if ring == "cone" else "outside diameter"
        sizes = ("bore", "cone raceway diameter") if ring == "cone" else ("cup raceway diameter", "outside diameter")
        self.width = bearing(f"{ring} width")[at]
        self.ring = (self.of(f"{ends}, upper deviation"), self.of(f"{ends}, lower deviation"))
        self.seat = (self.of(f"{seat} to make, upper limit"), self.of(f"{seat} to make, lower limit"))
        near, far = (bearing(name)[at] for name in sizes)
        steel, other = material("rings"), material(seat)
        warm = number(figures("Load case 1")["temperature"][at])
        cooler = assumed("Cone hotter than the shaft" if ring == "cone" else "Cup hotter than the housing")
        Rz = (constant(f"roughness Rz of the {seat}")[at] + constant("roughness Rz of the ring")[at]) * 0.8
        self.smoothing = Rz
        if ring == "cone":
            self.d_i, self.d_j, self.d_o = constant("bore of the shaft")[at], near, far
            self.inner, self.outer, self.T = other, steel, (warm - cooler, warm)
            self.limits = self.seat, self.ring
        else:
            self.d_i, self.d_j, self.d_o = near, far, constant("outside diameter of the housing")[at]
            self.inner, self.outer, self.T = steel, other, (warm, warm - cooler)
            self.limits = self.ring, self.seat

    def of(self, name):
        return number(figures(self.title)[name][self.at])

    def printed(self, name):
        return Printed(figures(self.title)[name][self.at])

    def pressure(self, delta):
        """Thick cylinders; delta in um."""
        (E_i, nu_i, _), (E_o, nu_o, _) = self.inner, self.outer
        i, j, o = self.d_i**2, self.d_j**2, self.d_o**2
        return max(delta, 0) / 1e3 / self.d_j / (((o + j) / (o - j) + nu_o) / E_o + ((j + i) / (j - i) - nu_i) / E_i)


def assumed(label):
    line = next(line for line in TEXT.splitlines() if line.startswith(f"- {label}: "))
    return number(line.partition(": ")[2].partition(" (")[0])


@pytest.mark.parametrize("ring", ["cone", "cup"])
@pytest.mark.parametrize("at", [0, 1], ids="AB")
def test_seats(ring, at):
    """Limits, smoothing, warming, pressure, tension, raceway, joining: all from what is printed."""
    joint = Joint(ring, at)
    (upper_in, lower_in), (upper_out, lower_out) = joint.limits
    least, greatest = lower_in - upper_out, upper_in - lower_out
    mean = (least + greatest) / 2
    spread = math.hypot(upper_in - lower_in, upper_out - lower_out) / 2
    ends = {"least": least, "probable least": mean - spread, "mean": mean, "probable greatest": mean + spread,
            "greatest": greatest}  # fmt: skip
    (*_, alpha_i), (*_, alpha_o) = joint.inner, joint.outer
    room = constant("temperature at which limits hold and rings are joined")[at]
    warmed = joint.d_j * 1e3 * (alpha_i * (joint.T[0] - room) - alpha_o * (joint.T[1] - room))
    mounted = {name: min(end, max(end - joint.smoothing, 0)) for name, end in ends.items()}
    for name, end in ends.items():
        assert joint.printed(f"interference, {name}") == end
        # at 42 rpm the growth by turning is a few thousandths of a micrometre
        assert joint.of(f"in operation, {name}") == pytest.approx(mounted[name] + warmed, abs=0.006)
    assert joint.printed("pressure, mounted, mean") == joint.pressure(mounted["mean"])
    p = joint.pressure(mounted["greatest"])
    assert joint.printed("pressure, mounted, greatest") == p
    i, j, o = joint.d_i**2, joint.d_j**2, joint.d_o**2
    tension = p * (o + j) / (o - j) if ring == "cone" else -p * (j + i) / (j - i)
    assert joint.printed("tension at the seat, mounted") == tension
    slides = "cone slides at" if ring == "cone" else "housing slides at"
    heat = room + (greatest + constant(f"play for the {ring} to slide, IT6")[at]) / 1e3 / joint.d_j / alpha_o
    assert joint.printed(slides) == heat
    for words, mu in (("press it on", "pressing on"), ("pull it off", "pulling off")):
        force = constant(f"friction, {mu}")[at] * p * math.pi * joint.d_j * joint.width
        assert joint.printed(f"force to {words}, at most") == force


def test_interference_against_creep():
    """The larger of 0.08 sqrt(D Fr/C) and 0.02 Fr/C, in um; margin: what is there over what is needed."""
    here = figures("Cup against creep")
    for case in CASES:
        for at in (0, 1):
            D, C = bearing("outside diameter")[at], bearing("cup width")[at]
            Fr = number(figures(f"Load case {case}")["radial load, with what turns with the shaft"][at])
            needed = max(0.08 * math.sqrt(D * Fr / C), 0.02 * Fr / C)
            assert Printed(here[f"case {case}, interference needed"][at]) == needed
            there = number(figures("Cup in the housing")["in operation, mean"][at])
            assert Printed(here[f"case {case}, margin, mean"][at]) == max(there, 0) / needed


def test_every_check_is_its_demand_over_its_capacity():
    rows = [row for row in SECTIONS["Checks"] if row[0] not in {"check", "---"} and len(row) == 8]
    assert len(rows) > 40
    for name, _, demand, capacity, _, utilisation, word, _ in rows:
        if utilisation == "unlimited":
            assert number(capacity) == 0 and word in {"mind", "FAILS"}, name
            continue
        used = number(demand) / number(capacity)
        # both are printed with four digits
        assert number(utilisation) == pytest.approx(used, rel=6e-3, abs=1e-6), name
        assert (word == "ok") == (used <= 1), name
