"""verify, diff, report and schema: exit status, forms, and that nothing that was read is ever changed."""

import json
import os
import re
import shutil
import subprocess
import sys
import tomllib

import pytest

from engine import __version__
from engine.record.schema import FILES, text_of
from tests.house.tree import ROOT
from wizard import cli
from wizard.commands import report

EXAMPLES = sorted((ROOT / "catalogs" / "examples").glob("*.toml"))
METRIC, INCH = (
    ROOT / "catalogs" / "examples" / f"{name}.toml" for name in ("peat_harvester_bevel_drive", "ropeway_sheave")
)
MINIMAL = ROOT / "tests" / "records" / "v1_0_minimal.toml"


@pytest.fixture
def record(tmp_path):
    """Return a copy of an example that a test may write to."""
    return shutil.copy(INCH, tmp_path / "r.toml")


def run(capsys, *words):
    status = cli.main([str(word) for word in words])
    out, err = capsys.readouterr()
    return status, out, err


def edited(path, before, after):
    text = path.read_text("utf-8")
    assert before in text
    path.write_text(text.replace(before, after, 1), "utf-8")


# verify


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_is_verified(path, capsys):
    status, out, err = run(capsys, "verify", path)
    assert (status, err) == (0, "")
    assert "VERIFIED" in out and " 0 moved, 0 gone, 0 new" in out


def test_a_record_that_was_tampered_with_is_found(record, capsys):
    edited(record, "utilisation = 0.8665", "utilisation = 0.7665")
    before = record.read_bytes()
    status, out, _ = run(capsys, "verify", record)
    assert status == 1
    assert "NOT verified" in out and "changed by hand" in out and "Life of the pair, pair: utilisation" in out
    assert record.read_bytes() == before
    status, out, _ = run(capsys, "verify", record, "--json")
    told = json.loads(out)
    assert status == 1 and told["verified"] is False
    assert [reason["kind"] for reason in told["reasons"]] == ["result"]
    assert told["moved"][0]["key"] == "check system_life pair utilisation"


def test_an_answer_edited_after_computing_is_found(record, capsys):
    edited(record, 'shock = "moderate"', 'shock = "heavy"')
    status, out, _ = run(capsys, "verify", record)
    assert status == 1
    assert "Answers were changed after the result was computed: Steel (steel.shock, which was moderate)." in out


def test_a_record_without_result_and_one_that_cannot_be_used(tmp_path, record, capsys):
    status, out, _ = run(capsys, "verify", MINIMAL)
    assert status == 1 and "holds no result" in out
    edited(record, 'bearing_a = "Q286.1+6"', 'bearing_a = "Q286.1+66"')
    status, out, err = run(capsys, "verify", record)
    assert (status, out) == (2, "")
    assert "answers.choice.bearing_a" in err and "Q286.1+6" in err
    assert run(capsys, "verify", tmp_path / "none.toml")[0] == 2


# diff


def test_records_that_are_the_same_and_that_differ(record, capsys):
    assert run(capsys, "diff", INCH, record)[0] == 0
    edited(record, 'shock = "moderate"', 'shock = "heavy"')
    status, out, _ = run(capsys, "diff", INCH, record)
    assert status == 1
    assert "Steel, Shock: moderate -> heavy" in out
    assert "Static safety, A: demand" in out
    status, out, _ = run(capsys, "diff", INCH, record, "--json")
    told = json.loads(out)
    assert status == 1 and told["same"] is False
    assert told["answers"] == [
        {"chapter": "Steel", "path": "steel.shock", "label": "Shock", "before": "moderate", "after": "heavy"}
    ]
    assert {"check static A demand", "check static B demand"} <= {one["key"] for one in told["figures"]}


def test_records_without_a_result_are_compared_by_their_answers_and_what_is_computed(record, tmp_path, capsys):
    record.write_text(record.read_text("utf-8").partition("\n[result]")[0], "utf-8")
    status, out, _ = run(capsys, "diff", record, shutil.copy(record, tmp_path / "other.toml"))
    assert status == 0 and "No difference" in out and "Stored results" not in out


def test_a_stored_figure_changed_by_hand_is_a_difference_of_two_records(record, tmp_path, capsys):
    other = shutil.copy(record, tmp_path / "other.toml")
    edited(other, "utilisation = 0.8665", "utilisation = 0.7665")
    edited(other, "capacity = 69239.", "capacity = 79239.")
    status, out, _ = run(capsys, "diff", record, other)
    assert status == 1
    assert out.count("do not verify") == 1 and "system_life" not in out
    assert f"B: its stored figures do not verify: 2 differ; conewright verify {other} shows them" in " ".join(
        out.split()
    )


def test_the_answers_are_compared_even_where_a_pair_cannot_be_computed(record, capsys):
    edited(record, 'bearing_a = "Q286.1+6"', 'bearing_a = "X"')
    status, out, _ = run(capsys, "diff", INCH, record)
    assert status == 1
    assert "cannot be computed" in out and "Bearing at A: Q286.1+6 -> X" in out


def test_where_no_pair_can_be_computed_what_the_records_hold_is_compared(record, tmp_path, capsys):
    for name in "ab":
        edited(record, f'bearing_{name} = "Q286.1+6"', f'bearing_{name} = "X"')
    other = shutil.copy(record, tmp_path / "other.toml")
    status, out, _ = run(capsys, "diff", record, other)
    words = " ".join(out.split())
    assert status == 1 and "A: its stored result cannot be computed again" in words
    assert "B: its stored result cannot be computed again" in words
    edited(other, "utilisation = 0.8665", "utilisation = 0.7665")
    status, out, _ = run(capsys, "diff", record, other)
    assert status == 1 and "as the records hold them" in out
    assert "Life of the pair, pair: utilisation" in out and "0.7665" in out
    told = json.loads(run(capsys, "diff", record, other, "--json")[1])
    assert told["same"] is False and told["as_held"] is True and told["unproved"] == ["A", "B"]
    assert [one["key"] for one in told["figures"]] == ["check system_life pair utilisation"]


# report


@pytest.mark.parametrize(
    ("words", "begins"),
    [
        ([], b"# Ropeway"), (["--markdown"], b"# Ropeway"), (["--html"], b"<!DOCTYPE html>"),
        (["--fitter"], b"# Mounting: Ropeway"), (["--fitter", "--html"], b"<!DOCTYPE html>"),
    ],
)  # fmt: skip
def test_a_report_goes_to_the_terminal_in_the_form_asked_for(words, begins, capsys):
    status, out, err = run(capsys, "report", INCH, *words)
    assert (status, err) == (0, "")
    assert out.encode().startswith(begins)


@pytest.mark.parametrize(("name", "begins"), [("r.md", b"# "), ("r.html", b"<!DOC"), ("r.pdf", b"%PDF"), ("r", b"# ")])
def test_the_name_of_the_file_says_the_form(tmp_path, name, begins, capsys):
    status, out, err = run(capsys, "report", INCH, "-o", tmp_path / name)
    assert (status, out) == (0, "")
    assert f"Written: {tmp_path / name}" in err
    assert (tmp_path / name).read_bytes().startswith(begins)


def test_a_pdf_goes_through_a_pipe():
    line = [sys.executable, "-m", "wizard", "report", str(INCH), "--pdf"]
    done = subprocess.run(line, capture_output=True, env=os.environ | {"PYTHONPATH": str(ROOT)}, timeout=120)
    assert done.returncode == 0 and done.stderr == b""
    assert done.stdout.startswith(b"%PDF") and done.stdout.rstrip().endswith(b"%%EOF")


def test_a_pdf_without_its_library_says_how_to_get_it_and_blames_no_file(tmp_path, capsys, monkeypatch):
    monkeypatch.setattr(report, "find_spec", lambda _: None)
    for words in (("--pdf", "-o", tmp_path / "r"), ("-o", tmp_path / "r.pdf")):
        status, out, err = run(capsys, "report", INCH, *words)
        assert (status, out) == (2, "")
        assert "pip install '.[pdf]' in the folder of the project" in err and "cannot use" not in err
    assert not (tmp_path / "r").exists() and not (tmp_path / "r.pdf").exists()


def test_what_was_read_is_never_written_over(record, capsys):
    before = record.read_bytes()
    for words in (("report", record, "-o", record), ("calc", record, "-o", record)):
        status, out, err = run(capsys, *words)
        assert (status, out) == (2, "")
        assert "never changed" in err
        assert record.read_bytes() == before


def test_a_folder_that_is_not_there_and_two_forms_at_once(tmp_path, capsys):
    status, _, err = run(capsys, "report", INCH, "-o", tmp_path / "none" / "r.html")
    assert status == 2 and "cannot be written" in err
    status, _, err = run(capsys, "report", INCH, "--html", "--pdf")
    assert status == 2 and "two forms" in err


def test_a_name_that_ends_like_no_form_is_refused_unless_the_form_is_said(tmp_path, capsys):
    target = tmp_path / "r.docx"
    status, out, err = run(capsys, "report", INCH, "-o", target)
    assert (status, out) == (2, "") and not target.exists()
    assert "r.docx" in err and "ends in .docx" in err and ".pdf" in err
    for name, words in (("r.docx", ("--markdown",)), ("r", ()), ("r.txt", ())):
        run(capsys, "report", INCH, "--fitter", *words, "-o", tmp_path / name)
        assert (tmp_path / name).read_text().startswith("# Mounting")


def test_the_report_of_a_failing_pair_exits_with_1(record, capsys):
    edited(record, 'life_h = 60000.0\nlife_typed = "60 000 h"', "life_h = 900000.0")
    status, out, _ = run(capsys, "report", record)
    assert status == 1
    assert "**The pair FAILS: Life of the bearing (A)" in out


def test_a_report_of_a_record_that_holds_another_result_says_so_at_the_verdict(record, capsys):
    says = "its stored figures do not verify"
    assert says not in run(capsys, "report", record)[1]
    edited(record, "capacity = 69239.", "capacity = 79239.")
    _, out, _ = run(capsys, "report", record)
    verdict = out[out.index("## Verdict") : out.index("## In short")]
    assert f"{says}: 1 differs." in verdict and "changed by hand" in verdict
    assert "79239" not in out and "79 239" not in out  # the figures are those of now
    _, out, _ = run(capsys, "report", record, "--fitter")
    assert "holds another result than is computed now" in out
    # without its seal, though every figure is right
    edited(record, "capacity = 79239.", "capacity = 69239.")
    edited(record, "\nsha256 = ", "\nremark = ")
    _, out, _ = run(capsys, "report", record)
    assert "does not verify, though no figure differs" in out and "seal is gone" in out


def test_a_report_shows_the_version_of_the_record_and_that_of_now(record, capsys):
    edited(record, f'conewright = "{__version__}"', 'conewright = "0.0.9"')
    _, out, _ = run(capsys, "report", record)
    table = out[out.index("made with") :]
    assert re.search(r"in the record +\| 0\.0\.9 ", table)
    assert re.search(rf"computed now +\| {re.escape(__version__)} ", table)
    assert f"computed by version 0.0.9; this is {__version__}" in out
    edited(record, 'conewright = "0.0.9"\n', "")
    assert re.search(r"in the record +\| not stated ", run(capsys, "report", record)[1])


# schema


def test_a_schema_is_printed_or_written(tmp_path, capsys):
    assert run(capsys, "schema") == (0, text_of("record"), "")
    assert run(capsys, "schema", "--answers") == (0, text_of("answers"), "")
    status, out, _ = run(capsys, "schema", "-o", tmp_path)
    assert (status, out) == (0, "")
    for which, name in FILES.items():
        assert (tmp_path / name).read_text() == text_of(which)


def test_a_folder_for_schemas_is_made_where_there_is_none(tmp_path, capsys):
    folder = tmp_path / "new" / "schemas"
    status, out, err = run(capsys, "schema", "-o", folder)
    assert (status, out) == (0, "") and err.count("Written:") == 2
    assert {one.name: one.read_text() for one in folder.iterdir()} == {
        name: text_of(which) for which, name in FILES.items()
    }
    # a name that ends in .json is a file
    assert run(capsys, "schema", "--answers", "-o", tmp_path / "mine.json")[0] == 0
    assert (tmp_path / "mine.json").read_text() == text_of("answers")


def test_a_file_in_the_way_of_a_folder_for_schemas_is_left_as_it_is(tmp_path, capsys):
    (tmp_path / "taken").write_text("kept")
    for name in ("taken", "taken/within"):
        status, out, err = run(capsys, "schema", "-o", tmp_path / name)
        assert (status, out) == (2, "")
        assert str(tmp_path / name) in err and "a folder, new or not" in err
    assert (tmp_path / "taken").read_text() == "kept"


# comments


def test_a_result_computed_and_saved_by_the_wizard_keeps_the_comments(record):
    from engine.record.computed import compute
    from engine.record.read import read
    from wizard.session import Session

    edited(record, "[answers.duty]", "# from the ropeway's own papers\n[answers.duty]")
    session = Session(read(record), record, named=True)
    session.answer("duty.life", "50000 h")
    computed = compute(read(record), str(record))
    session.set_result(computed.result, (computed.source.name, computed.source.content))
    text = record.read_text()
    assert "# from the ropeway's own papers\n[answers.duty]" in text
    assert tomllib.loads(text)["result"]["verdict"] == "passes"


def test_words_that_need_a_value_and_options_at_the_wrong_place(capsys):
    for words, says in (
        (["report", INCH, "-o"], "-o needs a file"), (["verify", INCH, "-o", "x"], "-o goes with calc, report, schema"),
        (["diff", INCH], "diff needs two records"), (["schema", INCH], "schema takes no file"),
        (["report"], "report needs one record"), (["report", INCH, "--htlm"], 'did you mean "--html"?'),
        (["calc", INCH, "--fitter"], "--fitter goes with report"),
    ):  # fmt: skip
        status, out, err = run(capsys, *words)
        assert (status, out) == (2, "")
        assert says in err


# a duty that does not add up

SAWMILL = ROOT / "catalogs" / "examples" / "sawmill_log_conveyor.toml"


@pytest.fixture
def sawmill(tmp_path):
    """Return a copy of the example with a gear and a sprocket, without its result and what was typed."""
    path = tmp_path / "s.toml"
    text = SAWMILL.read_text("utf-8").partition("[result]")[0]
    path.write_text("".join(line for line in text.splitlines(True) if "_typed" not in line), "utf-8")
    return path


@pytest.mark.parametrize("words", [("calc",), ("report", "--markdown"), ("verify",)])
def test_shares_of_more_than_the_whole_are_bad_input_with_their_line(sawmill, capsys, words):
    edited(sawmill, "share_percent = 80.0", "share_percent = 95.0")
    line = sawmill.read_text("utf-8").splitlines().index("share_percent = 18.0") + 1
    status, out, err = run(capsys, words[0], sawmill, *words[1:])
    assert status == 2 and "scaled" not in out + err
    assert f"s.toml, line {line}, answers.duty.cases[2].share_percent: the shares of time" in err
    assert "add up to 115 %; accepted: 100 % in all" in err


def test_a_diameter_of_nothing_is_bad_input_with_its_line(sawmill, capsys):
    edited(sawmill, "diameter_mm = 312.0", "diameter_mm = 0.0")
    line = sawmill.read_text("utf-8").splitlines().index("diameter_mm = 0.0") + 1
    status, _, err = run(capsys, "calc", sawmill)
    assert status == 2
    assert (
        f"line {line}, answers.shaft.elements[0].diameter_mm: the diameter of element 1 (helical gear) is 0 mm" in err
    )
    assert "accepted: above 0, up to 20 000 mm" in err


def test_in_a_table_of_many_such_a_record_says_it_and_stops_no_other(sawmill, tmp_path, capsys):
    other = shutil.copy(sawmill, tmp_path / "t.toml")
    edited(sawmill, "share_percent = 80.0", "share_percent = 95.0")
    status, out, _ = run(capsys, "calc", sawmill, other)
    assert status == 1
    assert "add up to 115 %" in out and "passes" in out


def test_what_does_not_add_up_stands_beside_the_verdict_and_only_there(sawmill, capsys):
    edited(sawmill, "share_percent = 80.0", "share_percent = 20.0")
    edited(sawmill, 'flow = "out"\npower_kW = 11.0', 'flow = "out"\npower_kW = 11.5')
    _, out, _ = run(capsys, "calc", sawmill)
    told = " ".join(out.split())
    head = told.partition("Checks demand")[0]
    assert "Mind: The shares of time add up to 40 % only; they are scaled to 100 %" in head
    # 11 kW and 11.5 kW at 63 rpm, level 1.2 and factor 1.25 in case 2: 9549.3 * 1.5 / 63 = 227.4 N m a kW
    assert (
        "the most in case 2: torque is OUT OF BALANCE by 113.7 N m: 2501 N m into the shaft, 2615 N m out of it" in head
    )
    assert told.count("OUT OF BALANCE") == 1
    told = json.loads(run(capsys, "calc", sawmill, "--json")[1])["result"]
    assert "add up to 40 %" in told["cautions"][0] and "OUT OF BALANCE" in told["cautions"][1]
    whole = " ".join(run(capsys, "report", sawmill, "--markdown")[1].split())
    assert whole.index("OUT OF BALANCE") < whole.index("## In short")


def test_a_balanced_shaft_is_told_with_its_sums(capsys):
    _, out, _ = run(capsys, "calc", SAWMILL)
    assert "torque" not in out.partition("Checks ")[0]
    # 9549.3 * 11 / 63 * 1.35 = 2251 N m in the first case
    assert re.search(r"T_in +torques that run into the shaft +2 250 9\d\d", out)
    assert re.search(r"T_out +torques that run out of the shaft +2 250 9\d\d", out)
