"""Figures and sentences about the seats: the metric and the inch case side by side, creep by case, both steels."""

import math

import numpy as np
import pytest

from engine.catalogue.read import builtin
from engine.record.result import compute
from engine.report import full
from engine.report.calculation import verdict_sentence
from engine.steel.verdict import SIMILAR_LIFE
from tests.duties import answered, conditions

DUTY = {
    "duty.distance": "200", "duty.cases[0].speed": "500", "duty.cases[0].radial_y": "12 kN",
    "duty.cases[1].speed": "0", "duty.cases[1].radial_y": "30 kN", "fits.adjusted": "none",
}  # fmt: skip
ROWS = builtin()


def row(system, d, steel, tolerance=""):
    wanted = (ROWS.system == system) & (np.abs(ROWS.d - d) < 0.01) & (ROWS.steel == steel)
    if tolerance:
        wanted &= ROWS.tolerance == tolerance
    return ROWS.take([int(np.flatnonzero(wanted)[0])])


INCH, METRIC = row("inch", 63.5, "case", "4"), row("metric", 65.0, "through", "Normal")


def result(texts=None, A=INCH, B=METRIC):
    return compute(A, B, conditions(answered(DUTY | (texts or {}), 2)))


def figure(of, key, title=""):
    return next(f for block in of.blocks if title in block.title for f in block.figures if f.key == key)


def values(of, *keys):
    return [figure(of, key).A for key in keys], [figure(of, key).B for key in keys]


def test_the_worked_example_stands_in_the_record():
    """m6 on 63.5 mm: shaft +45/+24 um for the inch cone, +30/+11 for a metric one, 11 to 45 um either way."""
    of = result({"fits.shaft_fit_a": "m6", "fits.shaft_fit_b": "m6"})
    names = ("ring_upper", "ring_lower", "seat_upper", "seat_lower", "metric_upper", "metric_lower", "cold_0", "cold_2",
             "cold_4")  # fmt: skip
    inch, metric = values(of, *(f"cone_{name}" for name in names))
    assert inch == [13, 0, 45, 24, 30, 11, 11, 28, 45]
    assert metric == [0, -15, 30, 11, 30, 11, 11, 28, 45]
    error = values(of, "cone_error_least", "cone_error_greatest")
    assert error == ([-13, -15], ["-", "-"])
    (told,) = [text for text in of.cautions if text.startswith("Inch cone at A")]
    assert "+45/+24 um" in told and "+30/+11 um" in told and "13 to 15 um looser, with play at the loose end" in told
    assert not any("cone at B:" in text for text in of.cautions)


def test_a_metric_pair_has_no_word_of_twins():
    of = result(A=METRIC, B=METRIC)
    assert not [f for block in of.blocks for f in block.figures if "metric_upper" in f.key]
    assert not [text for text in of.cautions if text.startswith("Inch")]


def test_probable_ends_lie_within_the_worst_and_root_sum_square_apart():
    """Half of sqrt(19^2 + 15^2) = 24.2 um to either side of the mean, by hand."""
    of = result({"fits.shaft_fit_b": "m6"})
    assert pytest.approx(28 - math.hypot(19, 15) / 2, abs=1e-5) == figure(of, "cone_cold_1").B
    assert pytest.approx(28 + math.hypot(19, 15) / 2, abs=1e-5) == figure(of, "cone_cold_3").B


def test_smoothing_is_what_din_7190_takes():
    of = result({"fits.shaft_roughness": "6.3"})
    assert pytest.approx(0.8 * (6.3 + 1.6)) == figure(of, "cone_smoothing").A


def test_each_case_has_its_need_and_margin_and_a_standing_one_none():
    of = result({"fits.shaft_fit_a": "m6"})
    needed, mean = figure(of, "cone_needed_1"), figure(of, "cone_margin_1_2")
    running = figure(of, "cone_running_2")
    assert pytest.approx(running.A / needed.A, rel=1e-6) == mean.A
    assert figure(of, "cone_needed_2").A == 0 and figure(of, "cone_margin_2_0").A == "not needed"


def test_a_cup_that_the_load_goes_round_is_held_against_creep_in_its_place():
    of = result({"speed.rotating_ring": "2"})
    titles = [block.title for block in of.blocks]
    assert "Cup against creep" in titles and "Cone against creep" not in titles
    assert figure(of, "cup_load").A == "circumferential" and figure(of, "cone_load").A == "point"


def test_the_raceway_and_the_end_play_follow_the_pressure():
    """End play closed is half of the raceway's growth over tan alpha: geometry."""
    of = result({"fits.shaft_fit_a": "p6"})
    grown = figure(of, "cone_raceway_mean").A
    assert pytest.approx(grown / 2 / math.tan(float(INCH.alpha[0])), rel=1e-5) == figure(of, "cone_end_play").A
    assert figure(of, "cone_hoop_mounted").A > 0 > figure(of, "cup_hoop_raceway").A


def test_the_raceway_grows_by_d_over_f_of_the_interference_on_a_solid_shaft_of_steel():
    """Lame, one material, no bore: the joint vanishes from the ratio, which is that of the diameters."""
    of = result({"fits.shaft_fit_a": "n6"})
    mounted = figure(of, "cone_cold_2").A - figure(of, "cone_smoothing").A
    assert pytest.approx(mounted * float(INCH.d[0] / INCH.F[0]), rel=1e-5) == figure(of, "cone_raceway_mean").A


def test_a_cone_with_play_goes_on_by_hand():
    """g6 on 60 mm -10/-29 um, bore of class 4 0/-9 um: always loose."""
    loose = row("metric", 60.0, "case").take([0])
    object.__setattr__(loose, "tolerance", np.array(["4"]))
    assert figure(result({"fits.shaft_fit_a": "g6"}, A=loose), "cone_mounting").A == "by hand"


@pytest.mark.parametrize(
    ("texts", "word"),
    [({"fits.shaft_fit_a": "m6"}, "heated"),
     ({"fits.shaft_fit_a": "r6"}, "pressed"), ({"fits.shaft_fit_a": "r6", "fits.mounting": "heated"}, "heated")],
)  # fmt: skip
def test_how_the_cone_goes_on(texts, word):
    of = result(texts)
    assert word == figure(of, "cone_mounting").A
    assert any(check.key == "heating" for check in of.checks) == ("fits.mounting" in texts)
    if word == "heated" and "fits.mounting" not in texts:
        assert figure(of, "cone_heating").A <= 120


def test_the_load_level_is_told_and_cautioned_where_it_is_heavier_than_answered():
    normal = {"fits.level": "normal"}
    mild, heavy = result(normal), result(normal | {"duty.cases[0].radial_y": "60 kN"})
    assert figure(mild, "level").A == "light" and figure(heavy, "level").A == "heavy"
    assert not any(text.startswith("Load level") for text in mild.cautions)
    assert any(text.startswith("Load level at A: P/C") and "heavy" in text for text in heavy.cautions)
    for level in ("heavy", "by the loads of each bearing"):
        told = result({"duty.cases[0].radial_y": "60 kN", "fits.level": level}).cautions
        assert not any(text.startswith("Load level") for text in told)


@pytest.mark.parametrize(
    ("texts", "level"),
    [({}, "light"), ({"duty.cases[0].radial_y": "60 kN"}, "heavy"),
     ({"duty.cases[0].radial_y": "60 kN", "steel.shock": "heavy"}, "heavy with shock")],
)  # fmt: skip
def test_fits_by_the_loads_are_those_of_the_level_that_they_make(texts, level):
    """With nothing answered the classes, and all that follows of them, are those of the level itself."""
    found, asked = result(texts), result(texts | {"fits.level": level})
    assert level == figure(found, "level").A

    def of_seats(one):
        return [block for block in one.blocks if block.key.startswith(("fit", "seat", "hold"))]

    assert of_seats(found) and of_seats(found) == of_seats(asked)
    checks = [{(c.key, c.side): (c.demand, c.capacity) for c in one.checks if c.key in KEYS} for one in (found, asked)]
    assert checks[0] == checks[1]
    assert {key for key, _ in checks[0]} == KEYS


KEYS = {"hoop", "shock", "creep_cone_least", "creep_cone_mean", "stability"}


def test_a_cone_that_must_slide_under_a_turning_load_is_said_to_be_a_compromise():
    assert any("must slide although the load goes round it" in text for text in result({"fits.adjusted": "2"}).cautions)
    assert not any("must slide" in text for text in result({"fits.adjusted": "cup at B"}).cautions)


def test_both_steels_are_judged_for_both_bearings_and_told_which_is_theirs():
    of = result({"fits.shaft_fit_a": "r6", "fits.shaft_fit_b": "r6", "steel.shock": "heavy"})
    assert len(of.steels) == 5 and of.steels[-1] == SIMILAR_LIFE
    by_lead = {text.partition(":")[0]: text for text in of.steels[:-1]}
    assert "A, case-hardened, as this bearing is" in by_lead and "B, through-hardened, as this bearing is" in by_lead
    assert "does not suit: " in by_lead["B, through-hardened, as this bearing is"]
    assert not of.passes and {check.key for check in of.checks if not check.passes and not check.advisory} >= {"shock"}


def test_a_class_without_limits_is_left_out_and_said_so():
    other = METRIC.take([0])
    object.__setattr__(other, "tolerance", np.array(["A"]))
    of = result(B=other)
    assert any("The fits at B are left out: limits of class A" in text for text in of.cautions)
    assert any(text.startswith("B: the limits of its tolerance class are not at hand") for text in of.steels)
    assert {(check.key, check.side) for check in of.not_judged} == {
        (key, "B") for key in ("hoop", "shock", "creep_cone_mean", "stability")
    }
    for check in of.not_judged:
        assert check.passes and math.isnan(check.demand) and check.utilisation == 0
    (said,) = [text for text in of.cautions if text.startswith("The fits at B are left out")]
    assert said.endswith("neither its tension nor what shock makes of it is judged")
    assert not result().not_judged
    assert of.verdict == "passes" or all(check.key != "hoop" for check in of.checks if not check.passes)


def test_what_is_not_judged_says_so_on_its_own_line_and_beside_the_verdict():
    other = METRIC.take([0])
    object.__setattr__(other, "tolerance", np.array(["A"]))
    of = result(B=other)
    assert of.verdict == "passes"
    said = verdict_sentence(of)
    assert "could be judged; not judged: " in said and "Rings bear their fit (B)" in said and "(A)" not in said
    assert "judged" not in verdict_sentence(result())
    hoop = {check.side: check for check in of.checks if check.key == "hoop"}
    assert (full.state(hoop["A"]), full.state(hoop["B"])) == ("passes", "caution")


def test_widths_and_runouts_stand_where_the_limits_of_the_rings_do():
    """Inch class 4 and metric Normal at 60 to 80 mm, as recalled from ISO 578 and ISO 492."""
    of = result()
    names = ("B_upper", "B_lower", "T_upper", "T_lower", "runout")
    inch, metric = values(of, *(f"cone_{name}" for name in names))
    assert inch == ["not at hand", "not at hand", 203, 0, 51]
    assert metric == [0, -150, 200, 0, 25]
    assert values(of, "cup_runout") == ([51], [35])
    assert "ISO 578" in figure(of, "cone_T_upper").source and "ISO 492" in figure(of, "cone_T_upper").source
    unknown = METRIC.take([0])
    object.__setattr__(unknown, "tolerance", np.array(["A"]))
    assert values(result(B=unknown), *(f"cone_{name}" for name in names))[1] == ["not at hand"] * 5


def test_the_range_of_drawn_sizes_stands_beside_worst_case_and_root_sum_square():
    of = result({"fits.shaft_fit_b": "m6"})
    worst, drawn, root = (
        [figure(of, f"cone_{key}").B for key in keys]
        for keys in (("cold_0", "cold_4"), ("drawn_0", "drawn_1"), ("cold_1", "cold_3"))
    )
    # inspection cuts the tails that the root sum square leaves to both sizes
    assert worst[0] < root[0] < drawn[0] < drawn[1] < root[1] < worst[1]
    assert drawn == pytest.approx(root, abs=1)
