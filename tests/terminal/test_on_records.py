"""What can be done with a record as a whole, from the line in which everything is found, in a real pty."""

import csv
import json
import shutil

import pytest

from tests.house.tree import ROOT
from tests.terminal.line import wizard

pytestmark = pytest.mark.terminal

EXAMPLES = ROOT / "catalogs" / "examples"


def find(line, text):
    line.type("g")
    line.until_sees("Find:")
    line.type(text, "enter")
    line.until(lambda: not line.sees("Find:"), "what was found")


def test_a_record_is_verified_compared_and_written(tmp_path):
    name = shutil.copy(EXAMPLES / "ropeway_sheave.toml", tmp_path / "sheave.toml")
    other = tmp_path / "other.toml"
    other.write_text(name.read_text("utf-8").replace('shock = "moderate"', 'shock = "heavy"'), "utf-8")
    (tmp_path / "broken.toml").write_text('schema = "1.1"\n[answers.duty]\nlife_h = -3.0\ndistance_mm = "far"\n')
    before = name.read_bytes()
    with wizard(name) as line:
        find(line, "verify")
        line.until_sees("sheave.toml: VERIFIED", "0 moved, 0")
        line.type("esc")
        find(line, "diff")
        line.until_sees("File name of the other record")
        for wrong, said in (
            (tmp_path / "none.toml", "there is no such file; accepted: a Conewright"),
            (tmp_path, "is a folder or device"),
            (tmp_path / "broken", "broken.toml, line 4, answers.duty.distance_mm"),
        ):
            line.type("ctrl+u", str(wrong), "enter")
            line.until(lambda said=said: said in " ".join(line.text().split()), said)
            line.until_sees("▸")  # the name stays to be mended
        line.type("ctrl+u", str(other), "enter")
        line.until_sees("Steel, Shock: moderate -> heavy", "its stored figures do not verify")
        line.type("esc")
        for asked, written in (("json", "sheave.json"), ("csv", "sheave-shortlist.csv")):
            find(line, asked)
            line.until_sees("Written: ", written)
        line.type("q")
        assert line.status() == 0
    assert name.read_bytes() == before
    assert json.loads((tmp_path / "sheave.json").read_text())["result"]["verdict"] == "passes"
    assert (tmp_path / "sheave-shortlist.csv").read_text().startswith("row,id,job,bearing_a")


def test_what_stands_in_no_file_is_not_verified_and_says_so(tmp_path):
    with wizard(tmp_path / "r.toml") as line:
        find(line, "verify")
        line.until_sees("nothing of this session stands in a file yet; accepted: a record")
        line.type("esc", "down", "down", "160", "enter")
        line.until_sees("160 mm")
        find(line, "verify")
        line.until(lambda: line.sees("holds no result to verify") or line.sees("no pair is chosen"), "what is said")
        line.type("esc")
        find(line, "csv")
        line.until_sees("Written: ", "r-shortlist.csv")
        line.type("q")
        assert line.status() == 0
    rows = list(csv.DictReader((tmp_path / "r-shortlist.csv").open()))
    assert {row["verdict"] for row in rows} == {"incomplete"} and "missing: " in rows[0]["problem"]
