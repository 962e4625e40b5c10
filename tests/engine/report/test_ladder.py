"""The ladder of a seat: each rung is what the seat would be with that class, and all figures rise together."""

import itertools
import math

import numpy as np
import pytest

from engine import fitting
from engine.catalogue.read import builtin
from engine.checks import every, holding
from engine.report.fits.ladder import ladder
from engine.setting import study
from tests.duties import answered, conditions

ROWS = builtin()
DUTY = {"duty.distance": "200", "duty.cases[0].speed": "500", "duty.cases[0].radial_y": "12 kN"}


def climbed(texts, ring="cone", side="A", at=700):
    duty = conditions(answered(DUTY | texts))
    rows = ROWS.take([at])
    pairs = every.evaluate(rows, rows, duty)
    return ladder((rows, rows), ring, side, pairs.loads["AB".index(side)], duty), pairs, duty


@pytest.mark.parametrize("ring", ["cone", "cup"])
@pytest.mark.parametrize("at", [3, 700, 3500])
def test_a_rung_is_what_answering_its_class_gives(ring, at):
    turning = {} if ring == "cone" else {"speed.rotating_ring": "2"}
    whole, _, _ = climbed(turning, ring, at=at)
    for rung in whole.rungs:
        path = "fits.shaft_fit_a" if ring == "cone" else "fits.housing_fit_a"
        answered_so, pairs, duty = climbed(turning | {path: rung.name}, ring, at=at)
        assert answered_so.here == rung and not answered_so.recommended
        named = {one.check.key: one for one in pairs.outcomes if one.side == "A"}
        if ring == "cone":
            assert rung.tension == named["hoop"].demand[0]
        seats = fitting.seats_of(ROWS.take([at]), "A", duty.resolved)
        seat = seats.shaft if ring == "cone" else seats.housing
        assert rung.seat == pytest.approx((seat.lower[0] * 1e3, seat.upper[0] * 1e3), abs=1e-6)
        for end, margin in zip(("least", "mean"), rung.margins, strict=True):
            use = float(named[f"creep_{ring}_{end}"].utilisation[0])
            # a use without end is a margin of nothing
            expected = 0.0 if math.isinf(use) else math.inf if use == 0 else 1 / use
            assert margin == pytest.approx(expected, rel=1e-9)
        ruling = [one for one in pairs.outcomes if one.check.key in {"creep_cone_mean", "play_cup"} and one.side == "A"]
        assert rung.lost == any(not one.passes[0] and not one.check.advisory for one in ruling)


@pytest.mark.parametrize("at", range(0, 3500, 350))
def test_tighter_raises_tension_margin_and_raceway_and_closes_end_play(at):
    whole, _, _ = climbed({}, at=at)
    for loose, tight in itertools.pairwise(whole.rungs):
        assert tight.tension >= loose.tension and tight.raceway >= loose.raceway and tight.end_play >= loose.end_play
        assert tight.margins[0] >= loose.margins[0] and tight.margins[1] >= loose.margins[1]
        assert np.all(np.array(tight.use) >= loose.use)


def test_the_play_left_running_falls_as_the_fit_grows_by_the_rule_of_solid_shafts():
    """A steel cone on a solid steel shaft grows at its raceway by d/F of the interference (textbook).

    It closes half of that over the tangent of the contact angle; all warms alike, so the fits stay as mounted.
    """
    texts = {"fits.cone_hotter": "0", "fits.cup_hotter": "0", "setting.aim": "end play", "setting.amount": "0.1 mm"}
    whole, pairs, _ = climbed(texts)
    rows = pairs.A
    per_um = float(rows.d[0] / rows.F[0] / (2 * np.tan(rows.alpha[0])))
    tight = [rung for rung in whole.rungs if rung.mounted > 0]
    assert len(tight) > 4 and whole.bench == 100 and whole.seated
    for loose, tighter in itertools.pairwise(tight):
        lost = loose.left[0] - tighter.left[0]
        assert lost == pytest.approx((tighter.mounted - loose.mounted) * per_um, rel=0.02)
        # set on their seats the rings have been squeezed already, and warming alike takes nothing more
        assert tighter.left[1] == pytest.approx(loose.left[1], abs=1e-6)


def test_the_play_left_running_is_that_of_the_setting_in_service():
    for method, at in (("nut", 1), ("spacer", 0)):
        texts = {"setting.method": method, "setting.aim": "preload", "setting.amount": "0.02 mm"}
        whole, pairs, duty = climbed(texts)
        assert whole.seated == bool(at)
        made = study.study(pairs.A, pairs.B, duty, drawing=False)
        assert whole.here.left[at] == pytest.approx(made.service * 1e3, abs=1e-6)


def test_the_play_left_running_is_not_known_without_loads_or_for_paired_units():
    duty = conditions(answered({}))
    row = ROWS.take([700])
    assert all(np.isnan(rung.left).all() for rung in ladder((row, row), "cone", "A", None, duty).rungs)
    assert all(np.isnan(rung.left).all() for rung in climbed({"duty.locating": "unit_a"})[0].rungs)


def test_use_is_tension_over_what_the_usual_steels_bear():
    """175 MPa through-hardened, 345 MPa case-hardened (handbook, recalled)."""
    rung = climbed({})[0].here
    assert rung.use == pytest.approx((rung.tension / 175, rung.tension / 345))


def test_the_recommended_class_stands_in_its_place():
    whole, _, _ = climbed({"fits.adjusted": "none"})
    assert whole.recommended and whole.here.name[0] in "mn"
    precise = int(np.flatnonzero(np.isin(ROWS.tolerance, ["3", "5"]))[0])
    fine, _, _ = climbed({"fits.adjusted": "none"}, at=precise)
    assert fine.here.name in {"m5", "n5"} and [rung.name for rung in fine.rungs].count(fine.here.name) == 1


def test_without_loads_or_under_a_point_load_nothing_is_needed():
    duty = conditions(answered({}))
    bare = ladder((ROWS.take([700]), ROWS.take([700])), "cone", "A", None, duty)
    assert math.isnan(bare.needed) and all(math.isnan(margin) for margin in bare.here.margins)
    cup, _, _ = climbed({}, "cup")
    assert cup.needed == 0 and all(math.isinf(margin) for rung in cup.rungs for margin in rung.margins)
    assert cup.here.use == ()


def test_what_is_needed_is_that_of_the_check():
    whole, pairs, _ = climbed({})
    (needed,) = [one.demand[0] for one in pairs.outcomes if one.check is holding.LOOSE["cone"] and one.side == "A"]
    assert whole.needed == pytest.approx(needed, abs=1e-6)
