"""Random duties come to rest, and whatever is accepted carries what is laid on: in cups askew, on shafts that bend."""

from dataclasses import replace

import numpy as np
import pytest

from engine.distribution import balance
from engine.distribution.pair_system import ShaftCompliance, ShaftLoads, solve_pair
from tests.engine.distribution.bearings import random_pair


def random_duties(draw, A, B, count):
    """Return loads from 1e-5 to several times the rating, with thrust and moments, and plays of -0.05 to 1 mm."""
    size = min(A.Cr, B.Cr) * 10 ** draw.uniform(-5, 0.5, count)
    way = draw.normal(size=(5, count)) * 10 ** draw.uniform(-2, 0.5, (5, count))
    arm = (A.Dpw + B.Dpw) / 2
    loads = ShaftLoads(*(size * part for part in (*way[:2], *(arm * way[2:4]), way[4])))
    play = draw.choice([-0.05, 0.0, 0.02, 0.2, 1.0], count) * draw.uniform(0.1, 1.0, count)
    return loads, play


def straight(*_):
    """Return no compliance: a rigid shaft in cups that stand straight."""


def askew(draw, pair, count):
    """Return a rigid shaft in cups askew by 0.0006 to 0.6 degrees, the widest that a question takes but for a bit."""
    _, _, _, distance = pair
    tilts = draw.choice([-1, 1], (count, 4)) * 10 ** draw.uniform(-5, -2, (count, 1))
    return ShaftCompliance((0.0, distance), None, tilts)


def bending(draw, pair, count):
    """Return a solid shaft of 0.3 to 0.7 of the pitch diameter (end slopes of the simple beam), in cups askew."""
    A, _, _, L = pair
    EI = 206000 * np.pi * (draw.uniform(0.3, 0.7) * A.Dpw) ** 4 / 64
    slopes = np.array([[L / (3 * EI), -L / (6 * EI)], [-L / (6 * EI), L / (3 * EI)]])
    return replace(askew(draw, pair, count), slopes=slopes)


def left_over(found, loads):
    """Return what the bearings carry less what is laid on, over what is laid on.

    From the lamina loads and not from the solver's own sums; moments about the middle, over the pair's length.
    """
    s = found.system
    zones = [found.zone(side) for side in "AB"]
    carried = sum(zone.force for zone in zones)
    carried[:, 3:] += sum(zone.force[:, :2] * (z - s.middle) for zone, z in zip(zones, s.z, strict=True))
    moments = loads.M_y - loads.F_y * s.middle, loads.M_z - loads.F_z * s.middle
    given = np.stack([loads.F_y, loads.F_z, loads.K_a, *moments], axis=-1)
    scale = np.array([1, 1, 1, s.length, s.length])
    return np.linalg.norm((carried - given) / scale, axis=-1) / np.linalg.norm(given / scale, axis=-1)


def turned_as_the_moments_bend(found, compliance):
    """Return how far the seats' slopes are from free + slopes x moments on the shaft, over the greatest slope."""
    s = found.system
    off, size = [], []
    for plane in (0, 1):
        on_shaft = [
            -(zone.force[:, 3 + plane] + zone.force[:, plane] * (z - seat))
            for zone, z, seat in zip(map(found.zone, "AB"), s.z, compliance.seats, strict=True)
        ]
        rigid = found.place[:, 3 + plane] / s.length
        slope = np.stack([found.displacement(side)[:, 3 + plane] - rigid for side in "AB"], axis=-1)
        expected = compliance.free[:, 2 * plane : 2 * plane + 2] + np.stack(on_shaft, axis=-1) @ compliance.slopes
        off.append(np.abs(slope - expected).max(axis=-1))
        size.append(np.abs(np.concatenate([slope, expected], axis=-1)).max(axis=-1))
    return np.max(off, axis=0) / np.max(size, axis=0)


def solved_at_random(seed, pairs, count, shaft=straight):
    draw, solved = np.random.default_rng(seed), 0
    for _ in range(pairs):
        pair = A, B, arrangement, distance = random_pair(draw)
        loads, play = random_duties(draw, A, B, count)
        compliance = shaft(draw, pair, count)
        found = solve_pair(A, B, arrangement, distance, loads, play, compliance)
        ok = found.solved
        assert found.residual[ok].max() < 1e-8 and found.energy_residual[ok].max() < 1e-8
        assert left_over(found, loads)[ok].max() < 1e-8
        if shaft is bending:
            assert turned_as_the_moments_bend(found, compliance)[ok].max() < 1e-7
        # what is not accepted is said, and no figure is left of it
        assert np.all(np.isin(found.status[~ok], [balance.TOO_LIGHT, balance.NOT_SETTLED]))
        assert np.all(np.isnan(found.place[~ok])) and np.all(np.isnan(found.zone("A").Fr[~ok]))
        solved += int(ok.sum())
    return solved


def test_500_random_duties_all_come_to_rest():
    assert solved_at_random(11, 20, 25) == 500


@pytest.mark.parametrize("shaft", [askew, bending])
def test_balance_in_cups_askew_and_on_shafts_that_bend(shaft):
    assert solved_at_random(13, 12, 25, shaft) == 300


@pytest.mark.slow
def test_10_000_random_duties_all_come_to_rest():
    assert solved_at_random(12, 200, 50) == 10_000


@pytest.mark.slow
@pytest.mark.parametrize("shaft", [askew, bending])
def test_balance_of_10_000_in_cups_askew_and_on_shafts_that_bend(shaft):
    assert solved_at_random(14, 200, 50, shaft) >= 9_990
