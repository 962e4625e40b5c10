"""The shaft in characters: to scale, every label told apart, arrows to the right side, in ASCII too, at any width."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.answers.chapters.element import KINDS
from tests.strategies import numbers
from wizard.glyphs import ASCII, UNICODE
from wizard.widgets.shaft import ARROWS, OUTLINE, SIGNS, Drawn, Mark, picture, strip

PLAIN = Drawn(marks=(Mark("1h", 50.0),), planes=(0.0, 100.0))
STEPPED = Drawn(marks=(Mark("1h", 60.0),), planes=(0.0, 100.0), begin=-20.0, steps=((40.0, 50.0), (60.0, 100.0),
                (40.0, 25.0)))  # fmt: skip


def rows_of(drawn, plane="y", width=71, glyphs=ASCII):
    return picture(drawn, plane, width, glyphs)


def test_every_kind_has_a_letter_of_its_own_and_none_is_that_of_a_bearing():
    assert set(SIGNS) == {kind.value for kind in KINDS}
    assert len(set(SIGNS.values())) == len(SIGNS)
    assert not {"A", "B"} & set(SIGNS.values())


def test_places_are_to_scale():
    # 0 to 100 mm over columns 1 to 69: the middle is column 35
    labels, axis, bearings = strip(PLAIN, 71, ASCII)
    assert axis.index("|") == 35
    assert labels.index("1h") == 35
    assert (bearings.index("A"), bearings.index("B")) == (1, 69)


def test_the_outline_is_to_scale():
    # of 140 mm over 69 columns the steps take 20, 30 and 20; the greatest diameter fills a cell
    outline = strip(STEPPED, 71, UNICODE)[1]
    assert outline.count("█") == pytest.approx(30, abs=2)
    assert outline.count("▄") == pytest.approx(20, abs=1)  # half of it
    assert outline.count("▂") == pytest.approx(20, abs=2)  # a quarter
    rows = rows_of(STEPPED, glyphs=UNICODE)
    top, lower = rows[1 + ARROWS], rows[2 + ARROWS]
    assert top.count("█") == pytest.approx(30, abs=1)
    assert "▄" not in top and lower.count("▄") == pytest.approx(20, abs=2)


@pytest.mark.parametrize(
    ("mark", "plane", "above", "head"),
    [(Mark("1h", 50, F_y=-100), "y", True, "v"), (Mark("1h", 50, F_y=100), "y", False, "^"),
     (Mark("1h", 50, F_z=-100), "z", True, "v"), (Mark("1h", 50, F_z=100), "z", False, "^"),
     (Mark("1h", 50, F_z=100), "y", None, ""), (Mark("1h", 50, F_y=100, turning=True), "y", None, "")],
)  # fmt: skip
def test_an_arrow_presses_on_the_shaft_from_the_side_it_comes_from(mark, plane, above, head):
    rows = rows_of(Drawn(marks=(mark,), planes=(0.0, 100.0)), plane)
    upper, lower = rows[1 : 1 + ARROWS], rows[2 + ARROWS : 2 + 2 * ARROWS]
    drawn = ["".join(side).strip() for side in (upper, lower)]
    assert bool(drawn[0]) == (above is True)
    assert bool(drawn[1]) == (above is False)
    if above is not None:
        # the head touches the shaft
        assert (upper[-1] if above else lower[0])[35] == head


def test_the_longest_arrow_is_the_greatest_force():
    marks = (Mark("1h", 20, F_y=-300), Mark("2c", 80, F_y=-100))
    rows = rows_of(Drawn(marks=marks, planes=(0.0, 100.0)))[1 : 1 + ARROWS]
    lengths = [sum(row[column : column + 1].strip() != "" for row in rows) for column in (15, 55)]
    assert lengths == [ARROWS, 1]


def test_what_the_bearings_answer_with_is_drawn_too():
    drawn = Drawn(marks=(Mark("1h", 50, F_y=-100),), planes=(0.0, 100.0), centres=(10.0, 90.0),
                  supports=(Mark("A", 10, F_y=50), Mark("B", 90, F_y=50)))  # fmt: skip
    rows = rows_of(drawn)
    assert rows[2 + ARROWS].count("^") == 2
    assert rows[1 + ARROWS].count("*") == 2  # the load centres on the axis


@pytest.mark.parametrize(
    ("force", "shown"),
    [({"F_y": -10}, "1hv"), ({"F_y": 10}, "1h^"), ({"F_z": 10}, "1ho"), ({"F_z": -10}, "1hx"),
     ({"F_y": -10, "F_a": 5}, "1hv>"), ({"F_a": -5}, "1h<"), ({"F_y": -10, "F_a": 0.5}, "1hv"), ({}, "1h")],
)  # fmt: skip
def test_a_label_says_where_its_force_points(force, shown):
    labels = strip(Drawn(marks=(Mark("1h", 50, **force),), planes=(0.0, 100.0)), 71, ASCII)[0]
    assert labels.split() == [shown]


@st.composite
def shafts(draw):
    places = draw(st.lists(numbers(-500, 1500), max_size=12))
    marks = tuple(
        Mark(f"{number}{draw(st.sampled_from(list(SIGNS.values())))}", z, *(draw(numbers(-1e5, 1e5)) for _ in "yza"))
        for number, z in enumerate(places, 1)
    )
    distance = draw(st.one_of(st.none(), numbers(5, 1000)))
    steps = tuple(draw(st.lists(st.tuples(numbers(0.1, 300), numbers(1, 200)), max_size=5)))
    planes = (0.0, distance) if distance else None
    return Drawn(marks, planes, (-5.0, distance + 5.0) if distance else None, draw(numbers(-100, 0)), steps)


@given(shafts(), st.integers(30, 140), st.sampled_from([ASCII, UNICODE]))
def test_anything_is_drawn_within_its_width(drawn, width, glyphs):
    for lines in (strip(drawn, width, glyphs), picture(drawn, "y", width, glyphs), picture(drawn, "z", width, glyphs)):
        assert all(len(text) <= width for text in lines)
        assert glyphs is UNICODE or all(text.isascii() for text in lines)
    assert len(strip(drawn, width, glyphs)) == 3
    rows = picture(drawn, "y", width, glyphs)
    assert len(rows) in {0, 3 + 2 * ARROWS, 3 + 2 * ARROWS + OUTLINE}


@given(st.lists(numbers(0, 1000), min_size=1, max_size=12), st.integers(60, 140))
def test_every_label_is_there_and_apart_from_the_next(places, width):
    drawn = Drawn(tuple(Mark(f"{at}s", z) for at, z in enumerate(places, 1)), (0.0, 1000.0))
    labels = strip(drawn, width, ASCII)[0].split()
    assert sorted(labels) == sorted(mark.label for mark in drawn.marks)
    in_order = [mark.z for label in labels for mark in drawn.marks if mark.label == label]
    assert [round(z / 1000 * (width - 3)) for z in in_order] == sorted(round(z / 1000 * (width - 3)) for z in places)


@pytest.mark.parametrize("drawn", [Drawn(), Drawn(marks=(Mark("1h", 5.0),)), Drawn(planes=(3.0, 3.0))])
def test_nothing_is_drawn_of_nothing(drawn):
    assert strip(drawn, 80, ASCII) == ["", "", ""]
    assert picture(drawn, "y", 80, ASCII) == []
    assert picture(PLAIN, "y", 20, ASCII) == []


@pytest.mark.parametrize("glyphs", [ASCII, UNICODE], ids=["ascii", "unicode"])
@pytest.mark.parametrize(
    ("F_a", "ascii", "drawn"), [(2660.0, "|>2.66kN", "┬→2.66kN"), (-2660.0, "<2.66kN|", "←2.66kN┬")]
)
def test_a_force_along_the_shaft_points_along_its_axis_with_its_amount(F_a, ascii, drawn, glyphs):
    # one that points to A stands on the side of A where the other side is taken
    beside = Mark("2m", 56.0)
    marks = (Mark("1h", 50.0, F_a=F_a), *([beside] if F_a < 0 else []))
    axis = rows_of(Drawn(marks=marks, planes=(0.0, 100.0)), glyphs=glyphs)[1 + ARROWS]
    assert (ascii if glyphs is ASCII else drawn) in axis


def test_where_the_figure_has_no_room_the_arrow_along_the_shaft_stands_alone():
    marks = (Mark("1h", 50.0, F_a=2660.0), Mark("2m", 56.0), Mark("3m", 44.0))
    axis = rows_of(Drawn(marks=marks, planes=(0.0, 100.0)))[1 + ARROWS]
    assert "|>" in axis and "kN" not in axis
    crowd = tuple(Mark(f"{at}m", 44.0 + at * 1.45) for at in range(9))
    axis = rows_of(Drawn(marks=(Mark("1h", 50.0, F_a=1.0), *crowd), planes=(0.0, 100.0)))[1 + ARROWS]
    assert ">" not in axis and "<" not in axis


def test_the_amount_stands_at_the_tail_of_an_arrow():
    rows = rows_of(Drawn(marks=(Mark("1h", 50, F_y=-12_140), Mark("2s", 80, F_y=950.4)), planes=(0, 100)))
    assert "|12.1kN" in rows[1]
    assert "^950N" in rows[2 + ARROWS]


def test_of_arrows_on_one_another_the_longest_is_told():
    text = "\n".join(rows_of(Drawn(marks=(Mark("1h", 50, F_y=-9000), Mark("2m", 50, F_y=-510)), planes=(0, 100))))
    assert "9kN" in text and "510N" not in text


def test_figures_never_touch_one_another():
    marks = tuple(Mark(f"{at}s", 10.0 * at, F_y=-1000.0 - at, F_a=500.0 + at) for at in range(1, 10))
    rows = rows_of(Drawn(marks=marks, planes=(0.0, 100.0)), width=58)
    found = [word for row in rows for word in re.findall(r"[\d.]+k?N", row)]
    assert found and set(found) <= {"1kN", "1.01kN", *(f"{501 + at}N" for at in range(10))}
