"""Creep, the torque a seat holds, and bringing rings on and off."""

import numpy as np
import pytest

from engine.seat.creep import creep_a_turn, creep_margin, interference_against_creep, seat_torque
from engine.seat.interference import thermal_change
from engine.seat.material import STEEL
from engine.seat.mounting import axial_force, heating_temperature
from tests.printed import printed


def test_handbook_formula_in_both_systems_of_units():
    """The loss under load is printed as 0.08 sqrt(d Fr/B) in N and, in older handbooks, as 0.25 sqrt(d Fr/B) in kgf.

    Recalled from both; the rounded factors differ by 0.2 %: sqrt(9.80665) 0.08 = 0.2505.
    """
    kgf = 9.80665
    for d, B, Fr in ((50, 22, 500), (120, 38, 2000), (25, 15, 80)):
        older = 0.25 * np.sqrt(d * Fr / B)
        assert float(interference_against_creep(Fr * kgf, d, B)) * 1e3 == pytest.approx(older, rel=3e-3)


def test_worked_values():
    """50 mm, B 22 mm, 10 kN: 12.06 um; 0.02 Fr/B governs from Fr = 16 d B on, here 17.6 kN, where both give 16.0 um."""
    assert float(interference_against_creep(10e3, 50, 22)) * 1e3 == printed("12.06")
    assert float(interference_against_creep(17.6e3, 50, 22)) * 1e3 == printed("16.00")
    assert float(interference_against_creep(40e3, 50, 22)) * 1e3 == printed("36.36")


@pytest.mark.filterwarnings("error")
def test_margin():
    assert creep_margin([0.02, -0.01, 0.02, 0.02], [0.01, 0.01, 0.0, 0.04]).tolist() == [2, 0, np.inf, 0.5]
    assert np.isnan(creep_margin([np.nan, 0.01, 0.01], [0.01, np.nan, -0.01])).all()
    assert np.isnan(interference_against_creep([-1, 1, 1], [50, 0, 50], [20, 20, 0])).all()


def test_creep_by_play_is_that_of_two_circles_rolled_step_by_step():
    """A ring of 100.00 mm rolls round in a bore of 100.05 mm: each turn of the load leaves it 0.157 mm behind."""
    ring, bore, steps = 100.0, 100.05, 1000
    contact_at_ring = sum(bore / 2 * (2 * np.pi / steps) / (ring / 2) for _ in range(steps))  # [rad] rolled off
    behind = (contact_at_ring - 2 * np.pi) * ring / 2
    assert float(creep_a_turn(ring - bore)) == pytest.approx(behind, rel=1e-9) == printed("0.157")
    assert creep_a_turn([0.01, 0.0]).tolist() == [0, 0] and np.isnan(creep_a_turn(np.nan))


def test_needed_interference_grows_with_the_load():
    needed = interference_against_creep(np.linspace(0, 1e5, 400), 50, 22)
    assert needed[0] == 0 and np.all(np.diff(needed) > 0)


def test_torque_is_the_force_at_the_radius():
    torque, force = seat_torque(12, 50, 22, 0.12), axial_force(12, 50, 22, 0.12)
    assert float(torque) == pytest.approx(float(force) * 25)
    # 12 MPa on pi 50 22 = 3455.75 mm2, by hand
    assert float(force) == printed("4976.3")


def test_heated_ring_has_the_play_wanted():
    """A cone of 50 mm, 37 um tight, with 16 um of play: (37 + 16)/(0.6 um/K) = 88.3 K above the shaft, by hand."""
    T = heating_temperature(0.037, 50, 0.016, 20, STEEL.alpha)
    assert float(T) == printed("108.3")
    assert 0.037 + float(thermal_change(50, 20, T, STEEL, STEEL)) == pytest.approx(-0.016)


@pytest.mark.filterwarnings("error")
def test_what_is_loose_needs_no_heat():
    assert heating_temperature([-0.01, 0.0], 50, 0.016, 20, STEEL.alpha).tolist() == [20, 20]
    assert np.isnan(heating_temperature(np.nan, 50, 0.016, 20, STEEL.alpha))
