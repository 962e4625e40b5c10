"""What README shows works: its record is read, its duties are computed, its program runs, its commands exist."""

import os
import re
import subprocess
import sys

import pytest

from engine.catalogue.source import opened
from engine.record.many.duties import read as read_duties
from engine.record.read import parse, read
from tests.house.tree import ROOT
from wizard.cli import USAGE
from wizard.commands.words import COMMANDS, OPTIONS, parted

README = (ROOT / "README.md").read_text("utf-8")


def blocks(language):
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.M | re.S)


def test_the_record_of_the_readme_is_read_without_a_word():
    (text,) = blocks("toml")
    record = parse(text.encode(), "README.md")
    assert record.warnings == ()
    assert record.answers.duty.distance.value == 152.4
    assert record.answers.duty.cases[0].radial_y.value == 4000.0


def test_the_duties_of_the_readme_are_read(tmp_path):
    (text,) = re.findall(r"^    (id,duty.*?)\n\n", README, re.M | re.S)
    path = tmp_path / "duties.csv"
    path.write_text(re.sub(r"^ +", "", text, flags=re.M) + "\n")
    found = read_duties(path, read(ROOT / "catalogs" / "examples" / "ropeway_sheave.toml"))
    speeds = [found.record(row).answers.duty.cases[0].speed.value for row in found.rows]
    assert speeds == [42.0, 30.0]


def test_the_catalogue_of_the_readme_is_read(tmp_path):
    (text,) = re.findall(r"^    (designation,.*?)\n\n", README, re.M | re.S)
    path = tmp_path / "own.csv"
    path.write_text(re.sub(r"^ +", "", text, flags=re.M) + "\n")
    rows = opened(path).rows
    assert rows.designation.tolist() == ["X-40"]
    assert (rows.d[0], rows.Cr[0]) == (40.0, 78500.0)


def test_the_program_of_the_readme_runs():
    (code,) = blocks("python")
    line = [sys.executable, "-c", code]
    run = subprocess.run(line, cwd=ROOT, env=os.environ | {"PYTHONPATH": str(ROOT)}, capture_output=True, timeout=300)
    assert (run.returncode, run.stderr) == (0, b"")
    assert len(run.stdout.splitlines()) == 9


def test_every_link_leads_somewhere():
    for target in re.findall(r"\]\(([^)#]+)\)", README + (ROOT / "DEVELOPERS.md").read_text("utf-8")):
        assert (ROOT / target).exists(), target


def test_every_link_to_a_heading_finds_it():
    links = re.findall(r"\]\(((?:\w+\.md)?)#([\w-]+)\)", README)
    assert len(links) > 5
    for file, anchor in links:
        headings = re.findall(r"^#+ (.*)$", (ROOT / (file or "README.md")).read_text("utf-8"), re.M)
        assert anchor in {re.sub(r"[^\w -]", "", one.lower()).replace(" ", "-") for one in headings}, anchor


@pytest.mark.parametrize("command", [name for name in COMMANDS if name])
def test_every_command_stands_in_the_readme_and_in_the_help(command):
    assert f"conewright {command}" in README
    assert f"conewright {command}" in USAGE


def test_every_command_line_that_is_shown_is_a_right_one():
    lines = [line for block in blocks("sh") for line in block.splitlines() if line.startswith("conewright ")]
    lines += re.findall(r"`(conewright (?:calc|verify|diff|report|schema|demo|decode) [^`\[]+)`", README)
    assert len(lines) >= 4
    for line in lines:
        words = line.partition("#")[0].split()[1:]
        if words[0] != "catalog":
            assert parted(words)[1] == "", line


def test_every_option_stands_in_the_help():
    for option in OPTIONS:
        assert re.search(rf"(^|[\s,]){re.escape(option)}\b", USAGE), option


def options_of_the_readme():
    """Return the rows of the table of options: the options, and the commands that take them."""
    table = README.partition("| option | with | what it does |")[2].partition("\n\n")[0]
    rows = [line.split("|")[1:3] for line in table.splitlines()[2:]]
    return [(re.findall(r"`(-[-\w]+)", options), with_) for options, with_ in rows]


@pytest.mark.parametrize(
    ("command", "option"), [(name, option) for name, of in COMMANDS.items() for option in of.options]
)
def test_every_option_stands_in_the_readme_with_its_command(command, option):
    named = f"`{command}`" if command else "wizard"
    assert any(option in options and named in with_ for options, with_ in options_of_the_readme())


def test_the_readme_has_every_option_of_the_help_and_no_other():
    of_help = set(re.findall(r"^  +(?:(--?\w[-\w]*),? ?)(?:(--\w+), (--\w+))?", USAGE.partition("options:")[2], re.M))
    named = {option for options in of_help for option in options if option} | {"--builtin", "--help"}
    assert {option for options, _ in options_of_the_readme() for option in options} == named


def test_every_exit_status_of_the_help_stands_in_the_readme():
    said = " ".join(USAGE.partition("exit status:")[2].partition("\n\n")[0].split())
    paragraph = re.search(r"^Exit status: .*?\n\n", README, re.M | re.S)[0]
    for status in ("0", "1", "2", "3", "74"):
        assert re.search(rf"\b{status}\b", said), status
        assert re.search(rf"\b{status}\b", paragraph), status
