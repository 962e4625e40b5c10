"""What is drawn goes on a page of paper, whole: no drawing runs into the foot or off the sheet."""

import re

import pytest

from engine.report.drawn.plots import Bar, bars_in_parts
from engine.report.drawn.shapes import Area, Words
from engine.report.parts import Pictures
from engine.report.written import html

#: A page of A4 and of US Letter [mm], and what margins, heading, caption and foot take at least.
A4, LETTER, TAKEN = 297.0, 279.4, 55.0
#: The foot begins so high above the lower edge of a page [mm], which is what the pages leave free for it.
FOOT = 14.0


def drawings(report):
    for section in report.sections:
        for part in section.parts:
            if isinstance(part, Pictures):
                yield from part.drawings


def test_no_drawing_is_higher_than_a_page_has_room(reported):
    for one in drawings(reported):
        assert one.height <= min(A4, LETTER) - TAKEN, one.title


@pytest.mark.parametrize("count", [1, 5, 36, 37, 40, 73, 200])
def test_bars_in_parts_show_every_bar_once_in_their_order(count):
    found = bars_in_parts("u", [Bar(f"check {at}", 0.5, "passes") for at in range(count)])
    names = [shape.text for one in found for shape in one.shapes if isinstance(shape, Words) and "check" in shape.text]
    assert names == [f"check {at}" for at in range(count)]
    assert sum(isinstance(shape, Area) for one in found for shape in one.shapes) == count
    assert len({one.title for one in found}) == len(found)
    assert all(one.height <= min(A4, LETTER) - TAKEN for one in found)
    heights = [one.height for one in found]
    assert min(heights) > 0.5 * max(heights)  # no part is a mere rest


def written_lines(page):
    """Return the texts of a page of PDF with their height above its lower edge [mm]."""
    found = []

    def visit(text, matrix, text_matrix, _font, _size):
        if text.strip():
            height = text_matrix[4] * matrix[1] + text_matrix[5] * matrix[3] + matrix[5]
            found.append((height * 25.4 / 72, text))

    page.extract_text(visitor_text=visit)
    return found


def test_pdf_holds_every_label_on_its_pages_clear_of_the_foot(filed, printed):
    report, pages = filed, printed.pages
    lines = [line for page in pages for line in written_lines(page)]
    low = [(at, text) for at, text in lines if at < FOOT + 2.0]
    foot = re.sub(r"\s+", "", report.foot)
    for at, text in low:
        assert at > 2.0, text
        words = re.sub(r"\s+", "", text)
        assert words in foot or re.search(r"Page\d+of\d+$", words), text
    assert all(at < A4 for at, _ in lines)
    whole = "".join(re.sub(r"\s+", "", page.extract_text()) for page in pages)
    for one in drawings(report):
        for shape in one.shapes:
            if isinstance(shape, Words) and not shape.upright:
                assert re.sub(r"\s+", "", shape.text) in whole, shape.text


def test_html_prints_no_drawing_higher_than_a_page(reported):
    limit = re.search(r"@media print \{ body\.whole figure svg \{ max-height: (\d+)mm", html.written(reported))
    assert float(limit[1]) <= min(A4, LETTER) - TAKEN
