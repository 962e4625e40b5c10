"""Our own figures for the example records: they tell that something moved, not that it is right."""

from importlib.resources import files
from pathlib import Path

import pytest

from engine.record.document import Record
from engine.record.read import read
from engine.record.write import to_text
from wizard.commands.calc import compute

EXAMPLES = sorted(Path(str(files("catalogs") / "examples")).glob("*.toml"))


def test_there_is_a_metric_and_an_inch_example():
    systems = {read(path).answers.envelope.system for path in EXAMPLES}
    assert {"metric", "inch"} <= systems


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_computed_again_is_the_same_file(path, catalogue):
    record = read(path)
    result, notes = compute(record, str(path))
    assert notes == []
    assert result.passes
    fresh = Record(record.answers, catalogue="built-in", catalogue_hash=catalogue.content_hash())
    # other processors may round the last digits of a power otherwise; the figures themselves are compared by `notes`
    assert len(to_text(fresh, result).splitlines()) == len(path.read_text().splitlines())
