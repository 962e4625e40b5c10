"""Curvatures, speeds and loads of a roller set."""

import numpy as np
import pytest
from hypothesis import given
from scipy.integrate import quad

from engine.catalogue.section.raceways import roller_half_angle_nu
from engine.lubrication.contact.rollers import (
    contact_radii,
    entrainment_speed_u,
    load_integrals,
    roller_half_angle,
    roller_load_Q,
)
from tests.printed import printed
from tests.strategies import axial_loads, contact_angles, numbers, radial_loads

# Load distribution integrals for line contact as printed in handbooks of rolling bearing analysis (recalled). They
# stand for an exponent a little under 10/9, so that the values here differ by up to 1 %.
PRINTED = [
    (0.5, 0.2453, 0.3090),
    (0.6, 0.2568, 0.3433),
    (0.7, 0.2636, 0.3766),
    (0.8, 0.2658, 0.4098),
    (0.9, 0.2628, 0.4439),
    (1.0, 0.2523, 0.4817),
    (1.25, 0.2078, 0.5775),
    (1 / 0.6, 0.1589, 0.6790),
    (2.5, 0.1075, 0.7837),
    (5.0, 0.0544, 0.8909),
]


@pytest.mark.parametrize(("epsilon", "J_r", "J_a"), PRINTED, ids=[f"epsilon {row[0]:.2f}" for row in PRINTED])
def test_table_of_load_integrals(epsilon, J_r, J_a):
    assert load_integrals(epsilon) == pytest.approx((J_r, J_a), rel=0.01)


@pytest.mark.parametrize("epsilon", [0.1, 0.5, 0.9, 1.0, 3.0])
def test_integrals_against_scipy(epsilon):
    edge = np.arccos(np.clip(1 - 2 * epsilon, -1, 1))

    def load(psi):
        return max(1 - (1 - np.cos(psi)) / (2 * epsilon), 0.0) ** (10 / 9)

    J_r = quad(lambda psi: load(psi) * np.cos(psi), 0, edge)[0] / np.pi
    J_a = quad(load, 0, edge)[0] / np.pi
    assert load_integrals(epsilon) == pytest.approx((J_r, J_a), rel=1e-5)


def test_most_loaded_roller():
    alpha, Z, Fr = np.radians(15), 20, 10_000
    # Stribeck's number for rollers without clearance: 4.08 (any handbook); half the ring loaded
    assert roller_load_Q(Fr, 0, alpha, Z) * Z * np.cos(alpha) / Fr == pytest.approx(4.08, abs=0.01)
    # thrust alone: all rollers alike
    assert roller_load_Q(0, Fr, alpha, Z) == pytest.approx(Fr / (Z * np.sin(alpha)))
    # equilibrium over the rollers of a real set: the loads of the handbooks' law add up to the thrust
    J_r, J_a = load_integrals(0.8)
    Fa = Fr * np.tan(alpha) * J_a / J_r
    psi = 2 * np.pi * np.arange(2000) / 2000
    shares = np.maximum(1 - (1 - np.cos(psi)) / 1.6, 0) ** (10 / 9)
    Q = roller_load_Q(Fr, Fa, alpha, 2000)
    assert (Q * shares).sum() * np.sin(alpha) == pytest.approx(Fa, rel=1e-3)
    assert (Q * shares * np.cos(psi)).sum() * np.cos(alpha) == pytest.approx(Fr, rel=1e-3)


@given(radial_loads, axial_loads, contact_angles, numbers(1.0, 3.0))
def test_more_load_on_the_most_loaded_roller(Fr, Fa, alpha, more):
    Q = roller_load_Q(Fr, Fa, alpha, 18)
    assert roller_load_Q(Fr * more, Fa, alpha, 18) >= Q * (1 - 1e-3)  # 1e-3: between the points of the table
    # thrust first spreads the radial load over more rollers: J_r rises from 0.2453 to 0.2658 (table above), 8 %
    assert roller_load_Q(Fr, Fa * more, alpha, 18) >= Q * (1 - 0.085)


def test_worked_example_of_a_cylindrical_roller_bearing():
    # Hamrock, Lubrication of machine elements (NASA, 1984), roller bearing of 9 rollers of 16 mm between 64 and 96 mm
    # at 524 rad/s (recalled): R_x 6.4 and 9.6 mm, u 10.061 m/s
    R_i, R_o = contact_radii(16, 0.0, 80)
    assert R_i == printed("6.4") and R_o == printed("9.6")
    assert entrainment_speed_u(524 * 30 / np.pi, 16, 0.0, 80) / 1000 == printed("10.061")


@given(numbers(3.0, 40.0), contact_angles, numbers(4.0, 12.0))
def test_half_angle_of_the_rollers(Dwe, alpha, slender):
    # the same angle as the drawn section finds by iteration
    Dpw = Dwe * slender
    assert roller_half_angle(Dwe, alpha, Dpw) == pytest.approx(roller_half_angle_nu(Dwe, Dpw, alpha), rel=1e-9)


def test_outside():
    assert np.isnan(roller_load_Q([-1, 1, 1, 1], [1, -1, 1, 1], [0.2, 0.2, 0, 0.2], [9, 9, 9, 0])).all()
    assert np.isnan(entrainment_speed_u([-1, 1], 10, 0.2, [50, -1])).all()
    assert np.isnan(np.array(load_integrals(0.0))).all()
    assert np.isnan(roller_half_angle([10, -1, 60], [0, 0.2, 0.2], 50)).all()
