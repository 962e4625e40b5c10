"""Fit, stress, creep and steel of ten thousand candidates, against a loop over them in Python."""

import time

import numpy as np
import pytest

from engine import fitting
from engine.catalogue.invention.invent import synthetic
from engine.catalogue.materials import steels
from engine.checks import fits
from engine.seat import limits, recommend, seating
from engine.selection import screen
from engine.steel import verdict
from tests.benchmarks.large_wizard import ROWS, SEED
from tests.benchmarks.stopwatch import median, promised, told
from tests.benchmarks.test_answer_to_count import DUTY
from tests.duties import answered, conditions

pytestmark = pytest.mark.benchmark

CANDIDATES, LOOPED, TURNS = 10_000, 200, 5
N = np.array([300.0, 900.0, 1500.0])
RUNNING = seating.Running(N, "cone", N * 0 + 60, N * 0 + 65, N * 0 + 60, N * 0 + 52)
SIZES = ("d", "D", "B", "C", "F", "E")


def evaluate(rows, Fr):
    """Return everything that is said of the seats and the steel of some candidates."""
    rings = seating.Rings.of(rows.system, rows.tolerance, {name: getattr(rows, name) for name in SIZES})
    cone_need, cup_need = recommend.Need(), recommend.Need(recommend.POINT, displaced=True)
    shaft = limits.shaft_limits(rings.d, recommend.shaft_class(rings.d, cone_need, rings.limits.precise), rings.limits)
    housing = limits.housing_limits(
        rings.D, recommend.housing_class(rings.D, cup_need, rings.limits.precise), rings.limits
    )
    seats = seating.seat_of(rings, shaft, housing, seating.Surroundings(shaft_bore=10.0), RUNNING)
    held = seating.holding(seats.cone, rings.d, rings.B, Fr, recommend.CIRCUMFERENTIAL, N)
    spare = seats.cone.effective_least[:, seating.MEAN] - held.needed.max(axis=-1)
    asked = verdict.Asked(
        seats.cone.hoop_greatest, spare, rings.d, (rings.F - rings.d) / 2, "moderate", 1.5, "some", 90, 70, 20_000
    )
    return seats, held, verdict.verdicts(asked, steels.builtin())


def test_ten_thousand_candidates():
    """Floor: the same work candidate by candidate, 200 of them scaled up; and it must take less than 1 s."""
    rows = synthetic(CANDIDATES, SEED)
    assert len(rows) == CANDIDATES
    Fr = np.repeat(0.1 * rows.Cr[:, None], len(N), axis=1)
    whole, loop = [], []
    for turn in range(TURNS + 1):
        start = time.perf_counter()
        seats, held, told_of_steel = evaluate(rows, Fr)
        middle = time.perf_counter()
        for row in range(LOOPED):
            alone = evaluate(rows.take([row]), Fr[row : row + 1])
        end = time.perf_counter()
        if turn:
            whole.append(middle - start)
            loop.append((end - middle) * CANDIDATES / LOOPED)
    # what is timed is the same answer
    assert np.array_equal(alone[0].cone.hoop_seat[0], seats.cone.hoop_seat[LOOPED - 1])
    assert np.array_equal(alone[1].margin[0], held.margin[LOOPED - 1])
    assert np.array_equal(alone[2].outcome[0], told_of_steel.outcome[LOOPED - 1])
    told("seats and steel of 10 000", median(whole), "one by one in Python", median(loop), digits=4)
    assert median(whole) < promised(1.0)
    assert median(whole) / median(loop) < 0.05


def test_fits_in_the_screening():
    """What fit and steel cost each answer, on 2,000 assemblies a side. Floor: the screening without them.

    An answer that changes the fits computes them anew, which may take 20 ms; any other finds them as they were.
    """
    rows, duty = synthetic(ROWS, SEED), conditions(answered(DUTY | {"fits.level": "normal"}, cases=2))
    screen.screen(rows, duty)
    anew, kept, whole = [], [], []
    for _ in range(TURNS):
        same = rows.take(np.arange(len(rows)))  # of which nothing but the rings and their steel is known
        fitting.steel_of(same)
        for times in (anew, kept):
            start = time.perf_counter()
            for side in "AB":
                fits.binding(same, side, duty.resolved)
            times.append(time.perf_counter() - start)
        start = time.perf_counter()
        screen.screen(rows, duty)
        whole.append(time.perf_counter() - start)
    told("fit and steel of 2 x 2000, fits changed", median(anew), "screening", median(whole), digits=4)
    told("fit and steel of 2 x 2000, fits kept", median(kept), "screening", median(whole), digits=4)
    assert median(anew) < promised(0.020)
    assert median(kept) < median(anew) / 4
