"""A disk that is full: the trouble is said, the old file stands, and work goes on in memory."""

import contextlib
import shutil
import subprocess
import sys

import pytest

from engine.answers.document import Answers
from engine.record.document import Record
from engine.record.read import read
from tests.house.tree import ROOT
from wizard.session import Session

pytestmark = pytest.mark.slow

CHILD = """
import resource, sys
from pathlib import Path
from engine.answers.document import Answers
from engine.record.document import Record
from wizard.session import Session

session = Session(Record(Answers()), Path(sys.argv[1]), named=True)
session.answer("duty.life", "5000")
before = Path(sys.argv[1]).read_bytes()
# no file may grow beyond what this one has: what a full disk or a quota does, without needing one
resource.setrlimit(resource.RLIMIT_FSIZE, (len(before), len(before)))
session.answer("duty.job", "a name that does not fit any more")
assert session.trouble.startswith("NOT SAVED: "), session.trouble
assert Path(sys.argv[1]).read_bytes() == before
assert session.answers.duty.job
session.undo()
assert session.trouble == "", session.trouble
session.redo()
assert session.trouble
resource.setrlimit(resource.RLIMIT_FSIZE, (len(before), resource.getrlimit(resource.RLIMIT_FSIZE)[1]))
print("done")
"""


def test_a_limit_on_the_size_of_files(tmp_path):
    path = tmp_path / "shaft.toml"
    run = subprocess.run([sys.executable, "-c", CHILD, str(path)], cwd=ROOT, capture_output=True, text=True, timeout=60)
    assert (run.returncode, run.stdout, run.stderr) == (0, "done\n", "")
    assert read(path).answers.duty.life.value == 5000
    assert [one.name for one in tmp_path.iterdir() if one.name.endswith(".part")] == []


@pytest.fixture
def tiny_disk(tmp_path):
    folder = tmp_path / "disk"
    folder.mkdir()
    mount = shutil.which("mount")
    words = [mount or "mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(folder)]
    if mount is None or subprocess.run(words, capture_output=True).returncode:
        pytest.skip("no small disk can be mounted here")
    yield folder
    subprocess.run(["umount", str(folder)], check=True, capture_output=True)


def fill(path):
    """Write until the disk is full."""
    with path.open("wb", buffering=0) as file, contextlib.suppress(OSError):
        while True:
            file.write(b"x" * 4096)


def test_a_disk_that_fills_up_and_is_cleared(tiny_disk):
    path = tiny_disk / "shaft.toml"
    session = Session(Record(Answers()), path, named=True)
    session.answer("duty.life", "5000")
    assert session.trouble == ""
    before = path.read_bytes()
    filler = tiny_disk / "filler"
    fill(filler)
    session.answer("duty.job", "Drum shaft")
    assert session.trouble.startswith("NOT SAVED: No space left on device")
    assert path.read_bytes() == before
    assert {one.name for one in tiny_disk.iterdir()} == {"shaft.toml", "filler"}
    # it is kept elsewhere at once
    kept = session.rescued
    assert read(kept).answers.duty.job == "Drum shaft"
    # once there is room again, the next answer saves everything
    filler.unlink()
    session.answer("duty.life", "6000")
    assert session.trouble == ""
    assert (read(path).answers.duty.job, read(path).answers.duty.life.value) == ("Drum shaft", 6000)
    assert session.rescued is None
    assert not kept.exists()
