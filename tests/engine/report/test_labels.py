"""No words of a drawing lie over other words, in the fonts in which a report is set."""

import itertools

import fpdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.report.drawn.labels import Label, spots, text_width
from engine.report.drawn.shapes import Words
from engine.report.written import pdf
from tests.engine.report.test_pages import drawings

_POINT = 25.4 / 72


def fonts():
    """Return sheets set to each font that a report may be set in, as large as they measure well."""
    for name in (None, *(one.format("") for one in pdf._FONTS)):
        sheet = fpdf.FPDF()
        try:
            if name:
                sheet.add_font("wide", "", name)
        except FileNotFoundError:
            continue
        sheet.set_font("wide" if name else "Helvetica", "", 10.0)
        yield sheet


def width_of(text, size):
    return max(sheet.get_string_width(text) for sheet in fonts()) * size / _POINT / 10.0


def box(words):
    """Return the box that words fill: left, right, top, bottom."""
    width = width_of(words.text, words.size)
    start = {"start": 0.0, "middle": 0.5, "end": 1.0}[words.anchor] * width
    if words.upright:
        return words.x - 0.72 * words.size, words.x + 0.2 * words.size, words.y - width + start, words.y + start
    return words.x - start, words.x - start + width, words.y - 0.72 * words.size, words.y + 0.2 * words.size


def test_no_words_of_any_drawing_lie_over_others(reported):
    for drawing in drawings(reported):
        boxes = [(box(one), one.text) for one in drawing.shapes if isinstance(one, Words) and one.text.strip()]
        for (one, text), (other, beside) in itertools.combinations(boxes, 2):
            apart = one[1] <= other[0] or other[1] <= one[0] or one[3] <= other[2] or other[3] <= one[2]
            assert apart, (drawing.title, text, beside)


def test_all_words_of_the_shaft_stand_on_its_sheet(reported):
    (drawing,) = [one for one in drawings(reported) if one.title.startswith("Shaft and bearings")]
    for one in drawing.shapes:
        if isinstance(one, Words):
            left, right, top, bottom = box(one)
            assert left >= 0 and right <= drawing.width and top >= 0 and bottom <= drawing.height, one.text


@pytest.mark.parametrize(
    "text", ["bull gear at 325 mm", "Fy -12 345 N, Fz 0.0012 N", "MMWW Wq@%", "Zwischenrad (oben)", "ill at 1.1 mm"]
)
def test_a_width_is_never_less_than_a_font_takes(text):
    assert width_of(text, 2.4) <= text_width(text, 2.4) <= 1.6 * width_of(text, 2.4) + 1.0


@given(st.lists(st.tuples(st.floats(5.0, 165.0), st.floats(4.0, 90.0)), max_size=9))
def test_labels_never_lie_over_one_another_wherever_their_places_are(given_labels):
    labels = [Label(x, width) for x, width in given_labels]
    found = spots(labels, 170.0)
    for label, spot in zip(labels, found, strict=True):
        assert spot.left >= 0 and spot.left + label.width <= 170.0 and 0 <= spot.level <= len(labels)
    for (one, at), (other, beside) in itertools.combinations(zip(labels, found, strict=True), 2):
        if at.level == beside.level:
            assert at.left + one.width < beside.left or beside.left + other.width < at.left


def test_a_leader_crosses_no_words_where_there_is_a_way():
    labels = [Label(20.0, 40.0), Label(60.0, 40.0), Label(100.0, 40.0), Label(150.0, 40.0)]
    found = spots(labels, 170.0)
    for (label, spot), (other, beside) in itertools.permutations(zip(labels, found, strict=True), 2):
        if spot.level > beside.level:
            assert not beside.left < label.x < beside.left + other.width
