"""A spectrum of 1,000 bins over 2,000 x 2,000 pairs, against one of 20 bins: time for each pair and bin, and memory."""

import time
import tracemalloc

import numpy as np
import pytest

from engine.answers.binned import Bins
from engine.answers.document import put
from engine.catalogue.invention.invent import synthetic
from engine.duty.spectrum import Spectrum, merged
from engine.selection import screen
from tests.benchmarks.large_wizard import ROWS, SEED
from tests.benchmarks.stopwatch import median, promised, row, told
from tests.benchmarks.test_answer_to_count import DUTY
from tests.duties import answered, conditions

pytestmark = pytest.mark.benchmark

FEW, MANY = 20, 1000


def duty_of(bins):
    """Return a duty of so many bins, each a factor on the load and a speed of its own, as a file gives them."""
    draw = np.random.default_rng(3)
    load, speed = draw.uniform(0.1, 1.2, bins), 540.0 * draw.uniform(0.5, 1.2, bins)
    measured = Bins("measured.csv", (1.0,) * bins, tuple(speed.tolist()), tuple(load.tolist()))
    one_case = {path: text for path, text in DUTY.items() if "cases[1]" not in path}
    duty = conditions(put(answered(one_case), "duty.cases[0].histogram", measured))
    assert len(duty.cases) == bins
    return duty


def seconds(catalogue, duty):
    start = time.perf_counter()
    found = screen.screen(catalogue, duty)
    assert found.count
    return time.perf_counter() - start


def test_many_bins_cost_no_more_each():
    catalogue, few, many = synthetic(ROWS, SEED), duty_of(FEW), duty_of(MANY)
    seconds(catalogue, few)  # the first run warms up
    # few before and behind, so that a machine that slows down is seen
    short = [seconds(catalogue, few) for _ in range(3)]
    long = seconds(catalogue, many)
    short += [seconds(catalogue, few) for _ in range(3)]
    each_of_few, each_of_many = median(short) / FEW, long / MANY
    told(f"{MANY} bins over {ROWS} x {ROWS} pairs, each bin", each_of_many, f"each of {FEW} bins", each_of_few)
    row(f"{MANY} bins, each pair and bin", f"{each_of_many / ROWS**2 * 1e9:.1f} ns")
    # not slower; the tenth is the noise of the machine
    assert each_of_many <= 1.1 * each_of_few


def test_many_bins_take_little_memory():
    catalogue, many = synthetic(200, SEED), duty_of(MANY)
    tracemalloc.start()
    screen.screen(catalogue, many)
    greatest = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    # the film of every bearing in every bin is kept: 200 x 1000 numbers, twice a side, 6.4 MB
    row(f"{MANY} bins over 200 x 200 pairs, memory", f"{greatest / 1e6:.0f} MB")
    assert greatest < 64e6


def test_merging_equal_bins_is_quick():
    draw = np.random.default_rng(4)
    bins = 100_000
    spectrum = Spectrum(
        np.full(bins, 1 / bins),
        100.0 * draw.integers(1, 20, bins),
        0.1 * draw.integers(0, 20, bins),
        np.full(bins, 60.0),
    )
    start = time.perf_counter()
    less = merged(spectrum)
    took = time.perf_counter() - start
    start = time.perf_counter()
    np.sort(draw.uniform(size=(4, bins)))
    told(f"merging {bins} bins to {len(less)}", took, "sorting as many numbers", time.perf_counter() - start)
    assert len(less) == 380
    assert took < promised(2)
