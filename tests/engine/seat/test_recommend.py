"""Recommended classes, held to the wording of the practice after DIN 5425-1 as handbooks print it; recalled."""

import itertools

import numpy as np
import pytest

from engine.seat import iso286
from engine.seat.recommend import (
    CIRCUMFERENTIAL,
    INDETERMINATE,
    LEVELS,
    POINT,
    Need,
    housing_class,
    load_level,
    ring_loads,
    shaft_class,
)

# bore, load, level, further need: class
SHAFTS = [
    (60, POINT, "normal", {"displaced": True}, "g6"), (60, POINT, "heavy", {}, "h6"),
    (30, CIRCUMFERENTIAL, "light", {}, "j6"), (60, CIRCUMFERENTIAL, "light", {}, "k6"),
    (60, CIRCUMFERENTIAL, "normal", {}, "m6"), (150, CIRCUMFERENTIAL, "normal", {}, "n6"),
    (60, CIRCUMFERENTIAL, "heavy", {}, "n6"), (150, CIRCUMFERENTIAL, "heavy", {}, "p6"),
    (250, CIRCUMFERENTIAL, "heavy", {}, "r6"), (60, CIRCUMFERENTIAL, "heavy with shock", {}, "p6"),
    (60, CIRCUMFERENTIAL, "normal", {"yielding": True}, "n6"), (60, INDETERMINATE, "normal", {}, "m6"),
    (60, CIRCUMFERENTIAL, "heavy", {"displaced": True}, "j6"), (2500, CIRCUMFERENTIAL, "heavy with shock", {}, "r6"),
]  # fmt: skip
HOUSINGS = [
    (POINT, "normal", {"displaced": True}, "H7"), (POINT, "normal", {}, "J7"), (POINT, "normal", {"split": True}, "H7"),
    (CIRCUMFERENTIAL, "light", {}, "M7"), (CIRCUMFERENTIAL, "normal", {}, "N7"), (CIRCUMFERENTIAL, "heavy", {}, "N7"),
    (CIRCUMFERENTIAL, "heavy with shock", {}, "P7"), (CIRCUMFERENTIAL, "heavy", {"yielding": True}, "P7"),
    (INDETERMINATE, "heavy", {}, "K7"), (CIRCUMFERENTIAL, "heavy", {"displaced": True}, "J7"),
]  # fmt: skip


@pytest.mark.parametrize(("d", "load", "level", "more", "told"), SHAFTS)
def test_shafts(d, load, level, more, told):
    assert iso286.SHAFT_CLASSES[shaft_class(d, Need(load, level, **more))] == told


@pytest.mark.parametrize(("load", "level", "more", "told"), HOUSINGS)
def test_housings(load, level, more, told):
    assert iso286.HOLE_CLASSES[housing_class(100, Need(load, level, **more))] == told


def test_a_precise_bearing_gets_a_grade_finer():
    need = Need()
    assert [iso286.SHAFT_CLASSES[code] for code in shaft_class([60, 60], need, [False, True])] == ["m6", "m5"]
    assert [iso286.HOLE_CLASSES[code] for code in housing_class([100, 100], need, [False, True])] == ["N7", "N6"]


def test_a_heavier_load_is_never_held_more_loosely():
    d = np.arange(5.0, 500, 5)
    for load, more in itertools.product((CIRCUMFERENTIAL, INDETERMINATE), ({}, {"yielding": True})):
        shafts = [iso286.shaft_limits(d, shaft_class(d, Need(load, level, **more)))[1] for level in LEVELS]
        holes = [iso286.hole_limits(d, housing_class(d, Need(load, level, **more)))[0] for level in LEVELS]
        for lighter, heavier in itertools.pairwise(shafts):
            assert np.all(heavier >= lighter)
        for lighter, heavier in itertools.pairwise(holes):
            assert np.all(heavier <= lighter)


# which ring turns, where the load points: how it goes round cone and cup; DIN 5425-1, recalled
LOADS = [
    ("cone", "fixed", CIRCUMFERENTIAL, POINT), ("cup", "fixed", POINT, CIRCUMFERENTIAL),
    ("cone", "with_cone", POINT, CIRCUMFERENTIAL), ("cup", "with_cup", CIRCUMFERENTIAL, POINT),
    ("cone", "indeterminate", INDETERMINATE, INDETERMINATE),
]  # fmt: skip


@pytest.mark.parametrize(("turning", "direction", "cone", "cup"), LOADS)
def test_how_the_load_goes_round(turning, direction, cone, cup):
    assert ring_loads(turning, direction) == (cone, cup)


@pytest.mark.filterwarnings("error")
def test_levels_and_ends():
    assert load_level([5, 7, 10, 15, 20, np.nan], 100).tolist() == [0, 0, 1, 1, 2, 2]
    assert shaft_class([2, 4000, np.nan], Need()).tolist() == [-1, -1, -1]
    # J ends at 500 mm and JS takes its place
    assert iso286.HOLE_CLASSES[housing_class(600, Need(POINT))] == "JS7"


def test_many_at_once_are_as_one_by_one():
    d = np.linspace(5, 400, 97)
    precise = np.arange(97) % 3 == 0
    for need in (Need(), Need(POINT), Need(level="heavy", yielding=True)):
        for of in (shaft_class, housing_class):
            alone = [int(of(one[0], need, one[1])) for one in zip(d, precise, strict=True)]
            assert of(d, need, precise).tolist() == alone
