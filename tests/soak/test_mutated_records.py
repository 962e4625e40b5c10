"""Five thousand records with something wrong: read or refused in words, and never changed."""

import pytest

from engine.answers.document import all_asked
from engine.errors import Problems
from engine.record.read import parse, read
from engine.record.write import to_text
from tests.engine.record.damage import mutated
from tests.house.tree import ROOT

pytestmark = pytest.mark.slow

WHOLE = sorted([*(ROOT / "tests" / "records").glob("v*.toml"), *(ROOT / "catalogs" / "examples").glob("*.toml")])


@pytest.mark.parametrize("start", range(0, 5000, 250))
def test_mutated_records(tmp_path, start):
    path = tmp_path / "shaft.toml"
    for seed in range(start, start + 250):
        data = mutated(WHOLE[seed % len(WHOLE)].read_bytes(), 1000 + seed)
        path.write_bytes(data)
        try:
            record = read(path)
        except Problems as problems:
            lines = str(problems).splitlines()
            assert lines, seed
            assert all(line.isprintable() and len(line) < 4000 for line in lines), seed
        else:
            # what was taken can be shown, written, and read again
            assert all(item.question.show(item.value) for item in all_asked(record.answers) if item.value is not None)
            assert to_text(parse(to_text(record, None).encode()), None) == to_text(record, None), seed
        assert path.read_bytes() == data, seed
