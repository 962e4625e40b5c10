"""Filtering a catalogue by typed words; expected rows are found by plain comparisons here."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.catalogue.read import builtin
from engine.catalogue.sift import sift, why_none
from engine.errors import Problems

ROWS = builtin().take(np.arange(300) * 11)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", np.ones(300, dtype=bool)),
        ("d=60", abs(ROWS.d - 60) <= 0.01),
        ("d=50..60", (ROWS.d >= 49.99) & (ROWS.d <= 60.01)),
        ("d=2..2.5in", (ROWS.d >= 50.79) & (ROWS.d <= 63.51)),
        ("D<=100", ROWS.D <= 100.01),
        ("D<100", ROWS.D < 99.99),
        ("Cr>=80kN", ROWS.Cr >= 80e3),
        ("Cr>=80kN D<=150", (ROWS.Cr >= 80e3) & (ROWS.D <= 150.01)),
        ("steep", np.degrees(ROWS.alpha) >= 20),
        ("shallow case", (np.degrees(ROWS.alpha) < 20) & (ROWS.steel == "case")),
        ("THROUGH", ROWS.steel == "through"),
        ("stocked", ROWS.availability == "stocked"),
        ("Discontinued", ROWS.availability == "discontinued"),
        ("listed cost<3", (ROWS.listed == "listed") & (ROWS.cost < 3)),
        ("formed", ROWS.listed == "formed"),
        ("logarithmic", ROWS.profile == "log"),
        ("log", ROWS.profile == "log"),
        ("plain inch", (ROWS.profile == "plain") & (ROWS.system == "inch")),
        ("profile=LOG", ROWS.profile == "log"),
        ("class=6x", ROWS.tolerance == "6X"),
        ("normal", ROWS.tolerance == "Normal"),
        ("Class=Normal d=60", (ROWS.tolerance == "Normal") & (abs(ROWS.d - 60) <= 0.01)),
        ("series=3DB", np.char.startswith(ROWS.series, "3DB")),
        ("3db", np.char.startswith(ROWS.series, "3DB")),
        ("stock=on_request", ROWS.availability == "on_request"),
        ("steel=case system=inch", (ROWS.steel == "case") & (ROWS.system == "inch")),
        (f"cup={ROWS.cup[-1]}", ROWS.cup == ROWS.cup[-1]),
        (str(ROWS.cone[-1]), ROWS.cone == ROWS.cone[-1]),
        # a bore alone names no assembly
        ("30208", np.zeros(300, dtype=bool)),
        ("nothingiscalledthis", np.zeros(300, dtype=bool)),
    ],
)
def test_rows_that_meet_every_term(text, expected):
    assert np.array_equal(sift(ROWS, text), expected)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("x=3", "no column is called x"),
        ("cr>=3", 'did you mean "Cr"'),
        ("d=", "not complete"),
        ("d=abc", "does not begin with a number"),
        ("Cr>=80mm", "not a unit of force"),
        ("class=7", 'class "7" is not known'),
        ("series<3DB", "is no number"),
        ("clas=5", 'did you mean "class"'),
    ],
)
def test_terms_that_cannot_be_read(text, words):
    with pytest.raises(Problems, match=words):
        sift(ROWS, text)


@given(st.text(max_size=40))
def test_any_text_is_a_filter_or_a_problem(text):
    try:
        seen = sift(ROWS, text)
    except Problems as problems:
        seen = str(problems)
    assert seen.isprintable() if isinstance(seen, str) else seen.shape == (300,)


def test_another_written_form_of_a_series_finds_what_its_name_does():
    every = builtin()
    held = np.char.startswith(every.designation, "V050-3DB-")
    assert held.any()
    assert np.array_equal(sift(every, "T3DB050"), held)


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("steeep", 'nothing meets "steeep"; did you mean "steep"?'),
        ("d>5m", f'nothing meets "d>5m": d goes from {ROWS.d.min():.6g} to {ROWS.d.max():.6g} mm'),
        ("d<=60 d>=61", f'without "d<=60" there would be {np.count_nonzero(ROWS.d >= 60.99)}'),
    ],
)
def test_an_empty_result_is_explained(text, hint):
    assert not sift(ROWS, text).any()
    assert why_none(ROWS, text) == hint
