"""Reading a catalogue: good bytes become columns, bad ones a list of what is wrong where."""

import dataclasses
import hashlib
import random
import struct
from importlib.resources import files
from pathlib import Path

import numpy as np
import pytest

from engine.catalogue.columns import COLUMNS, Catalogue, estimated_bit, join
from engine.catalogue.invention.invent import synthetic
from engine.catalogue.read import builtin, read, read_parts
from engine.catalogue.write import as_csv
from engine.errors import Problems

GOOD = as_csv(synthetic(6, 1))
HEADERS = [column.header for column in COLUMNS]


@pytest.fixture
def reading(tmp_path):
    def read_bytes(content):
        path = tmp_path / "mine.csv"
        path.write_bytes(content)
        return read(path)

    return read_bytes


def refused(reading, content):
    with pytest.raises(Problems) as caught:
        reading(content)
    return caught.value


def with_cell(row, header, cell):
    """Return the good file with one cell of a row (0 is the first of data) put in place."""
    lines = [line.split(",") for line in GOOD.decode().splitlines()]
    lines[row + 1][HEADERS.index(header)] = cell
    return "\n".join(",".join(line) for line in lines).encode(errors="surrogateescape") + b"\n"


def test_what_is_written_reads_back_to_the_last_bit(reading):
    again = reading(GOOD)
    for column in COLUMNS:
        first = getattr(synthetic(6, 1), column.name)
        assert getattr(again, column.name).tolist() == first.tolist(), column.name
    assert again.content_hash() == synthetic(6, 1).content_hash()
    assert as_csv(again) == GOOD


def test_angles_are_radians_in_the_engine(reading):
    c = reading(GOOD)
    degrees = [float(line.split(",")[HEADERS.index("alpha_deg")]) for line in GOOD.decode().splitlines()[1:]]
    assert np.allclose(np.degrees(c.alpha), degrees, rtol=0, atol=1e-12)


@pytest.mark.parametrize(
    "content",
    [
        b"\xef\xbb\xbf" + GOOD,
        GOOD.replace(b"\n", b"\r\n"),
        GOOD.replace(b"\n", b"\r"),
        GOOD.rstrip(b"\n"),
        GOOD + b"\n\n,,,\n",
        GOOD.replace(b",", b" , "),
        b"\n".join(b",".join(b'"' + cell + b'"' for cell in line.split(b",")) for line in GOOD.splitlines()),
        b"\n".join(
            line + (b",remark" if place == 0 else b",as ordered") for place, line in enumerate(GOOD.splitlines())
        ),
        b"\n".join(b",".join(reversed(line.split(b","))) for line in GOOD.splitlines()),
    ],
    ids=["byte order mark", "CRLF", "CR", "no last line end", "empty rows", "spaces", "quotes", "own column", "order"],
)
def test_ways_of_writing_the_same_catalogue_read_the_same(reading, content):
    assert as_csv(reading(content)) == GOOD
    assert reading(content).content_hash() == synthetic(6, 1).content_hash()


def test_a_bad_cell_is_named_by_file_line_and_column(reading, tmp_path):
    (problem,) = refused(reading, with_cell(2, "alpha_deg", "abc")).problems
    assert str(problem) == (
        f'{tmp_path / "mine.csv"}, line 4, column "alpha_deg": "abc" is not a number; '
        "accepted: a number from 8 to 32 deg"
    )


@pytest.mark.parametrize(
    ("header", "cell", "wrong"),
    [
        ("d_mm", "", "is empty"),
        ("d_mm", "nan", "is not a number"),
        ("d_mm", "inf", "is not a number"),
        ("d_mm", "1e999", "is not a number"),
        ("d_mm", "9" * 400, "is not a number"),
        ("d_mm", "1_0", "is not a number"),
        ("d_mm", "٣٠", "is not a number"),
        ("d_mm", "-20", "is too small"),
        ("d_mm", "20000", "is too large"),
        ("Z", "15.5", "is not whole"),
        ("Y", "=1+1", "is not a number"),
        ("mass_kg", "heavy", "is not a number"),
        ("designation", "", "is empty"),
        ("designation", "x" * 100, "is 100 characters long"),
        ("designation", "a\x1b[2Jb", "holds characters that cannot be shown"),
        ("designation", "a\u202eb", "holds characters that cannot be shown"),
        ("designation", '"a\nb"', "holds characters that cannot be shown"),
        ("cup", "a\x07", "holds characters that cannot be shown"),
        ("steel", "cased", "is not known"),
        ("system", "Metric", "is not known"),
        ("listed", "set", "is not known"),
        ("availability", "sold out", "is not known"),
        ("tolerance", "P0", "is not known"),
        ("cost", "-1", "is too small"),
    ],
    ids=lambda value: ascii(value)[:24],
)
def test_bad_cells(reading, header, cell, wrong):
    found = refused(reading, with_cell(1, header, cell))
    (problem,) = found.problems
    assert problem.field == header and wrong in problem.wrong
    assert problem.line == (4 if "\n" in cell else 3)
    assert str(found).isprintable()


def test_the_nearest_choice_is_offered(reading):
    assert refused(reading, with_cell(1, "steel", "cased")).problems[0].nearest == "case"
    assert refused(reading, with_cell(1, "system", "Metric")).problems[0].nearest == "metric"


def test_text_like_a_formula_is_just_text(reading):
    c = reading(with_cell(1, "cone", "=HYPERLINK(1)"))
    assert c.cone[1] == "=HYPERLINK(1)"


def test_optional_cells_may_be_empty_and_optional_columns_absent(reading):
    assert np.isnan(reading(with_cell(1, "n_oil_rpm", "")).n_oil[1])
    assert reading(with_cell(1, "listed", "")).listed[1] == "listed"
    assert reading(with_cell(1, "availability", "")).availability[1] == ""
    assert reading(with_cell(1, "profile", "")).profile[1] == "plain"
    places = [place for place, column in enumerate(COLUMNS) if column.required]
    short = b"\n".join(b",".join(line.split(b",")[place] for place in places) for line in GOOD.splitlines())
    c = reading(short)
    assert np.all(np.isnan(c.mass)) and np.array_equal(c.Cr, synthetic(6, 1).Cr)
    assert reading(as_csv(c)).content_hash() == c.content_hash()


def test_a_missing_column_is_named_with_the_one_that_looks_like_it(reading):
    (problem,) = refused(reading, GOOD.replace(b"alpha_deg", b"alpha deg")).problems
    assert problem.line == 1 and problem.field == "alpha_deg" and "alpha deg" in problem.wrong
    # a column that may be absent is missed when it is only spelled wrongly
    (problem,) = refused(reading, GOOD.replace(b"mass_kg", b"mass (kg)")).problems
    assert problem.field == "mass_kg"


def test_a_column_that_stands_twice_is_refused(reading):
    content = b"\n".join(line + (b",d_mm" if place == 0 else b",50") for place, line in enumerate(GOOD.splitlines()))
    assert "twice" in str(refused(reading, content))


def test_semicolons_are_told(reading):
    assert "semicolons" in str(refused(reading, GOOD.replace(b",", b";")))


def test_a_short_row_is_told_with_the_other_problems(reading):
    lines = with_cell(4, "d_mm", "?").splitlines()
    lines[2] = b"V1,V2"
    first, second = refused(reading, b"\n".join(lines)).problems
    assert first.line == 3 and "2 cells" in first.wrong
    assert second.line == 6 and second.field == "d_mm"


def test_a_designation_that_stands_twice_is_refused(reading):
    first = GOOD.decode().splitlines()[1].split(",")[0]
    (problem,) = refused(reading, with_cell(3, "designation", first)).problems
    assert problem.line == 5 and f'"{first}" stands on line 2 already' in problem.wrong


@pytest.mark.parametrize(
    ("content", "wrong"),
    [
        (b"", "is empty"),
        (b"\n \n", "is empty"),
        (b"\xef\xbb\xbf", "no row"),
        (GOOD.splitlines()[0], "no row of data"),
        (b"\x89PNG\r\n\x1a\n\0\0", "zero byte"),
        (GOOD.decode().replace("metric", "métric").encode("latin-1"), "is not UTF-8"),
        (GOOD.decode().encode("utf-16"), "zero byte"),
        (GOOD.replace(b"metric", b'"met"ric', 1), "is not CSV"),
        (GOOD + b'"' + b"x" * 200_000, "is not CSV"),
    ],
    ids=["empty", "blank", "mark only", "header only", "picture", "latin-1", "utf-16", "quote", "huge cell"],
)
def test_files_that_are_no_catalogue(reading, content, wrong):
    found = refused(reading, content)
    assert wrong in str(found) and "mine.csv" in str(found)


@pytest.mark.parametrize("path", ["/nowhere/at/all.csv", "/", "a\0b.csv", Path("/nowhere/at/all.csv")], ids=ascii)
def test_paths_that_cannot_be_read(path):
    with pytest.raises(Problems, match="cannot be read"):
        read(path)


def test_all_problems_come_at_once_the_first_fifty_by_line(reading):
    catalogue = synthetic(200, 3)
    lines = [line.split(b",") for line in as_csv(catalogue).splitlines()]
    for line in lines[1:]:
        line[HEADERS.index("d_mm")] = line[HEADERS.index("Cr_N")] = b"x"
    found = refused(reading, b"\n".join(b",".join(line) for line in lines))
    assert len(found.problems) == 50 and found.more == 350
    assert [(problem.line, problem.field) for problem in found.problems[:3]] == [(2, "d_mm"), (2, "Cr_N"), (3, "d_mm")]
    assert str(found).splitlines()[-1] == "and 350 more"


def mutations():
    """Yield 300 broken or odd files out of the good one, the same every time."""
    chance = random.Random(20)
    odd = [
        b"nan",
        b"inf",
        b"-1",
        b"",
        b'"',
        b"\0",
        b"\x1b[31m",
        b"\xff",
        b"1e400",
        b"=1",
        b"x" * 140_000,
        b"\xe2\x80\xae",
    ]
    for _ in range(300):
        content = bytearray(GOOD)
        for _ in range(chance.choice((1, 1, 2, 5))):
            place = chance.randrange(len(content) + 1)
            match chance.randrange(8):
                case 0:
                    del content[place:]
                case 1:
                    content[place:place] = chance.randbytes(chance.randrange(1, 20))
                case 2:
                    content[place : place + 1] = bytes([chance.randrange(32)])
                case 3:
                    cells = bytes(content).split(b",")
                    cells[chance.randrange(len(cells))] = chance.choice(odd)
                    content = bytearray(b",".join(cells))
                case 4:
                    lines = bytes(content).splitlines(keepends=True)
                    lines.insert(chance.randrange(len(lines) + 1), chance.choice(lines or [b""]))
                    content = bytearray(b"".join(lines))
                case 5:
                    content = bytearray(b"\xef\xbb\xbf" + content)
                case 6:
                    content = content.replace(b"\n", chance.choice((b"\r\n", b"\r", b"\n\n", b"")))
                case 7:
                    del content[place : place + chance.randrange(40)]
        yield bytes(content)


def reads_or_names_problems(reading, content):
    """Return whether the file reads; a refusal must say what is wrong in printable lines."""
    try:
        c = reading(content)
    except Problems as found:
        lines = str(found).split("\n")
        return None if not found.problems or not all(line.isprintable() for line in lines) else False
    return all(np.all(np.isfinite(getattr(c, k.name))) for k in COLUMNS if k.required and k.kind != "text") or None


def test_three_hundred_mutated_files_read_or_are_refused_with_problems(reading):
    outcomes = [reads_or_names_problems(reading, content) for content in mutations()]
    assert len(outcomes) == 300 and None not in outcomes
    # both ends are met often, so that the test is not one of refusals only
    assert 20 < sum(outcomes) < 280


def test_one_row_makes_a_catalogue(reading):
    c = reading(b"\n".join(GOOD.splitlines()[:2]))
    assert len(c) == 1 and c.index_of(str(c.designation[0])) == 0
    assert len(c.take([0, 0])) == 2 and len(c.take([])) == 0 and len(c.take(c.d > 1e6)) == 0


def test_take_keeps_rows_whole_and_in_order():
    c = builtin()
    few = c.take([5, 3])
    assert few.designation.tolist() == [c.designation[5], c.designation[3]] and few.Cr[1] == c.Cr[3]


def test_an_unknown_designation_comes_with_the_nearest():
    with pytest.raises(Problems) as caught:
        builtin().index_of("V050-3D-C")
    assert caught.value.problems[0].nearest == "V050-3DB-C"
    assert builtin().designation[builtin().index_of("Q112.1+6")] == "Q112.1+6"


def test_columns_are_not_to_be_written_to():
    with pytest.raises(ValueError, match="read-only"):
        builtin().Cr[0] = 1.0


def test_columns_of_unequal_length_are_no_catalogue():
    columns = {column.name: getattr(builtin(), column.name) for column in COLUMNS}
    with pytest.raises(ValueError, match="one length"):
        Catalogue(**{**columns, "d": builtin().d[:3]})


def test_the_content_hash_follows_every_cell():
    c = synthetic(4, 2)
    columns = {column.name: getattr(c, column.name) for column in COLUMNS}
    seen = {c.content_hash()}
    for column in COLUMNS:
        values = columns[column.name].copy()
        values[2] = "other" if column.kind == "text" else values[2] * 1.001
        seen.add(Catalogue(**{**columns, column.name: values}).content_hash())
    assert len(seen) == len(COLUMNS) + 1


def test_the_content_hash_is_that_of_the_cells_as_documented():
    # sha256 worked out here from the documented order of bytes, of one row
    c = synthetic(1, 2)
    content = [",".join(HEADERS).encode()]
    for column in COLUMNS:
        (value,) = getattr(c, column.name).tolist()
        content.append(f"\n{value}\n".encode() if column.kind == "text" else struct.pack("<d", value))
    assert c.content_hash() == hashlib.sha256(b"".join(content)).hexdigest()


def test_texts_that_run_together_do_not_hash_the_same():
    first, second = synthetic(2, 2), synthetic(2, 2)
    columns = {column.name: getattr(first, column.name).copy() for column in COLUMNS}
    columns["cone"], columns["cup"] = np.array(["ab", "c"]), np.array(["x", "y"])
    other = {**columns, "cone": np.array(["a", "bc"])}
    assert Catalogue(**columns).content_hash() != Catalogue(**other).content_hash() != second.content_hash()


def test_the_built_in_catalogue_is_the_files_of_the_package():
    folder = files("catalogs")
    metric = read(folder.joinpath("metric.csv"))
    assert as_csv(metric) == folder.joinpath("metric.csv").read_bytes()
    assert builtin().content_hash() == join([metric, read_parts(folder)]).content_hash()


def test_what_was_estimated_is_carried_along_and_not_hashed():
    c = synthetic(4, 2)
    marked = dataclasses.replace(c, estimated=np.array([0, estimated_bit("Cu"), estimated_bit("E"), 0]))
    assert marked.is_estimated("Cu").tolist() == [False, True, False, False]
    assert marked.take([2, 1]).is_estimated("E").tolist() == [True, False]
    assert not c.is_estimated("E").any()
    rest = synthetic(9, 2).take([5, 6, 7])
    assert join([rest, marked]).is_estimated("Cu").tolist() == [False] * 4 + [True, False, False]
    assert marked.content_hash() == c.content_hash()


def test_catalogues_that_share_a_designation_are_not_joined():
    with pytest.raises(Problems, match="more than one catalogue"):
        join([builtin(), builtin().take([7])])


def test_every_column_is_declared_with_what_a_reader_needs():
    assert len(set(HEADERS)) == len(HEADERS)
    for column in COLUMNS:
        assert column.what and column.unit and column.accepted
        assert column.kind == "text" or column.least < column.greatest
        if column.unit != "-":
            assert column.header.endswith(f"_{column.unit}")
