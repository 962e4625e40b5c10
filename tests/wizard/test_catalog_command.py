"""conewright catalog: check, corrected copy, the catalogue that is remembered."""

import io
import os

import pytest

from engine.errors import Problems
from tests.engine.catalogue.intake.files import content
from wizard.commands.own import catalog
from wizard.commands.own.settings import settings_file


@pytest.fixture
def environ(tmp_path):
    return {"HOME": str(tmp_path), "XDG_CONFIG_HOME": str(tmp_path / "config")}


@pytest.fixture
def own(tmp_path):
    path = tmp_path / "own.csv"
    path.write_text(content())
    return path


def test_check_of_a_sound_file(own):
    out = io.StringIO()
    assert catalog.check(own, None, out) == 0
    assert "3 rows of 3 taken" in out.getvalue()


def test_check_of_a_file_with_something_wrong(own):
    own.write_text(content([("d", 1, "x")]))
    out = io.StringIO()
    assert catalog.check(own, None, out) == 1
    assert 'line 3, column "d_mm": "x" is not a number; accepted: a number from 3 to 2000 mm' in out.getvalue()


@pytest.mark.parametrize("name", ["none.csv", "", "a\0b", "."])
def test_check_of_what_cannot_be_read(tmp_path, name):
    with pytest.raises(Problems, match="cannot be read"):
        catalog.check(tmp_path / name, None, io.StringIO())


def test_a_corrected_copy(own, tmp_path):
    own.write_text(content([(name, None, lambda cell: str(int(cell) / 1000)) for name in ("Cr", "C0r")]))
    before, copy, out = own.read_bytes(), tmp_path / "copy.csv", io.StringIO()
    assert catalog.check(own, copy, out) == 1
    assert own.read_bytes() == before
    assert "3 rows, 0 left out" in out.getvalue() and "kN given as N" in out.getvalue()
    assert catalog.check(copy, None, io.StringIO()) == 0


@pytest.mark.parametrize("way", ["itself", "link", "hard link"])
def test_the_original_is_never_overwritten(own, tmp_path, way):
    copy = own
    if way != "itself":
        copy = tmp_path / "other.csv"
        (os.symlink if way == "link" else os.link)(own, copy)
    before = own.read_bytes()
    with pytest.raises(Problems, match="never changed"):
        catalog.check(own, copy, io.StringIO())
    assert own.read_bytes() == before


def test_a_copy_that_cannot_be_written(own, tmp_path):
    with pytest.raises(Problems, match="cannot be written"):
        catalog.check(own, tmp_path / "no" / "copy.csv", io.StringIO())


def test_use_and_back(own, environ, monkeypatch):
    assert catalog.active(environ) is None
    monkeypatch.chdir(own.parent)
    assert catalog.use(own.relative_to(own.parent), environ, io.StringIO()) == 0
    assert catalog.active(environ) == own
    assert catalog.use(None, environ, io.StringIO()) == 0
    assert catalog.active(environ) is None


def test_other_settings_stay(own, environ):
    file = settings_file(environ)
    file.parent.mkdir(parents=True)
    file.write_text('[screen]\ntheme = "dark"\n')
    catalog.use(own, environ, io.StringIO())
    assert 'theme = "dark"' in file.read_text() and str(own) in file.read_text()
    catalog.use(None, environ, io.StringIO())
    assert file.read_text() == '[screen]\ntheme = "dark"\n'


def test_a_file_of_which_nothing_can_be_used_changes_no_setting(own, environ):
    catalog.use(own, environ, io.StringIO())
    bad = own.with_name("bad.csv")
    bad.write_text(content([("d", None, "x")]))
    with pytest.raises(Problems):
        catalog.use(bad, environ, io.StringIO())
    assert catalog.active(environ) == own


@pytest.mark.parametrize(
    "text", ["[catalogue", "catalogue = 3", "[catalogue]\npath = 3", '[catalogue]\npath = "own.csv"', "\0"]
)
def test_settings_that_cannot_be_read_are_told_and_never_taken_for_none(environ, text):
    file = settings_file(environ)
    file.parent.mkdir(parents=True)
    file.write_text(text)
    with pytest.raises(Problems, match=r"settings\.toml"):
        catalog.active(environ)


def test_the_settings_stand_where_the_desktop_says():
    assert settings_file({"HOME": "/home/x"}).as_posix() == "/home/x/.config/conewright/settings.toml"
    # a relative folder is to be ignored, by the XDG base directory specification
    assert settings_file({"HOME": "/home/x", "XDG_CONFIG_HOME": "y"}).parts[1] == "home"


def test_the_format_is_printed():
    out = io.StringIO()
    assert catalog.show_format(out) == 0
    assert "d_mm, d_in" in out.getvalue()
