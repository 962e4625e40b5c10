"""Whatever a file holds, it is taken or refused in words: no other exception, no raw control byte, bounded memory."""

import tracemalloc

import pytest

from engine.catalogue.intake.check import check, load, opened
from engine.catalogue.intake.corrected import corrected
from engine.errors import Problems
from tests.engine.catalogue.intake.files import content, mutated


def look_at(path):
    """Check a file in every way; return whether anything of it was taken."""
    try:
        found = check(path)
    except Problems as problems:
        shown = str(problems)
        assert all(line.isprintable() and len(line) < 4000 for line in shown.splitlines()) and shown
        return False
    assert all(line.isprintable() and len(line) < 4000 for line in str(found).split("\n"))
    assert 0 <= found.accepted <= found.rows
    assert (found.catalogue is None) == (found.accepted == 0)
    sheet, places, _ = opened(path)
    copy = corrected(sheet, places).content.decode()
    assert all(line.isprintable() for line in copy.split("\n"))
    try:
        assert len(load(path)[0]) == found.accepted
    except Problems:
        assert not found.accepted
    return bool(found.accepted)


def test_mutated_files(tmp_path):
    path = tmp_path / "own.csv"
    taken = 0
    for seed in range(500):
        path.write_bytes(mutated(seed))
        taken += look_at(path)
    # the mutations are neither so mild nor so wild that one outcome hides the other
    assert 50 < taken < 450


@pytest.mark.parametrize(
    ("data", "says"),
    [
        pytest.param(b"", "is empty", id="empty"),
        pytest.param(b"\xef\xbb\xbf", "no header that is known", id="only a byte order mark"),
        pytest.param(b" \r\n\t\r\n", "is empty", id="only white space"),
        pytest.param(bytes(range(256)) * 40, "zero byte", id="binary"),
        pytest.param(content().encode("utf-16")[:-1], "not whole UTF-16", id="UTF-16 cut in a character"),
        pytest.param(content().encode("utf-16-le"), "zero byte", id="UTF-16 without a mark"),
        pytest.param(content().encode() + b'"' + b"x" * 10_000_000, "is not CSV", id="10 MB in one cell"),
        pytest.param(content().encode() + b'P9,"40,80\n', "is not CSV", id="a quote that is never closed"),
        pytest.param(content().split("\n")[0].encode(), "no row of data", id="a header alone"),
        pytest.param(b"x,q,r\n1,2,3\n", "no header that is known", id="another table"),
        pytest.param(b"designation," * 300 + b"\n" + b"x\n", "300 columns", id="hundreds of columns"),
    ],
)
def test_a_file_that_is_no_catalogue_is_refused(tmp_path, data, says):
    path = tmp_path / "own.csv"
    path.write_bytes(data)
    with pytest.raises(Problems) as refused:
        check(path)
    assert says in str(refused.value)


@pytest.mark.parametrize(
    ("cell", "says"),
    [
        ("=1+2", "as a formula"),
        ("@SUM(A1)", "as a formula"),
        ("\x1b[31mred", "\\x1b[31mred"),
        ("x" * 61, "61 characters long"),
        ("P1", "stands on line 2 already"),
        ("", "is empty"),
        ("\u202ex", "\\u202ex"),
    ],
)
def test_a_hostile_designation_leaves_its_row_out(tmp_path, cell, says):
    path = tmp_path / "own.csv"
    path.write_text(content([("designation", 1, cell)]), "utf-8")
    found = check(path)
    assert (found.accepted, found.left_out.rows) == (2, 1)
    (problem,) = found.left_out.listed
    assert (problem.line, problem.field) == (3, "designation") and says in problem.wrong


@pytest.mark.parametrize(
    "cell", ["nan", "NaN", "inf", "-inf", "1e999", "1_000", "0x10", "=40", "\u0664\u0660", "4 0", "1/0"]
)
def test_what_is_no_number_leaves_its_row_out(tmp_path, cell):
    path = tmp_path / "own.csv"
    path.write_text(content([("d", 1, cell)]), "utf-8")
    found = check(path)
    assert (found.accepted, found.left_out.rows) == (2, 1)
    assert (found.left_out.listed[0].line, found.left_out.listed[0].field) == (3, "d_mm")


def test_too_many_rows_are_refused(tmp_path):
    path = tmp_path / "own.csv"
    path.write_text("designation,d_mm\n" + "x,1\n" * 200_001)
    with pytest.raises(Problems, match="more than can be taken in"):
        check(path)


def test_memory_stays_bounded(tmp_path):
    path = tmp_path / "own.csv"
    path.write_bytes(content().encode() + b"\n".join([b"#" + b"y" * 1000] * 10_000) + b'\n"' + b"x" * 10_000_000)
    tracemalloc.start()
    with pytest.raises(Problems):
        check(path)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    # 20 MB of file, decoded once for the look at its encoding, and one line of 10 MB
    assert peak < 120e6


def test_what_is_listed_is_bounded(tmp_path):
    path = tmp_path / "own.csv"
    row = content().split("\n")[1]
    path.write_text(content().split("\n")[0] + "\n" + "".join(f"N{i},x{row[2:]}\n" for i in range(5000)))
    found = check(path)
    assert found.left_out.rows == 5000 and len(str(found).splitlines()) < 70
