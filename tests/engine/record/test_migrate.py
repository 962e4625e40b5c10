"""Records of every earlier version are read: one small step a version, the frozen files of each for ever."""

import re

import pytest

from engine.answers.document import get
from engine.errors import Problems
from engine.record import migrate, read
from engine.record.compared.verify import verify
from engine.record.computed import compute
from engine.record.document import SCHEMA
from engine.record.write import to_text
from tests.engine.record.test_read import RECORDS

FROZEN = sorted(RECORDS.glob("v*.toml"))


def test_every_minor_version_up_to_ours_has_a_frozen_file():
    major, minor = map(int, SCHEMA.split("."))
    versions = {re.match(r"v(\d+)_(\d+)_", path.name).groups() for path in FROZEN}
    assert versions >= {(str(major), str(number)) for number in range(minor + 1)}
    for path in FROZEN:
        number = ".".join(re.match(r"v(\d+)_(\d+)_", path.name).groups())
        assert path.read_text("utf-8").startswith(f'schema = "{number}"\n')


@pytest.mark.parametrize("path", FROZEN, ids=lambda path: path.name)
def test_a_frozen_record_is_read_computed_verified_and_written_in_todays_layout(path):
    record = read.read(path)
    assert record.warnings == ()
    computed = compute(record, str(path))
    found = verify(computed)
    assert found.compared > 200 or not record.found
    again = read.parse(to_text(computed.now, computed.result).encode())
    assert (again.schema, again.answers) == (SCHEMA, record.answers)
    assert verify(compute(again)).holds


def first_to_second(tables):
    duty = tables["answers"]["duty"]
    return tables | {"answers": {"duty": {"life_h": duty.pop("hours"), **duty}}}


def second_to_third(tables):
    tables["answers"]["duty"]["life_h"] *= 2
    return tables


def test_each_step_is_taken_once_and_in_order(monkeypatch):
    monkeypatch.setattr(migrate, "STEPS", {1: first_to_second, 2: second_to_third})
    monkeypatch.setattr(read, "SCHEMA", "3.0")
    for version, key in (("1.4", "hours = 50.0"), ("2.0", "life_h = 50.0"), ("3.0", "life_h = 100.0")):
        record = read.parse(f'schema = "{version}"\n[answers.duty]\n{key}\n'.encode())
        assert get(record.answers, "duty.life").value == 100.0
        assert record.schema == "3.0"
    with pytest.raises(Problems, match=r"version 4\.0 is newer than this program"):
        read.parse(b'schema = "4.0"\n')
    assert set(migrate.STEPS) == {1, 2}


def test_there_is_a_step_from_every_version_before_ours():
    assert set(migrate.STEPS) == set(range(1, int(SCHEMA.partition(".")[0])))
