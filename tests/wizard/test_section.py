"""The drawn section: what must be on it, that it is to scale, and that no size breaks it."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len

from engine.catalogue.read import builtin
from wizard.glyphs import ASCII, UNICODE
from wizard.widgets.profile import Sizes
from wizard.widgets.section import INCH, section
from wizard.widgets.sheet import DRAWN, TYPED

ALL = builtin()
ROWS = range(0, len(ALL), 7)
#: A screen of the usual size with a list beside it, and the smallest one.
ROOMS = ((78, 16), (56, 12))
each_room = pytest.mark.parametrize(("width", "height"), ROOMS)
THIN, HEAVY = (int(place(ALL.D / ALL.d)) for place in (np.argmin, np.argmax))
SHALLOW, STEEP = (int(place(ALL.alpha)) for place in (np.argmin, np.argmax))
KINDS = {"thin": THIN, "heavy": HEAVY, "shallow": SHALLOW, "steep": STEEP}
each_kind = pytest.mark.parametrize("row", KINDS.values(), ids=list(KINDS))


def drawn(row: int, width: int, height: int, glyphs=ASCII, inches: bool = False) -> list[str]:
    return section(Sizes.of(ALL, row), width, height, glyphs, inches)


def cells(lines: list[str], character: str) -> list[tuple[int, int]]:
    return [(y, x) for y, line in enumerate(lines) for x, found in enumerate(line) if found == character]


def parts(row: int) -> list[str]:
    """Return only the lines between the dimension lines of C and B: the rings and the rollers."""
    lines = drawn(row, 78, 16)
    return lines[2 : next(y for y, line in enumerate(lines) if " B " in line)]


@each_room
@pytest.mark.parametrize("glyphs", [UNICODE, ASCII], ids=["unicode", "ascii"])
@pytest.mark.parametrize("inches", [False, True], ids=["mm", "inch"])
def test_every_size_stands_on_every_drawing_with_its_value(width, height, glyphs, inches):
    for row in ROWS:
        lines = drawn(row, width, height, glyphs, inches)
        assert len(lines) == height
        assert max(map(cell_len, lines)) <= width
        whole = "\n".join(lines)
        for name in ("d", "D", "T", "B", "C", "a"):
            value = float(getattr(ALL, name)[row])
            text = f"{name} {value / INCH:.4f} in" if inches else f"{name} {value:.3f}".rstrip("0").rstrip(".") + " mm"
            assert text in whole, (ALL.designation[row], text, whole)
        angle = f"{math.degrees(ALL.alpha[row]):.2f}"
        assert (f"alpha {angle} deg" if glyphs is ASCII else f"α {angle}°") in whole


@each_room
def test_the_ascii_drawing_is_ascii_and_differs_only_in_its_characters(width, height):
    for row in ROWS:
        typed, shown = drawn(row, width, height, ASCII), drawn(row, width, height, UNICODE)
        assert all(line.isascii() for line in typed)
        for mark in ("cup", "cone"):
            # a ring stands in the same cells; the axis of the Unicode drawing uses neither hatch
            assert cells(typed, getattr(TYPED, mark)) == cells(shown, getattr(DRAWN, mark))


def test_every_character_is_one_cell_wide():
    for marks in (DRAWN, TYPED):
        for name in ("cup", "cone", "roller", "load", "centre", "axis", "witness", "broken", "ends", "along"):
            text = getattr(marks, name)
            assert cell_len(text) == len(text)
        assert len(marks.roller) == 16


@each_kind
def test_rings_and_rollers_lie_as_in_a_bearing(row):
    lines = parts(row)
    cup, cone, roller = (cells(lines, mark) for mark in (TYPED.cup, TYPED.cone, "#"))
    assert cup and cone and roller
    # the cup reaches the outside diameter, the cone the bore, the rollers neither
    assert {0} <= {y for y, _ in cup} and len(lines) - 1 not in {y for y, _ in cup}
    assert len(lines) - 1 in {y for y, _ in cone} and 0 not in {y for y, _ in cone}
    assert {y for y, _ in roller}.isdisjoint({0, len(lines) - 1})
    # where both rings stand in one column, the cup is above
    for column in {x for _, x in cup} & {x for _, x in cone}:
        assert max(y for y, x in cup if x == column) < min(y for y, x in cone if x == column)


@each_kind
def test_the_large_roller_ends_and_the_big_rib_are_at_the_cone_back_face(row):
    lines = parts(row)
    cone, roller = cells(lines, TYPED.cone), cells(lines, "#")
    first, last = min(x for _, x in cone), max(x for _, x in cone)
    top_at = {x: min(y for y, at in cone if at == x) for x in (first, last)}
    # the rib at the back face stands higher (a smaller line number) than the ring at its other end
    assert top_at[first] < top_at[last]
    # and the rollers lean outward to that side; halves of a roller, since a column at its end may be one cell high
    middle = np.mean([x for _, x in roller])
    left, right = (np.mean([y for y, x in roller if (x < middle) == half]) for half in (True, False))
    assert left < right


@each_room
def test_dimension_lines_are_to_scale(width, height):
    # lengths along the axis against their number of cells: one scale for T, B and C, to half a cell at each end
    for row in ROWS:
        lines = drawn(row, width, height, UNICODE)
        counted = {}
        for name, line in (("T", lines[0]), ("C", lines[1]), ("B", next(one for one in lines if " B " in one))):
            counted[name] = line.index("┤") - line.index("├") + 1
        scale = counted["T"] / float(ALL.T[row])
        for name in ("B", "C"):
            assert counted[name] == pytest.approx(float(getattr(ALL, name)[row]) * scale, abs=1.6)


@each_room
def test_the_section_is_as_high_as_its_scale_asks(width, height):
    # a cell is twice as high as wide: (D - d)/2 in lines is half of what it is in columns
    for row in ROWS:
        lines = drawn(row, width, height, UNICODE)
        rows = next(y for y, line in enumerate(lines) if " B " in line) - 2
        columns = lines[0].index("┤") - lines[0].index("├") + 1
        thick = float(ALL.D[row] - ALL.d[row]) / 2
        assert rows == pytest.approx(thick * columns / float(ALL.T[row]) / 2, abs=1.0)


@each_room
def test_the_load_centre_lies_on_its_side_of_the_cone_back_face(width, height):
    for row in ROWS:
        lines = drawn(row, width, height)
        ((axis, centre),) = cells(lines, TYPED.centre)
        face = lines[0].index("|")  # T is measured from the cone back face
        scale = (lines[0].rindex("|") - face + 1) / float(ALL.T[row])
        assert centre - face == pytest.approx(float(ALL.a[row]) * scale, abs=1.6 + abs(ALL.a[row]) * 0.06 * scale)
        assert lines[axis + 1].strip().startswith("|")


@each_kind
def test_the_load_line_falls_from_the_cup_to_the_load_centre(row):
    lines = drawn(row, 78, 16)
    # from the top down it never steps away from the centre, and it leans by the contact angle over the section
    columns = [x for _, x in sorted(cells(lines, TYPED.load))]
    ((_, centre),) = cells(lines, TYPED.centre)
    assert columns == sorted(columns, reverse=True)
    assert min(columns) >= centre
    top = [x for y, x in cells(parts(row), TYPED.load)]
    lean = (max(top) - min(top)) / (2 * (len(top) - 1))
    assert lean == pytest.approx(math.tan(ALL.alpha[row]), abs=1.2 / (len(top) - 1))


def test_a_negative_load_centre_is_said_to_lie_beyond_the_back_face():
    behind = int(np.argmin(ALL.a))
    assert "beyond the cone back face" in "\n".join(drawn(behind, 78, 16))
    assert "from the cone back face" in "\n".join(drawn(ALL.index_of("V050-3DB-C"), 78, 16))


@pytest.mark.parametrize("name", ["Dwe", "Lwe", "Dpw"])
def test_sizes_are_listed_where_the_roller_set_is_not_known(name):
    sizes = dataclasses.replace(Sizes.of(ALL, 0), **{name: math.nan})
    lines = section(sizes, 78, 16, ASCII)
    assert len(lines) == 16
    assert lines[0] == f"d {ALL.d[0]:g} mm"
    assert not any("#" in line for line in lines)


@settings(max_examples=150, deadline=None)
@given(
    values=st.tuples(*[st.one_of(st.floats(-10, 3000), st.just(math.nan), st.just(math.inf))] * 10),
    width=st.integers(0, 120),
    height=st.integers(0, 40),
    inches=st.booleans(),
)
def test_no_sizes_and_no_room_break_it(values, width, height, inches):
    lines = section(Sizes(*values), width, height, UNICODE, inches)
    assert len(lines) == height
    assert all(cell_len(line) <= width for line in lines)


@settings(max_examples=100, deadline=None)
@given(
    d=st.floats(3, 2000),
    ratio=st.floats(1.02, 12),
    widths=st.tuples(*[st.floats(0.02, 5)] * 3),
    roller=st.tuples(st.floats(0.05, 0.95), st.floats(0.05, 2)),
    place=st.tuples(st.floats(0.1, 44), st.floats(-5, 5)),
)
def test_odd_but_possible_sizes_are_drawn_inside_the_room(d, ratio, widths, roller, place):
    thick = d * (ratio - 1) / 2
    T, B, C = (share * thick for share in widths)
    sizes = Sizes(
        d,
        d * ratio,
        T,
        B,
        C,
        math.radians(place[0]),
        roller[0] * thick,
        roller[1] * thick,
        d * (1 + ratio) / 2,
        place[1] * thick,
    )
    assert sizes.drawable
    for width, height in (*ROOMS, (40, 11), (120, 40)):
        lines = section(sizes, width, height, UNICODE)
        assert len(lines) == height
        assert all(cell_len(line) <= width for line in lines)


def test_estimated_sizes_carry_their_mark_in_the_drawing_and_in_the_list():
    estimated = frozenset({"B", "a", "alpha"})
    for glyphs in (UNICODE, ASCII):
        drawing, listed = (
            "\n".join(section(dataclasses.replace(Sizes.of(ALL, 0), estimated=estimated), *room, glyphs))
            for room in ((78, 16), (30, 8))
        )
        for shown in (drawing, listed):
            assert f"B ~{ALL.B[0]:g} mm" in shown
            assert f"a ~{ALL.a[0]:g} mm" in shown
            assert f"~{math.degrees(ALL.alpha[0]):.2f}" in shown
            assert f"T {ALL.T[0]:g} mm" in shown
