"""Pairs side by side: each column is the pair by itself, and what differs is marked."""

import numpy as np
import pytest

from engine.answers.document import put
from engine.answers.question import Quantity
from engine.checks.every import evaluate
from engine.selection.comparing.compare import compare, sandbox
from engine.selection.verdict import verdict
from tests.duties import conditions, random_duty, small_catalogue

PAIRS = [(3, 7), (7, 3), (12, 12), (20, 5)]


@pytest.mark.parametrize("seed", range(6))
def test_each_column_is_the_pair_by_itself(seed):
    catalogue, answers = small_catalogue(seed, 40), random_duty(seed)
    told = compare(catalogue, PAIRS, answers)
    for at, pair in enumerate(PAIRS):
        alone = verdict(*(catalogue.take([row]) for row in pair), answers)
        assert told.passes[at] == alone.passes
        for finding in alone.findings:
            line = told.line(f"check.{finding.check.key}.{finding.side}")
            np.testing.assert_equal(line.cells[at], finding.utilisation)
            np.testing.assert_equal((line.demand[at], line.capacity[at]), (finding.demand, finding.capacity))
            assert line.passes[at] == finding.passes
        computed = evaluate(*(catalogue.take([row]) for row in pair), conditions(answers))
        for name, side, values in (("P", "A", computed.states[0].P), ("Fa", "B", computed.loads[1].Fa)):
            assert told.line(f"case.0.{name}.{side}").cells[at] == values[0, 0]
        assert told.line("part.designation.A").cells[at] == catalogue.designation[pair[0]]
    assert len({line.key for line in told.lines}) == len(told.lines) > 40


def test_what_differs_is_marked_and_the_best_of_it():
    catalogue, answers = small_catalogue(2, 40), random_duty(2)
    told = compare(catalogue, PAIRS, answers)
    mass = told.line("pair.mass")
    expected = [catalogue.mass[a] + catalogue.mass[b] for a, b in PAIRS]
    assert list(mass.cells) == pytest.approx(expected)
    assert mass.differs and [at for at in range(4) if mass.best[at]] == [
        at for at in range(4) if expected[at] <= min(expected) * 1.0005
    ]
    rating = told.line("part.Cr.A")
    assert rating.best[int(np.argmax(rating.cells))]
    same = compare(catalogue, [(3, 7), (3, 7)], answers)
    assert not any(line.differs or any(line.best) for line in same.lines)
    assert told.line("part.designation.A").differs and not any(told.line("part.designation.A").best)


def test_a_sandbox_changes_one_answer_and_leaves_the_answers_alone():
    catalogue, answers = small_catalogue(2, 40), random_duty(2)
    hot = Quantity(answers.lubrication.temperature.value + 30)
    tried = sandbox(catalogue, PAIRS, answers, "lubrication.temperature", hot)
    assert tried.before == compare(catalogue, PAIRS, answers)
    assert tried.after == compare(catalogue, PAIRS, put(answers, "lubrication.temperature", hot))
    assert tried.moved["case.0.kappa.A"] == (True,) * 4
    assert tried.moved["case.0.Fr.A"] == tried.moved["pair.mass"] == (False,) * 4
    after = tried.after.line("case.0.kappa.A").cells
    assert all(new < old for new, old in zip(after, tried.before.line("case.0.kappa.A").cells, strict=True))


def test_a_check_that_is_no_longer_asked_has_moved():
    catalogue = small_catalogue(2, 40)
    answers = put(random_duty(2), "envelope.mass", Quantity(5.0))
    tried = sandbox(catalogue, PAIRS, answers, "envelope.mass", None)
    assert tried.moved["check.mass.pair"] == (True,) * 4
    assert "check.mass.pair" not in {line.key for line in tried.after.lines}


@pytest.mark.parametrize("many", [0, 5])
def test_none_and_more_than_four_are_refused(many):
    with pytest.raises(ValueError, match="accepted: 1 to 4"):
        compare(small_catalogue(2, 40), [(1, 2)] * many, random_duty(2))


def test_without_loads_the_parts_are_compared():
    from tests.duties import answered

    told = compare(small_catalogue(2, 40), PAIRS, answered({}))
    assert told.line("part.d.A").differs
    assert not any(line.key.startswith(("case.", "life.")) for line in told.lines)
