"""The pair as a system: against a plain model solved by scipy, statics, mirror, energy, bending, the simple rule."""

from dataclasses import replace

import numpy as np
import pytest
from scipy import optimize

from engine.distribution import balance
from engine.distribution.pair_system import ShaftCompliance, ShaftLoads, pair_system, solve, solve_pair
from engine.distribution.reference_life import reference_life
from engine.pair.arrangement import ARRANGEMENTS, BACK_TO_BACK
from engine.pair.equilibrium import axial_loads, induced_axial_load_S
from engine.rating.geometry import axial_factor_Y
from tests.engine.distribution.bearings import rollers
from tests.engine.distribution.plain_model import forces

each_arrangement = pytest.mark.parametrize("arrangement", ARRANGEMENTS)
LOADS = ShaftLoads(F_y=6000.0, F_z=-2500.0, M_y=6000.0 * 40, M_z=-2500.0 * 40 + 3e4, K_a=1200.0)


def around(value):
    """Return loads about z = 0 as the plain model orders them."""
    return np.array([value.F_y, value.F_z, value.K_a, value.M_y, value.M_z])


@each_arrangement
@pytest.mark.parametrize("play", [-0.03, 0.0, 0.08])
@pytest.mark.parametrize("profile", ["plain", "log"])
def test_against_a_plain_model_and_a_general_root_finder(arrangement, play, profile):
    A, B = rollers(profile=profile), rollers(profile=profile, Z=19, Dwe=7.0, alpha=np.radians(20.0), inset=3.0)
    found = solve_pair(A, B, arrangement, 110.0, LOADS, play)
    assert found.status == balance.SOLVED
    lengths = np.array([1, 1, 1, 60.0, 60.0])

    def off(place):
        return (np.array(forces(A, B, arrangement, 110.0, play, place / lengths)) - around(LOADS)) / lengths

    # from where the engine says the shaft rests, moved a little: the general solver has to find its own way back
    s = found.system
    u = np.concatenate([found.place[:3], found.place[3:] / s.length])
    u[:2] -= u[3:] * s.middle
    root = optimize.root(off, u * lengths + 1e-4, tol=1e-11)
    assert np.linalg.norm(off(root.x)) < 1e-6 * np.linalg.norm(around(LOADS))
    rows = {"A": np.zeros(A.Z), "B": np.zeros(B.Z)}
    forces(A, B, arrangement, 110.0, play, root.x / lengths, rows)
    largest = max(rows["A"].max(), rows["B"].max())
    for side in "AB":
        assert pytest.approx(rows[side], abs=1e-5 * largest) == found.zone(side).Q


@each_arrangement
def test_the_bearings_carry_the_loads_and_no_more(arrangement):
    A, B = rollers(), rollers(profile="log", Z=15, alpha=np.radians(18.0))
    setting = np.array([-0.08, -0.02, 0.0, 0.03, 0.15])
    found = solve_pair(A, B, arrangement, 130.0, LOADS, setting)
    assert np.all(found.solved)
    carried = [found.zone(side).force for side in "AB"]
    total = carried[0] + carried[1]
    size = 1e-8 * np.linalg.norm(around(LOADS)[:3])
    assert np.all(np.abs(total[:, :3] - around(LOADS)[:3]) <= size)
    for plane, M in enumerate((LOADS.M_y, LOADS.M_z)):
        about = sum(force[:, 3 + plane] + force[:, plane] * z for force, z in zip(carried, found.system.z, strict=True))
        assert np.all(np.abs(about - M) <= size * 130)
    assert np.all(found.energy_residual < 1e-8)
    assert np.all(found.residual < 1e-8)


@each_arrangement
def test_mirrored_duty_gives_the_mirrored_pair(arrangement):
    A, B = rollers(inset=2.0), rollers(profile="log", Z=15, alpha=np.radians(18.0))
    setting = np.array([-0.02, 0.0, 0.1])
    seen = solve_pair(A, B, arrangement, 130.0, LOADS, setting)
    behind = ShaftLoads(
        F_y=LOADS.F_y, F_z=LOADS.F_z, M_y=LOADS.F_y * 130 - LOADS.M_y, M_z=LOADS.F_z * 130 - LOADS.M_z, K_a=-LOADS.K_a
    )
    mirrored = solve_pair(B, A, arrangement, 130.0, behind, setting)
    for here, there in ("AB", "BA"):
        assert pytest.approx(mirrored.zone(there).Q, rel=1e-6, abs=1e-3) == seen.zone(here).Q
        assert seen.zone(here).Fa == pytest.approx(mirrored.zone(there).Fa, rel=1e-7)


@each_arrangement
def test_displacement_is_the_derivative_of_the_energy_by_the_load(arrangement):
    """Castigliano's theorem in its complementary form: the total potential falls by u dF."""
    A, B = rollers(), rollers(profile="log")
    system = pair_system(A, B, arrangement, 120.0)

    def potential(loads):
        found = solve(system, loads, 0.02)
        answer = system.springs.evaluate(found.place[None], *system.gaps(np.array([0.02]), np.zeros((1, 4))))
        return float(answer.energy[0] - np.sum(found.load * found.place))

    here = solve(system, LOADS, 0.02).place
    for name, at in (("F_y", 0), ("F_z", 1), ("K_a", 2), ("M_y", 3)):
        step = 3.0 * (60.0 if name == "M_y" else 1.0)
        up, down = (potential(replace(LOADS, **{name: getattr(LOADS, name) + sign * step})) for sign in (1, -1))
        expected = here[at]
        if name == "F_y":  # at z = 0, away from the middle the coordinates are taken at
            expected = here[0] - here[3] * system.middle / system.length
        if name == "F_z":
            expected = here[1] - here[4] * system.middle / system.length
        if name == "M_y":
            expected = here[3] / system.length
        assert -(up - down) / (2 * step) == pytest.approx(expected, rel=1e-4)


@each_arrangement
def test_stiffness_of_the_pair_by_finite_differences(arrangement):
    A, B = rollers(), rollers(profile="log")
    found = solve_pair(A, B, arrangement, 120.0, LOADS, -0.01)
    step = 0.5
    for name, at in (("K_a", 2), ("F_y", 0)):
        moved = []
        for sign in (1, -1):
            loads = replace(LOADS, **{name: getattr(LOADS, name) + sign * step})
            if name == "F_y":  # through the middle
                loads = replace(loads, M_y=loads.M_y + sign * step * found.system.middle)
            moved.append(solve_pair(A, B, arrangement, 120.0, loads, -0.01).place)
        compliance = np.linalg.inv(found.stiffness)[at, at]
        assert (moved[0][at] - moved[1][at]) / (2 * step) == pytest.approx(compliance, rel=1e-3)


def middle_loads(Fr, K_a, distance):
    return ShaftLoads(F_y=2 * Fr, M_y=2 * Fr * distance / 2, K_a=K_a)


@each_arrangement
@pytest.mark.parametrize(("profile", "within"), [("plain", 0.01), ("log", 0.03)])
def test_equal_bearings_without_play_share_as_the_simple_rule_says(arrangement, profile, within):
    """Half the rollers are loaded: Fa = 1.26 Fr tan(alpha), against Fr/(2Y) = 1.25 Fr tan(alpha); log 1.22."""
    one = rollers(profile=profile)
    found = solve_pair(one, one, arrangement, 120.0, middle_loads(4000.0, 0.0, 120.0), 0.0)
    S = induced_axial_load_S(4000.0, axial_factor_Y(one.alpha))
    for side in "AB":
        zone = found.zone(side)
        assert zone.Fr == pytest.approx(4000.0, rel=1e-9)
        assert zone.Fa == pytest.approx(S, rel=within)
        assert zone.extent == pytest.approx(np.pi, abs=np.radians(3))


def test_where_mechanics_and_the_simple_rule_part():
    """Under a thrust the relieved bearing carries less than its S: its zone shrinks, down to Fa = Fr tan(alpha)."""
    one = rollers()
    K = np.array([0.0, 500.0, 2000.0, 8000.0])
    found = solve_pair(one, one, BACK_TO_BACK, 120.0, middle_loads(4000.0, K, 120.0), 0.0)
    S = induced_axial_load_S(4000.0, axial_factor_Y(one.alpha))
    ruled_A, ruled_B = axial_loads(BACK_TO_BACK, S, S, K)
    Fa_A, Fa_B = (found.zone(side).Fa for side in "AB")
    # O: a push towards B loads A
    assert Fa_A - Fa_B == pytest.approx(K, abs=1e-4)
    assert np.all(np.diff(Fa_B) < 0) and np.all(np.diff(found.zone("B").extent) < 0)
    # what the rule overstates is at most a fifth of S, in A as in B
    least = 4000.0 * np.tan(one.alpha)
    assert np.all(Fa_B >= least) and Fa_B[-1] < 1.12 * least
    assert np.all(np.abs(ruled_B - Fa_B) <= 0.2 * S)
    assert ruled_A - Fa_A == pytest.approx(ruled_B - Fa_B, abs=1e-4)


def test_preload_raises_both_and_end_play_opens_the_zone():
    one = rollers(profile="log")
    found = solve_pair(one, one, BACK_TO_BACK, 120.0, middle_loads(4000.0, 0.0, 120.0), np.array([-0.05, 0.0, 0.1]))
    zone = found.zone("A")
    assert zone.Fa[0] > zone.Fa[1] > zone.Fa[2]
    assert zone.extent[0] > zone.extent[1] > zone.extent[2]
    assert found.stiffness[0, 2, 2] > found.stiffness[1, 2, 2]


SEATS, EI = (10.0, 120.0), 206000 * np.pi * 20**4 / 64


def simple_beam(force, at):
    """Textbook: a simply supported shaft, end slopes for end moments and for a force between; L = 110 mm."""
    L = SEATS[1] - SEATS[0]
    slopes = np.array([[L / (3 * EI), -L / (6 * EI)], [-L / (6 * EI), L / (3 * EI)]])
    a = at - SEATS[0]
    b = L - a
    free = force * np.array([a * b * (L + b), -a * b * (L + a)]) / (6 * L * EI)
    return slopes, free


@each_arrangement
def test_a_bending_shaft_stands_in_its_bearings_as_the_beam_says(arrangement):
    A, B = rollers(), rollers(profile="log", Z=15)
    slopes, free = simple_beam(5000.0, 50.0)
    loads = ShaftLoads(F_y=5000.0, M_y=5000.0 * 50, K_a=800.0)
    found = solve_pair(A, B, arrangement, 130.0, loads, 0.01, ShaftCompliance(SEATS, slopes, np.array([*free, 0, 0])))
    assert found.status == balance.SOLVED and found.energy_residual < 1e-8
    d, force = (np.array([getattr(x, "force", x) for x in y]) for y in (
        [found.displacement(side) for side in "AB"], [found.zone(side) for side in "AB"]))  # fmt: skip
    # what the bearings hand to the shaft at its seats bends it, on top of the loads
    M = np.array([force[i, 3] + force[i, 0] * (found.system.z[i] - SEATS[i]) for i in (0, 1)])
    bent = free - slopes @ M
    seat_y = [d[i, 0] - d[i, 3] * (found.system.z[i] - SEATS[i]) for i in (0, 1)]
    chord = (seat_y[1] - seat_y[0]) / (SEATS[1] - SEATS[0])
    assert d[:, 3] - chord == pytest.approx(bent, rel=1e-6, abs=1e-12)
    assert force[:, 0].sum() == pytest.approx(5000.0, rel=1e-8)
    assert sum(force[i, 3] + force[i, 0] * found.system.z[i] for i in (0, 1)) == pytest.approx(250000.0, rel=1e-8)


def test_a_rigid_shaft_is_a_rigid_one_and_a_slender_one_tilts_the_rollers():
    A, B = rollers(), rollers(Z=15)
    slopes, free = simple_beam(5000.0, 50.0)
    loads = ShaftLoads(F_y=5000.0, M_y=5000.0 * 50)

    def with_stiffness(times):
        given = ShaftCompliance(SEATS, slopes / times, np.array([*free, 0, 0]) / times)
        return solve_pair(A, B, BACK_TO_BACK, 130.0, loads, 0.01, given)

    rigid = solve_pair(A, B, BACK_TO_BACK, 130.0, loads, 0.01)
    assert pytest.approx(rigid.zone("A").Q, rel=1e-4, abs=0.05) == with_stiffness(1e6).zone("A").Q
    assert with_stiffness(1.0).zone("A").p_edge > 1.02 * rigid.zone("A").p_edge
    assert with_stiffness(1e6).stiffness == pytest.approx(rigid.stiffness, rel=1e-3, abs=1e3)


@each_arrangement
def test_cups_askew_against_the_plain_model(arrangement):
    A, B = rollers(), rollers(profile="log", Z=15)
    seats, tilts = (8.0, 104.0), (6e-4, -3e-4)
    given = ShaftCompliance(seats, None, [-tilts[0], -tilts[1], 0.0, 0.0])
    found = solve_pair(A, B, arrangement, 110.0, LOADS, 0.01, given)
    s = found.system
    u = np.concatenate([found.place[:3], found.place[3:5] / s.length])
    u[:2] -= u[3:] * s.middle
    rows = {"A": np.zeros(A.Z), "B": np.zeros(B.Z)}
    askew = {side: (tilt, seat) for side, tilt, seat in zip("AB", tilts, seats, strict=True)}
    carried = forces(A, B, arrangement, 110.0, 0.01, u, rows, askew)
    assert np.linalg.norm((carried - around(LOADS)) / [1, 1, 1, 60, 60]) < 1e-8 * np.linalg.norm(around(LOADS)[:3])
    for side in "AB":
        assert rows[side] == pytest.approx(found.zone(side).Q, rel=1e-8, abs=1e-5)
    straight = solve_pair(A, B, arrangement, 110.0, LOADS, 0.01)
    assert found.zone("A").p_edge > straight.zone("A").p_edge


def test_a_pair_that_nothing_holds_is_named():
    one = rollers()
    found = solve_pair(one, one, BACK_TO_BACK, 120.0, ShaftLoads(F_y=np.array([0.0, np.nan, 0.0])), [0.1, 0.0, -0.02])
    assert found.status.tolist() == [balance.FREE, balance.UNKNOWN, balance.SOLVED]
    assert np.isnan(found.place[:2]).all()
    assert balance.STATUS[balance.FREE].startswith("free")
    # what is not known shows in everything that follows from it
    zone = found.zone("A")
    for figure in (zone.Fr, zone.Fa, zone.extent, zone.p_max, zone.p_edge, reference_life(zone).L10r):
        assert np.isnan(figure).tolist() == [True, True, False]
    assert np.isnan(found.stiffness[:2]).all()
    # preload alone: both bearings hold each other
    assert found.zone("A").Fa[2] == pytest.approx(found.zone("B").Fa[2], rel=1e-9)


@each_arrangement
def test_without_load_cups_askew_pinch_where_the_play_is_too_small_for_them(arrangement):
    one, given = rollers(), ShaftCompliance((0.0, 120.0), None, [2e-3, -2e-3, 0, 0])
    found = solve_pair(one, one, arrangement, 120.0, ShaftLoads(), np.array([0.5, 0.005, -0.02]), given)
    assert found.status.tolist() == [balance.FREE, balance.SOLVED, balance.SOLVED]
    A, B = found.zone("A"), found.zone("B")
    assert A.Fa[1] > 1.0 and A.Fa[2] > A.Fa[1]
    assert np.all(np.abs(A.force + B.force)[1:, :3] < 1e-9 * A.Fa[1:, None])


def test_a_breath_of_load_in_wide_play_is_named():
    one = rollers()
    found = solve_pair(one, one, BACK_TO_BACK, 120.0, ShaftLoads(F_y=[1e-12, 1.0]), 1.0)
    assert found.status.tolist() == [balance.TOO_LIGHT, balance.SOLVED]


def test_one_case_alone_and_in_a_batch():
    A, B = rollers(), rollers(profile="log")
    system = pair_system(A, B, BACK_TO_BACK, 120.0)
    many = solve(system, LOADS, np.linspace(-0.05, 0.3, 150).reshape(50, 3))
    alone = solve(system, LOADS, many.setting[33, 1])
    assert many.place.shape == (50, 3, 5) and alone.place.shape == (5,)
    # matrix products sum in another order for a batch; both rests are within the residual aimed at
    assert many.place[33, 1] == pytest.approx(alone.place, rel=1e-8, abs=1e-10)


def test_work_can_be_watched_and_ended():
    one = rollers()
    told = []
    system = pair_system(one, one, BACK_TO_BACK, 120.0)
    solve(system, LOADS, np.linspace(0, 0.1, 200), tick=told.append)
    assert told == sorted(told) and told[-1] == 1.0 and len(set(told)) == 5

    def enough(_):
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        solve(system, LOADS, np.linspace(0, 0.1, 200), tick=enough)
