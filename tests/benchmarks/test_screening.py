"""The screening of all pairs of 2,000 assemblies, against the work it saves."""

import time

import numpy as np
import pytest

from engine.catalogue.invention.invent import synthetic
from engine.checks import loads, part
from engine.operating import Bearings
from engine.selection import rank, screen
from tests.benchmarks.large_wizard import ROWS, SEED
from tests.benchmarks.stopwatch import median, told
from tests.benchmarks.test_answer_to_count import DUTY, MIX
from tests.duties import answered, conditions

pytestmark = pytest.mark.benchmark

SAMPLE = 8 * screen.CHUNK
TURNS = 5


def seconds(work):
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


class Sample:
    """Pairs drawn at random from the whole matrix, each computed in full: what a screening without bounds would do."""

    def __init__(self, catalogue, duty):
        pick = np.random.default_rng(1)
        self.i, self.j = pick.integers(0, len(catalogue), (2, SAMPLE))
        self.catalogue, self.duty = catalogue, duty
        self.bearings = [Bearings.of(catalogue, side, duty) for side in "AB"]
        self.passes = np.zeros(SAMPLE, dtype=bool)

    def compute(self):
        fits = []
        for side, bearings in zip("AB", self.bearings, strict=True):
            outcomes = [*part.outcomes(self.catalogue, side, self.duty.resolved),
                        loads.film_method(side, bearings, self.duty)]  # fmt: skip
            eligible = part.eligible(self.catalogue, self.duty.resolved)
            fits.append(np.logical_and.reduce([eligible, *(outcome.passes for outcome in outcomes)]))
        A, B = self.bearings
        for at in range(0, SAMPLE, screen.CHUNK):
            some = slice(at, at + screen.CHUNK)
            i, j = self.i[some], self.j[some]
            self.passes[some] = fits[0][i] & fits[1][j] & screen.exact(A.take(i), B.take(j), self.duty)


STAGES = {"loads only": DUTY, "every answer given": DUTY | dict(MIX)}


@pytest.mark.parametrize("stage", STAGES)
def test_screening(stage):
    """Floors: all 4 million pairs computed (65,536 of them, scaled up), and one bare numpy power for each."""
    catalogue, duty = synthetic(ROWS, SEED), conditions(answered(STAGES[stage], cases=2))
    sample = Sample(catalogue, duty)
    ratio = np.random.default_rng(2).uniform(1, 9, screen.CHUNK)
    pairs = ROWS**2

    def powers():
        for _ in range(pairs // screen.CHUNK):
            np.power(ratio, 10 / 3)

    screened, brute, bare, listed = [], [], [], []
    for turn in range(TURNS + 1):
        times = [seconds(lambda: screen.screen(catalogue, duty)), seconds(sample.compute) * pairs / SAMPLE,
                 seconds(powers)]  # fmt: skip
        found = screen.screen(catalogue, duty)
        times.append(seconds(lambda found=found: rank.shortlist(catalogue, found, duty)))
        if turn:
            for kept, value in zip((screened, brute, bare, listed), times, strict=True):
                kept.append(value)

    # what is timed is the same answer: the sample's verdicts stand in the screening
    whole = np.zeros((ROWS, ROWS), dtype=bool)
    whole[np.ix_(found.rows_A, found.rows_B)] = found.passes
    assert np.array_equal(whole[sample.i, sample.j], sample.passes)
    assert found.count

    took = median(screened)
    name = f"screening 2000 x 2000, {stage}"
    told(name, took, "every pair computed", median(brute), digits=4)
    told(name, took, "one power a pair", median(bare))
    told(f"first 100 of {found.count} pairs, {stage}", median(listed), "screening", took)
    assert took / median(brute) <= 0.5
