"""The command line: every wrong word is answered in a sentence, no record is ever changed, no traceback is shown."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from engine import __version__
from tests.house.tree import ROOT
from wizard import cli
from wizard.exit_codes import Exit

RECORD = ROOT / "tests" / "records" / "v1_0_minimal.toml"
EXAMPLES = sorted((ROOT / "catalogs" / "examples").glob("*.toml"))


def started(*words, **changed):
    """Run the command as a process of its own."""
    environ = os.environ | {"PYTHONPATH": str(ROOT), **changed}
    line = [sys.executable, "-m", "wizard", *map(str, words)]
    return subprocess.run(line, stdin=subprocess.DEVNULL, capture_output=True, env=environ, timeout=120)


# words that are wrong


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--colour"], "there is no option --colour"),
        (["-x"], "there is no option -x"),
        (["calc", "--verbose", "r.toml"], "there is no option --verbose"),
        (["--\x1b[31m"], "there is no option --\\x1b[31m"),
        (["--json"], "--json goes with calc"),
        (["r.toml", "--json"], "--json goes with calc"),
        (["demo", "--json"], "--json goes with calc"),
        (["calc"], "calc needs a record, or duties"),
        (["calc", "--json"], "calc needs a record, or duties"),
        (["verify", "a.toml", "b.toml"], "verify needs one record"),
        (["demo", "r.toml"], "demo takes no file"),
        (["a.toml", "b.toml"], "one record at a time; 2 were given"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else "",
)
def test_a_wrong_command_line(words, says, capsys):
    assert cli.main(words) == Exit.BAD_INPUT == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert says in err
    assert "--help" in err
    assert all(line.isprintable() for line in err.splitlines())


@pytest.mark.parametrize("words", [["--help"], ["-h"], ["calc", "--help"], ["--nonsense", "--help"]])
def test_help_names_every_command_option_and_exit_status(words, capsys):
    assert cli.main(words) == 0
    out, err = capsys.readouterr()
    assert err == ""
    for word in (*cli.COMMANDS, *cli.OPTIONS, "--version", "--help", "exit status: 0", "licensed engineer"):
        assert word in out
    assert max(map(len, out.splitlines())) <= 100


def test_version_says_where_it_was_loaded_from(capsys):
    assert cli.main(["--version"]) == 0
    assert capsys.readouterr().out == f"conewright {__version__} from {ROOT}\n"


# records that cannot be used


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("missing.toml", "there is no such file"),
        ("", "is a folder"),
        ("missing/r.toml", "there is no such file"),
        ("nul\0.toml", ""),
        ("esc\x1b[2J.toml", "there is no such file"),
        ("x" * 300, ""),
    ],
    ids=["missing", "a folder", "in a missing folder", "null byte", "escape characters", "too long"],
)
def test_a_path_that_leads_to_no_record(tmp_path, capsys, name, says):
    assert cli.main(["calc", f"{tmp_path}/{name}"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("conewright: cannot use the file")
    assert says in err
    assert all(line.isprintable() for line in err.splitlines())


WHOLE = RECORD.read_text("utf-8")
#: name: (what is wrong with it, what the message must name)
DAMAGED = {
    "empty": (b"", "schema"),
    "not TOML": (b"schema = \n", "line 1"),
    "cut in the middle": (WHOLE.encode()[: len(WHOLE) // 2] + b'\nx = "', "TOML"),
    "not text": (b"\xff\xfe\x00schema", "UTF-8"),
    "zeros": (bytes(4096), "TOML"),
    "a picture": (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), "UTF-8"),
    "no schema": (WHOLE.replace('schema = "1.0"', "").encode(), "schema"),
    "schema of the future": (WHOLE.replace('"1.0"', '"2.0"', 1).encode(), "newer than this program"),
    "schema a number": (WHOLE.replace('"1.0"', "1.0", 1).encode(), "schema"),
    "text for a number": (WHOLE.replace("life_h = 15000.0", 'life_h = "long"').encode(), "answers.duty.life_h"),
    "out of bounds": (WHOLE.replace("speed_rpm = 120.0", "speed_rpm = -120.0").encode(), "cases[0].speed_rpm"),
    "not a number": (WHOLE.replace("mass_kg = 11.33980925", "mass_kg = nan # ").encode(), "answers.envelope.mass"),
    "no such option": (WHOLE.replace('"back_to_back"', '"side_by_side"').encode(), "answers.duty.arrangement"),
    "the two disagree": (WHOLE.replace('"6 in"', '"7 in"').encode(), "answers.duty.distance_mm"),
    "cases not a list": (b'schema = "1.0"\n[answers.duty]\ncases = 3\n', "answers.duty.cases"),
    "answers not a table": (b'schema = "1.0"\nanswers = 3\n', "answers"),
    "no such bearing": (WHOLE.replace('rank_by = "mass"', 'bearing_a = "V1"\nbearing_b = "V2"').encode(), "bearing_b"),
    "escape in a text": (WHOLE.replace("Drum shaft", "\\u001b[2J").encode(), "answers.duty.job"),
    "deep": (b'schema = "1.0"\nx = ' + b"[" * 5000 + b"]" * 5000, "nested"),
    "a long number": (b'schema = "1.0"\nx = ' + b"9" * 10000, "number"),
}


@pytest.mark.parametrize("damage", DAMAGED)
def test_a_damaged_record_is_refused_and_left_as_it_is(tmp_path, capsys, damage):
    data, names = DAMAGED[damage]
    assert data != WHOLE.encode()
    path = tmp_path / "damaged.toml"
    path.write_bytes(data)
    before = path.stat()
    assert cli.main(["calc", str(path)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("conewright: cannot use the file; it is left as it is.\n")
    assert str(path) in err
    assert names in err
    assert "Traceback" not in err
    assert all(line.isprintable() for line in err.splitlines())
    assert path.read_bytes() == data
    assert path.stat().st_mtime_ns == before.st_mtime_ns
    assert list(tmp_path.glob("*.part")) == []


def test_every_wrong_answer_is_named_at_once(tmp_path, capsys):
    text = WHOLE.replace("life_h = 15000.0", "life_h = -1.0").replace('shock = "moderate"', 'shock = "loud"')
    path = tmp_path / "two.toml"
    path.write_text(text)
    assert cli.main(["calc", str(path)]) == 2
    err = capsys.readouterr().err
    assert "answers.duty.life_h" in err
    assert "answers.steel.shock" in err
    # the line is named too, as an editor counts
    at = text.splitlines().index('shock = "loud"') + 1
    assert f"line {at}" in err


# computing


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_passes(path, capsys):
    assert cli.main(["calc", str(path)]) == Exit.PASSES == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert "The pair PASSES every check" in out
    assert out.isascii()


def test_there_are_examples():
    assert len(EXAMPLES) >= 2


def changed_example(tmp_path, before, after):
    text = EXAMPLES[0].read_text("utf-8")
    assert before in text
    path = tmp_path / "changed.toml"
    path.write_text(text.replace(before, after))
    return path


def test_a_pair_that_fails_a_check_is_said_and_exits_1(tmp_path, capsys):
    path = changed_example(tmp_path, 'life_h = 12000.0\nlife_typed = "12 000 h"', "life_h = 9000000.0")
    assert cli.main(["calc", str(path)]) == Exit.FAILS == 1
    out = capsys.readouterr().out
    assert "The pair FAILS: " in out
    assert "Life of the pair" in out.partition("FAILS: ")[2].splitlines()[0]


def test_an_incomplete_duty_is_not_a_pass(tmp_path, capsys):
    text = EXAMPLES[0].read_text("utf-8")
    kept = [line for line in text.splitlines() if not line.startswith(("distance_mm", "distance_typed"))]
    path = tmp_path / "incomplete.toml"
    path.write_text("\n".join(kept))
    assert cli.main(["calc", str(path)]) == 1
    out = capsys.readouterr().out
    assert "INCOMPLETE" in out
    assert "Still missing" in out


def test_json_holds_what_the_text_says(capsys):
    assert cli.main(["calc", str(EXAMPLES[0]), "--json"]) == 0
    said = json.loads(capsys.readouterr().out)
    assert cli.main(["calc", str(EXAMPLES[0])]) == 0
    text = capsys.readouterr().out
    assert said["result"]["verdict"] == "passes"
    assert said["result"]["bearing_a"] in text
    assert all(check["passes"] for check in said["result"]["checks"] if not check["advisory"])
    for check in said["result"]["checks"]:
        assert f"{check['name']}, {check['side']}" in text


def test_json_of_a_failing_pair(tmp_path, capsys):
    path = changed_example(tmp_path, 'life_h = 12000.0\nlife_typed = "12 000 h"', "life_h = 9000000.0")
    assert cli.main(["calc", str(path), "--json"]) == 1
    assert json.loads(capsys.readouterr().out)["result"]["verdict"] == "fails"


def test_a_record_without_a_choice_gets_the_first_of_its_shortlist(capsys):
    before = RECORD.read_bytes()
    assert cli.main(["calc", str(RECORD)]) == 0
    assert "No pair is chosen; the first of the shortlist is computed." in capsys.readouterr().out
    assert RECORD.read_bytes() == before


def test_a_duty_that_no_pair_meets_is_said(tmp_path, capsys):
    path = tmp_path / "hopeless.toml"
    path.write_text(WHOLE.replace("outside_a_to_mm = 150.0", "outside_a_to_mm = 41.0"))
    assert cli.main(["calc", str(path)]) == 2
    assert "none of the catalogue passes" in capsys.readouterr().err


# as a process


def test_the_exit_status_and_the_lines_of_a_process():
    run = started("calc", RECORD)
    assert run.returncode == 0
    assert run.stderr == b""
    assert started("calc", "missing.toml").returncode == 2


@pytest.mark.parametrize("words", [["calc", RECORD], ["calc", RECORD, "--json"], ["--help"]], ids=lambda w: str(w[-1]))
@pytest.mark.parametrize("reader", ["head -n 1", "true"])
def test_a_reader_that_goes_away_is_no_error(words, reader, tmp_path):
    script = f'"$@" 2>{tmp_path}/err | {reader}; echo "${{PIPESTATUS[0]}}"'
    line = ["bash", "-c", script, "bash", sys.executable, "-m", "wizard", *map(str, words)]
    run = subprocess.run(line, capture_output=True, env=os.environ | {"PYTHONPATH": str(ROOT)}, timeout=120)
    assert run.stdout.split()[-1] == b"0"
    assert (tmp_path / "err").read_bytes() == b""


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
def test_a_full_disk_is_one_line_and_exit_2():
    with open("/dev/full", "wb") as full:
        environ = os.environ | {"PYTHONPATH": str(ROOT)}
        run = subprocess.run(
            [sys.executable, "-m", "wizard", "calc", str(RECORD)],
            stdout=full, stderr=subprocess.PIPE, env=environ, timeout=120,
        )  # fmt: skip
    assert run.returncode == 2
    assert run.stderr == b"conewright: No space left on device\n"


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "utf-8"])
def test_a_name_in_any_script_is_printed_on_any_terminal(tmp_path, encoding):
    path = tmp_path / "r.toml"
    path.write_text(WHOLE.replace("Drum shaft", "Trömmelwelle ↑ 軸"), "utf-8")
    for form in ([], ["--json"]):
        run = started("calc", path, *form, PYTHONIOENCODING=encoding)
        assert run.returncode == 0, run.stderr
        assert run.stderr == b""


def test_without_a_terminal_the_wizard_says_so_in_one_line():
    for words in ([], ["demo"], [str(RECORD)]):
        run = started(*words)
        assert run.returncode == 2
        assert run.stdout == b""
        assert run.stderr.count(b"\n") == 1
        assert b"needs a terminal" in run.stderr


def test_a_closed_input_is_no_terminal():
    line = f'"{sys.executable}" -m wizard <&- 2>&1; echo $?'
    run = subprocess.run(
        ["bash", "-c", line], capture_output=True, text=True, env=os.environ | {"PYTHONPATH": str(ROOT)}, timeout=120
    )
    assert "needs a terminal" in run.stdout
    assert run.stdout.split()[-1] == "2"
