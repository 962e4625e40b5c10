"""Every kind of damage gives Problems: file, line where it can be known, key, what is wrong, what is right."""

import os
import tomllib
from pathlib import Path

import pytest
from hypothesis import given

from engine.answers.document import Answers, get
from engine.answers.question import Quantity
from engine.errors import Problems
from engine.record.carried.lines import Lines
from engine.record.document import SCHEMA, Record
from engine.record.read import LARGEST, parse, read
from engine.record.write import to_text
from tests.engine.answers.test_plain import without_trailing_empty
from tests.engine.answers.typed import answers
from tests.engine.record.damage import mutated

RECORDS = Path(__file__).parents[2] / "records"
MINIMAL = RECORDS / "v1_0_minimal.toml"


def problems_of(text: str | bytes, file: str = "shaft.toml"):
    with pytest.raises(Problems) as raised:
        parse(text.encode() if isinstance(text, str) else text, file)
    for problem in raised.value.problems:
        assert problem.path == file
        assert problem.wrong
        assert problem.accepted
        assert str(problem).isprintable()
    return raised.value.problems


@given(answers())
def test_what_was_written_is_read(made):
    again = parse(to_text(Record(made), None).encode())
    assert again.answers == without_trailing_empty(made, again.answers)
    assert again.warnings == again.stored == ()
    # and written once more, it is the same file
    assert to_text(again, None) == to_text(Record(made), None)


def test_the_first_record_ever_written_stays_readable():
    record = read(MINIMAL)
    assert record.engine == "0.1.0"
    assert [one.startswith("The record is of layout 1.0, read as 1.1.") for one in record.warnings] == [True]
    answers_of = record.answers
    assert get(answers_of, "duty.distance") == Quantity(152.4, "6 in")
    assert [case.name for case in answers_of.duty.cases] == ["lifting", None]
    assert get(answers_of, "duty.cases[0].axial_towards") == "A"
    assert get(answers_of, "envelope.bore_a").greatest == 65.0
    assert get(answers_of, "envelope.mass") == Quantity(11.33980925, "25 lb")
    assert get(answers_of, "lubrication.grade") == "220"
    assert get(answers_of, "steel.hollow_shaft") is True
    # what it says is what stands in it, whatever the program makes of it
    said = tomllib.loads(MINIMAL.read_text("utf-8"))["answers"]
    assert said["duty"]["life_h"] == get(answers_of, "duty.life").value


@pytest.mark.parametrize("path", sorted(RECORDS.glob("v*.toml")), ids=lambda path: path.name)
def test_every_frozen_record_is_read(path):
    assert read(path).answers != Answers()


HEAD = 'schema = "1.0"\n'
DUTY = HEAD + "[answers.duty]\n"

# text, line, key, what is wrong
DAMAGE = [
    ("", None, "schema", "the schema version is missing"),
    ("[answers]\n", None, "schema", "the schema version is missing"),
    ("schema = 1.0\n", 1, "schema", "1.0 is not a schema version"),
    ('schema = "one"\n', 1, "schema", "'one' is not a schema version"),
    ('schema = "1"\n', 1, "schema", "'1' is not a schema version"),
    ('schema = "1.0.0"\n', 1, "schema", "is not a schema version"),
    ('schema = "99999999.0"\n', 1, "schema", "is not a schema version"),
    ('schema = "\u0661.\u0660"\n', 1, "schema", "is not a schema version"),
    ('schema = "2.0"\n', 1, "schema", "version 2.0 is newer than this program, which knows 1.1"),
    ('schema = "0.9"\n', 1, "schema", "there never was a version 0.9"),
    (DUTY + 'distance_mm = "150"\n', 3, "answers.duty.distance_mm", "distance_mm is not a number"),
    (DUTY + "distance_mm = 1e9\n", 3, "answers.duty.distance_mm", "out of bounds"),
    (DUTY + "distance_mm = inf\n", 3, "answers.duty.distance_mm", "is not a finite number"),
    (DUTY + "distance_mm = nan\n", 3, "answers.duty.distance_mm", "is not a finite number"),
    (DUTY + "distance_mm = 2024-01-31\n", 3, "answers.duty.distance_mm", "is not a number"),
    (DUTY + f"distance_mm = {'9' * 400}\n", 3, "answers.duty.distance_mm", "is not a finite number"),
    (DUTY + f"arrangement = 0x{'F' * 6000}\n", None, "", "a number too long"),
    (f'schema = "1.1"\n[result]\nchecks = []\nnotice = 0x{"F" * 6000}\n', None, "", "a number too long"),
    (f'schema = "1.1"\n[[result.figures]]\nkey = "a"\npair = {"9" * 400}\n', None, "", "a number too long"),
    (DUTY + 'distance_mm = 150.0\ndistance_typed = "6 in"\n', 3, "answers.duty.distance_mm", "disagrees with what"),
    (DUTY + 'job = "red \\u001B[31m"\n', 3, "answers.duty.job", "not printable"),
    (DUTY + 'arrangement = "\\u001b[2J"\n', 3, "answers.duty.arrangement", '"\\x1b[2J" is not one of the options'),
    (DUTY + "[[answers.duty.cases]]\nspeed_rpm = 1\n[[answers.duty.cases]]\n\nspeed_rpm = -1\n", 7,
     "answers.duty.cases[1].speed_rpm", "out of bounds"),
    (HEAD + "answers = 5\n", 2, "answers", "this is not a table"),
    (HEAD + "made_with = 5\n", 2, "made_with", "this is not a table"),
    (HEAD + "[made_with]\nconewright = 5\n", 3, "made_with.conewright", "this is not a line of text"),
    (HEAD + "result = 5\n", 2, "result", "this does not hold checks"),
    (HEAD + "[result]\nchecks = 5\n", 2, "result", "this does not hold checks"),
    (HEAD + '[[result.checks]]\nkey = "life"\n', 2, "result.checks[0]", "this is not a stored check"),
    (HEAD + "answers.duty.distance_mm = -1.0\n", 2, "answers.duty.distance_mm", "out of bounds"),
    (HEAD + "[answers]\n\nduty.'distance_mm' = -1.0\n", 4, "answers.duty.distance_mm", "out of bounds"),
    # what stands within a value is found on the line where that value begins
    (HEAD + "\nanswers = { duty = { distance_mm = -1.0 } }\n", 3, "answers.duty.distance_mm", "out of bounds"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "line", "key", "wrong"), DAMAGE, ids=[f"{i}-{d[3][:40]}" for i, d in enumerate(DAMAGE)]
)
def test_damage_is_named_with_its_line_and_key(text, line, key, wrong):
    (problem,) = problems_of(text)
    assert (problem.line, problem.field) == (line, key)
    assert wrong in problem.wrong


@pytest.mark.parametrize(
    ("data", "line", "wrong"),
    [
        (b"schema = \n", 1, "this is not TOML: Invalid value"),
        (b'schema = "1.0"\n[answers.duty\n', 2, "this is not TOML"),
        (b'schema = "1.0"\n\n\nlife = 1\nlife = 2\n', 5, "this is not TOML: Cannot overwrite a value"),
        (b'schema = "1.0"\n# \xff\n', 2, "this is not UTF-8 text"),
        (b"\xff\xfes\x00c\x00", 1, "this is not UTF-8 text"),
        (b"a = " + b"[" * 100_000, None, "nested too deeply"),
        (b"a = " + b"9" * 5000 + b"\n", None, "a number too long"),
        (b'schema = "1.0"\n[answers.duty]\njob = "a\x1bb"\n', 3, "this is not TOML: Illegal character"),
        (b"\x00" * 100, 1, "this is not TOML"),
    ],
)
def test_what_is_no_toml_at_all(data, line, wrong):
    (problem,) = problems_of(data)
    assert wrong in problem.wrong
    assert problem.line == line


def test_a_newer_minor_version_is_read_with_a_word_of_warning():
    record = parse(b'schema = "1.7"\n[answers.duty]\nlife_h = 5000.0\n')
    assert record.warnings == ("The record was written by a newer version (1.7); read as 1.1.",)
    assert get(record.answers, "duty.life") == Quantity(5000.0)
    assert parse(f'schema = "{SCHEMA}"\n'.encode()).warnings == ()


def test_all_problems_come_at_once_each_with_its_line():
    text = DUTY + 'distance_mm = -1.0\nlife_h = "x"\n\n[answers.steel]\nshock = "some"\n\n[result]\nchecks = 5\n'
    found = {problem.field: problem.line for problem in problems_of(text)}
    assert found == {
        "answers.duty.distance_mm": 3, "answers.duty.life_h": 4, "answers.steel.shock": 7, "result": 9,
    }  # fmt: skip


def test_line_ends_and_marks_of_other_systems_are_no_damage():
    text = '\ufeffschema = "1.0"\r\n[answers.duty]\r\nlife_h = -1.0\r\n'
    (problem,) = problems_of(text)
    assert problem.line == 3


def test_a_folder_a_missing_file_and_a_file_without_end(tmp_path):
    wanted = [(tmp_path, "is a folder or device"), (tmp_path / "no.toml", "there is no such file")]
    large = tmp_path / "large.toml"
    with large.open("wb") as file:
        file.truncate(LARGEST + 1)
    wanted.append((large, "larger than 5 MB"))
    os.mkfifo(tmp_path / "pipe")
    wanted += [(tmp_path / "pipe", "is a folder or device"), (tmp_path / "a\0b", "no such file")]
    wanted.append((tmp_path / ("x" * 300), ""))
    for path, wrong in wanted:
        with pytest.raises(Problems) as raised:
            read(path)
        (problem,) = raised.value.problems
        assert wrong in problem.wrong
        assert problem.accepted == "a Conewright design record (TOML)"


def test_a_file_that_may_not_be_read(tmp_path, monkeypatch):
    path = tmp_path / "shaft.toml"
    path.write_text(HEAD, "utf-8")

    def refuse(_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", refuse)
    with pytest.raises(Problems, match=r"cannot be read: Permission denied"):
        read(path)


@given(answers())
def test_every_key_of_a_written_record_is_found_on_its_line(made):
    text = to_text(Record(made), None)
    lines, where = text.split("\n"), Lines(text)

    def walk(table, at):
        for key, value in table.items():
            path = f"{at}.{key}" if at else key
            if isinstance(value, dict):
                walk(value, path)
            elif isinstance(value, list) and value and isinstance(value[0], dict):
                for index, item in enumerate(value):
                    walk(item, f"{path}[{index}]")
            else:
                number = where.of(path)
                assert number is not None
                assert lines[number - 1].startswith(f"{key} = ")

    walk(tomllib.loads(text), "")


@pytest.mark.parametrize("start", range(0, 300, 50))
def test_mutated_records_are_read_or_refused_and_left_as_they_are(tmp_path, start):
    whole = MINIMAL.read_bytes()
    path = tmp_path / "shaft.toml"
    refused = 0
    for seed in range(start, start + 50):
        data = mutated(whole, seed)
        path.write_bytes(data)
        try:
            record = read(path)
        except Problems as problems:
            refused += 1
            lines = str(problems).splitlines()
            assert lines, seed
            assert all(line.isprintable() for line in lines), seed
        else:
            # what is read can be written and read again
            assert parse(to_text(record, None).encode()).answers is not None, seed
        assert path.read_bytes() == data, seed
    assert 10 < refused <= 50


def test_the_first_record_with_fits_stays_readable():
    fits = read(RECORDS / "v1_1_fits.toml").answers.fits
    assert (fits.level, fits.shaft_fit_a, fits.housing_fit_a, fits.adjusted) == ("heavy", "n6", "J7", "cup_b")
    assert fits.shaft_bore == Quantity(12.7, "1/2 in")
    assert fits.shaft_roughness == Quantity(2.54, "100 uin")
    assert fits.cone_hotter == Quantity(5.0, "9 degF")


def test_a_record_without_fits_leaves_them_open():
    assert read(MINIMAL).answers.fits == Answers().fits
