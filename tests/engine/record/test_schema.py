"""The published schema says what reading says, is what the questions make of it, and takes every example."""

import json
import tomllib

import jsonschema
import pytest
from hypothesis import given

from engine.answers.document import Answers, all_asked, question_at
from engine.answers.plain import from_plain, to_plain
from engine.answers.question import Question
from engine.errors import Problems
from engine.record import schema
from engine.record.read import parse
from engine.record.schema import FILES, form_of, text_of
from tests.engine.answers.typed import answers
from tests.engine.record.damage import mutated
from tests.engine.record.test_read import DAMAGE, MINIMAL
from tests.house.tree import ROOT

FOLDER = ROOT / "catalogs" / "schema"
RECORD = jsonschema.Draft202012Validator(json.loads(text_of("record")))
ANSWERS = jsonschema.Draft202012Validator(json.loads(text_of("answers")))
RECORDS = sorted([*(ROOT / "catalogs" / "examples").glob("*.toml"), *(ROOT / "tests" / "records").glob("v*.toml")])


@pytest.mark.parametrize("which", FILES)
def test_what_is_published_is_what_the_questions_say(which):
    published = (FOLDER / FILES[which]).read_text("utf-8")
    assert published == text_of(which), "write it anew: conewright schema -o catalogs/schema"
    jsonschema.Draft202012Validator.check_schema(json.loads(published))


@pytest.mark.parametrize("path", RECORDS, ids=lambda path: path.name)
def test_every_example_and_every_frozen_record_is_valid(path):
    assert [error.message for error in RECORD.iter_errors(tomllib.loads(path.read_text("utf-8")))] == []


@given(answers())
def test_whatever_can_be_answered_is_valid(made):
    plain = to_plain(made)
    assert [error.message for error in ANSWERS.iter_errors(plain)] == []
    assert from_plain(plain)[1] == []


@pytest.mark.parametrize(("text", "key", "wrong"), [(d[0], d[2], d[3]) for d in DAMAGE], ids=range(len(DAMAGE)))
def test_what_reading_refuses_the_schema_refuses_too(text, key, wrong):
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return
    # beyond a schema: whether two keys agree, whether a number is finite, what is printable, which version is ours; of
    # a number without end the library cannot even say what is wrong
    beyond = ("disagrees", "finite", "printable", "there never was", "\\u0661", "newer than this", "number too long")
    if any(word in wrong or word in text for word in beyond):
        return
    assert not RECORD.is_valid(tables), key


@pytest.mark.parametrize("seed", range(300))
def test_what_is_read_is_valid(seed):
    data = mutated(MINIMAL.read_bytes(), 7000 + seed)
    try:
        record = parse(data)
    except Problems:
        return
    tables = tomllib.loads(data.decode())
    # a key that no question has is read, kept and said, but an editor marks it
    unused = {str(part) for one in record.carried.unknown for part in one.path[-1:]}
    errors = list(RECORD.iter_errors(tables))
    assert all(error.validator == "additionalProperties" for error in errors)
    found = {key for error in errors for key in set(error.instance) - set(error.schema["properties"])}
    assert found == unused


def test_every_question_stands_in_the_schema_with_its_label_and_reason():
    properties = json.loads(text_of("answers"))["properties"]
    for item in all_asked(Answers(), every=True):
        chapter = item.path.partition(".")[0]
        table = properties[chapter]["properties"]
        table = table[item.listed]["items"]["properties"] if item.listed else table
        for key in item.question.keys(item.path.rpartition(".")[2]):
            assert table[key]["title"] == item.question.label
            assert table[key]["description"]


def test_a_number_says_its_unit_and_bounds_and_a_choice_what_each_option_means():
    duty = json.loads(text_of("answers"))["properties"]["duty"]["properties"]
    distance = duty["distance_mm"]
    assert distance["description"].endswith(" In mm.")
    assert (distance["type"], distance["minimum"], distance["maximum"]) == ("number", 5.0, 20000.0)
    arrangement = duty["arrangement"]
    assert arrangement["enum"] == ["back_to_back", "face_to_face"]
    for option in question_at("duty.arrangement").options:
        assert f"{option.value}: {option.label}" in arrangement["description"]


def test_what_an_editor_shows_is_there_for_every_key():
    for path, key, form in keys(json.loads(text_of("record"))["properties"]["answers"]):
        assert form["description"].endswith("."), (path, key)
        if "enum" in form:
            assert all(f"{value}: " in form["description"] for value in form["enum"]), (path, key)
        elif form.get("type") == "number":
            assert form["minimum"] <= form["maximum"], (path, key)


def keys(table, path=""):
    """Walk every key of the answers with what the schema says of it."""
    for key, form in table["properties"].items():
        inner = form.get("items", form) if form.get("type") == "array" else form
        yield path, key, form
        if "properties" in inner:
            yield from keys(inner, f"{path}.{key}")


def test_a_kind_of_question_without_a_form_is_still_known_by_its_keys():
    class Odd(Question):
        def keys(self, name):
            return (f"{name}_one", f"{name}_two")

    assert form_of(Odd(label="Odd", why="For the test."), "x") == {"x_one": {}, "x_two": {}}


def test_the_form_of_a_record_is_known_to_its_last_key():
    assert set(schema.of_record()["properties"]) == {"schema", "made_with", "answers", "result"}
