"""What every test starts from: fixed seeds, a home folder of its own, and the built-in catalogue read once."""

import os

import pytest
from hypothesis import HealthCheck, settings

# the many wizards that tests start would else compile all of it anew, each of them
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

# no deadline: on a loaded machine it would measure the neighbours
_ALWAYS = {"deadline": None, "derandomize": True, "suppress_health_check": [HealthCheck.too_slow]}
settings.register_profile("default", **_ALWAYS, max_examples=100)
settings.register_profile("ci", **_ALWAYS, max_examples=300)
settings.load_profile("ci" if os.environ.get("CI") else "default")


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    """Give every test, and every process it starts, an empty home, so that no session of a person is ever touched."""
    folder = tmp_path / "home"
    folder.mkdir()
    monkeypatch.setenv("HOME", str(folder))
    monkeypatch.setenv("XDG_STATE_HOME", str(folder / "state"))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(folder / "config"))
    return folder


@pytest.fixture(scope="session")
def catalogue():
    """Return the built-in catalogue."""
    from engine.catalogue import read

    return read.builtin()
