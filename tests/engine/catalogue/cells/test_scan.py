"""Cells found by array operations against those that the csv module finds in the same bytes."""

import csv
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.catalogue.cells.csv_rows import DELIMITERS, Lines, csv_rows
from engine.catalogue.cells.grid import Grid, grid_of
from engine.catalogue.cells.scan import Layout, Scanned, scanned
from engine.catalogue.cells.texts import column_of_texts

WIDTH = 3


def at_once(content: bytes, delimiter=",", encoding="utf-8", most=1000) -> Scanned | None:
    return scanned(content, 0, 1, Layout(delimiter, WIDTH, encoding), most)


def cells(found: Scanned, encoding="utf-8") -> list[list[str]]:
    return [list(row) for row in Grid(found.blocks, encoding).rows()]


def by_csv(content: bytes, delimiter=",", encoding="utf-8"):
    """Rows and their lines as the csv module reads them, padded or cut to the width, and the rows that are too long."""
    rows, overlong = [], []
    lines = Lines(content, encoding)
    for row in csv_rows(lines, delimiter):
        if any(map(str.strip, row[WIDTH:])):
            overlong.append((lines.start, len(row)))
        else:
            rows.append((lines.start, [*row, *[""] * WIDTH][:WIDTH]))
    return rows, overlong


def agrees(content: bytes, delimiter=",", encoding="utf-8") -> bool:
    """Return whether the file could be read at once; assert that it was then read as the csv module reads it."""
    found = at_once(content, delimiter, encoding)
    if found is None:
        return False
    rows, overlong = by_csv(content, delimiter, encoding)
    lines = [line for some in found.lines for line in some.tolist()]
    assert list(zip(lines, cells(found, encoding), strict=True)) == rows
    assert found.overlong == overlong
    assert found.rows == len(rows) + len(overlong)
    return True


PIECES = st.sampled_from(
    [*",;\t|\"'# \n", "\r\n", "a", "1", "-2.5", "\xfc", "\xa0", "\x85", "\u2003", "\u2028", "\x0b", "\x1c", "\x19",
     '"a,b"', '""', '"c"', ",,"]
)  # fmt: skip


@settings(max_examples=600, deadline=None)
@given(st.lists(PIECES, max_size=40), st.sampled_from(DELIMITERS))
def test_any_text_is_read_as_the_csv_module_reads_it_or_left_to_it(pieces, delimiter):
    agrees("".join(pieces).encode(), delimiter)


@settings(max_examples=200, deadline=None)
@given(
    st.lists(st.lists(st.text("ab ,;#\xe4\xa0", max_size=4), min_size=1, max_size=5), min_size=1, max_size=8),
    st.sampled_from(DELIMITERS),
    st.sampled_from([csv.QUOTE_ALL, csv.QUOTE_MINIMAL]),
    st.sampled_from(["\n", "\r\n"]),
    st.sampled_from(["utf-8", "latin-1"]),
)
def test_what_the_csv_module_writes_without_doubled_quotes_is_read_at_once(rows, delimiter, quoting, end, encoding):
    file = io.StringIO(newline="")
    csv.writer(file, delimiter=delimiter, quoting=quoting, lineterminator=end).writerows(rows)
    content = file.getvalue().encode(encoding)
    # a comment is passed over by its first sign, whatever quotes stand in it
    commented = any(line.lstrip().startswith("#") for line in file.getvalue().splitlines())
    assert agrees(content, delimiter, encoding) or commented


@pytest.mark.parametrize(
    "content",
    [b'a,"b""c",d\n', b'a,5",d\n', b'a, "b",d\n', b'a,"b"x,d\n', b'a,"b\nc",d\n', b'a,"b,d\n', b'# "x\na,b,c\n',
     b"a,%b,c\n" % (b"x" * 131_073)],
    ids=["doubled quote", "inch sign", "quote behind a blank", "text behind a quote", "line end in quotes",
         "quote left open", "quote in a comment", "a cell longer than the csv module takes"],
)  # fmt: skip
def test_quotes_elsewhere_are_left_to_the_csv_module(content):
    assert at_once(content) is None


@pytest.mark.parametrize("most", [0, 1, 5, 9])
def test_reading_ends_one_row_behind_the_most(most):
    found = at_once(b"".join(b"%d,x,y\n" % row for row in range(50)), most=most)
    assert found.rows == most + 1
    assert cells(found)[-1][0] == str(most)


def test_rows_of_every_block_come_in_order_with_their_lines():
    content = b"".join(b"# %d\n%d,%s,z\n" % (row, row, b"y" * 90) for row in range(40_000))
    found = at_once(content, most=100_000)
    assert len(found.blocks) > 3
    assert [int(row[0]) for row in cells(found)] == list(range(40_000))
    assert [line for some in found.lines for line in some.tolist()] == list(range(2, 80_001, 2))


@given(st.lists(st.text(st.characters(exclude_characters="\0", codec="utf-8"), max_size=70), min_size=1, max_size=30))
def test_a_grid_of_texts_gives_them_back_without_the_blanks_around_them(words):
    grid = grid_of([[word, word] for word in words])
    column = grid.column(1)
    assert [row[1] for row in grid.rows()] == words
    stripped = [word.strip() for word in words]
    assert [grid.cell(row, 0) for row in range(len(words))] == stripped
    values, doubtful = column_of_texts(column, 60)
    for value, word, in_doubt in zip(values.tolist(), stripped, doubtful.tolist(), strict=True):
        assert in_doubt == (not (word.isascii() and word.isprintable() and len(word) <= 60))
        assert value == ("" if in_doubt else word)
