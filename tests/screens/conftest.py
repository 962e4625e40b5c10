"""The sessions that the screens are shown of, and a memory for what they ask of the engine."""

from dataclasses import replace
from functools import cache
from importlib.resources import files

import msgspec
import pytest

from engine.answers.document import Answers
from engine.record.document import Record
from engine.record.read import parse
from tests.screens import memory
from wizard.commands.open_session import DEMO
from wizard.session import Session


@pytest.fixture(scope="session")
def kept():
    return memory.functions()


@pytest.fixture
def asked_once(kept, monkeypatch):
    """Let what several screens ask of the engine be computed once; each is a wizard of its own all the same."""
    for place, function in kept.items():
        monkeypatch.setattr(place, function)


@cache
def _read(name):
    return parse((files("catalogs") / "examples" / name).read_bytes(), name)


def example_record(name):
    """Return an example, with answers that are no other session's: by them a wizard tells what was found for it."""
    record = _read(name)
    return replace(record, answers=msgspec.structs.replace(record.answers))


@pytest.fixture
def example(tmp_path):
    return Session(example_record(DEMO), tmp_path / "sheave.toml", named=True)


@pytest.fixture
def sawmill(tmp_path):
    name = "sawmill_log_conveyor.toml"
    return Session(example_record(name), tmp_path / name, named=True)


@pytest.fixture
def fresh(tmp_path):
    return Session(Record(Answers()), tmp_path / "session-1.toml", named=False)
