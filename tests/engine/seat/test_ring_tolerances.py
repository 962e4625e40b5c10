"""Tolerances of the rings: recalled tables held to what they must be among themselves and beside ISO 286.

No open copy of ISO 492 or ISO 578 is at hand, so that the values can only be checked for slips: classes lie within
each other, larger sizes never have smaller tolerances, inch sizes are whole ten-thousandths of an inch, and Normal
lies between IT5 and IT7.
"""

import itertools

import numpy as np
import pytest

from engine.seat import iso286, iso492, iso578
from engine.seat.limits import class_codes, form_limits, ring_limits

METRIC = {name: code for code, name in enumerate(iso492.CLASSES)}
INCH = {name: code for code, name in enumerate(iso578.CLASSES)}
BORES, OUTSIDES = np.array(iso492.BORE_UP_TO), np.array(iso492.OUTSIDE_UP_TO)


def micrometres(values):
    return np.round(np.asarray(values) * 1e3, 6)


@pytest.mark.parametrize(
    "table",
    [iso492.BORE_LOWER, iso492.OUTSIDE_LOWER, iso492.RUNOUT_INNER, iso492.RUNOUT_OUTER, iso492.WIDTH_B],
    ids=["bore", "outside", "K_ia", "K_ea", "B"],
)
def test_larger_sizes_never_have_smaller_tolerances(table):
    for values in table.values():
        known = [abs(value) for value in values if not np.isnan(value)]
        assert known == sorted(known)
        # what is not at hand stands at the end: a table with a hole in it would be a slip
        assert np.isnan(values[len(known) :]).all()


@pytest.mark.parametrize(
    "table",
    [iso492.BORE_LOWER, iso492.OUTSIDE_LOWER, iso492.RUNOUT_INNER, iso492.RUNOUT_OUTER],
    ids=["bore", "outside", "K_ia", "K_ea"],
)
def test_finer_classes_lie_within_coarser_ones(table):
    order = [table["Normal"], table["5"], table["4"], table["2"]]
    assert table["6X"][:9] == table["Normal"][:9]
    for coarse, fine in itertools.pairwise(order):
        both = [(abs(a), abs(b)) for a, b in zip(coarse, fine, strict=True) if not np.isnan(a + b)]
        assert both and all(a >= b for a, b in both)


def test_finer_classes_lie_within_coarser_ones_in_their_widths_too():
    """6X everywhere; 5 where the standard has it so.

    ISO 492 gives the cones of class 5 twice the width tolerance of Normal, and its assemblies up to 80 mm one to both
    sides: both are stated here, so that a slip of one column is seen.
    """
    at = {name: iso492.cone_width_limits(BORES[:9], code)[1] for name, code in METRIC.items()}
    assert np.all(at["6X"] >= at["Normal"])
    assert micrometres(at["5"] / at["Normal"])[2:].tolist() == [2000.0] * 7
    of = {name: iso492.assembly_width_limits(BORES[:9], code) for name, code in METRIC.items()}
    (coarse_upper, coarse_lower), large = of["Normal"], BORES[:9] > 80
    for name, where in (("6X", np.full(9, True)), ("5", large)):
        upper, lower = of[name]
        assert np.all((upper <= coarse_upper)[where] & (lower >= coarse_lower)[where])
    assert micrometres(of["5"])[:, ~large].tolist() == [[200] * 4, [-200] * 4]


@pytest.mark.parametrize(
    ("bore", "told"), [(80.5, (200, -200)), (120, (200, -200)), (120.5, (350, -250)), (315, (350, -250)),
                       (315.5, (400, -400)), (400, (400, -400))],
)  # fmt: skip
def test_width_of_assemblies_of_class_5_as_recalled(bore, told):
    assert tuple(micrometres(iso492.assembly_width_limits(bore, METRIC["5"]))) == told


def test_normal_lies_between_IT5_and_IT7_and_class_5_below_it():
    """ISO 492 widths of bore and outside diameter beside ISO 286, which neither table was made from here."""
    for sizes, limits in ((BORES[:9], iso492.bore_limits), (OUTSIDES, iso492.outside_limits)):
        width = -limits(sizes, METRIC["Normal"])[1]
        assert np.all(width >= iso286.standard_tolerance_IT(sizes, 5))
        assert np.all(width <= iso286.standard_tolerance_IT(sizes, 7))
        fine = -limits(sizes, METRIC["5"])[1]
        assert np.all(fine >= iso286.standard_tolerance_IT(sizes, 4))
        assert np.all(fine <= iso286.standard_tolerance_IT(sizes, 6))


# runouts of the finest classes are not: they are micrometres
INCH_TABLES = [iso578.BORE_UPPER, iso578.OUTSIDE_UPPER, iso578.WIDTH_T_UPPER, iso578.WIDTH_T_LOWER]


def test_inch_values_are_whole_ten_thousandths_of_an_inch():
    for table in INCH_TABLES:
        for value in itertools.chain(*table.values()):
            if not np.isnan(value):
                inches = round(value / 2.54)  # in 0.0001 in
                assert abs(inches * 2.54 - value) <= 0.5 + 1e-9


# class, bore and outside diameter [in], tolerance [in], as the inch standard prints them; recalled
INCHES = [
    ("4", 2.5, 4.5, 0.0005, 0.0010), ("4", 3.0, 12.0, 0.0005, 0.0010), ("4", 3.5, 13.0, 0.0010, 0.0020),
    ("2", 12.0, 24.0, 0.0010, 0.0020), ("4", 13.0, 25.0, 0.0020, 0.0030), ("3", 12.0, 12.0, 0.0005, 0.0005),
    ("3", 13.0, 13.0, 0.0010, 0.0010), ("0", 2.0, 4.0, 0.0005, 0.0005), ("00", 2.0, 4.0, 0.0003, 0.0003),
]  # fmt: skip


@pytest.mark.parametrize(("name", "bore", "outside", "of_bore", "of_outside"), INCHES)
def test_inch_classes_as_printed_in_inches(name, bore, outside, of_bore, of_outside):
    upper, lower = iso578.bore_limits(bore * 25.4, INCH[name])
    assert lower == 0 and abs(float(upper) - of_bore * 25.4) <= 0.0005
    upper, lower = iso578.outside_limits(outside * 25.4, INCH[name])
    assert lower == 0 and abs(float(upper) - of_outside * 25.4) <= 0.0005


def test_metric_corners():
    """Single values of the tables of ISO 492, recalled once more by their size: they end where the step ends."""
    assert micrometres(iso492.bore_limits([50, 50.001, 80], METRIC["Normal"])[1]).tolist() == [-12, -15, -15]
    assert micrometres(iso492.outside_limits([90, 120, 120.1], METRIC["Normal"])[1]).tolist() == [-18, -18, -20]
    assert micrometres(iso492.runouts(50, 90, METRIC["Normal"])).tolist() == [20, 35]
    assert micrometres(iso492.assembly_width_limits([50, 90], METRIC["Normal"])).tolist() == [[200, 200], [0, -200]]
    assert micrometres(iso492.cone_width_limits(60, METRIC["6X"])).tolist() == [0, -50]
    assert np.isnan(iso492.assembly_width_limits(60, METRIC["4"])).all()
    assert micrometres(iso578.assembly_width_limits(63.5, INCH["4"])).tolist() == [203, 0]
    assert micrometres(iso578.runout([200, 400], INCH["3"])).tolist() == [8, 18]


@pytest.mark.filterwarnings("error")
def test_what_is_not_at_hand_is_nan():
    assert np.isnan(iso492.bore_limits([10, 1000.1, np.nan, -5], METRIC["Normal"])).all()
    assert np.isnan(iso492.bore_limits(60, [-1, 5])).all()
    assert np.isnan(iso578.bore_limits(400, INCH["0"])).all()
    assert np.isnan(iso578.bore_limits([0, np.nan, np.inf], INCH["4"])).all()


def test_classes_of_a_catalogue():
    system = np.array(["metric", "metric", "inch", "inch", "inch", "inch", "inch", "metric", "inch"])
    tolerance = np.array(["5", "", "2", "", "K", "C", "A", "00", "00"])
    metric_code, inch_code = class_codes(system, tolerance)
    assert metric_code.tolist() == [METRIC["5"], METRIC["Normal"], -1, -1, METRIC["Normal"], METRIC["5"], -1, -1, -1]
    assert inch_code.tolist() == [-1, -1, INCH["2"], INCH["4"], -1, -1, -1, -1, INCH["00"]]
    limits = ring_limits(system, tolerance, np.full(9, 60.0), np.full(9, 100.0))
    assert limits.from_plus.tolist() == [False, False, True, True, False, False, False, False, True]
    assert limits.precise.tolist() == [True, False, False, False, False, True, False, False, True]
    # class A is not at hand, and 00 is no metric class
    assert np.isnan(limits.bore_lower).tolist() == [False] * 6 + [True, True, False]


def test_widths_and_runouts_by_whichever_standard_holds():
    """Single values of ISO 492 and of ISO 578, recalled: 0.008, 0.0015 and 0.0003 in are 203, 38 and 8 um."""
    system = np.array(["metric", "metric", "inch", "inch", "inch", "metric", "inch"])
    tolerance = np.array(["", "5", "", "3", "K", "4", "2"])
    found = form_limits(system, tolerance, np.full(7, 60.0), np.full(7, 100.0))
    told = {
        "B_upper": [0, 0, np.nan, np.nan, np.nan, np.nan, np.nan], "B_lower": [-150, -300] + [np.nan] * 5,
        "T_upper": [200, 200, 203, 203, np.nan, np.nan, 203], "T_lower": [0, -200, 0, -203, np.nan, np.nan, 0],
        "runout_cone": [25, 7, 51, 8, np.nan, 4, 38], "runout_cup": [35, 10, 51, 8, np.nan, 6, 38],
    }  # fmt: skip
    for name, values in told.items():
        assert np.array_equal(micrometres(getattr(found, name)), values, equal_nan=True), name
    assert found.inch.tolist() == [False, False, True, True, False, False, True]
