"""Cones and cups on rows of their own; the expected assemblies are written out by hand."""

import numpy as np
import pytest

from engine.catalogue.intake.check import check
from engine.errors import Problems

HEADER = "part;designation;series;d [mm];D [mm];T [mm];B [mm];C [mm];Cr [kN];C0r [kN];e;mass [kg]\n"
CONES = "cone;K1;S9;50;;21,75;20;;78,2;102,2;0,42;0,33\ncone;K2;S9;45;;21,75;20;;78,2;102,2;0,42;0,36\n"
CUPS = "cup;P1;S9;;90;;;17;;;;0,2\ncup;P2;S9;;95;;;17;;;;0,25\n"
ASSEMBLY = ";A-40;;40;80;19,75;18;16;67,0;79,7;0,375;0,409\n"


def checked(tmp_path, text):
    path = tmp_path / "own.csv"
    path.write_text(text)
    return check(path)


def test_every_cone_meets_every_cup_of_its_series(tmp_path):
    rows = checked(tmp_path, HEADER + CONES + CUPS + ASSEMBLY).catalogue
    assert rows.designation.tolist() == ["K1 + P1", "K1 + P2", "K2 + P1", "K2 + P2", "A-40"]
    assert rows.cone.tolist()[:4] == ["K1", "K1", "K2", "K2"]
    assert rows.cup.tolist()[:4] == ["P1", "P2", "P1", "P2"]
    assert rows.d.tolist() == [50, 50, 45, 45, 40]
    assert rows.D.tolist() == [90, 95, 90, 95, 80]
    np.testing.assert_allclose(rows.mass, [0.53, 0.58, 0.56, 0.61, 0.409])
    assert rows.listed.tolist() == ["formed"] * 4 + ["listed"]
    assert not rows.is_estimated("D").any()


@pytest.mark.parametrize(
    ("row", "line", "words"),
    [
        ("cone;K3;S7;45;;21,75;20;;78,2;102,2;0,42;0,36\n", 6, "no cup has this series"),
        ("spacer;X;S9;1;;;;;;;;\n", 6, '"spacer" is no part'),
        ("\x1b[31m;X;S9;1;;;;;;;;\n", 6, r'"\x1b[31m" is no part'),
    ],
)
def test_a_part_that_forms_nothing_is_left_out_by_its_line(tmp_path, row, line, words):
    found = checked(tmp_path, HEADER + CONES + CUPS + row)
    assert (found.accepted, found.left_out.rows) == (4, 1)
    (problem,) = found.left_out.listed
    assert problem.line == line
    assert words in str(problem)


def test_each_ring_brings_its_own_chamfer(tmp_path):
    header = HEADER.replace("\n", ";r_cone_mm;r_cup_mm\n")
    cones = CONES.replace("\n", ";1,5;\n")
    cups = CUPS.replace("0,2\n", "0,2;;1,5\n").replace("0,25\n", "0,25;;1\n")
    rows = checked(tmp_path, header + cones + cups).catalogue
    assert rows.r_cone.tolist() == [1.5] * 4
    assert rows.r_cup.tolist() == [1.5, 1, 1.5, 1]


def test_parts_without_a_series_are_refused(tmp_path):
    with pytest.raises(Problems, match='none called "series"'):
        checked(tmp_path, "part;designation;d_mm;D_mm;T_mm;Cr_N;C0r_N;e\ncone;K;50;;20;80000;90000;0,4\n")


def test_two_parts_of_one_name_are_told(tmp_path):
    found = checked(tmp_path, HEADER + CONES + CUPS + CUPS)
    assert found.left_out.rows
