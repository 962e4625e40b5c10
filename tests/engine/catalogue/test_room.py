"""Room between a size and its limit; the expected distances are worked out by hand."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.catalogue.invention.invent import synthetic
from engine.catalogue.room import Limit, joined, of_filter
from engine.catalogue.sift import SLACK, sift

ROWS = synthetic(200, 8)


@pytest.mark.parametrize(
    ("limit", "value", "room", "under"),
    [
        (Limit("D", greatest=120), 110, 10, False),
        (Limit("D", greatest=120), 122.5, -2.5, False),
        (Limit("D", greatest=120), 120, 0, False),
        (Limit("D", greatest=120), 120.005, 0, False),
        (Limit("d", least=55), 60, 5, False),
        (Limit("d", least=55), 50, -5, True),
        (Limit("d", 55, 65), 62, 3, False),
        (Limit("d", 55, 65), 56, 1, False),
        (Limit("d", 60, 60), 60, 0, False),
        (Limit("d", 60, 60), 59, -1, True),
        (Limit("d", 60, 60), 61, -1, False),
    ],
)
def test_room_to_the_nearer_end(limit, value, room, under):
    assert limit.room(value) == pytest.approx(room)
    assert limit.is_under(value) == under


@pytest.mark.parametrize(
    ("text", "limits"),
    [
        ("", []),
        ("steep case V05", []),
        ("D<=120", [Limit("D", greatest=120)]),
        ("D<5in T<30", [Limit("D", greatest=127), Limit("T", greatest=30)]),
        ("d>=2..2.5in", [Limit("d", least=50.8)]),
        ("d=55..65 Cr>=80kN alpha>20 mass<2", [Limit("d", 55, 65)]),
        ("C<=20 B=18 a>3", [Limit("C", greatest=20), Limit("B", 18, 18)]),
        # while a term is half typed there is nothing to hold a size against
        ("D<=", []), ("D<=12 T<", [Limit("D", greatest=12)]), ("D<=12kN", []),
    ],
)  # fmt: skip
def test_limits_in_a_filter(text, limits):
    assert of_filter(text) == [
        Limit(limit.name, pytest.approx(limit.least), pytest.approx(limit.greatest)) for limit in limits
    ]


@given(st.sampled_from("dDTBC"), st.sampled_from(["<=", ">="]), st.floats(5, 300))
def test_what_a_filter_keeps_has_room_and_what_it_drops_has_none(name, sign, end):
    text = f"{name}{sign}{end:.3f}"
    (limit,) = of_filter(text)
    kept = sift(ROWS, text)
    rooms = np.array([limit.room(value) for value in getattr(ROWS, name).tolist()])
    assert np.all(rooms[kept] >= 0)
    assert np.all(rooms[~kept] < -SLACK)


def test_what_holds_for_both_bearings_is_said_once():
    a, b = Limit("D", greatest=120, side="A"), Limit("D", greatest=120, side="B")
    other = Limit("T", greatest=30, side="A")
    assert joined([a, other, b]) == [Limit("D", greatest=120), other]
    assert joined([Limit("D", greatest=120), a, b]) == [Limit("D", greatest=120)]
    assert joined([a, Limit("D", greatest=100, side="B")]) == [a, Limit("D", greatest=100, side="B")]
    assert joined([Limit("D", -math.inf, 120)] * 2) == [Limit("D", greatest=120)]


@given(st.text(max_size=30))
def test_any_text_has_limits_or_none(text):
    assert all(limit.name in "dDTBC" for limit in of_filter(text))
