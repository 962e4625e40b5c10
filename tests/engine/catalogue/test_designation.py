"""Designations against the rows of ISO 355 and the numbering of the inch standard, both recalled.

The inch codes here are invented by the published grammar; none is taken from a list of parts. The classes and angles
expected stand as they were recalled in the table of the standard, apart from the code.
"""

import re

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.catalogue.designation import ACCEPTED, LONGEST, decode, nearest_names, no_assembly, refusal
from engine.catalogue.equivalents import find
from engine.catalogue.naming.inch_code import DUTY_CLASSES
from engine.catalogue.naming.reading import Range
from engine.catalogue.naming.series_code import series_limits
from engine.catalogue.read import builtin
from tests.engine.catalogue.published_rows import ROWS

ALL = builtin()
METRIC = [str(name) for name in ALL.designation[ALL.system == "metric"]]
EVERY_NAME = [*ALL.designation.tolist(), *ALL.cone.tolist(), *ALL.cup.tolist()]


def only(text: str):
    (reading,) = decode(text)
    return reading


def words(reading) -> dict[str, str]:
    return dict(reading.parts)


# --- ISO 355, ISO 10317


def test_the_designation_that_the_standard_explains():
    # ISO 10317 designation as recalled: angle series 4, diameter series C, width series B, bore 120 mm
    reading = only("T4CB120")
    assert [piece for piece, _ in reading.parts] == ["T", "4", "C", "B", "120"]
    assert "over 15 deg 59' to 18 deg 55'" in words(reading)["4"]
    assert "over 3.80 to 4.40" in words(reading)["C"]
    assert "over 0.50 to 0.68" in words(reading)["B"]
    assert "120 mm" in words(reading)["120"]
    assert [source.document.short for source in reading.sources] == ["ISO 10317", "ISO 355:2019"]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"ISO 355, row {row[0]} x {row[1]} x {row[2]}, {row[6]}")
def test_a_published_row_lies_inside_what_its_designation_fixes(row):
    d, D, T, _B, _C, alpha = map(float, row[:6])
    limits = only(f"T{row[6]}{int(d):03d}").limits
    assert limits.d == Range(d, d)
    assert limits.D.contains(D)
    assert limits.T.contains(T)
    assert limits.alpha.contains(np.radians(alpha))


@pytest.mark.parametrize("row", ROWS[::9], ids=lambda row: f"ISO 355, row {row[0]} x {row[1]} x {row[2]}, {row[6]}")
def test_a_published_row_lies_outside_what_the_neighbouring_series_fix(row):
    d, D, _T, _B, _C, alpha = map(float, row[:6])
    digit, letter, width = row[6]
    other_digit = "3" if digit == "2" else chr(ord(digit) - 1)
    other_letter = "D" if letter == "C" else chr(ord(letter) - 1)
    assert not series_limits(other_digit + letter + width, d).alpha.contains(np.radians(alpha))
    assert not series_limits(digit + other_letter + width, d).D.contains(D)


def test_prefix_bore_and_letter_case_may_be_left_out():
    assert only("4cb120").limits == only("T4CB120").limits
    series = only("t4cb")
    assert not series.limits.d.limits
    assert not series.limits.D.limits
    assert series.limits.dimension_series == "4CB"
    assert any("bore" in unknown for unknown in series.unknown)


@pytest.mark.parametrize(("code", "piece"), [("T1CB050", "1"), ("T3AB050", "A"), ("T3CA050", "A")])
def test_a_reserved_sign_fixes_nothing(code, piece):
    # ISO 355 as recalled: angle series 1, diameter series A and width series A are reserved
    reading = only(code)
    assert any(one == piece and "reserved" in meaning for one, meaning in reading.parts)
    assert len(find(ALL, reading)) == 0


# --- the inch numbering


@pytest.mark.parametrize("duty", DUTY_CLASSES)
def test_every_duty_class_is_read_whole(duty):
    reading = only(f"{duty}52149")
    assert reading.parts[0][0] == duty
    assert [piece for piece, _ in reading.parts[1:]] == ["5", "21", "49"]


@pytest.mark.parametrize(
    ("degrees", "minutes", "digit"),
    # included angle is twice the contact angle; rows of the angle table as recalled, and its two worked cases
    [(12, 57, "3"), (15, 0, "5"), (11, 59, "1"), (12, 0, "2"), (13, 30, "4"), (15, 15, "6"), (17, 59, "7"),
     (18, 0, "8"), (22, 29, "8"), (22, 30, "9"), (28, 0, "9")],
    ids="inch numbering, angle table {0}".format,
)  # fmt: skip
def test_the_contact_angle_lies_under_its_digit_and_under_no_other(degrees, minutes, digit):
    alpha = np.radians(degrees + minutes / 60)
    under = [sign for sign in "123456789" if only(f"HH{sign}2149").limits.alpha.contains(alpha)]
    assert under == [digit]


@pytest.mark.parametrize(
    ("series", "low", "high"),
    [("00", 0, 1), ("19", 0, 1), ("20", 1, 2), ("99", 1, 2), ("000", 2, 3), ("029", 2, 3), ("030", 3, 4),
     ("129", 3, 4), ("130", 4, 5), ("189", 4, 5), ("190", 5, 6), ("239", 5, 6)],
    ids="inch numbering, bore table {0}".format,
)  # fmt: skip
def test_the_series_gives_the_bore_range(series, low, high):
    d = only(f"LM4{series}12").limits.d
    assert (d.low, d.high) == (pytest.approx(low * 25.4), pytest.approx(high * 25.4))


@pytest.mark.parametrize("series", ["240", "999"])
def test_a_series_beyond_the_recalled_table_is_only_larger(series):
    reading = only(f"HM3{series}31")
    assert reading.limits.d.low == pytest.approx(152.4)
    assert "as recalled" in words(reading)[series]


def test_a_series_of_one_digit_is_not_concluded():
    reading = only("EL4712")
    assert not reading.limits.d.limits
    assert any("bore range of series 7" in unknown for unknown in reading.unknown)


@pytest.mark.parametrize(
    ("part", "meaning"),
    [("10", "a cup"), ("19", "a cup"), ("30", "a cone"), ("49", "a cone"), ("09", "outside"), ("20", "outside"),
     ("29", "outside"), ("50", "outside"), ("99", "outside")],
    ids="inch numbering, parts {0}".format,
)  # fmt: skip
def test_the_last_two_digits_tell_cones_from_cups(part, meaning):
    reading = only(f"EH521{part}")
    assert meaning in words(reading)[part]
    assert any("cone or a cup" in unknown for unknown in reading.unknown) == (meaning == "outside")


def test_a_suffix_is_a_modification_and_nothing_is_concluded_from_it():
    reading = only("HH52149AB")
    assert words(reading)["AB"] == "modification"
    assert any("AB" in unknown for unknown in reading.unknown)
    assert reading.limits == only("HH52149").limits


@pytest.mark.parametrize("code", ["T52149", "HH02149"])
def test_a_thrust_bearing_is_not_sought_among_radial_ones(code):
    assert not only(code).limits.limits


def test_a_number_without_class_letters_is_old_or_lacks_them_and_both_are_said():
    old, new = decode("52149")
    assert old.title == "Old inch number"
    assert not old.limits.limits
    assert len(find(ALL, old)) == 0
    assert "class letters are missing" in new.unknown[0]


@pytest.mark.parametrize("number", ["431", "4321"])
def test_a_short_number_is_only_an_old_one(number):
    assert [reading.title for reading in decode(number)] == ["Old inch number"]


# --- metric numbers


@pytest.mark.parametrize(
    ("number", "bore"),
    # DIN 623-1, bore codes (recalled): 02 is 15 mm, 03 is 17 mm, from 04 on five times the code; else behind a slash
    [("30202", 15), ("30303", 17), ("30204", 20), ("30208", 40), ("31312", 60), ("32010", 50), ("32022X", 110),
     ("32210", 50), ("32308", 40), ("32920", 100), ("33011", 55), ("33108", 40), ("33205", 25), ("320/28", 28),
     ("320/500", 500)],
    ids="DIN 720, number {0}".format,
)  # fmt: skip
def test_a_metric_number_gives_its_bore_and_no_other_size(number, bore):
    reading = only(number)
    assert reading.limits.d == Range(bore, bore)
    assert reading.limits.system == "metric"
    assert not any(one.limits for one in (reading.limits.D, reading.limits.T, reading.limits.alpha))
    assert [source.document.short for source in reading.sources] == ["DIN 720", "DIN 623-1"]
    assert "inch" not in " ".join(meaning for _, meaning in reading.parts)


@pytest.mark.parametrize("number", ["30408", "32108", "30297", "30200", "320/0", "302080"])
def test_what_no_metric_series_holds_is_not_read_as_one(number):
    readings = [reading for reading in decode(number) if reading.title.startswith("Metric")]
    # 00 is the bore code of 10 mm, which a number may bear
    assert len(readings) == (number == "30200")


def test_a_bare_number_is_never_said_to_be_an_inch_part():
    (old,) = decode("4321")
    assert "perhaps" in old.parts[0][1]
    assert "the digits do not tell it" in old.unknown[0]


# --- written forms


@pytest.mark.parametrize(
    ("written", "code"),
    [
        ("HM-52149", "HM52149"), ("hm 52149", "HM52149"), ("T3DB-050", "T3DB050"), ("ISO 355 3DB 050", "3DB050"),
        ("ISO 355:2019 T3DB050", "T3DB050"), ("DIN ISO 355 - 3DB 050", "3DB050"), ("DIN 720 30208", "30208"),
        ("Q112.1/Q112.6", "Q112.1+6"), ("q112.1/6", "Q112.1+6"), ("Q112.1 + Q112.6", "Q112.1+6"),
    ],
)  # fmt: skip
def test_a_written_form_says_what_the_plain_one_says(written, code):
    assert decode(written) == decode(code) != []


@pytest.mark.parametrize("written", ["HM52149/HM52110", "HM52149/10", "HM-52149/HM-52110", "HM52149 / 110"])
def test_cone_and_cup_by_a_slash_are_both_read(written):
    cone, cup = decode(written)
    assert (cone, cup) == (only("HM52149"), only("HM52110"))


def test_a_slash_with_nothing_readable_behind_it_is_no_designation():
    assert decode("HM52149/") == decode("HM52149/sprocket") == decode("/HM52110") == []


def test_a_series_of_the_catalogue_finds_its_assemblies():
    inch = only("q112")
    assert find(ALL, inch).tolist() == np.flatnonzero(ALL.series == "Q112").tolist() != []
    metric = decode("V050-3DB")[0]
    held = [name.startswith("V050-3DB-") for name in ALL.designation.tolist()]
    assert find(ALL, metric).tolist() == np.flatnonzero(held).tolist() != []


def test_every_example_of_the_message_finds_something():
    examples = [word for bracket in re.findall(r"\(([^)]*)\)", ACCEPTED) for word in bracket.split(", ")]
    examples = [word for word in examples if any(sign.isdigit() for sign in word)]
    assert len(examples) > 6
    for example in examples:
        assert len(find(ALL, decode(example)[0])), example


# --- our own scheme


def test_every_name_of_the_catalogue_is_read_and_found():
    for name in sorted(set(EVERY_NAME)):
        own = decode(name)[0]
        assert own.title.startswith("Own scheme")
        assert own.text == name
        carried = (ALL.designation == name) | (ALL.cone == name) | (ALL.cup == name)
        assert carried.any()
        assert find(ALL, own).tolist() == np.flatnonzero(carried).tolist()
        # small letters mean the same
        assert decode(name.lower())[0] == own


def test_the_dimension_series_in_a_metric_name_contains_its_own_row():
    for name in METRIC:
        _, series = decode(name)
        assert series.title.startswith("ISO 355")
        assert ALL.index_of(name) in find(ALL, series)


@pytest.mark.parametrize(
    ("name", "ring"),
    [("Q112.1+6", "assembly"), ("Q112.1", "cone"), ("Q112.6", "cup"), ("V050-3DB-C.i", "cone"),
     ("V050-3DB-C.o", "cup"), ("V050-3DB-C", "assembly")],
)  # fmt: skip
def test_own_names_tell_assembly_cone_and_cup(name, ring):
    assert ring in decode(name)[0].title


def test_every_execution_of_the_catalogue_is_explained():
    found = {str(name).rpartition("-")[2] for name in METRIC}
    assert found == {"C", "T", "TL", "SL"}
    for letters in sorted(found):
        own = decode(f"V220-2FB-{letters}")[0]
        assert [piece for piece, _ in own.parts[3:]] == list(letters)
        assert not any("not described" in meaning for _, meaning in own.parts)
        assert not any("steel letter" in unknown for unknown in own.unknown)
    assert "steel letter" in " ".join(decode("V220-2FB-CX")[0].unknown)


@pytest.mark.parametrize("name", ["Q112.6+1", "Q112.1+2", "V000-3DB-C", "V000-3DB", "T3DB000"])
def test_what_the_scheme_cannot_make_is_not_read(name):
    assert decode(name) == []


# --- text of any kind

ARABIC_DIGITS = "T4CB" + "".join(chr(0x0661 + i) for i in range(3))


@pytest.mark.parametrize(
    "text",
    ["", "   ", "\x1b[31mT4CB120", "T4CB120\x00", "4" * 10_000, ARABIC_DIGITS, "ﬀ12345", "ſ52149", "[bold]", "=1+1",
     "x" * 10_240, "\ud800", "T4CB120\u202e"],
    ids=lambda text: ascii(text[:12]),
)  # fmt: skip
def test_hostile_text_has_no_reading_and_a_safe_refusal(text):
    assert decode(text) == []
    said = str(refusal(text, EVERY_NAME))
    assert said.isprintable()
    assert len(said) < 600
    assert ACCEPTED in said


@settings(max_examples=200)
@given(st.one_of(st.text(max_size=80), st.from_regex(r"\A[A-Z]{0,3}[0-9.+-]{0,7}[A-Z]{0,3}\Z")))
def test_no_text_raises_and_every_reading_is_one_plain_text(text):
    for reading in decode(text):
        assert re.fullmatch(r"[A-Za-z0-9.+/-]+", reading.text)
        assert "".join(piece for piece, _ in reading.parts).replace("-", "") == reading.text.replace("-", "")
        assert reading.unknown
        assert reading.sources
        assert all(rows < len(ALL) for rows in find(ALL, reading))
    assert str(refusal(text)).isprintable()


def test_a_text_at_the_greatest_length_is_still_looked_at():
    assert decode(" " * LONGEST + "T4CB120") != []
    assert decode(" " * 3 * LONGEST + "T4CB120") == []


def test_a_slip_of_the_keyboard_gets_the_nearest_name():
    assert refusal("V05O-3DB-C", EVERY_NAME).nearest == "V050-3DB-C"


@pytest.mark.parametrize(
    ("within", "text"),
    [
        (Range(50, 50), "50 mm"),
        (Range(80, 83.5, low_in=False), "over 80 to 83.5 mm"),
        (Range(24, 25.5, high_in=False), "24 to under 25.5 mm"),
        (Range(152.4), "152.4 mm or more"),
    ],
)
def test_a_range_is_said_with_its_ends(within, text):
    assert within.text("mm") == text


def test_a_value_that_is_not_known_lies_only_in_a_range_without_limits():
    assert Range().contains(np.nan)
    assert not Range(0.0).contains(np.nan)


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("V050-3DB-C", ""),
        ("V05O-3DB-C", "did you mean V050-3DB-C"),
        ("v050-3db-c", "did you mean V050-3DB-C"),
        ("Q112.1", '"Q112.1" is a cone, not an assembly; with it: Q112.1+6'),
        ("Q112.6", '"Q112.6" is a cup, not an assembly; with it: Q112.1+6'),
        ("V050-3DB-C.o", "is a cup, not an assembly; with it: V050-3DB-C"),
        ("\x1b[31m", 'no assembly is named "\\x1b[31m"'),
        ("", 'no assembly is named ""'),
    ],
)
def test_why_a_name_is_that_of_no_assembly(name, said):
    words = no_assembly(name, ALL)
    assert said in words if said else words == ""
    assert words.isprintable()


def test_nearest_names_are_different_and_the_slips_of_one_key_come_first():
    near = nearest_names("V050-3DB-X", METRIC, 3)
    assert len(set(near)) == 3
    assert near[0] in {"V050-3DB-C", "V050-3DB-T"}
    assert nearest_names("nothing like it at all", METRIC, 3) == []
