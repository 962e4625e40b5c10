"""A table of lubricants: read whole, or refused with every mistake in it named by file, line and key."""

import numpy as np
import pytest
from chemicals import viscosity_index
from hypothesis import given
from hypothesis import strategies as st

from engine.catalogue.lubricants.read import builtin, named, parse, read
from engine.errors import Problems
from engine.lubrication.lubricant import BASES
from engine.lubrication.viscosity import kinematic_viscosity_full

GOOD = """# mine
[[lubricant]]
name = "gear oil"
form = "oil"
base = "mineral"
iso_vg = 150
vi = 95
density_15_kg_m3 = 888
least_degC = -15
greatest_degC = 100

[[lubricant]]
name = "my grease"
form = "grease"
base = "pao"
nu40_mm2_s = 46.0
nu100_mm2_s = 7.9
density_15_kg_m3 = 832
ep = true
least_degC = -40
greatest_degC = 140
nlgi = 2
thickener = "lithium complex soap"
bleed = "medium"
"""


def problems(text):
    with pytest.raises(Problems) as found:
        parse(text if isinstance(text, bytes) else text.encode(), "mine.toml")
    return found.value.problems


def test_a_good_table():
    oil, grease = parse(GOOD.encode())
    assert (oil.nu40, oil.VG, oil.VI, oil.ep, oil.nlgi) == (150, 150, 95, False, None)
    # outside reference for the index: the library `chemicals`
    assert viscosity_index(150e-6, oil.nu100 * 1e-6, rounding=False) == pytest.approx(95, abs=0.3)
    assert (grease.nu40, grease.nu100, grease.VG, grease.nlgi, grease.ep) == (46, 7.9, None, 2, True)
    assert named((oil, grease), "my grease") is grease
    with pytest.raises(Problems, match="gear oil"):
        named((oil, grease), "gear oils")


def test_a_thin_grade_is_its_mid_point_and_states_both_viscosities_where_no_index_is_known():
    thin = GOOD.replace("iso_vg = 150", "iso_vg = 7")
    # ISO 3448 (recalled): the mid-point of VG 7 is 6.8 mm2/s; the index is computed back by `chemicals`
    (oil, _) = parse(thin.encode())
    assert oil.nu40 == 6.8
    assert viscosity_index(6.8e-6, oil.nu100 * 1e-6, rounding=False) == pytest.approx(95, abs=3)
    (no_index,) = problems(GOOD.replace("iso_vg = 150", "iso_vg = 3"))
    assert (no_index.line, no_index.field) == (7, "lubricant[0].vi") and "nu100_mm2_s" in no_index.accepted
    (oil, _) = parse(GOOD.replace("iso_vg = 150\nvi = 95", "nu40_mm2_s = 3.2\nnu100_mm2_s = 1.25").encode())
    assert (oil.nu40, oil.nu100) == (3.2, 1.25)


@pytest.mark.parametrize(
    ("old", "new", "line", "field", "says"),
    [
        ('base = "mineral"', 'base = "minerl"', 5, "lubricant[0].base", 'did you mean "mineral"?'),
        ("iso_vg = 150", "iso_vg = 151", 6, "lubricant[0].iso_vg", "one of 2, 3, 5, 7, 10, 15, 22"),
        ("vi = 95", 'vi = "95"', 7, "lubricant[0].vi", "a number from -100 to 400"),
        ("vi = 95", "nu100_mm2_s = 14", 2, "lubricant[0]", "not stated once"),
        ("iso_vg = 150\n", "iso_vg = 10\n", None, "", ""),
        ("density_15_kg_m3 = 888", "density_15_kg_m3 = 0.888", 8, "lubricant[0].density_15_kg_m3", "from 700"),
        ("density_15_kg_m3 = 888\n", "", 2, "lubricant[0].density_15_kg_m3", "is missing"),
        ("density_15_kg_m3 = 888", "density_15_kg_m3 = nan", 8, "lubricant[0].density_15_kg_m3", "cannot stand"),
        ("least_degC = -15", "least_degC = 115", 9, "lubricant[0].least_degC", "is not below"),
        ("least_degC = -15", "leest_degC = -15", 9, "lubricant[0].leest_degC", 'did you mean "least_degC"?'),
        ('name = "my grease"', 'name = "gear oil"', 13, "lubricant[1].name", "earlier entry"),
        ("nu100_mm2_s = 7.9", "nu100_mm2_s = 79", 17, "lubricant[1].nu100_mm2_s", "is not below"),
        ("ep = true", "ep = 1", 19, "lubricant[1].ep", "true or false"),
        ("nlgi = 2\n", "", 12, "lubricant[1].nlgi", "is missing"),
        ('form = "grease"', 'form = "oil"', 22, "lubricant[1].nlgi", "is stated of an oil"),
        ('name = "gear oil"', 'name = "gear\\u001boil"', 3, "lubricant[0].name", "\\x1b"),
    ],
)
def test_what_is_wrong_is_named(old, new, line, field, says):
    text = GOOD.replace(old, new, 1)
    assert text != GOOD
    if not field:
        assert parse(text.encode())
        return
    found = [problem for problem in problems(text) if problem.field == field]
    assert found and found[0].line == line and found[0].path == "mine.toml"
    assert says in str(found[0])


def test_everything_wrong_comes_at_once():
    text = GOOD.replace('"mineral"', '"x"').replace("ep = true", "ep = 1").replace("nlgi = 2", "nlgi = 9")
    assert [problem.line for problem in problems(text)] == [5, 19, 22]


@pytest.mark.parametrize(
    ("content", "line", "says"),
    [
        (b"", None, "no entry"),
        (b"x = 1", None, "is not known"),
        (b"lubricant = 3", None, "no entry"),
        (b"[[lubricant]]\nname = ,\n", 2, "not TOML"),
        (b"# \xff", 1, "not UTF-8"),
        (b"lubricant = " + b"[" * 5000, None, ""),
        (b"[[lubricant]]\n" * 2001, None, "more than 2000"),
    ],
)
def test_what_is_no_table(content, line, says):
    found = problems(content)
    assert says in str(found[0]) or says in str(found[-1])
    assert line is None or found[0].line == line


def test_files_that_cannot_be_read(tmp_path):
    for path in (tmp_path / "none.toml", tmp_path, str(tmp_path / "a\0b")):
        with pytest.raises(Problems, match="cannot be read"):
            read(path)
    large = tmp_path / "large.toml"
    large.write_bytes(b"#" * 1_000_002)
    with pytest.raises(Problems, match="larger"):
        read(large)


def read_or_refused(content):
    try:
        return parse(content)
    except Problems as refused:
        return str(refused)


@given(st.binary(max_size=60))
def test_any_bytes_are_read_or_refused(content):
    for whole in (content, GOOD.encode()[:200] + content, GOOD.encode() + content):
        assert read_or_refused(whole)


def test_the_generic_table():
    table = builtin()
    assert {lubricant.base for lubricant in table} == set(BASES)
    assert {lubricant.form for lubricant in table} == {"oil", "grease"}
    for lubricant in table:
        # outside reference: the library `chemicals` finds the stated index back from both viscosities
        index = viscosity_index(lubricant.nu40 * 1e-6, lubricant.nu100 * 1e-6, rounding=False)
        assert index == pytest.approx(lubricant.VI, abs=0.3), lubricant.name
        assert not np.isnan(kinematic_viscosity_full(lubricant.T_greatest, lubricant.nu40, lubricant.nu100))
        # PAG is heavier than water, PAO the lightest: any table of base oils
        assert {"pag": lubricant.rho15 > 1000, "pao": lubricant.rho15 < 870}.get(lubricant.base, True)
