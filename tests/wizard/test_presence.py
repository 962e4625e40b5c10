"""Which record is open elsewhere: only what a living process of this machine says counts, and nothing blocks."""

import os
import subprocess
import sys

import pytest

from tests.house.tree import ROOT
from wizard.keeping import presence
from wizard.keeping.shelf import state_folder

CHILD = """
import sys
from pathlib import Path
from wizard.keeping import presence
presence.mark(Path(sys.argv[1]))
print("marked", flush=True)
sys.stdin.readline()
"""


@pytest.fixture
def child(tmp_path):
    words = [sys.executable, "-c", CHILD, str(tmp_path / "r.toml")]
    process = subprocess.Popen(words, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    assert process.stdout.readline() == "marked\n"
    yield process
    process.kill()
    process.communicate()


def marks():
    return sorted(file.name for file in (state_folder() / "open").iterdir())


def test_a_record_open_in_another_process_is_found_and_in_the_own_not(tmp_path, child):
    presence.mark(tmp_path / "r.toml")
    assert [one.process for one in presence.others(tmp_path / "r.toml")] == [child.pid]
    assert presence.others(tmp_path / "other.toml") == []
    presence.unmark()
    assert marks() == [f"{child.pid}.txt"]


def test_the_mark_of_a_killed_process_says_nothing_and_goes(tmp_path, child):
    child.kill()
    child.wait()
    assert presence.others(tmp_path / "r.toml") == []
    assert marks() == []


@pytest.mark.skipif(not os.path.exists("/proc/self/stat"), reason="no /proc tells when a process began")
def test_a_number_that_was_used_again_is_another_process(tmp_path, child):
    file = state_folder() / "open" / f"{child.pid}.txt"
    machine, begun, rest = file.read_text().split("\n", 2)
    file.write_text(f"{machine}\n{int(begun) - 1}\n{rest}")
    assert presence.others(tmp_path / "r.toml") == []


def test_a_mark_of_another_machine_is_left_alone(tmp_path, child):
    file = state_folder() / "open" / f"{child.pid}.txt"
    file.write_text("elsewhere\n" + file.read_text().partition("\n")[2])
    assert presence.others(tmp_path / "r.toml") == []
    assert marks() == [file.name]


@pytest.mark.parametrize("text", ["", "\n\n\n", "\0", "a\nb\nc\nd\n", "a" * 10_000])
def test_a_torn_mark_is_no_stumbling_block(tmp_path, child, text):
    (state_folder() / "open" / "1.txt").write_text(text)
    (state_folder() / "open" / "x.txt").write_text(text)
    (state_folder() / "open" / "0.txt").write_text(text)
    assert [one.process for one in presence.others(tmp_path / "r.toml")] == [child.pid]


def test_where_no_mark_can_be_written_nothing_happens(tmp_path, home):
    (home / "state").write_text("in the way")
    presence.mark(tmp_path / "r.toml")
    assert presence.others(tmp_path / "r.toml") == []
    presence.unmark()
