"""Each contradiction: the line and column it is told at, the cause that is suspected, the value that would fit."""

import numpy as np
import pytest

from engine.catalogue.intake.check import check, load, opened
from engine.catalogue.intake.corrected import corrected
from tests.engine.catalogue.intake.files import HEADER, ROWS, content


def scaled(factor):
    return lambda cell: f"{float(cell) * factor:.9g}"


def checked(tmp_path, changes, header=HEADER):
    path = tmp_path / "own.csv"
    path.write_text(content(changes, header))
    return check(path)


def test_the_sound_file_is_clean(tmp_path):
    found = checked(tmp_path, [])
    assert found.clean and found.accepted == 3 and not found.columns_wrong, str(found)


#: changed cells of the second row, what the finding says, a value that it names, whether the row is left out
CASES = {
    "bore above outside diameter": ([("d", 1, "90"), ("D", 1, "50")], "d_mm and D_mm are swapped", "50 in d_mm", True),
    "bore above outside diameter, not swapped": ([("d", 1, "95")], "D/d", "1.05 to 5", True),
    "B and C swapped": ([("B", 1, "17"), ("C", 1, "20")], "B_mm and C_mm are swapped", "20 in B_mm", True),
    "ratings swapped": (
        [("Cr", 1, "102000"), ("C0r", 1, "70000")], "Cr_N and C0r_N are swapped", "70000 in Cr_N", False,
    ),
    "e and Y swapped": ([("e", 1, "1.43"), ("Y", 1, "0.42")], "e and Y are swapped", "0.42 in e", True),
    "speeds swapped": ([("n_grease", 1, "5700"), ("n_oil", 1, "3600")], "are swapped", "3600 in n_grease_rpm", False),
    "kN given as N": ([("Cr", 1, "78.2"), ("C0r", 1, "102")], "kN given as N", "78200 in Cr_N", True),
    "kN given as N, only Cr": ([("Cr", 1, "78.2")], "kN given as N", "78200 in Cr_N", True),
    "lbf given as N": ([("Cr", 1, "17580"), ("C0r", 1, "22930")], "lbf given as N", "in Cr_N", True),
    "inch given as mm": (
        [
            ("d", 1, "1.9685"), ("D", 1, "3.5433"), ("T", 1, "0.8563"), ("B", 1, "0.7874"), ("C", 1, "0.6693"),
            ("a", 1, "0.126"),
        ],
        "inch given as mm", "49.9999 in d_mm", True,
    ),
    "inch given as mm, only T": ([("T", 1, "0.8563")], "inch given as mm", "21.75 in T_mm", True),
    "g given as kg": ([("mass", 1, "526")], "g given as kg", "0.526 in mass_kg", True),
    "lb given as kg": ([("mass", 1, "1.16")], "lb given as kg", "in mass_kg", True),
    "radians given as degrees": ([("alpha", 1, "0.273")], "rad given as deg", "15.64", True),
    "included angle": ([("alpha", 1, "31.2844")], "the included angle of the cup", "15.6422 in alpha_deg", True),
    "Y against e and alpha": ([("Y", 1, "1.7")], "Y over 0.4 cot(alpha)", "1.43 would fit", False),
    "e against Y and alpha": ([("e", 1, "0.37")], "e over 1.5 tan(alpha)", "0.42 would fit", False),
    "Y against e without alpha": ([("alpha", 1, ""), ("Y", 1, "1.7")], "Y e over 0.6", "1.43 would fit", False),
    "Cr against size": ([("Cr", 1, "782000"), ("C0r", 1, "1020000")], "Cr over the dynamic rating", "would fit", True),
    "C0r against Cr": ([("C0r", 1, "50000")], "C0r over Cr is 0.639", "would fit", False),
    "a from the cup back face": ([("a", 1, "18.5")], "measured from the cup back face", "3.25 in a_mm", True),
    "a against angle and width": ([("a", 1, "10")], "load line", "would fit", False),
}  # fmt: skip


@pytest.mark.parametrize("case", CASES)
def test_a_contradiction_is_explained(tmp_path, case):
    changes, cause, fits, left_out = CASES[case]
    found = checked(tmp_path, changes)
    findings, other = (found.left_out, found.warned) if left_out else (found.warned, found.left_out)
    assert (findings.rows, other.rows) == (1, 0), str(found)
    text = "\n".join(map(str, findings.listed))
    assert {problem.line for problem in findings.listed} == {3}
    assert cause in text and fits in text, text
    # one cause is told once; where none is known, each figure speaks for itself
    assert len(findings.listed) == (2 if case == "Cr against size" else 1), text


def test_N_given_as_kN(tmp_path):
    header = [name.replace("_N", "_kN") for name in HEADER]
    found = checked(tmp_path, [], header)
    assert found.accepted == 0 and "N given as kN" in str(found)
    assert [one.words for one in found.columns_wrong] == ["N given as kN"]


#: ISO 355 (recalled): r1s min and r3s min of these three boundary rows.
CHAMFERED = tuple(
    [*row, r1, r3] for row, (r1, r3) in zip(ROWS, (("1.5", "1.5"), ("1.5", "1.5"), ("2", "1.5")), strict=True)
)


@pytest.mark.parametrize(
    ("changes", "says", "left_out"),
    [([], "", 0), ([("r_cone", 1, "15")], "chamfer of the cone over the section height", 1),
     ([("r_cup", 1, "6")], "chamfer of the cup over the section height", 0),
     ([("r_cone", 1, "0.059")], "inch given as mm", 0), ([("r_cone", 1, "")], "", 0)],
    ids=["sound", "ten times", "four times", "in inches", "not known"],
)  # fmt: skip
def test_a_chamfer_against_the_section(tmp_path, changes, says, left_out):
    path = tmp_path / "own.csv"
    # the helper knows columns by the name before the unit
    path.write_text(content(changes, [*HEADER, "r_cone_mm", "r_cup_mm"], CHAMFERED).replace("r_cone_mm", "r1 [mm]", 1))
    found = check(path)
    assert found.left_out.rows == left_out and found.warned.rows == bool(says) - left_out
    assert says in str(found)
    assert found.catalogue.r_cup[0] == 1.5
    assert not found.catalogue.is_estimated("r_cone").any()


def copy_of(tmp_path, changes, header=HEADER):
    path, copy = tmp_path / "own.csv", tmp_path / "copy.csv"
    path.write_text(content(changes, header))
    before = path.read_bytes()
    sheet, places, _ = opened(path)
    copy.write_bytes(corrected(sheet, places).content)
    assert path.read_bytes() == before
    return copy


EVERY_ROW = {
    "kN given as N": ([("Cr", None, scaled(0.001)), ("C0r", None, scaled(0.001))], HEADER),
    "N given as kN": ([], [name.replace("_N", "_kN") for name in HEADER]),
    "inch given as mm": ([(name, None, scaled(1 / 25.4)) for name in ("d", "D", "T", "B", "C", "a")], HEADER),
    "mm given as inch": ([], [name.replace("_mm", "_in") for name in HEADER]),
    "g given as kg": ([("mass", None, scaled(1000))], HEADER),
    "included angle": ([("alpha", None, scaled(2))], HEADER),
    "d and D swapped": ([], [{"d_mm": "D_mm", "D_mm": "d_mm"}.get(name, name) for name in HEADER]),
    "B and C swapped": ([], [{"B_mm": "C_mm", "C_mm": "B_mm"}.get(name, name) for name in HEADER]),
    "a from the cup back face": ([("a", 0, "15.95"), ("a", 1, "18.55"), ("a", 2, "23.95")], HEADER),
}


@pytest.mark.parametrize("case", EVERY_ROW)
def test_what_every_row_shows_is_corrected_in_the_copy(tmp_path, case):
    sound = tmp_path / "sound.csv"
    sound.write_text(content())
    copy = copy_of(tmp_path, *EVERY_ROW[case])
    assert check(copy).clean, str(check(copy))
    got, want = load(copy)[0], load(sound)[0]
    for name in ("d", "D", "T", "B", "C", "Cr", "C0r", "alpha", "a", "mass"):
        np.testing.assert_allclose(getattr(got, name), getattr(want, name), rtol=1e-6)
    lines = copy.read_text().splitlines()
    assert lines[0].endswith(",changed") and all(not line.endswith(",") for line in lines[1:])


TWO_AT_ONCE = {
    "inch and kN": [
        *((name, None, scaled(1 / 25.4)) for name in ("d", "D", "T", "B", "C", "a")),
        *((name, None, scaled(0.001)) for name in ("Cr", "C0r")),
    ],
    "kN and grams": [
        *((name, None, scaled(0.001)) for name in ("Cr", "C0r")),
        ("mass", None, scaled(1000)),
    ],
}


@pytest.mark.parametrize("case", [*EVERY_ROW, *TWO_AT_ONCE])
def test_check_and_copy_name_the_same_corrections(tmp_path, case):
    path = tmp_path / "own.csv"
    path.write_text(content(*(EVERY_ROW[case] if case in EVERY_ROW else (TWO_AT_ONCE[case],))))
    sheet, places, _ = opened(path)
    found, copy = check(path), corrected(sheet, places)
    assert found.columns_wrong == copy.corrections != ()
    assert (copy.rows, copy.left_out) == (3, 0)
    # nothing else is suspected of any row, and the copy says the same in each
    suspected = {str(one.wrong).partition("suspected: ")[2] for one in (*found.left_out.listed, *found.warned.listed)}
    assert suspected == {one.words for one in found.columns_wrong}
    for line in copy.content.decode().splitlines()[1:]:
        assert all(one.words in line for one in copy.corrections)


def test_what_is_wrong_in_one_row_is_told_as_the_mended_columns_leave_it(tmp_path):
    inches = [(name, None, scaled(1 / 25.4)) for name in ("d", "D", "T", "B", "C", "a")]
    found = checked(tmp_path, [*inches, ("Cr", 1, "782000")])
    told = [one for one in (*found.left_out.listed, *found.warned.listed) if "inch" not in one.wrong]
    assert {one.line for one in told} == {3}
    assert {one.field for one in told} == {"Cr_N", "C0r_N"}
    assert [one.words for one in found.columns_wrong] == ["inch given as mm"]


@pytest.mark.parametrize(
    ("changes", "figure"),
    [
        # common practice, no source: cones rarely reach so far beyond the width, cups are rarely so narrow
        ([("B", 1, "27"), ("a", 1, "")], "B/T"),
        ([("C", 1, "6"), ("B", 1, ""), ("a", 1, "")], "C/T"),
    ],
)
def test_an_unusual_width_is_kept_with_a_warning(tmp_path, changes, figure):
    found = checked(tmp_path, changes)
    assert (found.accepted, found.warned.rows) == (3, 1), str(found)
    assert all(one.line == 3 for one in found.warned.listed)
    assert any(figure in one.wrong for one in found.warned.listed)


@pytest.mark.parametrize("case", ["kN given as N", "d and D swapped", "g given as kg", "included angle"])
def test_what_one_row_shows_is_left_as_it_is_and_left_out(tmp_path, case):
    changes = {
        "kN given as N": [("Cr", 1, "78.2"), ("C0r", 1, "102")],
        "d and D swapped": [("d", 1, "90"), ("D", 1, "50")],
        "g given as kg": [("mass", 1, "526")],
        "included angle": [("alpha", 1, "31.2844")],
    }[case]
    copy = copy_of(tmp_path, changes)
    assert load(copy)[0].designation.tolist() == ["P1", "P3"]


def test_estimates_stay_out_of_the_copy(tmp_path):
    copy = copy_of(tmp_path, [("mass", None, ""), ("B", None, "")])
    got, _ = load(copy)
    assert got.is_estimated("mass").all() and got.is_estimated("B").all() and not got.is_estimated("C").any()
