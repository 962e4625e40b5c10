"""What is told in columns: one seat in both measuring systems, and both steels, for the wizard and the report."""

import itertools

import numpy as np
import pytest

from engine.catalogue.read import builtin
from engine.checks import every, steel
from engine.record.seats import both_steels, twins
from engine.record.seats.fit import Fit
from engine.report import side_by_side
from engine.steel.grades import TREATMENTS
from engine.steel.verdict import CHECKS
from tests.duties import answered, conditions

ROWS = builtin()
DUTY = {"duty.distance": "200", "duty.cases[0].speed": "500", "duty.cases[0].radial_y": "12 kN"}


def pair_of(row, texts=()):
    duty = conditions(answered(DUTY | dict(texts)))
    one = ROWS.take([row])
    return every.evaluate(one, one, duty), duty


def in_both(row, ring, texts=()):
    evaluated, duty = pair_of(row, texts)
    return twins.twins(Fit.both(ring, evaluated, duty)[0], evaluated.loads[0])


def rows_of(system, tolerance, least, greatest):
    found = (ROWS.system == system) & (ROWS.tolerance == tolerance) & (ROWS.d > least) & (ROWS.d <= greatest)
    return np.flatnonzero(found)


def test_an_inch_cone_by_hand():
    """m6 on 50 to 65 mm: +30/+11 on a metric bore 0/-15, on an inch bore +13/0 +45/+24; the README has the same."""
    of = in_both(int(rows_of("inch", "4", 50, 65)[0]), "cone", {"fits.shaft_fit_a": "m6"})
    assert of.metric.ring == (0, -15) and of.inch.ring == of.mistaken.ring == (13, 0)
    assert of.metric.seat == of.mistaken.seat == (30, 11) and of.inch.seat == (45, 24)
    assert of.metric.cold == of.inch.cold == (11, 45) and of.mistaken.cold == (-2, 30)
    assert of.errors == (-13, -15)
    assert of.follows.startswith("13 to 15 um looser than meant, play at the loose end")
    assert "the raceway grows" in of.follows and of.follows.endswith("um less")
    named = dict(twins.lines(of))
    assert named["bore"] == ("0/-15", "+13/0", "+13/0")
    assert named["shaft to make"] == ("+30/+11", "+45/+24", "+30/+11")
    assert named["interference"] == ("11 to 45", "11 to 45", "-2 to 30")


def test_an_inch_cup_by_hand():
    """N7 on 80 to 120 mm: -10/-45 round 0/-18, +8/-20 round +25/0; 18 to 25 um tighter by mistake."""
    rows = [row for row in rows_of("inch", "4", 45, 65) if 80 < ROWS.D[row] <= 120]
    of = in_both(int(rows[0]), "cup", {"fits.housing_fit_a": "N7", "speed.rotating_ring": "2"})
    assert of.metric.seat == (-10, -45) and of.inch.seat == (8, -20)
    assert of.metric.cold == of.inch.cold == (-8, 45) and of.mistaken.cold == (10, 70)
    assert of.follows.startswith("18 to 25 um tighter than meant, no play left to slide in, the raceway is squeezed")


@pytest.mark.parametrize("row", range(0, len(ROWS), 211))
@pytest.mark.parametrize("ring", ["cone", "cup"])
def test_both_systems_sit_alike_within_a_micrometre(row, ring):
    of = in_both(row, ring)
    for one, other in zip(of.metric.cold, of.inch.cold, strict=True):
        assert abs(one - other) <= 1
    assert of.metric.running == pytest.approx(of.inch.running, abs=1)
    if of.metric.margin is not None:
        assert of.metric.margin == pytest.approx(of.inch.margin, abs=0.2)


def test_limits_that_are_not_at_hand_are_not_shown():
    evaluated, duty = pair_of(700)
    fit = Fit.both("cone", evaluated, duty)[0]
    object.__setattr__(fit.seats, "shaft_code", np.array([-1]))
    assert twins.twins(fit, evaluated.loads[0]) is None


@pytest.mark.parametrize("texts", [{}, {"steel.shock": "heavy", "fits.shaft_fit_a": "r6"}, {"steel.dirt": "much"},
                                   {"lubrication.temperature": "145"}])  # fmt: skip
@pytest.mark.parametrize("row", [3, 700, 3500])
def test_both_steels_are_told_as_the_verdict_has_them(row, texts):
    evaluated, duty = pair_of(row, texts)
    told = steel.told(evaluated.A, "A", evaluated.loads[0], duty)
    head, *facing = both_steels.side_by_side(evaluated, duty, "A")
    named = {one.name: one for one in facing}
    assert [value.partition(",")[0] for value in head.values] == ["through-hardened", "case-hardened"]
    assert "this one" in head.values[TREATMENTS.index(str(evaluated.A.steel[0]))]
    shares = [one for one in facing if any(":" in value for value in one.values)]
    assert len(shares) == len(CHECKS)
    for column, treatment in enumerate(TREATMENTS):
        sentence = told.sentence(0, treatment)
        assert sentence.startswith(named["verdict"].values[column])
        assert named["steel"].values[column] in sentence
        if named["verdict"].values[column] == "does not suit":
            assert named["would help"].values[column] in sentence
            assert "fails" in [one.meanings[column] for one in shares]
        else:
            assert "fails" not in [one.meanings[column] for one in shares]
    # what is asked is the same of both, where the steel makes no difference to it
    for name in ("hoop stress", "highest temperature", "thickness of ring"):
        asked = [value.partition(": ")[2].partition(" of ")[0] for value in named[name].values]
        assert asked[0] == asked[1]


def test_the_report_shows_both_comparisons_for_both_sides():
    evaluated, duty = pair_of(700)
    systems = list(side_by_side._systems(evaluated, duty))
    assert [table.head[0][:9] for table in systems] == ["cone at A", "cone at B", "cup at A,", "cup at B,"]
    for table in systems:
        assert "than meant" in table.caption and len({len(row) for row in table.rows}) == 1
    steels = list(side_by_side._steels(evaluated, duty))
    assert [table.head[0] for table in steels] == ["rings at A", "rings at B"]
    assert all(len(row) == 3 for row in itertools.chain(*(table.rows for table in steels)))
