"""What a person sees who opens the checkout, and that the machine runs what README tells them to run."""

import os
import re
import shutil
import subprocess

import pytest

from tests.house.tree import ROOT

TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "wizard", "engine", "tests", "catalogs"}


@pytest.fixture(scope="module")
def tracked() -> list[str]:
    if not (ROOT / ".git").exists() or shutil.which("git") is None:
        pytest.skip("this is not a checkout")
    words = ["git", "-c", f"safe.directory={ROOT}", "ls-files", "-z"]
    listed = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=True).stdout
    return [path for path in listed.split("\0") if path]


def test_the_top_level_holds_what_it_should_and_nothing_else(tracked):
    assert {path.partition("/")[0] for path in tracked if not path.startswith(".")} == TOP


def test_nothing_made_by_a_run_is_kept(tracked):
    made = re.compile(r"(^|/)(__pycache__|\.[a-z_]+_cache|\.hypothesis|dist|build)/|\.pyc$|\.egg-info/|\.part$")
    assert [path for path in tracked if made.search(path)] == []


def fenced_blocks() -> list[str]:
    return re.findall(r"^```(?:sh|bash|console)\n(.*?)^```$", (ROOT / "README.md").read_text("utf-8"), re.M | re.S)


def test_readme_begins_with_how_to_run_it_and_how_to_test_it():
    run, test = fenced_blocks()[:2]
    assert "conewright" in run
    assert "pytest" in test
    # one command each, to be pasted as it stands
    assert len(run.strip().splitlines()) == len(test.strip().splitlines()) == 1


def test_the_machine_runs_the_test_command_that_readme_gives(tmp_path):
    script = ROOT / ".ci" / "run"
    assert os.access(script, os.X_OK)
    # it starts the command by `bash -c`, so a bash of our own that only notes what it is given shows what would run
    assert '-c "$command"' in script.read_text("utf-8")
    noted = tmp_path / "noted"
    stand_in = tmp_path / "bash"
    stand_in.write_text(f'#!/bin/sh\nfor word; do :; done\nprintf %s "$word" > {noted}\nexit 77\n', "utf-8")
    stand_in.chmod(0o755)
    path = f"{tmp_path}{os.pathsep}{os.environ['PATH']}"
    run = subprocess.run(
        [shutil.which("bash"), str(script)], env=os.environ | {"PATH": path}, capture_output=True, timeout=60
    )
    # the first command that fails ends the run with its status
    assert run.returncode == 77, run.stderr
    assert noted.read_text("utf-8").strip() == fenced_blocks()[1].strip()
