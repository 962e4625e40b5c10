"""Advice from figures: each proposal does what it says, and nothing thinner, dirtier or less would do."""

import numpy as np
import pytest

from engine.advising.proposals import proposals
from engine.advising.standing import standing
from engine.advising.view import view
from engine.answers.contradiction import contradictions
from engine.answers.document import Answers, put, question_at
from engine.lubrication.cleanliness import LEVELS
from tests.duties import answered, random_duty, settling_duty, small_catalogue

CATALOGUE = small_catalogue(6, 40)
#: Two rows that the duty below puts to the test.
A, B = (CATALOGUE.take([row]) for row in np.argsort(np.abs(CATALOGUE.Cr - 60_000))[:2])
SHAFT = {"duty.distance": "200", "duty.cases[0].speed": "300", "duty.cases[0].radial_y": "9 kN",
         "duty.cases[0].axial": "3 kN"}  # fmt: skip


def texts(life="20000", **more):
    return answered(SHAFT | {"duty.life": life} | {f"lubrication.{name}": text for name, text in more.items()})


def named(answers, beginning):
    return next((one for one in proposals(answers, A, B) if one.label.startswith(beginning)), None)


def test_the_thinnest_grade_that_gives_the_kappa_wanted():
    answers = texts(grade="22", kappa_wanted="1.2")
    found = named(answers, "ISO VG")
    then = standing(found.applied(answers), A, B)
    assert then.kappa >= 1.2
    grades = [option.value for option in question_at("lubrication.grade").options]
    (value,) = (value for path, value in found.changes if path == "lubrication.grade")
    thinner = grades[grades.index(value) - 1]
    assert standing(put(answers, "lubrication.grade", thinner), A, B).kappa < 1.2
    assert f"kappa {then.kappa:.2f} (now {standing(answers, A, B).kappa:.2f})" in found.effect


def test_a_film_that_is_wasted_asks_for_a_thinner_oil_that_still_lives_long_enough():
    answers = texts(grade="1500", temperature="35", life="2000")
    found = named(answers, "ISO VG")
    now, then = standing(answers, A, B), standing(found.applied(answers), A, B)
    assert now.kappa_most > 4 and 1 <= then.kappa < now.kappa
    assert then.heat < now.heat and then.life >= 2000 and "friction" in found.effect


def test_measured_viscosities_give_way_to_a_grade():
    found = named(texts(nu40="20", nu100="4"), "ISO VG")
    assert ("lubrication.nu40", None) in found.changes and ("lubrication.nu100", None) in found.changes


def test_two_points_give_way_to_a_grade():
    answers = texts(viscosity_by="points", point_1_temperature="30", point_1_viscosity="30",
                    point_2_temperature="90", point_2_viscosity="5")  # fmt: skip
    found = named(answers, "ISO VG")
    assert ("lubrication.viscosity_by", None) in found.changes
    assert standing(found.applied(answers), A, B).kappa >= 1 > standing(answers, A, B).kappa


def test_a_named_lubricant_gives_way_to_one_of_its_kind():
    answers = texts(lubricant="NLGI 2 polyurea mineral", kappa_wanted="0.8")
    (change,) = named(answers, "grease").changes
    assert change[0] == "lubrication.lubricant" and "mineral" in change[1]


@pytest.mark.parametrize("by", ["stated", "settled"])
def test_the_dirtiest_level_that_gives_the_life_wanted(by):
    answers = texts(cleanliness="severe", temperature_by=by)
    now = standing(answers, A, B)
    wanted = 1.2 * standing(put(answers, "lubrication.cleanliness", "slight"), A, B).life
    answers = put(answers, "duty.life", question_at("duty.life").parse(f"{wanted:.0f}"))
    found = named(answers, "Cleanliness")
    assert now.life < wanted and found.changes == (("lubrication.cleanliness", "normal"),)
    assert standing(found.applied(answers), A, B).life >= wanted


def test_words_give_way_to_a_level():
    answers = texts(cleanliness_by="words", supply="bath", air="dusty", life="3000")
    found = named(answers, "Cleanliness")
    assert found.changes[0] == ("lubrication.cleanliness_by", "level")
    assert LEVELS.index(found.changes[1][1]) < LEVELS.index("severe")


def test_oil_in_place_of_grease_for_a_reason():
    assert named(texts(), "Oil bath") is None
    fast = put(texts(), "duty.cases[0].speed", question_at("duty.cases[0].speed").parse("9000"))
    found = named(fast, "Oil bath")
    assert "above the limiting speed with grease" in found.effect
    assert found.applied(fast).lubrication.supply == "bath"
    hot = texts(lubricant="NLGI 3 lithium", temperature="125")
    found = named(hot, "Oil bath")
    assert "the grease stands 120 degC" in found.effect
    after = found.applied(hot)
    assert after.lubrication.lubricant is None and after.lubrication.grade == "100" and contradictions(after) == ()


def test_circulating_oil_with_the_flow_that_holds():
    fast = put(texts(supply="bath"), "duty.cases[0].speed", question_at("duty.cases[0].speed").parse("6000"))
    found = named(fast, "Circulating oil")
    now = standing(found.applied(fast), A, B)
    given = now.conditions.resolved.lubricated.surroundings.oil_flow
    assert now.flow <= given <= 1.1 * now.flow


def test_a_jet_where_the_rib_is_too_fast_for_oil_that_merely_circulates():
    fast = put(texts(supply="circulating"), "duty.cases[0].speed", question_at("duty.cases[0].speed").parse("15000"))
    assert standing(fast, A, B).rib > 25
    found = named(fast, "Oil jet")
    assert "circulating oil 25 m/s" in found.label
    after = found.applied(fast)
    assert after.lubrication.supply == "jet" and after.lubrication.oil_flow.value > 0
    assert named(after, "Oil jet") is None


def test_a_flow_that_is_short_is_named_with_the_one_needed():
    answers = texts(supply="circulating", temperature_by="settled", other_heat="1.5 kW", oil_flow="0.1")
    found = named(answers, "Oil flow")
    then = standing(found.applied(answers), A, B)
    assert standing(answers, A, B).T > 75 and 65 < then.T <= 70 + 1e-6


def test_a_proven_additive_only_where_it_counts():
    thin = texts(grade="22", cleanliness="high", temperature="80")
    now = standing(thin, A, B)
    found = named(thin, "A proven EP")
    assert (found is not None) == (now.kappa < 1 and now.e_C >= 0.2)
    assert named(texts(grade="680"), "A proven EP") is None


def test_regreasing_as_often_as_it_needs():
    answers = texts(moisture="splashed", temperature="85", interval="2000")
    now = standing(answers, A, B)
    found = named(answers, "Regrease every")
    assert 24 <= now.interval < 2000
    assert now.interval - 10 < found.changes[-1][1].value <= now.interval


@pytest.mark.parametrize("seed", range(25))
@pytest.mark.parametrize("duty", [random_duty, settling_duty])
def test_proposals_of_any_duty_can_be_applied(seed, duty):
    answers = duty(seed)
    for one in proposals(answers, A, B):
        after = one.applied(answers)
        assert after != answers and contradictions(after) == contradictions(answers)
        assert one.label and one.effect and one.effect.isascii()
        assert standing(after, A, B) is not None
        for path, value in one.changes:
            if value is not None:
                # what is put could have been typed
                assert question_at(path).parse(question_at(path).show(value))


def test_nothing_is_proposed_while_loads_are_unknown():
    assert proposals(Answers(), A, B) == ()
    bare = view(Answers(), None, chosen=False)
    assert bare.heats == bare.proposals == () and bare.viscosities.places == ()
    assert np.isfinite(bare.viscosities.nu).all()


@pytest.mark.parametrize("seed", range(8))
def test_what_is_drawn_is_what_is_computed(seed):
    answers = settling_duty(seed)
    now = standing(answers, A, B)
    drawn = view(answers, (A, B), chosen=True)
    assert min(place.kappa for place in drawn.viscosities.places) == pytest.approx(now.kappa, nan_ok=True)
    for heats in drawn.heats:
        if np.isfinite(heats.settled):
            made, shed = (np.interp(heats.settled, heats.T, curve) for curve in (heats.made, heats.shed))
            assert made == pytest.approx(shed, rel=0.05, abs=1.0)
    hottest = max(heats.settled for heats in drawn.heats)
    assert hottest == pytest.approx(now.T, nan_ok=True)


def test_it_can_be_stopped():
    def pause():
        raise InterruptedError

    with pytest.raises(InterruptedError):
        proposals(texts(grade="22"), A, B, pause)
