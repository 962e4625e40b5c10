"""A misspelt load passes no command unnoticed: standard error, the status and the opened wizard say it."""

import csv
import json
import shutil

import pytest

from tests.house.tree import ROOT
from wizard import cli
from wizard.commands import open_session
from wizard.exit_codes import Exit

SHEAVE = ROOT / "catalogs" / "examples" / "ropeway_sheave.toml"
KEY = "answers.duty.cases[0].axail_N"


def run(capsys, *words):
    status = cli.main([str(word) for word in words])
    out, err = capsys.readouterr()
    return status, out, err


@pytest.fixture
def misspelt(tmp_path):
    """Return a record that passes, whose first axial load is misspelt, and the line on which it stands."""
    path = tmp_path / "sheave.toml"
    lines = SHEAVE.read_text("utf-8").split("\n")
    (at, *_) = (place for place, line in enumerate(lines) if line.startswith("axial_N"))
    lines[at] = lines[at].replace("axial_N", "axail_N")
    lines[at + 1] = "# " + lines[at + 1]  # what was typed is gone too, so that no load is left
    path.write_text("\n".join(lines), "utf-8")
    return path, at + 1


@pytest.mark.parametrize(
    "words", [["calc"], ["calc", "--json"], ["report", "--html"], ["report", "--fitter"]], ids=" ".join
)
def test_a_record_that_passes_with_it_does_not_end_as_one_that_passes(words, misspelt, capsys):
    path, line = misspelt
    before = path.read_bytes()
    status, out, err = run(capsys, words[0], path, *words[1:])
    assert status == Exit.NOT_USED == 3
    assert "1 key was not used" in err
    assert f"{path}, line {line}, {KEY}: no question has this key; it is kept, but not used" in err
    assert 'did you mean "axial_N"?' in err
    assert KEY in out or "Keys of the record that were not used: 1" in out
    assert path.read_bytes() == before


def test_a_record_without_it_ends_with_nought_and_says_nothing(capsys):
    status, out, err = run(capsys, "calc", SHEAVE)
    assert (status, err) == (0, "")
    assert "NOT USED" not in out


def test_a_record_that_fails_still_ends_as_one_that_fails_and_says_it(misspelt, capsys):
    path, _ = misspelt
    text = path.read_text("utf-8")
    path.write_text(
        text.replace("life_h = 60000.0", "life_h = 600000.0").replace("life_typed", "# life_typed"), "utf-8"
    )
    status, _, err = run(capsys, "calc", path)
    assert status == Exit.FAILS
    assert KEY in err


def test_machines_find_it_by_key_line_and_nearest(misspelt, capsys):
    path, line = misspelt
    _, out, _ = run(capsys, "calc", path, "--json")
    told = json.loads(out)
    assert told["unused"] == [{"key": KEY, "line": line, "nearest": "axial_N"}]
    _, out, _ = run(capsys, "calc", SHEAVE, "--json")
    assert json.loads(out)["unused"] == []


def test_verify_and_diff_say_it_too(tmp_path, capsys):
    path = tmp_path / "more.toml"
    text = SHEAVE.read_text("utf-8")
    path.write_text(text.replace("[answers.duty]", "[answers.duty]\nlfie_h = 5.0", 1), "utf-8")
    status, out, err = run(capsys, "verify", path)
    assert "VERIFIED" in out
    assert status == Exit.NOT_USED
    assert "answers.duty.lfie_h" in err and 'did you mean "life_h"?' in err
    status, out, err = run(capsys, "diff", SHEAVE, path)
    assert "No difference" in out
    assert status == Exit.NOT_USED
    assert "answers.duty.lfie_h" in err


def test_a_table_of_records_says_it_in_its_row(misspelt, tmp_path, capsys):
    path, line = misspelt
    whole = shutil.copy(SHEAVE, tmp_path / "whole.toml")
    status, out, err = run(capsys, "calc", whole, path)
    rows = list(csv.DictReader(out.splitlines()))
    assert [row["verdict"] for row in rows] == ["passes", "passes"]
    assert status == Exit.NOT_USED
    assert rows[0]["problem"] == ""
    assert f"line {line}, {KEY}" in rows[1]["problem"]
    assert "1 of the records hold keys that were not used" in err


def test_a_base_says_it_once_for_all_its_duties(misspelt, tmp_path, capsys):
    path, line = misspelt
    duties = tmp_path / "duties.csv"
    duties.write_text("id,temperature_degC\na,35\nb,36\n", "utf-8")
    status, out, err = run(capsys, "calc", duties, "--base", path)
    assert len(out.splitlines()) == 3
    assert status == Exit.NOT_USED
    assert err.count(f"line {line}, {KEY}") == 1


def test_the_wizard_says_it_on_opening_and_keeps_it(misspelt):
    path, line = misspelt
    session, note = open_session.record_or_new(str(path))
    assert note == f"Not used: {KEY} on line {line}, which no question has; did you mean axial_N?"
    session.answer("duty.life", "50000 h")
    assert "axail_N = 2891.344049919325" in path.read_text("utf-8")
    _, again = open_session.record_or_new(str(path))
    assert KEY in again


def test_a_hostile_key_reaches_no_terminal(tmp_path, capsys):
    path = tmp_path / "hostile.toml"
    text = SHEAVE.read_text("utf-8")
    path.write_text(text.replace("[answers.duty]", '[answers.duty]\n"\\u001b]0;x\\u0007\\u202e" = 1', 1), "utf-8")
    for words in (["calc"], ["report", "--markdown"], ["verify"]):
        status, out, err = run(capsys, words[0], path, *words[1:])
        assert status == Exit.NOT_USED
        assert "\\x1b]0;x\\x07\\u202e" in err
        assert all(line.isprintable() for line in (out + err).splitlines())
    _, note = open_session.record_or_new(str(path))
    assert note.isprintable() and "\\x1b" in note
