"""What a session can be written as: the same as the command line writes, under a name that is free."""

import csv
import io
import json
import shutil
from dataclasses import replace

import pytest

from engine.answers.document import put, question_at
from engine.errors import Problems
from engine.record.many.outcome import COLUMNS
from engine.record.read import read
from tests.house.tree import ROOT
from wizard import cli
from wizard.commands.beside import beside

INCH = ROOT / "catalogs" / "examples" / "ropeway_sheave.toml"


@pytest.fixture
def record(tmp_path):
    """Return a copy of an example that a test may write beside."""
    return shutil.copy(INCH, tmp_path / "sheave.toml")


def test_the_record_as_json_is_what_calc_says_of_it(record, capsys):
    target = beside(read(record), record, "json", record.parent)
    assert target == record.with_name("sheave.json")
    assert cli.main(["calc", str(record), "--json"]) == 0
    assert json.loads(target.read_text()) == json.loads(capsys.readouterr().out)


def test_each_pair_of_the_shortlist_has_the_figures_that_calc_finds_for_it(record, tmp_path, capsys):
    target = beside(read(record), record, "csv", tmp_path)
    assert target == record.with_name("sheave-shortlist.csv")
    rows = list(csv.DictReader(io.StringIO(target.read_text())))
    assert list(rows[0]) == list(COLUMNS)
    assert [row["id"] for row in rows] == [str(place) for place in range(1, len(rows) + 1)]
    assert {row["verdict"] for row in rows} == {"passes"}
    masses = [float(row["mass_kg"]) for row in rows]
    assert len(rows) > 20 and masses == sorted(masses)  # the record asks for the lightest first
    text = record.read_text("utf-8")
    for row in (rows[0], rows[7]):
        chosen = tmp_path / "chosen.toml"
        chosen.write_text(
            text.replace('bearing_a = "Q286.1+6"', f'bearing_a = "{row["bearing_a"]}"').replace(
                'bearing_b = "Q286.1+6"', f'bearing_b = "{row["bearing_b"]}"'
            ),
            "utf-8",
        )
        cli.main(["calc", str(chosen), str(chosen), "-o", str(tmp_path / "t.csv")])
        (one, _) = csv.DictReader(io.StringIO((tmp_path / "t.csv").read_text()))
        assert {key: value for key, value in one.items() if key not in {"row", "id"}} == {
            key: value for key, value in row.items() if key not in {"row", "id"}
        }
    capsys.readouterr()


def test_a_name_that_is_taken_is_left_alone(record):
    taken = record.with_name("sheave-shortlist.csv")
    taken.write_text("kept")
    assert [beside(read(record), record, "csv", record.parent).name for _ in range(2)] == [
        "sheave-shortlist-2.csv",
        "sheave-shortlist-3.csv",
    ]
    assert taken.read_text() == "kept"


@pytest.mark.parametrize(
    ("form", "name", "begins"),
    [
        ("markdown", "sheave.md", "# Ropeway"), ("fitter", "sheave-fitter.html", "<!DOCTYPE html>"),
    ],
)  # fmt: skip
def test_reports_keep_the_names_that_they_had(record, form, name, begins):
    target = beside(read(record), record, form, record.parent)
    assert target.name == name and target.read_text("utf-8").startswith(begins)


def test_a_duty_that_no_pair_passes_has_no_shortlist_and_nothing_is_written(record):
    kept = read(record)
    narrow = put(kept.answers, "envelope.bore_a", question_at("envelope.bore_a").parse("1999 mm"))
    with pytest.raises(Problems, match="none of the catalogue passes"):
        beside(replace(kept, answers=narrow), record, "csv", record.parent)
    assert list(record.parent.glob("*.csv")) == []
