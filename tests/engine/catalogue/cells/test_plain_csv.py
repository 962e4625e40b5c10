"""The quick way through a CSV file: it reads to the last bit what float() reads, or steps back."""

import dataclasses

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.catalogue.cells.plain_csv import plain_columns
from engine.catalogue.columns import COLUMNS
from engine.catalogue.invention.invent import synthetic
from engine.catalogue.read import read
from engine.catalogue.write import as_csv

NUMBER = dataclasses.replace(COLUMNS[7], name="value", header="value", least=-1e15, greatest=1e15)
OPTIONAL = dataclasses.replace(NUMBER, required=False)
TEXT = dataclasses.replace(COLUMNS[0], name="text", header="text")
CHOICE = dataclasses.replace(COLUMNS[3], name="text", header="text")


def numbers(cells, column=NUMBER):
    """Read cells of one column of numbers beside one of text."""
    content = "text,value\n" + "".join(f"x,{cell}\n" for cell in cells)
    found = plain_columns(content.encode(), (TEXT, column), 1000)
    return None if found is None else found["value"]


@settings(max_examples=300)
@given(st.lists(st.from_regex(r"-?[0-9]{1,10}(\.[0-9]{0,5})?|-?\.[0-9]{1,15}", fullmatch=True), min_size=1))
def test_decimals_are_read_to_the_last_bit_as_float_reads_them(cells):
    assert numbers(cells).tolist() == [float(cell) for cell in cells]


@settings(max_examples=300)
@given(st.floats(-1e14, 1e14, allow_nan=False).map(repr))
def test_a_number_is_read_as_float_reads_it_or_left_to_the_other_reader(cell):
    found = numbers([cell])
    assert found is None or found.tolist() == [float(cell)]


@pytest.mark.parametrize(
    "cell",
    [
        "",
        ".",
        "-",
        "-.",
        "1.2.3",
        "1-",
        "--1",
        "+1",
        "1e3",
        "nan",
        "inf",
        "1_0",
        " 1",
        "1 ",
        "1" * 16,
        "9" * 400,
        "0x1",
    ],
    ids=lambda cell: f"{cell[:20]!r}",
)
def test_anything_else_is_left_to_the_reader_that_judges(cell):
    assert numbers(["1", cell, "2"]) is None


def test_numbers_out_of_range_and_fractions_of_a_count_are_left_too():
    assert numbers(["1", "3000"], dataclasses.replace(NUMBER, greatest=2999)) is None
    assert numbers(["1", "1.5"], dataclasses.replace(NUMBER, kind="count")) is None


def test_an_empty_cell_is_not_known_where_it_may_be_empty():
    assert numbers(["", "1.5", "", ""], OPTIONAL).tolist() == pytest.approx([np.nan, 1.5, np.nan, np.nan], nan_ok=True)


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"text,value",
        b"text,value\n",
        b"\ntext,value\nx,1\n",
        b'text,value\n"x",1\n',
        b"text,value\nx,1\n\n",
        b"text,value\nx,1,2\n",
        b"text,value\nx\n1,2,3\n",
        b"text,value\nx,1\n,\n",
        b"text,value\n\xc3\xa4,1\n",
        b"text,value\n a,1\n",
        b"text,value\na ,1\n",
        b"text,value\n ,1\n",
        b"text,value\na\x7f,1\n",
        b"text,value\na\x1b,1\n",
        b"text,value\n" + b"x" * 61 + b",1\n",
        b"text\nx\n",
        b"text,value,value\nx,1,2\n",
        b"text,valeu\nx,1\n",
    ],
    ids=lambda content: ascii(content[:30]),
)
def test_files_out_of_the_ordinary_are_left_to_the_other_reader(content):
    assert plain_columns(content, (TEXT, OPTIONAL), 1000) is None


def test_more_rows_than_allowed_are_left_too():
    assert plain_columns(b"text,value\n" + b"x,1\n" * 5, (TEXT, NUMBER), 4) is None
    assert len(plain_columns(b"text,value\n" + b"x,1\n" * 4, (TEXT, NUMBER), 4)["value"]) == 4


def test_choices_are_kept_to():
    assert plain_columns(b"text,value\nmetric,1\ninch,1\n", (CHOICE, NUMBER), 9)["text"].tolist() == ["metric", "inch"]
    assert plain_columns(b"text,value\nmetric,1\nmetre,1\n", (CHOICE, NUMBER), 9) is None


def test_own_columns_and_line_ends_of_any_kind_are_ordinary():
    for end in (b"\n", b"\r\n", b"\r"):
        content = end.join([b"mine,value,text", b"?,2.50,x", b",.5,y"])
        found = plain_columns(content, (TEXT, NUMBER), 9)
        assert (found["text"].tolist(), found["value"].tolist()) == (["x", "y"], [2.5, 0.5])


def test_both_ways_through_a_file_of_many_blocks_give_the_same(tmp_path):
    content = as_csv(synthetic(7000, 4)).replace(b"N000007-", b"N 7-")
    assert len(content) > 1 << 20
    quick, thorough = tmp_path / "quick.csv", tmp_path / "thorough.csv"
    quick.write_bytes(content)
    # one quoted cell sends the whole file the other way
    first = content.split(b"\n")[1].split(b",")[0]
    thorough.write_bytes(content.replace(first + b",", b'"' + first + b'",', 1))
    assert plain_columns(content, COLUMNS, 7000) is not None
    assert plain_columns(thorough.read_bytes(), COLUMNS, 7000) is None
    assert as_csv(read(quick)) == as_csv(read(thorough)) == content
    assert read(quick).content_hash() == read(thorough).content_hash()
