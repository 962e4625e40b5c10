"""The worked example of the README computed again: one fit in both measuring systems, within 1 um at both ends."""

import re

import pytest

from engine.seat import interference, iso286
from engine.seat.limits import housing_limits, ring_limits, shaft_limits
from tests.house.tree import ROOT

#: A row of its tables: words, deviations of the ring, limits of the seat, interference from to [um].
ROW = re.compile(r"\| ((?:metric|inch).*?) \| ([+-]?\d+)/([+-]?\d+) \| ([+-]\d+)/([+-]\d+) \| (-?\d+) to (-?\d+) \|")


def printed_rows():
    rows = ROW.findall((ROOT / "README.md").read_text("utf-8"))
    return [(words, *map(int, figures)) for words, *figures in rows]


def micrometres(*lengths):
    return tuple(round(float(length) * 1e3) for length in lengths)


def test_both_examples_are_there():
    assert [row[0].split(",")[0].split()[0] for row in printed_rows()] == ["metric", "inch", "inch"] * 2


@pytest.mark.parametrize(("first", "cone", "size"), [(0, True, 63.5), (3, False, 112.7125)], ids=["cone", "cup"])
def test_the_rows_are_what_is_computed(first, cone, size):
    metric, inch, wrong = printed_rows()[first : first + 3]
    code = iso286.shaft_code("m6") if cone else iso286.hole_code("N7")
    seats = []
    for system, tolerance, row in (("metric", "Normal", metric), ("inch", "4", inch), ("inch", "4", wrong)):
        rings = ring_limits(system, tolerance, 63.5, 112.7125)
        ring = (rings.bore_upper, rings.bore_lower) if cone else (rings.outside_upper, rings.outside_lower)
        seat = (shaft_limits if cone else housing_limits)(size, code, rings)
        seats.append(seat)
        limits = (seat.upper, seat.lower) if row is not wrong else (seats[0].upper, seats[0].lower)
        inner, outer = (limits, ring) if cone else (ring, limits)
        least, _, greatest = interference.interference_limits(*inner, *outer)
        assert row[1:] == micrometres(*ring, *limits, least, greatest)
    for end in (5, 6):
        assert abs(metric[end] - inch[end]) <= 1  # the same fit
        assert abs(metric[end] - wrong[end]) > 10


def test_the_error_is_told_as_printed():
    metric, _, wrong = printed_rows()[:3]
    text = (ROOT / "README.md").read_text("utf-8")
    assert f"{metric[5] - wrong[5]} to {metric[6] - wrong[6]} um looser" in text
