"""The rib, against statics and kinematics done with vectors."""

import numpy as np
import pytest
from hypothesis import given

from engine.lubrication.contact import rib
from engine.lubrication.contact.rollers import roller_half_angle
from tests.strategies import contact_angles, numbers

sets = (numbers(4.0, 40.0), contact_angles, numbers(4.5, 12.0))


@given(*sets)
def test_sliding_speed_by_vectors(Dwe, alpha, slender):
    """Rigid bodies about one apex: the cone turns about x, the roller about its own axis and with the cage."""
    Dpw = Dwe * slender
    beta = roller_half_angle(Dwe, alpha, Dpw)
    axis_roller = np.array([np.cos(alpha - beta), np.sin(alpha - beta)])
    line_cup = np.array([np.cos(alpha), np.sin(alpha)])  # contact lines through the apex, in the plane of the axes
    line_cone = np.array([np.cos(alpha - 2 * beta), np.sin(alpha - 2 * beta)])
    # rotation of the roller = cage * x + spin * its axis; no slip: along the line of contact with the fixed cup, and,
    # seen from the cone (which turns once), along the line of contact with the cone
    cross = lambda a, b: a[0] * b[1] - a[1] * b[0]  # noqa: E731
    x = np.array([1.0, 0.0])
    matrix = [[cross(x, line_cup), cross(axis_roller, line_cup)], [cross(x, line_cone), cross(axis_roller, line_cone)]]
    cage, spin = np.linalg.solve(matrix, [0.0, cross(x, line_cone)])
    relative = cage * x + spin * axis_roller - x
    height = rib.CONTACT_HEIGHT * Dwe
    # a point at this height over the cone raceway moves with relative rotation times its distance from that line
    assert rib.rib_sliding_speed(30 / np.pi, Dwe, alpha, Dpw) == pytest.approx(np.hypot(*relative) * height, rel=1e-9)


@given(*sets, numbers(0.0, 1e5))
def test_force_by_equilibrium(Dwe, alpha, slender, Fa):
    """Three forces on all rollers together: cup, cone and rib, the rib's along the cone raceway."""
    Dpw = Dwe * slender
    cone = alpha - 2 * roller_half_angle(Dwe, alpha, Dpw)
    # unknown: cup, cone, rib; rows: axial and radial balance of the rollers, thrust of the cup
    matrix = [[np.sin(alpha), -np.sin(cone), -np.cos(cone)], [np.cos(alpha), -np.cos(cone), np.sin(cone)],
              [np.sin(alpha), 0, 0]]  # fmt: skip
    force = np.linalg.solve(matrix, [0, 0, Fa])[2]
    assert rib.rib_force(Fa, Dwe, alpha, Dpw) == pytest.approx(force, rel=1e-6, abs=1e-6)


def test_speeds_of_a_middling_bearing():
    # rollers of 10 mm, 14 mm long, on 60 mm at 15 degrees: the rib lies a little outside the raceway's mean circle
    d = rib.rib_diameter(10, 14, np.radians(15), 60)
    assert 50 < d < 60
    assert rib.mean_rib_speed(3000, d) == pytest.approx(np.pi * 0.05 * d / 50 * 50, rel=1e-9)
    assert rib.mean_rib_speed(0, d) == 0
    # sliding is a small part of it
    assert 0.05 < rib.rib_sliding_speed(3000, 10, np.radians(15), 60) / (1000 * rib.mean_rib_speed(3000, d)) < 0.2


def test_limits_rise_with_the_effort():
    limits = [rib.usual_rib_speed(supply) for supply in ("grease", "bath", "mist", "circulating", "jet")]
    assert limits == sorted(limits)


def test_torque_and_share():
    # power of the rib over the speed of the shaft
    Fa, args, mu, omega = 5000.0, (10.0, np.radians(15), 60.0), 0.05, 314.159265
    power = mu * rib.rib_force(Fa, *args) * rib.rib_sliding_speed(3000, *args)  # N mm/s
    assert rib.rib_torque(Fa, *args, mu) == pytest.approx(power / omega)
    assert rib.rib_share(50, 100, 100) == 0.25
    assert rib.rib_share(500, 100, 100) == 0.5  # never more than the load-dependent part
    assert np.isnan(rib.rib_share(0, 0, 0)) and np.isnan(rib.rib_torque(Fa, *args, -1))
    assert np.isnan(rib.rib_diameter(10, 0, 0.2, 60)) and np.isnan(rib.mean_rib_speed(-1, 60))
