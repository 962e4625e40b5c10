"""What spreadsheets do to a file: the same rows come out whatever they did."""

import numpy as np
import pytest

from engine.catalogue.columns import COLUMNS
from engine.catalogue.intake.check import check, load, opened
from engine.catalogue.intake.corrected import corrected
from engine.catalogue.intake.headers import recognised
from engine.catalogue.intake.numbers import Rule, converted
from engine.catalogue.read import read
from engine.errors import Problems
from tests.engine.catalogue.intake.files import content
from tests.house.tree import ROOT

PLAIN = content()
SEMICOLONS = PLAIN.replace(",", ";")
COMMAS = SEMICOLONS.replace(".", ",")
HABITS = {
    "as it is": PLAIN.encode(),
    "UTF-8 with a mark": PLAIN.encode("utf-8-sig"),
    "UTF-16 with a mark": PLAIN.encode("utf-16"),
    "UTF-16, high byte first": b"\xfe\xff" + PLAIN.encode("utf-16-be"),
    "semicolons": SEMICOLONS.encode(),
    "tabs": PLAIN.replace(",", "\t").encode(),
    "decimal commas": COMMAS.encode(),
    "decimal commas in quotes": "\n".join(
        ",".join(f'"{cell}"' for cell in line.split(";")) for line in COMMAS.strip().split("\n")
    ).encode(),
    "sep= line": b"sep=;\r\n" + COMMAS.encode(),
    "CR LF": PLAIN.replace("\n", "\r\n").encode(),
    "CR": PLAIN.replace("\n", "\r").encode(),
    "empty columns and rows at the end": PLAIN.replace("\n", ",,,\n").encode() + b",,,,,,\n" * 5 + b"\n\n",
    "no line end at the end": PLAIN.rstrip().encode(),
    "comments and blank lines": ("# mine, of \"today\n\n" + PLAIN.replace("\n", "\n# more\n\n")).encode(),
    "a title above": b"Bearings in stock,,,\n\n" + PLAIN.encode(),
    "thousands by comma": PLAIN.replace("67000", '"67,000.0"').replace("130400", '"130,400.0"').encode(),
    "thousands by point": COMMAS.replace("67000", "67.000,0").replace("130400", "130.400,0").encode(),
    "thousands by space": PLAIN.replace("67000", "67 000").replace("130400", "130\u00a0400").encode(),
    "thousands by apostrophe": PLAIN.replace("67000", "67'000").encode(),
    "units in the cells": PLAIN.replace(",19.75,", ",19.75 mm,").encode(),
    "spaces around": PLAIN.replace(",", " , ").encode(),
    "brackets": PLAIN.replace("_mm", " [mm]").replace("_N", " (N)").encode(),
    "Latin-1": ("# M\u00fcller\n" + PLAIN).encode("latin-1"),
}  # fmt: skip


@pytest.mark.parametrize("habit", HABITS)
def test_the_same_rows_come_out(tmp_path, habit):
    plain, own = tmp_path / "plain.csv", tmp_path / "own.csv"
    plain.write_text(PLAIN)
    own.write_bytes(HABITS[habit])
    assert check(own).clean, str(check(own))
    assert load(own)[0].content_hash() == load(plain)[0].content_hash()


def test_lines_are_those_of_the_file(tmp_path):
    path = tmp_path / "own.csv"
    path.write_text("# one\n" + content([("d", 2, "x")]).replace("P1,", '"P1",').replace("P2,", "\n# five\nP2,"))
    assert [problem.line for problem in check(path).left_out.listed] == [7]


def test_unquoted_decimal_commas_between_commas_are_explained(tmp_path):
    path = tmp_path / "own.csv"
    path.write_text(PLAIN.replace("19.75", "19,75"))
    (problem,) = check(path).left_out.listed
    assert (problem.line, "16 cells" in problem.wrong, "in quotes" in problem.accepted) == (2, True, True)


POINT, COMMA = frozenset("."), frozenset(",")
NONE: frozenset[str] = frozenset()


@pytest.mark.parametrize(
    ("cell", "column", "file", "value"),
    [
        ("12.5", NONE, NONE, 12.5), ("12,5", NONE, NONE, 12.5), ("12,50", POINT, POINT, 12.5),
        ("1.234,5", NONE, NONE, 1234.5),
        ("1,234.5", NONE, NONE, 1234.5), ("1,234,567", NONE, NONE, 1234567), ("1.234.567", NONE, NONE, 1234567),
        ("0,123", NONE, NONE, 0.123), ("1234,567", NONE, NONE, 1234.567), ("1 234,567", NONE, NONE, 1234.567),
        ("1'234.567", NONE, NONE, 1234.567), ("1.2e3", NONE, NONE, 1200), ("-1,5", NONE, NONE, -1.5),
        ("\u22121,5", NONE, NONE, -1.5), (",5", NONE, NONE, 0.5), ("1 3/8", NONE, NONE, 1.375),
        ("5/8", NONE, NONE, 0.625),
        # two readings: the column decides, else a point is one where the file has no decimal comma
        ("1,234", COMMA, COMMA, 1.234), ("1,234", POINT, POINT, 1234), ("1.234", POINT, POINT, 1.234),
        ("1.234", COMMA, COMMA, 1234), ("1.234", NONE, NONE, 1.234), ("1.234", NONE, POINT, 1.234),
        # the column proves nothing: the file decides, where it writes one sign only
        ("1,234", NONE, COMMA, 1.234), ("1.234", NONE, COMMA, 1234), ("1,234", NONE, POINT, 1234),
        ("1,234", NONE, NONE, None), ("1,234", NONE, POINT | COMMA, None), ("1.234", NONE, POINT | COMMA, None),
        ("1.234", COMMA, POINT | COMMA, 1234), ("1,234", POINT | COMMA, POINT | COMMA, None),
        ("1,2,3", NONE, NONE, None), ("1.2.3,4", NONE, NONE, None),
        ("12 34", NONE, NONE, None), ("1,23,456", NONE, NONE, None), ("5 kg", NONE, NONE, None),
        ("5 mm", NONE, NONE, 5),
        ("n/a", NONE, NONE, np.nan), ("-", NONE, NONE, np.nan), ("", NONE, NONE, np.nan),
    ],
)  # fmt: skip
def test_numbers(cell, column, file, value):
    values, wrong = converted([cell], Rule(column, file), ("mm",))
    assert bool(wrong) == (value is None)
    if value is not None:
        np.testing.assert_equal(values, [value])


def test_both_readings_are_named(tmp_path):
    path = tmp_path / "own.csv"
    path.write_text(COMMAS.replace("P1;40;", "P1;1,234;").replace("P2;50;90;", "P2;50;90.5;"))
    assert 'd_mm": "1,234" can be read as 1.234 or as 1234' in str(check(path))


THOUSANDS = """\
designation;d [mm];D [mm];T [mm];Cr [N];C0r [N];e
A;30;62;17,25;45.600;"52 100";0,375
B;40;80;19,75;67.000;79.700;0,375
C;100;180;37;245.000;330.000;0,42
"""


def test_one_decimal_comma_settles_the_points_of_the_other_columns(tmp_path):
    path = tmp_path / "own.csv"
    path.write_text(THOUSANDS)
    rows, notes = load(path)
    assert rows.Cr.tolist() == [45600, 67000, 245000]
    assert rows.C0r.tolist() == [52100, 79700, 330000]
    assert 'In the column "Cr [N]" a figure such as "45.600" is 45600: the file writes decimals with a comma.' in notes
    sheet, places, _ = opened(path)
    assert "Cr [N]: 45.600" in corrected(sheet, places).content.decode()


@pytest.mark.parametrize(
    ("old", "new"),
    [
        # a point that can only be a decimal one beside the comma: the file writes both
        ("62;", "62.5;"),
        # no decimals anywhere, so that a comma may group as well
        (THOUSANDS, "designation;d_mm;D_mm;T_mm;Cr_N;C0r_N;alpha_deg\nA;30;62;17;45,600;52,100;14\n"),
    ],
)
def test_a_file_that_settles_nothing_leaves_its_rows_out(tmp_path, old, new):
    path = tmp_path / "own.csv"
    path.write_text(THOUSANDS.replace(old, new))
    found = check(path)
    assert found.catalogue is None
    assert "can be read as" in str(found)


def test_the_rest_of_the_column_decides(tmp_path):
    path = tmp_path / "own.csv"
    path.write_text(COMMAS.replace("P1;40;", "P1;40,125;").replace("P2;50;", "P2;50,8;"))
    assert load(path)[0].d.tolist() == [40.125, 50.8, 60]


@pytest.mark.parametrize(
    ("header", "name", "unit"),
    [
        ("d_mm", "d", "mm"), ("D_mm", "D", "mm"), ("d_in", "d", "in"), ("D [IN]", "D", "in"), ("d [mm]", "d", "mm"),
        ("Cr (kN)", "Cr", "kN"), ("CR_KN", "Cr", "kN"), ("C0r_lbf", "C0r", "lbf"), ("mass_lb", "mass", "lb"),
        ("Mass kg", "mass", "kg"), ("alpha_deg", "alpha", "deg"), ("alpha [\u00b0]", "alpha", "deg"),
        ("n_grease_rpm", "n_grease", "rpm"), ("n grease (1/min)", "n_grease", "rpm"), ("t_mm", "T", "mm"),
        ("e", "e", "-"),
        ("y", "Y", "-"), ("Bore diameter [inch]", "d", "in"), ("outside\ndiameter / mm", "D", "mm"),
        ("C [mm]", "C", "mm"),
        ("C [kN]", "Cr", "kN"), ("C0 (N)", "C0r", "N"), ("max_temperature_degF", "max_temperature", "degF"),
        ("Z", "Z", "-"),
    ],
)  # fmt: skip
def test_headers(header, name, unit):
    found = recognised(header)
    assert found is not None and found[1] is not None
    assert (found[0].name, found[1].name) == (name, unit)


def test_every_canonical_header_is_recognised():
    for column in COLUMNS:
        found = recognised(column.header)
        assert found and found[1] and (found[0].name, found[1].factor) == (column.name, 1)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("B_mm", "d_in", 'column "d_in": names the same column as "d_mm"'),
        ("d_mm", "d", 'column "d": states no unit; accepted: one of d_mm, d_in'),
        ("Cr_N", "Crr_N", 'column "Cr_N": is missing, the file has "Crr_N"'),
        ("designation", "designatoin", 'is missing, the file has "designatoin"'),
    ],
)
def test_a_header_that_cannot_do_is_refused(tmp_path, old, new, says):
    path = tmp_path / "own.csv"
    path.write_text(PLAIN.replace(old, new, 1))
    with pytest.raises(Problems) as refused:
        check(path)
    assert says in str(refused.value)


def test_no_angle_at_all_is_refused(tmp_path):
    path = tmp_path / "own.csv"
    path.write_text("designation,d_mm,D_mm,T_mm,Cr_N,C0r_N\nP1,40,80,19.75,67000,79700\n")
    with pytest.raises(Problems, match="no column tells the contact angle; accepted: one of e, Y, alpha_deg"):
        check(path)


def test_unknown_headers_are_ignored_with_a_note(tmp_path):
    path = tmp_path / "own.csv"
    path.write_text(PLAIN.replace("mass_kg", "masss_kg").replace("n_oil_rpm", "n_oil"))
    notes = check(path).notes
    assert any('"masss_kg" is not known and is ignored. Did you mean "mass_kg"?' in note for note in notes)
    assert any('"n_oil" states no unit and is ignored' in note for note in notes)


def test_units_are_converted(tmp_path):
    # 1 in = 25.4 mm, 1 lbf = 4.4482216152605 N, 1 lb = 0.45359237 kg: by definition
    path = tmp_path / "own.csv"
    path.write_text(
        "designation,d_in,D_in,T_in,Cr_lbf,C0r_kN,e,mass_lb,max_temperature_degF\n"
        "P1,1 1/2,3 1/4,0.75,13000,60,0.4,1,302\n"
    )
    row, _ = load(path)
    got = [float(getattr(row, name)[0]) for name in ("d", "D", "T", "Cr", "C0r", "mass", "max_temperature")]
    np.testing.assert_allclose(got, [38.1, 82.55, 19.05, 57826.881, 60000, 0.45359237, 150], rtol=1e-9)
    assert row.system.tolist() == ["inch"]


def test_the_builtin_file_reads_as_by_the_reader_of_canonical_files():
    path = ROOT / "catalogs" / "metric.csv"
    own, _ = load(path)
    assert own.content_hash() == read(path).content_hash()
    assert not own.estimated.any()


def test_a_file_in_every_habit_opens_as_the_same_table(tmp_path):
    path = tmp_path / "own.csv"
    widths = set()
    for data in HABITS.values():
        path.write_bytes(data)
        sheet, places, _ = opened(path)
        widths.add((len(sheet), len(places)))
    assert widths == {(3, 15)}
