"""Bending of a shaft: against two general-purpose beam libraries, finite elements, and beam tables."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from indeterminatebeam import Beam, PointLoadV, PointTorque, Support
from sympy import symbols
from sympy.physics.continuum_mechanics.beam import Beam as Section

from engine.duty.deflection import (
    STEEL,
    USUAL_LIMITS,
    Load,
    bending,
    bending_stiffness,
    misalignment,
    seat_compliance,
    stepped,
)
from engine.duty.statics import reactions
from tests.printed import printed
from tests.strategies import numbers


def drawn(seed, steps=1, grid=0.0):
    """Draw a shaft 1 m long: loads, moments, supports, sections (some hollow); all on a grid where one is given."""
    draw = np.random.default_rng(seed)

    def laid(*places):
        return np.round(np.array(places) / grid) * grid if grid else np.array(places)

    z_A, z_B = laid(draw.uniform(50, 400), draw.uniform(500, 950)).tolist()
    places = laid(*draw.uniform(0, 1000, 6))
    F = np.append(draw.uniform(-5e3, 5e3, 4), [0, 0])
    M = np.append([0, 0, 0, 0], draw.uniform(-2e5, 2e5, 2))
    cuts = np.unique([0, *laid(*draw.uniform(20, 980, steps - 1)), 1000])
    d_o = draw.uniform(30, 90, len(cuts) - 1)
    return z_A, z_B, Load.of(places, F, M), stepped(0, np.diff(cuts), d_o, d_o * draw.choice([0, 0.3, 0.6], len(d_o)))


class ByLibrary:
    """The same shaft in indeterminatebeam: one section only (it knows no steps), in metres.

    Its queries round and step aside by 1e-7 m, so the function behind them is asked; between two loads it is a cubic,
    whose slope four of its points give exactly.
    """

    def __init__(self, z_A, z_B, load, line):
        beam = Beam(1.0, E=STEEL * 1e6, I=float(line.EI[0]) / STEEL * 1e-12)
        beam.add_supports(Support(z_A / 1e3, (1, 1, 0)), Support(z_B / 1e3, (0, 1, 0)))
        for x, F, M in zip(load.x, load.F, load.M, strict=True):
            beam.add_loads(PointLoadV(float(F), float(x) / 1e3) if F else PointTorque(float(M) / 1e3, float(x) / 1e3))
        beam.analyse()
        self.reactions = [-float(beam.get_reaction(z / 1e3, "y")) for z in (z_A, z_B)]
        self.line = beam._plotting_vectors["d"]["y_lam"]
        self.breaks = np.sort([*load.x, z_A, z_B, 0, 1000])

    def deflection(self, z):
        return 1e3 * float(self.line(z / 1e3))

    def slope(self, z):
        # the longer one of the cubics to both sides of a place
        at = np.searchsorted(self.breaks, z)
        before, behind = self.breaks[at] - self.breaks[at - 1], self.breaks[at + 1] - self.breaks[at]
        h = behind if behind > before else -before
        v = [self.deflection(z + h * part) for part in (1e-9, 1 / 3, 2 / 3, 1 - 1e-9)]
        return (-11 * v[0] + 18 * v[1] - 9 * v[2] + 2 * v[3]) / (2 * h)


def against_library(seed):
    z_A, z_B, load, line = drawn(seed)
    library = ByLibrary(z_A, z_B, load, line)
    size = np.abs(load.F).sum()
    assert reactions(load.x, load.F, load.M, z_A, z_B) == pytest.approx(library.reactions, rel=1e-6, abs=1e-9 * size)
    whole = bending(line, load, z_A, z_B, np.linspace(0, 1000, 101))
    found = bending(line, load, z_A, z_B, [z_A, z_B])
    expected = [library.slope(z_A), library.slope(z_B)]
    assert found.slope == pytest.approx(expected, rel=1e-6, abs=1e-6 * np.abs(whole.slope).max())
    sag = [library.deflection(z) for z in np.linspace(1, 999, 7)]
    assert bending(line, load, z_A, z_B, np.linspace(1, 999, 7)).deflection == pytest.approx(
        sag, rel=1e-6, abs=1e-6 * np.abs(whole.deflection).max()
    )


# a shaft takes it a third of a second; the rest would make the default suite wait for a minute
@pytest.mark.parametrize("seed", range(20))
def test_random_shafts_against_indeterminatebeam(seed):
    against_library(seed)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(20, 200))
def test_many_random_shafts_against_indeterminatebeam(seed):
    against_library(seed)


def by_joined_sections(z_A, z_B, load, line, places):
    """Return reactions and deflections of a shaft of two steps by sympy, in mm.

    It joins sections of its own, and bends what is joined as a cantilever held at its left end; the shaft is then laid
    straight on its supports. Of three sections and more it forgets the slope of the first (sympy 1.14), so that more
    steps are left to the finite elements. Forces point as ours, moments turn the other way.
    """
    (_, step, end), (one, other) = line.edges, line.EI
    beam = Section(float(step), 1, float(one)).join(Section(float(end - step), 1, float(other)), via="fixed")
    A, B = symbols("A B")
    for force, z in ((A, z_A), (B, z_B)):
        beam.apply_load(force, float(z), -1)
    for x, F, M in zip(load.x, load.F, load.M, strict=True):
        beam.apply_load(*((float(F), float(x), -1) if F else (-float(M), float(x), -2)))
    beam.solve_for_reaction_loads(A, B)
    line_of = beam.deflection()
    at_A, at_B, *sag = (float(line_of.subs(beam.variable, z)) for z in (z_A, z_B, *places))
    lean = (at_B - at_A) / (z_B - z_A)
    laid = [v - at_A - lean * (z - z_A) for v, z in zip(sag, places, strict=True)]
    return [-float(beam.reaction_loads[force]) for force in (A, B)], laid


def against_joined_sections(seed):
    z_A, z_B, load, line = drawn(seed, steps=2)
    places = np.linspace(1, 999, 9)
    expected, sag = by_joined_sections(z_A, z_B, load, line, places)
    assert reactions(load.x, load.F, load.M, z_A, z_B) == pytest.approx(expected, rel=1e-9)
    found = bending(line, load, z_A, z_B, places).deflection
    assert found == pytest.approx(sag, rel=1e-8, abs=1e-8 * np.abs(found).max())


@pytest.mark.parametrize("seed", range(500, 502))
def test_random_shafts_of_two_steps_against_sympy(seed):
    against_joined_sections(seed)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(502, 540))
def test_many_random_shafts_of_two_steps_against_sympy(seed):
    against_joined_sections(seed)


def by_finite_elements(z_A, z_B, load, line):
    """Solve the shaft by cubic beam elements, which are exact at their nodes; return places, deflections, slopes."""
    nodes = np.unique([*line.edges, *load.x, z_A, z_B])
    K, f = np.zeros((2 * len(nodes), 2 * len(nodes))), np.zeros(2 * len(nodes))
    for at, (z, h) in enumerate(zip(nodes, np.diff(nodes), strict=False)):
        EI = line.EI[np.searchsorted(line.edges, z + h / 2) - 1]
        K[2 * at : 2 * at + 4, 2 * at : 2 * at + 4] += (EI / h**3) * np.array(
            [[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h],
             [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]]
        )  # fmt: skip
    for x, F, M in zip(load.x, load.F, load.M, strict=True):
        at = 2 * np.searchsorted(nodes, x)
        f[at] += F
        f[at + 1] += M
    held = [2 * np.searchsorted(nodes, z) for z in (z_A, z_B)]
    free = np.setdiff1d(np.arange(len(f)), held)
    moved = np.zeros(len(f))
    moved[free] = np.linalg.solve(K[np.ix_(free, free)], f[free])
    return nodes, moved[::2], moved[1::2]


@pytest.mark.parametrize("seed", range(200))
def test_random_stepped_and_hollow_shafts_against_finite_elements(seed):
    # an independent formulation: stiffness matrices of cubic beam elements, from any book on finite elements; on a grid
    # of 5 mm, since very short elements spoil the matrices
    z_A, z_B, load, line = drawn(1000 + seed, steps=1 + seed % 8, grid=5.0)
    nodes, deflection, slope = by_finite_elements(z_A, z_B, load, line)
    found = bending(line, load, z_A, z_B, nodes)
    assert found.slope == pytest.approx(slope, rel=1e-6, abs=1e-7 * np.abs(slope).max())
    assert found.deflection == pytest.approx(deflection, rel=1e-6, abs=1e-7 * np.abs(deflection).max())


class TestBeamTable:
    """Simple supports, beam table of *Mechanical Engineering Design*, Table A-9 (recalled)."""

    line = stepped(0, [600], 50)
    EI = STEEL * np.pi * 50**4 / 64

    def test_load_in_the_middle(self):
        # sag F l^3 / (48 E I), slope at the ends F l^2 / (16 E I)
        found = bending(self.line, Load.of(300, -4000), 0, 600, [0, 300, 600])
        end = 4000 * 600**2 / (16 * self.EI)
        assert found.slope == pytest.approx([-end, 0, end], abs=1e-9 * end)
        assert found.deflection[1] == pytest.approx(-4000 * 600**3 / (48 * self.EI))

    def test_overhung_load(self):
        # sag at the load F a^2 (l + a) / (3 E I), slope at the near support F a l / (3 E I), at the far one
        # half of it the other way
        found = bending(self.line, Load.of(600, -900), 0, 450, [0, 450, 600])
        near = 900 * 150 * 450 / (3 * self.EI)
        assert found.slope[:2] == pytest.approx([near / 2, -near])
        assert found.deflection[2] == pytest.approx(-900 * 150**2 * 600 / (3 * self.EI))

    def test_moment(self):
        # the moment at an end: slopes M l / (3 E I) there and half of it the other way at the far end
        c_AA, c_AB, c_BA, c_BB = seat_compliance(self.line, 0, 600)
        assert c_AA == pytest.approx(600 / (3 * self.EI))
        assert c_BA == pytest.approx(-600 / (6 * self.EI))
        assert (c_AB, c_BB) == (pytest.approx(c_BA), pytest.approx(c_AA))


@given(st.integers(0, 10_000))
def test_compliance_is_the_same_both_ways(seed):
    """Maxwell: the slope at A by a moment at B is that at B by a moment at A; and the shaft never helps a moment."""
    z_A, z_B, _, line = drawn(seed, steps=1 + seed % 5)
    c_AA, c_AB, c_BA, c_BB = seat_compliance(line, z_A, z_B)
    assert c_AB == pytest.approx(c_BA, rel=1e-8)
    assert c_AA > 0 and c_BB > 0 and c_AA * c_BB > c_AB**2


@given(st.integers(0, 10_000))
def test_a_mirrored_shaft_bends_as_the_mirror_image(seed):
    z_A, z_B, load, line = drawn(seed, steps=1 + seed % 5)
    mirrored = type(line)(1000 - line.edges[::-1], line.EI[::-1])
    one = bending(line, load, z_A, z_B, [z_A, z_B])
    other = bending(mirrored, Load.of(1000 - load.x, load.F, -load.M), 1000 - z_B, 1000 - z_A, [1000 - z_A, 1000 - z_B])
    assert other.slope == pytest.approx(-one.slope, rel=1e-8, abs=1e-9 * np.abs(one.slope).max())


def test_many_pairs_at_once():
    z_A, z_B, load, line = drawn(5, steps=4)
    A, B = z_A + np.array([0, 3, -7.5]), z_B + np.array([0, -20, 11])
    at_once = bending(line, load, A, B, A)
    for pair in range(3):
        alone = bending(line, load, A[pair], B[pair], A[pair])
        assert at_once.slope[pair] == pytest.approx(float(alone.slope), rel=1e-12)


def test_cases_as_rows_of_loads():
    z_A, z_B, load, line = drawn(6, steps=3)
    factors = np.array([1.0, 0.5, 2.0])
    cases = Load.of(load.x, factors[:, None] * load.F, factors[:, None] * load.M)
    A, B = np.array([[z_A], [z_A + 5]]), np.array([[z_B], [z_B]])
    found = bending(line, cases, A, B, A)
    assert found.slope.shape == (2, 3)
    alone = bending(line, load, z_A + 5, z_B, z_A + 5).slope
    assert found.slope[1] == pytest.approx(factors * alone, rel=1e-9)


def test_beyond_its_ends_the_shaft_reaches_on():
    short, long = stepped(100, [200, 300], [40, 60]), stepped(-100, [400, 500], [40, 60])
    load = Load.of([20, 700], [500, -300])
    one, other = (bending(line, load, 50, 650, [50, 650]) for line in (short, long))
    assert one.slope == pytest.approx(other.slope, rel=1e-9)


def test_misalignment_in_minutes():
    # 3 and 4 in ten thousand are 5: 1.7 minutes of arc, the strict one of the usual limits
    assert misalignment(3e-4, -4e-4) == pytest.approx(5e-4)
    assert np.degrees(USUAL_LIMITS) * 60 == pytest.approx([1.7, 4.1], abs=0.05)


def test_second_moment_of_area():
    # pi 50^4 / 64 = 306 796 mm4, a bore of 30 mm takes 39 761 mm4 of it (worked by hand)
    assert bending_stiffness(1, 50, 0) == printed("306 796")
    assert bending_stiffness(1, 50, 30) == printed("267 035")


@pytest.mark.filterwarnings("error")
def test_what_cannot_be():
    assert np.isnan(bending_stiffness(STEEL, [30, 0], [30, 0])).all()
    line = stepped(0, [100], 20)
    # supports that coincide or have changed places
    assert np.isnan(bending(line, Load.of(50, 100), [20, 60], [20, 40], [10, 10]).slope).all()
    with pytest.raises(ValueError, match="length above 0"):
        stepped(0, [100, 0], 20)


@given(numbers(-1e5, 1e5), numbers(-1e5, 1e5))
def test_loads_add_up(F, G):
    line = stepped(0, [300, 400], [40, 55], [0, 20])
    one, other = (bending(line, Load.of(x, force), 100, 600, 100).slope for x, force in ((250, F), (680, G)))
    both = bending(line, Load.of([250, 680], [F, G]), 100, 600, 100).slope
    assert both == pytest.approx(float(one + other), abs=1e-12 + 1e-9 * (abs(one) + abs(other)))
