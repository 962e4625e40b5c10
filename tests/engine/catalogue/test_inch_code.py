"""The numbering of the inch standard against its tables, typed as they were recalled apart from the code.

ANSI/ABMA 19.2, numbering by class, angle, series and part. The tables are also asked to be whole, which no single
recollection can make them: no gap, no overlap, and every inch bearing of the catalogue found by the code that its
sizes give.
"""

import itertools

import numpy as np
import pytest

from engine.catalogue.designation import decode
from engine.catalogue.equivalents import find
from engine.catalogue.naming.inch_code import DUTY_CLASSES
from engine.catalogue.read import builtin

ALL = builtin()
INCH_ROWS = np.flatnonzero(ALL.system == "inch")

#: Prefix and duty, lightest first; between two named ones stands the one that joins their letters.
CLASSES = """
EL extra light
LL
L  light
LM light to medium
M  medium
HM medium to heavy
H  heavy
HH
EH extra heavy
T  thrust
"""
#: Digit, and the included angle of the cup: from this one, up to but not including that one.
ANGLES = """
1 0     24
2 24    25d30
3 25d30 27
4 27    28d30
5 28d30 30d30
6 30d30 32d30
7 32d30 36
8 36    45
9 45    180
"""
#: Numbers of the series and the bores in inches that they stand for.
SERIES = """
00-19   0-1
20-99   1-2
000-029 2-3
030-129 3-4
130-189 4-5
190-239 5-6
"""


def lines(table):
    return [line.split(maxsplit=1) for line in table.strip().splitlines()]


def degrees(text):
    whole, _, minutes = text.partition("d")
    return int(whole) + int(minutes or 0) / 60


def limits(code):
    """Return the limits of the reading by class, angle, series and part."""
    (reading,) = [one for one in decode(code) if one.title == "Inch standard numbering"]
    return reading.limits


def test_the_duty_classes_are_those_of_the_table_in_its_order():
    assert list(DUTY_CLASSES) == [prefix for prefix, *_ in lines(CLASSES)]
    for prefix, *meaning in lines(CLASSES):
        assert not meaning or DUTY_CLASSES[prefix] == meaning[0].strip()


def test_no_class_letters_but_those_of_the_table_are_read():
    letters = [*"ABCDEHLMTX"]
    pairs = ["".join(pair) for pair in itertools.product(letters, repeat=2)]
    read = {prefix for prefix in [*letters, *pairs] if decode(f"{prefix}52149")}
    assert read == set(DUTY_CLASSES)


@pytest.mark.parametrize(("digit", "ends"), lines(ANGLES), ids=lambda value: f"inch numbering, angle {value}")
def test_a_digit_holds_the_angles_of_its_row_and_none_beside_it(digit, ends):
    low, high = (np.radians(degrees(text)) / 2 for text in ends.split())
    alpha, minute = limits(f"HM{digit}2149").alpha, np.radians(1 / 60) / 2
    assert alpha.contains([low, (low + high) / 2, high - minute]).all()
    assert not alpha.contains(low - minute)
    if digit != "9":
        assert not alpha.contains([high, high + minute]).any()


def test_every_included_angle_lies_under_one_digit():
    alphas = np.radians(np.arange(1, 90 * 60) / 60) / 2
    under = sum(limits(f"HM{digit}2149").alpha.contains(alphas).astype(int) for digit in "123456789")
    assert np.all(under == 1)


@pytest.mark.parametrize(("numbers", "bores"), lines(SERIES), ids=lambda value: f"inch numbering, series {value}")
def test_every_number_of_a_series_stands_for_its_bores(numbers, bores):
    first, last = numbers.split("-")
    low, high = (float(text) * 25.4 for text in bores.split("-"))
    for number in range(int(first), int(last) + 1):
        d = limits(f"LM4{number:0{len(first)}d}12").d
        assert (d.low, d.high) == (pytest.approx(low), pytest.approx(high))


def test_the_series_follow_one_another_without_a_gap():
    rows = [[*map(int, numbers.split("-")), *map(int, bores.split("-"))] for numbers, bores in lines(SERIES)]
    for (_, last, _, high), (first, _, low, _) in itertools.pairwise(rows):
        assert low == high
        assert first in (last + 1, 0)


def code_of(row):
    """Return a code whose angle digit and series are those of the sizes of a row, by the tables above."""
    included = 2 * np.degrees(ALL.alpha[row])
    (digit,) = [sign for sign, ends in lines(ANGLES) if degrees(ends.split()[0]) <= included < degrees(ends.split()[1])]
    bore = ALL.d[row] / 25.4
    series = next(
        (numbers.split("-")[0] for numbers, bores in lines(SERIES) if bore <= float(bores.split("-")[1])), "240"
    )
    return f"M{digit}{series}49"


def test_every_inch_assembly_is_found_by_the_code_that_its_sizes_give():
    found = {code: set(find(ALL, decode(code)[-1]).tolist()) for code in {code_of(row) for row in INCH_ROWS}}
    assert len(found) > 20
    for row in INCH_ROWS.tolist():
        assert row in found[code_of(row)]
    # and each code finds a part of the range, not all of it
    assert max(map(len, found.values())) < 0.2 * len(INCH_ROWS)
