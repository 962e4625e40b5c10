"""Records of every earlier version are read: one small step a version, the frozen files of each for ever."""

import re
import tomllib

import pytest

from engine import __version__
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


#: What verify says of each frozen result that is no longer what is computed: why its figures moved. Each was written by
#: the program of its day. Those that take long are left to the slow tests.
WHY = {
    "v1_0_before_fits": {"catalogue", "version"},
    "v1_0_with_result": {"catalogue", "version"},
    "v1_1_first": {"catalogue"},
    "v1_1_with_result": {"catalogue"},
    "v1_1_with_setting": {"unexplained"},
    "v1_1_settled_heat": {"unexplained"},
}
SLOW = {"v1_1_first", "v1_1_with_setting", "v1_1_settled_heat"}
#: Written on a catalogue that had other pairs: its answers are read, its pair is no longer to be had.
OTHER_PAIRS = "v1_0_of_another_catalogue"
COMPUTED = [
    pytest.param(path, id=path.stem, marks=[pytest.mark.slow] if path.stem in SLOW else [])
    for path in FROZEN
    if path.stem != OTHER_PAIRS
]


@pytest.mark.parametrize("path", FROZEN, ids=lambda path: path.stem)
def test_a_frozen_record_is_opened_says_what_changed_and_keeps_every_answer(path):
    before = path.read_bytes()
    record = read.read(path)
    assert record.schema == SCHEMA
    assert not record.unused.listed
    if record.found_schema == "1.0":
        assert record.warnings == (
            "The record is of layout 1.0, read as 1.1. New in 1.1: fits and setting are asked for, open questions of "
            "them are assumed, and results are sealed.",
        )
    else:
        assert record.warnings == ()
    again = read.parse(to_text(record, None).encode())
    assert (again.schema, again.answers, again.warnings) == (SCHEMA, record.answers, ())
    assert path.read_bytes() == before
    # no answer fell out on the way: each key of the old file is there again
    old, new = (tomllib.loads(text)["answers"] for text in (before.decode(), to_text(record, None)))
    assert keys_of(old) <= keys_of(new)


def keys_of(value, at=""):
    """Return the paths of all keys that hold something."""
    if isinstance(value, dict):
        return {path for key, inner in value.items() for path in keys_of(inner, f"{at}.{key}")}
    if isinstance(value, list) and value and isinstance(value[0], dict):
        return {path for place, inner in enumerate(value) for path in keys_of(inner, f"{at}[{place}]")}
    return {at}


@pytest.mark.parametrize("path", COMPUTED)
def test_a_frozen_record_is_computed_verified_and_written_in_todays_layout(path):
    record = read.read(path)
    computed = compute(record, str(path))
    found = verify(computed)
    assert found.compared > 150 or not record.found
    # it verifies, or says why a figure moved
    newer = {"engine"} if record.engine != __version__ and record.found else set()
    expected = (WHY.get(path.stem, {"catalogue"}) - ({"unexplained"} if newer else set())) | newer
    assert {reason.kind for reason in found.reasons} == expected
    # of several reasons none can be told for one figure
    assert all(moved.why for moved in found.moved) or len(expected - {"version"}) > 1
    again = read.parse(to_text(computed.now, computed.result).encode())
    assert (again.schema, again.answers) == (SCHEMA, record.answers)
    assert verify(compute(again)).holds


def test_a_record_whose_pair_the_catalogue_no_longer_has_is_refused_with_its_key_and_the_nearest():
    path = RECORDS / f"{OTHER_PAIRS}.toml"
    with pytest.raises(Problems, match=r"answers\.choice\.bearing_a: no assembly is named .* did you mean"):
        compute(read.read(path), str(path))


def test_every_frozen_result_has_what_is_said_of_it():
    assert {path.stem for path in FROZEN if read.read(path).found} == {*WHY, OTHER_PAIRS}


def first_to_second(tables):
    duty = tables["answers"]["duty"]
    return tables | {"answers": {"duty": {"life_h": duty.pop("hours"), **duty}}}


def second_to_third(tables):
    tables["answers"]["duty"]["life_h"] *= 2
    return tables


def test_each_step_is_taken_once_and_in_order_and_says_what_is_new(monkeypatch):
    steps = {
        "1.4": migrate.Step("2.0", "hours are named life_h", first_to_second),
        "2.0": migrate.Step("3.0", "lives are doubled", second_to_third),
    }
    monkeypatch.setattr(migrate, "STEPS", steps)
    monkeypatch.setattr(read, "SCHEMA", "3.0")
    told = "The record is of layout {}, read as 3.0."
    for version, key, said in (
        ("1.4", "hours = 50.0", (f"{told} New in 2.0: hours are named life_h. New in 3.0: lives are doubled.",)),
        ("2.0", "life_h = 50.0", (f"{told} New in 3.0: lives are doubled.",)),
        ("3.0", "life_h = 100.0", ()),
    ):
        record = read.parse(f'schema = "{version}"\n[answers.duty]\n{key}\n'.encode())
        assert get(record.answers, "duty.life").value == 100.0
        assert record.schema == "3.0"
        assert record.warnings == tuple(one.format(version) for one in said)
    with pytest.raises(Problems, match=r"line 1.*version 4\.0 is newer than this program, which knows 3\.0"):
        read.parse(b'schema = "4.0"\n')


def test_there_is_a_step_from_every_version_before_ours_that_leads_to_ours():
    major, minor = map(int, SCHEMA.split("."))
    assert major == 1
    assert set(migrate.STEPS) == {f"1.{number}" for number in range(minor)}
    for version, step in migrate.STEPS.items():
        assert step.to == f"1.{int(version[2:]) + 1}"
        assert step.new
