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


FULL = (
    "part;designation;series;d_mm;D_mm;T_mm;B_mm;C_mm;Cr_kN;C0r_kN;e;"
    "cost;availability;steel;tolerance;max_temperature_degC\n"
)
CONE = "cone;K;S;30;;17,25;16;;45,6;52,1;0,375;1;{};{};{};{}\n"
CUP = "cup;P;S;;62;;;14;;;;{};{};{};{};{}\n"


def assembly(tmp_path, cone, cup, cost="2"):
    found = checked(tmp_path, FULL + CONE.format(*cone) + CUP.format(cost, *cup))
    assert found.accepted == 1, str(found)
    return found.catalogue, "\n".join(found.notes)


@pytest.mark.parametrize(
    ("cone", "cup", "worse"),
    [
        ("stocked", "discontinued", "discontinued"),
        ("on_request", "stocked", "on_request"),
        ("discontinued", "on_request", "discontinued"),
        # as in the built-in range: what is not known may be on the shelf or not
        ("stocked", "", ""),
        ("On request", "stocked", "on_request"),
    ],
)
def test_an_assembly_is_no_easier_to_come_by_than_its_parts(tmp_path, cone, cup, worse):
    rows, _ = assembly(tmp_path, (cone, "", "", ""), (cup, "", "", ""))
    assert rows.availability.tolist() == [worse]


@pytest.mark.parametrize(
    ("cone", "cup", "worse", "told"),
    [
        ("case", "through", "through", True),
        ("through", "case", "through", True),
        ("case", "case", "case", False),
        ("case", "", "case", False),
    ],
)
def test_an_assembly_of_two_steels_has_the_more_cautious_one_and_says_so(tmp_path, cone, cup, worse, told):
    rows, notes = assembly(tmp_path, ("", cone, "", ""), ("", cup, "", ""))
    assert rows.steel.tolist() == [worse]
    assert ("different steel" in notes) == told


# ISO 492 from coarse to fine: Normal, 6X, 5, 4, 2; ANSI/ABMA 19.2: 4, 2, 3, 0, 00; 19.1: K, N, C, B, A (recalled)
@pytest.mark.parametrize(
    ("cone", "cup", "coarser"),
    [("3", "4", "4"), ("5", "Normal", "Normal"), ("0", "2", "2"), ("4", "2", "4"), ("C", "K", "K"), ("5", "4", "5")],
)
def test_an_assembly_has_the_coarser_class(tmp_path, cone, cup, coarser):
    rows, _ = assembly(tmp_path, ("", "", cone, ""), ("", "", cup, ""))
    assert rows.tolerance.tolist() == [coarser]


def test_classes_of_two_standards_have_no_order_and_are_refused(tmp_path):
    found = checked(tmp_path, FULL + CONE.format("", "", "Normal", "") + CUP.format(1, "", "", "K", ""))
    assert found.catalogue is None
    assert '"Normal with K" is not known' in str(found)


@pytest.mark.parametrize(
    ("cone", "cup", "lower", "estimated"),
    [("200", "150", 150, False), ("100", "", 100, False), ("200", "", 120, True), ("", "90", 90, False)],
)
def test_an_assembly_bears_the_lower_temperature(tmp_path, cone, cup, lower, estimated):
    rows, _ = assembly(tmp_path, ("", "", "", cone), ("", "", "", cup))
    assert rows.max_temperature.tolist() == [lower]
    assert rows.is_estimated("max_temperature").tolist() == [estimated]


@pytest.mark.parametrize(("cost", "total"), [("1 200,5", 1201.5), ("2.000", 2001), ("1.234,25", 1235.25), ("0,5", 1.5)])
def test_a_sum_is_made_of_figures_as_the_file_writes_them(tmp_path, cost, total):
    rows, _ = assembly(tmp_path, ("", "", "", ""), ("", "", "", ""), cost)
    assert rows.cost.tolist() == [total]


def test_a_cost_that_is_no_number_is_told_at_its_own_line(tmp_path):
    found = checked(tmp_path, FULL + CONE.format("", "", "", "") + CUP.format("dear", "", "", "", ""))
    assert [(problem.line, problem.field) for problem in found.left_out.listed] == [(2, "series"), (3, "cost")]
    assert '"dear" is not a number' in str(found)


def test_every_row_of_the_file_is_accounted_for(tmp_path):
    lone = "cup;P7;S7;;95;;;17;;;;0,25\n" + "cone;K8;S8;45;;21,75;20;;78,2;102,2;0,42;0,36\n"
    found = checked(tmp_path, HEADER + CONES + CUPS + lone + ASSEMBLY + "spacer;X;;;;;;;;;;\n")
    assert (found.accepted, found.left_out.rows, found.rows) == (5, 3, 8)
    words = str(found)
    assert "The 8 rows of the file: 3 cones, 3 cups, 1 assembly and 1 row of neither." in words
    assert "form 4 assemblies, 2 parts none" in words
    lines = {problem.line: problem.wrong for problem in found.left_out.listed}
    assert lines == {6: "no cone has this series", 7: "no cup has this series", 9: '"spacer" is no part'}


def test_a_part_without_a_series_fits_nothing(tmp_path):
    found = checked(
        tmp_path, HEADER + CONES + CUPS + "cup;P7;;;95;;;17;;;;0,25\ncone;K8;;45;;21,75;20;;78,2;102;0,42;\n"
    )
    assert found.accepted == 4
    assert str(found).count('column "series": is empty') == 2


def test_one_width_for_cups_of_several_is_doubted(tmp_path):
    wider = CUPS.replace("95;;;17", "95;;;15")
    told = "although the cups of the series differ in C"
    assert told in str(checked(tmp_path, HEADER + CONES + wider))
    assert told not in str(checked(tmp_path, HEADER + CONES + CUPS))


def test_shares_of_the_width_give_each_assembly_its_own(tmp_path):
    header = "part;designation;series;d_mm;D_mm;T1 [mm];T2_in;B_mm;C_mm;Cr_kN;C0r_kN;e\n"
    cone = "cone;K;S;50;;14,25;;20;;78,2;102,2;0,42\n"
    cups = "cup;P;S;;90;;0,5;;17;;;\ncup;Q;S;;90;;0,25;;15;;;\n"
    found = checked(tmp_path, header + cone + cups)
    # 14.25 mm and half an inch, 14.25 mm and a quarter of one
    assert found.catalogue.T.tolist() == [26.95, 20.6]
    assert "although" not in str(found)


def test_what_both_parts_state_and_differ_in_is_told(tmp_path):
    cups = CUPS.replace("cup;P1;S9;;90;;", "cup;P1;S9;;90;22;")
    found = checked(tmp_path, HEADER + CONES.replace("50;;", "50;91;") + cups)
    assert found.catalogue.D.tolist() == [90, 95, 90, 95]
    assert found.catalogue.T.tolist() == [21.75] * 4
    words = str(found)
    assert 'In 2 assemblies (first: cone of line 2, cup of line 4) both parts state "D [mm]"' in words
    assert 'both parts state "T [mm]" and differ: that of the cone counts' in words


def test_a_column_part_that_names_the_bearings_is_no_file_of_parts(tmp_path):
    text = "part;d_mm;D_mm;T_mm;Cr_kN;C0r_kN;e\nA-40;40;80;19,75;67,0;79,7;0,375\n"
    assert checked(tmp_path, text).catalogue.designation.tolist() == ["A-40"]
