"""Columns of figures: decimal points under each other, no digits that say nothing."""

import math

from hypothesis import given
from hypothesis import strategies as st

from wizard.widgets.figures import aligned, alike, column, figure, pointed


def points(cells):
    """Return where the decimal point of each figure stands, or would stand behind a whole number."""
    return {cell.index(".") if "." in cell else len(cell.rstrip()) for cell in cells}


def test_points_stand_under_each_other_and_words_at_the_end():
    assert aligned(["60 000", "0.1", "88.9", "-22 021", "~6.552", "-", "unknown"]) == [
        " 60 000    ",
        "      0.1  ",
        "     88.9  ",
        "-22 021    ",
        "     ~6.552",
        "      -    ",
        "    unknown",
    ]


@given(st.lists(st.floats(-1e8, 1e8).filter(lambda x: x == 0 or abs(x) >= 1e-3), min_size=1, max_size=8))
def test_every_column_has_one_width_and_one_place_of_the_point(values):
    for cells in (column(lambda most: [figure(value, 4, most) for value in values], 24), aligned(alike(values))):
        assert len({len(cell) for cell in cells}) == 1
        assert len(points(cells)) == 1


@given(st.lists(st.floats(0.01, 1e6), min_size=1, max_size=6), st.integers(3, 5))
def test_figures_of_one_quantity_have_as_many_decimals_each_and_no_more_digits_than_asked_for(values, digits):
    cells = alike(values, digits)
    places = {len(cell.partition(".")[2]) for cell in cells}
    assert len(places) == 1
    for cell, value in zip(cells, values, strict=True):
        shown = float(cell.replace(" ", ""))
        assert math.isclose(shown, value, abs_tol=0.5 * 10.0 ** -places.copy().pop() * (1 + 1e-9))
    largest = max(cells, key=lambda cell: float(cell.replace(" ", "")))
    significant = largest.replace(" ", "").replace(".", "").lstrip("0")
    assert "." not in largest or len(significant) <= digits


def test_a_small_figure_is_never_shown_as_nothing():
    assert [figure(value, 4, 3) for value in (0.00037182, 0.0123, 0.0, 1.23456)] == ["0.0004", "0.012", "0", "1.235"]


def test_short_of_room_decimals_go_first():
    def made(most):
        return [figure(value, 4, most) for value in (118_566.0, 6.552)]

    assert column(made, 11) == ["118 566    ", "      6.552"]
    assert column(made, 9) == ["118 566  ", "      6.6"]


def test_a_column_of_known_decimals():
    assert [pointed(cell, 3) for cell in ("15", "14.287", "~1.4")] == ["15    ", "14.287", "~1.4  "]
