"""Load distributions of pairs side by side: each column is the study of its pair, and the verdict that of all of it."""

import numpy as np
import pytest

from engine.catalogue.read import builtin
from engine.checks import setting
from engine.checks.every import evaluate
from engine.record.result import compute
from engine.selection.comparing import distributed
from engine.selection.comparing.distributed import NOTHING, lines
from engine.selection.stages.load_distribution import Leading, lead
from engine.setting.study import study
from tests.engine.setting.pairs import duty

#: Tilted by so much, the second of these fails by its load distribution, and both pass by the closed formulas.
TILTED = {"setting__misalignment": "0.1", "duty__life_of": "each"}
HOLDS, TILTS = "V045-7FB-C", "V040-3DB-C"


def row(name):
    return builtin().take([builtin().index_of(name)])


@pytest.fixture(scope="module")
def studies():
    """Return the studies of both, each bearing on both sides."""
    return [study(row(name), row(name), duty(**TILTED), drawing=False) for name in (HOLDS, TILTS)]


def by_key(found):
    return {one.key: one for one in found}


def test_each_column_is_the_study_of_its_pair(studies):
    found = by_key(lines([Leading.of(studies[0]), None, Leading.of(studies[1])]))
    for column, made in ((0, studies[0]), (2, studies[1])):
        for outcome in setting.outcomes(made):
            one = found[f"setting.check.{outcome.check.key}.{outcome.side}"]
            assert (one.name, one.part, one.unit, one.group) == (
                outcome.check.name, outcome.side, outcome.check.unit, distributed.GROUP
            )  # fmt: skip
            assert one.cells[column] == outcome.utilisation
            assert (one.demand[column], one.capacity[column]) == (outcome.demand, outcome.capacity)
            assert one.passes[column] == outcome.passes
            assert one.advisory == outcome.check.advisory
        low, high = made.band
        assert found["setting.band"].cells[column] == high - low
        assert found["setting.life"].cells[column] == made.at.modified.min()
        assert found["setting.p_max"].cells[column] == max(p.max() for p in made.at.p_peak)
    checks = {f"setting.check.{one.check.key}.{one.side}" for one in setting.outcomes(studies[0])}
    assert set(found) == checks | {"setting.band", "setting.life", "setting.p_max"}


def test_of_a_pair_that_is_not_known_nothing_is_said_and_the_others_are_compared(studies):
    known = [Leading.of(made) for made in studies]
    both = by_key(lines(known))
    for gap in ([None, *known], [known[0], Leading(why_not="it does not come to rest"), known[1]]):
        at = next(column for column, one in enumerate(gap) if one not in known)
        found = by_key(lines(gap))
        assert found.keys() == both.keys()
        for key, one in found.items():
            assert one.cells[at] == NOTHING and not one.best[at]
            kept = [column for column in range(3) if column != at]
            assert [one.cells[column] for column in kept] == list(both[key].cells)
            assert [one.best[column] for column in kept] == list(both[key].best)
            assert one.differs == both[key].differs
            if one.passes:
                assert one.passes[at] is None and np.isnan(one.demand[at])
    assert lines([None, None]) == [] == lines([Leading(why_not="no")])


def test_the_longer_life_and_the_lower_pressure_are_best(studies):
    found = by_key(lines([Leading.of(made) for made in studies]))
    lives, pressures = found["setting.life"], found["setting.p_max"]
    assert lives.differs and lives.best == (lives.cells[0] > lives.cells[1], lives.cells[1] > lives.cells[0])
    assert pressures.best == tuple(cell == min(pressures.cells) for cell in pressures.cells)


@pytest.mark.parametrize("name", [HOLDS, TILTS])
def test_the_verdict_is_that_of_the_whole_pair(name, studies):
    conditions = duty(**TILTED)
    closed = bool(evaluate(row(name), row(name), conditions).passes[0])
    whole = compute(row(name), row(name), conditions)
    assert closed  # so that it is the load distribution that tells them apart
    quick = Leading.of(studies[name == TILTS])
    for known in (quick, Leading.of(whole.study)):
        assert distributed.passes(closed, known) is whole.passes is (name == HOLDS)
    assert distributed.passes(True, None) is None
    assert distributed.passes(False, None) is False
    # drawn or not, all but the chance is the same
    drawn = by_key(lines([Leading.of(whole.study)]))
    assert drawn.pop("setting.check.chance.pair").capacity == (whole.study.draws.survival,)
    assert drawn == by_key(lines([quick]))


def test_a_chance_that_is_asked_for_leaves_the_verdict_open_until_it_is_drawn():
    conditions = duty(setting__chance="99.9")
    quick = lead(row(HOLDS), row(HOLDS), conditions)
    assert quick.word == "open" and distributed.passes(True, quick) is None
    whole = compute(row(HOLDS), row(HOLDS), conditions)
    drawn = Leading.of(whole.study)
    assert drawn.word == ("passes" if whole.passes else "fails")
    assert distributed.passes(True, drawn) is whole.passes
    # a chance stands where it is known only
    chance = by_key(lines([quick, drawn]))["setting.check.chance.pair"]
    assert chance.cells == (NOTHING, pytest.approx(0.999 / whole.study.draws.survival))
    # what fails already waits for no chance
    assert lead(row(TILTS), row(TILTS), duty(**TILTED, setting__chance="99.9")).word == "fails"


def test_what_cannot_be_computed_says_why():
    conditions = duty(duty__locating="unit_a")
    said = lead(row(HOLDS), row(HOLDS), conditions)
    assert said.word == "unknown" and distributed.passes(True, said) is None
    assert compute(row(HOLDS), row(HOLDS), conditions).why_no_study == said.why_not != ""
