"""Names with markup, escape sequences, turned writing and signs of no width reach no terminal from any command."""

import pytest

from tests.wizard.running import DUTY, new_session
from wizard.cli import main

#: A window title, a colour, 8-bit forms of both, turned writing, a sign of no width.
OBEYED = "\x1b]0;owned\x07\x1b[31m\x9b31m\x9d2;t\x9c\u202eright\u200bto left\u2066"
#: Shown as it is: markup, another script, a formula of a spreadsheet.
LITERAL = "[bold]x[/] \N{CJK UNIFIED IDEOGRAPH-78E8}\N{CJK UNIFIED IDEOGRAPH-7C89} =1+cmd"


def record(folder, name, text):
    """Write a record with a text wherever one can be, and return its name."""
    session = new_session(folder, DUTY)
    for path in ("duty.job", "duty.cases[0].name", "choice.customer", "choice.project"):
        session.put(path, text, "")
    session.path = folder / name
    assert session.save()
    return name


def said_by(capsys, words):
    """Run a command; return all that it wrote, which holds nothing that a terminal obeys."""
    main(words)
    out, err = capsys.readouterr()
    assert [line for line in (out + err).splitlines() if not line.isprintable()] == []
    assert out + err
    return out + err


@pytest.mark.parametrize("command", [["calc"], ["calc", "--json"], ["verify"], ["report"], ["diff", "other.toml"]])
def test_what_would_be_obeyed_is_not_written_out(command, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    record(tmp_path, "other.toml", "plain")
    name = record(tmp_path, f"{OBEYED}.toml".replace("\x07", ""), OBEYED)
    assert "answers.duty.job" in said_by(capsys, [*command, name])


@pytest.mark.parametrize("command", [["report"], ["diff", "other.toml"], ["calc", "other.toml"]])
def test_markup_and_other_scripts_are_written_as_they_are(command, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    record(tmp_path, "other.toml", "plain")
    said = said_by(capsys, [*command, record(tmp_path, "mill.toml", LITERAL)])
    assert "[bold]x[/]" in said.replace("\\", "")
    assert LITERAL[11:13] in said


@pytest.mark.parametrize(
    "words",
    [["calc"], ["calc", "-o"], ["verify"], ["diff", "x.toml"], ["report"], ["report", "-o"], ["decode"],
     ["serve", "--port"], ["catalog", "check"], ["catalog", "use"], ["lubricants", "check"], ["lubricants", "use"],
     ["schema", "-o"], [], ["--"]],
    ids=" ".join,
)  # fmt: skip
def test_what_was_typed_on_the_command_line_is_told_without_being_obeyed(words, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    said_by(capsys, [*words, f"{OBEYED}/x.toml"] if words != ["--"] else [f"--{OBEYED}"])
