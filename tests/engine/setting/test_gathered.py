"""A measured spectrum gathered into steps: time and turns stay, and the steps wear as the bins do."""

import numpy as np
import pytest

from engine.answers.binned import Bins
from engine.answers.document import put
from engine.operating import Bearings, hours, over_spectrum, pair_loads, state
from engine.setting.gathered import MOST_STEPS, gathered, load_sizes
from tests.duties import answered, conditions
from tests.engine.setting.pairs import DUTY, duty, rows


def measured(count, seed=3):
    draw = np.random.default_rng(seed)
    bins = Bins(
        "measured.csv",
        tuple(draw.uniform(0.1, 1.0, count)),
        tuple(draw.uniform(200.0, 1500.0, count)),
        tuple(draw.gamma(2.0, 0.4, count)),
        tuple(draw.uniform(40.0, 80.0, count)),
    )
    return conditions(put(answered(DUTY, 2), "duty.cases[0].histogram", bins))


def test_answered_cases_stay_as_they_are():
    given = duty()
    assert gathered(given) is given


def test_time_and_turns_are_kept_and_every_step_has_its_case():
    given = measured(500)
    steps = gathered(given).cases
    made = len(steps) - 1
    assert MOST_STEPS // 2 < made <= MOST_STEPS
    assert steps.case_of == (0,) * made + (1,)
    assert steps.share.sum() == pytest.approx(given.cases.share.sum())
    assert steps.share @ steps.n == pytest.approx(given.cases.share @ given.cases.n)
    assert steps.share @ steps.temperature == pytest.approx(given.cases.share @ given.cases.temperature)
    assert np.all(np.diff(load_sizes(steps.forces)[:made]) > 0)
    assert np.all(steps.n >= given.cases.n.min()) and np.all(steps.n <= given.cases.n.max())
    assert steps.names[0] == f"case 1, step 1 of {made}" and steps.names[-1] == "case 2"


@pytest.mark.parametrize("seed", range(5))
def test_the_steps_wear_as_the_bins_do(seed):
    """Lives by ISO 281 of every bin for itself against those of the steps, basic ones and with the film."""
    given = measured(400, seed)
    basic, modified = [], []
    for one in (given, gathered(given)):
        bearings = [Bearings.of(rows(), side, one) for side in "AB"]
        loads = pair_loads(*bearings, one)
        states = [state(b, x, one) for b, x in zip(bearings, loads, strict=True)]
        basic.append([float(over_spectrum(hours(s.L10, one.cases), one.cases)[0]) for s in states])
        modified.append([float(s.life[0]) for s in states])
    assert basic[1] == pytest.approx(basic[0], rel=0.03)
    assert modified[1] == pytest.approx(modified[0], rel=0.15)


def test_few_bins_are_left_alone():
    given = measured(MOST_STEPS)
    assert gathered(given) is given
