"""Never half a file: whatever fails while saving, the old record stands as it was."""

import errno
import os
import stat

import pytest

from engine.answers.document import Answers, put
from engine.answers.question import Quantity
from engine.record.document import Record
from engine.record.read import read
from engine.record.write import to_text, write

OLD = 'schema = "1.0"\n# old\n'
NEW = to_text(Record(put(Answers(), "duty.life", Quantity(5000.0))), None)


@pytest.fixture
def record(tmp_path):
    folder = tmp_path / "records"
    folder.mkdir()
    path = folder / "shaft.toml"
    path.write_text(OLD, "utf-8")
    return path


def names(path):
    return sorted(one.name for one in path.parent.iterdir())


def test_a_new_file_and_an_old_one(record):
    write(record, NEW)
    assert record.read_text("utf-8") == NEW
    write(record.with_name("new.toml"), NEW)
    assert names(record) == ["new.toml", "shaft.toml"]
    assert read(record).answers.duty.life == Quantity(5000.0)


def test_the_bytes_are_utf8_with_plain_line_ends(record):
    write(record, "# Förderband\n# 中\n")
    assert record.read_bytes() == b"# F\xc3\xb6rderband\n# \xe4\xb8\xad\n"


@pytest.mark.parametrize("step", ["fsync", "replace", "chmod", "fdopen"])
@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EIO, errno.EDQUOT])
def test_a_step_that_fails_leaves_the_old_file_and_nothing_else(record, monkeypatch, step, number):
    def fail(*_args, **_kwargs):
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(os, step, fail)
    with pytest.raises(OSError, match=os.strerror(number)):
        write(record, NEW)
    assert record.read_text("utf-8") == OLD
    assert names(record) == ["shaft.toml"]


def test_interrupted_by_the_keyboard_it_cleans_up_too(record, monkeypatch):
    def interrupt(*_args):
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "replace", interrupt)
    with pytest.raises(KeyboardInterrupt):
        write(record, NEW)
    assert (record.read_text("utf-8"), names(record)) == (OLD, ["shaft.toml"])


def test_a_text_that_cannot_be_written_leaves_the_old_file(record):
    with pytest.raises(UnicodeEncodeError):
        write(record, "\ud800")
    assert (record.read_text("utf-8"), names(record)) == (OLD, ["shaft.toml"])


def test_the_text_is_on_the_disk_before_the_name_points_at_it(record, monkeypatch):
    steps = []
    for step in ("fsync", "replace"):
        real = getattr(os, step)
        monkeypatch.setattr(os, step, lambda *args, step=step, real=real: (steps.append(step), real(*args))[1])
    write(record, NEW)
    assert steps == ["fsync", "replace", "fsync"]  # the file, the rename, the folder that holds the new name


def test_a_folder_that_cannot_be_synced_is_no_failure(record, monkeypatch):
    real = os.fsync

    def only_files(handle):
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            raise OSError(errno.EINVAL, "not here")
        real(handle)

    monkeypatch.setattr(os, "fsync", only_files)
    write(record, NEW)
    assert record.read_text("utf-8") == NEW


def test_a_symbolic_link_keeps_pointing_at_the_record(record, tmp_path):
    link = tmp_path / "link.toml"
    link.symlink_to(record)
    write(link, NEW)
    assert link.is_symlink()
    assert record.read_text("utf-8") == NEW
    assert names(record) == ["shaft.toml"]


def test_a_link_to_nothing_yet_makes_the_file_it_points_at(record, tmp_path):
    link = tmp_path / "link.toml"
    link.symlink_to(record.with_name("later.toml"))
    write(link, NEW)
    assert record.with_name("later.toml").read_text("utf-8") == NEW


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o664, 0o444])
def test_permissions_are_kept(record, mode):
    record.chmod(mode)
    write(record, NEW)
    assert stat.S_IMODE(record.stat().st_mode) == mode


def test_a_new_file_has_the_permissions_that_any_new_file_gets(record):
    other = record.with_name("other.toml")
    other.touch()
    write(record.with_name("new.toml"), NEW)
    assert record.with_name("new.toml").stat().st_mode == other.stat().st_mode


def test_a_name_as_long_as_the_file_system_allows(record):
    path = record.with_name("x" * 250 + ".toml")
    write(path, NEW)
    assert path.read_text("utf-8") == NEW


def test_no_folder_no_file(record):
    with pytest.raises(FileNotFoundError):
        write(record.parent / "missing" / "shaft.toml", NEW)
    with pytest.raises(OSError):  # noqa: PT011 - a folder stands in the way; which error depends on the system
        write(record.parent, NEW)
    assert names(record) == ["shaft.toml"]
