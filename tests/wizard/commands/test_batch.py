"""calc over many: rows of duties and records, in order, on any number of cores; a bad one stops no other."""

import csv
import io
import json
import math
import os
import signal
import subprocess
import sys
import time
from types import SimpleNamespace

import pytest

from engine.errors import Problems
from engine.record.computed import compute
from engine.record.many.columns import column, places
from engine.record.many.duties import read as read_duties
from engine.record.many.outcome import COLUMNS, Bench
from engine.record.read import read
from tests.house.tree import ROOT
from tests.wizard.commands.test_documents import EXAMPLES, INCH, MINIMAL, run
from wizard.commands import batch

HEADER = "id,duty.cases[0].speed_rpm,cases[0].radial_y_typed,temperature_degC,duty.cases[1].share_percent\n"
ROWS = ("a,42,9800 lbf,35,40\n", "b,30,44 kN,50,\n", "c,20,,,\n", "d,55,100 kN,60,10\n")


def duties(tmp_path, text, name="d.csv", encoding="utf-8"):
    path = tmp_path / name
    path.write_text(text, encoding)
    return path


def rows_of(out):
    return list(csv.DictReader(io.StringIO(out)))


def test_each_row_is_one_line_of_results_in_order(tmp_path, capsys):
    path = duties(tmp_path, HEADER + "".join(ROWS))
    status, out, err = run(capsys, "calc", path, "--base", INCH)
    found = rows_of(out)
    assert tuple(found[0]) == COLUMNS
    assert [row["id"] for row in found] == ["a", "b", "c", "d"]
    assert [row["row"] for row in found] == [f"{path}:{line}" for line in (2, 3, 4, 5)]
    assert {row["bearing_a"] for row in found} == {"Q286.1+6"}
    assert status == 1 and found[3]["verdict"] == "fails"  # 100 kN is too much
    assert "4 computed in" in err


def test_a_row_is_computed_as_a_record_of_the_same_answers_is(tmp_path, capsys):
    path = duties(tmp_path, HEADER + ROWS[0] + ROWS[1])
    _, out, _ = run(capsys, "calc", path, "--base", INCH, "--json")
    base = read(INCH)
    answers = read_duties(path, base)
    for line, row in zip(out.splitlines(), answers.rows, strict=True):
        told = json.loads(line)
        whole = compute(answers.record(row), str(path)).result
        checks = {(one["key"], one["side"]): one for one in told["checks"]}
        for check in whole.checks:
            if (check.key, check.side) in checks:  # checks of the load distribution are left to single records
                one = checks[check.key, check.side]
                use = math.inf if one["utilisation"] == "unlimited" else one["utilisation"]
                assert (use, one["passes"]) == (check.utilisation, check.passes)
        assert told["verdict"] == whole.verdict
    # the first row says in other words what the base says
    first = json.loads(out.splitlines()[0])
    own = compute(base, str(INCH)).result
    assert first["utilisation"] == max(check.utilisation for check in own.checks if check.key == "system_life")


def test_what_a_row_leaves_open_is_the_bases_and_what_it_states_replaces_all_of_it(tmp_path):
    path = duties(tmp_path, "duty.life_h,duty.job,envelope.bore_a_from_mm\n5000,x,\n,,100\n")
    found = read_duties(path, read(INCH))
    first, second = (found.record(row).answers for row in found.rows)
    base = read(INCH).answers
    assert (first.duty.life.value, first.duty.life.typed) == (5000.0, "")
    assert first.duty.cases == base.duty.cases and first.steel == base.steel
    assert second.duty.life == base.duty.life
    # a range is one answer: the end that the row leaves out is open
    assert (second.envelope.bore_a.least, second.envelope.bore_a.greatest) == (100.0, None)


def test_bad_rows_say_line_and_column_and_stop_no_other(tmp_path, capsys):
    bad = ("e,fast,,,\n", "f,42,9 bananas,,\n", "g,-1,,,\n", "h,42,9800 lbf,35,40,99\n", "i,42,,,400\n")
    path = duties(tmp_path, HEADER + ROWS[0] + "".join(bad) + ROWS[1])
    status, out, _ = run(capsys, "calc", path, "--base", INCH)
    found = rows_of(out)
    assert status == 1
    assert [bool(row["verdict"]) for row in found] == [True, False, False, False, False, False, True]
    problems = [row["problem"] for row in found]
    assert f'{path}, line 3, column "duty.cases[0].speed_rpm": Speed: speed_rpm is not a number: "fast"' in problems[1]
    assert 'line 4, column "cases[0].radial_y_typed"' in problems[2]
    assert "out of bounds" in problems[3]
    assert "line 6: 6 cells are more than the header has" in problems[4]
    assert "share_percent" in problems[5]


@pytest.mark.parametrize(
    ("cell", "shown"),
    [
        ("perhaps", 'not true or false: "perhaps";'),
        ("12 rpm", 'not a number: "12 rpm";'),
        ("\x1b[31mred", 'not a number: "\\x1b[31mred";'),
        ("x" * 500, f'not a number: "{"x" * 57}...";'),
        ("nan", "not a finite number: nan;"),
    ],
    ids=["word", "unit", "escape", "long", "nan"],
)
def test_what_stood_in_a_cell_that_is_no_number_is_shown_plain_and_cut(tmp_path, cell, shown):
    key = "lubrication.ep_additive" if "true" in shown else "duty.cases[0].speed_rpm"
    path = duties(tmp_path, f"id,{key}\na,{cell}\n")
    found = read_duties(path, read(INCH))
    with pytest.raises(Problems) as problems:
        found.record(found.rows[0])
    assert shown in str(problems.value)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("colour,duty.life_h\nred,1\n", 'column "colour": is no answer of a record'),
        ("duty.lief_h,duty.job\n1,x\n", 'did you mean "duty.life_h"?'),
        ("duty.life_h,life_h\n1,2\n", 'column "life_h": stands twice'),
        ("speed_rpm,duty.life_h\n1,1\n", 'column "speed_rpm": is no answer of a record'),
        ("duty.cases[9999].speed_rpm,duty.life_h\n1,1\n", "is no answer"),
        ("duty.life_h\n", "holds no row of data"),
        ("1,2\n3,4\n", "has no header that is known"),
        ("", "is empty"),
    ],
)
def test_a_table_whose_header_cannot_be_used_is_refused(tmp_path, text, says, capsys):
    path = duties(tmp_path, text)
    status, out, err = run(capsys, "calc", path, "--base", INCH)
    assert (status, out) == (2, "")
    assert str(path) in err and says in err


def test_semicolons_decimal_commas_and_other_encodings(tmp_path, capsys):
    text = "id;duty.cases[0].speed_rpm;duty.job\nä;42,5;Förderband\n"
    path = duties(tmp_path, text, encoding="cp1252")
    _, out, err = run(capsys, "calc", path, "--base", INCH)
    assert (rows_of(out)[0]["id"], rows_of(out)[0]["job"]) == ("ä", "Förderband")
    assert "Windows-1252" in err
    assert read_duties(path, read(INCH)).record(read_duties(path).rows[0]).answers.duty.cases[0].speed.value == 42.5


def test_without_a_base_the_best_pair_is_chosen_for_each_row(tmp_path, capsys):
    header = "duty.distance_mm,duty.cases[0].speed_rpm,duty.cases[0].radial_y_N,envelope.bore_a_from_mm\n"
    path = duties(tmp_path, header + "200,300,9000,50\n200,300,,\n")
    status, out, _ = run(capsys, "calc", path)
    first, second = rows_of(out)
    assert first["bearing_a"] and first["verdict"] == "passes"
    assert (status == 1 and "missing" in second["problem"]) or "no pair is chosen" in second["problem"]


def test_many_records_one_of_which_is_not_there(tmp_path, capsys):
    status, out, _ = run(capsys, "calc", *EXAMPLES, tmp_path / "none.toml", MINIMAL)
    found = rows_of(out)
    assert status == 1
    assert [row["verdict"] for row in found] == [*["passes"] * len(EXAMPLES), "", "passes"]
    assert "there is no such file" in found[-2]["problem"]


def test_a_table_written_to_a_file_in_either_form(tmp_path, capsys):
    path = duties(tmp_path, HEADER + "".join(ROWS))
    for name in ("out.csv", "out.jsonl"):
        status, out, err = run(capsys, "calc", path, "--base", INCH, "-o", tmp_path / name)
        assert (status, out) == (1, "")
        assert f"Written: {tmp_path / name}" in err
    told = [json.loads(line) for line in (tmp_path / "out.jsonl").read_text().splitlines()]
    flat = rows_of((tmp_path / "out.csv").read_text())
    assert [one["id"] for one in told] == [one["id"] for one in flat]
    # a number in the CSV is the same to the last bit
    assert [one["utilisation"] for one in told] == [float(one["utilisation"]) for one in flat]
    assert sorted(one.name for one in tmp_path.iterdir() if one.is_file()) == ["d.csv", "out.csv", "out.jsonl"]
    status, _, err = run(capsys, "calc", path, "-o", path)
    assert status == 2 and "never changed" in err
    assert run(capsys, "calc", path, "-o", tmp_path / "none" / "o.csv")[0] == 2


@pytest.mark.parametrize("words", [["--jobs", "0"], ["--jobs", "x"], ["--jobs", "9999"], ["--jobs", "²"]])
def test_a_number_of_cores_that_is_none(tmp_path, words, capsys):
    status, _, err = run(capsys, "calc", duties(tmp_path, HEADER + ROWS[0]), *words)
    assert status == 2 and "--jobs" in err


def test_two_tables_or_a_base_for_records_are_refused(tmp_path, capsys):
    path = duties(tmp_path, HEADER + ROWS[0])
    assert run(capsys, "calc", path, path)[0] == 2
    status, _, err = run(capsys, "calc", INCH, MINIMAL, "--base", INCH)
    assert status == 2 and "--base" in err


def test_two_cores_give_what_one_gives(tmp_path, capsys):
    text = HEADER + "".join(f"r{at},{20 + at % 30},{9000 + 40 * at} lbf,{30 + at % 40},\n" for at in range(150))
    path = duties(tmp_path, text + "bad,row,,,\n")
    _, one, _ = run(capsys, "calc", path, "--base", INCH, "--jobs", "1")
    _, two, err = run(capsys, "calc", path, "--base", INCH, "--jobs", "2")
    assert one == two
    assert len(rows_of(one)) == 151
    assert "on 2 cores" in err


def test_a_fault_of_ours_in_one_row_is_told_and_the_others_go_on(tmp_path, monkeypatch):
    path = duties(tmp_path, HEADER + "".join(ROWS))
    found = read_duties(path, read(INCH))
    bench = Bench(found, None)
    from engine.record.many import outcome

    real = outcome.evaluate
    calls = []

    def sometimes(*given):
        calls.append(given)
        if len(calls) == 2:
            raise ZeroDivisionError("by \x1b[2J")
        return real(*given)

    monkeypatch.setattr(outcome, "evaluate", sometimes)
    results = [bench.outcome(row) for row in found.rows]
    assert [bool(one.columns.get("verdict")) for one in results] == [True, False, True, True]
    assert results[1].columns["problem"] == "could not be computed: ZeroDivisionError: by \\x1b[2J"


def test_interrupted_it_writes_what_is_done_and_says_so(tmp_path):
    text = HEADER + "".join(f"r{at},{20 + at % 30},44 kN,40,\n" for at in range(60_000))
    path, out = duties(tmp_path, text), tmp_path / "out.csv"
    line = [sys.executable, "-m", "wizard", "calc", str(path), "--base", str(INCH), "--jobs", "2", "-o", str(out)]
    environ = os.environ | {"PYTHONPATH": str(ROOT)}
    with subprocess.Popen(line, stderr=subprocess.PIPE, env=environ, text=True) as process:
        try:
            deadline = time.time() + 60
            while not any(one.stat().st_size > 20_000 for one in tmp_path.glob(".out.csv.*.part")):
                assert process.poll() is None, process.stderr.read()
                assert time.time() < deadline, list(tmp_path.iterdir())
                time.sleep(0.05)
            process.send_signal(signal.SIGINT)
            _, err = process.communicate(timeout=60)
        finally:
            process.kill()  # else the test would wait for all rows where it fails
    assert process.returncode == 130
    assert "interrupted; " in err and "Traceback" not in err
    found = rows_of(out.read_text())
    assert 0 < len(found) < 60_000
    assert [row["id"] for row in found] == [f"r{at}" for at in range(len(found))]
    assert list(tmp_path.glob(".out*")) == []


def test_progress_is_drawn_on_a_terminal_only():
    class Terminal(io.StringIO):
        def isatty(self):
            return True

    for out, drawn in ((Terminal(), True), (io.StringIO(), False)):
        progress = batch._Progress(3, 1, out)
        progress._last = 0.0
        outcomes = [SimpleNamespace(unused=False)] * 3
        assert list(progress.watched(iter(outcomes))) == outcomes
        progress.end()
        assert ("[########" in out.getvalue()) == drawn
        assert "3 computed in" in out.getvalue()


def test_every_answer_of_a_record_has_a_column():
    for path, place in places().items():
        name = path.replace("[]", "[2]")
        found = column(name, 0)
        assert found is not None and found.place == place
        assert column(f"answers.{name}", 0) == found
        assert found.item == (2 if place.listed else 0)
