"""Reference lives: lamina ratings and lives as evaluated from the standard, and against the catalogue's L10."""

from functools import partial

import numpy as np
import pytest
from scipy import optimize

from engine.distribution import reference_life as life
from engine.distribution.load_zone import load_zone
from engine.rating.dynamic import basic_dynamic_rating_Cr, equivalent_dynamic_load_P
from engine.rating.life import basic_rating_life_L10
from engine.rating.modified_life import a_iso
from tests.engine.distribution.bearings import rollers
from tests.printed import printed

#: Evaluated from the standard's equations on a sheet of its own: Z 17, 14.0361 deg, gamma 0.1687, Cr 36 kN, 30 laminae.
CHECK = (36000.0, 17, np.radians(14.0361), 0.1687)


def test_lamina_ratings():
    q_ci, q_ce = life.lamina_rating(*CHECK, 1), life.lamina_rating(*CHECK, -1)
    assert q_ci == printed("509.93") and q_ce == printed("800.94")
    assert q_ci * 30 ** (7 / 9) == printed("7184.33") and q_ce * 30 ** (7 / 9) == printed("11284.18")


def test_every_roller_at_2000_N_evenly():
    q = np.full((17, 30), 2000 / 30)
    q_i, q_e = (life.lamina_equivalent_load(q, turning, edges=False) for turning in (True, False))
    L10r = life.basic_reference_life_L10r(q_i, q_e, life.lamina_rating(*CHECK, 1), life.lamina_rating(*CHECK, -1))
    assert L10r == printed("149.234")
    assert 36000 / L10r**0.3 == printed("8019.4")


def half_zone(one, C_over_P):
    """Return the zone of a bearing whose cone is displaced radially until it carries its share of Cr."""

    def off(u):
        return float(load_zone(one, [u, 0, 0, 0, 0]).Fr) - one.Cr / C_over_P

    return load_zone(one, [optimize.brentq(off, 0, 1, xtol=1e-12), 0, 0, 0, 0])


def without_edges(one, zone):
    q_i, q_e = (life.lamina_equivalent_load(zone.q, turning, edges=False) for turning in (True, False))
    gamma = one.Dwe * np.cos(one.alpha) / one.Dpw
    ratings = [life.lamina_rating(one.Cr, one.Z, one.alpha, gamma, ring) for ring in (1, -1)]
    return life.basic_reference_life_L10r(q_i, q_e, *ratings)


@pytest.mark.parametrize("C_over_P", [4.0, 6.0, 10.0])
def test_half_the_rollers_loaded_without_tilt(C_over_P):
    """The lamina ratings leave lambda nu = 0.83 out and count with the exponent 4: L10r = (C/(0.83 P))^4.

    lambda nu stands for uneven load along the roller and at its ends; here both are computed. It holds for an even load
    along the roller and without the edge function.
    """
    one = rollers(Cr=float(basic_dynamic_rating_Cr(8.0, 11.0, 17, 46.0, np.radians(14.0361))))
    assert without_edges(one, half_zone(one, C_over_P)) == pytest.approx((C_over_P / 0.83) ** 4, rel=0.025)


def test_against_the_catalogue_life():
    """L10 = (C/P)^(10/3) has lambda nu and a rounded exponent in it; L10r has the profile and the edges instead.

    At C/P = 6 the standard's profile gives 2.9 times the catalogue life, rollers without profile 2.0 times, of which
    the edge function takes 71 %.
    """
    catalogue = basic_rating_life_L10(6.0, 1.0)
    plain, log = rollers(), rollers(profile="log")
    zones = half_zone(plain, 6.0), half_zone(log, 6.0)
    lives = [life.reference_life(zone).L10r / catalogue for zone in zones]
    assert lives == pytest.approx([1.97, 2.91], rel=0.01)
    assert life.reference_life(zones[0]).L10r / without_edges(plain, zones[0]) == pytest.approx(0.29, abs=0.01)


def test_the_axial_load_of_a_half_zone_is_that_of_the_equivalent_load():
    # at Fa = 1.26 Fr tan(alpha) < e Fr the equivalent load is Fr itself
    zone = half_zone(rollers(), 6.0)
    e = 1.5 * np.tan(zone.rollers.alpha)
    assert equivalent_dynamic_load_P(zone.Fr, zone.Fa, e, 0.6 / e) == zone.Fr


def test_twice_the_load_lives_a_sixteenth():
    q = np.random.default_rng(2).uniform(0, 100, (17, 30))
    ratings = life.lamina_rating(*CHECK, 1), life.lamina_rating(*CHECK, -1)

    def lives(times):
        loads = [life.lamina_equivalent_load(times * q, turning) for turning in (True, False)]
        return life.basic_reference_life_L10r(*loads, *ratings)

    assert lives(1.0) / lives(2.0) == pytest.approx(16.0, rel=1e-12)


def test_tilt_costs_life():
    one = rollers()
    zones = load_zone(one, [[0.01, 0, 0.02, tilt, 0] for tilt in (0.0, 5e-4, 1.5e-3)])
    lives = life.reference_life(zones).L10r
    assert lives[0] > lives[1] > lives[2]


def test_the_ring_that_stands_is_worse_off():
    zone = half_zone(rollers(), 6.0)
    assert life.reference_life(zone, turning=life.CUP).L10r < life.reference_life(zone, turning=life.CONE).L10r


def test_with_one_film_for_all_laminae_the_life_is_the_basic_one_times_its_factor():
    one = rollers()
    zone = load_zone(one, [0.0, 0.0, 0.05, 0.0, 0.0])
    # no dirt is too much: e_C = 0 gives 0.1 whatever the load of the lamina
    lives = life.reference_life(zone, life.Film(kappa=1.0, e_C=0.0, a1=0.64))
    assert lives.Lnmr == pytest.approx(0.64 * 0.1 * lives.L10r)
    better = life.reference_life(zone, life.Film(kappa=np.array([0.5, 2.0]), e_C=0.5)).Lnmr
    assert better[1] > better[0]
    assert np.isnan(life.reference_life(zone).Lnmr)


def test_load_of_an_even_half_zone_reads_0_86_of_the_radial_load():
    """By (31) the lamina's load is 0.323 Z cos(alpha) Q_e; Q_e of a half zone is 0.378/(Z cos(alpha)) below Fr.

    0.323/0.378 = 0.855: the factor is printed so, and a_ISO is read at that load.
    """
    one = rollers()
    zone = half_zone(one, 6.0)
    equivalent = partial(life.lamina_equivalent_load, zone.q, edges=False)
    P_s = life.lamina_bearing_load_P_s(one, equivalent(turning=True), equivalent(turning=False))
    assert P_s == pytest.approx(0.86 * zone.Fr, rel=0.01)
    middle = life.reference_life(zone, life.Film(kappa=1.0, e_C=0.5))
    # between the factors at the loads of the middle and of the end laminae
    ends = 2.3283 * P_s[0]
    ratio = middle.Lnmr / middle.L10r
    assert a_iso(1.0, 0.5, one.Cu, ends) < ratio < a_iso(1.0, 0.5, one.Cu, P_s[15])


def test_no_load_no_end():
    zone = load_zone(rollers(), np.zeros(5), 0.1)
    lives = life.reference_life(zone, life.Film(kappa=1.0, e_C=0.5))
    assert lives.L10r == np.inf and lives.Lnmr == np.inf and lives.P_ref == 0


def test_outside_the_range_there_is_no_value():
    assert np.isnan(life.lamina_rating(36000.0, 17, 0.2, 1.2, 1))
    assert np.isnan(life.lamina_equivalent_load(np.full((3, 4), -1.0), True)).all()
    assert np.isnan(life.modified_reference_life_Lnmr(np.ones(3), np.array([1.0, -1.0, 1.0]), 1.0))
