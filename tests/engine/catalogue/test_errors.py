"""What is shown of data is safe on any terminal, and problems read as one clear line each."""

import copy
import pickle
import subprocess
import sys
import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.errors import LONGEST_SHOWN, Problem, Problems, nearest, plain


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("V050-3DB-C", "V050-3DB-C"),
        ("Größe 直径", "Größe 直径"),
        ("\x1b[2J", "\\x1b[2J"),
        ("\x9b31m", "\\x9b31m"),
        ("a\tb\r\nc\x00\x7f", "a\\x09b\\x0d\\x0ac\\x00\\x7f"),
        ("a\u202eb\u2066c", "a\\u202eb\\u2066c"),
        ("a\u200bb\ufeff\xad", "a\\u200bb\\ufeff\\xad"),
        ("\u2028\u2029\x85\xa0", "\\u2028\\u2029\\x85\\xa0"),
        ("\udc80", "\\udc80"),
        ("\U000e0041", "\\U000e0041"),
        ("\u3164\ufe0f", "\\u3164\\ufe0f"),
        (12.5, "12.5"),
    ],
    ids=ascii,
)
def test_characters_that_are_not_drawn_become_visible(text, shown):
    assert plain(text) == shown


def test_long_text_is_cut():
    assert plain("x" * 200) == "x" * 200
    assert plain("x" * 201) == "x" * 197 + "..."
    assert len(plain("x" * 10_000_000)) == 200
    # an escape is never cut in two
    assert plain("\x1b" * 201) == "\\x1b" * 49 + "..."
    assert plain("abcdef", 5) == "ab..."


@settings(max_examples=200)
@given(st.text(st.characters(), max_size=400))
def test_plain_text_is_printable_bounded_and_plain_already(text):
    shown = plain(text)
    # Unicode character database: C* are control, format, surrogate, private and unassigned; Zl, Zp break lines
    assert not any(unicodedata.category(character)[0] == "C" for character in shown)
    assert not any(unicodedata.category(character) in ("Zl", "Zp") for character in shown)
    assert len(shown) <= LONGEST_SHOWN
    assert plain(shown) == shown
    shown.encode()


@pytest.mark.parametrize(
    ("problem", "line"),
    [
        (
            Problem("file.csv", 12, "alpha_deg", '"abc" is not a number', "a number from 8 to 32 deg", is_column=True),
            'file.csv, line 12, column "alpha_deg": "abc" is not a number; accepted: a number from 8 to 32 deg',
        ),
        (
            Problem("", None, "duty.sped", "is not known", "a key of duty", "speed"),
            'duty.sped: is not known; accepted: a key of duty; did you mean "speed"?',
        ),
        (Problem("a.toml", 3, "", "is no TOML", ""), "a.toml, line 3: is no TOML"),
        (Problem("", None, "", "nothing was given", ""), "nothing was given"),
    ],
    ids=["cell", "key", "line", "bare"],
)
def test_a_problem_is_one_line(problem, line):
    assert str(problem) == line


@settings(max_examples=100)
@given(st.lists(st.text(max_size=300), min_size=5, max_size=5))
def test_a_problem_is_printable_whatever_it_is_made_of(texts):
    path, field, wrong, accepted, close = texts
    assert str(Problem(path, 1, field, wrong, accepted, close)).isprintable()


def test_problems_list_fifty_and_count_the_rest():
    many = [Problem("", line, "", "is odd", "") for line in range(60)]
    assert str(Problems(many)).splitlines()[-2:] == ["line 49: is odd", "and 10 more"]
    assert str(Problems(many, 5)).splitlines()[-1] == "and 15 more"
    assert str(Problems(many[:2])) == "line 0: is odd\nline 1: is odd"
    assert str(Problems(iter(many[:1]))) == "line 0: is odd"


def test_problems_survive_copying_and_another_process():
    problems = Problems([Problem("a", 1, "b", "c", "d")], 3)
    for again in (copy.copy(problems), pickle.loads(pickle.dumps(problems))):
        assert (again.problems, again.more) == (problems.problems, 3)


@pytest.mark.parametrize(
    ("word", "choices", "expected"),
    [
        ("d_m", ["d_mm", "D_mm"], "d_mm"),
        ("D_m", ["d_mm", "D_mm"], "D_mm"),
        ("CASE", ["case", "through"], "case"),
        ("zzz", ["case", "through"], ""),
        ("", ["case"], ""),
        ("case", [], ""),
        ("N05000-3DB", [f"N{k:05d}-3DB-C" for k in range(20_000)], "N05000-3DB-C"),
        ("N12345-3DB-T", [f"N{k:05d}-3DB-C" for k in range(20_000)], "N12345-3DB-C"),
        ("x" * 1_000_000, ["case"], ""),
    ],
    ids=lambda value: str(value)[:20],
)
def test_nearest_spelling(word, choices, expected):
    assert nearest(word, choices) == expected


def test_errors_start_without_numpy():
    code = "import sys, engine.errors; print('numpy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True).stdout.strip() == "False"
