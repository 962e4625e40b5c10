"""A column of numbers read at once against the same cells read one by one, and against float()."""

import math

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.catalogue.intake.numbers import Rule, converted

SIGNS = st.sampled_from([frozenset(), frozenset("."), frozenset(","), frozenset(".,")])
CELLS = st.one_of(
    st.from_regex(r"-?[0-9]{0,5}([.,][0-9]{0,4}){0,2}", fullmatch=True),
    st.from_regex(r"[+-]?[0-9 .,'e/-]{0,9}( mm)?", fullmatch=True),
    st.sampled_from(["", "n/a", "-", "1e5", "12 500", "1'234.5", "\u22121,5", "0x1", "nan", "9" * 20, "1/0", "3 mm"]),
)


def read(cells, rule):
    return converted(cells, rule, ("mm",))


@settings(max_examples=400, deadline=None)
@given(cells=st.lists(CELLS, min_size=1, max_size=12), column=SIGNS, file=SIGNS)
def test_a_cell_among_others_is_read_as_it_is_read_alone(cells, column, file):
    # alone and behind a unit no cell is a plain decimal, so that it goes the way of single cells
    rule = Rule(column, file | column)
    values, wrong = read(cells, rule)
    for row, cell in enumerate(cells):
        if not cell.strip() or cell.strip()[-1:] not in "0123456789":
            continue
        (alone,), refused = read([f"{cell} mm"], rule)
        if row in wrong:
            assert math.isnan(values[row])
        # a number with two units, or none in front of the unit, is only wrong with it
        if not refused:
            assert row not in wrong
            assert values[row] == alone


@settings(max_examples=300)
@given(st.lists(st.decimals(-(10**9), 10**9, places=4), min_size=1))
def test_decimals_are_what_float_reads_with_either_sign(numbers):
    cells = [str(number) for number in numbers]
    values, wrong = read(cells, Rule(frozenset("."), frozenset(".")))
    assert not wrong
    assert values.tolist() == [float(cell) for cell in cells]
    values, wrong = read([cell.replace(".", ",") for cell in cells], Rule(frozenset(","), frozenset(",")))
    assert not wrong
    assert values.tolist() == [float(cell) for cell in cells]


def test_thousands_are_joined_where_the_column_writes_decimals_otherwise():
    values, wrong = read(["1,234", "12,500", "0,250", "7", "999,999"], Rule(frozenset("."), frozenset(".")))
    assert not wrong
    # "0,250" has one reading only, whatever the others say
    np.testing.assert_array_equal(values, [1234, 12500, 0.25, 7, 999999])
