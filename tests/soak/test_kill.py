"""Killed in the middle of saving, forty times: the record is whole and holds every answer that was acknowledged."""

import random
import subprocess
import sys
import time

import pytest

from engine.record.read import read
from tests.house.tree import ROOT

pytestmark = pytest.mark.slow

# answers as fast as they can be saved; a number on stdout means that the answer of that number was taken
CHILD = """
import itertools, sys
from pathlib import Path
from engine.answers.document import Answers
from engine.record.document import Record
from wizard.keeping.shelf import state_folder
from wizard.session import Session

named = sys.argv[1] != "-"
path = Path(sys.argv[1]) if named else state_folder() / "session-20240131-120000.toml"
session = Session(Record(Answers()), path, named)
for number in itertools.count(1):
    session.answer("duty.life", str(number))
    if number < 60:
        session.add_item("duty.cases", 0)
        session.answer(f"duty.cases[{number}].speed", str(number))
    assert session.trouble == "", session.trouble
    print(number, flush=True)
"""


@pytest.mark.parametrize("seed", range(40))
def test_an_acknowledged_answer_survives_a_kill(tmp_path, home, seed):
    named = seed % 2 == 0
    path = tmp_path / "shaft.toml" if named else home / "state" / "conewright" / "session-20240131-120000.toml"
    words = [sys.executable, "-c", CHILD, str(path) if named else "-"]
    child = subprocess.Popen(words, cwd=ROOT, stdout=subprocess.PIPE, text=True)
    try:
        first = child.stdout.readline()
        assert first == "1\n"
        time.sleep(random.Random(seed).uniform(0.0, 0.25))
    finally:
        child.kill()
    rest, _ = child.communicate(timeout=30)
    acknowledged = int(([first] + [line for line in rest.splitlines(keepends=True) if line.endswith("\n")])[-1])
    record = read(path)
    kept = record.answers.duty
    # the answer after the last acknowledged one may have been saved just before the kill
    assert acknowledged <= kept.life.value <= acknowledged + 1
    speeds = [case.speed.value for case in kept.cases[1:] if case.speed is not None]
    assert speeds[: min(acknowledged, 59)] == [float(n) for n in range(1, min(acknowledged, 59) + 1)]
    # at most the temporary file of the save that was cut short is left beside it and the order of the sessions
    known = {path.name, "home", "order.txt"}
    assert len([one for one in path.parent.iterdir() if one.name not in known]) <= 1
