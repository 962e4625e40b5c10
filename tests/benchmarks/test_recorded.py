"""The table of recorded ratios is what the benchmarks hold themselves to."""

import pytest

from tests.benchmarks.recorded import RATIOS, REGRESSION, kept, kept_by_the_best
from tests.house.tree import ROOT

SOURCES = {path: path.read_text() for path in (ROOT / "tests" / "benchmarks").glob("test_*.py")}


@pytest.mark.parametrize("key", RATIOS)
def test_every_recorded_ratio_is_measured_by_a_benchmark(key):
    assert any(f'"{key}"' in text for path, text in SOURCES.items() if path.name != "test_recorded.py")


@pytest.mark.parametrize("key", RATIOS)
def test_what_is_recorded_keeps_the_limit(key):
    assert 0 < RATIOS[key].recorded <= RATIOS[key].limit


@pytest.mark.parametrize("key", RATIOS)
def test_a_ratio_that_has_grown_by_more_than_a_fifth_fails(key):
    kept(key, RATIOS[key].recorded)
    with pytest.raises(AssertionError, match="at most"):
        kept(key, 1.001 * REGRESSION * RATIOS[key].recorded)


def test_the_best_round_counts_and_no_more_rounds_are_made_than_needed():
    rounds = iter([9.0, 9.0, 1.0, 9.0])
    kept_by_the_best(lambda: {"start: first count": next(rounds)})
    assert list(rounds) == [9.0]
    with pytest.raises(AssertionError, match="first count"):
        kept_by_the_best(lambda: {"start: first count": 9.0})
