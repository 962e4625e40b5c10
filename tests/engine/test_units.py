"""Ways of typing a value, against the definitions of the units.

Factors: NIST Special Publication 811 (2008), appendix B.8, whose bold factors are exact, and the definitions they rest
on (international yard and pound agreement of 1959: 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg; CGPM 1901: standard gravity
9.806 65 m/s2). Printed values that are rounded there are compared as printed.
"""

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine import units
from engine.units import (
    FORCE,
    LENGTH,
    LONGEST,
    MASS,
    PERCENT,
    RATIO,
    ROTATION,
    TEMPERATURE,
    TIME,
    VISCOSITY,
    UnitError,
    number_text,
    parse,
    show,
)
from tests.printed import printed
from tests.strategies import numbers

FLOWING = (units.AREA, units.VELOCITY, units.FLOW, units.DENSITY, units.ROUGHNESS)
DIMENSIONS = (LENGTH, FORCE, TEMPERATURE, ROTATION, TIME, VISCOSITY, MASS, PERCENT, RATIO, *FLOWING)

# exact by definition: typed, engine value
EXACT = [
    ("definition of the international inch", "1 in", LENGTH, 25.4),
    ("definition of the international inch", "1 inch", LENGTH, 25.4),
    ("definition of the international inch", '1"', LENGTH, 25.4),
    ("SP 811 B.8, mil", "1 thou", LENGTH, 0.0254),
    ("SP 811 B.8, foot", "1 ft", LENGTH, 304.8),
    ("SI prefix", "1 um", LENGTH, 0.001),
    ("SI prefix", "1 \u00b5m", LENGTH, 0.001),
    ("SI prefix", "1.5 m", LENGTH, 1500.0),
    ("SP 811 B.8, pound-force", "1 lbf", FORCE, 4.4482216152605),
    ("SP 811 B.8, kilogram-force", "1 kgf", FORCE, 9.80665),
    ("1000 pound-force", "1 kip", FORCE, 4448.2216152605),
    ("SI prefix", "4.5 kN", FORCE, 4500.0),
    ("SI prefix", "1 daN", FORCE, 10.0),
    ("definition of the pound", "1 lb", MASS, 0.45359237),
    ("16 ounces to the pound", "16 oz", MASS, 0.45359237),
    ("SP 811 B.8, ounce (avoirdupois)", "1 oz", MASS, 0.028349523125),
    ("SP 811 B.8, tonne", "1 t", MASS, 1000.0),
    ("melting ice", "32 degF", TEMPERATURE, 0.0),
    ("boiling water", "212 degF", TEMPERATURE, 100.0),
    ("where both scales meet", "-40 degF", TEMPERATURE, -40.0),
    ("SP 811 B.9, kelvin", "273.15 K", TEMPERATURE, 0.0),
    ("melting ice", "32 \u00b0F", TEMPERATURE, 0.0),
    ("boiling water", "100 \u00b0C", TEMPERATURE, 100.0),
    ("60 seconds to the minute", "24 rev/s", ROTATION, 1440.0),
    ("60 seconds to the minute", "50 Hz", ROTATION, 3000.0),
    ("revolutions per minute", "1450 1/min", ROTATION, 1450.0),
    ("SP 811 B.8, centistokes", "100 cSt", VISCOSITY, 100.0),
    ("SP 811 B.8, stokes", "1 St", VISCOSITY, 100.0),
    ("SI prefix", "1e-4 m\u00b2/s", VISCOSITY, 100.0),
    ("SP 811 B.8, year (365 days)", "1 yr", TIME, 8760.0),
    ("SP 811 B.8, day", "2 d", TIME, 48.0),
    ("SP 811 B.8, week is 7 days", "1 wk", TIME, 168.0),
    ("60 minutes to the hour", "90 min", TIME, 1.5),
    ("3600 seconds to the hour", "1800 s", TIME, 0.5),
    ("SP 811 B.8, gallon (US) of 231 cubic inches per minute", "1 gpm", units.FLOW, 3.785411784),
    ("1000 litres to the cubic metre", "0.06 m3/h", units.FLOW, 1.0),
    ("SP 811 B.8, foot per minute", "1 fpm", units.VELOCITY, 0.00508),
    ("SP 811 B.8, kilometre per hour", "36 km/h", units.VELOCITY, 10.0),
    ("SP 811 B.8, square inch", "1 in2", units.AREA, 6.4516e-4),
    ("SP 811 B.8, square foot", "1 ft2", units.AREA, 0.09290304),
    ("SI prefix", "1 cm2", units.AREA, 1e-4),
    ("SI prefix", "0.89 g/cm3", units.DENSITY, 890.0),
    ("SP 811 B.8, microinch", "1 uin", units.ROUGHNESS, 0.0254),
]


@pytest.mark.parametrize(("source", "typed", "dimension", "value"), EXACT, ids=[f"{c[0]}: {c[1]}" for c in EXACT])
def test_exact_definitions(source, typed, dimension, value):  # noqa: ARG001
    assert parse(typed, dimension) == value


# SP 811 B.8 and B.9 print these rounded to seven digits
ROUNDED = [
    ("SP 811 B.8, ounce to gram", "1000 oz", MASS, "28.34952"),
    ("SP 811 B.8, pound-force to newton", "1 lbf", FORCE, "4.448222"),
    ("SP 811 B.8, kip to kilonewton", "0.001 kip", FORCE, "4.448222"),
    ("SP 811 B.8, rpm to radian per second", "0.1047198 rad/s", ROTATION, "1.000000"),
    ("body heat, common table", "98.6 degF", TEMPERATURE, "37.00"),
]


@pytest.mark.parametrize(("source", "typed", "dimension", "as_printed"), ROUNDED, ids=[c[0] for c in ROUNDED])
def test_factors_as_printed(source, typed, dimension, as_printed):  # noqa: ARG001
    assert parse(typed, dimension) == printed(as_printed)


# one length in many ways of typing it
WAYS = [
    ("2 1/2 in", 63.5),
    ('2-1/2"', 63.5),
    ('2 1/2"', 63.5),
    ("2 1 / 2 in", 63.5),
    ("2.5in", 63.5),
    ("2,5 in", 63.5),
    ("5/2 in", 63.5),
    ("5/8 in", 15.875),
    ("63,5", 63.5),
    ("63.5", 63.5),
    ("63.5mm", 63.5),
    ("  63.5   mm ", 63.5),
    ("6.35 cm", 63.5),
    ("6.35 CM", 63.5),
    ("63.5 MM", 63.5),
    ("0,0635 m", 63.5),
    ("+63.5", 63.5),
    ("-63.5", -63.5),
    ("\u221263.5", -63.5),
    ("- 2 1/2 in", -63.5),
    (".5", 0.5),
    (",5", 0.5),
    ("0,125", 0.125),
    ("0.125", 0.125),
    ("5.", 5.0),
    ("20 000", 20_000.0),
    ("20\u00a0000", 20_000.0),
    ("20\u202f000,5", 20_000.5),
    ("20 000.5 mm", 20_000.5),
    ("20000", 20_000.0),
    ("1.234,5", 1234.5),
    ("1,234.5", 1234.5),
    ("1,234,567", 1_234_567.0),
    ("1.234.567", 1_234_567.0),
    ("1.234.567,8", 1_234_567.8),
    ("1e3", 1000.0),
    ("1.5E+3 mm", 1500.0),
    ("1e-3 m", 1.0),
    ("007", 7.0),
]


@pytest.mark.parametrize(("typed", "value"), WAYS)
def test_ways_of_typing_a_length(typed, value):
    assert parse(typed, LENGTH) == value


def test_what_two_countries_read_differently_is_refused_with_both_readings():
    with pytest.raises(UnitError) as refused:
        parse("20,000 h", TIME)
    assert refused.value.wrong == '"20,000 h" can be read as 20000 or as 20.000'
    assert "20000 or 20.000" in refused.value.accepted
    # both of them are then understood
    assert (parse("20000 h", TIME), parse("20.000 h", TIME)) == (20_000, 20)


REFUSED = [
    ("", LENGTH, "does not begin with a number"),
    ("abc", LENGTH, "does not begin with a number"),
    ("mm", LENGTH, "does not begin with a number"),
    ("5 kN", LENGTH, "not a unit of length"),
    ("5 mN", FORCE, "not a unit of force"),  # a millinewton must not become a meganewton
    ("5 5", LENGTH, "not a unit of length"),
    ("1 2 3", LENGTH, "not a unit of length"),
    ("20 00", LENGTH, "not a unit of length"),
    ("1,23,456", LENGTH, "not a number"),
    ("1.2.3", LENGTH, "not a number"),
    ("1,2,3.4", LENGTH, "not a number"),
    ("1/0", LENGTH, "divides by zero"),
    ("2 1/0 in", LENGTH, "divides by zero"),
    ("1e999", LENGTH, "too large a number"),
    ("1e308 m", LENGTH, "too large a number"),
    ("9" * 60 + "e999", LENGTH, "too large a number"),
    ("nan", LENGTH, "does not begin with a number"),
    ("inf", LENGTH, "does not begin with a number"),
    ("\u0661\u0662", LENGTH, "does not begin with a number"),  # digits of another script
    ("3 kg", RATIO, "has a unit"),
    ("1 in; 2 in", LENGTH, "not a unit of length"),
    ("1_000", LENGTH, "not a unit of length"),
    ("0x10", LENGTH, "not a unit of length"),
    ("5" * 65, LENGTH, "65 characters are too many"),
]


@pytest.mark.parametrize(("typed", "dimension", "wrong"), REFUSED)
def test_what_is_refused_says_what_was_wrong_and_what_is_accepted(typed, dimension, wrong):
    with pytest.raises(UnitError) as refused:
        parse(typed, dimension)
    assert wrong in refused.value.wrong
    assert refused.value.accepted
    assert refused.value.wrong in str(refused.value)
    assert refused.value.accepted in str(refused.value)


@pytest.mark.parametrize("dimension", DIMENSIONS, ids=lambda d: d.name)
def test_the_example_that_a_message_gives_can_be_typed(dimension):
    for example in re.split(r", | or ", dimension.example):
        assert parse(example, dimension) > 0
    assert dimension.spellings() == ", ".join(dimension.units)


@pytest.mark.parametrize("dimension", DIMENSIONS, ids=lambda d: d.name)
def test_without_a_unit_the_engine_unit_is_meant(dimension):
    assert parse("12.5", dimension) == parse(f"12.5 {dimension.unit}", dimension) == 12.5


@pytest.mark.parametrize("dimension", DIMENSIONS, ids=lambda d: d.name)
@given(
    st.one_of(
        st.text(max_size=LONGEST + 6),
        st.text("0123456789.,/ +-eE\u00a0", max_size=40),
        st.tuples(
            st.text("0123456789., /-", min_size=1, max_size=20), st.text("mkNinlbfCdegFK2/s\u00b2\"'", max_size=6)
        ).map(" ".join),
    )
)
def test_garbage_is_a_number_or_a_refusal_and_never_anything_else(dimension, text):
    try:
        value = parse(text, dimension)
    except UnitError as refused:
        assert refused.wrong.isprintable()  # noqa: PT017
        assert refused.accepted.isprintable()  # noqa: PT017
    else:
        assert isinstance(value, float)
        assert math.isfinite(value)


@pytest.mark.parametrize("dimension", DIMENSIONS, ids=lambda d: d.name)
@given(value=numbers(-1e12, 1e12))
def test_what_a_program_writes_is_read_to_the_last_bit(dimension, value):
    assert parse(repr(value), dimension) == value


@given(st.integers(0, 999), st.integers(0, 63), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_fractions_of_an_inch_are_exact(whole, numerator, denominator):
    # 25.4 mm in binary fractions: sixteen digits hold the decimal exactly as it is worked out with integers
    tenths = 254 * (whole * denominator + numerator)
    assert parse(f"{whole} {numerator}/{denominator} in", LENGTH) == tenths / (10 * denominator)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0.0, "0"),
        (-0.0, "0"),
        (63.5, "63.5"),
        (1234.0, "1234"),
        (9999.0, "9999"),
        (10_000.0, "10 000"),
        (-10_000.0, "-10 000"),
        (123_456.789, "123 457"),
        (12_345_678.0, "12 345 678"),
        (999_999_999.0, "999 999 999"),
        (1e9, "1.00000e+09"),
        (0.000123456, "0.000123456"),
        (0.00001, "1.00000e-05"),
        (1 / 3, "0.333333"),
        (2 / 3 * 1e4, "6666.67"),
        (math.nan, "unknown"),
        (math.inf, "unlimited"),
        (-math.inf, "-unlimited"),
    ],
)
def test_numbers_for_the_screen(value, text):
    # groups of three by ISO 80000-1 (recalled): a small space, no comma or point, and none in four digits
    assert number_text(value) == text


@given(numbers(-1e15, 1e15), st.integers(3, 9))
def test_a_number_shown_is_the_number_within_its_digits(value, digits):
    shown = number_text(value, digits)
    assert shown.isascii()
    assert float(shown.replace(" ", "")) == pytest.approx(value, rel=0.5 * 10.0 ** (1 - digits))


def test_show_adds_the_unit():
    assert show(63.5, LENGTH) == "63.5 mm"
    assert show(1.25, RATIO) == "1.25"
    assert show(20_000.0, TIME) == "20 000 h"


def test_the_constants_are_the_defined_ones():
    assert float(units._POUND * units._GRAVITY) == 4.4482216152605
