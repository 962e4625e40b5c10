"""The file of steels: ranges that ISO 683-17 and handbooks give (recalled), and every problem of a bad file at once."""

import pytest

from engine.catalogue.materials import steels
from engine.errors import Problems
from engine.steel.grades import PROPERTIES

GOOD = """
[[steel]]
name = "{name}"
designation = "100Cr6"
treatment = "{treatment}"
ordinary = true
""" + "\n".join(f'{key} = {{{{ value = 10, source = "handbook" }}}}' for key in PROPERTIES)


def written(folder, text):
    path = folder / "steels.toml"
    path.write_text(text, "utf-8")
    return path


def test_values_lie_where_the_open_literature_has_them():
    """Rolling bearing steel has 58 to 64 HRC; cores of case-hardened rings are tougher than through-hardened ones."""
    grades = steels.builtin()
    for row in grades.rows:
        assert row.hardness.value >= 57 and row.hardness.value <= 64
        low, high = (50, 100) if row.treatment == "case" else (15, 35)
        assert low <= row.core_toughness.value <= high
        assert 100 <= row.temperature.value <= 350
    by = {name: [grades.rows[place] for place in grades.of_treatment(name)] for name in ("through", "case")}
    assert max(row.core_toughness.value for row in by["through"]) < min(row.core_toughness.value for row in by["case"])
    assert max(row.hoop.value for row in by["through"]) < min(row.hoop.value for row in by["case"])


def test_stabilised_rings_have_less_to_grow_by_and_are_softer():
    grades = steels.builtin()
    for name in ("through", "case"):
        rows = [grades.rows[place] for place in grades.of_treatment(name)]
        plain = [row for row in rows if row.ordinary]
        for row in rows:
            if "stabilised" in row.name:
                assert all(row.austenite.value < one.austenite.value for one in plain)
                assert all(row.temperature.value > one.temperature.value for one in plain)
                assert all(row.hardness.value <= one.hardness.value for one in plain)


def test_every_value_says_where_it_comes_from():
    known = {"standard", "handbook", "literature", "common practice"}
    for row in steels.builtin().rows:
        assert {getattr(row, name).source for name in PROPERTIES} <= known


def test_a_file_of_ones_own(tmp_path):
    text = GOOD.format(name="mine", treatment="case") + GOOD.format(name="other", treatment="through")
    assert [row.name for row in steels.read(written(tmp_path, text)).rows] == ["mine", "other"]


BAD = {
    "nothing": ("", "there is no steel"),
    "no toml": ("[[steel", "cannot be read"),
    "no table": ("steel = 3", "there is no steel"),
    "one treatment": (GOOD.format(name="x", treatment="case"), 'none is of treatment "through"'),
    "another treatment": (GOOD.format(name="x", treatment="nitrided"), "accepted: through or case"),
    "no name": (GOOD.format(name="", treatment="case"), "steel[0].name"),
    "misspelt": (GOOD.format(name="x", treatment="case").replace("hoop =", "hop ="), 'did you mean "hoop"?'),
    "missing": (GOOD.format(name="x", treatment="case").replace("hoop =", "hop ="), "steel[0].hoop: is missing"),
    "a word": (GOOD.format(name="x", treatment="case").replace("= 10", '= "ten"'), "steel[0].wear: this will not do"),
    "endless": (GOOD.format(name="x", treatment="case").replace("= 10", "= inf"), "steel[0].cost: this will not do"),
    "without source": (
        GOOD.format(name="x", treatment="case").replace(', source = "handbook"', ""), "steel[0].wall: this will not do",
    ),
}  # fmt: skip


@pytest.mark.parametrize(("text", "told"), BAD.values(), ids=BAD)
def test_what_is_wrong_is_said(tmp_path, text, told):
    with pytest.raises(Problems) as raised:
        steels.read(written(tmp_path, text))
    assert told in str(raised.value)


def test_all_problems_in_one_go(tmp_path):
    with pytest.raises(Problems) as raised:
        steels.read(written(tmp_path, "[[steel]]\n[[steel]]\nname = 3"))
    assert len(raised.value.problems) == 2 * (4 + len(PROPERTIES))


def test_no_file(tmp_path):
    with pytest.raises(Problems):
        steels.read(tmp_path / "none.toml")
