"""A catalogue of one's own: named in the record, or chosen for all of them."""

import json

import pytest

from engine.catalogue import source
from engine.record.read import read
from tests.screens.golden import drive
from wizard.cli import main
from wizard.session import Session

CSV = """\
designation;d [mm];D [mm];T [mm];Cr [kN];C0r [kN];e
A-50;50;90;21,75;78,2;102,2;0,42
A-55;55;100;22,75;91,0;121,0;0,4
A-BAD;60;50;22,75;91,0;121,0;0,4
"""
RECORD = """\
schema = "1.0"
[answers.duty]
distance_mm = 200.0
life_h = 1000.0
[[answers.duty.cases]]
speed_rpm = 300.0
radial_y_N = 9000.0
[answers.choice]
bearing_a = "A-50"
bearing_b = "A-55"
"""


@pytest.fixture
def own(tmp_path):
    path = tmp_path / "own.csv"
    path.write_text(CSV)
    return path


@pytest.fixture
def named(tmp_path):
    path = tmp_path / "r.toml"
    path.write_text(RECORD + 'catalogue = "own.csv"\n')
    return path


@pytest.mark.usefixtures("own")
def test_a_record_names_its_catalogue_from_its_own_folder(named, capsys, monkeypatch, tmp_path_factory):
    monkeypatch.chdir(tmp_path_factory.mktemp("elsewhere"))
    assert main(["calc", str(named), "--json"]) == 0
    said = json.loads(capsys.readouterr().out)
    assert said["result"]["bearing_a"] == "A-50"
    assert "1 row of 3 left out as wrong." in said["notes"]
    guessed = {figure["name"] for figure in said["result"]["figures"] if "estimated_for" in figure}
    assert {"mass, m", "axial load factor, Y"} <= guessed
    # a check that holds an estimated value against a limit says so as well
    named.write_text(named.read_text() + "[answers.envelope]\nmass_kg = 50.0\n")
    assert main(["calc", str(named), "--json"]) == 0
    checks = {check["name"] for check in json.loads(capsys.readouterr().out)["result"]["checks"]}
    assert {"Mass of the pair (estimated)", "Limiting speed (estimated)"} <= checks
    assert "Life of the bearing" in checks
    assert not any(name.startswith(("bore", "basic dynamic rating")) for name in guessed)


def test_a_catalogue_that_is_not_there_is_named(named, capsys):
    assert main(["calc", str(named)]) == 2
    said = capsys.readouterr().err
    assert "own.csv" in said and "Traceback" not in said


def test_the_chosen_catalogue_serves_records_that_name_none(own, tmp_path, capsys):
    record = tmp_path / "plain.toml"
    record.write_text(RECORD)
    assert main(["calc", str(record)]) == 2  # the built-in one has no A-50
    assert main(["catalog", "use", str(own)]) == 1  # remembered, though a row is left out
    capsys.readouterr()
    assert main(["calc", str(record)]) == 0
    assert "~" in capsys.readouterr().out
    assert main(["catalog", "use", "--builtin"]) == 0
    assert main(["calc", str(record)]) == 2


@pytest.mark.usefixtures("own")
def test_the_wizard_counts_the_pairs_of_the_named_catalogue(named):
    session = Session(read(named), named, named=True)
    seen = drive(session, ["s"])
    assert "of 4 pairs remain" in seen
    assert "A-50" in seen and "~" in seen


def test_the_wizard_says_what_is_wrong_with_a_catalogue_and_goes_on(named):
    session = Session(read(named), named, named=True)
    wrong = drive(session, ["right", "right"], rest=lambda app: app.standing.wrong != "")
    assert "own.csv" in wrong and "cannot be searched" in wrong


def test_a_file_in_the_programs_own_format_is_read_the_quick_way(tmp_path, catalogue):
    from engine.catalogue.write import as_csv

    path = tmp_path / "canonical.csv"
    path.write_bytes(as_csv(catalogue.take(range(5))))
    opened = source.opened(path)
    assert len(opened.rows) == 5
    assert opened.notes == ()
    assert opened.content == opened.rows.content_hash()


def test_words_that_catalog_does_not_take(capsys):
    for words in (["catalog"], ["catalog", "check"], ["catalog", "use", "--odd"], ["catalog", "check", "a", "b"]):
        assert main(words) == 2
        assert "catalog takes" in capsys.readouterr().err


def test_the_format_is_explained(capsys):
    assert main(["catalog", "--help"]) == 0
    said = capsys.readouterr().out
    assert "Cr_N" in said or "Cr" in said
    assert 'column "part"' in said


def test_a_wrong_designation_for_one_bearing_is_said_at_once_with_what_may_be_meant(tmp_path):
    path = tmp_path / "r.toml"
    path.write_text(RECORD.replace('bearing_a = "A-50"\nbearing_b = "A-55"', 'bearing_b = "V05O-3DB-C"'))
    seen = drive(Session(read(path), path, named=True), ["left"], rest=lambda app: app.standing.trouble != "")
    assert 'B: no assembly is named "V05O-3DB-C"; did you mean V050-3DB-C' in seen
