"""Twenty thousand records with something wrong: read or refused with file, line and key, and never changed.

What is read is also computed, verified and put side by side with the whole one, a share of it: in words or not at all.
"""

import pytest

from engine.answers.document import all_asked
from engine.errors import Problems
from engine.record.read import parse, read
from engine.record.write import to_text
from tests.engine.record.damage import mutated
from tests.house.tree import ROOT
from wizard import cli

pytestmark = pytest.mark.slow

WHOLE = sorted([*(ROOT / "tests" / "records").glob("v*.toml"), *(ROOT / "catalogs" / "examples").glob("*.toml")])
COUNT, STEP = 20_000, 500
#: Of what is read so much is also computed.
COMPUTED = 125
#: What has no line: there is nothing that it could stand on.
NOWHERE = ("the schema version is missing", "nested too deeply", "a number too long")


def check_problem(problem, path, seed):
    assert problem.path == str(path), seed
    assert problem.line is not None or any(words in problem.wrong for words in NOWHERE), (seed, str(problem))
    # what is no TOML has a line only; everything else the key of what is wrong
    assert problem.field or "not TOML" in problem.wrong or "UTF-8" in problem.wrong or "not a record" in problem.wrong
    assert str(problem).isprintable() and len(str(problem)) < 4000, seed


@pytest.mark.parametrize("start", range(0, COUNT, STEP))
def test_mutated_records(tmp_path, start, capsys):
    path, whole = tmp_path / "shaft.toml", tmp_path / "whole.toml"
    read_ones = 0
    for seed in range(start, start + STEP):
        before = WHOLE[seed % len(WHOLE)].read_bytes()
        data = mutated(before, 1000 + seed)
        path.write_bytes(data)
        try:
            record = read(path)
        except Problems as problems:
            for problem in problems.problems:
                check_problem(problem, path, seed)
        else:
            read_ones += 1
            for problem in record.unused.listed:
                check_problem(problem, path, seed)
            # what was taken can be shown, written, and read again
            assert all(item.question.show(item.value) for item in all_asked(record.answers) if item.value is not None)
            text = to_text(record, None)
            assert to_text(parse(text.encode()), None) == text, seed
            if read_ones % COMPUTED == 1:
                whole.write_bytes(before)
                commands(path, whole, capsys, seed)
        assert path.read_bytes() == data, seed
    assert 0 < read_ones < STEP
    assert sorted(one.name for one in tmp_path.iterdir()) in (
        ["home", "shaft.toml"], ["home", "shaft.toml", "whole.toml"],
    )  # fmt: skip


def commands(path, whole, capsys, seed):
    """Run every command that takes a record: each ends with a status and words, none with a traceback."""
    for words in (["verify", path], ["diff", whole, path], ["report", path, "--html"], ["report", path, "--fitter"]):
        status = cli.main([str(word) for word in words])
        out, err = capsys.readouterr()
        assert status in (0, 1, 2, 3), (seed, words)
        assert "Traceback" not in out + err, (seed, words)
        assert (out == "") == (status == 2), (seed, words)
