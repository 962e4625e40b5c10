"""A lubricant of the user's own list: checked when it is read, and kept in the record with all that it states."""

import json

import jsonschema
import pytest

from engine import api
from engine.answers.document import Answers, get, put
from engine.answers.lubricated.own import offered, own
from engine.answers.plain import from_plain, to_plain
from engine.answers.resolved import resolve
from engine.catalogue.lubricants.read import builtin
from engine.errors import Problems
from engine.record import schema
from engine.record.document import Record
from engine.record.read import parse
from engine.record.write import to_text
from tests.engine.catalogue.lubricants.test_read import GOOD

PATH = "lubrication.lubricant"


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "plant.toml"
    path.write_text(GOOD)
    return path


@pytest.fixture
def oil(file):
    return own(file)[0]


def with_oil(oil):
    return put(put(Answers(), "lubrication.supply", "bath"), PATH, oil)


def test_its_figures_are_those_of_the_file_and_say_so(oil):
    wet = resolve(with_oil(oil)).lubricated
    assert (wet.lubricant.name, wet.lubricant.nu40, wet.lubricant.rho15) == ("gear oil", 150.0, 888.0)
    assert (wet.lubricant.T_least, wet.lubricant.T_greatest) == (-15.0, 100.0)
    assert wet.named and wet.source == "lubricant list of your own, plant.toml"


def test_a_record_holds_it_whole_and_reads_the_same_without_the_file(oil, file):
    before = with_oil(oil)
    text = to_text(Record(before), None)
    file.unlink()
    assert parse(text.encode()).answers == before
    assert "[answers.lubrication.lubricant]" in text and 'file = "plant.toml"' in text
    assert resolve(parse(text.encode()).answers).lubricated == resolve(before).lubricated


def test_what_a_grease_states_goes_there_and_back(file):
    for one in own(file):
        plain = to_plain(put(Answers(), PATH, one))
        read, problems = from_plain(json.loads(json.dumps(plain)))
        assert not problems
        assert get(read, PATH) == one


def test_the_schema_takes_a_name_of_the_list_and_a_whole_entry_and_nothing_else(oil):
    takes = jsonschema.Draft202012Validator(schema.of_record()).is_valid
    table = to_plain(with_oil(oil))["lubrication"]["lubricant"]
    for held in ("mineral oil VG 150", table, {key: value for key, value in table.items() if key != "file"}):
        assert takes({"schema": "1.1", "answers": {"lubrication": {"lubricant": held}}}), held
    for held in ("gear oil", 3, {"name": "x"}, table | {"base": "tallow"}, table | {"more": 1}):
        assert not takes({"schema": "1.1", "answers": {"lubrication": {"lubricant": held}}}), held


@pytest.mark.parametrize(
    ("old", "new", "key", "says"),
    [
        ('base = "mineral"', 'base = "minerl"', ".base", "did you mean mineral?"),
        ("iso_vg = 150.0", "iso_vg = 151.0", ".iso_vg", "one of 2, 3, 5"),
        ("least_degC = -15.0", "least_degC = 200.0", ".least_degC", "not below the greatest"),
        ("density_15_kg_m3 = 888.0\n", "", ".density_15_kg_m3", "is missing"),
        ("vi = 95.0\n", "", "", "not stated once"),
        ('file = "plant.toml"', "file = 3", "", "file is not a text"),
        ('name = "gear oil"', 'name = "gear\\u001b[31moil"', ".name", "\\x1b[31m"),
    ],
)
def test_what_is_wrong_with_it_in_a_record_is_named_by_line_and_key(oil, old, new, key, says):
    text = to_text(Record(with_oil(oil)), None)
    assert text.count(old) == 1
    with pytest.raises(Problems) as refused:
        parse(text.replace(old, new).encode(), "r.toml")
    (problem,) = refused.value.problems
    assert problem.field == f"answers.lubrication.lubricant{key}" and says in str(problem)
    line = text.split("\n").index("[answers.lubrication.lubricant]") + 1
    expected = next((n for n, one in enumerate(text.split("\n"), 1) if key and one == old), line)
    assert problem.line == (expected if new else line)
    assert "\x1b" not in str(problem)


def test_a_key_of_a_newer_version_in_it_is_kept_and_said(oil):
    text = to_text(Record(with_oil(oil)), None).replace("vi = 95.0", "vi = 95.0\npour_degC = -30")
    read = parse(text.encode(), "r.toml")
    assert get(read.answers, PATH) == oil
    assert "pour_degC" in str(read.unused) and "pour_degC = -30" in to_text(read, None)


def test_a_name_that_no_list_has_is_refused_with_what_is_accepted():
    text = '[answers.lubrication]\nlubricant = "gear oil of ours"\n'
    with pytest.raises(Problems, match=r"no lubricant is called .*or, of your own, a table lubricant"):
        parse(f'schema = "1.1"\n{text}'.encode())


def test_a_name_of_the_built_in_list_is_taken(file):
    file.write_text(GOOD.replace('"gear oil"', f'"{builtin()[3].name}"'))
    with pytest.raises(Problems, match=r"line 3, .*stands in the built-in list; accepted: a name of its own"):
        own(file)


def test_a_program_of_ones_own_takes_it_by_name(file):
    answers = api.answered({"lubrication.supply": "oil bath", PATH: api.lubricants(file)["gear oil"]})
    assert answers == with_oil(own(file)[0])
    with pytest.raises(Problems, match="Required life is no lubricant"):
        api.answered({"duty.life": api.lubricants(file)["gear oil"]})


def test_a_list_that_cannot_be_used_is_no_list_and_says_why(file):
    file.write_text(GOOD.replace("iso_vg = 150", "iso_vg = 151").replace("nlgi = 2", "nlgi = 9"))
    found, why = offered(file)
    assert found == () and "plant.toml, line 6, lubricant[0].iso_vg" in why and "and 1 more" in why
    assert offered(None) == ((), "")
