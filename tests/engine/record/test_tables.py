"""The layout of a record: the same content gives the same bytes, in lines that a person can compare."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.answers.document import Answers
from engine.record.document import Record, to_tables
from engine.record.tables import to_toml
from engine.record.write import to_text
from tests.engine.answers.typed import answers

words = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
values = st.one_of(
    st.booleans(),
    st.integers(-(2**63), 2**63 - 1),
    st.floats(allow_nan=False),
    words,
    st.lists(st.one_of(st.integers(0, 9), words), max_size=3),
)
tables = st.recursive(
    st.dictionaries(words, values, max_size=4),
    lambda inner: st.dictionaries(words, st.one_of(values, inner, st.lists(inner, min_size=1, max_size=3)), max_size=4),
    max_leaves=12,
)


@given(tables)
def test_any_tables_are_read_back_equal(content):
    assert tomllib.loads(to_toml(content)) == content


@given(answers())
def test_a_record_of_any_answers_is_read_back_equal(made):
    record = Record(made)
    written = tomllib.loads(to_text(record, None))
    # a record without answers has no [answers]
    assert {"answers": {}} | written == to_tables(record, None)


def test_layout():
    content = {
        "schema": "1.0",
        "made_with": {"conewright": "0.1.0"},
        "answers": {
            "duty": {"life_h": 20000.0, "cases": [{"speed_rpm": 1.0}, {}, {"name": "c"}]},
            "steel": {"hollow_shaft": True},
        },
    }
    assert to_toml(content) == (
        'schema = "1.0"\n\n[made_with]\nconewright = "0.1.0"\n\n[answers.duty]\nlife_h = 20000.0\n\n'
        '[[answers.duty.cases]]\nspeed_rpm = 1.0\n\n[[answers.duty.cases]]\n[[answers.duty.cases]]\nname = "c"\n\n'
        "[answers.steel]\nhollow_shaft = true\n"
    )


@pytest.mark.parametrize("count", [1, 2, 40])
def test_load_cases_always_have_headers_of_their_own(count):
    # a library that folds short lists into one line would make every new case a change of that line
    text = to_toml({"answers": {"duty": {"cases": [{"speed_rpm": float(n)} for n in range(count)]}}})
    assert text.count("[[answers.duty.cases]]") == count
    assert "{" not in text


@pytest.mark.parametrize("key", ["a b", "", "a.b", "ä", '"', "\\", "\n", "#"])
def test_keys_that_are_not_bare_are_quoted(key):
    for content in ({key: 1}, {key: {"x": 1}}, {key: [{"x": 1}]}, {"t": {key: {key: {"x": 1}}}}):
        assert tomllib.loads(to_toml(content)) == content


def test_same_content_same_bytes():
    assert to_text(Record(Answers()), None) == to_text(Record(Answers()), None)
    assert to_text(Record(Answers()), None).endswith("\n")
